import type { LineUp, Review } from '../../engine/index.ts';
import { select } from '../store/editorStore.ts';
import CableAnswers from './CableAnswers.tsx';
import Inspector, { type Several } from './Inspector.tsx';
import { WorstFirst } from './WorstFirst.tsx';

export interface ChosenProps {
  readonly lineUp: LineUp;
  readonly review: Review;
  readonly parts: Several;
}

/** What is said of the parts that are chosen, and their fields. */
export default function Chosen({ lineUp, review, parts }: ChosenProps) {
  const ids = new Set(parts.map((each) => each.id));
  const [part] = parts;
  return (
    <>
      <button type="button" className="quiet" onClick={() => select([])}>
        All findings
      </button>
      <h1 className="serif">{parts.length === 1 ? part.tag : `${parts.length} parts selected`}</h1>
      {parts.length > 1 && (
        <p className="muted">{parts.map((each) => each.tag).join(', ')}. A value that is typed here is given to all of them.</p>
      )}
      <WorstFirst findings={review.findings.filter((each) => ids.has(each.subject.id))} />
      {parts.length === 1 && part.kind === 'cable' && <CableAnswers cable={part} lineUp={lineUp} />}
      <Inspector parts={parts} units={lineUp.project.units} others={lineUp.cables} />
    </>
  );
}
