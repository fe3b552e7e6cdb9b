import { FASTEST_RISE_S } from '../catalog/riseTimes.ts';
import type { ElementOf } from '../lineup/elements.ts';
import { exceeds, lacks, type OutputScope, voltageMissing } from './check.ts';
import type { Missing } from './finding.ts';
import { busVoltage_V, isWave, lackingIn, waveAt } from './runWave.ts';
import { makersWord } from './waveTree.ts';

/** The peak of a run for checks that take it as an input: solved, or stated by the maker of a filter. */
export interface RunPeak {
  readonly peak_V: number;
  readonly says: string;
}
/** Where there is no peak: what it lacks, as far as that can be named. */
export interface NoPeak {
  readonly lacking: readonly Missing[];
}
export const isPeak = (peak: RunPeak | NoPeak): peak is RunPeak => 'peak_V' in peak;

export function runPeak({ tree, drive, nominal_V, voltageFrom, basis }: OutputScope, motor: ElementOf<'motor'>): RunPeak | NoPeak {
  if (nominal_V === null) return { lacking: voltageMissing(voltageFrom) };
  const bus_V = busVoltage_V(nominal_V, drive);
  // A terminator protects the motor: nothing is credited to the cable for it.
  if (tree.terminators.length > 0) return { peak_V: 2 * bus_V, says: 'twice the bus: a terminator is not credited to the cable' };
  const word = makersWord(tree, motor.id);
  if (word?.kind === 'stated') return { peak_V: word.peak_V, says: `stated by the maker of ${word.filter.tag}` };
  if (word) return { lacking: word.fields.map((field) => lacks(word.part, field)) };
  const wave = waveAt(tree, motor, { bus_V, rise_s: drive.riseTime_s ?? FASTEST_RISE_S, basis });
  if (!isWave(wave)) return { lacking: lackingIn(wave) };
  return { peak_V: wave.central_V, says: exceeds(wave.length_m, wave.critical_m) ? 'full reflection' : 'short lead' };
}
