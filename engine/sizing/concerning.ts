import type { Finding } from '../checks/finding.ts';
import type { Review } from '../checks/solved.ts';

/** What a review says that concerns one cable: of itself, and of everything on the runs through it. */
export function concerning({ findings, runs }: Review, cableId: string): readonly Finding[] {
  const tags = new Set(runs.filter(({ path }) => path.includes(cableId)).map(({ motorTag }) => motorTag));
  return findings.filter(({ subject, runs: of }) => subject.id === cableId || of.some((tag) => tags.has(tag)));
}

/** The worst that each check says, of the cable itself where it is asked about cables. Findings come worst first. */
export function worstByCheck(review: Review, cableId: string): ReadonlyMap<string, Finding> {
  const worst = new Map<string, Finding>();
  for (const each of concerning(review, cableId)) {
    const held = worst.get(each.check);
    const own = each.subject.id === cableId;
    if (!held || (own && held.subject.id !== cableId)) worst.set(each.check, each);
  }
  return worst;
}
