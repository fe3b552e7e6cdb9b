import type { Celsius, Volts } from '../units.ts';

/**
 * Peak voltage at which discharges begin in the air at the surface of an insulated conductor: the lower of two estimates.
 *
 *   wedge       least over the gap g of  V_P(p g) (1 + n t_eq / (er g))     t_eq = (r + t) ln((r + t) / r)
 *   empirical   163 (n t / er)^0.46 V r.m.s., t in µm
 *   n           2 between two conductors, 1 to earthed metal
 *   V_P(pd)     365 pd / (1.18 + ln pd), pd in Torr cm; held at its minimum below that (no credit for very small gaps)
 *
 * Air: constants attributed to A. Zastawny, 1997 (from a summary). Empirical: a law of T. Dakin's type (from memory), fitted to thin layers,
 * and below the wedge on thick walls. Good to 30 % dry and known, 50 % wet or not known.
 */
export interface InceptionInput {
  readonly radius_m: number;
  /** At its thinnest. */
  readonly wall_m: number;
  readonly permittivity: number;
  readonly to: 'conductor' | 'metal';
  /** Air, against 1013 hPa at 20 °C. */
  readonly density: number;
}

const LEAST_TORR_CM = Math.exp(1 - 1.18);
const airBreakdown_V = (torrCm: number): number => {
  const at = Math.max(torrCm, LEAST_TORR_CM);
  return (365 * at) / (1.18 + Math.log(at));
};

/** From 1 µm to 5 mm, where the least always lies between. */
const GAPS_M: readonly number[] = Array.from({ length: 161 }, (_, i) => 1e-6 * 5000 ** (i / 160));

export function wedge_V({ radius_m, wall_m, permittivity, to, density }: InceptionInput): Volts {
  const equivalent_m = (radius_m + wall_m) * Math.log((radius_m + wall_m) / radius_m);
  const layers = to === 'conductor' ? 2 : 1;
  let least = Number.POSITIVE_INFINITY;
  for (const gap_m of GAPS_M) {
    least = Math.min(least, airBreakdown_V(760 * density * gap_m * 100) * (1 + (layers * equivalent_m) / (permittivity * gap_m)));
  }
  return least;
}

export function empirical_V({ wall_m, permittivity, to }: InceptionInput): Volts {
  return Math.SQRT2 * 163 * ((to === 'conductor' ? 2 : 1) * ((wall_m * 1e6) / permittivity)) ** 0.46;
}

/** @returns peak volts; thin air lowers the empirical figure as much as it does the wedge */
export function inception_V(input: InceptionInput): Volts {
  const thin = wedge_V(input);
  const dense = wedge_V({ ...input, density: 1 });
  return Math.min(thin, (empirical_V(input) * thin) / dense);
}

/** Standard atmosphere (ISO 2533): pressure over that at sea level, and warmth. */
export const airDensity = (altitude_m: number, temperature_C: Celsius): number =>
  ((1 - 2.25577e-5 * altitude_m) ** 5.25588 * 293.15) / (273.15 + temperature_C);
