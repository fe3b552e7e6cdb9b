import {
  asItWas,
  type Cable,
  ELEMENT_KINDS,
  type Element,
  FIELDS,
  type Field,
  inUnitOf,
  KIND_HEAD,
  type LineUp,
  sayIn,
  TOGETHER,
  TOLD,
  type Units,
  unitOf,
  valueAt,
} from '../../engine/index.ts';
import { objection } from '../store/commit.ts';
import { setValue } from '../store/edits.ts';
import { type Entry, readEntry } from './readEntry.ts';
import { columnsOf, rowsOf, TABLES, type TableKind } from './tableColumns.ts';

/**
 * Rows from a spreadsheet or from a schedule as it was exported, read cell by cell. Nothing is changed here: what is wrong is said, what is
 * right can be taken.
 */

type Part = Element | Cable;

export interface PastedCell {
  readonly field: Field | null;
  readonly text: string;
  readonly entry: Entry;
  /** It says what the document says already, as far as a schedule writes it. */
  readonly same: boolean;
}
export interface PastedRow {
  readonly tag: string;
  /** Why no part of the line-up is meant by the tag, or null. */
  readonly bad: string | null;
  readonly part: Part | null;
  readonly cells: readonly PastedCell[];
}
export interface Pasted {
  readonly heads: readonly string[];
  readonly rows: readonly PastedRow[];
  readonly right: number;
  readonly wrong: number;
}

/** Tabs from a spreadsheet; where the first line has none, semicolons or else commas (RFC 4180). Cells in quotation marks may hold all of them, and ends of lines. */
function cellsOf(text: string): readonly (readonly string[])[] {
  const body = text.replace(/^\ufeff/, '');
  const [first = ''] = body.replaceAll(/"(?:[^"]|"")*"/g, '').split(/[\r\n]/, 1);
  const between = ['\t', ';'].find((each) => first.includes(each)) ?? ',';
  const cell = new RegExp(`("(?:[^"]|"")*"|[^${between}\\r\\n]*)(${between}|\\r?\\n|\\r|$)`, 'y');
  const lines: string[][] = [[]];
  while (cell.lastIndex < body.length) {
    const [, found = '', end = ''] = cell.exec(body) ?? [];
    lines.at(-1)?.push(/^".*"$/s.test(found) ? found.slice(1, -1).replaceAll('""', '"') : found);
    if (/[\r\n]/.test(end)) lines.push([]);
  }
  return lines.map((line) => line.map((each) => asItWas(each).trim())).filter((line) => line.some((each) => each !== ''));
}
const isTag = (text: string): boolean => text.toLowerCase() === 'tag';

const SYSTEMS: readonly Units[] = ['us', 'metric'];
/** What a schedule writes behind the name of a column, and its numbers are in. */
const unitsOf = ({ quantity }: Field): readonly string[] =>
  quantity && quantity !== 'size' ? SYSTEMS.map((units) => unitOf(quantity, units)).filter(Boolean) : [];

interface Column {
  readonly field: Field;
  /** '' where the cells say their unit themselves, or are in that of the project. */
  readonly unit: string;
}

/** A column by its name, with or without a unit, or by a beginning that only one name has: of all, or of those that stand in the table. */
function columnNamed(kind: keyof typeof FIELDS, head: string): Column | null {
  // In one vocabulary, whichever it was written in.
  const told = (text: string): string => sayIn('iec')(text).toLowerCase();
  const sought = told(head);
  if (sought === '') return null;
  const fields = FIELDS[kind];
  for (const field of fields)
    for (const unit of ['', ...unitsOf(field)]) {
      const ending = unit === '' ? '' : `, ${unit}`.toLowerCase();
      const names = Object.keys(TOGETHER).filter((each) => fieldTogether(kind, each) === field);
      if ([field.label, ...names].some((name) => told(name) + ending === sought)) return { field, unit };
    }
  const begun = fields.filter(({ label }) => told(label).startsWith(sought));
  const shown = isTable(kind) ? begun.filter((each) => columnsOf(kind).includes(each)) : [];
  const [field, ...others] = begun.length > 1 ? shown : begun;
  return field && others.length === 0 ? { field, unit: '' } : null;
}

const isTable = (kind: string): kind is TableKind => kind in TABLES;

const fieldTogether = (kind: keyof typeof FIELDS, head: string): Field | undefined =>
  TOGETHER[head]?.map((path) => FIELDS[kind].find((field) => field.path === path)).find((field) => field !== undefined);

/** What a schedule tells beside the values: the same words, or with a unit. */
const isTold = (head: string): boolean => TOLD.some((each) => head === each || head.startsWith(`${each}, `));
/** Of this kind of equipment there is no such value. */
const ofOthers = (head: string): boolean => ELEMENT_KINDS.some((kind) => columnNamed(kind, head) !== null);

