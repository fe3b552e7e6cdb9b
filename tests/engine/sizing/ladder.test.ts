import { describe, expect, it } from 'vitest';
import type { Cable, Verdict } from '../../../engine/index.ts';
import type { Choice } from '../../../engine/sizing/choices.ts';
import { Ladder } from '../../../engine/sizing/ladder.ts';
import type { Choices, Site } from '../../../engine/sizing/site.ts';
import { bareCable } from '../bareParts.ts';

/** What a cable may be made of, with checks that are made up: so each choice can be made to stand or fall. */

interface Said {
  readonly verdict: Verdict;
  readonly missing?: readonly { readonly id: string; readonly field: string }[];
}
type Says = (check: string, choice: Choice, others: Choices) => Verdict | Said | null;

interface Made {
  readonly says?: Says;
  readonly conductor?: Cable['conductor'];
  readonly sizes?: readonly string[];
  readonly mostSets?: number;
  readonly locked?: boolean;
  readonly around?: Choices;
}
const COPPER = { size: '4 AWG', metal: 'copper' } as const;
/** By area: 4 AWG 21.15 mm², 2 AWG 33.63, 1/0 AWG 53.49 (NEC Chapter 9 Table 8). */
const SIZES = ['1/0 AWG', '4 AWG', '2 AWG'];
const AT: readonly [string, number][] = [
  ['4 AWG', 1],
  ['2 AWG', 1],
  ['4 AWG', 2],
  ['1/0 AWG', 1],
  ['2 AWG', 2],
  ['1/0 AWG', 2],
];

function made({ says = () => null, conductor = COPPER, sizes = SIZES, mostSets = 1, locked = false, around = new Map() }: Made) {
  const asked: string[] = [];
  const local = ({ slug }: { slug: string }, id: string, choices: Choices) => {
    const own = choices.get(id);
    if (!own) throw new Error('asked of no choice');
    asked.push(`${slug} ${own.sets}×${own.size}`);
    const said = says(slug, own, choices);
    return said === null ? null : { check: slug, missing: [], subject: { id }, ...(typeof said === 'string' ? { verdict: said } : said) };
  };
  const cable = { ...bareCable('W', '', ''), conductor, length_m: 100 };
  return { asked, ladder: new Ladder({ local } as unknown as Site, cable, sizes, mostSets, locked, () => around) };
}
const all = (ladder: Ladder): readonly (readonly [string, number])[] => {
  const found: (readonly [string, number])[] = [];
  for (let i = 0, at = ladder.at(0); at; at = ladder.at(++i)) found.push([at.size, at.sets]);
  return found;
};

