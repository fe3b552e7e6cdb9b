import type { Element } from './elements.ts';

/** The element of that id, found without a walk over all of them: an index is made once for each list of a document, which is never changed in place. */
export function elementOf(elements: readonly Element[], id: string | undefined): Element | undefined {
  let index = indexes.get(elements);
  if (!index) {
    index = new Map(elements.map((each) => [each.id, each]));
    indexes.set(elements, index);
  }
  return index.get(id);
}

const indexes = new WeakMap<readonly Element[], ReadonlyMap<string | undefined, Element>>();
