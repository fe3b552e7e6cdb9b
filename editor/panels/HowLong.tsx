import { formatQuantity, type LengthLimit } from '../../engine/index.ts';
import type { CableAnswersProps } from './CableAnswers.tsx';
import { useAnswer } from './useAnswer.ts';
import { VerdictWord } from './VerdictWord.tsx';
import { Waiting } from './Waiting.tsx';

/** The lengths at which verdicts turn, all else as it is, and the check that is the first to stop the cable from being longer. */
export default function HowLong({ cable, lineUp }: CableAnswersProps) {
  const word = useAnswer('lengths', lineUp, [cable.id]);
  if (!('answer' in word)) return <Waiting word={word} />;
  const { limits, passes, governs, against, always, bound_m } = word.answer;
  const length = (metres: number) => formatQuantity(metres, 'length', lineUp.project.units);
  if (limits.length === 0) return <p>No verdict turns with its length, up to {length(bound_m)}.</p>;
  return (
    <>
      <p className="reason">
        {!passes
          ? `No length passes: ${against.map(({ title }) => title).join(' and ')} ${against.length === 1 ? 'objects at every length that could be built' : 'leave none between them'}.`
          : governs
            ? `Up to ${length(passes.to_m)}, no check that its length decides objects. Beyond that, ${governs.title} is the first.`
            : `Nothing that its length decides stops it from being longer, up to ${length(bound_m)}.`}
        {passes && passes.from_m > 0 && ` It must be ${length(passes.from_m)} at least: shorter, another check objects.`}
      </p>
      {always.length > 0 && <p className="muted">Whatever its length, these object too: {always.map(({ title }) => title).join(', ')}.</p>}
      <table className="inputs turns" aria-label="Lengths at which verdicts turn">
        <thead>
          <tr>
            <th scope="col">Check</th>
            <th scope="col">From this length on</th>
          </tr>
        </thead>
        <tbody>
          {[...limits].sort(byFirstStop).map(({ check, title, now, flips }) => (
            <tr key={check}>
              <th scope="row">
                {title}
                {now && (
                  <>
                    <br />
                    now <VerdictWord verdict={now} />
                  </>
                )}
              </th>
              <td>
                {flips.map(({ at_m, to }) => (
                  <span key={at_m} className="turn">
                    {length(at_m)} <VerdictWord verdict={to} />
                  </span>
                ))}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </>
  );
}

const byFirstStop = (a: LengthLimit, b: LengthLimit): number => (a.holds?.to_m ?? 0) - (b.holds?.to_m ?? 0);
