import { type Complex, complex, magnitude, sizeOf } from './complex.ts';
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

/** Near the most that can be carried the sweeps creep: a load at 65 % of its open voltage takes more than 200. */
const SWEEPS = 500;
const TOLERANCE = 1e-12;

/**
 * @param source_V line to line, behind whatever impedance the first branches hold
 * @param nodes number of nodes, the source included
 * @param branches in any order; each node but the source has exactly one that feeds it
 */
export function powerFlow(source_V: Volts, nodes: number, branches: readonly Branch[], loads: readonly Load[]): FlowResult {
  const inOrder = branches.toSorted((a, b) => a.to - b.to);
  // Real and imaginary parts in lists of their own: every sweep passes over all nodes, and would leave a record for each.
  const list = (): Float64Array => new Float64Array(nodes);
  const [noLoadRe, noLoadIm, pathRe, pathIm, currentRe, currentIm] = [list(), list(), list(), list(), list(), list()];
  noLoadRe[0] = source_V / Math.sqrt(3);
  for (const { from, to, ratio, impedance_ohm: z } of inOrder) {
    noLoadRe[to] = at(noLoadRe, from) * (1 / ratio);
    noLoadIm[to] = at(noLoadIm, from) * (1 / ratio);
    pathRe[to] = at(pathRe, from) * (1 / ratio ** 2) + z.re;
    pathIm[to] = at(pathIm, from) * (1 / ratio ** 2) + z.im;
  }
  const noLoad = noLoadRe.map((re, node) => sizeOf(re, at(noLoadIm, node)));
  const [voltageRe, voltageIm] = [noLoadRe.slice(), noLoadIm.slice()];
  const draws = loads.map((load) => drawOf(load, complex(at(pathRe, load.node), at(pathIm, load.node))));
  let converged = false;
  for (let sweep = 0; sweep < SWEEPS; sweep++) {
    currentRe.fill(0);
    currentIm.fill(0);
    for (const { node, rated_V, amperes, power } of draws) {
      const re = at(voltageRe, node);
      const im = at(voltageIm, node);
      const size = sizeOf(re, im);
      if (size < 0.01 * rated_V) continue;
      // The conjugate of power over voltage, to the size of the current.
      const square = re * re + im * im;
      const drawn = amperes(size / rated_V) * size;
      currentRe[node] = at(currentRe, node) + ((power.re * re + power.im * im) / square) * drawn;
      currentIm[node] = at(currentIm, node) + -((power.im * re - power.re * im) / square) * drawn;
    }
    for (let i = inOrder.length - 1; i >= 0; i--) {
      const { from, to, ratio } = inOrder[i] as Branch;
      if (from === 0) continue;
      currentRe[from] = at(currentRe, from) + at(currentRe, to) * (1 / ratio);
      currentIm[from] = at(currentIm, from) + at(currentIm, to) * (1 / ratio);
    }
    let change = 0;
    for (const { from, to, ratio, impedance_ohm: z } of inOrder) {
      const re = at(currentRe, to);
      const im = at(currentIm, to);
      const afterRe = at(voltageRe, from) * (1 / ratio) - (z.re * re - z.im * im);
      const afterIm = at(voltageIm, from) * (1 / ratio) - (z.re * im + z.im * re);
      change = Math.max(change, sizeOf(afterRe - at(voltageRe, to), afterIm - at(voltageIm, to)) / at(noLoad, to));
      voltageRe[to] = afterRe;
      voltageIm[to] = afterIm;
    }
    if (change < TOLERANCE) {
      converged = true;
      break;
    }
  }
  // Below half of the no-load voltage the solution is past the nose of the curve: no motor or drive runs there.
  const carried = noLoad.every((size, node) => sizeOf(at(voltageRe, node), at(voltageIm, node)) > 0.5 * size);
  const records = (re: Float64Array, im: Float64Array): readonly Complex[] => Array.from(re, (each, node) => complex(each, at(im, node)));
  return { converged: converged && carried, voltages_V: records(voltageRe, voltageIm), currents_A: records(currentRe, currentIm) };
}

const at = (list: Float64Array, node: number): number => list[node] as number;

/** What does not change of a load from sweep to sweep. */
interface Draw {
  readonly node: number;
  /** Line to neutral. */
  readonly rated_V: number;
  /** Current at this share of the rated voltage. */
  readonly amperes: (ofRated: number) => number;
  /** Of size one. */
  readonly power: Complex;
}

function drawOf({ node, kind, ratedVoltage_V, ratedCurrent_A, powerFactor }: Load, path: Complex): Draw {
  const impedance = magnitude(path);
  const cosine = powerFactor ?? (impedance > 0 ? Math.max(0, path.re) / impedance : 1);
  return {
    node,
    rated_V: ratedVoltage_V / Math.sqrt(3),
    amperes: (ofRated) =>
      kind === 'impedance'
        ? ratedCurrent_A * ofRated
        : kind === 'power'
          ? ratedCurrent_A / ofRated
          : ratedCurrent_A * Math.max(1, 1 / ofRated),
    power: complex(cosine, Math.sqrt(Math.max(0, 1 - cosine * cosine))),
  };
}
