import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { atEveryFineness, riseTime_s, settledWave, travellingWaves, type WaveNetwork } from '../../engine/physics/wave/characteristics.ts';
import { latticePeak_V } from '../../engine/physics/wave/latticePeak.ts';
import { deckOf } from './deckOf.ts';
import { expectClose } from './expectClose.ts';
import { handLine as line } from './handLine.ts';
import { hasNgspice, simulate } from './ngspice.ts';

/** Travelling waves behind reactors and filters, on tees and lossy lines: against printed simulations, live ones, and laws. */

const EDGE = [
  [0.1e-6, 0],
  [0.2e-6, 650],
] as const;
const solve = (network: Partial<WaveNetwork>) => {
  const result = travellingWaves({
    lines: [line(666.667e-9)],
    shunts: [{ node: 1, resistance_ohm: 1500 }],
    source: EDGE,
    watch: [1],
    until_s: 20e-6,
    ...network,
  });
  const [seen] = result?.watched ?? [];
  if (!result || !seen) throw new Error('nothing to solve');
  return { ...result, ...seen };
};

describe('against printed simulations (ngspice 39)', () => {
  it.each([
    [200e-9, 1234.2, 8.125, 0.002],
    [37.5e-9, 956.9, 6.078, 0.005],
    [25e-9, 680.5, 4.046, 0.005],
    [16.6667e-9, 825.9, 2.75, 0.005],
  ] as const)('lossless, transit %d s: %d V, %d A', (delay, volts, amperes, relative) => {
    const { peak_V, sourcePeak_A } = solve({ lines: [line(delay)], until_s: 4e-6 });
    expectClose(peak_V, volts, { relative }, 'S01 to S04');
    // Lossless currents are printed to 2 %.
    expectClose(sourcePeak_A, amperes, { relative: 0.01 }, 'S01 to S04');
  });
  it('a line of 0.1 Ω/m, 100 m: 1159.3 V, second crest 970.6, trough 237.2', () => {
    const { peak_V, voltage_V, step_s } = solve({ lines: [line(666.66e-9, 80, 10)] });
    expectClose(peak_V, 1159.3, { relative: 0.005 }, 'S05, FFT 1159.3');
    const within = (from: number, to: number) => voltage_V.subarray(Math.floor(from / step_s), Math.ceil(to / step_s));
    expectClose(Math.max(...within(2.6e-6, 4.6e-6)), 970.6, { relative: 0.005 }, 'S05, FFT 970.7');
    expectClose(Math.max(...within(5.3e-6, 7.2e-6)), 851.3, { relative: 0.005 }, 'S05, FFT 851.3');
    expectClose(Math.min(...within(1.2e-6, 4e-6)), 237.2, { relative: 0.005 }, 'S05, FFT 237.1');
  });
  it('an R-C terminator at the motor: 698.8 V, 647.7 V at 1.2 µs', () => {
    const { peak_V, voltage_V, step_s } = solve({
      shunts: [
        { node: 1, resistance_ohm: 1500 },
        { node: 1, resistance_ohm: 80, capacitance_F: 100e-9 },
      ],
      until_s: 60e-6,
    });
    expectClose(peak_V, 698.8, { relative: 0.01 }, 'S06');
    expectClose(voltage_V[Math.round(1.2e-6 / step_s)] ?? 0, 647.7, { relative: 0.01 }, 'S06');
  });
  it('a 3 % reactor and 100 m: 1018.9 V, 5.835 µs', () => {
    const result = solve({
      inductance_H: 3.02e-3,
      across_ohm: 5000,
      shunts: [
        { node: 1, resistance_ohm: 2400 },
        { node: 1, resistance_ohm: 1e-3, capacitance_F: 0.5e-9 },
      ],
      until_s: 150e-6,
    });
    expectClose(result.peak_V, 1018.9, { relative: 0.02 }, 'S07');
    expectClose((riseTime_s(result, 650) ?? 0) * 1e6, 5.835, { relative: 0.02 }, 'S07');
  });
  it('a dV/dt filter and 100 m: 1000.3 V, 2.245 µs', () => {
    const result = solve({
      inductance_H: 200e-6,
      across_ohm: 300,
      shunts: [
        { node: 0, resistance_ohm: 20, capacitance_F: 15e-9 },
        { node: 1, resistance_ohm: 1500 },
      ],
      until_s: 80e-6,
    });
    expectClose(result.peak_V, 1000.3, { relative: 0.02 }, 'S08');
    expectClose((riseTime_s(result, 650) ?? 0) * 1e6, 2.245, { relative: 0.02 }, 'S08');
  });
  it('off at 1.0 µs and on again at 2.0 µs: 1759.2 V, −584.2 V', () => {
    const source = [
      [0, 650],
      [1e-6, 650],
      [1.1e-6, 0],
      [2e-6, 0],
      [2.1e-6, 650],
    ] as const;
    const { peak_V, lowest_V } = solve({ lines: [line(333.333e-9)], source, until_s: 12e-6 });
    expectClose(peak_V, 1759.2, { relative: 0.005 }, 'S09');
    expectClose(lowest_V, -584.2, { relative: 0.005 }, 'S09');
  });
  it('three coupled conductors of 30 m: 1262.4 V between phases; their single line 1249.1 V', () => {
    const { peak_V } = solve({ lines: [line(147e-9, 30.59)], shunts: [{ node: 1, resistance_ohm: 750 }], until_s: 3e-6 });
    expectClose(peak_V, 1249.1, { relative: 0.005 }, 'S13b');
    expectClose(peak_V, 1262.4, { relative: 0.02 }, 'S13, a ladder of sixty cells');
  });
  it('a ladder whose resistance rises with frequency, 100 m: 1209.5 V, against the root of frequency that fits it', () => {
    const delay_s = 100 * Math.sqrt(150e-9 * 160e-12);
    const peak_V = latticePeak_V({
      bus_V: 650,
      ramp_s: 100e-9,
      length_m: 100,
      velocity_mPerS: 100 / delay_s,
      impedanceLL_ohm: 2 * Math.sqrt(150e-9 / 160e-12),
      motor_ohm: 1500,
      resistance_ohmPerM: 0.0053,
      skin_ohmPerMRootHz: 4e-5,
    });
    expectClose(peak_V, 1209.5, { relative: 0.005 }, 'S12');
  });
  it('polarity turned over: −1818.4 V', () => {
    const source = [
      [0, 650],
      [1e-6, 650],
      [1.1e-6, -650],
    ] as const;
    expectClose(solve({ lines: [line(333.333e-9)], source, until_s: 12e-6 }).lowest_V, -1818.4, { relative: 0.002 }, 'S10');
  });
});

