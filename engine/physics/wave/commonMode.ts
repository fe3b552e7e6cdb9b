import type { Amperes, Ohms, Volts } from '../units.ts';

/**
 * Current that every edge of one leg drives through cable and motor to ground, and where it goes if its way back is opened. One leg's step
 * is a third of the bus in the common mode.
 *
 *   launch   I = k1 (U / 3) / Zcm      k1 by winding capacitance and Zcm, from full-line solutions with 0.1 µs edges, 20 to 200 m
 *   slow     I = (3 Cg l + Cwf) (U / 3) / tr     when that is less
 *
 * The current is known within a factor of two, for the winding's capacitance is.
 */
export interface CommonModeInput {
  readonly bus_V: Volts;
  /** All three phases in parallel, all sets. */
  readonly common_ohm: Ohms;
  /** All three phases to shield or pipe, whole length, all sets. */
  readonly cable_F: number;
  readonly winding_F: number;
  /** The whole ramp. */
  readonly ramp_s: number;
}

/** k1 at 17 ohm (in a shield) and 40 ohm (in a pipe), middle of what was found, by winding capacitance. */
const K1: readonly (readonly [number, number, number])[] = [
  [1e-9, 0.98, 1.105],
  [3e-9, 1.025, 1.45],
  [10e-9, 1.265, 2],
  [25e-9, 1.535, 2.45],
];
const [SHIELD_OHM, PIPE_OHM] = [17, 40];

function k1(common_ohm: Ohms, winding_F: number): number {
  const at = Math.min(Math.max(winding_F, 1e-9), 25e-9);
  const i = Math.max(
    1,
    K1.findIndex(([farad]) => farad >= at),
  );
  const [low, high] = [K1[i - 1], K1[i]];
  if (!low || !high) return 1;
  const part = Math.log(at / low[0]) / Math.log(high[0] / low[0]);
  const [shield, pipe] = [low[1] + (high[1] - low[1]) * part, low[2] + (high[2] - low[2]) * part];
  const across = Math.min(1, Math.max(0, Math.log(common_ohm / SHIELD_OHM) / Math.log(PIPE_OHM / SHIELD_OHM)));
  return shield + (pipe - shield) * across;
}

export function commonModePeak_A({ bus_V, common_ohm, cable_F, winding_F, ramp_s }: CommonModeInput): Amperes {
  const step_V = bus_V / 3;
  const launch = (k1(common_ohm, winding_F) * step_V) / common_ohm;
  return Math.min(launch, ((cable_F + winding_F) * step_V) / ramp_s);
}

/** A straight wire far from others: 0.2 l (ln(4 l / d) - 0.75) µH, metres (F. E. Terman's handbook form, from memory). */
export const wireInductance_H = (length_m: number, diameter_m: number): number =>
  length_m <= 0 ? 0 : Math.max(0, 2e-7 * length_m * (Math.log((4 * length_m) / diameter_m) - 0.75));

/** Inductance of the way through building steel, H/m, and its impedance where the run is long against the wave: least and most. */
const OUTSIDE_H_PER_M = [0.4e-6, 1.2e-6] as const;
const OUTSIDE_OHM = [100, 300] as const;

/**
 * Least and most share of the current that leaves a shield which has this much inductance in its way: an order of magnitude, for the
 * structure is not known. Both forms of the ratio are taken, and the widest of what they give.
 */
export function shareOutside(gap_H: number, length_m: number, ramp_s: number): readonly [number, number] {
  if (gap_H <= 0) return [0, 0];
  const omega = 2 / ramp_s;
  const short = OUTSIDE_H_PER_M.map((each) => gap_H / (gap_H + each * Math.max(length_m, 1)));
  const long = OUTSIDE_OHM.map((each) => (omega * gap_H) / (omega * gap_H + 2 * each));
  // Shorter than a tenth of the wave at the edge's frequency only the first holds.
  const isLong = length_m > (150e6 * Math.PI * ramp_s) / 10;
  const all = isLong ? [...short, ...long] : short;
  return [Math.min(...all), Math.max(...all)];
}

/** What the opened box is lifted by on each edge. */
export const groundBounce_V = (gap_H: number, peak_A: Amperes, ramp_s: number): Volts => (gap_H * peak_A) / ramp_s;
