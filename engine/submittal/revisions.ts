import type { Cable } from '../lineup/cable.ts';
import { commentsOf } from '../lineup/comments.ts';
import { differences } from '../lineup/differences.ts';
import type { Element } from '../lineup/elements.ts';
import { changedTags, issuesOf } from '../lineup/issues.ts';
import type { Design, LineUp } from '../lineup/lineUp.ts';
import { commentDifferences, paperDifferences } from '../lineup/paperDifferences.ts';
import type { Table } from './content.ts';

/** Revision history and comment log: what was issued and asked, this issue, and rows for the next ones and for the reviewer's pencil. */

const LEAST_ROWS = 6;
const padded = (rows: readonly (readonly string[])[], columns: number): readonly (readonly string[])[] => [
  ...rows,
  ...Array.from({ length: Math.max(0, LEAST_ROWS - rows.length) }, () => Array<string>(columns).fill('')),
];

/** Parts of this line-up that a reviewer of the earlier issue has not seen as they are now. */
export const changedParts = (lineUp: LineUp, against: LineUp | undefined): ReadonlySet<string> =>
  new Set(against ? differences(against, lineUp).map((each) => each.id) : []);

/** Whether anything on the one-line stands in a cloud: what is there no longer has none. */
export function clouded(lineUp: LineUp, against: LineUp | undefined): boolean {
  const changed = changedParts(lineUp, against);
  return [...lineUp.elements, ...lineUp.cables].some(({ id }) => changed.has(id));
}

/** How the schedules show what changed: the revision beside each part that did, and what is there no longer in words. */
export interface Marks {
  readonly of: (id: string) => string | undefined;
  readonly says: (kind: (part: Element | Cable) => boolean) => string | undefined;
}

export function changeMarks(lineUp: LineUp, against: LineUp | undefined): Marks {
  const changed = changedParts(lineUp, against);
  const left = new Set([...lineUp.elements, ...lineUp.cables].map((each) => each.id));
  const revision = lineUp.project.revision ?? '?';
  return {
    of: (id) => (changed.has(id) ? revision : undefined),
    says: (kind) => {
      if (!against) return undefined;
      const gone = [...against.elements, ...against.cables].filter((each) => !left.has(each.id) && kind(each)).map((each) => each.tag);
      const now = [...lineUp.elements, ...lineUp.cables].some((each) => changed.has(each.id) && kind(each));
      const since = `since ${issueName(against)}`;
      return [
        now
          ? `A triangle: new, or entered otherwise, ${since}. What follows from it by calculation is not marked.`
          : `Nothing is new or entered otherwise ${since}.`,
        ...(gone.length > 0 ? [`Taken out ${since}: ${gone.join(', ')}.`] : []),
      ].join(' ');
    },
  };
}

const WORDS = { added: 'new', removed: 'taken out', changed: 'changed' } as const;

/** The earlier issue by its name. */
export const issueName = ({ project }: Design): string => `revision ${project.revision ?? 'not named'}`;

function changesTable(lineUp: LineUp, against: LineUp): Table {
  return {
    title: `Changes since ${issueName(against)}`,
    intro:
      'Made by comparing the two line-ups. On the one-line each part that is new or changed stands in a cloud with the letter of this revision, and in the schedules its row has the same triangle. Notes and the title block are listed last.',
    empty: 'Nothing changed.',
    columns: [
      { head: 'Part', w: 34 },
      { head: 'How', w: 26 },
      { head: 'What', grow: 1 },
      { head: 'Before', grow: 1 },
      { head: 'Now', grow: 1 },
    ],
    rows: [
      ...differences(against, lineUp),
      ...paperDifferences(against, lineUp),
      // An issue keeps none, and all there are stand in the log below; the file of another state has its own.
      ...(against.comments ? commentDifferences(against, lineUp) : []),
    ].flatMap(({ tag, kind, changes }) =>
      changes.length === 0
        ? [[tag, WORDS[kind], '–', '–', '–']]
        : changes.map((each) => [tag, WORDS[kind], each.label, each.before, each.after]),
    ),
  };
}