/** Generated cases: reactor, R-C branch, filter, tee, two cables in series, double pulses; from 21 on one edge on lines with loss. */
function generated(seed: number): WaveNetwork {
  let state = seed;
  const next = () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
  const between = (a: number, b: number) => a + (b - a) * next();
  const impedance = () => between(30, 120);
  const tee = seed % 4 === 0;
  const series = seed % 4 === 1;
  const motor = (node: number) => ({ node, resistance_ohm: between(400, 3000) });
  const lossy = seed > 20;
  const lines = [line(between(60e-9, 500e-9), impedance(), lossy ? between(0.5, 8) : 0)];
  if (tee) lines.push(line(between(60e-9, 400e-9), impedance(), 0, 1, 2), line(between(60e-9, 400e-9), impedance(), 0, 1, 3));
  if (series) lines.push(line(between(60e-9, 400e-9), impedance(), 0, 1, 2));
  const end = tee || series ? 2 : 1;
  const shunts = [
    motor(end),
    ...(tee ? [motor(3)] : []),
    ...(seed % 3 === 0 ? [{ node: end, resistance_ohm: between(40, 120), capacitance_F: between(5e-9, 80e-9) }] : []),
  ];
  const coil = !lossy && seed % 2 === 0 ? { inductance_H: between(50e-6, 1e-3), across_ohm: between(200, 3000) } : {};
  if (coil.inductance_H) shunts.push({ node: 0, resistance_ohm: between(10, 40), capacitance_F: between(2e-9, 20e-9) });
  const ramp = between(60e-9, 300e-9);
  const source: [number, number][] =
    !lossy && seed % 5 === 0
      ? [
          [0, 0],
          [ramp, 650],
          [1e-6, 650],
          [1e-6 + ramp, 0],
          [2e-6, 0],
          [2e-6 + ramp, 650],
        ]
      : [
          [0, 0],
          [ramp, 650],
        ];
  return { lines, shunts, source, ...coil, watch: [end], until_s: lossy ? 6e-6 : 30e-6 };
}

describe.skipIf(!hasNgspice)('against ngspice, run now', () => {
  it.each(Array.from({ length: 28 }, (_, i) => i + 1))('generated case %d: peak within 0.5 %, tees and second crests 1 %', (seed) => {
    const network = generated(seed);
    const ours = settledWave(atEveryFineness(network));
    // Behind the first trough: from four transits of the first line after the peak to the end.
    const from_s = (ours?.at_s ?? 0) + 3 * (network.lines[0]?.delay_s ?? 0);
    const theirs = simulate(deckOf(network, [from_s, network.until_s]));
    const later = ours?.voltage_V.subarray(Math.ceil(from_s / (ours?.step_s ?? 1))) ?? [];
    expectClose(Math.max(...later), theirs.get('second') ?? Number.NaN, { relative: 0.01 }, 'ngspice, what comes after the first crest');
    const relative = network.lines.length === 3 ? 0.01 : 0.005;
    expectClose(ours?.peak_V ?? 0, theirs.get('vpk') ?? Number.NaN, { relative }, 'ngspice');
    expectClose(ours?.lowest_V ?? 0, theirs.get('vmn') ?? Number.NaN, { relative, absolute: 4 }, 'ngspice');
  });
});

