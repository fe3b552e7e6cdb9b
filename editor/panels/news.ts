import type { Review } from '../../engine/index.ts';

/** What changed between two reviews, in a sentence. */

const idsOf = (review: Review, verdict: 'fail' | 'open'): ReadonlySet<string> =>
  new Set(review.findings.flatMap((each) => (each.verdict === verdict ? [each.id] : [])));
const missing = (from: ReadonlySet<string>, of: ReadonlySet<string>): number => [...of].filter((id) => !from.has(id)).length;

/** '2 new fail, 1 solved. 3 fail in all.'; nothing where no verdict changed. */
export function newsOf(before: Review, now: Review): string {
  const [were, are] = [idsOf(before, 'fail'), idsOf(now, 'fail')];
  const [wereOpen, areOpen] = [idsOf(before, 'open'), idsOf(now, 'open')];
  const parts = [
    [missing(were, are), 'new fail'],
    [missing(are, were), 'fail no more'],
    [missing(wereOpen, areOpen), 'new open'],
    [missing(areOpen, wereOpen), 'open no more'],
  ].flatMap(([count, words]) => (count === 0 ? [] : [`${count} ${words}`]));
  return parts.length === 0 ? '' : `${parts.join(', ')}. ${are.size} fail in all.`;
}
