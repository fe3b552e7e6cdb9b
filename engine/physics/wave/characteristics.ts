import type { Ohms, Volts } from '../units.ts';

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

  const count = lines.length;
  const z = new Float64Array(count);
  const y = new Float64Array(count);
  const h = new Float64Array(count);
  const fromNode = Int32Array.from(lines, (line) => line.from);
  const toNode = Int32Array.from(lines, (line) => line.to);
  // What arrives now lay between two steps of the past, always equally far from both.
  const back = new Int32Array(count);
  const part = new Float64Array(count);
  /** Memory of each end: a ring whose length is a power of two, so that a mask finds its place. */
  const mask = new Int32Array(count);
  const start = new Int32Array(count);
  let total = 0;
  lines.forEach((line, k) => {
    z[k] = line.impedance_ohm + line.resistance_ohm / 4;
    y[k] = 1 / (z[k] ?? 1);
    h[k] = (line.impedance_ohm - line.resistance_ohm / 4) / (line.impedance_ohm + line.resistance_ohm / 4);
    const transit = line.delay_s / dt;
    back[k] = Math.ceil(transit - 1e-9);
    part[k] = Math.max(0, Math.ceil(transit - 1e-9) - transit);
    const size = 2 ** Math.ceil(Math.log2((back[k] ?? 0) + 2));
    mask[k] = size - 1;
    start[k] = total;
    total += size;
  });
  // What left each end at past steps: v / z + h i, which is all that the far end and this end need of it.
  const sentFrom = new Float64Array(total);
  const sentTo = new Float64Array(total);
  const arriveFrom = new Float64Array(count);
  const arriveTo = new Float64Array(count);

  const rest = first[1];
  const through = restingCurrents(lines, shunts, nodes, rest);
  for (let k = 0; k < count; k++) {
    const i = through[k] ?? 0;
    sentFrom.fill(rest / (z[k] ?? 1) + (h[k] ?? 1) * i, start[k], (start[k] ?? 0) + (mask[k] ?? 0) + 1);
    sentTo.fill(rest / (z[k] ?? 1) - (h[k] ?? 1) * i, start[k], (start[k] ?? 0) + (mask[k] ?? 0) + 1);
  }

  const conductance = new Float64Array(nodes);
  for (let k = 0; k < count; k++) {
    conductance[lines[k]?.from ?? 0] = (conductance[lines[k]?.from ?? 0] ?? 0) + 1 / (z[k] ?? 1);
    conductance[lines[k]?.to ?? 0] = (conductance[lines[k]?.to ?? 0] ?? 0) + 1 / (z[k] ?? 1);
  }
  const branchNode = Int32Array.from(shunts, (shunt) => shunt.node);
  const branchG = Float64Array.from(
    shunts,
    (shunt) => 1 / (shunt.resistance_ohm + (shunt.capacitance_F ? dt / (2 * shunt.capacitance_F) : 0)),
  );
  const branchK = Float64Array.from(shunts, (shunt) => (shunt.capacitance_F ? dt / (2 * shunt.capacitance_F) : 0));
  const branchV = Float64Array.from(shunts, (shunt) => (shunt.capacitance_F ? rest : 0));
  const branchI = new Float64Array(shunts.length);
  shunts.forEach((shunt, k) => {
    conductance[shunt.node] = (conductance[shunt.node] ?? 0) + (branchG[k] ?? 0);
  });
  const stiff = !(inductance_H > 0);
  const coil = stiff ? 0 : dt / (2 * inductance_H);
  const across = 1 / across_ohm;
  conductance[0] = (conductance[0] ?? 0) + coil + across;
  let coilI = lines.reduce((sum, line, k) => sum + (line.from === 0 ? (through[k] ?? 0) : 0), 0);
  for (const shunt of shunts) if (shunt.node === 0 && !shunt.capacitance_F) coilI += rest / shunt.resistance_ohm;
  let coilU = 0;

  const resistance = conductance.map((each) => 1 / (each || 1));
  const volts = new Float64Array(nodes);
  const injected = new Float64Array(nodes);
  const seen = watch.map(() => new Float64Array(steps + 1).fill(rest, 0, 1));
  const watchNode = Int32Array.from(watch);
  let sourcePeak_A = Math.abs(coilI);
  let corner = 1;

  for (let step = 1; step <= steps; step++) {
    const time = step * dt;
    while (corner < source.length && (source[corner]?.[0] ?? 0) < time) corner++;
    const left = source[corner - 1] ?? first;
    const right = source[corner];
    const driven = !right || time <= left[0] ? left[1] : left[1] + ((right[1] - left[1]) * (time - left[0])) / (right[0] - left[0]);

    injected.fill(0);
    for (let k = 0; k < count; k++) {
      const base = start[k] ?? 0;
      const ring = mask[k] ?? 0;
      const at = step - (back[k] ?? 0);
      const a = base + (at & ring);
      const b = base + ((at + 1) & ring);
      const share = part[k] ?? 0;
      const fromFar = (sentTo[a] ?? 0) + share * ((sentTo[b] ?? 0) - (sentTo[a] ?? 0));
      const fromNear = (sentFrom[a] ?? 0) + share * ((sentFrom[b] ?? 0) - (sentFrom[a] ?? 0));
      const keep = (1 + (h[k] ?? 1)) / 2;
      const atFrom = keep * fromFar + (1 - keep) * fromNear;
      const atTo = keep * fromNear + (1 - keep) * fromFar;
      arriveFrom[k] = atFrom;
      arriveTo[k] = atTo;
      const near = fromNode[k] ?? 0;
      const far = toNode[k] ?? 0;
      injected[near] = (injected[near] ?? 0) + atFrom;
      injected[far] = (injected[far] ?? 0) + atTo;
    }
    for (let k = 0; k < branchG.length; k++) {
      const node = branchNode[k] ?? 0;
      injected[node] = (injected[node] ?? 0) + (branchG[k] ?? 0) * ((branchV[k] ?? 0) + (branchK[k] ?? 0) * (branchI[k] ?? 0));
    }
    injected[0] = (injected[0] ?? 0) + coilI + coil * (driven + coilU) + across * driven;
    for (let node = 0; node < nodes; node++) volts[node] = (injected[node] ?? 0) * (resistance[node] ?? 0);
    if (stiff) volts[0] = driven;

    let out = 0;
    for (let k = 0; k < count; k++) {
      const vFrom = volts[fromNode[k] ?? 0] ?? 0;
      const vTo = volts[toNode[k] ?? 0] ?? 0;
      const admittance = y[k] ?? 0;
      const keep = h[k] ?? 1;
      const iFrom = vFrom * admittance - (arriveFrom[k] ?? 0);
      const iTo = vTo * admittance - (arriveTo[k] ?? 0);
      if (fromNode[k] === 0) out += iFrom;
      const slot = (start[k] ?? 0) + (step & (mask[k] ?? 0));
      sentFrom[slot] = vFrom * admittance + keep * iFrom;
      sentTo[slot] = vTo * admittance + keep * iTo;
    }
    for (let k = 0; k < branchG.length; k++) {
      const was = branchI[k] ?? 0;
      const now = (branchG[k] ?? 0) * ((volts[branchNode[k] ?? 0] ?? 0) - (branchV[k] ?? 0) - (branchK[k] ?? 0) * was);
      branchV[k] = (branchV[k] ?? 0) + (branchK[k] ?? 0) * (now + was);
      branchI[k] = now;
    }
    if (!stiff) {
      const u = driven - (volts[0] ?? 0);
      coilI += coil * (u + coilU);
      coilU = u;
      out = coilI + across * u;
    }
    sourcePeak_A = Math.max(sourcePeak_A, Math.abs(out));
    for (let k = 0; k < seen.length; k++) {
      const list = seen[k];
      if (list) list[step] = volts[watchNode[k] ?? 0] ?? 0;
    }
  }
  return { watched: seen.map((voltage_V) => extremes(voltage_V, dt)), sourcePeak_A, truncated: steps * dt < until_s * 0.999 };
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
    const error: number = last ? Math.abs(now.peak_V - last.peak_V) / Math.abs(now.peak_V || 1) : 1;
    last = { ...now, truncated: result.truncated, error };
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
      const part = (line.delay_s / step_s) % 1;
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
function restingCurrents(lines: readonly Line[], shunts: readonly Shunt[], nodes: number, rest_V: number): Float64Array {
  const drawn = new Float64Array(nodes);
  for (const shunt of shunts) if (!shunt.capacitance_F) drawn[shunt.node] = (drawn[shunt.node] ?? 0) + rest_V / shunt.resistance_ohm;
  const currents = new Float64Array(lines.length);
  // A tree: as often as there are lines, each takes what its far node passes on.
  for (let pass = 0; pass < lines.length; pass++)
    lines.forEach((line, k) => {
      let sum = drawn[line.to] ?? 0;
      lines.forEach((other, j) => {
        if (other.from === line.to) sum += currents[j] ?? 0;
      });
      currents[k] = sum;
    });
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