describe('laws', () => {
  const RUNS = { numRuns: 500, seed: 20261125 };
  const real = (min: number, max: number) => fc.double({ min, max, noNaN: true });
  it('a plain line agrees with the exact lattice', () =>
    fc.assert(
      fc.property(real(50e-9, 800e-9), real(20, 150), real(200, 5000), real(50e-9, 400e-9), (delay, z, motor, ramp) => {
        const { peak_V } = solve({
          lines: [line(delay, z)],
          shunts: [{ node: 1, resistance_ohm: motor }],
          source: [
            [0, 0],
            [ramp, 650],
          ],
          until_s: 8 * delay + 3 * ramp,
        });
        const exact = latticePeak_V({
          bus_V: 650,
          ramp_s: ramp,
          length_m: delay * 150e6,
          velocity_mPerS: 150e6,
          impedanceLL_ohm: z,
          motor_ohm: motor,
          resistance_ohmPerM: 0,
          skin_ohmPerMRootHz: 0,
        });
        expect(Math.abs(peak_V / exact - 1)).toBeLessThan(0.006);
        // One edge on one line never more than doubles the bus.
        expect(peak_V).toBeLessThanOrEqual(2 * 650 * (1 + 1e-9));
      }),
      RUNS,
    ));
  it('a matched end gives no overshoot', () =>
    fc.assert(
      fc.property(real(50e-9, 800e-9), real(20, 150), (delay, z) => {
        expect(solve({ lines: [line(delay, z)], shunts: [{ node: 1, resistance_ohm: z }], until_s: 5e-6 }).peak_V).toBeLessThanOrEqual(
          650 * (1 + 1e-9),
        );
      }),
      RUNS,
    ));
  it('a line in two identical pieces is the same line', () =>
    fc.assert(
      fc.property(real(100e-9, 800e-9), real(20, 150), real(200, 5000), (delay, z, motor) => {
        const whole = solve({ lines: [line(delay, z)], shunts: [{ node: 1, resistance_ohm: motor }], until_s: 6e-6 }).peak_V;
        const halves = solve({
          lines: [line(delay / 2, z), line(delay / 2, z, 0, 1, 2)],
          shunts: [{ node: 2, resistance_ohm: motor }],
          watch: [2],
          until_s: 6e-6,
        }).peak_V;
        expect(Math.abs(halves / whole - 1)).toBeLessThan(0.003);
      }),
      RUNS,
    ));
  it('loss never raises the first crest, and all stays finite', () =>
    fc.assert(
      fc.property(real(100e-9, 800e-9), real(0, 40), real(0, 40), (delay, a, more) => {
        const at = (ohm: number) => solve({ lines: [line(delay, 80, ohm)], until_s: 4 * delay + 0.3e-6 }).peak_V;
        expect(at(a + more)).toBeLessThanOrEqual(at(a) * 1.001);
      }),
      { ...RUNS, numRuns: 100 },
    ));
  it('the step is halved until the peak stands still, and says how still', () => {
    for (let seed = 1; seed <= 20; seed++) {
      const network = generated(seed);
      const settled = settledWave(atEveryFineness(network));
      const fine = travellingWaves(network, 400)?.watched[0]?.peak_V ?? Number.NaN;
      expect(settled?.error).toBeLessThan(0.003);
      expect(Math.abs((settled?.peak_V ?? 0) / fine - 1)).toBeLessThan(0.006);
    }
  });
  it('a fineness is solved once, for all nodes that are watched', () => {
    const network = generated(3);
    const all = { ...network, watch: [...network.watch, 0] };
    const solved = atEveryFineness(all);
    expect(solved(1)).toBe(solved(1));
    expect(settledWave(solved)).toEqual(settledWave(atEveryFineness(network)));
    expect(solved(99)).toBeUndefined();
  });
  it('no length, no impedance or no source is nothing to solve; a long time is cut and says so', () => {
    expect(travellingWaves({ lines: [line(0)], shunts: [], source: EDGE, watch: [1], until_s: 1e-6 })).toBeNull();
    expect(travellingWaves({ lines: [line(1e-7, 0)], shunts: [], source: EDGE, watch: [1], until_s: 1e-6 })).toBeNull();
    expect(travellingWaves({ lines: [], shunts: [], source: EDGE, watch: [0], until_s: 1e-6 })).toBeNull();
    expect(solve({ until_s: 1 }).truncated).toBe(true);
  });
});