export function readTable(lineUp: LineUp, kind: TableKind, text: string): Pasted {
  const lines = cellsOf(text);
  const [first = []] = lines;
  const named = first.some(isTag);
  const tagAt = named ? first.findIndex(isTag) : 0;
  // A schedule of equipment says of each row what it is; any other is of what stands in the table.
  const kindAt = named ? first.indexOf(KIND_HEAD) : -1;
  const mixed = kindAt >= 0;
  // Without names the columns are those of the table, in its order.
  const usual = columnsOf(kind);
  const across = named ? first.length : Math.max(0, ...lines.map((cells) => cells.length));
  const places = Array.from({ length: across }, (_, i) => i).filter(
    (i) => i !== tagAt && i !== kindAt && !(named && isTold(first[i] ?? '')),
  );
  const columns = new Map<string, readonly (Column | null)[]>();
  const columnsFor = (of: keyof typeof FIELDS): readonly (Column | null)[] => {
    const known =
      columns.get(of) ??
      places.map((i) => {
        const field = usual[i - 1];
        return named ? columnNamed(of, first[i] ?? '') : field ? { field, unit: '' } : null;
      });
    columns.set(of, known);
    return known;
  };
  const parts: readonly Part[] = mixed ? lineUp.elements : rowsOf(lineUp, kind);
  const seen = new Set<string>();
  const rows = lines.slice(named ? 1 : 0).map((cells): PastedRow => {
    const tag = cells[tagAt] ?? '';
    const meant = parts.filter((part) => part.tag.trim() === tag);
    const bad =
      meant.length === 0
        ? tag === ''
          ? 'No tag stands here'
          : `No ${mixed ? 'equipment' : kind} is called “${tag}”: draw it first`
        : meant.length > 1
          ? `${meant.length} are called so`
          : seen.has(tag)
            ? 'Stands twice'
            : null;
    seen.add(tag);
    const part = bad === null ? (meant[0] ?? null) : null;
    const own = columnsFor(part === null || part.kind === 'cable' || part.kind === 'link' ? kind : part.kind);
    return {
      tag,
      bad,
      part,
      cells: places.map((i, at) => {
        const column = own[at] ?? null;
        const no = mixed && ofOthers(first[i] ?? '') && part ? `A ${part.kind} has no such value` : 'No column is called so';
        return readCell(lineUp, part, column, cells[i] ?? '', no);
      }),
    };
  });
  const filled = rows.flatMap(({ part, cells }) => cells.filter((cell) => cell.text !== '').map((cell) => part !== null && cell.entry.ok));
  return {
    heads: places.map((i, at) => (named ? (first[i] ?? '') : (columnsFor(kind)[at]?.field.label ?? ''))),
    rows,
    right: filled.filter(Boolean).length,
    wrong:
      filled.filter((each) => !each).length +
      rows.filter(({ bad, cells }) => bad !== null && cells.every((cell) => cell.text === '')).length,
  };
}

function readCell(lineUp: LineUp, part: Part | null, column: Column | null, text: string, no: string): PastedCell {
  if (column === null) return { field: null, text, entry: { ok: false, what: no }, same: false };
  const { field, unit } = column;
  const { units } = lineUp.project;
  const now = part ? valueAt(part, field.path) : undefined;
  const written = typeof now === 'boolean' ? (now ? 'yes' : 'no') : String(now ?? '').trim();
  // What stands there already may stay, whether anyone could type it or not.
  if (text !== '' && (field.kind !== 'quantity' || field.quantity === 'size') && text === written)
    return { field, text, entry: { ok: true, value: now }, same: true };
  const entry = readEntry(field, unit !== '' && /^[-+−]?[\d.,]+(e[-+]?\d+)?$/i.test(text) ? `${text} ${unit}` : text, units);
  if (!entry.ok || text === '' || !part) return { field, text, entry, same: false };
  if (alike(field, now, entry.value)) return { field, text, entry, same: true };
  // The part alone says whether the value may stand in it; with all others it would be asked again for every cell.
  const only = <T extends { readonly id: string }>(all: readonly T[]): T[] => all.filter((each) => each.id === part.id);
  const alone: LineUp = { ...lineUp, elements: only(lineUp.elements), cables: only(lineUp.cables) };
  const why = objection(field, setValue(alone, part.id, field.path, entry.value, entry.typed), alone);
  return { field, text, entry: why === null ? entry : { ok: false, what: why }, same: false };
}

/** The same figures in the units of either system: what a schedule rounds away was not changed by anyone. */
function alike({ quantity }: Field, now: unknown, read: unknown): boolean {
  if (typeof now !== 'number' || typeof read !== 'number' || !quantity || quantity === 'size') return now === read;
  return SYSTEMS.some((units) => inUnitOf(now, quantity, units) === inUnitOf(read, quantity, units));
}

/** The document with all that is right in the rows. An empty cell leaves its value as it is, and so does one that says the same. */
export function takeTable(lineUp: LineUp, { rows }: Pasted): LineUp {
  let next = lineUp;
  for (const { part, cells } of rows)
    for (const { field, text, entry, same } of cells)
      if (part && field && text !== '' && entry.ok && !same) next = setValue(next, part.id, field.path, entry.value, entry.typed);
  return next;
}
