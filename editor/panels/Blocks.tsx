import type { Block, Picture, Table } from '../../engine/submittal/formats.ts';
import { Paint } from '../sheet/Paint.tsx';

/** What stands on a sheet of the package, set for a screen: the same tables and pictures. */
export const Blocks = ({ blocks }: { readonly blocks: readonly Block[] }) =>
  blocks.map((block) => (
    <section key={block.title} className="block">
      {block.title !== '' && <h2>{block.title}</h2>}
      {block.t === 'table' ? <Rows {...block} /> : block.pictures.map((each) => <Drawn key={each.says} {...each} />)}
    </section>
  ));

function Rows({ title, intro, columns, rows, empty }: Table) {
  if (rows.length === 0) return <p>{empty}</p>;
  return (
    <>
      {intro && <p>{intro}</p>}
      <div className="wide-table">
        <table aria-label={title}>
          <thead>
            <tr>
              {columns.map(({ head }) => (
                <th key={head} scope="col">
                  {head}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map((row) => (
              <tr key={row.join()}>
                {row.map((cell, i) => (
                  <td key={columns[i]?.head}>{cell}</td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </>
  );
}

const Drawn = ({ items, w, h, says }: Picture) => (
  <svg className="chart" viewBox={`-1 -1 ${w + 2} ${h + 2}`} role="img" aria-label={says}>
    <Paint items={items} />
  </svg>
);
