import { describe, expect, it } from 'vitest';
import { criticalLength_m, type LatticeInput, latticePeak_V, linearRulePeak_V } from '../../engine/physics/wave/latticePeak.ts';
import { type LineBuild, motorSurgeImpedance_ohm } from '../../engine/physics/wave/lineConstants.ts';
import { expectClose } from './expectClose.ts';
import { typicalLine } from './typicalLine.ts';

/**
 * Published measurements and rules. The measurements are of whole systems whose edge and motor are not told: they show a bias, not an error.
 * The bus is 1.35 times the mains; the edge, where none is printed, that of a usual switch, 0.1 µs from 10 to 90 %.
 */

const BUS = 1.35;
const USUAL_RISE_S = 0.1e-6;

/** A cable on a motor, with the engine's own constants; loose wires in conduit or a shield. */
function cableOn(mains_V: number, length_m: number, power_W: number, area_mm2: number, build: LineBuild = 'loose'): LatticeInput {
  const line = typicalLine(build, 'xlpe', area_mm2);
  return {
    bus_V: BUS * mains_V,
    ramp_s: 1.25 * USUAL_RISE_S,
    length_m,
    velocity_mPerS: line.slowest_mPerS,
    impedanceLL_ohm: line.impedanceLL_ohm,
    motor_ohm: motorSurgeImpedance_ohm(power_W),
    resistance_ohmPerM: 2e-8 / (area_mm2 * 1e-6),
    skin_ohmPerMRootHz: line.skin_ohmPerMRootHz,
  };
}
const upper_V = (input: LatticeInput): number => linearRulePeak_V(input, (input.velocity_mPerS * input.ramp_s) / 2);
const GUIDE = 'a drive maker’s published design guide, tests to IEC 60034-17';

describe('small drives on an unspecified motor cable', () => {
  /** A small motor turns nine tenths of the wave back. */
  const small = (mains_V: number, length_m: number): LatticeInput => ({
    ...cableOn(mains_V, length_m, 2200, 3.31),
    motor_ohm: 19 * typicalLine('loose', 'xlpe', 3.31).impedanceLL_ohm,
  });
  it.each([
    ['P01', 240, 36, 616],
    ['P02', 240, 50, 626],
    ['P03', 240, 150, 612],
    ['P05', 230, 50, 590],
    ['P05', 230, 150, 560],
  ] as const)('%s: %d V, %d m: %d V', (_id, mains_V, length_m, measured_V) =>
    expectClose(latticePeak_V(small(mains_V, length_m)), measured_V, { relative: 0.1 }, GUIDE),
  );
  it('P04: 230 V, 5 m, edges of 60 to 100 ns: 510 V lies between the two, both from 1.2 to 1.9 times the bus', () => {
    const at = (ramp_s: number) => latticePeak_V({ ...small(230, 5), ramp_s });
    expect(at(100e-9)).toBeLessThan(510);
    expect(at(60e-9)).toBeGreaterThan(510);
    for (const ramp_s of [60e-9, 100e-9]) {
      expect(at(ramp_s) / (BUS * 230)).toBeGreaterThan(1.2);
      expect(at(ramp_s) / (BUS * 230)).toBeLessThan(1.9);
    }
  });
});

describe('large drives', () => {
  /** Power: geometric mean of the printed span. Cable: 500 kcmil a phase, as one of the parallel sets. */
  it.each([
    ['P06', 690, 30, 532e3, 'loose', 1625, 0.2],
    ['P08', 690, 150, 532e3, 'shielded', 1762, 0.2],
    ['P08b', 400, 30, 186e3, 'loose', 1180, 0.2],
    ['P08c', 500, 30, 632e3, 'loose', 1165, 0.15],
    ['P08c', 400, 30, 632e3, 'loose', 942, 0.15],
  ] as const)('%s: %d V, %d m, %d W, %s: %d V', (_id, mains_V, length_m, power_W, build, measured_V, relative) =>
    expectClose(latticePeak_V(cableOn(mains_V, length_m, power_W, 253.4, build)), measured_V, { relative }, GUIDE),
  );
  it.each([
    ['P07', 690, 5, 754e3, 'loose', 1212],
    ['P08', 690, 5, 532e3, 'shielded', 1450],
  ] as const)(
    '%s: %d V, %d m, %d W, %s, shorter than critical: %d V by the linear rule',
    (_id, mains_V, length_m, power_W, build, measured_V) => {
      expectClose(upper_V(cableOn(mains_V, length_m, power_W, 253.4, build)), measured_V, { relative: 0.2 }, GUIDE);
    },
  );
});

describe('rules in print', () => {
  it('P09: critical length at 0.1, 0.5, 1, 2, 4 µs whole ramp: 19, 97, 195, 390, 780 whole feet', () => {
    const feet = [0.1, 0.5, 1, 2, 4].map((ramp_us) => Math.floor(criticalLength_m(119e6, (ramp_us * 1e-6) / 1.25) / 0.3048));
    expect(feet, 'A. von Jouanne, P. Enjeti, W. Gray 1996, from memory').toEqual([19, 97, 195, 390, 780]);
  });
  it('P10: at 1.0 µs 50 m raise the voltage by no more than a third, whichever way the rise time is read', () => {
    for (const ramp_s of [1e-6, 1.25e-6]) {
      const input = { ...cableOn(400, 50, 15e3, 10), ramp_s };
      expect(latticePeak_V(input) / input.bus_V, 'IEC 60034-18-41').toBeGreaterThanOrEqual(1);
      expect(latticePeak_V(input) / input.bus_V, 'IEC 60034-18-41').toBeLessThanOrEqual(1.35);
    }
  });
  it.each([
    ['P12', BUS * 480, 1296, 'twice 1.35 times 480 V'],
    ['P12', 1.4 * 480, 1344, 'a design guide: up to 2.8 times the line'],
    ['P13', 850, 1700, 'a drive service article: 850 V bus'],
  ] as const)('%s: a long cable on an open end doubles %d V to %d V (%s)', (_id, bus_V, doubled_V, source) => {
    const open = { ...cableOn(480, 100, 1000, 3.31), bus_V, motor_ohm: 1e9, resistance_ohmPerM: 0, skin_ohmPerMRootHz: 0 };
    expectClose(latticePeak_V(open), doubled_V, { relative: 0.01 }, source);
  });
});
