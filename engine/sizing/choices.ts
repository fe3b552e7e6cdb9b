import { conductorSize, IEC_CONDUCTORS, US_CONDUCTORS } from '../catalog/conductors.ts';
import { changed } from '../checks/applyFix.ts';
import { worstLength_m } from '../checks/cableModel.ts';
import type { FixEdit } from '../checks/finding.ts';
import type { Cable } from '../lineup/cable.ts';
import { valueAt } from '../lineup/fields.ts';
import type { Basis } from '../lineup/project.ts';

/** What a cable may be made of: standard sizes, and sets in parallel. */

export interface Choice {
  readonly size: string;
  readonly sets: number;
}

/** As the document has it; null without a size that the tables know. */
export const choiceOf = ({ conductor: { size, sets } }: Cable): Choice | null =>
  size === undefined || !conductorSize(size) ? null : { size, sets: sets ?? 1 };

export const area_mm2 = ({ size, sets }: Choice): number => (conductorSize(size)?.area_mm2 ?? 0) * sets;

/** Of the conductors alone: length, at the long end of a range, × 3 phases × sets × area. Grounds, shields and other cores are not counted. */
export const volume_m3 = (cable: Cable, choice: Choice): number => (worstLength_m(cable) ?? 0) * 3 * area_mm2(choice) * 1e-6;

/** Standard sizes in the system of the cable, ascending: those its metal is made in. */
export function standardSizes(cable: Cable, basis: Basis): readonly string[] {
  const system = conductorSize(cable.conductor.size ?? '')?.system ?? basis;
  if (system === 'us') return US_CONDUCTORS.map(({ name }) => name);
  const aluminium = cable.conductor.metal === 'aluminium';
  return IEC_CONDUCTORS.filter((each) => !aluminium || each.aluminium_ohmPerKm !== null).map(({ name }) => name);
}

/** Every size with every number of sets, the least conductor first, then the fewest sets. */
export const choicesOf = (sizes: readonly string[], mostSets: number): readonly Choice[] =>
  sizes
    .flatMap((size) => Array.from({ length: mostSets }, (_, i): Choice => ({ size, sets: i + 1 })))
    .sort((a, b) => area_mm2(a) - area_mm2(b) || a.sets - b.sets);

/** Values from the data sheet of one size: they do not hold for another, and are asked for anew. */
export const DATA_SHEET: readonly string[] = ['outerDiameter_mm', 'insulation.wall_mm', 'shieldArea_mm2', 'wave'];

/** The edits that make a cable of another size or number of sets. Several sets are proposed as sets alike, each with all phases and a ground. */
export const resizing = (cable: Cable, choice: Choice): readonly FixEdit[] => {
  const edit = (path: string, value: FixEdit['value']): FixEdit => ({ id: cable.id, path, value });
  return [
    ...(choice.size === cable.conductor.size
      ? []
      : [
          edit('conductor.size', choice.size),
          ...DATA_SHEET.filter((path) => valueAt(cable, path) !== undefined).map((path) => edit(path, null)),
        ]),
    ...(choice.sets === cable.conductor.sets ? [] : [edit('conductor.sets', choice.sets)]),
    ...(choice.sets > 1 && cable.setsAlike === undefined ? [edit('setsAlike', true)] : []),
    ...(choice.sets > 1 && cable.setsHoldAllPhases === undefined ? [edit('setsHoldAllPhases', true)] : []),
  ];
};

export const resized = (cable: Cable, choice: Choice): Cable => changed(cable, resizing(cable, choice));
