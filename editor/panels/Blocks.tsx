import { type Block, type Picture, type Table, writtenColumns } from '../../engine/submittal/formats.ts';
import { Paint } from '../sheet/Paint.tsx';

/** What stands on a sheet of the package, set for a screen: the same tables and pictures. */
export const Blocks = ({ blocks }: { readonly blocks: readonly Block[] }) =>
  blocks.map((block, i) => (
    // Pictures that go on from what stands above have no title, and there may be two.
    <section key={`${i} ${block.title}`} className="block">
      {block.title !== '' && <h2>{block.title}</h2>}
      {block.t === 'table' ? <Rows {...block} /> : block.pictures.map((each) => <Drawn key={each.says} {...each} />)}
    </section>
  ));

function Rows(table: Table) {
  const { title, intro, columns, rows, empty, beside } = table;
  if (rows.length === 0) return <p>{empty}</p>;
  const written = writtenColumns(table);
  return (
    <>
      {intro && <p>{intro}</p>}
      <div className="wide-table">
        <table aria-label={title}>
          <thead>
            <tr>
              {written.map((i) => (
                <th key={columns[i]?.head} scope="col">
                  {columns[i]?.head}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map((row) => (
              <tr key={row.join()}>
                {written.map((i) => (
                  <td key={columns[i]?.head}>{row[i]}</td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      {beside && <Drawn {...beside} />}
    </>
  );
}

const Drawn = ({ items, w, h, says, onPaper }: Picture) => (
  <svg className={onPaper ? 'chart scanned' : 'chart'} viewBox={`-1 -1 ${w + 2} ${h + 2}`} role="img" aria-label={says}>
    <Paint items={items} />
  </svg>
);
