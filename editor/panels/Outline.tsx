import type { LineUp, Review } from '../../engine/index.ts';
import { select } from '../store/editorStore.ts';
import { Badge } from './Badge.tsx';

/** All parts and cables by name, for those who do not use the drawing: run by run from source to motor, then what is in no run. */
export function Outline({ lineUp, review }: { readonly lineUp: LineUp; readonly review: Review }) {
  const parts = new Map([...lineUp.elements, ...lineUp.cables].map((part) => [part.id, part]));
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
  return (
    <details>
      <summary>
        {lineUp.elements.length} parts, {lineUp.cables.length} cables
      </summary>
      {groups.map((group) => (
        <section key={group.title}>
          <h2>{group.title}</h2>
          <ul className="plain" aria-label={group.title}>
            {group.members.map((part) => {
              const worst = review.findings.find((each) => each.subject.id === part.id);
              return (
                <li key={part.id}>
                  <button type="button" className="outlined" onClick={() => select([part.id])}>
                    {worst ? <Badge verdict={worst.verdict} /> : <span className="badge" />}
                    <b>{part.tag}</b> <span className="muted">{part.kind}</span>
                    {worst && <span className={`word v-${worst.verdict}`}>{worst.verdict}</span>}
                  </button>
                </li>
              );
            })}
          </ul>
        </section>
      ))}
    </details>
  );
}
