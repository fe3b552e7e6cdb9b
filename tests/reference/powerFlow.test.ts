import { describe, expect, it } from 'vitest';
import { type Complex, complex, magnitude } from '../../engine/physics/complex.ts';
import { type Branch, type Load, powerFlow } from '../../engine/physics/powerFlow.ts';
import { expectClose } from './expectClose.ts';

/** The sweeps against what circuit theory gives in closed form for one line and one load, and against Kirchhoff's laws on a tree. */

const ROOT3 = Math.sqrt(3);
const line = (from: number, to: number, re: number, im: number, ratio = 1): Branch => ({ from, to, impedance_ohm: complex(re, im), ratio });
const times = (a: Complex, b: Complex): Complex => complex(a.re * b.re - a.im * b.im, a.re * b.im + a.im * b.re);
const minus = (a: Complex, b: Complex): Complex => complex(a.re - b.re, a.im - b.im);
const zero = complex(0);

/**
 * Receiving voltage of one line that feeds a constant power, the upper root of
 * V2⁴ + (2 (R P + X Q) − V1²) V2² + |Z|² |S|² = 0, line to neutral (any textbook on power systems).
 */
function receiving(source_V: number, r: number, x: number, p: number, q: number): number | null {
  const b = 2 * (r * p + x * q) - (source_V / ROOT3) ** 2;
  const root = b * b - 4 * (r * r + x * x) * (p * p + q * q);
  return root < 0 ? null : Math.sqrt((-b + Math.sqrt(root)) / 2);
}
const load = (kind: Load['kind'], node: number, ratedVoltage_V: number, ratedCurrent_A: number, powerFactor: number | null): Load => ({
  kind,
  node,
  ratedVoltage_V,
  ratedCurrent_A,
  powerFactor,
});

