import {
  BECAUSE,
  type DecidingUnknown,
  type LineUp,
  type Turn,
  UNKNOWN_PICTURE,
  unknownPicture,
  unknownValue,
  unknownWords,
} from '../../engine/index.ts';
import { Paint } from '../sheet/Paint.tsx';
import { select } from '../store/editorStore.ts';
import { useAnswer } from './useAnswer.ts';
import { VerdictWord } from './VerdictWord.tsx';
import { Waiting } from './Waiting.tsx';

/** Values that nobody vouches for and that decide a verdict: what is taken, where each verdict turns, and who knows. The nearest first, and those nearest as pictures. */

/** The ones to ask about first. */
const PICTURES = 3;
const { w, h } = UNKNOWN_PICTURE;

export default function WhichUnknowns({ lineUp }: { readonly lineUp: LineUp }) {
  const word = useAnswer('unknowns', lineUp, []);
  if (!('answer' in word)) return <Waiting word={word} />;
  if (word.answer.length === 0)
    return <p>None: within what is usual, no value that is assumed, estimated or left out would turn a verdict.</p>;
  const { units } = lineUp.project;
  return (
    <>
      <p className="muted">The bar is all that the value may be, filled as far as no verdict turns.</p>
      {word.answer.slice(0, PICTURES).map((unknown) => (
        <svg
          key={`${unknown.id}/${unknown.field}`}
          className="chart"
          viewBox={`-1 -1 ${w + 2} ${h + 2}`}
          role="img"
          aria-label={unknownWords(unknown, units)}
        >
          <Paint items={unknownPicture(unknown, units)} />
        </svg>
      ))}
      <ol className="changes" aria-label="Unknown values that matter">
        {word.answer.map((unknown) => (
          <li key={`${unknown.id}/${unknown.field}`}>
            <Unknown unknown={unknown} lineUp={lineUp} />
          </li>
        ))}
      </ol>
    </>
  );
}

function Unknown({ unknown, lineUp }: { readonly unknown: DecidingUnknown; readonly lineUp: LineUp }) {
  const { id, tag, field, label, ask, because, now, turns } = unknown;
  const said = (value: number | string): string => unknownValue(unknown, value, lineUp.project.units);
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
