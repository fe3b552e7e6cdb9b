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

describe('a line of little resistance, exactly', () => {
  // Lumps stand for it: a quarter at each end, half in the middle. 1.6 Ω on 80 Ω is the most that one section takes.
  const [Z, R] = [80, 1.6];
  const matched = [{ node: 1, resistance_ohm: Z }];
  const end = Z + R / 4;
  it('a front passes three lumps: Z / (Z + R/4), 2 Z / (2 Z + R/2), and the end', () => {
    const result = solve({ lines: [line(4e-7, Z, R)], shunts: matched, until_s: 1.1e-6 }, 12);
    const front = (Z / end) * ((2 * Z) / (2 * Z + R / 2)) * ((2 * Z) / (end + Z));
    expectVolts(at(result, [0.39, 0.55, 0.7]), [0, front, front], 1e-9);
    // What the middle turns back comes to the source after one transit; before it flows the most.
    expectVolts([result?.sourcePeak_A ?? 0], [1 / end], 1e-9);
    expectVolts(at(solve({ lines: [line(4e-7, Z, R)], shunts: matched, until_s: 1e-5 }, 4), [9.9]), [Z / (Z + R)], 1e-9);
  });
  it('of more in as many sections as it needs, each with its own: twice the resistance in two', () => {
    const result = solve({ lines: [line(4e-7, Z, 2 * R)], shunts: matched, until_s: 1e-5 }, 12);
    const [middle, junction] = [(2 * Z) / (2 * Z + R / 2), (2 * Z) / (2 * Z + R / 2)];
    expectVolts(at(result, [0.39, 0.55]), [0, (Z / end) * middle * junction * middle * ((2 * Z) / (end + Z))], 1e-9);
    expectVolts(at(result, [9.9]), [Z / (Z + 2 * R)], 1e-9);
    // An eighth of its 0.2 µs is more than a twelfth of the edge.
    expectClose((result?.watched[0]?.step_s ?? 0) * 1e9, 8, { relative: 0.05 }, '100 ns in 12');
    const slow = solve({ lines: [line(4e-7, Z, 2 * R)], shunts: matched, until_s: 1e-6 }, 1);
    expectClose((slow?.watched[0]?.step_s ?? 0) * 1e9, 25, { relative: 1e-9 }, '200 ns in 8');
  });
  it('and what hangs behind it is where it was', () => {
    const lines = [line(2e-7, Z, 3 * R), line(3e-7, Z, 0, 1, 2), line(1e-7, Z, 0, 1, 3)];
    const shunts = [2, 3].map((node) => ({ node, resistance_ohm: 2 * Z }));
    const result = solve({ lines, shunts, watch: [1, 2, 3], until_s: 2e-5 }, 2);
    for (const node of [0, 1, 2]) expectVolts(at(result, [19.8], node), [Z / (Z + 3 * R)], 1e-6);
  });
  it('at rest: what was sent is worn by h twice, (RL + h² z) / (RL + z), then it settles', () => {
    const resting = solve({ lines: [line(4e-7, Z, R)], source: [[0, 1]], until_s: 3e-5 }, 50);
    const h = (Z - R / 4) / end;
    expectVolts(at(resting, [0.2]), [(240 + h * h * end) / (240 + end)], 1e-9);
    expectVolts(at(resting, [29]), [240 / (240 + R)], 1e-9);
    // What comes back to the source is as much too small: behind 80 Ω, past a coil whose current does not change, it lifts node 0.
    const lifted = solve({ lines: [line(4e-7, Z, R)], source: [[0, 1]], inductance_H: 1, across_ohm: Z, watch: [0], until_s: 2e-7 }, 50);
    expectVolts(at(lifted, [0.1]), [1 + (1 - h * h) / 240 / (1 / Z + 1 / end)], 1e-6);
  });
});

