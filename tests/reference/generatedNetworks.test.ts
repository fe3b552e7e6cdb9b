import { describe, expect, it } from 'vitest';
import { complex, magnitude } from '../../engine/physics/complex.ts';
import { conductorImpedance } from '../../engine/physics/conductorImpedance.ts';
import { type Branch, type Load, powerFlow } from '../../engine/physics/powerFlow.ts';
import { expectClose } from './expectClose.ts';
import { hasNgspice, simulate } from './ngspice.ts';

/**
 * Fourteen generated radial networks with constant-power loads: supply, transformer (off its nominal tap), shared feeders of several
 * sets, line reactors, drives. Our load currents are held as current sources in the simulator's a.c. analysis; its voltages must be ours.
 */

const HZ = 60;
const W = 2 * Math.PI * HZ;

/** A small generator of numbers, the same ones in every run (after a linear congruential rule from Numerical Recipes). */
function numbers(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

interface Network {
  readonly line_V: number;
  readonly branches: readonly Branch[];
  readonly loads: readonly Load[];
}

function network(seed: number): Network {
  const next = numbers(seed);
  const pick = <T>(list: readonly T[]): T => list[Math.floor(next() * list.length)] as T;
  const branches: Branch[] = [];
  const add = (from: number, r: number, x: number, ratio = 1): number => {
    const to = branches.length + 1;
    branches.push({ from, to, impedance_ohm: complex(r, x), ratio });
    return to;
  };
  const line_V = pick([12_470, 13_800, 4160]);
  const source = add(0, 0.05 + next() * 0.1, 0.5 + next());
  const kVA = pick([500, 750, 1000, 1500]);
  const z = (0.0575 * 480 ** 2) / (kVA * 1000);
  const tap = pick([0.975, 1, 1.025]);
  const secondary = add(source, z / Math.hypot(1, 6), (6 * z) / Math.hypot(1, 6), (line_V / 480) * tap);
  const cable = (from: number): number => {
    const sets = pick([1, 1, 2, 3]);
    const size = pick(['3 AWG', '1/0 AWG', '250 kcmil', '500 kcmil']);
    const metal = pick(['copper', 'aluminium'] as const);
    const per = conductorImpedance({
      size,
      metal,
      temperature_C: 75,
      frequency_Hz: HZ,
      surround: pick(['steel', 'nonmetallic', 'aluminium'] as const),
    });
    const length_m = 10 + next() * 120;
    if (!per) throw new Error(`no ${size} ${metal}`);
    return add(from, (per.resistance_ohmPerM * length_m) / sets, (per.reactance_ohmPerM * length_m) / sets);
  };
  const loads: Load[] = [];
  const buses = [secondary, cable(secondary)];
  if (next() > 0.4) buses.push(cable(buses[1] ?? secondary));
  const drives = 2 + Math.floor(next() * 4);
  for (let i = 0; i < drives; i++) {
    const amperes = 20 + next() * 60;
    let at = cable(pick(buses));
    if (next() > 0.4) at = add(at, 0.001, (0.03 * 480) / Math.sqrt(3) / amperes);
    loads.push({ node: at, kind: 'power', ratedVoltage_V: 480, ratedCurrent_A: amperes, powerFactor: 0.8 + next() * 0.19 });
  }
  return { line_V, branches, loads };
}

/** Line to neutral. A transformer is two controlled sources: voltage down by the ratio, current up by it. */
function deck({ line_V, branches, loads }: Network, currents: readonly { re: number; im: number }[]): string {
  const lines = ['* generated radial network', `V0 n0 0 AC ${line_V / Math.sqrt(3)}`];
  branches.forEach((branch, i) => {
    let near = `n${branch.from}`;
    if (branch.ratio !== 1) {
      lines.push(
        `E${i} t${i} s${i} n${branch.from} 0 ${1 / branch.ratio}`,
        `VS${i} s${i} 0 0`,
        `F${i} 0 n${branch.from} VS${i} ${1 / branch.ratio}`,
      );
      near = `t${i}`;
    }
    lines.push(`R${i} ${near} m${i} ${branch.impedance_ohm.re}`, `L${i} m${i} n${branch.to} ${branch.impedance_ohm.im / W}`);
  });
  loads.forEach((load, i) => {
    const { re, im } = currents[i] ?? { re: 0, im: 0 };
    lines.push(`I${i} n${load.node} 0 AC ${Math.hypot(re, im)} ${(Math.atan2(im, re) * 180) / Math.PI}`);
  });
  lines.push(
    '.control',
    'set numdgt=12',
    `ac lin 1 ${HZ} ${HZ}`,
    ...branches.map((branch) => `print vm(n${branch.to})`),
    '.endc',
    '.end',
    '',
  );
  return lines.join('\n');
}

const SEEDS = Array.from({ length: 14 }, (_, i) => 101 + 7 * i);

describe('generated networks', () => {
  it('hold what they are said to hold: transformers off their tap, sets in parallel, reactors, branches', () => {
    const all = SEEDS.map(network);
    expect(all.every(({ branches }) => branches.some((branch) => branch.ratio !== 1))).toBe(true);
    expect(all.some(({ branches }) => new Set(branches.map((branch) => branch.from)).size < branches.length - 2)).toBe(true);
    expect(all.reduce((sum, { loads }) => sum + loads.length, 0)).toBeGreaterThan(30);
  });
});

describe.skipIf(!hasNgspice)('phasor power flow of drives against an ngspice a.c. solution, to 0.01 %', () => {
  it.each(SEEDS)('network %d', (seed) => {
    const net = network(seed);
    const flow = powerFlow(net.line_V, net.branches.length + 1, net.branches, net.loads);
    expect(flow.converged).toBe(true);
    // What a load draws is what arrives at its node less what goes on from there: nothing goes on from a drive.
    const drawn = net.loads.map((load) => flow.currents_A[load.node] ?? complex(0));
    const measured = simulate(deck(net, drawn));
    for (const { to } of net.branches)
      expectClose(
        magnitude(flow.voltages_V[to] ?? complex(0)),
        measured.get(`vm(n${to})`) ?? Number.NaN,
        { relative: 1e-4 },
        `ngspice, node ${to}`,
      );
    // And the load is of constant power: volts times amperes is the rated product.
    net.loads.forEach((load, i) => {
      const volts = magnitude(flow.voltages_V[load.node] ?? complex(0));
      const amperes = magnitude(drawn[i] ?? complex(0));
      expectClose(volts * amperes, (load.ratedVoltage_V / Math.sqrt(3)) * load.ratedCurrent_A, { relative: 1e-9 }, 'rated power');
    });
  });
});
