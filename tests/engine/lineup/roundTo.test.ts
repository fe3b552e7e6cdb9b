import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { roundTo } from '../../../engine/lineup/roundTo.ts';

/** Half away from zero on the digits as they are written, by shifting the point in the text. */
function byDigits(value: number, digits: number): number {
  const [mantissa = '0', exponent = '0'] = Math.abs(value).toExponential().split('e');
  const whole = Math.round(Number(`${mantissa}e${Number(exponent) + digits}`));
  return Math.sign(value) * Number(`${whole}e${-digits}`) || 0;
}

describe('rounding for display', () => {
  it('goes by the digits as written', () => {
    expect([roundTo(1.005, 2), roundTo(-2.5, 0), roundTo(0.285, 2), roundTo(-0.001, 2)]).toEqual([1.01, -3, 0.29, 0]);
  });
  it('is the same number whichever way it is reached', () => {
    const written = fc.tuple(fc.integer({ min: -1e6, max: 1e6 }), fc.integer({ min: 0, max: 8 })).map(([n, places]) => n / 10 ** places);
    const any = fc.oneof(written, fc.double({ noNaN: true, noDefaultInfinity: true }));
    fc.assert(
      fc.property(any, fc.integer({ min: 0, max: 12 }), (value, digits) => {
        expect(roundTo(value, digits)).toBe(byDigits(value, digits));
      }),
      { numRuns: 20_000, seed: 20261126 },
    );
  });
});
