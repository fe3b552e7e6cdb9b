import { applyFix } from '../checks/applyFix.ts';
import type { Finding, FixEdit, Verdict } from '../checks/finding.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import { createReviewer } from '../review/createReviewer.ts';
import { type UnknownInput, unknownInputs } from './unknownInputs.ts';
import { type Watching, watched } from './watched.ts';

/** Which of the values that nobody vouched for matter: those at which a verdict turns, and how near they are. */

export interface Turn {
  readonly finding: Pick<Finding, 'id' | 'check' | 'title' | 'subject'>;
  /** The value, or the answer, nearest to what is taken now at which the verdict is another. */
  readonly at: number | string;
  readonly from: Verdict;
  readonly to: Verdict;
}

export interface DecidingUnknown extends UnknownInput {
  /** One a finding, the nearest first. */
  readonly turns: readonly Turn[];
  /** How far it is to the nearest turn, as a share of the whole span; 0 for an answer, which has no way to go. */
  readonly distance: number;
}

/** Places on a span at which is looked; turns between two of them are bisected. */
const LOOKS = 8;
/** A turn is found to this share of the span. */
const FINENESS = 0.002;

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
    const turns = 'answers' in span ? await amongAnswers(input.now, span.answers, at) : await alongSpan(input, span, at);
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

const distanceTo = ({ now, span }: UnknownInput, turn: Turn | undefined): number =>
  'answers' in span || typeof turn?.at !== 'number' || typeof now !== 'number' ? 0 : Math.abs(turn.at - now) / (span.most - span.least);

type Ask = (value: number | string) => Promise<ReadonlyMap<string, Finding>>;

async function amongAnswers(now: number | string, answers: readonly string[], at: Ask): Promise<Turn[]> {
  const turns = new Map<string, Turn>();
  const before = await at(now);
  for (const answer of answers) {
    if (answer === now) continue;
    for (const turn of turned(before, await at(answer), answer)) if (!turns.has(turn.finding.id)) turns.set(turn.finding.id, turn);
  }
  return [...turns.values()];
}

async function alongSpan({ now }: UnknownInput, { least, most }: { least: number; most: number }, at: Ask): Promise<Turn[]> {
  if (typeof now !== 'number' || !(most > least)) return [];
  const before = await at(now);
  const found = new Map<string, Turn>();
  for (const end of [least, most]) {
    let near = now;
    for (let look = 1; look <= LOOKS; look++) {
      const far = now + ((end - now) * look) / LOOKS;
      if (far === near) break;
      for (const turn of turned(before, await at(far), far)) {
        const held = found.get(turn.finding.id);
        if (held && Math.abs(Number(held.at) - now) <= Math.abs(near - now)) continue;
        const exact = await bisected(turn, near, far, (most - least) * FINENESS, at);
        if (!held || Math.abs(Number(exact.at) - now) < Math.abs(Number(held.at) - now)) found.set(turn.finding.id, exact);
      }
      near = far;
    }
  }
  return [...found.values()];
}

async function bisected(turn: Turn, near: number, far: number, fineness: number, at: Ask): Promise<Turn> {
  let [same, other] = [near, far];
  let { to } = turn;
  while (Math.abs(other - same) > fineness) {
    const middle = (same + other) / 2;
    const verdict = (await at(middle)).get(turn.finding.id)?.verdict;
    if (verdict === turn.from) same = middle;
    else {
      other = middle;
      to = verdict ?? to;
    }
  }
  return { ...turn, at: other, to };
}

/** Findings that are decided otherwise. One that is not made any more, or can be judged no more, is not decided. */
const turned = (before: ReadonlyMap<string, Finding>, after: ReadonlyMap<string, Finding>, at: number | string): readonly Turn[] =>
  [...before.values()].flatMap(({ id, check, title, subject, verdict: from }) => {
    const to = after.get(id)?.verdict;
    return to === undefined || to === from || !DECIDED.includes(from) || !DECIDED.includes(to)
      ? []
      : [{ finding: { id, check, title, subject }, at, from, to }];
  });
const DECIDED: readonly Verdict[] = ['fail', 'caution', 'note', 'pass'];