describe('a line between whose steps a wave arrives', () => {
  // 8 ns and 9.3 ns: of 8 to 12 steps in the shorter none fits the longer; 12 come nearest, 13.95 of them.
  const lines = [line(8e-9), line(9.3e-9, 80, 0, 1, 2)];
  const network = { lines, watch: [1, 2], until_s: 1e-7 };
  const step_s = 8e-9 / 12;
  const ramp = (time_ns: number): number => Math.min(1, Math.max(0, time_ns / 100));
  it('a straight front is read between two of them as it is, there and back', () => {
    const found = solve({ ...network, shunts: [{ node: 2, resistance_ohm: 240 }] }, 50);
    expectClose(found?.watched[0]?.step_s ?? 0, step_s, { relative: 1e-9 }, '8 ns in 12');
    for (const count of [30, 40, 50]) {
      const time_ns = count * step_s * 1e9;
      // Half of the wave turned back at the end, all of it at the source, turned over; nothing where the two lines meet.
      const sum = (first_ns: number): number =>
        [0, 1, 2, 3, 4, 5].reduce((volts, turn) => volts + (-0.5) ** turn * ramp(time_ns - first_ns - 34.6 * turn), 0);
      expectVolts(at(found, [time_ns / 1000], 1), [1.5 * sum(17.3)], 1e-9);
      expectVolts(at(found, [time_ns / 1000], 0), [sum(8) + 0.5 * sum(26.6)], 1e-9);
    }
  });
  it('the step is the coarsest that fits best', () => {
    const step = (...delays_ns: readonly number[]) =>
      (solve({ lines: delays_ns.map((each, k) => line(each * 1e-9, 80, 0, k, k + 1)), until_s: 1e-7 }, 20)?.watched[0]?.step_s ?? 0) * 1e9;
    expectClose(step(8, 10), 1, { relative: 1e-9 }, 'in 8 and 10');
    expectClose(step(8, 9.6), 0.8, { relative: 1e-9 }, 'in 10 and 12');
    expectClose(step(8, 9.6, 12.8), 0.8, { relative: 1e-9 }, 'in 10, 12 and 16');
    expectClose(step(8, 8), 1, { relative: 1e-9 }, 'in 8');
    // 11 is the first of which 8 ns and 8.727 ns are nearly whole; 13 would be beyond what is looked at.
    expectClose(step(8, (8 * 13) / 12), 8 / 12, { relative: 1e-9 }, 'in 12 and 13');
    expectClose(step(8, (8 * 14) / 13), 8 / 12, { relative: 1e-9 }, '13 is too many; of 12 it is 12.92');
  });
  it('a line of ten steps remembers ten', () => {
    const ten = solve({ lines: [line(1e-8)], source: UP, shunts: [{ node: 1, resistance_ohm: 80 }], until_s: 6e-8 }, 100);
    expectVolts(at(ten, [0.009, 0.02, 0.05]), [0, 0.1, 0.4], 1e-9);
  });
});

