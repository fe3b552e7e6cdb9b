import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { chargingCurrent } from '../../engine/physics/wave/chargingCurrent.ts';
import { expectClose } from './expectClose.ts';

/** Charging current of a cable: worked figures and a three-phase simulation, and laws. */

const case12 = {
  bus_V: 648,
  differential_ohm: 28.5,
  common_ohm: 51.4,
  length_m: 100,
  critical_m: 10,
  velocity_mPerS: 189.6e6,
  carrier_Hz: 4000,
  roundTrip: 0.85,
  sets: 1,
};

describe('charging current', () => {
  it('12 AWG shielded, 100 m, 648 V, 4 kHz: 19.4 A peak, 3.4 A effective (worked from the modes of the line)', () => {
    const { peak_A, rms_A } = chargingCurrent(case12);
    expectClose(peak_A, 19.4, { absolute: 0.05 }, 'worked example');
    expectClose(rms_A, 3.4, { absolute: 0.05 }, 'worked example');
  });
  it('Zd 30.6, Z0 58 Ω, 650 V: 17.9 A; a three-phase simulation gives 17.94 A', () => {
    const { peak_A } = chargingCurrent({ ...case12, bus_V: 650, differential_ohm: 30.6, common_ohm: 58 });
    expectClose(peak_A, 17.94, { relative: 0.005 }, 'simulation');
  });
  it('a line of three quarters of the critical length takes three quarters (simulated: 0.748)', () => {
    const at = (length_m: number) => chargingCurrent({ ...case12, length_m }).peak_A;
    expectClose(at(7.5) / at(100), 6.078 / 8.125, { relative: 0.003 }, 'simulation of two legs');
  });
  it('never falls with length, bus or carrier, and two sets take no less than one', () =>
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 500, noNaN: true }),
        fc.double({ min: 1, max: 3, noNaN: true }),
        fc.constantFrom('length_m' as const, 'bus_V' as const, 'carrier_Hz' as const),
        (length_m, k, what) => {
          const base = { ...case12, length_m };
          const [low, high] = [chargingCurrent(base), chargingCurrent({ ...base, [what]: base[what] * k })];
          expect(high.peak_A).toBeGreaterThanOrEqual(low.peak_A * (1 - 1e-12));
          expect(high.rms_A).toBeGreaterThanOrEqual(low.rms_A * (1 - 1e-12));
          expect(chargingCurrent({ ...base, length_m: 2 * length_m, sets: 2 }).peak_A).toBeGreaterThanOrEqual(low.peak_A);
        },
      ),
      { numRuns: 10_000, seed: 20261125 },
    ));
});
