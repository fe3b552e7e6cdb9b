import { tableCurrent_A } from '../catalog/motors.ts';
import type { ElementOf } from '../lineup/elements.ts';
import type { Basis } from '../lineup/project.ts';
import { fixed } from '../lineup/roundTo.ts';
import { exceeds, given, lookedUp, missingOf } from './check.ts';
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

/** How some of the motors of a place are seen there. */
export const seenAmong = (some: Motors, motors: Motors, seen: readonly number[]): readonly number[] =>
  some.map((motor) => seen[motors.indexOf(motor)] ?? 1);
type Motors = readonly ElementOf<'motor'>[];

/**
 * What the code asks to be reckoned for each motor, as it is seen here, and how it came about: table currents, or nameplates above them (US),
 * nameplates (IEC).
 */
export function motorsDrawn(
  motors: Motors,
  seen: readonly number[],
  basis: Basis,
  between: Transformers,
): {
  readonly currents: readonly { readonly amperes: number; readonly how: string }[];
  readonly missing: readonly Missing[];
  readonly inputs: readonly Input[];
} {
  const paths = basis === 'us' ? ['ratedPower_W', 'ratedVoltage_V'] : [];
  const missing: Missing[] = [...turnsMissing(between)];
  const inputs: Input[] = [...turnsGiven(between)];
  const currents = motors.map((motor, i) => {
    missing.push(...missingOf(motor, 'ratedCurrent_A', ...paths));
    const table =
      basis === 'us' && motor.ratedPower_W !== undefined && motor.ratedVoltage_V !== undefined
        ? tableCurrent_A(motor.ratedPower_W, motor.ratedVoltage_V)
        : null;
    inputs.push(...given(motor, ...paths, 'ratedCurrent_A'));
    if (table) inputs.push(lookedUp(`table current of ${motor.tag}`, `${table.current_A} A`, 'NEC Table 430.250'));
    const times = seen[i] ?? 1;
    // What draws more than the table says is built for low speed or high torque, and goes by its plate (430.6(A)(1)).
    const plate_A = motor.ratedCurrent_A ?? 0;
    const own = table === null || exceeds(plate_A, table.current_A);
    const above = table ? `, above the table’s ${fixed(table.current_A, 1)} A` : '';
    const [amperes, how] = own ? [plate_A, `nameplate${above}`] : [table.current_A, table.label];
    return { amperes: amperes * times, how: `${how}${throughSaid([times], between)}` };
  });
  return { currents, missing, inputs };
}

/** What one drive or motor may draw: by itself or, where there is a way around a drive, by its motors in its place. */
type Either = readonly (readonly number[])[];

/** What is drawn where some drives have a way around: each drive with its motors in its place, and the motors whose drive is elsewhere. */
export function withWaysAround(
  drives: readonly ElementOf<'drive'>[],
  driven: readonly number[],
  loose: readonly number[],
  looseDrives: readonly (string | null)[],
): readonly Either[] {
  const around = (id: string): readonly number[] => loose.filter((_, i) => looseDrives[i] === id);
  const here = new Set(drives.map(({ id }) => id));
  return [
    ...drives.map(({ id }, i): Either => [[driven[i] ?? 0], around(id)]),
    ...loose.flatMap((each, i): Either[] => (here.has(looseDrives[i] ?? '') ? [] : [[[each]]])),
  ];
}

/**
 * The most of all that may be drawn together, whichever way each goes.
 * @param more of the largest single current, on top: 0.25 by NEC 430.24
 */
export function mostTogether(each: readonly Either[], more: number): number {
  const sumOf = (list: readonly number[]): number => list.reduce((sum, current) => sum + current, 0);
  const larger = each.map((ways) => Math.max(0, ...ways.map(sumOf)));
  const all = sumOf(larger);
  const tops = each.flatMap((ways, i) => ways.map((way) => all - (larger[i] ?? 0) + sumOf(way) + more * Math.max(0, ...way)));
  return Math.max(0, ...tops);
}
