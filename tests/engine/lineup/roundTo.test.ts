import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fixed, roundTo, toFigures } from '../../../engine/lineup/roundTo.ts';

/** Half away from zero on the digits as they are written, in whole numbers of any length. */
function byDigits(value: number, digits: number): number {
  const [mantissa = '', exponent = ''] = Math.abs(value).toExponential().split('e');
  const [whole = '', rest = ''] = mantissa.split('.');
  // The value is so many units of ten to this power.
  const units = BigInt(whole + rest);
  const power = Number(exponent) - rest.length + digits;
  const step = 10n ** BigInt(Math.min(Math.abs(power), 400));
  const rounded = power >= 0 ? units * step : (units + step / 2n) / step;
  return Math.sign(value) * Number(`${rounded}e${-digits}`) || 0;
}

describe('rounding for display', () => {
  it('goes by the digits as written', () => {
    expect([roundTo(1.005, 2), roundTo(-2.5, 0), roundTo(0.285, 2), roundTo(-0.001, 2)]).toEqual([1.01, -3, 0.29, 0]);
    // Where the double of the hundredfold lies below the half that is written.
    expect([roundTo(145677037.015, 2), roundTo(-341059602.155, 2)]).toEqual([145677037.02, -341059602.16]);
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
  it('leaves alone what has no more digits, however large', () => {
    expect([roundTo(961_678_872_636_299_600, 3), roundTo(1e20, 3), roundTo(-1e300, 0), roundTo(-0, 12)]).toEqual([
      961_678_872_636_299_600, 1e20, -1e300, 0,
    ]);
  });
  it('before the point too, and leaves alone what is no number', () => {
    expect([1250, -1249, 50, 49].map((value) => roundTo(value, -2))).toEqual([1300, -1200, 100, 0]);
    expect(roundTo(49, -3)).toBe(0);
    expect([roundTo(Number.POSITIVE_INFINITY, 2), roundTo(Number.NaN, 2)]).toEqual([Number.POSITIVE_INFINITY, Number.NaN]);
  });
  it('to so many figures, wherever the point stands', () => {
    expect([0, 123_456, -0.000123456, 9.996, 999.6, 1000, 0.001].map((value) => toFigures(value, 3))).toEqual([
      0, 123_000, -0.000123, 10, 1000, 1000, 0.001,
    ]);
    for (let power = -15; power <= 15; power++) expect(toFigures(Number(`1.25e${power}`), 2)).toBe(Number(`1.3e${power}`));
  });
  it('is written with its zeros and a true minus', () => {
    expect([fixed(2, 2), fixed(-1.005, 2), fixed(-0.001, 2), fixed(12.34, 0)]).toEqual(['2.00', '−1.01', '0.00', '12']);
  });
});
