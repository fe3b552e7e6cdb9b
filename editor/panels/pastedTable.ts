import { FIELDS, type Field, type LineUp, sayIn } from '../../engine/index.ts';
import { objection } from '../store/commit.ts';
import { setValue } from '../store/edits.ts';
import { type Entry, readEntry } from './readEntry.ts';
import { columnsOf, type RowPart, rowsOf, type TableKind } from './tableColumns.ts';

/** Rows from a spreadsheet, read cell by cell. Nothing is changed here: what is wrong is said, what is right can be taken. */

export interface PastedCell {
  readonly field: Field | null;
  readonly text: string;
  readonly entry: Entry;
}
export interface PastedRow {
  readonly tag: string;
  /** Why no part of the line-up is meant by the tag, or null. */
  readonly bad: string | null;
  readonly part: RowPart | null;
  readonly cells: readonly PastedCell[];
}
export interface Pasted {
  readonly heads: readonly string[];
  readonly rows: readonly PastedRow[];
  readonly right: number;
  readonly wrong: number;
}

/** A spreadsheet puts a cell in quotation marks when there is one in it. */
const unquoted = (cell: string): string => (/^".*"$/.test(cell) ? cell.slice(1, -1).replaceAll('""', '"') : cell).trim();
const isTag = (text: string): boolean => text.toLowerCase() === 'tag';

/** A column by its name, or by a beginning that only one name has. */
function columnNamed(kind: TableKind, head: string): Field | null {
  // In one vocabulary, whichever it was written in.
  const told = (text: string): string => sayIn('iec')(text).toLowerCase();
  const sought = told(head);
  const named = FIELDS[kind].filter(({ label }) => told(label) === sought);
  const begun = sought === '' ? [] : FIELDS[kind].filter(({ label }) => told(label).startsWith(sought));
  return named[0] ?? (begun.length === 1 ? (begun[0] ?? null) : null);
}

export function readTable(lineUp: LineUp, kind: TableKind, text: string): Pasted {
  const lines = text
    .split(/\r?\n/)
    .map((line) => line.split('\t').map((cell) => unquoted(cell.trim())))
    .filter((cells) => cells.some((cell) => cell !== ''));
  const [first = []] = lines;
  const named = first.some(isTag);
  const tagAt = named ? first.findIndex(isTag) : 0;
  // Without names the columns are those of the table, in its order.
  const usual = columnsOf(kind);
  const across = named ? first.length : Math.max(0, ...lines.map((cells) => cells.length));
  const fields = Array.from({ length: across }, (_, i) => (named ? columnNamed(kind, first[i] ?? '') : (usual[i - 1] ?? null)));
  const places = fields.map((_, i) => i).filter((i) => i !== tagAt);
  const parts = rowsOf(lineUp, kind);
  const seen = new Set<string>();
  const rows = lines.slice(named ? 1 : 0).map((cells): PastedRow => {
    const tag = cells[tagAt] ?? '';
    const meant = parts.filter((part) => part.tag === tag);
    const bad =
      meant.length === 0
        ? `No ${kind} is called “${tag}”`
        : meant.length > 1
          ? `${meant.length} are called so`
          : seen.has(tag)
            ? 'Stands twice'
            : null;
    seen.add(tag);
    const part = bad === null ? (meant[0] ?? null) : null;
    return { tag, bad, part, cells: places.map((i) => readCell(lineUp, part, fields[i] ?? null, cells[i] ?? '')) };
  });
  const filled = rows.flatMap(({ part, cells }) => cells.filter((cell) => cell.text !== '').map((cell) => part !== null && cell.entry.ok));
  return {
    heads: places.map((i) => (named ? (first[i] ?? '') : (fields[i]?.label ?? ''))),
    rows,
    right: filled.filter(Boolean).length,
    wrong:
      filled.filter((each) => !each).length +
      rows.filter(({ bad, cells }) => bad !== null && cells.every((cell) => cell.text === '')).length,
  };
}

function readCell(lineUp: LineUp, part: RowPart | null, field: Field | null, text: string): PastedCell {
  if (field === null) return { field, text, entry: { ok: false, what: 'No column is called so' } };
  const entry = readEntry(field, text, lineUp.project.units);
  if (!entry.ok || text === '' || !part) return { field, text, entry };
  // The part alone says whether the value may stand in it; with all others it would be asked again for every cell.
  const only = <T extends { readonly id: string }>(all: readonly T[]): T[] => all.filter((each) => each.id === part.id);
  const alone: LineUp = { ...lineUp, elements: only(lineUp.elements), cables: only(lineUp.cables) };
  const why = objection(field, setValue(alone, part.id, field.path, entry.value, entry.typed));
  return { field, text, entry: why === null ? entry : { ok: false, what: why } };
}

/** The document with all that is right in the rows. An empty cell leaves its value as it is. */
export function takeTable(lineUp: LineUp, { rows }: Pasted): LineUp {
  let next = lineUp;
  for (const { part, cells } of rows)
    for (const { field, text, entry } of cells)
      if (part && field && text !== '' && entry.ok) next = setValue(next, part.id, field.path, entry.value, entry.typed);
  return next;
}
