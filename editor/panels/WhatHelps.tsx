import type { ReactNode } from 'react';
import { type Finding, fixed, type LineUp, type Moved, movedText, type Units } from '../../engine/index.ts';
import { putBack, takeFix, tryFix, useEditor } from '../store/editorStore.ts';
import type { Change } from '../store/sizing.ts';
import { useAnswer } from './useAnswer.ts';
import { VerdictWord } from './VerdictWord.tsx';
import { Waiting } from './Waiting.tsx';

/** Changes that help a finding, each judged with the whole line-up: what it betters and what it worsens stands beside it. */
export interface WhatHelpsProps {
  readonly finding: Finding;
  readonly lineUp: LineUp;
}

export default function WhatHelps({ finding, lineUp }: WhatHelpsProps) {
  const word = useAnswer('changes', lineUp, [finding.id]);
  const tried = useEditor((state) => state.trying?.fix);
  if (!('answer' in word)) return <Waiting word={word} />;
  if (word.answer.length === 0)
    return <p>None of the changes that were tried helps here, alone or two together. What is to be done is not a value of this line-up.</p>;
  return (
    <ol className="changes" aria-label="What would help">
      {word.answer.map((change, i) => (
        <li key={JSON.stringify(change.fix)} aria-current={change.fix === tried || undefined}>
          <p>
            <b>{change.fix.label}</b>
          </p>
          {change.asksMaker && <p className="muted">Whether it is enough is for the maker’s figure to say.</p>}
          <Effects change={change} units={lineUp.project.units} first={i === 0} />
          <p className="pair">
            <button type="button" className="main" aria-label={`Apply: ${change.fix.label}`} onClick={() => takeFix(change.fix)}>
              Apply
            </button>
            {change.fix === tried ? (
              <button type="button" aria-label={`Put back: ${change.fix.label}`} onClick={putBack}>
                Put back
              </button>
            ) : (
              <button
                type="button"
                className="try"
                aria-label={`Try it on the sheet: ${change.fix.label}`}
                onClick={() => tryFix(change.fix)}
              >
                Try it on the sheet
              </button>
            )}
          </p>
        </li>
      ))}
    </ol>
  );
}

interface EffectsProps {
  readonly change: Change;
  readonly units: Units;
  readonly first: boolean;
}

/** The numbers of the first, which is the cheapest, are there to be read at once; and what anything worsens is never folded away. */
function Effects({ change: { better, worse, asked, moreRoom, lessRoom, unchanged }, units, first }: EffectsProps) {
  return (
    <details open={first || worse.length > 0}>
      <summary>
        {better.length} better, {worse.length} worse, {asked.length > 0 && `${asked.length} to ask, `}
        {unchanged} unchanged
      </summary>
      <Verdicts title="Worse" moved={worse} units={units} />
      <Verdicts title="Better" moved={better} units={units} />
      <Verdicts title="To ask" moved={asked} units={units} />
      <Margins title="Same verdict, less margin" moved={lessRoom} units={units} />
      <Margins title="Same verdict, more margin" moved={moreRoom} units={units} />
    </details>
  );
}

interface MovedProps {
  readonly title: string;
  readonly moved: readonly Moved[];
  readonly units: Units;
}

/** A finding that is made only before is gone after; one that is made only after was not there before. */
const Verdicts = (props: MovedProps) => (
  <MovedList {...props}>
    {({ before, after }) => (
      <>
        {before ? <VerdictWord verdict={before.verdict} /> : 'not there'} → {after ? <VerdictWord verdict={after.verdict} /> : 'gone'}
      </>
    )}
  </MovedList>
);

const Margins = (props: MovedProps) => (
  <MovedList {...props}>
    {({ before, after }) => `margin ${fixed(before?.margin_pct ?? 0, 1)} % → ${fixed(after?.margin_pct ?? 0, 1)} %`}
  </MovedList>
);

function MovedList({ title, moved, units, children }: MovedProps & { readonly children: (moved: Moved) => ReactNode }) {
  return moved.length === 0 ? null : (
    <>
      <h3>{title}</h3>
      <ul className="plain" aria-label={title}>
        {moved.map((each) => {
          // By the names on the sheet: in the line-up with the change a cable may be called otherwise.
          const named = each.before ?? each.after;
          const numbers = movedText(each.before, each.after, units);
          return (
            <li key={each.id} className="moved">
              <span>
                {named?.title} <span className="muted">{named?.subject.tag}</span>
              </span>
              <span>{children(each)}</span>
              {numbers && <span className="numbers">{numbers}</span>}
            </li>
          );
        })}
      </ul>
    </>
  );
}
