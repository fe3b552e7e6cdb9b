import type { Amperes, Hertz, Ohms, Volts } from '../units.ts';

/**
 * What each edge of a drive sends into its cable before the motor sees any of it: one leg steps, the others are held.
 * Peak = (2/3 U / Zd + 1/3 U / Z0), less on a line shorter than the critical length; effective value over a carrier period with the ringing,
 * a high estimate (10 to 30 % above full solutions). Modes of a three-phase line; any text on multiconductor lines.
 */
export interface ChargingInput {
  readonly bus_V: Volts;
  /** One phase, differential and common mode. */
  readonly differential_ohm: Ohms;
  readonly common_ohm: Ohms;
  /** All cable connected, sets counted. */
  readonly length_m: number;
  readonly critical_m: number;
  readonly velocity_mPerS: number;
  readonly carrier_Hz: Hertz;
  /** What is left of the wave after going there and back. */
  readonly roundTrip: number;
  /** Sets that start at the drive's terminals. */
  readonly sets: number;
}

export function chargingCurrent(input: ChargingInput): { readonly peak_A: Amperes; readonly rms_A: Amperes } {
  const { bus_V, differential_ohm, common_ohm, length_m, critical_m, velocity_mPerS, carrier_Hz, roundTrip, sets } = input;
  const whole = ((2 / 3) * bus_V) / differential_ohm + ((1 / 3) * bus_V) / common_ohm;
  const peak_A = whole * Math.min(1, length_m / sets / critical_m) * sets;
  const there_s = length_m / sets / velocity_mPerS;
  const share = Math.min(1, (4 * there_s * carrier_Hz) / (1 - roundTrip ** 2));
  return { peak_A, rms_A: peak_A * Math.sqrt(share) };
}
