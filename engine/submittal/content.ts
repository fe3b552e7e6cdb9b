import type { Verdict } from '../checks/finding.ts';
import type { Item } from '../drawing/displayList.ts';

/** What stands on the sheets, before anyone knows whether they are of paper or on a screen. */

export interface Column {
  readonly head: string;
  readonly w?: number;
  /** Share of the room that is left. */
  readonly grow?: number;
  readonly right?: boolean;
  /** What it tells of changed: the revision that says so. */
  readonly changed?: string | undefined;
}
export interface Table {
  readonly title: string;
  readonly intro?: string;
  readonly columns: readonly Column[];
  readonly rows: readonly (readonly string[])[];
  readonly empty: string;
  /** Columns of verdict words, for their badges. */
  readonly verdictColumns?: readonly number[];
  /** Where other places lead to when they name this table. */
  readonly anchor?: string;
  /** Where the first cell of each row leads. */
  readonly links?: readonly (string | null)[];
  /** Rows of what changed since the earlier issue: the revision that says so. */
  readonly changed?: readonly (string | undefined)[];
  /** Short rows: on a wide sheet they stand in two or three columns side by side. */
  readonly folds?: boolean;
  /** To be filled in by hand: rows have room for it. */
  readonly form?: boolean;
  /** Is not broken over two sheets where one can hold it. */
  readonly together?: boolean;
  /** Stands at its right on paper, below it on a screen. */
  readonly beside?: Picture;
  /** Begins a sheet of its own. */
  readonly ownSheet?: boolean;
}
export interface Picture {
  readonly items: readonly Item[];
  readonly w: number;
  readonly h: number;
  /** The same in words, for those who do not see it. */
  readonly says: string;
  /** Belongs to the picture before it, and stands at its right where the sheet is wide enough. */
  readonly paired?: boolean;
  /** For machines to read: dark on light, whatever the theme of the screen. */
  readonly onPaper?: boolean;
}
export type Block =
  | ({ readonly t: 'table' } & Table)
  /** Without a title they go on from what stands above. */
  | { readonly t: 'pictures'; readonly title: string; readonly pictures: readonly Picture[] };

export interface Section {
  readonly slug: string;
  readonly title: string;
  readonly blocks: readonly Block[];
  /** Is taken to the place of work: on paper that every office has, whatever the size of the set. */
  readonly onSite?: boolean;
}

/** Which columns a screen shows: what is left blank for a pencil is of no use there. */
export const writtenColumns = ({ columns, rows }: Table): readonly number[] =>
  columns.map((_, i) => i).filter((i) => rows.some((row) => (row[i] ?? '') !== ''));

export const table = (content: Table): Block => ({ t: 'table', ...content });

export const VERDICT_WORD: Readonly<Record<Verdict, string>> = {
  fail: 'FAIL',
  open: 'OPEN',
  caution: 'CAUTION',
  note: 'NOTE',
  pass: 'PASS',
  'not-applicable': 'N/A',
  'out-of-scope': 'OUT OF SCOPE',
};
/** Of a cell that is the word alone, or the word and, two spaces on, its number. */
export const verdictOf = (cell: string): Verdict | undefined =>
  (Object.keys(VERDICT_WORD) as Verdict[]).find((each) => VERDICT_WORD[each] === cell.split('  ')[0]);

/** Where the calculations of a part stand. */
export const calculationOf = (id: string): string => `calculation-${id}`;

/** Enough figures to compare with the limit, no more: four. */
export function figure(value: number | null): string {
  if (value === null) return '–';
  if (value === 0) return '0';
  const text = Math.abs(value) >= 1000 ? value.toFixed(0) : `${Number(value.toPrecision(4))}`;
  return text.replace('-', '−');
}
