import { describe, expect, it } from 'vitest';
import { freeTags, halfTags, type LineUp, newLineUp, renumber } from '../../../engine/index.ts';
import { wholeTag } from '../../../engine/lineup/designation.ts';
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
});
