import { asLineUp, designOf } from './design.ts';
import { differences } from './differences.ts';
import type { Design, LineUp } from './lineUp.ts';
import { MOST_BYTES } from './load.ts';
import { paperDifferences } from './paperDifferences.ts';
import { save } from './save.ts';

/** The line-up as it left the house, once for every revision, frozen in the document: the next revision is compared with the last of them. Each of these makes a new document. */

export type Issue = NonNullable<LineUp['issues']>[number];
export type IssueFacts = Pick<Issue, 'date' | 'says' | 'by' | 'checkedBy'>;

const MOST_ISSUES = 100;
const FIRST_REVISION = 'A';

export const issuesOf = (lineUp: LineUp): readonly Issue[] => lineUp.issues ?? [];

export const lastIssue = (lineUp: LineUp): Issue | undefined => issuesOf(lineUp).at(-1);

/** What a package is compared with: the line-up that is named, else the last issue. */
export function comparedWith(lineUp: LineUp, against: LineUp | undefined): LineUp | undefined {
  const last = lastIssue(lineUp);
  return against ?? (last && asLineUp(last.design));
}

/** Under which revision the line-up is issued next. */
export const revisionOf = ({ project }: Pick<Design, 'project'>): string => project.revision || FIRST_REVISION;

/**
 * Frozen as it is, and from now on the next revision. The date of issue goes with the issue: the next one has its own. The line-up
 * itself comes back when the document would have no room left to be worked on.
 */
export function freeze(lineUp: LineUp, facts: IssueFacts): LineUp {
  const issues = issuesOf(lineUp);
  const revision = revisionOf(lineUp);
  const design = designOf({ ...lineUp, project: { ...lineUp.project, revision } });
  const { date: _date, ...project } = design.project;
  const next: LineUp = {
    ...lineUp,
    project: { ...project, revision: nextRevision(revision) },
    issues: [...issues, { id: freeId(lineUp), revision, ...said(facts), design }],
  };
  return issues.length >= MOST_ISSUES || save(next).length > 0.8 * MOST_BYTES ? lineUp : next;
}

const said = ({ date, says, by, checkedBy }: IssueFacts): IssueFacts => ({
  date,
  ...(says && { says }),
  ...(by && { by }),
  ...(checkedBy && { checkedBy }),
});

export function deleteIssue(lineUp: LineUp, id: string): LineUp {
  const { issues = [], ...rest } = lineUp;
  const left = issues.filter((each) => each.id !== id);
  return left.length > 0 ? { ...lineUp, issues: left } : (rest as LineUp);
}

/** An issue to be handed over again: with those before it, so that it is compared as it was then, and with the comments. */
export function asIssued(lineUp: LineUp, { id, design }: Issue): LineUp {
  const issues = issuesOf(lineUp);
  const before = issues.slice(
    0,
    issues.findIndex((each) => each.id === id),
  );
  return { ...asLineUp(design), ...(before.length > 0 && { issues: before }), ...(lineUp.comments && { comments: lineUp.comments }) };
}

/** Tags of what one issue changed in the one before, then what it changed beside the parts; of the first there is nothing to tell. */
export const changedTags = (before: Design | undefined, now: Design): readonly string[] =>
  before ? [...differences(before, now), ...paperDifferences(before, now)].map((each) => each.tag) : [];

/** Not that of an issue that is gone either: comments written on it would be on another. */
function freeId(lineUp: LineUp): string {
  const ids = new Set([...issuesOf(lineUp).map((each) => each.id), ...(lineUp.comments ?? []).map((each) => each.issue)]);
  for (let n = 1; ; n++) if (!ids.has(`i${n}`)) return `i${n}`;
}

/** The next of the same pattern: B after A, AA after Z, 1 after 0, P2 after P1. What follows no pattern is counted on. */
export function nextRevision(revision: string): string {
  const number = /^(.*?)(\d+)$/.exec(revision);
  if (number) return `${number[1]}${`${BigInt(number[2] ?? 0) + 1n}`.padStart(number[2]?.length ?? 0, '0')}`;
  const letters = /^(.*[^A-Za-z])?([A-Z]{1,2}|[a-z]{1,2})$/.exec(revision);
  if (letters) return `${letters[1] ?? ''}${nextLetters(letters[2] ?? '')}`;
  return `${revision} 2`;
}

function nextLetters(letters: string): string {
  const last = letters.slice(-1);
  const ahead = letters.slice(0, -1);
  if (last !== 'Z' && last !== 'z') return `${ahead}${String.fromCharCode(last.charCodeAt(0) + 1)}`;
  const first = last === 'Z' ? 'A' : 'a';
  return `${ahead === '' ? first : nextLetters(ahead)}${first}`;
}
