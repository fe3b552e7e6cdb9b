import { describe, expect, it } from 'vitest';
import { skinAndProximity } from '../../engine/physics/skinAndProximity.ts';
import { expectClose } from './expectClose.ts';

/** At 50 Hz the resistance that gives a round wire this argument: x² = 8 pi f / R' × 1e-7 (IEC 60287-1-1 clause 2.1). */
const at = (x: number, diameter_mm = 10, spacing_mm = 20) =>
  skinAndProximity({ direct_ohmPerM: (8 * Math.PI * 50 * 1e-7) / x ** 2, frequency_Hz: 50, diameter_mm, spacing_mm });

describe('skin effect', () => {
  /** Rac / Rdc of a round wire by Kelvin's functions, as handbooks print it; the standard's three fits keep to it within their own error. */
  it.each([
    [1, 1.00519, 0.0001],
    [2, 1.07816, 0.0001],
    [2.5, 1.17538, 0.0005],
    [3, 1.31809, 0.001],
    [3.5, 1.49202, 0.001],
    [4, 1.67787, 0.006],
    [5, 2.04272, 0.006],
  ])('x = %d: %d times', (x, ratio, absolute) => expectClose(1 + at(x).skin, ratio, { absolute }, 'Kelvin'));
  it('grows with frequency as with the conductance', () => {
    const one = { direct_ohmPerM: 2e-5, frequency_Hz: 60, diameter_mm: 20, spacing_mm: 25 };
    expect(skinAndProximity({ ...one, frequency_Hz: 120 }).skin).toBeCloseTo(skinAndProximity({ ...one, direct_ohmPerM: 1e-5 }).skin, 12);
  });
});

describe('proximity effect', () => {
  // By hand: x = 2, so F = 16 / (192 + 12.8) = 0.078125, and with dc / s = 1/2
  // yp = F / 4 × (0.312 / 4 + 1.18 / (F + 0.27)) = 0.0677263; with dc / s = 4/5, 0.64 F × (0.19968 + 3.389587) = 0.179463.
  it('by the standard’s form, worked by hand', () => {
    expectClose(at(2).proximity, 0.0677263, { relative: 1e-5 }, 'half');
    expectClose(at(2, 20, 25).proximity, 0.179463, { relative: 1e-5 }, 'four fifths');
  });
});
