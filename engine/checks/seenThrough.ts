import type { ElementOf } from '../lineup/elements.ts';
import { given, missingOf } from './check.ts';
import type { Input, Missing } from './finding.ts';

/** What parts draw at a place, on the other side of a transformer too: power passes, so currents go as the voltages do the other way. */

export interface Drawn {
  /** One for each part, as it is seen here. */
  readonly currents: readonly number[];
  readonly sum_A: number;
  /** Where a transformer stands between, a word on it. */
  readonly through: string;
  readonly missing: readonly Missing[];
  readonly inputs: readonly Input[];
}

const TURNS = ['primaryVoltage_V', 'secondaryVoltage_V'] as const;
type Transformers = readonly ElementOf<'transformer'>[];
export const turnsGiven = (between: Transformers): readonly Input[] => between.flatMap((each) => given(each, ...TURNS));
export const turnsMissing = (between: Transformers): readonly Missing[] => between.flatMap((each) => missingOf(each, ...TURNS));
/** A word on what stands between, where it changes anything. */
export const throughSaid = (seen: readonly number[], between: Transformers): string =>
  seen.some((each) => each !== 1) ? `, seen through ${between.map(({ tag }) => tag).join(' and ')}` : '';

/**
 * Drives at rated input and motors at nameplate current. Of no meaning while something is missing.
 * @param seen what is drawn here for each ampere of a part
 * @param between the transformers that make it so
 */
export function drawnHere(
  fed: readonly (ElementOf<'drive'> | ElementOf<'motor'>)[],
  seen: readonly number[],
  between: Transformers,
): Drawn {
  const path = ({ kind }: { readonly kind: 'drive' | 'motor' }) => (kind === 'drive' ? 'inputCurrent_A' : 'ratedCurrent_A');
  const currents = fed.map((part, i) => ((part.kind === 'drive' ? part.inputCurrent_A : part.ratedCurrent_A) ?? 0) * (seen[i] ?? 1));
  return {
    currents,
    sum_A: currents.reduce((sum, current) => sum + current, 0),
    through: throughSaid(seen, between),
    missing: [...fed.flatMap((part) => missingOf(part, path(part))), ...turnsMissing(between)],
    inputs: [...fed.flatMap((part) => given(part, path(part))), ...turnsGiven(between)],
  };
}
