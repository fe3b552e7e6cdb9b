import { describe, expect, it } from 'vitest';
import { review } from '../../engine/index.ts';
import { differences } from './compare.ts';
import { randomLineUp } from './randomLineUp.ts';

/**
 * The engine against a second reckoning that shares nothing with it, on random line-ups: five thousand from a seed that stays,
 * as many again from a fresh one where SECOND_CASES asks for more. A seed that differs is printed: `randomLineUp(seed)` makes it again.
 */
const CASES = Number(process.env['SECOND_CASES'] ?? 5000);
const FIXED_SEED = 20_261_126;
const FRESH_CASES = CASES === 5000 ? 250 : CASES;

function compareFrom(seed: number, cases: number): void {
  const found: string[] = [];
  let compared = 0;
  for (let i = seed; i < seed + cases && found.length < 20; i++) {
    const lineUp = randomLineUp(i);
    const result = review(lineUp);
    expect(JSON.stringify(result)).toBe(
      JSON.stringify(result, (_, value) => (typeof value === 'number' && !Number.isFinite(value) ? 'not a number' : value)),
    );
    const { compared: more, list } = differences(lineUp, result);
    compared += more;
    found.push(...list.map((each) => `seed ${i}: ${each}`));
  }
  expect(found).toEqual([]);
  // A generator gone dull would compare nothing.
  expect(compared).toBeGreaterThan(10 * cases);
}

describe('the engine and a second reckoning agree', () => {
  it(`on ${CASES} line-ups of seed ${FIXED_SEED}`, () => compareFrom(FIXED_SEED, CASES));
  const fresh = Math.floor(Math.random() * 2 ** 31);
  it(`on ${FRESH_CASES} line-ups of a fresh seed, ${fresh}`, () => compareFrom(fresh, FRESH_CASES));
});
