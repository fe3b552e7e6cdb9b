import type { ElementOf } from '../lineup/elements.ts';
import { fixed } from '../lineup/roundTo.ts';
import { lacks, missingOf, unknownOf } from './check.ts';
import type { Missing } from './finding.ts';

/** What a motor's winding is built for: the peak it stands line to line, and how fast an edge it may see. */

export interface MotorLimit {
  readonly peak_V: number;
  readonly name: string;
  readonly authority: 'standard' | 'manual' | 'project';
  /** The edge at its terminals must not be faster; null where nothing is said of it. */
  readonly rise_s: number | null;
  /** A faster edge breaks the limit itself (the maker's word); otherwise the standard says nothing of it. */
  readonly riseBinds: boolean;
}

/** Overshoot over the bus that each category is tested for (names and factors from memory), the bus being 1.35 × rated voltage. */
const CATEGORY = { 'ivic-a': 1.1, 'ivic-b': 1.5, 'ivic-c': 2, 'ivic-d': 2.5 } as const;
const PART_30: MotorLimit = { peak_V: 1000, name: 'NEMA MG 1 Part 30', authority: 'standard', rise_s: 2e-6, riseBinds: false };
/** For a winding of which nothing is known. */
export const PROVISIONAL: MotorLimit = { ...PART_30, name: 'NEMA MG 1 Part 30 (provisionally)' };

/** @param rise_s of the edge at the motor, for a limit that hangs on it; null takes the strictest point of a curve */
export function motorLimit(
  motor: ElementOf<'motor'>,
  rise_s: number | null,
  project_V: number | undefined,
): MotorLimit | { readonly missing: readonly Missing[]; readonly says?: string } {
  const limit = ownLimit(motor, rise_s);
  if ('missing' in limit || project_V === undefined || project_V >= limit.peak_V) return limit;
  return { ...limit, peak_V: project_V, name: 'the limit of this project', authority: 'project' };
}

function ownLimit(motor: ElementOf<'motor'>, rise_s: number | null): ReturnType<typeof motorLimit> {
  const { insulation, ratedVoltage_V, peakLimit_V, riseLimit_s } = motor;
  switch (insulation) {
    case undefined:
      return { missing: [lacks(motor, 'insulation')] };
    case 'entered':
      return peakLimit_V === undefined
        ? { missing: [lacks(motor, 'peakLimit_V')] }
        : {
            peak_V: peakLimit_V,
            name: 'the motor maker’s limit',
            authority: 'manual',
            rise_s: riseLimit_s ?? null,
            riseBinds: true,
          };
    case 'curve':
      return fromCurve(motor, rise_s);
    case 'mg1-part-30':
      return PART_30;
    case 'mg1-part-31':
      return ratedVoltage_V === undefined
        ? { missing: missingOf(motor, 'ratedVoltage_V') }
        : {
            peak_V: 3.1 * ratedVoltage_V,
            name: 'NEMA MG 1 Part 31 (3.1 × rated voltage)',
            authority: 'standard',
            rise_s: 0.1e-6,
            riseBinds: false,
          };
    default:
      return ratedVoltage_V === undefined
        ? { missing: missingOf(motor, 'ratedVoltage_V') }
        : {
            peak_V: CATEGORY[insulation] * 1.35 * ratedVoltage_V,
            name: `IEC 60034-18-41 category ${insulation.slice(-1).toUpperCase()} (from memory)`,
            authority: 'standard',
            rise_s: null,
            riseBinds: false,
          };
  }
}

/** Straight between the points that were entered; nothing is made up outside of them, but that a slower edge is no worse than the last. */
function fromCurve(motor: ElementOf<'motor'>, rise_s: number | null): ReturnType<typeof motorLimit> {
  const points = [...(motor.peakCurve ?? [])].sort((a, b) => a.rise_s - b.rise_s);
  const [first] = points;
  const last = points.at(-1);
  const name = motor.peakCurveSource ? `the curve of ${motor.peakCurveSource}` : 'the curve entered';
  const missing = unknownOf(motor, 'peakCurveSource', { label: 'Curve of peak and rise time', ask: 'motor supplier' });
  if (!first || !last) return { missing: [missing] };
  const found = (peak_V: number): MotorLimit => ({ peak_V, name, authority: 'manual', rise_s: null, riseBinds: false });
  if (rise_s === null) return found(Math.min(...points.map((point) => point.peak_V)));
  if (rise_s < first.rise_s)
    return {
      missing: [missing],
      says: `the curve begins at ${fixed(first.rise_s * 1e6, 2)} µs, and the edge at ${motor.tag} takes ${fixed(rise_s * 1e6, 2)} µs`,
    };
  const after = points.findIndex((point) => point.rise_s >= rise_s);
  const [a, b] = [points[after - 1], points[after]];
  if (after === 0) return found(first.peak_V);
  if (!a || !b) return found(last.peak_V);
  return found(a.peak_V + ((b.peak_V - a.peak_V) * (rise_s - a.rise_s)) / (b.rise_s - a.rise_s));
}
