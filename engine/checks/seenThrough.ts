import type { Element, ElementOf } from '../lineup/elements.ts';
import { fixed } from '../lineup/roundTo.ts';
import { exceeds, given, missingOf, voltageGiven, voltageMissing } from './check.ts';
import type { Input, Missing } from './finding.ts';

/**
 * How many times the current of a part is drawn here, on the other side of a transformer: power passes, so currents go as the voltages do the
 * other way. Parts stand at what they are made for within 10 % (see voltageMatch): what lies further off stands behind a transformer.
 */
export function driveSeen(rated_V: number, here_V: number): number {
  const ratio = rated_V / here_V;
  return exceeds(ratio, 1.1) || exceeds(0.9, ratio) ? ratio : 1;
}

/** A motor may stand far below its drive's supply without one, at nameplate current: only above it is there a transformer for sure. */
export const motorSeen = (rated_V: number, here_V: number): number => Math.max(1, driveSeen(rated_V, here_V));

export interface Drawn {
  /** One for each part, as it is seen here. */
  readonly currents: readonly number[];
  readonly sum_A: number;
  /** Where a transformer stands between, a word on it. */
  readonly through: string;
  readonly missing: readonly Missing[];
  readonly inputs: readonly Input[];
}

/** What drives at rated input and motors at nameplate current draw at a place. Of no meaning while something is missing. */
export function drawnHere(
  fed: readonly (ElementOf<'drive'> | ElementOf<'motor'>)[],
  nominal_V: number | null,
  voltageFrom: Element,
): Drawn {
  const here_V = nominal_V ?? 1;
  const paths = ({ kind }: Element) => [kind === 'drive' ? 'inputCurrent_A' : 'ratedCurrent_A', 'ratedVoltage_V'];
  const seen = ({ kind, ratedVoltage_V = here_V }: (typeof fed)[number]) =>
    (kind === 'drive' ? driveSeen : motorSeen)(ratedVoltage_V, here_V);
  const currents = fed.map((part) => ((part.kind === 'drive' ? part.inputCurrent_A : part.ratedCurrent_A) ?? 0) * seen(part));
  return {
    currents,
    sum_A: currents.reduce((sum, current) => sum + current, 0),
    through: fed.some((part) => seen(part) !== 1) ? `, seen at ${fixed(here_V, 0)} V through a transformer` : '',
    missing: [...fed.flatMap((part) => missingOf(part, ...paths(part))), ...(nominal_V === null ? voltageMissing(voltageFrom) : [])],
    inputs: [...voltageGiven(voltageFrom), ...fed.flatMap((part) => given(part, ...paths(part)))],
  };
}