describe('a ladder', () => {
  it('goes from the least conductor to the most, with the sets that are allowed or that it has', () => {
    expect(all(made({}).ladder)).toEqual([
      ['4 AWG', 1],
      ['2 AWG', 1],
      ['1/0 AWG', 1],
    ]);
    const { ladder } = made({ mostSets: 2 });
    expect(all(ladder)).toEqual(AT);
    expect([ladder.bottom, ladder.top]).toEqual([
      { size: '4 AWG', sets: 1 },
      { size: '1/0 AWG', sets: 2 },
    ]);
    expect([ladder.least, ladder.most]).toEqual([ladder.bottom, ladder.top]);
    expect(made({ conductor: { ...COPPER, sets: 3 }, mostSets: 2 }).ladder.top).toEqual({ size: '1/0 AWG', sets: 3 });
    expect(made({ conductor: {}, mostSets: 1 }).ladder.top).toEqual({ size: '1/0 AWG', sets: 1 });
  });

  it('leaves out what a check objects to, and asks each check of each choice once', () => {
    const { ladder, asked } = made({ says: (check, { size }) => (check === 'terminal-range' && size === '2 AWG' ? 'fail' : 'pass') });
    expect(ladder.at(1)).toEqual({ size: '1/0 AWG', sets: 1 });
    expect(all(ladder)).toEqual([
      ['4 AWG', 1],
      ['1/0 AWG', 1],
    ]);
    expect(ladder.at(2)).toBeUndefined();
    expect(asked).toHaveLength(new Set(asked).size);
  });

  it('looks no farther than it is asked', () => {
    const { ladder, asked } = made({});
    ladder.at(0);
    expect(asked.filter((each) => each.endsWith('1/0 AWG') && !each.startsWith('lead-drop')).length).toBeLessThan(asked.length);
    const seen = asked.length;
    ladder.at(0);
    expect(asked).toHaveLength(seen);
  });

  it('asks with the kindest of the cables beside it', () => {
    const around = new Map([['V', { size: '14 AWG', sets: 1 }]]);
    const says: Says = (check, _, others) => (check === 'conduit-fill' && others.get('V')?.size !== '14 AWG' ? 'fail' : 'pass');
    expect(all(made({ says, around }).ladder)).toHaveLength(3);
  });

  it('of a locked cable has what it has, whatever is said of it', () => {
    const { ladder } = made({ locked: true, says: () => 'fail' });
    expect([ladder.at(0), ladder.at(1), ladder.least, ladder.most]).toEqual([
      { size: '4 AWG', sets: 1 },
      undefined,
      { size: '4 AWG', sets: 1 },
      { size: '4 AWG', sets: 1 },
    ]);
    expect([ladder.bottom, ladder.top]).toEqual([
      { size: '4 AWG', sets: 1 },
      { size: '1/0 AWG', sets: 1 },
    ]);
    // Of no size that a table has there is nothing to keep.
    expect(made({ locked: true, conductor: {} }).ladder.most).toEqual({ size: '1/0 AWG', sets: 1 });
    expect(made({ conductor: { size: '2 AWG', metal: 'copper' } }).ladder.least).toEqual({ size: '4 AWG', sets: 1 });
  });

  it('bounds what lies above by the thinnest wire that makes as much in the sets there are', () => {
    const { ladder } = made({ mostSets: 2 });
    // Twice 21.15 are 42.3; twice 33.63 are 67.26.
    expect(AT.map((_, i) => ladder.leastAbove(i).size)).toEqual(['4 AWG', '4 AWG', '4 AWG', '2 AWG', '2 AWG', '1/0 AWG']);
    expect(AT.every((_, i) => ladder.leastAbove(i).sets === 1)).toBe(true);
    expect(ladder.leastAbove(6)).toEqual(ladder.least);
    const single = made({});
    expect([0, 1, 2].map((i) => single.ladder.leastAbove(i).size)).toEqual(['4 AWG', '2 AWG', '1/0 AWG']);
    expect(made({ locked: true, conductor: { size: '2 AWG', metal: 'copper' } }).ladder.leastAbove(0)).toEqual({ size: '2 AWG', sets: 1 });
  });

  it('tells the volume of a step, and no end of it beyond the last', () => {
    const { ladder } = made({});
    // 100 m × 3 × 33.63 mm².
    expect(ladder.volume_m3(1)).toBeCloseTo(0.010089, 4);
    expect(ladder.volume_m3(3)).toBe(Number.POSITIVE_INFINITY);
  });

  it('steps down by a size with as many sets', () => {
    const { ladder } = made({ mostSets: 2 });
    const below = (size: string, sets: number) => ladder.below({ size, sets });
    expect([below('2 AWG', 2), below('1/0 AWG', 1), below('4 AWG', 2), below('3 AWG', 1)]).toEqual([
      { size: '4 AWG', sets: 2 },
      { size: '2 AWG', sets: 1 },
      null,
      null,
    ]);
  });
});

