import { describe, expect, it } from 'vitest';
import { giveValues, holdValues } from '../../editor/commands/values.ts';
import { excerpt, fromText, more, putIn, toText } from '../../editor/store/copies.ts';
import { insertInto, reconnect, setValue, withPlaces } from '../../editor/store/edits.ts';
import { type Cable, type LineUp, lineUpSchema } from '../../engine/index.ts';
import { manyRuns } from '../engine/manyRuns.ts';

/** Copies: renumbered, joined as their originals are, and good documents. */

const site = withPlaces(manyRuns(3));
const tagsOf = (lineUp: LineUp) => [...lineUp.elements, ...lineUp.cables].map((part) => part.tag);
const oneOf = (kind: string) => site.elements.filter((each) => each.kind === kind).at(-1)?.id ?? '';
/** The last drive with all that hangs below it. */
const run = (): readonly string[] => {
  const ids = new Set([oneOf('drive')]);
  for (let before = 0; before !== ids.size; ) {
    before = ids.size;
    for (const { from, to } of site.cables) if (ids.has(from.element ?? '') && to.element) ids.add(to.element);
  }
  return [...ids];
};

describe('copies', () => {
  it('an excerpt holds the chosen parts and the cables between them alone', () => {
    const clip = excerpt(site, run());
    const ids = new Set(clip?.elements.map((each) => each.id));
    expect(clip?.cables.length).toBeGreaterThan(0);
    for (const { from, to } of clip?.cables ?? []) expect([ids.has(from.element ?? ''), ids.has(to.element ?? '')]).toEqual([true, true]);
    expect(excerpt(site, [site.cables[0]?.id ?? ''])).toBeNull();
  });

  it('goes over the clipboard as a file does, and what is no line-up is refused', () => {
    const clip = excerpt(site, run());
    if (!clip) throw new Error('nothing chosen');
    expect(fromText(toText(clip))?.elements).toEqual(clip.elements);
    expect(fromText('210 ft')).toBeNull();
    expect(fromText('{"__proto__":{"elements":[1]}}')).toBeNull();
  });

  it('have nothing recorded on site: that was said of the original', () => {
    const built = { asBuilt: { length_m: 7 }, provenance: { 'asBuilt.length_m': { typed: '7 m' } } };
    const recorded: LineUp = { ...site, cables: site.cables.map((each) => ({ ...each, ...built })) };
    const made = more(recorded, run(), 1)?.lineUp;
    expect(JSON.stringify(made).match(/asBuilt/g)?.length).toBe(JSON.stringify(recorded).match(/asBuilt/g)?.length);
    const [cable] = recorded.cables.filter((each) => each.kind === 'cable');
    if (!cable) throw new Error('no cable');
    const split = insertInto(recorded, cable.id, 'disconnect', { x_mm: 0, y_mm: 0 })?.lineUp;
    const landed = reconnect(recorded, cable.id, 'to', { element: recorded.elements[0]?.id ?? '', port: 'load' });
    for (const each of [split, landed]) expect(JSON.stringify(each?.cables.find(({ id }) => id === cable.id))).not.toContain('asBuilt');
  });

  it('of values alone leave each part what was found of itself', () => {
    const [a, b] = site.cables.filter((each) => each.kind === 'cable');
    if (!a || !b) throw new Error('no two cables');
    const recorded = setValue(setValue(site, a.id, 'asBuilt.length_m', 7, '7 m'), b.id, 'asBuilt.length_m', 9, '9 m');
    const cable = (lineUp: LineUp, id: string) => lineUp.cables.find((each) => each.id === id);
    holdValues(cable(setValue(recorded, a.id, 'conductor.size', '500 kcmil'), a.id) ?? a);
    expect(cable(giveValues(recorded, [b.id]), b.id)).toMatchObject({
      conductor: { size: '500 kcmil' },
      asBuilt: { length_m: 9 },
      provenance: { 'asBuilt.length_m': { typed: '9 m' } },
    });
    expect(cable(giveValues(site, [b.id]), b.id)).not.toHaveProperty('asBuilt');
  });

  it('every tag and id is there once, and the document is a good one', () => {
    const made = more(site, run(), 11);
    if (!made) throw new Error('nothing made');
    const tags = tagsOf(made.lineUp);
    expect(new Set(tags).size).toBe(tags.length);
    const ids = [...made.lineUp.elements, ...made.lineUp.cables].map((part) => part.id);
    expect(new Set(ids).size).toBe(ids.length);
    expect(lineUpSchema.safeParse(made.lineUp).success).toBe(true);
    expect(made.lineUp.elements.length).toBe(site.elements.length + 11 * run().length);
  });

  it.each([
    [['W-2A', 'W-2B'], 2, ['W-3A', 'W-3B', 'W-4A', 'W-4B']],
    [['W-2A', 'W-2B', 'W-3A'], 1, ['W-4A', 'W-4B', 'W-5A']],
    [['P-07-A', 'P-07-B'], 1, ['P-08-A', 'P-08-B']],
    [['P-07', 'P-08'], 2, ['P-09', 'P-10', 'P-11', 'P-12']],
    [['2A', '2'], 1, ['3A', '3']],
  ] as const)('%j, %i more: the halves of a run stay together', (tags, count, expected) => {
    const cables = site.cables.slice(0, tags.length).map((each, i) => ({ ...each, tag: tags[i] ?? '' }));
    const ids = cables.flatMap(({ from, to }) => [from.element ?? '', to.element ?? '']);
    const made = more({ ...site, cables }, ids, count);
    expect(made?.lineUp.cables.slice(cables.length).map((each) => each.tag)).toEqual(expected);
  });

  it('a name without a number gets one, or that of the project', () => {
    const [supply] = site.elements.filter((each) => each.kind === 'supply');
    if (!supply) throw new Error('no supply');
    const named: LineUp = { ...site, elements: [{ ...supply, tag: 'UTIL' }], cables: [] };
    const twice = more(named, [supply.id], 2)?.lineUp.elements.map((each) => each.tag);
    expect(twice).toEqual(['UTIL', 'UTIL-2', 'UTIL-3']);
    const own = { ...named, project: { ...named.project, designations: { letters: { supply: 'U' } } } };
    expect(more(own, [supply.id], 1)?.lineUp.elements.map((each) => each.tag)).toEqual(['UTIL', 'U-1']);
  });

  it('is fed from where its original is', () => {
    const made = more(site, run(), 2);
    const drives = made?.lineUp.elements.filter((each) => each.kind === 'drive' && made.ids.includes(each.id)) ?? [];
    const feedOf = (lineUp: LineUp, id: string) => lineUp.cables.find((each) => each.to.element === id)?.from.element;
    expect(drives).toHaveLength(2);
    for (const drive of drives) expect(feedOf(made?.lineUp ?? site, drive.id)).toBe(feedOf(site, oneOf('drive')));
  });

  it('keeps its tag where that is free, and its neighbours in a raceway are its own copies', () => {
    const clip = excerpt(site, run());
    if (!clip) throw new Error('nothing chosen');
    const empty = { ...site, elements: [], cables: [], positions: {} };
    expect(tagsOf(putIn(empty, clip, [{ x_mm: 0, y_mm: 0 }]).lineUp)).toEqual(tagsOf(clip));
    const whole = excerpt(
      site,
      site.elements.map(({ id }) => id),
    );
    const [first, ...rest] = whole?.cables ?? [];
    if (!whole || !first) throw new Error('no cables');
    const named = (each: Cable, sharedWith: string[]): Cable => ({ ...each, installation: { ...each.installation, sharedWith } });
    const put = putIn(site, { ...whole, cables: [named(first, []), ...rest.map((each) => named(each, [first.id, 'elsewhere']))] }, [
      { x_mm: 0, y_mm: 0 },
    ]);
    const made = put.lineUp.cables.filter((each) => put.ids.includes(each.id));
    for (const each of made) expect(each.installation.sharedWith).toEqual(made.map(({ id }) => id).filter((id) => id !== each.id));
    // What it lay beside was not copied: beside what the copy lies is not known.
    const parted = putIn(site, { ...whole, cables: [named(first, ['elsewhere'])] }, [{ x_mm: 0, y_mm: 0 }]);
    expect(parted.lineUp.cables.at(-1)?.installation.sharedWith).toBeUndefined();
    const alone = putIn(site, { ...whole, cables: [named(first, [])] }, [{ x_mm: 0, y_mm: 0 }]);
    expect(alone.lineUp.cables.at(-1)?.installation.sharedWith).toEqual([]);
  });
});
