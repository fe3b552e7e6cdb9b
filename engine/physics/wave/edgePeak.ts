import { type LatticeInput, latticePeak_V, linearRulePeak_V } from './latticePeak.ts';

/**
 * The peak after one edge as a band, for the shape of a real edge is not known. With the same 10 to 90 % time an S-shaped edge rises least
 * on a short cable, one with a steep start or a straight one most; the rule that the peak grows with length in proportion bounds all. On a
 * long cable they agree, and what is not known of motor and bus remains: 8 % for small motors, 15 % for large ones.
 */
export interface EdgePeak {
  readonly low_V: number;
  readonly central_V: number;
  readonly high_V: number;
  /** What each of them comes from. */
  readonly from: { readonly low: string; readonly central: string; readonly high: string };
}

/** The whole of a straight ramp over its 10 to 90 % time. */
const WHOLE_RAMP = 1.25;
/** 10 to 90 % of an exponential takes ln 9 time constants; of a raised cosine 0.5903 of its whole. */
const EXPONENTIAL = Math.log(9);
const RAISED_COSINE = 1 - (2 * Math.acos(0.8)) / Math.PI;

export type Shape = (time_s: number, rise_s: number) => number;
export const exponential: Shape = (t, rise) => Math.max(0, 1 - Math.exp((-t * EXPONENTIAL) / rise));
export const raisedCosine: Shape = (t, rise) => (1 - Math.cos(Math.PI * within((t * RAISED_COSINE) / rise))) / 2;
export const straight: Shape = (t, rise) => within(t / (WHOLE_RAMP * rise));

const within = (share: number): number => Math.min(1, Math.max(0, share));

const TIMES = 96;
const TRANSITS = 60;

/**
 * Peak in shares of the bus's voltage, lossless, for an edge of this shape: the largest within the first turns of the wave.
 * @param share where on the line, from 0 at the drive to 1 at the motor: there the wave from the drive and the one that the motor turns back meet
 */
export function shapedPeak(reflection: number, delay_s: number, rise_s: number, shape: Shape, share = 1): number {
  const first_s = share * delay_s;
  // There and back to the motor; at the motor itself both waves are one, which is asked once.
  const turned_s = 2 * (delay_s - first_s);
  // The crest lies before the second wave has wholly come, or, on a very short line, while the edge still rises.
  const rest_s = 3 * delay_s + 2.5 * rise_s - first_s;
  const at = (time_s: number): number => {
    let sum = 0;
    let weight = 1;
    for (let k = 0; k < TRANSITS; k++) {
      const since = time_s - 2 * k * delay_s - first_s;
      if (since <= 0) break;
      const passing = shape(since, rise_s);
      sum += weight * (passing + reflection * (turned_s === 0 ? passing : shape(since - turned_s, rise_s)));
      weight *= -reflection;
    }
    return sum;
  };
  let best = 0;
  for (let i = 1; i <= TIMES; i++) best = Math.max(best, at(first_s + (rest_s * i) / TIMES));
  // A steep edge has its crest just where the next wave comes in.
  for (let transits = 2; transits <= 18; transits += 2) best = Math.max(best, at(transits * delay_s + first_s));
  return best;
}

/**
 * What this line's losses leave of a crest: of a straight ramp, which the lattice solves with them, over the same without. Edges of other
 * shapes with the same rise lose as much: held against an inverse Fourier solution, S-shaped ones come out at most 1 % low, others high.
 */
function lossLeaves(input: LatticeInput, reflection: number): number {
  const { bus_V, ramp_s, length_m, velocity_mPerS } = input;
  const peak_V = latticePeak_V(input);
  // Loss is a series that a line far out of the usual may leave: no loss is the bound.
  if (peak_V === 0) return 1;
  return Math.min(1, peak_V / (bus_V * shapedPeak(reflection, length_m / velocity_mPerS, ramp_s / WHOLE_RAMP, straight)));
}

