import { differences } from '../lineup/differences.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import type { Table } from './content.ts';

/** Revision history and comment log: this issue, and rows for the next ones and for the reviewer's pencil. */

const BLANK_ROWS = 6;
const blank = (columns: number): readonly (readonly string[])[] =>
  Array.from({ length: BLANK_ROWS }, () => Array<string>(columns).fill(''));

/** Parts of this line-up that a reviewer of the earlier issue has not seen as they are now. */
export const changedParts = (lineUp: LineUp, against: LineUp | undefined): ReadonlySet<string> =>
  new Set(against ? differences(against, lineUp).map((each) => each.id) : []);

const WORDS = { added: 'new', removed: 'taken out', changed: 'changed' } as const;

function changesTable(lineUp: LineUp, against: LineUp): Table {
  return {
    title: `Changes since revision ${against.project.revision ?? 'not named'}`,
    intro:
      'Made by comparing the two line-ups. On the one-line each part that is new or changed stands in a cloud with the letter of this revision.',
    empty: 'Nothing changed.',
    columns: [
      { head: 'Part', w: 34 },
      { head: 'How', w: 26 },
      { head: 'What', grow: 1 },
      { head: 'Before', grow: 1 },
      { head: 'Now', grow: 1 },
    ],
    rows: differences(against, lineUp).flatMap(({ tag, kind, changes }) =>
      changes.length === 0
        ? [[tag, WORDS[kind], '–', '–', '–']]
        : changes.map((each) => [tag, WORDS[kind], each.label, each.before, each.after]),
    ),
  };
}

export const revisionTables = (lineUp: LineUp, date: string, against: LineUp | undefined): readonly Table[] => {
  const { project } = lineUp;
  return [
    ...(against ? [changesTable(lineUp, against)] : []),
    {
      title: 'Revision history',
      empty: '',
      form: true,
      columns: [
        { head: 'Revision', w: 24 },
        { head: 'Date', w: 32 },
        { head: 'What changed', grow: 1 },
        { head: 'By', w: 34 },
        { head: 'Checked', w: 34 },
      ],
      rows: [
        [
          project.revision ?? '–',
          date,
          project.status ? `Issued ${project.status}` : 'Issued',
          project.createdBy ?? '',
          project.checkedBy ?? '',
        ],
        ...blank(5),
      ],
    },
    {
      title: 'Comment log',
      empty: '',
      form: true,
      columns: [
        { head: 'No.', w: 14 },
        { head: 'Sheet', w: 18 },
        { head: 'Comment', grow: 1 },
        { head: 'Reply', grow: 1 },
        { head: 'Closed, date', w: 34 },
      ],
      rows: blank(5),
    },
  ];
};
