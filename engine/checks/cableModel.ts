import { conductorSize } from '../catalog/conductors.ts';
import { insulationFacts, wallThickness_mm } from '../catalog/insulation.ts';
import type { Cable } from '../lineup/cable.ts';
import type { Basis } from '../lineup/project.ts';
import { type Complex, complex, ZERO } from '../physics/complex.ts';
import { conductorImpedance } from '../physics/conductorImpedance.ts';

/** A cable of the document as the physics wants it. */

/** What surrounds the conductors, for the columns of NEC Chapter 9 Table 9. @param unsaid where nobody said what it is laid in: steel has the highest impedance, no metal the lowest */
export function surroundOf(cable: Cable, unsaid: 'steel' | 'nonmetallic'): 'steel' | 'aluminium' | 'nonmetallic' {
  const { raceway } = cable.installation;
  if (raceway === 'steel-conduit' || raceway === 'flexible-metal') return 'steel';
  if (raceway === 'aluminium-conduit' || cable.construction === 'corrugated-armour') return 'aluminium';
  if (cable.construction === 'interlocked-armour') return 'steel';
  return raceway === undefined ? unsaid : 'nonmetallic';
}

/** The length a check must use: the long end of a range; null when it is not known. */
export const worstLength_m = (cable: Cable): number | null =>
  cable.kind === 'link' ? 0 : cable.length_m === undefined ? null : Math.max(cable.length_m, cable.lengthMost_m ?? 0);

/** The short end of a range, in whichever order it is written. */
export const leastLength_m = ({ length_m = 0, lengthMost_m = length_m }: Cable): number => Math.min(length_m, lengthMost_m);

/** Length of the way over these cables, the long end of a range; null when one's is missing. */
export function wayLength_m(cables: readonly Cable[]): number | null {
  let sum = 0;
  for (const cable of cables) {
    const length = worstLength_m(cable);
    if (length === null) return null;
    sum += length;
  }
  return sum;
}

/** Temperature at which resistance is taken unless the project asks for that of the load: the table's 75 °C (US), the insulation's limit (IEC), as entered: warmer drops more. */
export const ratedTemperature_C = (cable: Cable, basis: Basis): number =>
  basis === 'us' ? 75 : (cable.insulation.temperature_C ?? insulationFacts(cable.insulation.type)?.temperatureDry_C ?? 90);

/** Conductors at their coldest credible, where a fault current is greatest: 25 °C (common practice, US), 20 °C (IEC 60909-0). */
const COLD_C = { us: 25, iec: 20 } as const;

export interface CableImpedance {
  /** One phase, whole length, sets in parallel. */
  readonly z: Complex;
  /** The least that it can be: cold, short, in no metal and with any number of sets where nobody said. Fault currents are greatest so, and a feeder that counts before a drive counts least. */
  readonly cold: Complex;
  readonly says: readonly string[];
}

const NONE: CableImpedance = { z: ZERO, cold: ZERO, says: [] };

/** Null when size, metal or length is missing, or no table has the size. */
export function cableImpedance(cable: Cable, frequency_Hz: number, basis: Basis, temperature_C: number): CableImpedance | null {
  const length_m = worstLength_m(cable);
  if (length_m === null) return null;
  if (length_m === 0) return NONE;
  const { size, metal, build, sets } = cable.conductor;
  if (size === undefined || metal === undefined || !conductorSize(size)) return null;
  const wall_mm = cable.insulation.wall_mm ?? wallThickness_mm(cable.insulation.type, size)?.wall_mm;
  const at = (degrees_C: number, unsaid: 'steel' | 'nonmetallic') =>
    conductorImpedance({ size, metal, build, wall_mm, temperature_C: degrees_C, frequency_Hz, surround: surroundOf(cable, unsaid) });
  const [hot, cold] = [at(temperature_C, 'steel'), at(COLD_C[basis], 'nonmetallic')];
  if (!hot || !cold) return null;
  const whole = (per: typeof hot, factor: number): Complex => complex(per.resistance_ohmPerM * factor, per.reactance_ohmPerM * factor);
  return {
    z: whole(hot, length_m / (sets ?? 1)),
    cold: sets === undefined ? ZERO : whole(cold, leastLength_m(cable) / sets),
    says: hot.working,
  };
}