/** @param largeMotor above 200 kW the reflection itself is little known */
export function edgePeak(input: LatticeInput, largeMotor: boolean): EdgePeak {
  const { bus_V, length_m } = input;
  if (length_m <= 0) return { low_V: bus_V, central_V: bus_V, high_V: bus_V, from: { low: THE_BUS, central: THE_BUS, high: THE_BUS } };
  return bandsOf(input, largeMotor)(1);
}

/**
 * The same band at places along a lead, from the drive to the motor. What is lost on the way is taken alike for both waves that meet: the
 * one has lost less, the other as much more.
 */
export function peaksAlong(input: LatticeInput, largeMotor: boolean, count: number): readonly (EdgePeak & { readonly at_m: number })[] {
  const { length_m } = input;
  if (length_m <= 0) return [];
  const bandAt = bandsOf(input, largeMotor);
  return Array.from({ length: count + 1 }, (_, i) => ({ at_m: (length_m * i) / count, ...bandAt(i / count) }));
}

/** The band by its place on the line, a share of the way to the motor. */
function bandsOf(input: LatticeInput, largeMotor: boolean): (share: number) => EdgePeak {
  const { bus_V, motor_ohm, impedanceLL_ohm, ramp_s, length_m, velocity_mPerS } = input;
  const reflection = (motor_ohm - impedanceLL_ohm) / (motor_ohm + impedanceLL_ohm);
  const critical_m = (velocity_mPerS * ramp_s) / 2;
  const left = lossLeaves(input, reflection);
  return (share) => {
    const at_m = length_m * share;
    const of = (shape: Shape): number =>
      bus_V * left * shapedPeak(reflection, length_m / velocity_mPerS, ramp_s / WHOLE_RAMP, shape, share);
    // A straight ramp cancels itself at certain short lengths, which no real edge does: it counts only near its full height.
    const others: readonly Bound[] = [
      [of(exponential), 'an edge that starts steeply'],
      [at_m >= 0.75 * critical_m ? of(straight) : 0, 'a straight edge'],
    ];
    return band(
      bus_V,
      [of(raisedCosine), 'an S-shaped edge'],
      others,
      linearRulePeak_V({ ...input, length_m: at_m }, critical_m),
      largeMotor,
    );
  };
}

type Bound = readonly [volts: number, from: string];
/** Shapes whose peaks are this near to one another are not told apart. */
const AGREE = 0.999;
const THE_BUS = 'the bus itself';
/** Of several that are alike the first. */
const highest = (first: Bound, ...others: readonly Bound[]): Bound =>
  others.reduce((most, each) => (each[0] > most[0] ? each : most), first);
const lowest = (first: Bound, ...others: readonly Bound[]): Bound =>
  others.reduce((least, each) => (each[0] < least[0] ? each : least), first);

function band(bus_V: number, soft: Bound, others: readonly Bound[], bound_V: number, largeMotor: boolean): EdgePeak {
  const bus: Bound = [bus_V, THE_BUS];
  const shapes = [soft, ...others].filter(([volts]) => volts > 0);
  const steepest = highest(soft, ...others);
  const agree = shapes.every(([volts]) => volts >= AGREE * steepest[0]);
  const central = highest(bus, agree ? [steepest[0], 'an edge of any shape'] : steepest);
  const spread = largeMotor ? 0.15 : 0.08;
  const low = highest(bus, lowest(soft, [central[0] * (1 - spread), `${100 * spread} % less`]));
  // One edge on one line never more than doubles the bus.
  const most = lowest(
    [2 * bus_V, 'twice the bus'],
    highest([bound_V, 'in proportion to length'], [central[0] * (1 + spread), `${100 * spread} % more`]),
  );
  const high = highest(central, most);
  return { low_V: low[0], central_V: central[0], high_V: high[0], from: { low: low[1], central: central[1], high: high[1] } };
}
