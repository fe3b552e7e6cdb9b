import { type Finding, type Fix, VERDICTS, type Verdict } from '../checks/finding.ts';

/** Findings worst first; ties by tag, then check, then id, so that the order of the drawing never shows. */

const RANK = Object.fromEntries(VERDICTS.map((verdict, i) => [verdict, i])) as Readonly<Record<Verdict, number>>;

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
const withinTag = (a: Finding, b: Finding): number => compare(a.check, b.check) || compare(a.id, b.id);
const worstFirst = (a: Finding, b: Finding): number =>
  RANK[a.verdict] - RANK[b.verdict] || compare(a.subject.tag, b.subject.tag) || withinTag(a, b);

/** One box broken for several runs is one finding that names them all, with the worst verdict said of it. */
function mergeById(findings: readonly Finding[]): readonly Finding[] {
  const byId = new Map<string, Finding>();
  for (const each of findings) {
    const before = byId.get(each.id);
    if (!before) byId.set(each.id, each);
    else {
      const worse = RANK[each.verdict] < RANK[before.verdict] ? each : before;
      byId.set(each.id, { ...worse, runs: [...new Set([...before.runs, ...each.runs])], fixes: mergeFixes(before.fixes, each.fixes) });
    }
  }
  return [...byId.values()];
}

/** By rank and tag into one shelf each: a thousand tags are compared as text once each, and only what shares a shelf by check and id. */
function sorted(findings: readonly Finding[]): readonly Finding[] {
  const tags = [...new Set(findings.map(({ subject }) => subject.tag))].sort(compare);
  const places = new Map(tags.map((tag, place) => [tag, place]));
  const shelves: (Finding[] | undefined)[] = new Array(VERDICTS.length * tags.length).fill(undefined);
  for (const finding of findings) {
    const place = RANK[finding.verdict] * tags.length + (places.get(finding.subject.tag) ?? 0);
    const shelf = shelves[place];
    if (shelf) shelf.push(finding);
    else shelves[place] = [finding];
  }
  return shelves.flatMap((shelf) => shelf?.sort(withinTag) ?? []);
}

/** Each run knows the cables of its own way only: what mends the box mends it for all of them. */
const mergeFixes = (a: readonly Fix[], b: readonly Fix[]): readonly Fix[] => [
  ...a.map((fix) => ({
    ...fix,
    edits: distinct([...fix.edits, ...b.filter(({ label }) => label === fix.label).flatMap(({ edits }) => edits)]),
  })),
  ...b.filter((fix) => !a.some(({ label }) => label === fix.label)),
];
const distinct = (edits: Fix['edits']): Fix['edits'] => [...new Map(edits.map((each) => [`${each.id}/${each.path}`, each])).values()];

/** Findings in any order, with what is counted of them. Made once for each zone that changed. */
export interface Group {
  readonly findings: readonly Finding[];
  readonly counts: readonly (readonly [Verdict, number])[];
  /** Worst verdict by the tag of a motor. */
  readonly byRun: ReadonlyMap<string, Verdict>;
}

export function groupOf(findings: readonly Finding[]): Group {
  const merged = mergeById(findings);
  const counts = new Map<Verdict, number>();
  const byRun = new Map<string, Verdict>();
  for (const { verdict, runs } of merged) {
    counts.set(verdict, (counts.get(verdict) ?? 0) + 1);
    for (const tag of runs) keepWorse(byRun, tag, verdict);
  }
  return { findings: merged, counts: [...counts], byRun };
}

/** All groups as one list in order. What stood in order before is not sorted again: only groups that are new are put in. */
export function inOrder(
  before: { readonly list: readonly Finding[]; readonly groups: readonly Group[] },
  groups: readonly Group[],
): readonly Finding[] {
  const now = new Set(groups);
  const was = new Set(before.groups);
  const gone = new Set(before.groups.flatMap((group) => (now.has(group) ? [] : group.findings)));
  const fresh = sorted(groups.flatMap((group) => (was.has(group) ? [] : group.findings)));
  const kept = gone.size === 0 ? before.list : before.list.filter((each) => !gone.has(each));
  const result: Finding[] = [];
  let next = 0;
  for (const each of kept) {
    for (let other = fresh[next]; other && worstFirst(other, each) < 0; other = fresh[++next]) result.push(other);
    result.push(each);
  }
  return [...result, ...fresh.slice(next)];
}

/** Worst verdict of each run over all groups. */
export function worstByRun(groups: readonly Group[]): ReadonlyMap<string, Verdict> {
  const worst = new Map<string, Verdict>();
  for (const { byRun } of groups) for (const [tag, verdict] of byRun) keepWorse(worst, tag, verdict);
  return worst;
}

function keepWorse(worst: Map<string, Verdict>, tag: string, verdict: Verdict): void {
  const held = worst.get(tag);
  if (held === undefined || RANK[verdict] < RANK[held]) worst.set(tag, verdict);
}
