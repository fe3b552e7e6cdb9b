import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { travellingWaves } from '../../engine/physics/wave/characteristics.ts';
import { edgePeak } from '../../engine/physics/wave/edgePeak.ts';
import { type LatticeInput, latticePeak_V, latticeWave, linearRulePeak_V } from '../../engine/physics/wave/latticePeak.ts';
import { RUNS, real } from './oneRun.ts';

/** Laws of waves on one line, ten thousand cases each where they are cheap. */

const BUS = 650;
const anyLine: fc.Arbitrary<LatticeInput> = fc
  .record({
    bus_V: fc.constant(BUS),
    ramp_s: real(30e-9, 2e-6),
    length_m: real(1, 300),
    velocity_mPerS: real(120e6, 220e6),
    impedanceLL_ohm: real(25, 150),
    motor_ohm: real(10, 5000),
    resistance_ohmPerM: real(0, 0.01),
    // In shares of the impedance: 12 AWG in a shield, the most of all, has 1.2e-6.
    skin_perRootHz: real(0, 1e-6),
  })
  .map(({ skin_perRootHz, ...line }) => ({ ...line, skin_ohmPerMRootHz: skin_perRootHz * line.impedanceLL_ohm }));
const holds = (law: (line: LatticeInput, share: number) => void, numRuns = RUNS.numRuns): void =>
  fc.assert(
    fc.property(anyLine, real(0, 1), (line, share) => {
      law(line, share);
    }),
    { ...RUNS, numRuns },
  );
const noMore = (a: number, b: number, relative = 1e-6): void => expect(a).toBeLessThanOrEqual(b * (1 + relative));
/** Of a line longer than critical: before that an ideal ramp cancels itself, and loss may upset the cancelling. */
const beyondCritical = (line: LatticeInput, share: number): LatticeInput => ({
  ...line,
  length_m: (line.velocity_mPerS * line.ramp_s * (1 + 2 * share)) / 2,
});

describe('the closed form', () => {
  it('never more than doubles the bus', () =>
    holds((line) => {
      noMore(latticePeak_V(line), 2 * BUS);
      noMore(edgePeak(line, false).high_V, 2 * BUS);
      noMore(linearRulePeak_V(line, (line.velocity_mPerS * line.ramp_s) / 2), 2 * BUS);
    }));
  it('gives a matched end no overshoot', () => holds((line) => noMore(latticePeak_V({ ...line, motor_ohm: line.impedanceLL_ohm }), BUS)));
  it('has its greatest voltage where it is looked for', () =>
    holds((line, share) => {
      const delay = line.length_m / line.velocity_mPerS;
      noMore(latticeWave(line)(share * (9 * delay + 4 * line.ramp_s)), Math.max(BUS, latticePeak_V(line)), 0.002);
    }));
  it('stays under the linear rule', () =>
    holds((line) => noMore(Math.max(BUS, latticePeak_V(line)), linearRulePeak_V(line, (line.velocity_mPerS * line.ramp_s) / 2))));
  it('gives no higher peak, and no higher upper end, for a slower edge', () =>
    holds((given, share) => {
      const line = { ...given, motor_ohm: Math.max(200, given.motor_ohm) };
      const slower = { ...line, ramp_s: line.ramp_s * (1 + 2 * share) };
      const [before, after] = [edgePeak(line, false), edgePeak(slower, false)];
      // The crest of a shaped edge is looked for at a hundred places.
      noMore(after.central_V, before.central_V, 0.01);
      noMore(after.high_V, before.high_V, 0.01);
    }));
  it('gives no higher first crest for more loss', () =>
    holds((given, share) => {
      const line = beyondCritical(given, share);
      const before = latticePeak_V(line);
      noMore(latticePeak_V({ ...line, resistance_ohmPerM: line.resistance_ohmPerM + share * 0.01 }), before);
      noMore(latticePeak_V({ ...line, skin_ohmPerMRootHz: line.skin_ohmPerMRootHz * (1 + share) }), before);
    }));
});

describe('the solver of characteristics', () => {
  it('gives two lossy halves the peak of the closed form of the whole', () =>
    holds((given, share) => {
      const line = { ...beyondCritical(given, share), skin_ohmPerMRootHz: 0, motor_ohm: Math.max(200, given.motor_ohm) };
      const delay_s = line.length_m / line.velocity_mPerS;
      const half = {
        from: 0,
        to: 1,
        impedance_ohm: line.impedanceLL_ohm,
        delay_s: delay_s / 2,
        resistance_ohm: line.resistance_ohmPerM * line.length_m,
      };
      const solved = travellingWaves({
        lines: [half, { ...half, from: 1, to: 2 }],
        shunts: [{ node: 2, resistance_ohm: line.motor_ohm }],
        source: [
          [0, 0],
          [line.ramp_s, BUS],
        ],
        watch: [2],
        until_s: 5 * delay_s + 2 * line.ramp_s,
      });
      const exact = latticePeak_V(line);
      expect(Math.abs((solved?.watched[0]?.peak_V ?? 0) / exact - 1), JSON.stringify(line)).toBeLessThan(0.01);
    }, 200));
  it('lets no ring grow after a pulse has come back to rest', () =>
    holds((line) => {
      const delay_s = line.length_m / line.velocity_mPerS;
      const { ramp_s } = line;
      const solved = travellingWaves({
        lines: [
          { from: 0, to: 1, impedance_ohm: line.impedanceLL_ohm, delay_s, resistance_ohm: 2 * line.resistance_ohmPerM * line.length_m },
        ],
        shunts: [{ node: 1, resistance_ohm: line.motor_ohm }],
        source: [
          [0, 0],
          [ramp_s, BUS],
          [3 * ramp_s, BUS],
          [4 * ramp_s, 0],
        ],
        watch: [1],
        until_s: 4 * ramp_s + 17 * delay_s,
      });
      const seen = solved?.watched[0];
      if (!seen) throw new Error('nothing to solve');
      // The line rings once every four transits.
      const periods = [0, 1, 2, 3].map((n) => {
        const [from, to] = [1 + 4 * n, 5 + 4 * n].map((transits) => (4 * ramp_s + transits * delay_s) / seen.step_s);
        return seen.voltage_V.subarray(from, to).reduce((most, volts) => Math.max(most, Math.abs(volts)), 0);
      });
      for (const [n, most] of periods.slice(1).entries()) noMore(most, (periods[n] ?? 0) + 1e-9 * BUS);
    }, 200));
});
