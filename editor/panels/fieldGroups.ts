import type { Field } from '../../engine/index.ts';

/** Under which heading a value stands in the inspector. */

export interface FieldGroup {
  readonly title: string;
  readonly fields: readonly Field[];
}

const HEADINGS: readonly (readonly [RegExp, string])[] = [
  [/^conductor\./, 'Conductor'],
  [/^length/, 'Length'],
  [/^(construction|insulation\.|shieldCoverage)/, 'Build and insulation'],
  [/^(wave\.|surgeImpedance|windingCapacitance|inductance_H|acrossInductor|capacitance_F|coreLoss)/, 'For fast pulses'],
  [/^grounds\./, 'Grounding conductors'],
  [/^installation\./, 'Where it lies'],
  [/^manual\./, 'From the manual'],
  [/^brake\./, 'Brake'],
  [/^(box|bondBar)$/, 'Box'],
  [/^terminal/, 'Terminals'],
  [/^(note|enclosure)$/, 'Notes'],
];

export function fieldGroups(fields: readonly Field[]): readonly FieldGroup[] {
  const groups = new Map<string, Field[]>();
  for (const field of fields) {
    const title = HEADINGS.find(([path]) => path.test(field.path))?.[1] ?? 'Ratings';
    const group = groups.get(title);
    if (group) group.push(field);
    else groups.set(title, [field]);
  }
  return [...groups].map(([title, members]) => ({ title, fields: members }));
}
