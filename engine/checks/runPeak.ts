import { FASTEST_RISE_S } from '../catalog/riseTimes.ts';
import type { ElementOf } from '../lineup/elements.ts';
import { exceeds, type OutputScope } from './check.ts';
import { busVoltage_V, isWave, waveAt } from './runWave.ts';
import { makersWord } from './waveTree.ts';

/** The peak of a run for checks that take it as an input: solved, or stated by the maker of a filter; null where neither is there. */
export interface RunPeak {
  readonly peak_V: number;
  readonly says: string;
}

export function runPeak({ tree, drive, nominal_V, basis }: OutputScope, motor: ElementOf<'motor'>): RunPeak | null {
  if (nominal_V === null) return null;
  const bus_V = busVoltage_V(nominal_V, drive);
  // A terminator protects the motor: nothing is credited to the cable for it.
  if (tree.terminators.length > 0) return { peak_V: 2 * bus_V, says: 'twice the bus: a terminator is not credited to the cable' };
  const word = makersWord(tree, motor.id);
  if (word?.kind === 'stated') return { peak_V: word.peak_V, says: `stated by the maker of ${word.filter.tag}` };
  if (word) return null;
  const wave = waveAt(tree, motor, { bus_V, rise_s: drive.riseTime_s ?? FASTEST_RISE_S, basis });
  if (!isWave(wave)) return null;
  return { peak_V: wave.central_V, says: exceeds(wave.length_m, wave.critical_m) ? 'full reflection' : 'short lead' };
}