describe('quickly, at a coarse step', () => {
  /** 1 − (what a straight edge of this length leaves of an exponential), a time constant and a time after its beginning, in µs. */
  const charged = (time: number, constant: number, edge = 0.1): number =>
    1 - (constant / edge) * (Math.exp(edge / constant) - 1) * Math.exp(-time / constant);
  it('a coil of 40 µH before a long line, bare and with 80 Ω across it', () => {
    const slow = { lines: [line(2e-6)], shunts: [], inductance_H: 4e-5, watch: [0], until_s: 1.5e-6 } as const;
    const [times, alone, damped] = [[0.2, 0.5, 1], solve(slow, 12), solve({ ...slow, across_ohm: 80 }, 12)];
    const step_us = (alone?.watched[0]?.step_s ?? 0) * 1e6;
    const exactly = times.map((time) => Math.round(time / step_us) * step_us);
    expectVolts(
      at(alone, times),
      exactly.map((time) => charged(time, 0.5)),
      2e-4,
    );
    expectVolts(
      at(damped, times),
      exactly.map((time) => (1 + charged(time, 1)) / 2),
      2e-4,
    );
    // All that flows, through coil and resistance, goes into the line.
    const last = Math.ceil(1.5 / step_us) * step_us;
    expectVolts([damped?.sourcePeak_A ?? 0], [(1 + charged(last, 1)) / 2 / 80], 2e-4);
  });
  it('a capacitor of 1 nF between a coil of 4 Z² C and a long line, just not ringing: 1 − (1 + t / 2ZC) exp(−t / 2ZC) after a step', () => {
    const capacitor = { node: 0, resistance_ohm: 1e-6, capacitance_F: 1e-9 };
    const found = solve({ lines: [line(2e-6)], shunts: [capacitor], inductance_H: 4 * 80 ** 2 * 1e-9, watch: [0], until_s: 1.5e-6 }, 50);
    const [constant, edge, step_us] = [0.16, 0.1, (found?.watched[0]?.step_s ?? 0) * 1e6];
    const area = (time: number): number => time - 2 * constant + (time + 2 * constant) * Math.exp(-time / constant);
    const times = [0.2, 0.5, 1].map((time) => Math.round(time / step_us) * step_us);
    expectVolts(
      at(found, times),
      times.map((time) => (area(time) - area(time - edge)) / edge),
      2e-4,
    );
  });
  it('a capacitor of 1 nF at the end of a line, with next to nothing and with 40 Ω in series', () => {
    const end = (resistance_ohm: number) =>
      solve({ lines: [line(4e-7)], shunts: [{ node: 1, resistance_ohm, capacitance_F: 1e-9 }], until_s: 7.5e-7 }, 50);
    for (const [ohm, share] of [
      [1e-3, 0],
      [40, 1 / 3],
    ] as const) {
      const found = end(ohm);
      const step_us = (found?.watched[0]?.step_s ?? 0) * 1e6;
      const times = [0.55, 0.6, 0.7];
      // 2 V behind 80 Ω: the resistance takes its share at once, the rest charges.
      expectVolts(
        at(found, times),
        times.map((time) => 2 * (share + (1 - share) * charged(Math.round(time / step_us) * step_us - 0.4, 0.08 * (1 + ohm / 80)))),
        1e-3,
      );
    }
  });
  it('at rest a tree draws what hangs on it, in whatever order its lines are named, and stays at rest', () => {
    const lines = [line(2e-7, 80, 0, 1, 3), line(3e-7, 80, 0, 1, 2), line(1e-7)];
    const shunts = [
      { node: 1, resistance_ohm: 500 },
      { node: 2, resistance_ohm: 240 },
      { node: 2, resistance_ohm: 1000 },
      { node: 3, resistance_ohm: 120 },
      { node: 3, resistance_ohm: 10, capacitance_F: 1e-9 },
    ];
    const drawn = 1 / 500 + 1 / 240 + 1 / 1000 + 1 / 120;
    for (const coil of [{}, { inductance_H: 1e-5, across_ohm: 100 }]) {
      const resting = solve({ lines, shunts, source: [[0, 1]], watch: [0, 1, 2, 3], until_s: 1e-6, ...coil }, 20);
      for (const node of [0, 1, 2, 3]) {
        expectVolts(at(resting, [0, 0.3, 0.9], node), [1, 1, 1], 1e-9);
        expectVolts([resting?.watched[node]?.lowest_V ?? 0, resting?.watched[node]?.peak_V ?? 0], [1, 1], 1e-9);
      }
      expectVolts([resting?.sourcePeak_A ?? 0], [drawn], 1e-9);
    }
  });
  it('a wave over lines in any order; what flows out of the source is what flows into the lines at it', () => {
    const lines = [line(1e-7, 40, 0, 1, 3), line(3e-7, 40, 0, 1, 2), line(2e-7)];
    const shunts = [
      { node: 2, resistance_ohm: 40 },
      { node: 3, resistance_ohm: 40 },
    ];
    // 80 Ω meets two of 40 Ω side by side: 2 × 20 / 100 of the wave passes on, and 0.6 V are turned back and over again.
    const found = solve({ lines, shunts, watch: [1, 2, 3], until_s: 7.9e-7 }, 20);
    expectVolts(
      [0, 1, 2].flatMap((node) => at(found, [0.59], node)),
      [0.4, 0.36, 0.4],
      1e-9,
    );
    expectVolts([found?.sourcePeak_A ?? 0], [(1 + 2 * 0.6) / 80], 1e-9);
  });
  it('the source waits for its first corner, jumps where two are at one time, and keeps its last voltage', () => {
    const found = solve(
      {
        lines: [line(1e-6)],
        shunts: [],
        watch: [0],
        source: [
          [3e-7, 1],
          [4e-7, 2],
          [6e-7, 2],
          [6e-7, 3],
        ],
        until_s: 9e-7,
      },
      20,
    );
    expectVolts(at(found, [0.1, 0.25, 0.35, 0.5, 0.7, 0.9]), [1, 1, 1.5, 2, 3, 3], 1e-9);
    expectClose((found?.watched[0]?.step_s ?? 0) * 1e9, 5, { relative: 1e-9 }, '100 ns in 20');
    expect([found?.watched[0]?.lowest_V, found?.watched[0]?.voltage_V.length]).toEqual([1, 181]);
    // Of one corner the step is a share of the whole time.
    expectClose((solve({ source: [[0, 1]] })?.watched[0]?.step_s ?? 0) * 1e9, 40, { relative: 1e-9 }, '2.2 µs in 50: 400 ns in 10');
    // A voltage that never changes is highest at its beginning.
    expect(solve({ source: [[0, 1]], watch: [0] })?.watched[0]?.at_s).toBe(0);
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
      solve({ lines: [line(-1e-7)] }),
      solve({ lines: [line(4e-7), line(4e-7, 0, 0, 1, 2)] }),
      solve({ lines: [line(4e-7, -80)] }),
    ]).toEqual(Array(8).fill(null)));
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
    expect(solved(1)).toBe(solved(1));
    expect([settledWave(solved, 1), settledWave(atEveryFineness({ ...network, lines: [] })), solved(4)]).toEqual([null, null, undefined]);
  });
  it('goes on until the peak changes by less than 0.3 %, and says by how much it last did', () => {
    const told = (...peaks: readonly number[]) => {
      const settled = settledWave((index) => {
        const peak_V = peaks[index];
        if (peak_V === undefined) return undefined;
        const seen = { step_s: 1 / (1 + index), voltage_V: Float64Array.from([0, peak_V]), peak_V, at_s: 1, lowest_V: 0 };
        return { watched: [seen], sourcePeak_A: 0, truncated: index > 1 };
      });
      return [settled?.peak_V, settled?.error, settled?.truncated];
    };
    expect(told(10, 10.05, 10.06, 11)).toEqual([10.06, (10.06 - 10.05) / 10.06, true]);
    expect(told(0.5, 0.5014, 7)).toEqual([0.5014, (0.5014 - 0.5) / 0.5014, false]);
    expect(told(-4, -4.001, 7)).toEqual([-4.001, (4.001 - 4) / 4.001, false]);
    expect(told(0, 0, 7)).toEqual([0, 0, false]);
    // Where it never does the last is what there is; of one alone nobody knows.
    expect([told(1, 2, 3), told(5)]).toEqual([
      [3, 1 / 3, true],
      [5, 1, false],
    ]);
  });
  it('10 to 90 % is read from the first crossings, upwards', () => {
    const rise = (of_V: number, ...volts: readonly number[]) => riseTime_s({ voltage_V: Float64Array.from(volts), step_s: 1 }, of_V);
    // 1 V after 0.5 of the first step, 9 V after 0.25 of the third.
    expectClose(rise(10, 0, 2, 8, 12, 0, 12) ?? 0, 2.25 - 0.5, { relative: 1e-12 }, 'by hand');
    expectClose(rise(10, 0, 1, 9, 10) ?? 0, 1, { relative: 1e-12 }, 'met exactly');
    expect([rise(10, 5, 10), rise(1, 5, 5, 5), rise(10, 0, 5)]).toEqual([null, null, null]);
  });
  it('10 to 90 % of a straight line is eight tenths of it, read between the steps; what is not reached has no rise time', () => {
    const voltage_V = Float64Array.from([0, 0, 4, 8, 12]);
    expectClose(riseTime_s({ voltage_V, step_s: 2 }, 10) ?? 0, 4, { relative: 1e-9 }, 'by hand');
    expect([riseTime_s({ voltage_V, step_s: 2 }, 100), riseTime_s({ voltage_V, step_s: 2 }, 13.4)]).toEqual([null, null]);
  });
});
