import { applyFix } from '../checks/applyFix.ts';
import type { Finding, Fix, Verdict } from '../checks/finding.ts';
import type { Review } from '../checks/solved.ts';
import type { LineUp } from '../lineup/lineUp.ts';

/** What a fix would move: the line-up with it, judged as a whole, beside the line-up as it is. Every side effect comes from the checks. */

/** One finding as it is and as it would be; null where it is not made. */
export interface Moved {
  readonly id: string;
  readonly before: Finding | null;
  readonly after: Finding | null;
}

export interface FixPreview {
  readonly fix: Fix;
  readonly better: readonly Moved[];
  readonly worse: readonly Moved[];
  /** What failed or was cautioned and could not be judged any more, and what new parts ask: neither better nor worse until it is known. */
  readonly asked: readonly Moved[];
  /** Verdicts that stay, with a margin that grows or shrinks by at least `LEAST_POINTS`. */
  readonly moreRoom: readonly Moved[];
  readonly lessRoom: readonly Moved[];
  readonly unchanged: readonly Finding[];
}

/** Points of margin below which nothing is called an effect: values that are solved are not known so closely. */
export const LEAST_POINTS = 1;

const RANK: Readonly<Record<Verdict, number>> = {
  fail: 0,
  open: 1,
  caution: 2,
  note: 3,
  pass: 4,
  'not-applicable': 4,
  'out-of-scope': 4,
};
const NONE = 4;
const rankOf = (finding: Finding | null): number => (finding ? RANK[finding.verdict] : NONE);
const isOpen = (finding: Finding | null): boolean => finding?.verdict === 'open';

type Move = 'better' | 'worse' | 'asked' | 'same';

export function moveOf(before: Finding | null, after: Finding | null): Move {
  if (isOpen(after) && !isOpen(before)) return before === null || rankOf(before) < RANK.note ? 'asked' : 'worse';
  const [was, is] = [rankOf(before), rankOf(after)];
  return is > was ? 'better' : is < was ? 'worse' : 'same';
}

/** @param judge a reviewer that has judged the line-up before answers quickly */
export function previewFix(lineUp: LineUp, fix: Fix, before: Review, judge: (lineUp: LineUp) => Review): FixPreview {
  const after = judge(applyFix(lineUp, fix));
  const was = new Map(before.findings.map((each) => [each.id, each] as const));
  const is = new Map(after.findings.map((each) => [each.id, each] as const));
  const moved = [...new Set([...was.keys(), ...is.keys()])].map(
    (id): Moved => ({ id, before: was.get(id) ?? null, after: is.get(id) ?? null }),
  );
  const those = (move: Move): readonly Moved[] => moved.filter((each) => moveOf(each.before, each.after) === move);
  const same = those('same');
  return {
    fix,
    better: those('better'),
    worse: those('worse'),
    asked: those('asked'),
    moreRoom: same.filter((each) => roomGained(each) >= LEAST_POINTS),
    lessRoom: same.filter((each) => roomGained(each) <= -LEAST_POINTS),
    unchanged: same.flatMap(({ after: finding }) => finding ?? []),
  };
}

/** Points of margin; none where it is another quantity that is told. */
const roomGained = ({ before, after }: Moved): number => pointsGained(before, after) ?? 0;

/** Null where the two cannot be compared. */
export const pointsGained = (before: Finding | null, after: Finding | null): number | null =>
  before?.margin_pct == null || after?.margin_pct == null || before.quantity !== after.quantity
    ? null
    : after.margin_pct - before.margin_pct;
