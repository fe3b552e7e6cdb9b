import type { LineUp, Review, Verdict } from '../../engine/index.ts';
import { select } from '../store/editorStore.ts';
import { useSay } from '../store/useSay.ts';
import { Badge, Word } from './Badge.tsx';
import { Folded } from './Folded.tsx';

export interface OutlineProps {
  readonly lineUp: LineUp;
  readonly review: Review;
}

/** All parts and cables by name, for those who do not use the drawing: run by run from source to motor, then what is in no run. */
export function Outline({ lineUp, review }: OutlineProps) {
  return (
    <Folded summary={`${lineUp.elements.length} parts, ${lineUp.cables.length} cables`}>
      {() => <Names lineUp={lineUp} review={review} />}
    </Folded>
  );
}

function Names({ lineUp, review }: OutlineProps) {
  const say = useSay();
  const parts = new Map([...lineUp.elements, ...lineUp.cables].map((part) => [part.id, part]));
  const worst = new Map<string, Verdict>();
  for (const { subject, verdict } of review.findings) if (!worst.has(subject.id)) worst.set(subject.id, verdict);
  const listed = new Set<string>();
  const take = (ids: readonly string[]) =>
    ids.flatMap((id) => {
      const part = parts.get(id);
      if (!part || listed.has(id)) return [];
      listed.add(id);
      return [part];
    });
  const groups = [
    ...review.runs.map((run) => ({ title: `Run of ${run.motorTag}`, members: take(run.path) })),
    { title: 'In no run', members: take([...parts.keys()]) },
  ].filter((group) => group.members.length > 0);
  return groups.map((group) => (
    <section key={group.title}>
      <h2>{group.title}</h2>
      <ul className="plain" aria-label={group.title}>
        {group.members.map((part) => {
          const verdict = worst.get(part.id);
          return (
            <li key={part.id}>
              <button type="button" className="outlined" onClick={() => select([part.id])}>
                {verdict ? <Badge verdict={verdict} /> : <span className="badge" />}
                <b>{part.tag}</b> <span className="muted">{say(part.kind)}</span>
                {verdict && <Word verdict={verdict} />}
              </button>
            </li>
          );
        })}
      </ul>
    </section>
  ));
}
