import { AC_IMPEDANCE, TABLE_9 } from '../catalog/acImpedance.ts';
import { conductorSize, IEC_60228, IEC_CONDUCTORS, TABLE_8, US_CONDUCTORS } from '../catalog/conductors.ts';
import { cite } from '../catalog/source.ts';

/**
 * Resistance and reactance of one phase conductor, ohm per metre.
 *
 * US sizes: NEC Chapter 9 Table 9 (75 °C, 60 Hz), R moved to the temperature by Table 8 note 2, X in proportion to frequency.
 * Sizes without a row there take Table 8's d.c. resistance and the reactance of the nearest row above.
 * Metric sizes: IEC 60228 at 20 °C times 1 + a (T - 20), a 0.00393 copper, 0.00403 aluminium (IEC 60287-1-1 Table 1), with skin effect
 * (IEC 60287-1-1, proximity left out: under 4 % to 300 mm2); X 0.08 milliohm per metre at 50 Hz (IEC 60364-5-52 Annex G).
 */

const METRES_PER_KFT = 304.8;

export function conductorImpedance(input: {
  readonly size: string;
  readonly metal: 'copper' | 'aluminium';
  readonly build?: 'solid' | 'stranded' | 'flexible' | undefined;
  readonly temperature_C: number;
  readonly frequency_Hz: number;
  readonly surround: 'steel' | 'aluminium' | 'nonmetallic';
}): { readonly resistance_ohmPerM: number; readonly reactance_ohmPerM: number; readonly source: string } | null {
  const size = conductorSize(input.size);
  if (!size) return null;
  return size.system === 'us' ? usImpedance(input) : iecImpedance(input);
}

type Input = Parameters<typeof conductorImpedance>[0];

function usImpedance({ size, metal, temperature_C, frequency_Hz, surround }: Input): ReturnType<typeof conductorImpedance> {
  const row = AC_IMPEDANCE.find((candidate) => candidate.name === size);
  const own = US_CONDUCTORS.find((candidate) => candidate.name === size);
  const alternating = row?.[metal]?.[surround];
  const direct = metal === 'copper' ? own?.copper_ohmPerKft : own?.aluminium_ohmPerKft;
  const at75 = alternating ?? direct ?? null;
  if (at75 === null || !own) return null;
  const nearest =
    row ?? AC_IMPEDANCE.find((candidate) => (conductorSize(candidate.name)?.area_mm2 ?? 0) >= own.area_mm2) ?? AC_IMPEDANCE.at(-1);
  if (!nearest) return null;
  const coefficient = metal === 'copper' ? 0.00323 : 0.0033;
  return {
    resistance_ohmPerM: (at75 * (1 + coefficient * (temperature_C - 75))) / METRES_PER_KFT,
    reactance_ohmPerM: (nearest.reactance[surround] / METRES_PER_KFT) * (frequency_Hz / 60),
    source: alternating === undefined ? `${cite(TABLE_8)}, reactance as ${nearest.name} in Table 9` : cite(TABLE_9),
  };
}

function iecImpedance({ size, metal, build, temperature_C, frequency_Hz }: Input): ReturnType<typeof conductorImpedance> {
  const row = IEC_CONDUCTORS.find((candidate) => candidate.name === size);
  const at20 =
    metal === 'aluminium' ? row?.aluminium_ohmPerKm : build === 'flexible' ? row?.copperClass5_ohmPerKm : row?.copperClass2_ohmPerKm;
  if (at20 === null || at20 === undefined) return null;
  const coefficient = metal === 'copper' ? 0.00393 : 0.00403;
  const direct = (at20 / 1000) * (1 + coefficient * (temperature_C - 20));
  const square = ((8 * Math.PI * frequency_Hz) / direct) * 1e-7;
  const skin = square ** 2 / (192 + 0.8 * square ** 2);
  return {
    resistance_ohmPerM: direct * (1 + skin),
    reactance_ohmPerM: 0.08e-3 * (frequency_Hz / 50),
    source: `${cite(IEC_60228)} class ${metal === 'copper' && build === 'flexible' ? 5 : 2}; reactance IEC 60364-5-52 Annex G`,
  };
}
