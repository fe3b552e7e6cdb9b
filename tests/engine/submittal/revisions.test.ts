import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { around, extent, textBox } from '../../../engine/drawing/extent.ts';
import {
  addComment,
  asLineUp,
  changeComment,
  designOf,
  freeze,
  type Item,
  type LineUp,
  load,
  oneLine,
  review,
  save,
  withValueAt,
} from '../../../engine/index.ts';
import { differences } from '../../../engine/lineup/differences.ts';
import { sha256 } from '../../../engine/lineup/sha256.ts';
import { write } from '../../../engine/submittal/formats.ts';
import { htmlOf } from '../../../engine/submittal/html.ts';
import { packageDrawing } from '../../../engine/submittal/packageDrawing.ts';
import { sectionsOf, usualSheets } from '../../../engine/submittal/sections.ts';

/** What changed since the last issue: found in the data, clouded on the drawing, listed on its sheet, and nothing else. */

const loaded = load(readFileSync(new URL('../../../examples/heron-weir-pumps.json', import.meta.url), 'utf8'));
if (!loaded.ok) throw new Error(loaded.what);
const before = loaded.lineUp;
const idOf = (tag: string): string => [...before.elements, ...before.cables].find((each) => each.tag === tag)?.id ?? '';
const changed = (tag: string, path: string, value: unknown): LineUp => ({
  ...before,
  project: { ...before.project, revision: 'B' },
  elements: before.elements.map((each) => (each.tag === tag ? withValueAt(each, path, value) : each)),
  cables: before.cables.map((each) => (each.tag === tag ? withValueAt(each, path, value) : each)),
});

describe('differences', () => {
  it('are none between a line-up and itself, moved, retyped or issued again', () => {
    const again: LineUp = {
      ...before,
      project: { ...before.project, revision: 'B', date: '2027-01-01', status: 'for record' },
      positions: Object.fromEntries(Object.entries(before.positions).map(([id, at]) => [id, { ...at, x_mm: at.x_mm + 10 }])),
      cables: before.cables.map((each) => ({ ...each, provenance: { length_m: { typed: 'as it was' } } })),
    };
    expect(differences(before, again)).toEqual([]);
  });
  it.each([
    ['W-2A', 'conductor.size', '1 AWG', 'Conductor size', '2\u00a0AWG', '1\u00a0AWG'],
    ['DS-2', 'bondBar', true, 'Bond bar', 'no', 'yes'],
    ['W-2A', 'length_m', 30.48, 'Length, one way', '195\u00a0ft', '100\u00a0ft'],
    ['P-2', 'efficiency_pct', undefined, 'Efficiency', '95\u00a0%', 'not known'],
  ])('name part, value, before and after: %s %s', (tag, path, value, label, was, now) => {
    expect(differences(before, changed(tag, path, value))).toEqual([
      { id: idOf(tag), tag, kind: 'changed', changes: [{ label, before: was, after: now }] },
    ]);
  });
  it('tell what the project changed by the names on the form, and of a field unknown to this version by its own', () => {
    const { project } = before;
    const after: LineUp = {
      ...before,
      project: {
        ...project,
        basis: 'iec',
        altitude_m: 1800,
        designations: { letters: { motor: 'P' } },
        checks: { 'discharge-inception': { off: true, reason: 'asked of the maker' } },
        unknownToThisVersion: 'x',
      },
    };
    expect(differences(before, after)[0]?.changes.map((each) => Object.values(each))).toEqual([
      ['Basis', 'US practice', 'IEC practice'],
      ['Letters of a motor', 'not set', 'P'],
      ['Altitude', 'not set', '5906\u00a0ft'],
      ['Check discharge-inception', 'on', 'switched off, asked of the maker'],
      ['unknownToThisVersion', 'not set', 'x'],
    ]);
  });

  it('name what is new, what is taken out, and what the project changed', () => {
    const without: LineUp = { ...before, cables: before.cables.filter((each) => each.tag !== 'W-2B') };
    expect(differences(before, without).map(({ tag, kind }) => [tag, kind])).toEqual([['W-2B', 'removed']]);
    expect(differences(without, before).map(({ tag, kind }) => [tag, kind])).toEqual([['W-2B', 'added']]);
    const limited: LineUp = { ...before, project: { ...before.project, limits: { leadDrop_pct: 2 } } };
    expect(differences(before, limited).map(({ tag, changes }) => [tag, changes[0]?.label])).toEqual([['project', 'Drop in a motor lead']]);
  });
});

