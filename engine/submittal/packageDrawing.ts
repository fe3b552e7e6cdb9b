import type { Review } from '../checks/solved.ts';
import { type OneLine, oneLine } from '../drawing/oneLine.ts';
import { comparedWith } from '../lineup/issues.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import { numbered } from './findingTables.ts';
import { changedParts } from './revisions.ts';

/** The one-line of the package, the same in every form: with the numbers of the findings, and clouds where there is an earlier issue. */
export const packageDrawing = (lineUp: LineUp, review: Review, against: LineUp | undefined): OneLine =>
  oneLine(lineUp, review, { callouts: numbered(review), changed: changedParts(lineUp, comparedWith(lineUp, against)) });
