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

/** More names than this are a wall, and say less than their number. */
const NAMED = 16;
/** By their tags, as far as they are few; of connections inside an enclosure nobody knows any. */
function namesOf(parts: Several): string {
  const tags = parts.filter((each) => each.kind !== 'link').map((each) => each.tag);
  const rest = parts.length - Math.min(tags.length, NAMED);
  return rest === 0 ? tags.join(', ') : [...tags.slice(0, NAMED), `and ${rest} more`].join(', ');
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
      {parts.length > 1 && <p className="muted">{namesOf(parts)}. A value that is typed here is given to all of them.</p>}
      <WorstFirst findings={review.findings.filter((each) => ids.has(each.subject.id))} />
      {parts.length === 1 && part.kind === 'cable' && <CableAnswers cable={part} lineUp={lineUp} />}
      <Inspector parts={parts} units={lineUp.project.units} others={lineUp.cables} />
    </>
  );
}