describe('clouds', () => {
  // Bumps are the only paths that are drawn in the second ink, and without a filling.
  const clouds = (items: readonly Item[]) => items.filter((item) => item.t === 'path' && item.ink === 'ink2' && item.fill === undefined);
  const now = changed('W-2A', 'conductor.size', '1 AWG');
  const drawing = packageDrawing(now, review(now), before);
  it('stand round exactly what changed', () => {
    expect(clouds(drawing.items).length).toBe(1);
    const cloud = extent(clouds(drawing.items));
    const cable = drawing.parts.find((part) => part.id === idOf('W-2A'));
    if (!cable) throw new Error('the cable is not drawn');
    expect(cloud.x).toBeLessThan(cable.x + cable.w / 2);
    expect(cloud.x + cloud.w).toBeGreaterThan(cable.x + cable.w / 2);
    expect(cloud.y).toBeGreaterThan(cable.y - 3);
    expect(cloud.y + cloud.h).toBeLessThan(cable.y + cable.h + 3);
  });
  it('are told of beside the drawing, where there are any', () => {
    const told = (against: LineUp | undefined) =>
      sectionsOf(now, review(now), { sheets: ['legend'], wide: true, date: '2026-11-25', against })
        .flatMap(({ blocks }) => blocks)
        .some((block) => block.t === 'pictures' && block.pictures.some(({ says }) => says.includes('new or changed in this revision')));
    expect([told(before), told(now), told(undefined)]).toEqual([true, false, false]);
  });
  it('are named by a triangle with the revision, and no text lies under one', () => {
    const letters = drawing.items.filter((item) => item.t === 'text' && item.text === 'B');
    expect(letters.length).toBe(1);
    const cloud = extent(clouds(drawing.items));
    for (const item of drawing.items) {
      if (item.t !== 'text') continue;
      const both = around([textBox(item), cloud]);
      const apart = both.w > textBox(item).w + cloud.w - 0.3 || both.h > textBox(item).h + cloud.h - 0.3;
      expect(apart, item.text).toBe(true);
    }
  });
  it('name the end of a longer revision, which tells it from the others', () => {
    const tenth = { ...now, project: { ...now.project, revision: 'P77' } };
    expect(packageDrawing(tenth, review(tenth), before).items.filter((item) => item.t === 'text' && item.text === '77').length).toBe(1);
  });
  it('are none where no earlier issue is named', () => {
    expect(clouds(oneLine(now, review(now)).items)).toEqual([]);
  });
  it('every change stands in the list', () => {
    const [section] = sectionsOf(now, review(now), { sheets: ['revisions'], wide: true, date: '2026-11-25', against: before });
    const [first] = section?.blocks ?? [];
    expect(first?.title).toBe('Changes since revision A');
    expect(first?.t === 'table' ? first.rows : []).toEqual([['W-2A', 'changed', 'Conductor size', '2\u00a0AWG', '1\u00a0AWG']]);
  });
});

describe('what changed beside the parts', () => {
  const first = before.elements[0]?.id ?? '';
  // The note has the id of a part.
  const now: LineUp = {
    ...before,
    project: { ...before.project, revision: 'B', checkedBy: 'B. Else' },
    notes: [{ id: first, says: 'Torque terminals', parts: [first] }],
    comments: [{ id: 'c1', number: '1', says: 'Too thin?' }],
  };
  const rowsOf = (lineUp: LineUp, against: LineUp) => {
    const [section] = sectionsOf(lineUp, review(lineUp), { sheets: ['revisions'], wide: true, date: '2026-11-25', against });
    return (section?.blocks ?? []).flatMap((block) => (block.t === 'table' ? [block.rows.filter((row) => row.some(Boolean))] : []));
  };
  const tag = before.elements[0]?.tag ?? '';
  it('is listed, and told of in the history', () => {
    const [changes, history] = rowsOf(now, before);
    expect(changes).toEqual([
      ['title block', 'changed', 'Checked by', before.project.checkedBy ?? 'not set', 'B. Else'],
      ['note 1', 'new', 'Says', '–', 'Torque terminals'],
      ['note 1', 'new', 'Points to', '–', tag],
    ]);
    expect(history?.at(-1)?.[2]).toContain('Changed: title block, note 1.');
    // Comments are kept with a document, not with an issue: only another state of the document has some to compare with.
    const asked: LineUp = { ...now, comments: [{ id: 'c1', number: '1', says: 'Too thin?', reply: 'No.' }] };
    expect(rowsOf(asked, now)[0]).toEqual([['comment 1', 'changed', 'Reply', '–', 'No.']]);
  });
  it('is neither clouded nor marked', () => {
    const { items } = packageDrawing(now, review(now), before);
    expect(items.filter((item) => item.t === 'path' && item.ink === 'ink2' && item.fill === undefined)).toEqual([]);
    const sheets = sectionsOf(now, review(now), { sheets: ['equipment', 'cables'], wide: true, date: '2026-11-25', against: before });
    const tables = sheets.flatMap(({ blocks }) => blocks.flatMap((block) => (block.t === 'table' ? [block] : [])));
    expect(tables.flatMap(({ changed: marks = [] }) => marks.filter((mark) => mark !== undefined))).toEqual([]);
  });
});

