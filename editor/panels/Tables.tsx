import { useEffect, useRef, useState } from 'react';
import { type Field, type LineUp, type Review, rangeOf, VERDICTS, type Verdict, valueAt } from '../../engine/index.ts';
import { commit } from '../store/commit.ts';
import { arrange, useDesk } from '../store/deskStore.ts';
import { select, useEditor } from '../store/editorStore.ts';
import { setValue } from '../store/edits.ts';
import { useSay } from '../store/useSay.ts';
import { Badge } from './Badge.tsx';
import { offersOf } from './offers.ts';
import { PasteTable } from './PasteTable.tsx';
import { columnsOf, type RowPart, rowsOf, TABLES, type TableKind, toldOf } from './tableColumns.ts';
import { ValueField } from './ValueField.tsx';

export interface TablesProps {
  readonly lineUp: LineUp;
  readonly review: Review;
}

/** Cells are fields to type in; a site of a thousand rows is shown whole only when it is asked for. */
const FIRST_ROWS = 60;

interface Order {
  readonly by: string;
  readonly down: boolean;
  /** Ids as they stood when the order was asked for: rows do not run away from under the hand that types in them. */
  readonly ids: readonly string[];
}

function compare(a: unknown, b: unknown): number {
  if (a === undefined || b === undefined) return a === b ? 0 : a === undefined ? 1 : -1;
  return typeof a === 'number' && typeof b === 'number' ? a - b : String(a).localeCompare(String(b), 'en', { numeric: true });
}

function ordered(rows: readonly RowPart[], by: string, down: boolean, worst: ReadonlyMap<string, Verdict>): Order {
  const rank = (part: RowPart): unknown => {
    const verdict = worst.get(part.id);
    return by === 'verdict' ? verdict && VERDICTS.indexOf(verdict) : valueAt(part, by);
  };
  const sorted = [...rows].sort((a, b) => {
    const [x, y] = [rank(a), rank(b)];
    // What is not known stands at the end either way.
    const sign = down && x !== undefined && y !== undefined ? -1 : 1;
    return sign * compare(x, y) || compare(a.tag, b.tag);
  });
  return { by, down, ids: sorted.map((each) => each.id) };
}

/** The table that holds a part of these rows. */
function kindOf(lineUp: LineUp, text: string): TableKind {
  const kinds = Object.keys(TABLES) as TableKind[];
  return kinds.find((kind) => rowsOf(lineUp, kind).some(({ tag }) => text.includes(tag))) ?? 'cable';
}

/** Cables, motors and drives in rows, worst first: cells are typed in, rows chosen are changed together, rows from elsewhere pasted. */
export default function Tables({ lineUp, review }: TablesProps) {
  const pasted = useDesk((state) => state.pasted);
  const [kind, setKind] = useState(() => kindOf(lineUp, pasted ?? ''));
  const panel = useRef<HTMLElement>(null);
  useEffect(() => {
    panel.current?.focus();
    return () => {
      arrange({ pasted: null });
      // What had the focus is gone with the table: it goes back to where it was on the sheet.
      if (document.activeElement === document.body)
        document.querySelector<HTMLElement>(':is(.react-flow__node, .react-flow__edge)[tabindex="0"]')?.focus();
    };
  }, []);
  return (
    <section className="tables" aria-label="Table" tabIndex={-1} ref={panel}>
      <p className="acts">
        {(Object.keys(TABLES) as TableKind[]).map((each) => (
          <button key={each} type="button" aria-pressed={kind === each} onClick={() => setKind(each)}>
            {TABLES[each]} {rowsOf(lineUp, each).length}
          </button>
        ))}
        <span className="grow" />
        <button type="button" onClick={() => arrange({ table: false })}>
          Back to the sheet
        </button>
      </p>
      <OneTable key={kind} kind={kind} lineUp={lineUp} review={review} />
    </section>
  );
}