/** A row taller than a sheet cannot be set. */
const MOST_TAGS = 60;

/** What was said of an issue, and what the comparison with the one before says. */
function whatChanged(says: string | undefined, before: Design | undefined, now: Design): string {
  const tags = changedTags(before, now);
  const more = tags.length > MOST_TAGS ? ` and ${tags.length - MOST_TAGS} more` : '';
  const changed = tags.length > 0 ? `Changed: ${tags.slice(0, MOST_TAGS).join(', ')}${more}.` : before ? 'Nothing changed.' : '';
  return [says, changed].filter(Boolean).join('\n');
}

function historyTable(lineUp: LineUp, date: string, against: LineUp | undefined): Table {
  const { project } = lineUp;
  const issues = issuesOf(lineUp);
  const columns = [
    { head: 'Revision', w: 24 },
    { head: 'Date', w: 32 },
    { head: 'What changed', grow: 1 },
    { head: 'By', w: 34 },
    { head: 'Checked', w: 34 },
  ];
  const issued = issues.map(({ revision, date: day, says, by, checkedBy, design }, i) => [
    revision,
    day,
    whatChanged(says, issues[i - 1]?.design, design),
    by ?? '',
    checkedBy ?? '',
  ]);
  const present = [
    project.revision ?? '–',
    date,
    whatChanged(project.status ? `Issued ${project.status}` : 'Issued', against, lineUp),
    project.createdBy ?? '',
    project.checkedBy ?? '',
  ];
  const intro = [
    ...(issues.length > 0 ? [] : ['No earlier issue is kept in this line-up: only the present one is listed.']),
    ...(issues.length > 0 || !against ? [] : [`It is compared with ${issueName(against)}, from a file of its own.`]),
  ].join(' ');
  return {
    title: 'Revision history',
    ...(intro && { intro }),
    empty: '',
    form: true,
    columns,
    rows: padded([...issued, present], columns.length),
  };
}

function commentsTable(lineUp: LineUp, against: LineUp | undefined): Table {
  const columns = [
    { head: 'No.', w: 14 },
    { head: 'Sheet', w: 18 },
    { head: 'Comment', grow: 1 },
    { head: 'Reply', grow: 1 },
    { head: 'Closed, date', w: 34 },
  ];
  const rows = commentsOf(lineUp).map((each) => [
    each.number,
    each.sheet ?? '',
    [each.says, each.from && `(${each.from})`].filter(Boolean).join(' '),
    [each.reply, each.closed ? answeredBy(each, lineUp, against) : ''].filter(Boolean).join('\n'),
    each.closed ?? '',
  ]);
  return { title: 'Comment log', empty: 'No comments.', form: true, columns, rows: padded(rows, columns.length) };
}

/** What became of the parts that a comment is tied to, since the issue that it was written on. */
export function answeredBy(
  { issue, parts = [] }: ReturnType<typeof commentsOf>[number],
  lineUp: LineUp,
  against: LineUp | undefined,
): string {
  const since = issuesOf(lineUp).find((each) => each.id === issue)?.design ?? against;
  if (!since || parts.length === 0) return '';
  const told = differences(since, lineUp)
    .filter(({ id }) => parts.includes(id))
    .map(({ tag, kind, changes }) =>
      kind === 'changed'
        ? `${tag}: ${changes.map(({ label, before, after }) => `${label} ${before}, now ${after}`).join('; ')}`
        : `${tag} ${kind === 'added' ? 'is new' : 'is taken out'}`,
    );
  const tied = [...since.elements, ...since.cables].filter((each) => parts.includes(each.id)).map((each) => each.tag);
  if (told.length === 0) return `Since ${issueName(since)} nothing changed in ${tied.join(', ')}.`;
  return `Since ${issueName(since)}: ${told.join('. ')}.`;
}

export const revisionTables = (lineUp: LineUp, date: string, against: LineUp | undefined): readonly Table[] => [
  ...(against ? [changesTable(lineUp, against)] : []),
  historyTable(lineUp, date, against),
  commentsTable(lineUp, against),
];
