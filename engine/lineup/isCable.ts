import type { Cable } from './cable.ts';
import type { Element, ElementKind } from './elements.ts';

/** By its kind alone: a part may carry fields of a newer program, whatever they are called. */
export const isCable = (part: Element | Cable): part is Cable => part.kind === 'cable' || part.kind === 'link';

/** Under which its fields are described. */
export const describedAs = (part: Element | Cable): ElementKind | 'cable' => (isCable(part) ? 'cable' : part.kind);
