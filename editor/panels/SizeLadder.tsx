import { type Choice, fixed, resizing, type SizeCell, type SizeTable } from '../../engine/index.ts';
import { takeFix } from '../store/editorStore.ts';
import type { CableAnswersProps } from './CableAnswers.tsx';
import { Dialog } from './Dialog.tsx';
import { madeOf } from './madeOf.ts';
import { useAnswer } from './useAnswer.ts';
import { VerdictWord } from './VerdictWord.tsx';
import { Waiting } from './Waiting.tsx';

/** One cable in every standard size against every check that a size decides, the rest of the line-up as it is. */
export default function SizeLadder({ cable, lineUp, onClose }: CableAnswersProps & { readonly onClose: () => void }) {
  const word = useAnswer('sizes', lineUp, [cable.id]);
  const take = (choice: Choice) => takeFix({ label: `${madeOf(choice)} for ${cable.tag}`, edits: resizing(cable, choice) });
  return (
    <Dialog title={`Size ladder of ${cable.tag}`} className="sizes" onClose={onClose}>
      {(close) =>
        !('answer' in word) ? (
          <Waiting word={word} />
        ) : word.answer === null ? (
          <p>It is not fed yet, or its length is not known: nothing can be said of its size.</p>
        ) : (
          <Rungs
            table={word.answer}
            take={(choice) => {
              take(choice);
              close();
            }}
          />
        )
      }
    </Dialog>
  );
}

function Rungs({ table: { columns, rows }, take }: { readonly table: SizeTable; readonly take: (choice: Choice) => void }) {
  const moved = columns.map((_, i) => rows.some(({ cells }) => shown(cells[i]) !== shown(rows[0]?.cells[i])));
  const least = rows.find(({ cells }) => cells.every((cell, i) => !moved[i] || settled(cell)));
  const still = rows[0]?.cells.filter((_, i) => !moved[i]) ?? [];
  return (
    <>
      <p className="reason">
        {least
          ? `${madeOf(least.choice)} is the smallest to which none of the checks that size moves objects.`
          : 'To every size at least one of these checks objects.'}
      </p>
      <p className="muted">Per cent: what is left to the limit, with a minus what is beyond it.</p>
      <div className="wide">
        <table>
          <thead>
            <tr>
              <th scope="col">Size</th>
              <td />
              {columns.map(({ check, title }, i) =>
                moved[i] ? (
                  <th key={check} scope="col">
                    {title}
                  </th>
                ) : null,
              )}
            </tr>
          </thead>
          <tbody>
            {rows.map(({ choice, now, cells }) => (
              <tr key={choice.size} className={now ? 'now' : ''}>
                <th scope="row">{madeOf(choice)}</th>
                <td>
                  {now ? (
                    'as drawn'
                  ) : (
                    <button type="button" className="quiet" aria-label={`Take ${madeOf(choice)}`} onClick={() => take(choice)}>
                      Take
                    </button>
                  )}
                </td>
                {cells.map((cell, i) => (moved[i] ? <Cell key={cell.check} cell={cell} /> : null))}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      {still.length > 0 && (
        <>
          <h2>More or less conductor does not change these</h2>
          <ul className="still" aria-label="Not changed by size">
            {still.map(({ check, finding }) => (
              <li key={check}>
                {finding && <VerdictWord verdict={finding.verdict} />} {columns.find((each) => each.check === check)?.title}
              </li>
            ))}
          </ul>
        </>
      )}
    </>
  );
}

function Cell({ cell: { finding } }: { readonly cell: SizeCell }) {
  if (!finding) return <td className="muted">—</td>;
  const { verdict, margin_pct, text } = finding;
  return (
    <td className={`c-${verdict}`} title={text}>
      <VerdictWord verdict={verdict} /> {margin_pct !== null && <span className="margin">{marginText(margin_pct)}</span>}
    </td>
  );
}

/** Beyond this the number tells no more than that there is plenty. */
const PLENTY_pct = 500;
const marginText = (margin_pct: number): string => (margin_pct > PLENTY_pct ? `over ${PLENTY_pct} %` : `${fixed(margin_pct, 0)} %`);

/** What of a cell can be told from another. */
const shown = (cell: SizeCell | undefined): string => {
  const { verdict, margin_pct = null } = cell?.finding ?? {};
  return `${verdict} ${margin_pct === null ? '' : marginText(margin_pct)}`;
};
const settled = ({ finding }: SizeCell): boolean => !finding || !['fail', 'caution', 'open'].includes(finding.verdict);
