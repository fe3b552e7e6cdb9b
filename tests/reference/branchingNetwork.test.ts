import { describe, it } from 'vitest';
import { complex, magnitude } from '../../engine/physics/complex.ts';
import { type Branch, powerFlow } from '../../engine/physics/powerFlow.ts';
import { expectClose } from './expectClose.ts';
import { hasNgspice, simulate } from './ngspice.ts';

/**
 * Branching feeders with impedance loads, solved by an a.c. analysis of a circuit simulator. One phase to neutral;
 * a load of I amperes at its rated voltage is the impedance U / (sqrt(3) I) at its power factor.
 */

interface Load {
  readonly node: number;
  readonly ratedVoltage_V: number;
  readonly ratedCurrent_A: number;
  readonly powerFactor: number;
}

const W = 2 * Math.PI * 60;

function deck(line_V: number, branches: readonly Branch[], loads: readonly Load[]): string {
  const lines = ['* branching feeder', `V0 n0 0 AC ${line_V / Math.sqrt(3)}`];
  branches.forEach((branch, i) => {
    lines.push(`R${i} n${branch.from} m${i} ${branch.impedance_ohm.re}`, `L${i} m${i} n${branch.to} ${branch.impedance_ohm.im / W}`);
  });
  loads.forEach((load, i) => {
    const z = load.ratedVoltage_V / Math.sqrt(3) / load.ratedCurrent_A;
    lines.push(`RL${i} n${load.node} k${i} ${z * load.powerFactor}`, `LL${i} k${i} 0 ${(z * Math.sqrt(1 - load.powerFactor ** 2)) / W}`);
  });
  lines.push('.control', 'set numdgt=10', 'ac lin 1 60 60', ...branches.map((branch) => `print vm(n${branch.to})`), '.endc', '.end', '');
  return lines.join('\n');
}

const branch = (from: number, to: number, r: number, x: number): Branch => ({ from, to, impedance_ohm: complex(r, x), ratio: 1 });
const NETWORKS = [
  {
    name: 'one trunk, three taps',
    line_V: 480,
    branches: [
      branch(0, 1, 0.004, 0.012),
      branch(1, 2, 0.02, 0.006),
      branch(2, 3, 0.05, 0.01),
      branch(2, 4, 0.08, 0.012),
      branch(1, 5, 0.11, 0.02),
    ],
    loads: [
      { node: 3, ratedVoltage_V: 460, ratedCurrent_A: 75, powerFactor: 0.86 },
      { node: 4, ratedVoltage_V: 460, ratedCurrent_A: 34, powerFactor: 0.8 },
      { node: 5, ratedVoltage_V: 460, ratedCurrent_A: 52, powerFactor: 0.9 },
    ],
  },
  {
    name: 'a chain of reactors and leads, loads along it',
    line_V: 400,
    branches: [
      branch(0, 1, 0.002, 0.02),
      branch(1, 2, 0.01, 0.15),
      branch(2, 3, 0.12, 0.01),
      branch(3, 4, 0.3, 0.02),
      branch(3, 5, 0.05, 0.09),
      branch(5, 6, 0.4, 0.03),
    ],
    loads: [
      { node: 2, ratedVoltage_V: 400, ratedCurrent_A: 20, powerFactor: 0.95 },
      { node: 4, ratedVoltage_V: 400, ratedCurrent_A: 15, powerFactor: 0.7 },
      { node: 6, ratedVoltage_V: 400, ratedCurrent_A: 25, powerFactor: 0.85 },
    ],
  },
] as const;

describe.skipIf(!hasNgspice)('phasor power flow against an ngspice a.c. solution', () => {
  it.each(NETWORKS)('$name', ({ line_V, branches, loads }) => {
    const flow = powerFlow(
      line_V,
      branches.length + 1,
      branches,
      loads.map((load) => ({ ...load, kind: 'impedance' as const })),
    );
    const measures = simulate(deck(line_V, branches, loads));
    for (const { to } of branches)
      expectClose(
        magnitude(flow.voltages_V[to] ?? complex(0)),
        measures.get(`vm(n${to})`) ?? Number.NaN,
        { relative: 2e-6 },
        `ngspice, node ${to}`,
      );
  });
});
