import { applyFix } from '../checks/applyFix.ts';
import type { Finding, FixEdit } from '../checks/finding.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import { createReviewer } from '../review/createReviewer.ts';
import { alongSpan, amongAnswers, distanceTo, type Turn } from './turns.ts';
import { type UnknownInput, unknownInputs } from './unknownInputs.ts';
import { type Watching, watched } from './watched.ts';

/** Which of the values that nobody vouched for matter: those at which a verdict turns, and how near they are. */

export interface DecidingUnknown extends UnknownInput {
  /** One a finding, the nearest first. */
  readonly turns: readonly Turn[];
  /** How far it is to the nearest turn, as a share of the whole span; 0 for an answer, which has no way to go. */
  readonly distance: number;
}

/** Only those that turn a verdict, the nearest first: the first three are the ones to ask about. */
export async function decidingUnknowns(lineUp: LineUp, watching: Watching = {}): Promise<readonly DecidingUnknown[]> {
  const reviewer = createReviewer();
  const judge = watched((document: LineUp) => reviewer.review(document), watching);
  const deciding: DecidingUnknown[] = [];
  for (const input of unknownInputs(lineUp)) {
    const heard = new Map<number | string, ReadonlyMap<string, Finding>>();
    const at = async (value: number | string): Promise<ReadonlyMap<string, Finding>> => {
      const said =
        heard.get(value) ?? new Map((await judge(withValue(lineUp, input, value))).findings.map((each) => [each.id, each] as const));
      heard.set(value, said);
      return said;
    };
    const { span } = input;
    const turns = 'answers' in span ? await amongAnswers(input.now, span.answers, at) : await alongSpan(input.now, span, at);
    if (turns.length === 0) continue;
    const sorted = turns.sort((a, b) => distanceTo(input, a) - distanceTo(input, b));
    deciding.push({ ...input, turns: sorted, distance: distanceTo(input, sorted[0]) });
  }
  return deciding.sort((a, b) => a.distance - b.distance || b.turns.length - a.turns.length);
}

/** A range that is pinned to one length is none any more. */
function withValue(lineUp: LineUp, { id, field, because }: UnknownInput, value: number | string): LineUp {
  const edits: FixEdit[] = [{ id, path: field, value }];
  if (because === 'range') edits.push({ id, path: 'lengthMost_m', value: null });
  return applyFix(lineUp, { label: '', edits });
}
