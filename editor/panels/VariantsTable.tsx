import { Fragment, type ReactNode, useMemo } from 'react';
import { type Compared, compareDesigns, MOVES, type Units, type ValueRow, type VerdictRow, valueText } from '../../engine/index.ts';
import { VerdictWord } from './VerdictWord.tsx';

/** Differences of the documents by part, then verdicts that differ, then what it all comes to. */

const SAYS = { better: 'better', worse: 'worse', asked: 'to ask', unchanged: 'unchanged', new: 'new', gone: 'gone' } as const;

export function VariantsTable({ compared }: { readonly compared: readonly Compared[] }) {
  // The list is made anew with each rendering; what is in it is not.
  const key = compared.flatMap(({ name, review }) => [name, review]);
  const { names, parts, verdicts, counts, totals } = useMemo(() => compareDesigns(compared), key);
  const units = compared[0]?.lineUp.project.units ?? 'us';
  const values = ({ label, cells }: ValueRow, id: string) => (
    <Row key={`${id}/${label}`} head={label} cells={cells.map((cell, i) => ({ key: `${i}`, says: cell, other: cell !== cells[0] }))} />
  );
  return (
    <div className="wide">
      <table aria-label="Variants side by side">
        <thead>
          <tr>
            <td />
            {names.map((name, i) => (
              <th key={`${i}/${name}`} scope="col">
                {name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          <Group title="What differs" columns={names.length} />
          {parts.length === 0 && <Nothing says="Nothing: the documents are alike." columns={names.length} />}
          {parts.map(({ id, tag, rows }) => (
            <Fragment key={id}>
              <tr>
                <th scope="rowgroup" colSpan={names.length + 1}>
                  {tag}
                </th>
              </tr>
              {rows.map((row) => values(row, id))}
            </Fragment>
          ))}
          <Group title="Verdicts that differ" columns={names.length} />
          {verdicts.length === 0 && <Nothing says="None." columns={names.length} />}
          {verdicts.map((row) => (
            <Row
              key={row.id}
              head={
                <>
                  {row.title} <span className="muted">{row.tag}</span>
                </>
              }
              cells={verdictCells(row, units)}
            />
          ))}
          <Group title="All together" columns={names.length} />
          <Row
            head="Against the present one"
            cells={counts.map((count, i) => ({
              key: `${i}`,
              says:
                i === 0
                  ? ''
                  : MOVES.filter((move) => count[move] > 0)
                      .map((move) => `${count[move]} ${SAYS[move]}`)
                      .join(', '),
              other: false,
            }))}
          />
          {totals.map((row) => values(row, 'totals'))}
        </tbody>
      </table>
    </div>
  );
}

const verdictCells = ({ cells, moves }: VerdictRow, units: Units): readonly CellOf[] =>
  cells.map((finding, i) => ({
    key: `${i}`,
    other: moves[i] !== 'unchanged',
    says: finding ? (
      <>
        <VerdictWord verdict={finding.verdict} /> <span className="margin">{valueText(finding, units)}</span>
      </>
    ) : (
      'not said'
    ),
  }));

interface CellOf {
  readonly key: string;
  readonly says: ReactNode;
  /** Not as in the present one. */
  readonly other: boolean;
}

const Row = ({ head, cells }: { readonly head: ReactNode; readonly cells: readonly CellOf[] }) => (
  <tr>
    <th scope="row">{head}</th>
    {cells.map(({ key, says, other }) => (
      <td key={key} data-other={other}>
        {says}
      </td>
    ))}
  </tr>
);

const Group = ({ title, columns }: { readonly title: string; readonly columns: number }) => (
  <tr className="group">
    <th scope="rowgroup" colSpan={columns + 1}>
      {title}
    </th>
  </tr>
);

const Nothing = ({ says, columns }: { readonly says: string; readonly columns: number }) => (
  <tr>
    <td colSpan={columns + 1}>{says}</td>
  </tr>
);
