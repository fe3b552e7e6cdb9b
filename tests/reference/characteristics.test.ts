import { describe, expect, it } from 'vitest';
import { atEveryFineness, riseTime_s, settledWave, travellingWaves, type WaveNetwork } from '../../engine/physics/wave/characteristics.ts';
import { expectClose } from './expectClose.ts';
import { handLine as line } from './handLine.ts';

/**
 * The solver of travelling waves against networks that can be worked by hand: one volt in 100 ns, lines of 80 Ω. A motor of 240 Ω turns half
 * of the wave back, a stiff source all of it, turned over.
 */

const UP = [
  [0, 0],
  [1e-7, 1],
] as const;
const solve = (network: Partial<WaveNetwork> = {}, perEdge?: number) =>
  travellingWaves(
    { lines: [line(4e-7)], shunts: [{ node: 1, resistance_ohm: 240 }], source: UP, watch: [1], until_s: 2.2e-6, ...network },
    perEdge,
  );
/** Volts of one watched node at these microseconds. */
const at = (result: ReturnType<typeof solve>, times_us: readonly number[], node = 0): readonly number[] => {
  const { voltage_V, step_s } = result?.watched[node] ?? { voltage_V: [], step_s: 1 };
  return times_us.map((time) => voltage_V[Math.round((time * 1e-6) / step_s)] ?? Number.NaN);
};
const expectVolts = (found: readonly number[], volts: readonly number[], relative = 0.002): void => {
  expect(found.length).toBe(volts.length);
  for (const [i, each] of volts.entries()) expectClose(found[i] ?? Number.NaN, each, { relative, absolute: 1e-6 }, 'by hand');
};

describe('one line, by hand', () => {
  it('without loss: 1.5 V after the first wave, 0.75 after the second, 1.125 after the third; 12.5 mA at most', () => {
    const result = solve();
    expectVolts(at(result, [0.4, 0.45, 0.5, 1.1, 1.25, 1.3, 1.9, 2.05, 2.1]), [0, 0.75, 1.5, 1.5, 1.125, 0.75, 0.75, 0.9375, 1.125], 0.01);
    const [seen] = result?.watched ?? [];
    expectVolts([seen?.peak_V ?? 0, seen?.lowest_V ?? 1, result?.sourcePeak_A ?? 0], [1.5, 0, 1 / 80]);
    expect([(seen?.at_s ?? 0) > 0.49e-6, (seen?.at_s ?? 0) < 1.21e-6, result?.truncated]).toEqual([true, true, false]);
  });
  it('at rest at the first corner, it stays there; a fall of one volt takes 1.5 from the motor', () => {
    const still = [
      [0, 1],
      [1e-6, 1],
    ] as const;
    const resting = solve({ source: still, watch: [0, 1] });
    expectVolts([...at(resting, [0, 1, 2], 0), ...at(resting, [0, 1, 2], 1)], [1, 1, 1, 1, 1, 1], 1e-9);
    // One volt on 240 Ω.
    expectVolts([resting?.sourcePeak_A ?? 0], [1 / 240], 1e-9);
    const fallen = solve({ source: [...still, [1.1e-6, 0]] });
    expectVolts([...at(fallen, [0, 1.4, 1.45, 1.5]), fallen?.watched[0]?.lowest_V ?? 0], [1, 1, 0.25, -0.5, -0.5]);
  });
  it('at rest the branches draw what they draw: 80 Ω at the source and 240 Ω behind a coil, nothing through a capacitor', () => {
    const shunts = [
      { node: 0, resistance_ohm: 80 },
      { node: 1, resistance_ohm: 240 },
      { node: 1, resistance_ohm: 10, capacitance_F: 1e-9 },
    ];
    const resting = solve({ source: [[0, 1]], shunts, inductance_H: 1e-5, across_ohm: 100, watch: [0, 1] });
    expectVolts(
      [...at(resting, [0, 1, 2], 0), ...at(resting, [0, 1, 2], 1), resting?.sourcePeak_A ?? 0],
      [1, 1, 1, 1, 1, 1, 1 / 80 + 1 / 240],
      1e-9,
    );
  });
  it('with resistance: a front wears by exp(−R / 2Z), and 10 Ω before 40 Ω leave 0.8 V in the end', () => {
    const lossy = solve({
      lines: [line(2e-7, 40, 10)],
      shunts: [{ node: 1, resistance_ohm: 40 }],
      source: [
        [0, 0],
        [1e-8, 1],
      ],
      until_s: 3e-6,
    });
    expectClose(at(lossy, [0.211])[0] ?? 0, Math.exp(-10 / 80), { relative: 0.01 }, 'telegraph equations');
    expectVolts(at(lossy, [2.9]), [0.8]);
  });
});

