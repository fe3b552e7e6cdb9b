import type { Finding, Fix, FixEdit } from '../checks/finding.ts';
import type { Cable } from '../lineup/cable.ts';
import type { Element, ElementOf } from '../lineup/elements.ts';
import { valueAt } from '../lineup/fields.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import type { Run } from '../network/network.ts';

/** A kind of change that may help a finding. Whether one does is for the checks to say. */
export interface Kind {
  readonly name: string;
  /** Its maker's figure stays open: it may turn a fail or a caution into a question. */
  readonly asks?: true;
  /** Lists of alternatives, each from the smallest step up: of one list the first that helps is enough. */
  readonly of: (concerned: Concerned) => readonly (readonly Fix[])[];
}

/** Parts and cables that a finding is about. */
export interface Concerned {
  readonly lineUp: LineUp;
  readonly finding: Finding;
  readonly cables: readonly Cable[];
  readonly elements: readonly Element[];
  readonly runs: readonly Run[];
}

export const edit = (part: Element | Cable, path: string, value: FixEdit['value']): FixEdit => ({ id: part.id, path, value });
export const fix = (label: string, ...edits: readonly FixEdit[]): Fix => ({ label, edits });
export const isKind =
  <K extends Element['kind']>(kind: K) =>
  (element: Element): element is ElementOf<K> =>
    element.kind === kind;
/** Each by itself, without alternatives. */
export const one = (...fixes: readonly (Fix | false)[]): readonly (readonly Fix[])[] =>
  fixes.flatMap((each) => (each === false ? [] : [[each]]));
/** A change of each part of one kind that it is for. */
export const ofEach = <K extends Element['kind']>(kind: K, name: string, change: (part: ElementOf<K>) => Fix | false): Kind => ({
  name,
  of: ({ elements }) => one(...elements.filter(isKind(kind)).map(change)),
});
/** Steps for each part of one kind, the smallest first. */
export const stepsOfEach = <K extends Element['kind']>(
  kind: K,
  name: string,
  steps: (part: ElementOf<K>, concerned: Concerned) => readonly Fix[],
): Kind => ({ name, of: (concerned) => concerned.elements.filter(isKind(kind)).map((part) => steps(part, concerned)) });
export const ENDS = ['from', 'to'] as const;
export const shown = (size: string): string => size.replace('mm2', 'mm²');
/** Values that another make would have to say anew, of those that are given. */
export const asked = (part: Element | Cable, paths: readonly string[]): readonly FixEdit[] =>
  paths.filter((path) => valueAt(part, path) !== undefined).map((path) => edit(part, path, null));
