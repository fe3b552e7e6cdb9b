import type { Element } from './elements.ts';

type Index = ReadonlyMap<string | undefined, Element>;

/** The element of that id, found without a walk over all of them: an index is made once for each list of a document, which is never changed in place. */
export function elementOf(elements: readonly Element[], id: string | undefined): Element | undefined {
  const held = indexes.find((each) => each.elements === elements);
  if (held) return held.index.get(id);
  const index: Index = new Map(elements.map((each) => [each.id, each]));
  indexes.unshift({ elements, index });
  if (indexes.length > MOST) indexes.pop();
  return index.get(id);
}

/** The newest first: a document with what it is compared with, and what is tried on it. Of each step back one would be kept otherwise. */
const indexes: { readonly elements: readonly Element[]; readonly index: Index }[] = [];
const MOST = 4;
