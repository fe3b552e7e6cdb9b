import type { Difference } from './differences.ts';
import { valueAt } from './fields.ts';
import type { Design, LineUp } from './lineUp.ts';
import { notesOf } from './notes.ts';
import { PROJECT_GROUPS } from './projectFields.ts';
import { shownValue } from './shownValue.ts';

/** What changed from one issue to the next beside the parts: title block, notes, comments. Nothing of it is clouded, and no part is named by it. */

/** They name the issue itself: between two of them they always differ. */
const OF_AN_ISSUE = ['revision', 'date'];
const OF_THE_PAPER = ['status', 'createdBy', 'checkedBy', 'approvedBy', 'sheetSize', 'showGrounds'];

/** Title block and notes. */
export const paperDifferences = (before: Design, after: Design): readonly Difference[] => [
  ...titleBlockDifferences(before, after, OF_THE_PAPER),
  ...rowDifferences(noteRows(before), noteRows(after)),
];

/** Of two states of one document: comments belong to it, not to an issue, and between its states revision and date say something. */
export const besideDifferences = (before: LineUp, after: LineUp): readonly Difference[] => [
  ...titleBlockDifferences(before, after, [...OF_AN_ISSUE, ...OF_THE_PAPER]),
  ...rowDifferences(noteRows(before), noteRows(after)),
  ...commentDifferences(before, after),
];

export const commentDifferences = (before: LineUp, after: LineUp): readonly Difference[] =>
  rowDifferences(commentRows(before), commentRows(after));

function titleBlockDifferences(before: Design, after: Design, paths: readonly string[]): readonly Difference[] {
  const fields = PROJECT_GROUPS.flatMap((group) => group.fields).filter(({ path }) => paths.includes(path));
  const changes = fields.flatMap((field) => {
    const [from, to] = [before, after].map(({ project }) => valueAt(project, field.path));
    const shown = (value: unknown): string => (value === undefined ? 'not set' : shownValue(field, value, after.project.units));
    return from === to ? [] : [{ label: field.label, before: shown(from), after: shown(to) }];
  });
  return changes.length > 0 ? [{ id: '', tag: 'title block', kind: 'changed', changes }] : [];
}

const ABSENT = '–';
const NUMBER = 'Number';

/** A numbered text, with what people are told of it by its name; what is not said is left out. */
interface Row {
  readonly id: string;
  readonly tag: string;
  readonly says: ReadonlyMap<string, string>;
}
const row = (id: string, tag: string, says: Readonly<Record<string, string | undefined>>): Row => ({
  id,
  tag,
  says: new Map(Object.entries(says).flatMap(([label, value]) => (value ? [[label, value] as const] : []))),
});

const noteRows = (design: Design): readonly Row[] =>
  notesOf(design).map(({ id, says, parts }, i) =>
    row(id, `note ${i + 1}`, { [NUMBER]: `${i + 1}`, Says: says, 'Points to': tagsOf(design, parts) }),
  );

const commentRows = (lineUp: LineUp): readonly Row[] =>
  (lineUp.comments ?? []).map(({ id, number, says, sheet, from, reply, closed, parts }) =>
    row(id, `comment ${number}`, {
      [NUMBER]: number,
      Says: says,
      Sheet: sheet,
      From: from,
      Reply: reply,
      'Tied to': tagsOf(lineUp, parts),
      Closed: closed,
    }),
  );

const tagsOf = ({ elements, cables }: Design, ids: readonly string[] = []): string =>
  [...elements, ...cables].flatMap(({ id, tag }) => (ids.includes(id) ? [tag] : [])).join(', ');

function rowDifferences(before: readonly Row[], after: readonly Row[]): readonly Difference[] {
  const [old, now] = [before, after].map((rows) => new Map(rows.map((each) => [each.id, each] as const)));
  const between = (was: Row | undefined, is: Row | undefined): Difference['changes'] =>
    [...new Set([...(was?.says.keys() ?? []), ...(is?.says.keys() ?? [])])].flatMap((label) => {
      const [from, to] = [was, is].map((each) => each?.says.get(label) ?? ABSENT);
      // What is new or gone is named by its number.
      return from === to || (label === NUMBER && !(was && is)) ? [] : [{ label, before: from ?? '', after: to ?? '' }];
    });
  const there = after.flatMap((is): Difference | [] => {
    const was = old?.get(is.id);
    const changes = between(was, is);
    return changes.length === 0 ? [] : { id: is.id, tag: is.tag, kind: was ? 'changed' : 'added', changes };
  });
  const gone = before.flatMap((was): Difference | [] =>
    now?.has(was.id) ? [] : { id: was.id, tag: was.tag, kind: 'removed', changes: between(was, undefined) },
  );
  return [...there, ...gone];
}
