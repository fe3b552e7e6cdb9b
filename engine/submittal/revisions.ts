import type { LineUp } from '../lineup/lineUp.ts';
import type { Table } from './content.ts';

/** Revision history and comment log: this issue, and rows for the next ones and for the reviewer's pencil. */

const BLANK_ROWS = 6;
const blank = (columns: number): readonly (readonly string[])[] =>
  Array.from({ length: BLANK_ROWS }, () => Array<string>(columns).fill(''));

export const revisionTables = ({ project }: LineUp, date: string): readonly Table[] => [
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