describe('one line, one load', () => {
  it.each([
    [480, 0.05, 0.02, 100, 0.85],
    [480, 0.2, 0.1, 150, 0.6],
    [400, 0.01, 0.3, 200, 1],
    [690, 0, 0.4, 120, 0.9],
    [230, 0.3, 0, 90, 1],
    // Close to the most that this source gives: 65 % of its open voltage is left.
    [480, 0.0303, 0.2755, 395.5, 0.988],
  ] as const)('%f V, R %f Ω, X %f Ω, %f A at power factor %f: constant power', (source_V, r, x, amperes, cosine) => {
    const power = (source_V / ROOT3) * amperes;
    const expected = receiving(source_V, r, x, power * cosine, power * Math.sqrt(1 - cosine ** 2));
    const found = powerFlow(source_V, 2, [line(0, 1, r, x)], [load('power', 1, source_V, amperes, cosine)]);
    expect(found.converged).toBe(true);
    expectClose(magnitude(found.voltages_V[1] ?? zero), expected ?? Number.NaN, { relative: 1e-9 }, 'the upper root');
  });

  it('a load of constant impedance divides the voltage', () => {
    // 277.128 V at 100 A and power factor 0.8: 2.217 + j1.663 Ω behind 0.1 + j0.2 Ω.
    const at = 480 / ROOT3 / 100;
    const expected = (480 / ROOT3) * (at / Math.hypot(0.8 * at + 0.1, 0.6 * at + 0.2));
    const found = powerFlow(480, 2, [line(0, 1, 0.1, 0.2)], [load('impedance', 1, 480, 100, 0.8)]);
    expectClose(magnitude(found.voltages_V[1] ?? zero), expected, { relative: 1e-9 }, 'voltage divider');
    expectClose(magnitude(found.currents_A[1] ?? zero), expected / at, { relative: 1e-9 }, 'its current');
  });

  it('a regulated load draws its rated current above its rated voltage and its rated power below', () => {
    const drawn = (source_V: number) =>
      magnitude(powerFlow(source_V, 2, [line(0, 1, 0, 0)], [load('regulated', 1, 480, 100, 0.9)]).currents_A[1] ?? zero);
    expectClose(drawn(528), 100, { relative: 1e-9 }, 'at 110 %');
    expectClose(drawn(480), 100, { relative: 1e-9 }, 'at 100 %');
    expectClose(drawn(384), 125, { relative: 1e-9 }, 'at 80 %');
  });

  it('without a power factor the drop is the most there is: |Z| I, and no known power factor gives more', () => {
    const dropAt = (cosine: number | null) =>
      480 / ROOT3 - magnitude(powerFlow(480, 2, [line(0, 1, 0.06, 0.08)], [load('regulated', 1, 100, 50, cosine)]).voltages_V[1] ?? zero);
    expectClose(dropAt(null), 0.1 * 50, { relative: 1e-9 }, '|Z| I');
    for (const cosine of [0.1, 0.3, 0.5, 0.59, 0.61, 0.8, 1]) expect(dropAt(cosine)).toBeLessThan(5);
    // A path that is a pure reactance lowers it most with a load that is one too.
    const pure = powerFlow(480, 2, [line(0, 1, 0, 0.1)], [load('regulated', 1, 100, 50, null)]);
    expectClose(480 / ROOT3 - magnitude(pure.voltages_V[1] ?? zero), 5, { relative: 1e-9 }, 'X I');
  });

  it('beyond the nose of the curve nothing can be carried: a pure resistance gives at most V²/4R', () => {
    const most_A = 277.128129 / 4;
    const carried = (share: number) => powerFlow(480, 2, [line(0, 1, 1, 0)], [load('power', 1, 480, share * most_A, 1)]).converged;
    expect([carried(0.9), carried(0.99), carried(1.01), carried(1.5), carried(10)]).toEqual([true, true, false, false, false]);
    // At the nose itself every sweep comes nearer by less than the one before, and none arrives.
    expect(carried(1)).toBe(false);
  });

  it('a constant power draws less where the voltage is above the rated one', () => {
    const found = powerFlow(528, 2, [line(0, 1, 0, 0)], [load('power', 1, 480, 100, 0.9)]);
    expectClose(magnitude(found.currents_A[1] ?? zero), (100 * 480) / 528, { relative: 1e-9 }, 'S / V');
  });

  it('below half of the open-circuit voltage nothing runs, wherever on the tree that is', () => {
    // 100 A at a rated 48 V through a resistance that leaves this share of 277 V: far above what the load is made for, and yet too little.
    const left = (share: number) =>
      powerFlow(480, 3, [line(0, 1, ((1 - share) * 480) / ROOT3 / 100, 0), line(0, 2, 0, 0)], [load('regulated', 1, 48, 100, 1)]);
    expect([left(0.6), left(0.51), left(0.49), left(0.3)].map((each) => each.converged)).toEqual([true, true, false, false]);
    expectClose(magnitude(left(0.6).voltages_V[1] ?? zero), (0.6 * 480) / ROOT3, { relative: 1e-9 }, 'what is left');
  });

  it('no voltage, no current: and no number that is none', () => {
    for (const kind of ['power', 'regulated', 'impedance'] as const) {
      const found = powerFlow(0, 2, [line(0, 1, 0.1, 0.1)], [load(kind, 1, 480, 100, 0.9)]);
      expect([found.converged, found.currents_A.map(magnitude), found.voltages_V.map(magnitude)]).toEqual([false, [0, 0], [0, 0]]);
    }
  });

  it('a load whose voltage is all but gone, below a hundredth of its rated one, draws nothing; above it what it is made for', () => {
    const at = (source_V: number) =>
      magnitude(powerFlow(source_V, 2, [line(0, 1, 0, 0)], [load('power', 1, 480, 100, 0.9)]).currents_A[1] ?? zero);
    expect(at(4.79)).toBe(0);
    expectClose(at(4.81), (100 * 480) / 4.81, { relative: 1e-9 }, 'S / V');
  });

  it('without a power factor and without a path there is no worst angle: the current is the rated one', () => {
    const found = powerFlow(480, 2, [line(0, 1, 0, 0)], [load('regulated', 1, 480, 100, null)]);
    expectClose(magnitude(found.currents_A[1] ?? zero), 100, { relative: 1e-12 }, 'rated');
  });

  it('no load, no drop; and with nothing drawn at all it is still an answer', () => {
    const found = powerFlow(480, 3, [line(0, 1, 1, 1), line(1, 2, 1, 1)], []);
    expect(found.converged).toBe(true);
    for (const voltage of found.voltages_V) expectClose(magnitude(voltage), 480 / ROOT3, { relative: 1e-12 }, 'open circuit');
    expect(found.currents_A.map(magnitude)).toEqual([0, 0, 0]);
  });
});