describe('where lines meet', () => {
  it('a tee of three alike passes two thirds on; each end has it after its own way', () => {
    const tee = solve({
      lines: [line(2e-7), line(1.7e-7, 80, 0, 1, 2), line(3.1e-7, 80, 0, 1, 3)],
      shunts: [
        { node: 2, resistance_ohm: 80 },
        { node: 3, resistance_ohm: 80 },
      ],
      watch: [1, 2, 3],
      until_s: 0.59e-6,
    });
    expectVolts(at(tee, [0.2, 0.25, 0.3, 0.5], 0), [0, 1 / 3, 2 / 3, 2 / 3], 0.01);
    expectVolts(at(tee, [0.37, 0.42, 0.47, 0.56], 1), [0, 1 / 3, 2 / 3, 2 / 3], 0.01);
    expectVolts(at(tee, [0.51, 0.56], 2), [0, 1 / 3], 0.01);
  });
  it('a resistance with a capacitor at a long line’s end: half of twice the wave at first, then it charges', () => {
    const end = solve({
      lines: [line(1e-6)],
      shunts: [{ node: 1, resistance_ohm: 80, capacitance_F: 1e-8 }],
      source: [
        [0, 0],
        [1e-8, 1],
      ],
      until_s: 2.9e-6,
    });
    // 2 V behind 80 Ω on 80 Ω and 10 nF: 2 − exp(−t / 1.6 µs), t from the middle of the edge.
    const volts = (time_us: number): number => 2 - Math.exp(-(time_us - 1.005) / 1.6);
    expectVolts(at(end, [1.02, 1.5, 2, 2.8]), [1.02, 1.5, 2, 2.8].map(volts));
  });
  it('a coil of 40 µH before a long line: 1 − exp(−t / 0.5 µs); with 80 Ω across it, 1 − exp(−t / 1 µs) / 2', () => {
    const slow = {
      lines: [line(2e-6)],
      source: [
        [0, 0],
        [1e-8, 1],
      ],
      inductance_H: 4e-5,
      watch: [0],
      until_s: 2.5e-6,
    } as const;
    const times = [0.1, 0.5, 1, 2];
    const alone = solve(slow);
    expectVolts(
      at(alone, times),
      times.map((time) => 1 - Math.exp(-(time - 0.005) / 0.5)),
    );
    expectVolts([alone?.sourcePeak_A ?? 0], [(1 - Math.exp(-2.495 / 0.5)) / 80], 0.01);
    const damped = solve({ ...slow, across_ohm: 80 });
    expectVolts(
      at(damped, times),
      times.map((time) => 1 - Math.exp(-(time - 0.005) / 1) / 2),
    );
  });
});

describe('what is no network, and how far it goes', () => {
  it('no length, no impedance, no line, no source', () =>
    expect([
      solve({ lines: [line(0)] }),
      solve({ lines: [line(4e-7, 0)] }),
      solve({ lines: [line(4e-7), line(0, 80, 0, 1, 2)] }),
      solve({ lines: [] }),
      solve({ source: [] }),
    ]).toEqual([null, null, null, null, null]));
  it('a line that is too long for the step that another asks for', () => {
    expect(solve({ lines: [line(1e-9), line(1, 80, 0, 1, 2)], until_s: 1e-9 })).toBeNull();
  });
  it('the step is the edge’s share, or an eighth of the shortest line, and a hair finer where that fits a whole number of times', () => {
    const step = (network: Partial<WaveNetwork>, perEdge?: number) => solve(network, perEdge)?.watched[0]?.step_s ?? 0;
    expectClose(step({}) * 1e9, 2, { relative: 0.01 }, '100 ns in 50');
    expectClose(step({}, 25) * 1e9, 4, { relative: 0.01 }, '100 ns in 25');
    expectClose(step({ edge_s: 5e-8 }) * 1e9, 1, { relative: 0.01 }, '50 ns in 50');
    expectClose(step({ lines: [line(8e-9)], until_s: 1e-7 }) * 1e9, 1, { relative: 1e-9 }, '8 ns in 8');
  });
  it('a peak that stands still is settled at the second fineness; what is not watched is nothing', () => {
    const network = { lines: [line(4e-7)], shunts: [{ node: 1, resistance_ohm: 240 }], source: UP, watch: [1], until_s: 1e-6 };
    const solved = atEveryFineness(network);
    const settled = settledWave(solved);
    expectVolts([settled?.peak_V ?? 0], [1.5], 1e-6);
    expect([settled?.step_s, (settled?.error ?? 1) < 1e-6, settled?.truncated]).toEqual([solved(1)?.watched[0]?.step_s, true, false]);
    expect([settledWave(solved, 1), settledWave(atEveryFineness({ ...network, lines: [] })), solved(4)]).toEqual([null, null, undefined]);
  });
  it('10 to 90 % of a straight line is eight tenths of it, read between the steps; what is not reached has no rise time', () => {
    const voltage_V = Float64Array.from([0, 0, 4, 8, 12]);
    expectClose(riseTime_s({ voltage_V, step_s: 2 }, 10) ?? 0, 4, { relative: 1e-9 }, 'by hand');
    expect([riseTime_s({ voltage_V, step_s: 2 }, 100), riseTime_s({ voltage_V, step_s: 2 }, 13.4)]).toEqual([null, null]);
  });
});
