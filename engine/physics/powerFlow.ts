import { add, type Complex, complex, conjugate, divide, magnitude, multiply, scale, subtract, ZERO } from './complex.ts';
import type { Amperes, Volts } from './units.ts';

/**
 * Phasor power flow of a radial three-phase network, one phase to neutral, by backward and forward sweeps
 * (D. Shirmohammadi and others, IEEE Trans. Power Systems 3(2), 1988, without the loop part).
 *
 * Each branch: V_from / ratio = V_to + Z I_to, with Z seen from its far side and I_from = I_to / ratio.
 * Balanced, positive sequence; the phase shift of a transformer is left out: it moves no magnitude.
 */

export interface Branch {
  /** Index of the node nearer to the source; nodes are numbered so that from < to. Node 0 is the source. */
  readonly from: number;
  readonly to: number;
  readonly impedance_ohm: Complex;
  /** Turns ratio, from side over to side; 1 for all but transformers. */
  readonly ratio: number;
}

export interface Load {
  readonly node: number;
  /**
   * 'power': constant complex power. 'regulated': the rated current while the voltage is at or above the rated one
   * (a drive turns its output down), constant power below it. 'impedance': rated current in proportion to voltage.
   */
  readonly kind: 'power' | 'regulated' | 'impedance';
  /** Line to line. */
  readonly ratedVoltage_V: Volts;
  readonly ratedCurrent_A: Amperes;
  /** Lagging. Null takes the angle that lowers the voltage most: that of the path's own impedance. */
  readonly powerFactor: number | null;
}

export interface FlowResult {
  /** False when the load cannot be carried at all: the voltage collapses. The last sweep is given. */
  readonly converged: boolean;
  /** Line to neutral, by node. */
  readonly voltages_V: readonly Complex[];
  /** Current at the far end of the branch that feeds a node, by node; zero for the source. */
  readonly currents_A: readonly Complex[];
}

const SWEEPS = 200;
const TOLERANCE = 1e-12;

/**
 * @param source_V line to line, behind whatever impedance the first branches hold
 * @param nodes number of nodes, the source included
 * @param branches in any order; each node but the source has exactly one that feeds it
 */
export function powerFlow(source_V: Volts, nodes: number, branches: readonly Branch[], loads: readonly Load[]): FlowResult {
  const inOrder = branches.toSorted((a, b) => a.to - b.to);
  const backward = inOrder.toReversed();
  const noLoad = [complex(source_V / Math.sqrt(3))];
  const path = [ZERO];
  for (const branch of inOrder) {
    noLoad[branch.to] = scale(noLoad[branch.from] ?? ZERO, 1 / branch.ratio);
    path[branch.to] = add(scale(path[branch.from] ?? ZERO, 1 / branch.ratio ** 2), branch.impedance_ohm);
  }
  const voltages = [...noLoad];
  const currents: Complex[] = new Array(nodes).fill(ZERO);
  let converged = false;
  for (let sweep = 0; sweep < SWEEPS; sweep++) {
    currents.fill(ZERO);
    for (const load of loads) {
      const drawn = loadCurrent(load, voltages[load.node] ?? ZERO, path[load.node] ?? ZERO);
      currents[load.node] = add(currents[load.node] ?? ZERO, drawn);
    }
    for (const branch of backward) {
      if (branch.from === 0) continue;
      currents[branch.from] = add(currents[branch.from] ?? ZERO, scale(currents[branch.to] ?? ZERO, 1 / branch.ratio));
    }
    let change = 0;
    for (const branch of inOrder) {
      const before = voltages[branch.to] ?? ZERO;
      const after = subtract(
        scale(voltages[branch.from] ?? ZERO, 1 / branch.ratio),
        multiply(branch.impedance_ohm, currents[branch.to] ?? ZERO),
      );
      voltages[branch.to] = after;
      change = Math.max(change, magnitude(subtract(after, before)) / magnitude(noLoad[branch.to] ?? ZERO));
    }
    if (change < TOLERANCE) {
      converged = true;
      break;
    }
  }
  // Below half of the no-load voltage the solution is past the nose of the curve: no motor or drive runs there.
  const carried = voltages.every((v, node) => magnitude(v) > 0.5 * magnitude(noLoad[node] ?? ZERO));
  return { converged: converged && carried, voltages_V: voltages, currents_A: currents };
}

function loadCurrent(load: Load, voltage: Complex, path: Complex): Complex {
  const size = magnitude(voltage);
  const rated = load.ratedVoltage_V / Math.sqrt(3);
  if (size < 0.01 * rated) return ZERO;
  const ofRated = size / rated;
  const amount =
    load.kind === 'impedance'
      ? load.ratedCurrent_A * ofRated
      : load.kind === 'power'
        ? load.ratedCurrent_A / ofRated
        : load.ratedCurrent_A * Math.max(1, 1 / ofRated);
  const impedance = magnitude(path);
  const cosine = load.powerFactor ?? (impedance > 0 ? Math.max(0, path.re) / impedance : 1);
  const power = complex(cosine, Math.sqrt(Math.max(0, 1 - cosine * cosine)));
  return scale(conjugate(divide(power, voltage)), amount * size);
}
