import { useEffect, useRef, useState } from 'react';
import type { LineUp } from '../../engine/index.ts';
import { edit } from '../store/editorStore.ts';
import { readTable, takeTable } from './pastedTable.ts';
import { TABLES, type TableKind } from './tableColumns.ts';

export interface PasteTableProps {
  readonly lineUp: LineUp;
  readonly kind: TableKind;
  /** What was pasted already. */
  readonly begun: string;
  readonly onClose: () => void;
}

/** Rows from a spreadsheet: shown cell by cell with what is wrong, and taken as one step when all is right or the rest is left out on purpose. */
export function PasteTable({ lineUp, kind, begun, onClose }: PasteTableProps) {
  const [text, setText] = useState(begun);
  const [leaving, setLeaving] = useState(false);
  const box = useRef<HTMLTextAreaElement>(null);
  useEffect(() => box.current?.focus(), []);
  const pasted = readTable(lineUp, kind, text);
  const { heads, rows, right, wrong } = pasted;
  const apply = () => {
    edit(`Paste ${TABLES[kind].toLowerCase()}`, (before) => takeTable(before, readTable(before, kind, text)));
    onClose();
  };
  return (
    <section className="pasting" aria-label="Paste from a spreadsheet">
      <label>
        Rows from a spreadsheet, or a schedule as it was exported. The first row may name the columns, with Tag among them; an empty cell
        leaves its value as it is.
        <textarea ref={box} rows={4} spellCheck={false} value={text} onChange={({ target }) => setText(target.value)} />
      </label>
      {rows.length > 0 && (
        <div className="wide-table">
          <table className="inputs" aria-label="What was pasted">
            <thead>
              <tr>
                <th scope="col">Tag</th>
                {heads.map((head, i) => (
                  // Columns have no ids, and two may bear one name.
                  <th key={i} scope="col">
                    {head}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {rows.map((row, at) => (
                <tr key={at}>
                  <th scope="row">
                    {row.tag}
                    {row.bad && <span className="bad">{row.bad}</span>}
                  </th>
                  {row.cells.map((cell, i) => (
                    <td key={i}>
                      {cell.text}
                      {!cell.entry.ok && cell.text !== '' && <span className="bad">{cell.entry.what}</span>}
                    </td>
                  ))}
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
      <p className="acts">
        <span role="status">{rows.length > 0 && `${right} right, ${wrong} wrong`}</span>
        {wrong > 0 && (
          <label>
            <input type="checkbox" checked={leaving} onChange={({ target }) => setLeaving(target.checked)} /> Leave out what is wrong
          </label>
        )}
        <button type="button" className="main" disabled={right === 0 || (wrong > 0 && !leaving)} onClick={apply}>
          Take {right} {right === 1 ? 'value' : 'values'}
        </button>
        <button type="button" onClick={onClose}>
          Put away
        </button>
      </p>
    </section>
  );
}
