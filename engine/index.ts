/** The door of the engine. */

export { applyFix } from './checks/applyFix.ts';
export { figureText, movedText, valueText } from './checks/figureText.ts';
export { type Finding, type Fix, type Subject, VERDICTS, type Verdict } from './checks/finding.ts';
export { CHECKS } from './checks/index.ts';
export { racewaySizes } from './checks/racewaySizes.ts';
export type { Review, SolvedCable, SolvedElement, SolvedRun } from './checks/solved.ts';
export { cableItems } from './drawing/cableItems.ts';
export type { Box, Item } from './drawing/displayList.ts';
export { cableLines, elementLines } from './drawing/labels.ts';
export { makeRoom, tidyPositions } from './drawing/layout.ts';
export { badge } from './drawing/marks.ts';
export { type OneLine, type OneLinePart, oneLine } from './drawing/oneLine.ts';
export { busLength, routeCable } from './drawing/route.ts';
export { runSketch, SKETCH } from './drawing/runSketch.ts';
export { type RunStrip, runStrip, STRIP_HEIGHT_mm, type StripPlace } from './drawing/runStrip.ts';
export { svgOf } from './drawing/svg.ts';
export { kindSymbol, symbolOf } from './drawing/symbols.ts';
export { BECAUSE, UNKNOWN_PICTURE, unknownPicture, unknownValue, unknownWords } from './drawing/unknownPicture.ts';
export { TURNS, waveCharts } from './drawing/wavePicture.ts';
export { withAsBuiltOf, withoutAsBuilt } from './lineup/asBuilt.ts';
export type { Cable, Construction, Landing } from './lineup/cable.ts';
export { asItWas } from './lineup/cellGuard.ts';
export {
  addComment,
  type Comment,
  type CommentChange,
  changeComment,
  commentsOf,
  deleteComment,
  MOST_COMMENTS,
} from './lineup/comments.ts';
export { newCable, newElement, newLineUp, nextId } from './lineup/create.ts';
export { asLineUp, designOf } from './lineup/design.ts';
export { freeTags, halfTags, namedByProject, renumber } from './lineup/designation.ts';
export { type Difference, differences } from './lineup/differences.ts';
export { ELEMENT_KINDS, type Element, type ElementKind, type ElementOf, PORTS, type Port } from './lineup/elements.ts';
export { choiceText, FIELDS, type Field, valueAt, withValueAt } from './lineup/fields.ts';
export { inWords } from './lineup/inWords.ts';
export { describedAs, isCable } from './lineup/isCable.ts';
export {
  asIssued,
  deleteIssue,
  freeze,
  type Issue,
  type IssueFacts,
  issuesOf,
  lastIssue,
  nextRevision,
  revisionOf,
} from './lineup/issues.ts';
export { illegal, type PortAt } from './lineup/joins.ts';
export { limitText } from './lineup/limitText.ts';
export { type Design, isTooNew, type LineUp, lineUp as lineUpSchema } from './lineup/lineUp.ts';
export { type Loaded, load } from './lineup/load.ts';
export { MAKER } from './lineup/maker.ts';
export {
  addNote,
  changeNote,
  deleteNote,
  MOST_NOTES,
  moveNote,
  type Note,
  notesOf,
} from './lineup/notes.ts';
export { besideDifferences, paperDifferences } from './lineup/paperDifferences.ts';
export type { Basis, Project, SheetSize } from './lineup/project.ts';
export { PART_NAMES, PROJECT_GROUPS } from './lineup/projectFields.ts';
export { besideIn, laidOut, raceways } from './lineup/raceways.ts';
export { isMeant, type Range, rangeOf } from './lineup/range.ts';
export { remove } from './lineup/remove.ts';
export { fixed } from './lineup/roundTo.ts';
export { save } from './lineup/save.ts';
export { KIND_HEAD, TOGETHER, TOLD } from './lineup/scheduleHeads.ts';
export { sha256 } from './lineup/sha256.ts';
export { type TakenOut, takeOut } from './lineup/takeOut.ts';
export {
  asTyped,
  formatQuantity,
  inUnitOf,
  type Parsed,
  parseQuantity,
  type Quantity,
  type Units,
  unitNames,
  unitOf,
  withUnit,
} from './lineup/units.ts';
export {
  deleteVariant,
  freeName,
  MOST_VARIANTS,
  renameVariant,
  setAside,
  swapVariant,
  type Variant,
  variantsOf,
} from './lineup/variants.ts';
export { type Say, sayIn, sayOf, TERMS, vocabularyOf } from './lineup/vocabulary.ts';
export { createReviewer, judgedAlike, type Reviewer } from './review/createReviewer.ts';
export { groundRules } from './review/groundRules.ts';
export { type SourcesPage, sourcesMarkdown, sourcesPage } from './review/sourcesPage.ts';
export { createSpeaker, review } from './review/spoken.ts';
export { runPeaks, type Waveform, waveformOf } from './review/waveform.ts';
export { type Choice, resizing } from './sizing/choices.ts';
export {
  type Compared,
  compareDesigns,
  MOVES,
  type PartRows,
  type ValueRow,
  type VerdictMove,
  type VerdictRow,
} from './sizing/compareDesigns.ts';
export { type DecidingUnknown, decidingUnknowns } from './sizing/decidingUnknowns.ts';
export {
  type CableSizing,
  type InTheWay,
  type LeastCopper,
  leastCopper,
  type Obstacle,
  type SizingOptions,
  type Unmet,
} from './sizing/leastCopper.ts';
export { type LengthLimit, type LengthLimits, lengthLimits } from './sizing/lengthLimits.ts';
export { type FixPreview, type Moved, previewFix } from './sizing/previewFix.ts';
export { type Proposal, proposeFixes } from './sizing/proposeFixes.ts';
export { type SizeCell, type SizeTable, sizeTable } from './sizing/sizeTable.ts';
export { type FiveNumbers, startFromFive } from './sizing/startFromFive.ts';
export type { Flip } from './sizing/stretches.ts';
export type { Turn } from './sizing/turns.ts';
export type { UnknownInput } from './sizing/unknownInputs.ts';
export { usualOf } from './sizing/usual.ts';
export type { Watching } from './sizing/watched.ts';
