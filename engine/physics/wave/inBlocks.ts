/**
 * Travelling waves step by step. What leaves one end of a line reaches the other only after its transit, so that fewer steps than the shortest
 * transit has are a block: each line and each node is worked through the whole of it by itself, in a short loop of its own. All steps of all
 * parts in one loop take twice as long. Lists are typed and objects of one shape, or the loops would be compiled anew for each network.
 */

/** A line. What arrives now lay between two steps of the past, always equally far from both. */
export interface Track {
  readonly near: Point;
  readonly far: Point;
  readonly back: number;
  readonly part: number;
  readonly admittance_S: number;
  /** (Z − R/4) / (Z + R/4), the h of the method: what the lump at an end leaves of a current there. */
  readonly kept: number;
  /** What is under way to each end, in rings whose length is a power of two, so that a mask finds a place. */
  readonly mask: number;
  readonly toNear_A: Float64Array;
  readonly toFar_A: Float64Array;
  /** What arrives in this block. */
  readonly atNear_A: Float64Array;
  readonly atFar_A: Float64Array;
}
/** A node. */
export interface Point {
  /** In this block: what is sent into it, and the voltage that this makes. */
  readonly current_A: Float64Array;
  readonly voltage_V: Float64Array;
  /** Of all that hangs on it. */
  readonly resistance_ohm: number;
  /** Branches with a capacitor, each a voltage that is held behind a conductance and takes on a share of the difference each step. */
  readonly branch_S: Float64Array;
  readonly share: Float64Array;
  readonly held_V: Float64Array;
}
/** What drives node 0: an ideal source, or one behind a coil with a resistance across it. */
export interface Drive {
  readonly stiff: boolean;
  /** Corners of its voltage, straight between them. */
  readonly corner_s: Float64Array;
  readonly corner_V: Float64Array;
  /** In this block. */
  readonly driven_V: Float64Array;
  readonly coil_S: number;
  readonly across_S: number;
  /** Of the lines at node 0. */
  readonly lines_S: number;
  /** Out of the source at rest; then what the coil still sends, and the greatest current. */
  held_A: number;
  peak_A: number;
}

/** @param seen voltages by node, from step 1 on @param block fewer steps than the shortest line is long */
export function inBlocks(
  drive: Drive,
  points: readonly Point[],
  tracks: readonly Track[],
  seen: readonly { readonly point: Point | undefined; readonly voltage_V: Float64Array }[],
  step_s: number,
  steps: number,
  block: number,
): void {
  for (let from = 1; from <= steps; from += block) {
    const count = Math.min(block, steps + 1 - from);
    for (const point of points) point.current_A.fill(0);
    for (const track of tracks) arrive(track, from, count);
    turn(drive, step_s, from, count);
    for (const point of points) {
      if (point !== points[0]) settle(point, count);
      else if (drive.stiff) hold(drive, point, count);
      else feed(drive, point, count);
    }
    for (const track of tracks) send(track, from, count);
    for (const { point, voltage_V } of seen) if (point) copy(point.voltage_V, voltage_V, from, count);
  }
}

/** What reaches both ends of a line. */
function arrive({ near, far, back, part, mask, toNear_A, toFar_A, atNear_A, atFar_A }: Track, from: number, count: number): void {
  const near_A = near.current_A;
  const far_A = far.current_A;
  let place = (from - back) & mask;
  let nearNow = toNear_A[place] ?? 0;
  let farNow = toFar_A[place] ?? 0;
  for (let i = 0; i < count; i++) {
    place = (place + 1) & mask;
    const nearNext = toNear_A[place] ?? 0;
    const farNext = toFar_A[place] ?? 0;
    const atNear = nearNow + part * (nearNext - nearNow);
    const atFar = farNow + part * (farNext - farNow);
    atNear_A[i] = atNear;
    atFar_A[i] = atFar;
    near_A[i] = (near_A[i] ?? 0) + atNear;
    far_A[i] = (far_A[i] ?? 0) + atFar;
    nearNow = nearNext;
    farNow = farNext;
  }
}