const issued = freeze(before, { date: '2026-11-26', says: 'For approval', by: 'A. N. Other', checkedBy: 'B. Else' });
const with_ = (lineUp: LineUp, tag: string, path: string, value: unknown): LineUp => ({
  ...lineUp,
  cables: lineUp.cables.map((each) => (each.tag === tag ? withValueAt(each, path, value) : each)),
});
const tablesOf = (lineUp: LineUp, against?: LineUp) => {
  const [section] = sectionsOf(lineUp, review(lineUp), { sheets: ['revisions'], wide: true, date: '2026-12-01', against });
  return (section?.blocks ?? []).flatMap((each) => (each.t === 'table' ? [each] : []));
};
const filled = (rows: readonly (readonly string[])[] = []) => rows.filter((row) => row.some((cell) => cell !== ''));

describe('the sheet of revisions', () => {
  const next = with_(issued, 'W-2A', 'conductor.size', '1 AWG');
  it('is in the set when there is an earlier issue or a comment', () => {
    expect(usualSheets(before, review(before))).not.toContain('revisions');
    expect(usualSheets(issued, review(issued))).toContain('revisions');
    const asked = addComment(before, { says: 'Why?' });
    expect(usualSheets(asked, review(asked))).toContain('revisions');
  });
  it('lists the issues with what each changed in the one before, and this one last', () => {
    const third = with_(freeze(next, { date: '2026-11-28' }), 'W-2B', 'length_m', 12);
    const [changes, history] = tablesOf(third);
    expect(changes?.title).toBe('Changes since revision B');
    expect(filled(history?.rows)).toEqual([
      ['A', '2026-11-26', 'For approval', 'A. N. Other', 'B. Else'],
      ['B', '2026-11-28', 'Changed: W-2A.', '', ''],
      ['C', '2026-12-01', expect.stringContaining('Changed: W-2B.'), before.project.createdBy ?? '', before.project.checkedBy ?? ''],
    ]);
  });
  it('compares with the issue that is named rather than with the last one', () => {
    const third = freeze(next, { date: '2026-11-28' });
    expect(tablesOf(third)[0]?.rows).toEqual([]);
    expect(tablesOf(third, before)[0]?.rows.map(([tag]) => tag)).toEqual(['W-2A']);
  });
  it('prints comments with their replies and, closed, what changed in what they are tied to, whatever was issued since', () => {
    const asked = addComment(issued, { says: 'Too thin?', from: 'Reviewer', sheet: '3', parts: [idOf('W-2A')] });
    const open = addComment(asked, { says: 'And this?', parts: [idOf('W-2A')] });
    const changedThen = with_(
      changeComment(open, 'c1', { reply: 'Made thicker.', closed: '2026-11-27' }),
      'W-2A',
      'conductor.size',
      '1 AWG',
    );
    const rows = [
      ['1', '3', 'Too thin? (Reviewer)', 'Made thicker.\nSince revision A: W-2A: Conductor size 2\u00a0AWG, now 1\u00a0AWG.', '2026-11-27'],
      ['2', '', 'And this?', '', ''],
    ];
    expect(filled(tablesOf(changedThen).at(-1)?.rows)).toEqual(rows);
    expect(filled(tablesOf(freeze(changedThen, { date: '2026-11-28' })).at(-1)?.rows)).toEqual(rows);
    const gone = { ...changedThen, cables: changedThen.cables.filter((each) => each.tag !== 'W-2A') };
    expect(filled(tablesOf(gone).at(-1)?.rows)[0]?.[3]).toContain('W-2A is taken out');
    const same = changeComment(open, 'c1', { closed: '2026-11-27' });
    expect(filled(tablesOf(same).at(-1)?.rows)[0]?.[3]).toBe('Since revision A nothing changed in W-2A.');
  });
});

