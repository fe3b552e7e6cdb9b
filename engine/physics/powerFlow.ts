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
  // Numbers in lists of their own, by node: every sweep passes over all of them, and would read a record and leave another for each.
  const list = (): Float64Array => new Float64Array(nodes);
  /** Of the branch that feeds a node: where it comes from, far side over near side, and its impedance. */
  const [near, turns, zRe, zIm] = [new Int32Array(nodes), list(), list(), list()];
  for (const { from, to, ratio, impedance_ohm } of branches) {
    near[to] = from;
    turns[to] = 1 / ratio;
    zRe[to] = impedance_ohm.re;
    zIm[to] = impedance_ohm.im;
  }
  const [voltageRe, voltageIm, currentRe, currentIm] = [list(), list(), list(), list()];
  const [noLoad, pathRe, pathIm] = [list(), list(), list()];
  noLoad[0] = source_V / Math.sqrt(3);
  for (let node = 1; node < nodes; node++) {
    const from = at(near, node);
    const ratio = at(turns, node);
    noLoad[node] = at(noLoad, from) * ratio;
    pathRe[node] = at(pathRe, from) * ratio ** 2 + at(zRe, node);
    pathIm[node] = at(pathIm, from) * ratio ** 2 + at(zIm, node);
  }
  voltageRe.set(noLoad);
  const draws = loads.map((load) => drawOf(load, complex(at(pathRe, load.node), at(pathIm, load.node))));
  let moves = true;
  let gone = false;
  for (let sweep = 0; moves && !gone && sweep < SWEEPS; sweep++) {
    currentRe.fill(0);
    currentIm.fill(0);
    for (const { node, kind, rated_V, rated_A, power } of draws) {
      const re = at(voltageRe, node);
      const im = at(voltageIm, node);
      const size = sizeOf(re, im);
      // The sweeps come down from no load towards what can be carried: this far down there is nothing left to arrive at.
      gone ||= size < 0.01 * at(noLoad, node);
      if (size < 0.01 * rated_V) continue;
      // The conjugate of power over voltage, to the size of the current.
      const square = re * re + im * im;
      const drawn = rated_A * drawnAt(kind, size / rated_V) * size;
      currentRe[node] = at(currentRe, node) + ((power.re * re + power.im * im) / square) * drawn;
      currentIm[node] = at(currentIm, node) + -((power.im * re - power.re * im) / square) * drawn;
    }
    for (let node = nodes - 1; node > 0; node--) {
      const from = at(near, node);
      if (from === 0) continue;
      currentRe[from] = at(currentRe, from) + at(currentRe, node) * at(turns, node);
      currentIm[from] = at(currentIm, from) + at(currentIm, node) * at(turns, node);
    }
    moves = false;
    for (let node = 1; node < nodes; node++) {
      const from = at(near, node);
      const re = at(currentRe, node);
      const im = at(currentIm, node);
      const afterRe = at(voltageRe, from) * at(turns, node) - (at(zRe, node) * re - at(zIm, node) * im);
      const afterIm = at(voltageIm, from) * at(turns, node) - (at(zRe, node) * im + at(zIm, node) * re);
      const [movedRe, movedIm] = [afterRe - at(voltageRe, node), afterIm - at(voltageIm, node)];
      const still = TOLERANCE * at(noLoad, node);
      moves ||= movedRe * movedRe + movedIm * movedIm > still * still;
      voltageRe[node] = afterRe;
      voltageIm[node] = afterIm;
    }
  }
  // Below half of the no-load voltage the solution is past the nose of the curve: no motor or drive runs there.
  const carried = noLoad.every((size, node) => sizeOf(at(voltageRe, node), at(voltageIm, node)) > 0.5 * size);
  const records = (re: Float64Array, im: Float64Array): readonly Complex[] => Array.from(re, (each, node) => complex(each, at(im, node)));
  return { converged: !moves && !gone && carried, voltages_V: records(voltageRe, voltageIm), currents_A: records(currentRe, currentIm) };
}

const at = (list: Float64Array | Int32Array, node: number): number => list[node] as number;

/** What does not change of a load from sweep to sweep. */
interface Draw {
  readonly node: number;
  readonly kind: Load['kind'];
  /** Line to neutral. */
  readonly rated_V: number;
  readonly rated_A: number;
  /** Of size one. */
  readonly power: Complex;
}

function drawOf({ node, kind, ratedVoltage_V, ratedCurrent_A, powerFactor }: Load, path: Complex): Draw {
  const impedance = magnitude(path);
  const cosine = powerFactor ?? (impedance > 0 ? Math.max(0, path.re) / impedance : 1);
  return {
    node,
    kind,
    rated_V: ratedVoltage_V / Math.sqrt(3),
    rated_A: ratedCurrent_A,
    power: complex(cosine, Math.sqrt(Math.max(0, 1 - cosine * cosine))),
  };
}

/** Current over the rated one, at this share of the rated voltage. */
const drawnAt = (kind: Load['kind'], ofRated: number): number =>
  kind === 'impedance' ? ofRated : kind === 'power' ? 1 / ofRated : Math.max(1, 1 / ofRated);
