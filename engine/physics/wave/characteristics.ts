import type { Ohms, Volts } from '../units.ts';
import { type Drive, inBlocks, type Point, type Track } from './inBlocks.ts';

/**
 * Travelling waves on a tree of lines by the method of characteristics (H. W. Dommel, IEEE Trans. Power App. Syst. 88(4), 1969, from memory),
 * line to line: a source behind an inductance or stiff, lines with constant resistance, and at any node resistances and R-C branches.
 * Inductances and capacitances by the trapezoidal rule. Fixed step, chosen from ramp and shortest line; all memory is taken before the loop.
 */
export interface Line {
  readonly from: number;
  readonly to: number;
  readonly impedance_ohm: Ohms;
  readonly delay_s: number;
  /** Of the whole line, both conductors. */
  readonly resistance_ohm: Ohms;
}
export interface Shunt {
  readonly node: number;
  readonly resistance_ohm: Ohms;
  /** In series with the resistance; without it the branch is a resistance. */
  readonly capacitance_F?: number;
}
export interface WaveNetwork {
  /** Node 0 is the source's side of the first line. Lines run away from it. */
  readonly lines: readonly Line[];
  readonly shunts: readonly Shunt[];
  /** Corners of the source's voltage, straight between them: [seconds, volts]. Before the first all is at rest at its voltage. */
  readonly source: readonly (readonly [number, Volts])[];
  /** Between source and node 0; a stiff source without. */
  readonly inductance_H?: number;
  /** Across that inductance: core loss or damping. */
  readonly across_ohm?: Ohms;
  /** Nodes whose voltages are wanted. */
  readonly watch: readonly number[];
  readonly until_s: number;
  /** Duration of the source's edge; that of its shortest straight piece when it is not said. */
  readonly edge_s?: number;
}
/** At one watched node. */
export interface Watched {
  readonly step_s: number;
  /** From the start, one value a step. */
  readonly voltage_V: Float64Array;
  readonly peak_V: Volts;
  readonly at_s: number;
  readonly lowest_V: Volts;
}
export interface WaveResult {
  /** In the order in which the nodes were named. */
  readonly watched: readonly Watched[];
  /** Greatest current out of the source. */
  readonly sourcePeak_A: number;
  /** Steps were cut: what follows `until_s` is not known. */
  readonly truncated: boolean;
}

/** So many steps at most, and as many past ones of one line: the solver never runs away. */
const MOST_STEPS = 400_000;
/** A section's resistance stays below this share of its impedance: lumps at the ends and the middle then stand for a spread one. */
const LOSS_SHARE = 0.02;
/** What a longer block holds would no longer lie near the processor. */
const MOST_IN_BLOCK = 256;

/** Null for a line without length or impedance, one too long for the step that the others ask for, or a source without corners. @param perEdge steps in the source's edge */
export function travellingWaves(network: WaveNetwork, perEdge = 50): WaveResult | null {
  const { source, shunts, inductance_H = 0, across_ohm = Number.POSITIVE_INFINITY, watch, until_s } = network;
  const first = source[0];
  if (!first || network.lines.length === 0 || network.lines.some((line) => !(line.delay_s > 0) || !(line.impedance_ohm > 0))) return null;
  const sections = inSections(network.lines);
  const { lines, nodes } = sections;

  const edges = source.slice(1).map(([at], i) => at - (source[i]?.[0] ?? 0));
  const shortest = Math.min(...lines.map((line) => line.delay_s));
  const edge_s = network.edge_s ?? Math.min(...edges.filter((edge) => edge > 0), until_s);
  const wanted = Math.min(shortest / 8, edge_s / perEdge);
  const dt = fittingStep(lines, shortest, wanted);
  if (!(Math.max(...lines.map((line) => line.delay_s)) / dt < MOST_STEPS)) return null;
  const steps = Math.min(MOST_STEPS, Math.ceil(until_s / dt));

  const rest_V = first[1];
  const through_A = restingCurrents(lines, shunts, rest_V);
  const block = Math.min(MOST_IN_BLOCK, ...lines.map((line) => stepsBack(line, dt) - 1));
  const rings = lines.reduce((sum, line) => sum + 2 * ringOf(line, dt), 0);
  const frame: Frame = { step_s: dt, rest_V, block, take: sideBySide(rings + block * (2 * lines.length + 2 * nodes + 1)) };
  const stiff = !(inductance_H > 0);
  const coil_S = stiff ? 0 : dt / (2 * inductance_H);
  const across_S = 1 / across_ohm;
  const points = pointsOf(lines, shunts, nodes, coil_S + across_S, frame);
  const tracks: Track[] = [];
  let lines_S = 0;
  let held_A = 0;
  lines.forEach((line, k) => {
    const [near, far] = [points[line.from], points[line.to]];
    if (near && far) tracks.push(trackOf(line, near, far, through_A[k] ?? 0, frame));
    if (line.from !== 0) return;
    lines_S += admittance_S(line);
    held_A += through_A[k] ?? 0;
  });
  for (const shunt of shunts) if (shunt.node === 0 && !shunt.capacitance_F) held_A += rest_V / shunt.resistance_ohm;
  const drive: Drive = {
    stiff,
    corner_s: new Float64Array(source.map(([at]) => at)),
    corner_V: new Float64Array(source.map(([, volts]) => volts)),
    driven_V: frame.take(block),
    coil_S,
    across_S,
    lines_S,
    held_A,
    peak_A: Math.abs(held_A),
  };
  const seen = watch.map((node) => ({ point: points[node], voltage_V: new Float64Array(steps + 1).fill(rest_V, 0, 1) }));
  inBlocks(drive, points, tracks, seen, dt, steps, block);
  const watched = seen.map(({ voltage_V }) => extremes(voltage_V, dt));
  return { watched, sourcePeak_A: drive.peak_A, truncated: steps * dt < until_s * 0.999 };
}