describe('marks in the schedules', () => {
  const tags = ['F-2', 'W-2A'];
  const revised = tags.reduce((lineUp, tag) => with_(lineUp, tag, 'lengthOrigin', 'measured'), issued);
  const answer = review(revised);
  const sections = sectionsOf(revised, answer, { sheets: ['cables', 'equipment'], wide: true, date: '2026-12-01' });
  const tables = sections.flatMap(({ blocks }) => blocks.flatMap((each) => (each.t === 'table' ? [each] : [])));
  it('and clouds on the one-line are those of the changed cables, and of nothing else', () => {
    const inRows = tables.flatMap(({ rows, changed: marks }) => rows.flatMap(([tag], i) => (marks?.[i] === 'B' ? [tag] : [])));
    expect(inRows.toSorted()).toEqual(tags.toSorted());
    expect(tables.flatMap(({ columns }) => columns.filter((each) => each.changed !== undefined))).toEqual([]);
    const { items } = packageDrawing(revised, answer, undefined);
    expect(items.filter((item) => item.t === 'path' && item.ink === 'ink2' && item.fill === undefined).length).toBe(tags.length);
    expect(items.filter((item) => item.t === 'text' && item.text === 'B').length).toBe(tags.length);
  });
  it('stand beside a motor in its plate too, and what was taken out is named', () => {
    const without: LineUp = {
      ...issued,
      elements: issued.elements.map((each) => (each.tag === 'P-2' ? withValueAt(each, 'efficiency_pct', 90) : each)),
      cables: issued.cables.filter((each) => each.tag !== 'W-2B'),
    };
    const shown = sectionsOf(without, review(without), { sheets: ['cables', 'equipment'], wide: true, date: '2026-12-01' }).flatMap(
      ({ blocks }) => blocks.flatMap((each) => (each.t === 'table' ? [each] : [])),
    );
    const intro = (title: string) => shown.find((each) => each.title === title)?.intro;
    expect(intro('Cable schedule')).toBe('Nothing is new or entered otherwise since revision A. Taken out since revision A: W-2B.');
    expect(intro('Equipment list')).toContain('A triangle: new');
    expect(intro('Equipment list')).not.toContain('Taken out');
    const heads = shown.flatMap(({ columns }) => columns.flatMap((each) => (each.changed === 'B' ? [each.head] : [])));
    expect(heads).toEqual(['P-2']);
  });
  it('are drawn in the report, with words', () => {
    const page = new TextDecoder().decode(htmlOf(revised, answer, { date: '2026-12-01', sheets: ['cables'] }));
    const forms = new TextDecoder().decode(htmlOf(revised, answer, { date: '2026-12-01', sheets: ['revisions'] }));
    expect(forms, 'rows for a pencil').not.toMatch(/<tr>(<t[dh][^>]*><\/t[dh]>)+<\/tr>/);
    expect(forms).toContain('No comments.');
    expect(page.match(/aria-label="changed in revision B"/g)?.length).toBe(tags.length);
    expect(new TextDecoder().decode(htmlOf(before, review(before), { date: '2026-12-01', sheets: ['cables'] }))).not.toContain(
      'changed in',
    );
  });
});

describe('the hash on the cover', () => {
  it('is that of the file that goes out with the package', async () => {
    const [file] = await write('json', { lineUp: issued, review: review(issued), date: '2026-11-26', fonts: () => Promise.reject() });
    expect(file?.ending).toBe('.issued.json');
    expect(new TextDecoder().decode(file?.bytes)).toBe(save(asLineUp(designOf(issued))));
  });
  const named = (lineUp: LineUp): string | undefined =>
    /SHA-256 of the line-up file: ([0-9a-f]{64})/.exec(
      new TextDecoder().decode(htmlOf(lineUp, review(lineUp), { date: '2026-11-26', sheets: ['revisions'] })),
    )?.[1];
  it('is that of the file with nothing beside it; comments and issues do not change it', () => {
    expect(named(before)).toBe(sha256(save(before)));
    expect(named(issued)).toBe(sha256(save(asLineUp(designOf(issued)))));
    const [issue] = issued.issues ?? [];
    if (!issue) throw new Error('nothing was issued');
    expect(named({ ...before, issues: [issue] })).toBe(named(before));
    const asked = addComment(before, { says: 'Why?' });
    expect(named(asked)).toBe(named(before));
    expect(named(changeComment(asked, 'c1', { reply: 'So that.', closed: '2026-11-27' }))).toBe(named(before));
  });
});

describe('the history of a line-up that was never frozen', () => {
  const introOf = (lineUp: LineUp, against?: LineUp) =>
    sectionsOf(lineUp, review(lineUp), { sheets: ['revisions'], wide: true, date: '2026-11-25', against })
      .flatMap(({ blocks }) => blocks)
      .flatMap((block) => (block.t === 'table' && block.title === 'Revision history' ? [block.intro] : []));
  it('says that it lists the present issue alone, and with what it is compared', () => {
    expect(introOf(changed('DS-2', 'bondBar', true), before)).toEqual([
      'No earlier issue is kept in this line-up: only the present one is listed. It is compared with revision A, from a file of its own.',
    ]);
    expect(introOf(before)).toEqual(['No earlier issue is kept in this line-up: only the present one is listed.']);
    expect(introOf(freeze(before, { date: '2026-11-25' }))).toEqual([undefined]);
  });
});
