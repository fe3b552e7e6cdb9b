/** The door of the engine. */

export { applyFix } from './checks/applyFix.ts';
export { type Finding, type Fix, type Subject, VERDICTS, type Verdict } from './checks/finding.ts';
export { CHECKS } from './checks/index.ts';
export type { Review, SolvedCable, SolvedElement, SolvedRun } from './checks/solved.ts';
export type { Item } from './drawing/displayList.ts';
export { tidyPositions } from './drawing/layout.ts';
export { badge } from './drawing/marks.ts';
export { oneLine } from './drawing/oneLine.ts';
export { busLength, routeCable } from './drawing/route.ts';
export { kindSymbol, symbolOf } from './drawing/symbols.ts';
export { TURNS, waveCharts } from './drawing/wavePicture.ts';
export type { Cable, Construction, Landing } from './lineup/cable.ts';
export { newCable, newElement, newLineUp, nextId, nextTag } from './lineup/create.ts';
export { ELEMENT_KINDS, type Element, type ElementKind, type ElementOf, PORTS, type Port } from './lineup/elements.ts';
export { FIELDS, type Field, valueAt, withValueAt } from './lineup/fields.ts';
export { type LineUp, lineUp as lineUpSchema } from './lineup/lineUp.ts';
export { type Loaded, load } from './lineup/load.ts';
export type { Basis, Project, SheetSize } from './lineup/project.ts';
export { fixed } from './lineup/roundTo.ts';
export { save } from './lineup/save.ts';
export { formatQuantity, type Parsed, parseQuantity, type Quantity, type Units } from './lineup/units.ts';
export { createReviewer, judgedAlike, type Reviewer, review } from './review/createReviewer.ts';
export { groundRules } from './review/groundRules.ts';
export { type SourcesPage, sourcesMarkdown, sourcesPage } from './review/sourcesPage.ts';
export { type Waveform, waveformOf } from './review/waveform.ts';
export { type FiveNumbers, startFromFive } from './sizing/startFromFive.ts';