/** What all lines and nodes share. */
interface Frame {
  readonly step_s: number;
  readonly rest_V: Volts;
  /** Steps in a block. */
  readonly block: number;
  readonly take: (length: number) => Float64Array;
}

/** Lists side by side in one piece of memory: to ask the system for each by itself takes as long as many steps. */
function sideBySide(length: number): Frame['take'] {
  const all = new ArrayBuffer(length * Float64Array.BYTES_PER_ELEMENT);
  let taken = 0;
  return (each) => {
    const list = new Float64Array(all, taken, each);
    taken += list.byteLength;
    return list;
  };
}

/** Behind a quarter of the line's resistance. */
const admittance_S = (line: Line): number => 1 / (line.impedance_ohm + line.resistance_ohm / 4);
const stepsBack = (line: Line, step_s: number): number => Math.ceil(line.delay_s / step_s - 1e-9);
const ringOf = (line: Line, step_s: number): number => 2 ** Math.ceil(Math.log2(stepsBack(line, step_s) + 2));

function trackOf(line: Line, near: Point, far: Point, rest_A: number, { step_s, rest_V, block, take }: Frame): Track {
  const back = stepsBack(line, step_s);
  const size = ringOf(line, step_s);
  const kept = (line.impedance_ohm - line.resistance_ohm / 4) * admittance_S(line);
  // At rest v / z and h times the current, once for the lump at the end and once for that in the middle.
  const still_A = rest_V * admittance_S(line);
  return {
    near,
    far,
    back,
    part: Math.max(0, back - line.delay_s / step_s),
    admittance_S: admittance_S(line),
    kept,
    mask: size - 1,
    toNear_A: take(size).fill(still_A - kept * kept * rest_A),
    toFar_A: take(size).fill(still_A + kept * kept * rest_A),
    atNear_A: take(block),
    atFar_A: take(block),
  };
}

const NO_BRANCHES = new Float64Array(0);

/** @param ahead_S what hangs between source and node 0 */
function pointsOf(
  lines: readonly Line[],
  shunts: readonly Shunt[],
  nodes: number,
  ahead_S: number,
  { step_s, rest_V, block, take }: Frame,
): readonly Point[] {
  const sum_S = new Float64Array(nodes);
  const add = (node: number, more_S: number): void => {
    sum_S[node] = (sum_S[node] ?? 0) + more_S;
  };
  add(0, ahead_S);
  for (const line of lines) {
    add(line.from, admittance_S(line));
    add(line.to, admittance_S(line));
  }
  const capacitor_ohm = ({ capacitance_F }: Shunt): number => (capacitance_F ? step_s / (2 * capacitance_F) : 0);
  const branch_S = (shunt: Shunt): number => 1 / (shunt.resistance_ohm + capacitor_ohm(shunt));
  for (const shunt of shunts) add(shunt.node, branch_S(shunt));
  const points: Point[] = [];
  for (let node = 0; node < nodes; node++) {
    const branches = shunts.filter((shunt) => shunt.node === node && shunt.capacitance_F);
    const list = (of: (shunt: Shunt) => number): Float64Array => (branches.length > 0 ? new Float64Array(branches.map(of)) : NO_BRANCHES);
    points.push({
      current_A: take(block),
      voltage_V: take(block),
      resistance_ohm: 1 / (sum_S[node] || 1),
      branch_S: list(branch_S),
      share: list((shunt) => 2 * capacitor_ohm(shunt) * branch_S(shunt)),
      held_V: list(() => rest_V),
    });
  }
  return points;
}

/** A change of the peak below this share between two steps is no more than the rest of what is known. */
const ENOUGH = 0.003;
const FINENESS = [12, 40, 80, 160] as const;

/** One network at every fineness that was asked for. */
export type Finenesses = (index: number) => WaveResult | null | undefined;

