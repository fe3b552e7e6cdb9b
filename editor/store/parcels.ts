import { type LineUp, newLineUp, type Review } from '../../engine/index.ts';

/**
 * What goes from thread to thread. A copy is another object, and the reviewer remembers by identity: so an object that went in the
 * parcel before is told by its place there. Both sides go on sharing what did not change, and a parcel is as small as the edit.
 */
type Packed<T> = readonly (number | T)[];

function pack<T extends object>(now: readonly T[], before: readonly T[] = []): Packed<T> {
  const places = new Map(before.map((each, i) => [each, i]));
  return now.map((each) => places.get(each) ?? each);
}

function unpack<T extends object>(packed: Packed<T>, before: readonly T[] = []): T[] {
  return packed.map((each) => {
    const held = typeof each === 'number' ? before[each] : each;
    if (held === undefined) throw new Error('A parcel speaks of one that never came.');
    return held;
  });
}

/** What is judged of a document. Where its parts stand is not. */
export interface LineUpParcel {
  readonly project: Packed<LineUp['project']>;
  readonly elements: Packed<LineUp['elements'][number]>;
  readonly cables: Packed<LineUp['cables'][number]>;
}

export const packLineUp = (now: LineUp, before: LineUp | null): LineUpParcel => ({
  project: pack([now.project], before ? [before.project] : []),
  elements: pack(now.elements, before?.elements),
  cables: pack(now.cables, before?.cables),
});

export function unpackLineUp(parcel: LineUpParcel, before: LineUp | null): LineUp {
  const empty = newLineUp('us');
  const [project = empty.project] = unpack(parcel.project, before ? [before.project] : []);
  return { ...empty, project, elements: unpack(parcel.elements, before?.elements), cables: unpack(parcel.cables, before?.cables) };
}

type Lists = 'findings' | 'elements' | 'cables' | 'runs';
export type ReviewParcel = Omit<Review, Lists> & { readonly [L in Lists]: Packed<Review[L][number]> };

export const packReview = (now: Review, before: Review | null): ReviewParcel => ({
  ...now,
  findings: pack(now.findings, before?.findings),
  elements: pack(now.elements, before?.elements),
  cables: pack(now.cables, before?.cables),
  runs: pack(now.runs, before?.runs),
});

export const unpackReview = (parcel: ReviewParcel, before: Review | null): Review => ({
  ...parcel,
  findings: unpack(parcel.findings, before?.findings),
  elements: unpack(parcel.elements, before?.elements),
  cables: unpack(parcel.cables, before?.cables),
  runs: unpack(parcel.runs, before?.runs),
});