/** What leaves both ends: v / z + h i. The lump in the middle lets (1 + h) / 2 of it pass and turns the rest back. */
function send({ near, far, admittance_S, kept, mask, toNear_A, toFar_A, atNear_A, atFar_A }: Track, from: number, count: number): void {
  const near_V = near.voltage_V;
  const far_V = far.voltage_V;
  const perVolt = (1 + kept) * admittance_S;
  const passes = (1 + kept) / 2;
  for (let i = 0; i < count; i++) {
    const fromNear = perVolt * (near_V[i] ?? 0) - kept * (atNear_A[i] ?? 0);
    const fromFar = perVolt * (far_V[i] ?? 0) - kept * (atFar_A[i] ?? 0);
    const place = (from + i) & mask;
    toNear_A[place] = fromNear + passes * (fromFar - fromNear);
    toFar_A[place] = fromFar + passes * (fromNear - fromFar);
  }
}

/** The voltage of a node, and how it charges the capacitors that hang on it. */
function settle({ current_A, voltage_V, resistance_ohm, branch_S, share, held_V }: Point, count: number): void {
  for (let i = 0; i < count; i++) {
    let sent_A = current_A[i] ?? 0;
    for (let k = 0; k < held_V.length; k++) sent_A += (branch_S[k] ?? 0) * (held_V[k] ?? 0);
    const volts = sent_A * resistance_ohm;
    voltage_V[i] = volts;
    for (let k = 0; k < held_V.length; k++) held_V[k] = (held_V[k] ?? 0) + (share[k] ?? 0) * (volts - (held_V[k] ?? 0));
  }
}

/** The same at node 0, behind a coil. */
function feed(drive: Drive, { current_A, voltage_V, resistance_ohm, branch_S, share, held_V }: Point, count: number): void {
  const { driven_V, coil_S, across_S } = drive;
  const ahead_S = coil_S + across_S;
  let held_A = drive.held_A;
  let most_A = drive.peak_A;
  for (let i = 0; i < count; i++) {
    const driven = driven_V[i] ?? 0;
    let sent_A = (current_A[i] ?? 0) + held_A + ahead_S * driven;
    for (let k = 0; k < held_V.length; k++) sent_A += (branch_S[k] ?? 0) * (held_V[k] ?? 0);
    const volts = sent_A * resistance_ohm;
    voltage_V[i] = volts;
    for (let k = 0; k < held_V.length; k++) held_V[k] = (held_V[k] ?? 0) + (share[k] ?? 0) * (volts - (held_V[k] ?? 0));
    most_A = Math.max(most_A, Math.abs(held_A + ahead_S * (driven - volts)));
    held_A += 2 * coil_S * (driven - volts);
  }
  drive.held_A = held_A;
  drive.peak_A = most_A;
}
/** Node 0 has the source's voltage; what flows is what goes into its lines. */
function hold(drive: Drive, { current_A, voltage_V }: Point, count: number): void {
  const { driven_V, lines_S } = drive;
  let most_A = drive.peak_A;
  for (let i = 0; i < count; i++) {
    const driven = driven_V[i] ?? 0;
    voltage_V[i] = driven;
    most_A = Math.max(most_A, Math.abs(driven * lines_S - (current_A[i] ?? 0)));
  }
  drive.peak_A = most_A;
}

/** The source's own voltage. */
function turn({ corner_s, corner_V, driven_V }: Drive, step_s: number, from: number, count: number): void {
  let next = 0;
  let left_s = 0;
  let left_V = corner_V[0] ?? 0;
  let right_s = corner_s[0] ?? 0;
  let right_V = left_V;
  for (let i = 0; i < count; i++) {
    const time = (from + i) * step_s;
    while (right_s < time) {
      next++;
      left_s = right_s;
      left_V = right_V;
      // After the last corner it stays.
      right_s = corner_s[next] ?? Number.POSITIVE_INFINITY;
      right_V = corner_V[next] ?? left_V;
    }
    driven_V[i] = left_V + ((right_V - left_V) * (time - left_s)) / (right_s - left_s);
  }
}

/** By hand: to make a view of what is to be copied takes longer than to copy it. */
function copy(from: Float64Array, to: Float64Array, place: number, count: number): void {
  for (let i = 0; i < count; i++) to[place + i] = from[i] ?? 0;
}
