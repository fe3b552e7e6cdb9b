import { type DecidingUnknown, formatQuantity, type LineUp, type Turn } from '../../engine/index.ts';
import { select } from '../store/editorStore.ts';
import { choiceText } from './readEntry.ts';
import { useAnswer } from './useAnswer.ts';
import { VerdictWord } from './VerdictWord.tsx';
import { Waiting } from './Waiting.tsx';

/** Values that nobody vouches for and that decide a verdict: what is taken, where each verdict turns, and who knows. The nearest first. */

const BECAUSE = {
  'not given': 'not given',
  assumed: 'assumed',
  range: 'the far end of a range',
  estimate: 'estimated',
} as const satisfies Record<DecidingUnknown['because'], string>;

export default function WhichUnknowns({ lineUp }: { readonly lineUp: LineUp }) {
  const word = useAnswer('unknowns', lineUp, []);
  if (!('answer' in word)) return <Waiting word={word} />;
  if (word.answer.length === 0)
    return <p>None: within what is usual, no value that is assumed, estimated or left out would turn a verdict.</p>;
  return (
    <ol className="changes" aria-label="Unknown values that matter">
      {word.answer.map((unknown) => (
        <li key={`${unknown.id}/${unknown.field}`}>
          <Unknown unknown={unknown} lineUp={lineUp} />
        </li>
      ))}
    </ol>
  );
}

function Unknown({ unknown, lineUp }: { readonly unknown: DecidingUnknown; readonly lineUp: LineUp }) {
  const { id, tag, field, label, quantity, ask, because, now, turns } = unknown;
  const said = (value: number | string): string =>
    typeof value === 'string' ? choiceText(value) : quantity ? formatQuantity(value, quantity, lineUp.project.units) : String(value);
  return (
    <>
      <p>
        <b>{label}</b> <span className="muted">{tag}</span>
      </p>
      <p>
        Taken as {said(now)}, {BECAUSE[because]}.{ask !== '' && ` Ask: ${ask}.`}
      </p>
      <ul className="plain">
        {turns.map((turn) => (
          <TurnLine key={turn.finding.id} turn={turn} at={said(turn.at)} />
        ))}
      </ul>
      <button type="button" aria-label={`Go to ${label} of ${tag}`} onClick={() => select([id], field)}>
        Go to the field
      </button>
    </>
  );
}

const TurnLine = ({ turn: { finding, from, to }, at }: { readonly turn: Turn; readonly at: string }) => (
  <li className="moved">
    <span>
      {finding.title} <span className="muted">{finding.subject.tag}</span>
    </span>
    <span>
      <VerdictWord verdict={from} /> → <VerdictWord verdict={to} /> at {at}
    </span>
  </li>
);
