import type { Finding, Verdict } from '../../engine/index.ts';
import type { Grouping } from '../store/findingsChoice.ts';

/** Which findings are asked for, and under which headings they stand. Order stays as it was: worst first, and so the worst heading first. */

export interface FindingGroup {
  readonly title: string;
  readonly findings: readonly Finding[];
}

/** Every word must be found somewhere in what the finding says. */
export function askedFor(findings: readonly Finding[], verdict: Verdict | null, words: string): readonly Finding[] {
  const sought = words.toLowerCase().split(/\s+/).filter(Boolean);
  if (verdict === null && sought.length === 0) return findings;
  return findings.filter((each) => {
    if (verdict !== null && each.verdict !== verdict) return false;
    const said = [each.title, each.subject.tag, each.text, each.authority, each.source, ...each.runs].join(' ').toLowerCase();
    return sought.every((word) => said.includes(word));
  });
}

/** What concerns several runs stands under each of them. */
const HEADINGS: Readonly<Record<Exclude<Grouping, 'none'>, (finding: Finding) => readonly string[]>> = {
  run: ({ runs }) => (runs.length > 0 ? runs.map((tag) => `Run of ${tag}`) : ['In no run']),
  check: ({ title }) => [title],
  authority: ({ authority }) => [`On the word of: ${authority}`],
};

export function findingGroups(findings: readonly Finding[], grouping: Grouping): readonly FindingGroup[] {
  if (grouping === 'none') return findings.length > 0 ? [{ title: '', findings }] : [];
  const groups = new Map<string, Finding[]>();
  for (const finding of findings)
    for (const title of HEADINGS[grouping](finding)) {
      const group = groups.get(title);
      if (group) group.push(finding);
      else groups.set(title, [finding]);
    }
  return [...groups].map(([title, members]) => ({ title, findings: members }));
}
