import { type Design, FORMAT, type LineUp, VERSION } from './lineUp.ts';

/** The line-up without what is kept beside it: what an issue freezes and a variant holds aside. Fields of the document that this version does not name stay with the document. */
export function designOf({ project, elements, cables, positions, labels, notes }: LineUp): Design {
  return { project, elements, cables, positions, ...(labels && { labels }), ...(notes && { notes }) };
}

/** A line-up of its own, with nothing kept beside it. */
export const asLineUp = (design: Design): LineUp => ({ ...design, format: FORMAT, version: VERSION });
