import { type Complex, complex, magnitude } from './complex.ts';
import type { Amperes, Volts } from './units.ts';

/**
 * Three-phase symmetrical fault current. US practice: nominal voltage over the impedance of the path. IEC 60909-0: with the voltage
 * factor c, whose low-voltage value for a supply within +10 % is 1.10 (Table 1; within +6 % it would be 1.05, and the current less).
 */

const VOLTAGE_FACTOR = 1.1;
const factorOf = (basis: 'us' | 'iec'): number => (basis === 'iec' ? VOLTAGE_FACTOR : 1);

/** What stands behind terminals of this fault current, so that a fault right there draws just that. Ohm, line to neutral. */
export function sourceImpedance(nominal_V: Volts, fault_A: Amperes, xOverR: number, basis: 'us' | 'iec'): Complex {
  const size = (factorOf(basis) * nominal_V) / Math.sqrt(3) / fault_A;
  const r = size / Math.hypot(1, xOverR);
  return complex(r, r * xOverR);
}

/** @param path_ohm from the source to the fault, the source included; null when there is no impedance at all */
export function faultCurrent_A(nominal_V: Volts, path_ohm: Complex, basis: 'us' | 'iec'): Amperes | null {
  const size = magnitude(path_ohm);
  if (!(size > 0)) return null;
  return (factorOf(basis) * nominal_V) / Math.sqrt(3) / size;
}

/** Correction of a transformer's impedance, KT = 0.95 c / (1 + 0.6 xT) (IEC 60909-0 clause 6.3.3). @param reactance_pu xT, per unit */
export const transformerCorrection = (reactance_pu: number, factor = VOLTAGE_FACTOR): number => (0.95 * factor) / (1 + 0.6 * reactance_pu);

/** Greatest instantaneous current, κ √2 I, κ = 1.02 + 0.98 exp(−3 R/X) (IEC 60909-0 clause 8.1). */
export function peakFaultCurrent_A(symmetrical_A: Amperes, path_ohm: Complex): Amperes {
  const kappa = 1.02 + 0.98 * Math.exp((-3 * path_ohm.re) / path_ohm.im);
  return kappa * Math.SQRT2 * symmetrical_A;
}
