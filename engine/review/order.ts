import { type Finding, VERDICTS, type Verdict } from '../checks/finding.ts';

/** Findings worst first; ties by tag, then check, then id, so that the order of the drawing never shows. */

const RANK = Object.fromEntries(VERDICTS.map((verdict, i) => [verdict, i])) as Readonly<Record<Verdict, number>>;

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
const worstFirst = (a: Finding, b: Finding): number =>
  RANK[a.verdict] - RANK[b.verdict] || compare(a.subject.tag, b.subject.tag) || compare(a.check, b.check) || compare(a.id, b.id);

/** One box broken for several runs is one finding that names them all, with the worst verdict said of it. */
export function mergeById(findings: readonly Finding[]): readonly Finding[] {
  const byId = new Map<string, Finding>();
  for (const each of findings) {
    const before = byId.get(each.id);
    if (!before) byId.set(each.id, each);
    else {
      const worse = RANK[each.verdict] < RANK[before.verdict] ? each : before;
      byId.set(each.id, { ...worse, runs: [...new Set([...before.runs, ...each.runs])] });
    }
  }
  return [...byId.values()].sort(worstFirst);
}

/** The groups as one list in order. What stood in order before is not sorted again: only what is new is. */
export function inOrder(before: readonly Finding[], groups: readonly (readonly Finding[])[]): readonly Finding[] {
  const known = new Set(before);
  const kept = new Set<Finding>();
  const fresh: Finding[] = [];
  for (const group of groups) for (const each of group) known.has(each) ? kept.add(each) : fresh.push(each);
  fresh.sort(worstFirst);
  const result: Finding[] = [];
  let next = 0;
  for (const each of before) {
    if (!kept.has(each)) continue;
    for (let other = fresh[next]; other && worstFirst(other, each) < 0; other = fresh[++next]) result.push(other);
    result.push(each);
  }
  return [...result, ...fresh.slice(next)];
}
