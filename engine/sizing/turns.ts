import type { Finding, Verdict } from '../checks/finding.ts';
import type { UnknownInput } from './unknownInputs.ts';

/** Where verdicts turn while one value goes along its span, or takes one answer after the other. */

export interface Turn {
  readonly finding: Pick<Finding, 'id' | 'check' | 'title' | 'subject'>;
  /** The value, or the answer, nearest to what is taken now at which the verdict is another. */
  readonly at: number | string;
  readonly from: Verdict;
  readonly to: Verdict;
}

/** Places on a span at which is looked; turns between two of them are bisected. */
const LOOKS = 8;
/** A turn is found to this share of the span. */
const FINENESS = 0.002;

export const distanceTo = ({ now, span }: UnknownInput, turn: Turn | undefined): number =>
  'answers' in span || typeof turn?.at !== 'number' || typeof now !== 'number' ? 0 : Math.abs(turn.at - now) / (span.most - span.least);

export type Ask = (value: number | string) => Promise<ReadonlyMap<string, Finding>>;

export async function amongAnswers(now: number | string, answers: readonly string[], at: Ask): Promise<Turn[]> {
  const turns = new Map<string, Turn>();
  const before = await at(now);
  for (const answer of answers) {
    if (answer === now) continue;
    for (const turn of turned(before, await at(answer), answer)) if (!turns.has(turn.finding.id)) turns.set(turn.finding.id, turn);
  }
  return [...turns.values()];
}

export async function alongSpan(now: number | string, { least, most }: { least: number; most: number }, at: Ask): Promise<Turn[]> {
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