/** Each is solved once, for all watched nodes. */
export function atEveryFineness(network: WaveNetwork): Finenesses {
  const solved: (WaveResult | null)[] = [];
  return (index) => {
    const perEdge = FINENESS[index];
    if (perEdge === undefined) return undefined;
    if (solved[index] === undefined) solved[index] = travellingWaves(network, perEdge);
    return solved[index];
  };
}

export interface Settled extends Watched {
  readonly truncated: boolean;
  /** What is left, in shares, judged from the last change: an error that goes with the step (L. F. Richardson's rule, any text on numerical methods). */
  readonly error: number;
}

/** Travelling waves at one watched node, with a step that is made finer until its peak stands still. */
export function settledWave(solved: Finenesses, watched = 0): Settled | null {
  let last: Settled | null = null;
  for (let index = 0; ; index++) {
    const result = solved(index);
    if (result === undefined) return last;
    const now = result?.watched[watched];
    if (!result || !now) return null;
    const { step_s, voltage_V, peak_V, at_s, lowest_V } = now;
    const error: number = last ? Math.abs(peak_V - last.peak_V) / Math.abs(peak_V || 1) : 1;
    last = { step_s, voltage_V, peak_V, at_s, lowest_V, truncated: result.truncated, error };
    if (error < ENOUGH) return last;
  }
}

function extremes(voltage_V: Float64Array, step_s: number): Watched {
  let [at, lowest_V] = [0, voltage_V[0] ?? 0];
  for (let i = 0; i < voltage_V.length; i++) {
    const here = voltage_V[i] ?? 0;
    if (here > (voltage_V[at] ?? 0)) at = i;
    if (here < lowest_V) lowest_V = here;
  }
  return { step_s, voltage_V, peak_V: voltage_V[at] ?? 0, at_s: at * step_s, lowest_V };
}

/**
 * A whole number of steps to the shortest line. The others are read between two steps, which blurs them, so that of the steps a little
 * finer than wanted the one is taken that comes nearest to a whole number on all.
 */
function fittingStep(lines: readonly Line[], shortest_s: number, wanted_s: number): number {
  const least = Math.ceil(shortest_s / wanted_s);
  let best = { step_s: Number.NaN, off: Number.POSITIVE_INFINITY };
  for (let count = least; count <= Math.ceil(1.4 * least); count++) {
    const step_s = shortest_s / count;
    let off = 0;
    for (const line of lines) {
      const transit = line.delay_s / step_s;
      const part = transit - Math.floor(transit);
      off = Math.max(off, part * (1 - part));
    }
    if (off < best.off - 1e-6) best = { step_s, off };
  }
  return best.step_s;
}

/** Lossy lines in so many sections that each loses little. Nodes between them are numbered after the given ones. */
function inSections(given: readonly Line[]): { readonly lines: readonly Line[]; readonly nodes: number } {
  let nodes = Math.max(...given.flatMap((line) => [line.from, line.to])) + 1;
  const lines = given.flatMap((line) => {
    const parts = Math.min(50, Math.max(1, Math.ceil(line.resistance_ohm / (LOSS_SHARE * line.impedance_ohm))));
    const ends = [line.from, ...Array.from({ length: parts - 1 }, () => nodes++), line.to];
    return Array.from({ length: parts }, (_, i) => ({
      ...line,
      from: ends[i] ?? line.from,
      to: ends[i + 1] ?? line.to,
      delay_s: line.delay_s / parts,
      resistance_ohm: line.resistance_ohm / parts,
    }));
  });
  return { lines, nodes };
}

/** Direct current along each line at rest, losses left out: what the resistances below it draw. */
function restingCurrents(lines: readonly Line[], shunts: readonly Shunt[], rest_V: number): Float64Array {
  const currents = new Float64Array(lines.length);
  const into = new Map(lines.map((line, k) => [line.to, k]));
  for (const { node, resistance_ohm, capacitance_F } of shunts) {
    if (capacitance_F) continue;
    // All the way up to node 0.
    for (let k = into.get(node); k !== undefined; k = into.get(lines[k]?.from ?? 0))
      currents[k] = (currents[k] ?? 0) + rest_V / resistance_ohm;
  }
  return currents;
}

/** Time from 10 to 90 % of a voltage, first crossings, or null when it is not reached. */
export function riseTime_s({ voltage_V, step_s }: Pick<Watched, 'voltage_V' | 'step_s'>, of_V: Volts): number | null {
  const crossing = (level: number): number | null => {
    for (let i = 1; i < voltage_V.length; i++) {
      const [a, b] = [voltage_V[i - 1] ?? 0, voltage_V[i] ?? 0];
      if (a < level && b >= level) return (i - 1 + (level - a) / (b - a)) * step_s;
    }
    return null;
  };
  const [low, high] = [crossing(0.1 * of_V), crossing(0.9 * of_V)];
  return low === null || high === null ? null : high - low;
}
