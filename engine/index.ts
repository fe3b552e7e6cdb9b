/** The door of the engine. */

export { AUTHORITIES, type Finding, type Fix, type Subject, VERDICTS, type Verdict, worst } from './checks/finding.ts';
export { CHECKS } from './checks/index.ts';
export type { Review, SolvedCable, SolvedElement, SolvedRun } from './checks/solved.ts';
export type { Cable, Construction, Landing } from './lineup/cable.ts';
export { newCable, newElement, newLineUp, nextId, nextTag } from './lineup/create.ts';
export { ELEMENT_KINDS, type Element, type ElementKind, type ElementOf, PORTS, type Port } from './lineup/elements.ts';
export { type Field, FIELDS, fieldOf, valueAt } from './lineup/fields.ts';
export { type LineUp, lineUp as lineUpSchema } from './lineup/lineUp.ts';
export { type Loaded, load } from './lineup/load.ts';
export type { Basis, Project, SheetSize } from './lineup/project.ts';
export { fixed, roundTo } from './lineup/roundTo.ts';
export { save } from './lineup/save.ts';
export { formatQuantity, type Parsed, parseQuantity, type Quantity, type Units } from './lineup/units.ts';
export { createReviewer, type Reviewer, review } from './review/createReviewer.ts';