describe('a transformer', () => {
  it('gives the voltage of its ratio, and draws the current of its inverse', () => {
    const found = powerFlow(12_470, 3, [line(0, 1, 0, 0), line(1, 2, 0, 0, 12_470 / 480)], [load('regulated', 2, 480, 1000, 0.9)]);
    expect(found.converged).toBe(true);
    expectClose(ROOT3 * magnitude(found.voltages_V[2] ?? zero), 480, { relative: 1e-9 }, 'secondary');
    expectClose(magnitude(found.currents_A[1] ?? zero), (1000 * 480) / 12_470, { relative: 1e-9 }, 'primary current');
  });
  it('what is ahead of it counts by the square of its ratio: 1 Ω on 4160 V is (480/4160)² Ω on 480 V', () => {
    const seen = (480 / 4160) ** 2;
    const ahead = powerFlow(4160, 3, [line(0, 1, 1, 0), line(1, 2, 0, 0, 4160 / 480)], [load('power', 2, 480, 300, 1)]);
    const behind = powerFlow(480, 2, [line(0, 1, seen, 0)], [load('power', 1, 480, 300, 1)]);
    expectClose(magnitude(ahead.voltages_V[2] ?? zero), magnitude(behind.voltages_V[1] ?? zero), { relative: 1e-9 }, 'referred');
    // The same where the power factor is the worst: it hangs on the whole path, seen from the load.
    const worst = (branches: readonly Branch[], node: number, source_V: number) =>
      magnitude(powerFlow(source_V, node + 1, branches, [load('power', node, 480, 300, null)]).voltages_V[node] ?? zero);
    const both = worst([line(0, 1, 0, 1), line(1, 2, 0.01, 0, 4160 / 480)], 2, 4160);
    expectClose(both, worst([line(0, 1, 0.01, seen)], 1, 480), { relative: 1e-9 }, 'worst angle');
    const other = worst([line(0, 1, 1, 0), line(1, 2, 0, 0.01, 4160 / 480)], 2, 4160);
    expectClose(other, worst([line(0, 1, seen, 0.01)], 1, 480), { relative: 1e-9 }, 'worst angle of the other');
  });
});

describe('Kirchhoff on a tree', () => {
  // Branches in no order: the source feeds 1, that 2 and 3, and 3 feeds 4.
  const branches = [line(3, 4, 0.02, 0.01), line(1, 3, 0.03, 0.02), line(0, 1, 0.01, 0.04), line(1, 2, 0.05, 0.01)];
  const loads = [
    load('power', 2, 480, 40, 0.8),
    load('regulated', 4, 480, 60, 0.9),
    load('impedance', 3, 480, 20, 1),
    load('power', 4, 460, 10, null),
  ];
  const found = powerFlow(480, 5, branches, loads);
  const [v, i] = [(node: number) => found.voltages_V[node] ?? zero, (node: number) => found.currents_A[node] ?? zero];

  it('two loads on one node draw their sum', () => {
    const both = powerFlow(480, 2, [line(0, 1, 0, 0)], [load('regulated', 1, 400, 60, 0.8), load('regulated', 1, 300, 10, 0.8)]);
    expectClose(magnitude(both.currents_A[1] ?? zero), 70, { relative: 1e-12 }, 'in phase');
  });
  it('along each branch the voltage falls by Z I', () => {
    expect(found.converged).toBe(true);
    // No branch feeds the source.
    expect(magnitude(i(0))).toBe(0);
    for (const { from, to, impedance_ohm } of branches)
      expectClose(magnitude(minus(minus(v(from), v(to)), times(impedance_ohm, i(to)))), 0, { absolute: 1e-8 }, `${from} to ${to}`);
  });
  it('the power that leaves the source is what the loads take and the lines lose', () => {
    // S = V I*, one phase.
    const power = (voltage: Complex, current: Complex) => times(voltage, complex(current.re, -current.im));
    const sent = power(v(0), i(1));
    const taken: Complex[] = [
      complex((480 / ROOT3) * 40 * 0.8, (480 / ROOT3) * 40 * 0.6),
      ...[2, 3, 4, 1].map((node) => {
        const of = branches.find((each) => each.to === node)?.impedance_ohm ?? zero;
        return complex(of.re * magnitude(i(node)) ** 2, of.im * magnitude(i(node)) ** 2);
      }),
      power(v(3), minus(i(3), i(4))),
      power(v(4), i(4)),
    ];
    expectClose(
      sent.re,
      taken.reduce((sum, each) => sum + each.re, 0),
      { relative: 1e-9 },
      'active',
    );
    expectClose(
      sent.im,
      taken.reduce((sum, each) => sum + each.im, 0),
      { relative: 1e-9 },
      'reactive',
    );
  });
});