function OneTable({ kind, lineUp, review }: TablesProps & { readonly kind: TableKind }) {
  const say = useSay();
  const columns = columnsOf(kind);
  const told = toldOf(kind, lineUp, review);
  const rows = rowsOf(lineUp, kind);
  const worst = new Map<string, Verdict>();
  for (const { subject, verdict } of review.findings) if (!worst.has(subject.id)) worst.set(subject.id, verdict);
  const [order, setOrder] = useState(() => ordered(rows, 'verdict', false, worst));
  const [all, setAll] = useState(false);
  const pasted = useDesk((state) => state.pasted);
  const selected = useEditor((state) => state.selected);
  const place = new Map(order.ids.map((id, i) => [id, i]));
  const sorted = [...rows].sort((a, b) => (place.get(a.id) ?? Infinity) - (place.get(b.id) ?? Infinity) || 0);
  const shown = all ? sorted : sorted.slice(0, FIRST_ROWS);
  const chosen = rows.filter((each) => selected.includes(each.id));
  const head = (by: string, label: string) => (
    <th key={by} scope="col" aria-sort={order.by !== by ? 'none' : order.down ? 'descending' : 'ascending'}>
      <button type="button" className="quiet" onClick={() => setOrder(ordered(rows, by, order.by === by && !order.down, worst))}>
        {label}
        {order.by === by && <span aria-hidden="true"> {order.down ? '▾' : '▴'}</span>}
      </button>
    </th>
  );
  if (rows.length === 0)
    return <p className="muted">There are no {TABLES[kind].toLowerCase()} yet. Draw them; then rows of them can be pasted here.</p>;
  return (
    <>
      <div className="wide-table">
        <table aria-label={TABLES[kind]}>
          <thead>
            <tr>
              <th scope="col">
                <input
                  type="checkbox"
                  aria-label="Choose all rows"
                  checked={chosen.length === rows.length}
                  onChange={({ target }) => select(target.checked ? rows.map((each) => each.id) : [])}
                />
              </th>
              {head('verdict', 'Worst')}
              {head('tag', 'Tag')}
              {told.first.map(({ label }) => (
                <th key={label} scope="col">
                  {label}
                </th>
              ))}
              {columns.map((field) => head(field.path, say(field.label)))}
              {told.last.map(({ label }) => (
                <th key={label} scope="col" className="told">
                  {label}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {shown.map((part) => {
              const verdict = worst.get(part.id);
              const isChosen = selected.includes(part.id);
              return (
                <tr key={part.id} data-chosen={isChosen}>
                  <td>
                    <input
                      type="checkbox"
                      aria-label={`Choose ${part.tag}`}
                      checked={isChosen}
                      onChange={({ target }) =>
                        select(target.checked ? [...selected, part.id] : selected.filter((each) => each !== part.id))
                      }
                    />
                  </td>
                  <td>
                    {verdict && (
                      <span className={`worst v-${verdict}`}>
                        <Badge verdict={verdict} /> {verdict.replaceAll('-', ' ')}
                      </span>
                    )}
                  </td>
                  <th scope="row">{part.tag}</th>
                  {told.first.map(({ label, says }) => (
                    <td key={label}>{says(part)}</td>
                  ))}
                  {columns.map((field) => (
                    <td key={field.path}>
                      <Cell parts={[part]} field={field} name={`${say(field.label)}, ${part.tag}`} kind={kind} lineUp={lineUp} />
                    </td>
                  ))}
                  {told.last.map(({ label, says }) => (
                    <td key={label} className="told">
                      {says(part)}
                    </td>
                  ))}
                </tr>
              );
            })}
          </tbody>
        </table>
      </div>
      <div className="acts">
        {shown.length < rows.length && (
          <button type="button" onClick={() => setAll(true)}>
            Show all {rows.length}
          </button>
        )}
        {pasted === null && (
          <button type="button" onClick={() => arrange({ pasted: '' })}>
            Paste from a spreadsheet…
          </button>
        )}
        {chosen.length > 0 && <Together key={chosen.map((each) => each.id).join()} kind={kind} parts={chosen} lineUp={lineUp} />}
      </div>
      {pasted !== null && <PasteTable key={pasted} lineUp={lineUp} kind={kind} begun={pasted} onClose={() => arrange({ pasted: null })} />}
    </>
  );
}

interface CellProps {
  readonly parts: readonly RowPart[];
  readonly field: Field;
  readonly name: string;
  readonly kind: TableKind;
  readonly lineUp: LineUp;
}

/** One value of one row, or of all rows that are chosen. */
function Cell({ parts, field, name, kind, lineUp }: CellProps) {
  const [part] = parts;
  if (!part) return null;
  const value = valueAt(part, field.path);
  const mixed = parts.some((each) => valueAt(each, field.path) !== value);
  const ids = parts.map((each) => each.id);
  return (
    <ValueField
      // Under a path of its own: the focus that a finding asks for belongs to the inspector's field.
      field={{ ...field, path: `table/${field.path}`, label: name }}
      value={mixed ? undefined : value}
      typed={mixed ? undefined : part.provenance?.[field.path]?.typed}
      unset={mixed ? 'mixed' : '—'}
      units={lineUp.project.units}
      offers={offersOf(parts, field.path)}
      range={rangeOf(kind, field.path)}
      take={(next, typed) => commit(field, (before) => setValue(before, ids, field.path, next, typed))}
    />
  );
}

function Together({ kind, parts, lineUp }: Omit<CellProps, 'field' | 'name'>) {
  const say = useSay();
  const columns = columnsOf(kind);
  const [path, setPath] = useState(columns[0]?.path ?? '');
  const field = columns.find((each) => each.path === path);
  return (
    <fieldset className="together">
      <legend>{parts.length === 1 ? '1 row chosen' : `${parts.length} rows chosen`}</legend>
      <select aria-label="Value to set" value={path} onChange={({ target }) => setPath(target.value)}>
        {columns.map((each) => (
          <option key={each.path} value={each.path}>
            {say(each.label)}
          </option>
        ))}
      </select>
      {field && (
        <Cell key={path} parts={parts} field={field} name={`${say(field.label)}, of all rows chosen`} kind={kind} lineUp={lineUp} />
      )}
    </fieldset>
  );
}