describe('what its checks leave of it', () => {
  /** Larger sizes only are allowed by what is asked of the wall, none at all by the shield. */
  const says: Says = (check, { size }) =>
    check === 'shield-adequacy'
      ? size === '4 AWG'
        ? 'fail'
        : 'caution'
      : check === 'insulation-wall' && size === '4 AWG'
        ? 'caution'
        : 'pass';

  it('is what is no worse than the best that any choice makes of it', () => {
    const { ladder } = made({ says });
    expect(ladder.excess({ size: '4 AWG', sets: 1 }).map(({ check, verdict }) => [check, verdict])).toEqual([
      ['shield-adequacy', 'fail'],
      ['insulation-wall', 'caution'],
    ]);
    expect(ladder.excess({ size: '2 AWG', sets: 1 })).toEqual([]);
    expect([ladder.bestOf('shield-adequacy'), ladder.bestOf('insulation-wall'), ladder.bestOf('lead-drop')]).toEqual([1, 0, 0]);
    expect(ladder.allowance({ check: 'shield-adequacy' })).toBe(1);
    expect(all(ladder)).toEqual([
      ['2 AWG', 1],
      ['1/0 AWG', 1],
    ]);
    expect(ladder.yield()).toEqual([]);
  });

  it('yields, where nothing passes, what costs least: least of all a size that carries too little', () => {
    const none: Says = (check, { size }) =>
      (check === 'lead-ampacity' && size === '4 AWG') ||
      ((check === 'terminal-range' || check === 'conduit-fill') && size === '2 AWG') ||
      (['terminal-range', 'conduit-fill', 'insulation-wall'].includes(check) && size === '1/0 AWG')
        ? 'fail'
        : 'pass';
    const { ladder } = made({ says: none });
    expect(ladder.at(0)).toBeUndefined();
    expect(ladder.yield().map(({ check }) => check)).toEqual(['terminal-range', 'conduit-fill']);
    expect(ladder.at(0)).toEqual({ size: '2 AWG', sets: 1 });
    expect(ladder.at(1)).toBeUndefined();
    expect(ladder.allowance({ check: 'terminal-range' })).toBe(3);
    expect(ladder.yield()).toEqual([]);
    expect(ladder.openFloors()).toEqual([]);
    // Of two alike the smaller.
    const alike = made({
      says: (check, { size }) => (check === (size === '4 AWG' ? 'terminal-range' : 'conduit-fill') ? 'fail' : 'pass'),
    }).ladder;
    expect(alike.yield().map(({ check }) => check)).toEqual(['terminal-range']);
    // A caution costs less than a fail.
    const mild = made({
      says: (check, { size }) =>
        check === (size === '4 AWG' ? 'terminal-range' : 'conduit-fill') ? (size === '2 AWG' ? 'caution' : 'fail') : 'pass',
    }).ladder;
    mild.yield();
    expect(mild.at(0)?.size).toBe('2 AWG');
  });

  it('of a locked cable lets pass what it breaks, and tells it', () => {
    const { ladder } = made({ says, locked: true });
    expect(ladder.yield().map(({ check }) => check)).toEqual(['shield-adequacy', 'insulation-wall']);
    expect([ladder.allowance({ check: 'insulation-wall' }), ladder.excess(ladder.least)]).toEqual([1, []]);
  });

  it('keeps a size from being named where a floor stays open or fails for all', () => {
    const asks = { verdict: 'open', missing: [{ id: 'W', field: 'insulation.type' }] } as const;
    const open = made({ says: (check) => (check === 'lead-ampacity' || check === 'shield-adequacy' ? asks : 'pass') }).ladder;
    expect(open.openFloors().map(({ check }) => check)).toEqual(['lead-ampacity']);
    expect(made({ says: () => 'pass' }).ladder.openFloors()).toEqual([]);
    expect(made({ sizes: [] }).ladder.openFloors()).toEqual([]);
    expect(made({ says: (check) => (check === 'feeder-ampacity' ? 'fail' : null) }).ladder.openFloors()).toHaveLength(1);
  });
});

describe('the best that any choice makes of a check', () => {
  const lacks = (...missing: readonly (readonly [string, string])[]): Said => ({
    verdict: 'open',
    missing: missing.map(([id, field]) => ({ id, field })),
  });
  /** What the least and the most conductor say; 2 AWG, in the middle, passes. */
  const best = (least: Said | Verdict | null, most: Said | Verdict | null) => {
    const { ladder, asked } = made({ says: (_, { size }) => (size === '4 AWG' ? least : size === '1/0 AWG' ? most : 'pass') });
    return [ladder.bestOf('conduit-fill'), asked.includes('conduit-fill 1×2 AWG')];
  };
  const type = ['W', 'insulation.type'] as const;
  const metal = ['W', 'conductor.metal'] as const;

  it('is open where both ends wait for the same: all between wait for it', () => {
    expect(best(lacks(type), lacks(type))).toEqual([2, false]);
    expect(best(lacks(type, metal), lacks(type, metal))).toEqual([2, false]);
  });

  it.each([
    ['another value', lacks(type), lacks(metal)],
    ['the same value of another part', lacks(type), lacks(['V', 'insulation.type'])],
    ['one value more at the least', lacks(type, metal), lacks(type)],
    ['one value more at the most', lacks(type), lacks(type, metal)],
    ['two values of which one is the same', lacks(type, metal), lacks(type, ['V', 'conductor.metal'])],
    ['nothing that is named', lacks(), lacks()],
    ['nothing at the least', 'fail', lacks(type)],
    ['nothing at the most', lacks(type), 'fail'],
    ['nothing at the most, of which nothing is said', lacks(type), null],
    ['something, failing at the least', { ...lacks(type), verdict: 'fail' }, lacks(type)],
    ['something, failing at the most', lacks(type), { ...lacks(type), verdict: 'fail' }],
  ] as const)('is asked of those between where the ends wait for %s', (_, least, most) => {
    expect(best(least, most)).toEqual([0, true]);
  });

  it('is asked until nothing is better', () => {
    const { ladder, asked } = made({ says: (_, { size }) => (size === '4 AWG' ? 'caution' : 'pass') });
    expect(ladder.bestOf('terminal-range')).toBe(0);
    const seen = asked.length;
    ladder.bestOf('terminal-range');
    // The least, the most, and the one between.
    expect([seen, asked.length]).toEqual([3, 3]);
    expect(made({ says: () => 'caution' }).ladder.bestOf('terminal-range')).toBe(1);
    expect(made({ says: () => 'fail' }).ladder.bestOf('terminal-range')).toBe(3);
  });
});
