import { describe, expect, it } from 'vitest';
import { moveLabels, putLabelsBack } from '../../../editor/store/labels.ts';
import { meets } from '../../../engine/drawing/extent.ts';
import { addNote, type Item, type LineUp, moveNote, notesOf, oneLine, remove, review } from '../../../engine/index.ts';
import { sectionsOf } from '../../../engine/submittal/sections.ts';
import { threeRuns } from './threeRuns.ts';

/** What stands beside the parts by someone's wish: notes, labels put elsewhere, grounding conductors. */

const site = threeRuns();
const answer = review(site);
const drawn = (lineUp: LineUp) => oneLine(lineUp, answer);
const part = (lineUp: LineUp, tag: string) => {
  const id = [...lineUp.elements, ...lineUp.cables].find((each) => each.tag === tag)?.id ?? '';
  const found = drawn(lineUp).parts.find((each) => each.id === id);
  if (!found) throw new Error(`${tag} is not drawn`);
  return found;
};
const idOf = (tag: string): string => part(site, tag).id;
const texts = (items: readonly Item[]): readonly string[] => items.flatMap((each) => (each.t === 'text' ? [each.text] : []));
const labelsApart = (lineUp: LineUp): boolean => {
  const boxes = drawn(lineUp).parts.flatMap((each) => each.label ?? []);
  return boxes.every((a, i) => boxes.slice(i + 1).every((b) => !meets(a, b)));
};

describe('notes', () => {
  const general = addNote(site, 'Verify on site.');
  const noted = addNote(general, 'Copper tails.', [idOf('M-1'), idOf('W-1A')]);

  it('stand in a square beside each part they are tied to, by their place in the list', () => {
    expect(texts(part(noted, 'M-1').said)).toContain('2');
    expect(texts(part(noted, 'W-1A').said)).toContain('2');
    expect(texts(part(noted, 'M-2').said)).not.toContain('2');
    const second = notesOf(noted)[1]?.id ?? '';
    expect(texts(part(moveNote(noted, second, -1), 'M-1').said)).toContain('1');
  });

  it('cover no other label', () => {
    const many = Array.from({ length: 12 }).reduce<LineUp>((before, _, i) => addNote(before, `Note ${i}`, [idOf('VFD-2')]), site);
    expect(labelsApart(many)).toBe(true);
  });

  it('are listed on the sheet of notes, with the parts they are for', () => {
    const [legend] = sectionsOf(noted, answer, { sheets: ['legend'], wide: true, date: '2026-11-26' });
    const table = legend?.blocks.find((each) => each.title === 'Notes of this drawing');
    expect(table?.t === 'table' && table.rows).toEqual([
      ['1', 'Verify on site.', 'all'],
      ['2', 'Copper tails.', 'M-1, W-1A'],
    ]);
  });

  it('stay when a part goes, and point to what is left; a cable goes with the part it lands on', () => {
    const gone = remove(noted, [idOf('M-1')]);
    expect(notesOf(gone)[1]?.parts).toEqual([idOf('W-1A')]);
    expect(notesOf(remove(noted, [idOf('VFD-1')]))[1]?.parts).toEqual([idOf('M-1')]);
  });
});

describe('labels put elsewhere by hand', () => {
  it('stand just there, follow their part, and a thin line leads back from far away', () => {
    const before = part(site, 'VFD-2').label;
    const moved = moveLabels(site, [idOf('VFD-2')], 40, -20);
    const after = part(moved, 'VFD-2').label;
    expect([(after?.x ?? 0) - (before?.x ?? 0), (after?.y ?? 0) - (before?.y ?? 0)]).toEqual([
      expect.closeTo(40, 6),
      expect.closeTo(-20, 6),
    ]);
    const leaders = (lineUp: LineUp) => part(lineUp, 'VFD-2').said.filter((each) => each.t === 'line' && each.ink === 'ink3').length;
    expect([leaders(site), leaders(moved)]).toEqual([0, 1]);
    expect(labelsApart(moved)).toBe(true);
    expect(drawn(putLabelsBack(moved, [idOf('VFD-2')]))).toEqual(drawn(site));
  });

  it('go with a part that is taken out', () => {
    const moved = moveLabels(site, [idOf('M-1')], 5, 5);
    expect(remove(moved, [idOf('M-1')]).labels).toEqual({});
  });
});

describe('grounding conductors', () => {
  const shown = (landed: number | undefined): LineUp => ({
    ...site,
    project: { ...site.project, showGrounds: true },
    cables: site.cables.map((each) =>
      each.tag === 'W-1A'
        ? {
            ...each,
            grounds: { ...each.grounds, count: 3 },
            from: { ...each.from, groundsLanded: 3 },
            to: { ...each.to, groundsLanded: landed },
          }
        : each,
    ),
  });
  const dashes = (lineUp: LineUp): number => part(lineUp, 'W-1A').items.filter((each) => each.t === 'line' && each.dash?.[0] === 4).length;

  it('are drawn on request alone, and end openly where some are not landed', () => {
    expect(dashes(site)).toBe(0);
    expect(dashes(shown(3))).toBe(1);
    const rings = (lineUp: LineUp) => part(lineUp, 'W-1A').items.filter((each) => each.t === 'circle' && each.r === 0.8).length;
    expect([rings(shown(3)), rings(shown(1))]).toEqual([0, 1]);
    const asked = (lineUp: LineUp) => part(lineUp, 'W-1A').items.filter((each) => each.t === 'circle' && each.dash).length;
    expect([asked(shown(3)), asked(shown(undefined))]).toEqual([0, 1]);
  });
});
