import { describe, expect, it } from 'vitest';
import type { Verdict } from '../../../engine/index.ts';
import { around, buildable, common, leavingNone, settled, stretchesOf } from '../../../engine/sizing/stretches.ts';

const at = (from_m: number, to_m: number) => ({ from_m, to_m });
/** Turns at these lengths, one verdict after the other. */
const turns = (first: Verdict, ...to: readonly (readonly [number, Verdict])[]) =>
  to.map(([at_m, verdict], i) => ({ at_m, from: to[i - 1]?.[1] ?? first, to: verdict }));

describe('stretches without objection', () => {
  it('objects what fails, is cautioned or cannot be judged', () => {
    const verdicts: Verdict[] = ['fail', 'caution', 'open', 'note', 'pass', 'not-applicable', 'out-of-scope'];
    expect(verdicts.map(settled)).toEqual([false, false, false, true, true, true, true]);
  });

  it('end a tenth of a metre before the turn, and begin at it', () => {
    expect(stretchesOf(turns('pass', [12.4, 'fail']), 20)).toEqual([at(0, 12.3)]);
    expect(stretchesOf(turns('fail', [12.4, 'pass']), 20)).toEqual([at(12.4, 20)]);
    expect(stretchesOf(turns('pass', [3, 'open'], [5, 'note'], [9, 'caution'], [11, 'pass']), 20)).toEqual([
      at(0, 2.9),
      at(5, 8.9),
      at(11, 20),
    ]);
  });

  it('are one where it only is settled otherwise, none where it only objects otherwise', () => {
    expect(stretchesOf(turns('pass', [3, 'note'], [5, 'fail']), 20)).toEqual([at(0, 4.9)]);
    expect(stretchesOf(turns('pass', [3, 'note']), 20)).toEqual([at(0, 20)]);
    expect(stretchesOf(turns('fail', [3, 'caution'], [5, 'open']), 20)).toEqual([]);
    expect(stretchesOf(turns('fail', [3, 'pass'], [4, 'note'], [5, 'open'], [6, 'fail']), 20)).toEqual([at(3, 4.9)]);
    expect(stretchesOf([], 20)).toEqual([]);
  });
});

describe('the stretch of a cable', () => {
  it('is the one in which it lies, to both ends; else the first', () => {
    const three = [at(0, 2), at(4, 6), at(8, 10)];
    expect([4, 5, 6].map((length) => around(three, length))).toEqual([three[1], three[1], three[1]]);
    expect([0, 2, 8, 10].map((length) => around(three, length))).toEqual([three[0], three[0], three[2], three[2]]);
    expect([3, 7, 11].map((length) => around(three, length))).toEqual([three[0], three[0], three[0]]);
    expect(around([], 5)).toBeNull();
  });

  it('can be built where it reaches to a metre', () => {
    expect([buildable(at(0, 0.9)), buildable(at(0, 1)), buildable(at(5, 6))]).toEqual([false, true, true]);
  });
});

describe('what several allow together', () => {
  it('is where each of them does', () => {
    expect(common([at(0, 5), at(8, 12)], [at(3, 9)])).toEqual([at(3, 5), at(8, 9)]);
    expect(common([at(0, 5)], [at(5, 9)])).toEqual([at(5, 5)]);
    expect(common([at(0, 5)], [at(5.1, 9)])).toEqual([]);
  });

  it('is nowhere for those that hold at no length that could be built, else for two, else for all', () => {
    const of = (...each: readonly (readonly [string, ReturnType<typeof at>[]])[]) => leavingNone(new Map(each));
    expect(of(['a', [at(0, 0.5)]], ['b', [at(0, 9)]], ['c', []])).toEqual(['a', 'c']);
    expect(of(['a', [at(0, 0.5), at(3, 4)]], ['b', [at(0, 9)]], ['c', [at(0, 2)]])).toEqual(['a', 'c']);
    expect(of(['a', [at(0, 9)]], ['b', [at(0, 3)]], ['c', [at(5, 9)]])).toEqual(['b', 'c']);
    // Together only where nothing could be built.
    expect(of(['a', [at(0, 0.5), at(3, 4)]], ['b', [at(0, 2.9)]])).toEqual(['a', 'b']);
    // Each two of them meet somewhere, all three nowhere.
    const three = [at(2, 3), at(5, 6), at(8, 9)] as const;
    expect(of(['a', [three[0], three[1]]], ['b', [three[1], three[2]]], ['c', [three[0], three[2]]])).toEqual(['a', 'b', 'c']);
    // Where two meet twice, once below a metre, they are not against each other.
    expect(of(['a', [at(0, 0.5), at(3, 4)]], ['b', [at(0, 3.5)]], ['c', [at(0, 9)]])).toEqual(['a', 'b', 'c']);
  });
});
