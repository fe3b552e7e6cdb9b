import { describe, expect, it } from 'vitest';
import { freeTags, halfTags, type LineUp, load, newLineUp, renumber, save } from '../../../engine/index.ts';
import { DESIGNATED, USUAL_LETTERS, wholeTag } from '../../../engine/lineup/designation.ts';
import { bareCable, barePart as part } from '../bareParts.ts';
import { manyRuns } from '../manyRuns.ts';

/** Parts are named by the project's pattern. */

const patterned = (designations: LineUp['project']['designations']): LineUp => {
  const empty = newLineUp();
  return { ...empty, project: { ...empty.project, designations } };
};

describe('names of parts', () => {
  it('the usual ones where the project says nothing', () => {
    const next = freeTags(newLineUp());
    expect([next('drive'), next('drive'), next('cable'), next('motor')]).toEqual(['VFD-1', 'VFD-2', 'W-1', 'M-1']);
  });

  it('by letters, separator and figures of the project', () => {
    const next = freeTags(patterned({ separator: 'none', digits: 3, letters: { drive: 'TA', motor: 'P' } }));
    expect([next('drive'), next('motor'), next('motor'), next('bus')]).toEqual(['TA001', 'P001', 'P002', 'B001']);
    expect(freeTags(patterned({ separator: 'point' }))('motor')).toBe('M.1');
  });

  it('renumbering counts each kind from the left and down the sheet, and no link is lost', () => {
    const site = manyRuns(4);
    const motors = site.elements.filter((each) => each.kind === 'motor');
    const positions = Object.fromEntries(site.elements.map((each) => [each.id, { x_mm: 0, y_mm: 0 }]));
    motors.forEach((motor, i) => {
      positions[motor.id] = { x_mm: 300 - 100 * i, y_mm: 200 };
    });
    const made = renumber({ ...site, positions });
    const tags = made.elements.filter((each) => each.kind === 'motor').map((each) => each.tag);
    expect(tags).toEqual(['M-4', 'M-3', 'M-2', 'M-1']);
    const all = [...made.elements, ...made.cables].map((each) => each.tag);
    expect(new Set(all).size).toBe(all.length);
    expect(made.cables.map(({ from, to }) => [from.element, to.element])).toEqual(
      site.cables.map(({ from, to }) => [from.element, to.element]),
    );
    expect(renumber(made)).toBe(made);
  });

  const cables = (tags: readonly string[], designations?: LineUp['project']['designations']): LineUp => {
    const [cable] = manyRuns(1).cables;
    if (!cable) throw new Error('no cable');
    return { ...patterned(designations), cables: tags.map((tag, i) => ({ ...cable, id: `c${i}`, tag })) };
  };

  it.each([
    [['W-1'], 'W-1', ['W-1A', 'W-1B']],
    [['W-1', 'W-1A'], 'W-1', ['W-1', 'W-1B']],
    [['W-2A', 'W-2B'], 'W-2A', ['W-2A', 'W-2C']],
    [['W-2A', 'W-2C'], 'W-2C', ['W-2C', 'W-2D']],
    [['P-07-a'], 'P-07-a', ['P-07-a', 'P-07-b']],
    [['W-1H'], 'W-1H', ['W-1H', 'W-1J']],
    [['Feeder'], 'Feeder', ['Feeder-A', 'Feeder-B']],
    [['W-1Z'], 'W-1Z', ['W-1Z', 'W-1']],
  ] as const)('of %j, the halves of %s are called %j', (tags, whole, halves) => {
    expect(halfTags(cables(tags), whole)).toEqual(halves);
  });

  it('a project that names its cables itself counts on, whatever it says of other kinds', () => {
    expect(halfTags(cables(['W-01'], { digits: 2 }), 'W-01')).toEqual(['W-01', 'W-02']);
    expect(halfTags(cables(['C-1'], { letters: { cable: 'C' } }), 'C-1')).toEqual(['C-1', 'C-2']);
    expect(halfTags(cables(['W-1'], { letters: { motor: 'P' } }), 'W-1')).toEqual(['W-1A', 'W-1B']);
  });

  it.each([
    [['W-1A', 'W-1B'], 'W-1'],
    [['W-1A', 'W-1B', 'W-1C'], 'W-1A'],
    [['W-1A', 'W-1B', 'W-1'], 'W-1A'],
    [['W-1', 'W-2'], 'W-1'],
    [['Feeder', 'W-1B'], 'Feeder'],
  ] as const)('of %j, the first two are one again as %s', (tags, whole) => {
    expect(wholeTag(cables(tags), tags[0], tags[1])).toBe(whole);
  });

  it('have letters for every kind, each its own', () => {
    // As the README and the sheet of the title block tell them.
    expect(DESIGNATED.map((kind) => `${kind} ${USUAL_LETTERS[kind]}`)).toEqual([
      'supply S',
      'transformer T',
      'bus B',
      'disconnect DS',
      'reactor L',
      'filter Z',
      'drive VFD',
      'junction JB',
      'contactor K',
      'motor M',
      'cable W',
    ]);
  });

  it('are free: none that stands in the document, nor one that was handed out before', () => {
    const site: LineUp = { ...newLineUp(), elements: [part('motor', 'M-1'), part('bus', 'M-2')], cables: [bareCable('W-1', '', '')] };
    const next = freeTags(site);
    expect([next('motor'), next('motor'), next('cable'), next('drive')]).toEqual(['M-3', 'M-4', 'W-2', 'VFD-1']);
  });

  // IEC 81346-2 has T for transformers and converters, Q for switches of any make.
  const shared = { separator: 'none', letters: { transformer: 'T', drive: 'T', disconnect: 'Q', contactor: 'Q' } } as const;
  it('are each given once, though two kinds have the same letters', () => {
    const next = freeTags(patterned(shared));
    expect([next('drive'), next('transformer'), next('drive'), next('contactor'), next('disconnect')]).toEqual([
      'T1',
      'T2',
      'T3',
      'Q1',
      'Q2',
    ]);
    const site: LineUp = { ...patterned(shared), elements: [part('drive', 'a'), part('transformer', 'b'), part('drive', 'c')] };
    expect(renumber(site).elements.map(({ tag }) => tag)).toEqual(['T1', 'T2', 'T3']);
  });

  it('are what the file may say: these separators, one to six figures, letters that are short', () => {
    const opens = (designations: object) => load(save(patterned(designations as never))).ok;
    expect(
      [
        { separator: 'hyphen' },
        { separator: 'point' },
        { separator: 'none' },
        { digits: 1 },
        { digits: 6 },
        { letters: { motor: 'P' } },
      ].map(opens),
    ).toEqual(Array(6).fill(true));
    expect(
      [
        { separator: 'dash' },
        { separator: '' },
        { digits: 0 },
        { digits: 7 },
        { digits: 1.5 },
        { letters: { motor: '' } },
        { letters: { motor: 'P'.repeat(13) } },
      ].map(opens),
    ).toEqual(Array(7).fill(false));
  });

  const placed = (
    elements: LineUp['elements'],
    at: Readonly<Record<string, readonly [number, number]>>,
    cables: LineUp['cables'] = [],
  ): LineUp => ({
    ...newLineUp(),
    elements,
    cables,
    positions: Object.fromEntries(Object.entries(at).map(([id, [x_mm, y_mm]]) => [id, { x_mm, y_mm }])),
  });
  const named = ({ elements, cables }: LineUp) => [...elements, ...cables].map(({ id, tag }) => `${id} ${tag}`).join(', ');
  it('go down the sheet where parts stand above each other, and by the document where they stand alike or nowhere', () => {
    const motors = ['a', 'b', 'c'].map((id) => part('motor', id));
    expect(named(renumber(placed(motors, { a: [5, 30], b: [5, 20], c: [5, 10] })))).toBe('a M-3, b M-2, c M-1');
    expect(named(renumber(placed(motors, { a: [5, 30], b: [5, 30], c: [5, 30] })))).toBe('a M-1, b M-2, c M-3');
    expect(named(renumber(placed(motors, { a: [1, 0], c: [-1, 0] })))).toBe('a M-3, b M-2, c M-1');
    expect(named(renumber(placed(motors, { a: [0, 0], b: [0, -4], c: [0, 4] })))).toBe('a M-2, b M-1, c M-3');
  });
  it('of a cable go by where it leads to, else by where it comes from', () => {
    const parts = [part('bus', 'a'), part('motor', 'b'), part('motor', 'c')];
    const at = { a: [0, 0], b: [20, 0], c: [10, 0] } as const;
    const cables = [bareCable('x', 'a', 'b'), bareCable('y', 'a', 'c'), bareCable('z', 'b', ''), bareCable('u', '', '')];
    expect(renumber(placed(parts, at, cables)).cables.map(({ id, tag }) => `${id} ${tag}`)).toEqual(['x W-3', 'y W-2', 'z W-4', 'u W-1']);
  });
  it('that stand already leave the same document, and parts that keep theirs the same objects', () => {
    const site = placed([{ ...part('motor', 'a'), tag: 'M-1' }, part('motor', 'b')], { a: [0, 0], b: [1, 0] }, [
      { ...bareCable('x', 'a', 'b'), tag: 'W-1' },
    ]);
    const made = renumber(site);
    expect([made.elements[0], made.cables[0]]).toEqual([site.elements[0], site.cables[0]]);
    expect(made.elements[0]).toBe(site.elements[0]);
    expect(made.elements[1]?.tag).toBe('M-2');
    const wired = { ...made, cables: [{ ...bareCable('x', 'a', 'b'), tag: 'old' }] };
    expect(renumber(wired).cables[0]?.tag).toBe('W-1');
    expect(renumber(made)).toBe(made);
  });
});
