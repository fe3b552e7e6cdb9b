import { AC_IMPEDANCE, TABLE_9 } from '../catalog/acImpedance.ts';
import { IEC_60228, IEC_CONDUCTORS, type IecConductor, TABLE_8, US_CONDUCTORS, type UsConductor } from '../catalog/conductors.ts';
import { cite } from '../catalog/source.ts';
import { skinAndProximity } from './skinAndProximity.ts';
import type { Celsius, Hertz } from './units.ts';

/**
 * Resistance and reactance of one phase conductor, ohm per metre.
 *
 * US sizes: NEC Chapter 9 Table 9 (75 °C, 60 Hz), R moved to the temperature by Table 8 note 2, X in proportion to frequency.
 * Sizes without a row there take Table 8's d.c. resistance, raised as the rows on both sides are by alternating current, and the
 * reactance of the nearest row above.
 * Metric sizes: IEC 60228 at 20 °C, moved to the temperature (IEC 60287-1-1 Table 1), with skin and proximity effect
 * (IEC 60287-1-1); X 0.08 milliohm per metre at 50 Hz (IEC 60364-5-52 Annex G).
 */

const METRES_PER_KFT = 304.8;
/** Thinnest insulation between two cores of a power cable (IEC 60502-1 at 1.5 mm2): the closest they can lie, where proximity is greatest. */
const THINNEST_WALL_MM = 0.7;

export interface ConductorInput {
  readonly size: string;
  readonly metal: 'copper' | 'aluminium';
  readonly build?: 'solid' | 'stranded' | 'flexible' | undefined;
  /** Of the insulation, for the spacing of the cores; not known: the closest. */
  readonly wall_mm?: number | undefined;
  readonly temperature_C: Celsius;
  readonly frequency_Hz: Hertz;
  readonly surround: 'steel' | 'aluminium' | 'nonmetallic';
}

export interface ConductorImpedance {
  readonly resistance_ohmPerM: number;
  readonly reactance_ohmPerM: number;
  readonly source: string;
  readonly working: readonly string[];
}

/** Null for a size, metal or build that no table has. */
export function conductorImpedance(input: ConductorInput): ConductorImpedance | null {
  const us = usSize(input.size);
  if (us) return usImpedance(us, input);
  const metric = IEC_CONDUCTORS.find((candidate) => candidate.name === input.size);
  return metric ? iecImpedance(metric, input) : null;
}

const usSize = (name: string) => US_CONDUCTORS.find((candidate) => candidate.name === name);
const direct_ohmPerKft = (own: UsConductor, metal: ConductorInput['metal']): number =>
  metal === 'copper' ? own.copper_ohmPerKft : own.aluminium_ohmPerKft;

const digits = (value: number): string => Number(value.toPrecision(5)).toString();

function usImpedance(own: UsConductor, { size, metal, temperature_C, frequency_Hz, surround }: ConductorInput): ConductorImpedance | null {
  const row = AC_IMPEDANCE.find((candidate) => candidate.name === size);
  const nearest = row ?? AC_IMPEDANCE.find((candidate) => (usSize(candidate.name)?.area_mm2 ?? 0) >= own.area_mm2);
  if (!nearest) return null;
  const alternating = row?.[metal]?.[surround];
  const at75 = alternating ?? direct_ohmPerKft(own, metal) * raisedBy(own.area_mm2, metal, surround);
  const coefficient = metal === 'copper' ? 0.00323 : 0.0033;
  const factor = 1 + coefficient * (temperature_C - 75);
  const source =
    alternating === undefined ? `${cite(TABLE_8)}, raised as the sizes beside it in Table 9; reactance as ${nearest.name}` : cite(TABLE_9);
  return {
    resistance_ohmPerM: (at75 * factor) / METRES_PER_KFT,
    reactance_ohmPerM: (nearest.reactance[surround] / METRES_PER_KFT) * (frequency_Hz / 60),
    source,
    working: [
      `R ${digits(at75)} Ω/kft at 75 °C, ${size} ${metal}, ${surround} (${source})${temperature_C === 75 ? '' : ` × [1 + ${coefficient} (${digits(temperature_C)} − 75)] (Table 8 note 2) = ${digits(at75 * factor)} Ω/kft`}`,
      `X ${nearest.reactance[surround]} Ω/kft at 60 Hz${frequency_Hz === 60 ? '' : ` × ${digits(frequency_Hz)}/60`}`,
    ],
  };
}

/**
 * How much alternating current raises the d.c. resistance of a size without a row of its own: between the rows on both sides of it, by area.
 * Wire thinner than all rows is not raised.
 */
function raisedBy(area_mm2: number, metal: ConductorInput['metal'], surround: ConductorInput['surround']): number {
  const known = AC_IMPEDANCE.flatMap((row) => {
    const own = usSize(row.name);
    const alternating = row[metal]?.[surround];
    return own && alternating ? [{ area: own.area_mm2, ratio: Math.max(1, alternating / direct_ohmPerKft(own, metal)) }] : [];
  });
  const next = known.findIndex((each) => each.area > area_mm2);
  const [below, above] = [known[next - 1], known[next]];
  if (!below || !above) return 1;
  return below.ratio + ((above.ratio - below.ratio) * (area_mm2 - below.area)) / (above.area - below.area);
}

function iecImpedance(
  row: IecConductor,
  { size, metal, build, wall_mm, temperature_C, frequency_Hz }: ConductorInput,
): ConductorImpedance | null {
  const at20 =
    metal === 'aluminium' ? row.aluminium_ohmPerKm : build === 'flexible' ? row.copperClass5_ohmPerKm : row.copperClass2_ohmPerKm;
  if (at20 === null) return null;
  const coefficient = metal === 'copper' ? 0.00393 : 0.00403;
  const direct = (at20 / 1000) * (1 + coefficient * (temperature_C - 20));
  const diameter_mm = row.diameter_mm ?? Math.sqrt((4 * row.area_mm2) / Math.PI);
  const effects = skinAndProximity({
    direct_ohmPerM: direct,
    frequency_Hz,
    diameter_mm,
    spacing_mm: diameter_mm + 2 * (wall_mm ?? THINNEST_WALL_MM),
  });
  const source = `${cite(IEC_60228)} class ${metal === 'copper' && build === 'flexible' ? 5 : 2}; reactance IEC 60364-5-52 Annex G`;
  return {
    resistance_ohmPerM: direct * (1 + effects.skin + effects.proximity),
    reactance_ohmPerM: 0.08e-3 * (frequency_Hz / 50),
    source,
    working: [
      `R ${at20} Ω/km at 20 °C, ${size} ${metal} (${cite(IEC_60228)}) × [1 + ${coefficient} (${digits(temperature_C)} − 20)] = ${digits(direct * 1000)} Ω/km`,
      `× (1 + ${digits(effects.skin)} skin + ${digits(effects.proximity)} proximity) (IEC 60287-1-1)`,
      `X 0.08 Ω/km at 50 Hz (IEC 60364-5-52 Annex G)${frequency_Hz === 50 ? '' : ` × ${digits(frequency_Hz)}/50`}`,
    ],
  };
}
