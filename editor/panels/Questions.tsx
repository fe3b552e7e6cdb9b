import { useState } from 'react';
import type { Finding } from '../../engine/index.ts';
import { select, useEditor } from '../store/editorStore.ts';
import { Folded } from './Folded.tsx';
import { type Asked, questionsOf, questionsText } from './questions.ts';

/** What could not be judged, by who usually knows it: each leads to its field, all of it goes as text to whoever is asked. */
export function Questions({ findings }: { readonly findings: readonly Finding[] }) {
  const open = findings.filter((each) => each.verdict === 'open' && each.missing.length > 0);
  return open.length === 0 ? null : (
    <Folded summary="What could not be judged, and who knows">{() => <List asked={questionsOf(open)} />}</Folded>
  );
}

function List({ asked }: { readonly asked: readonly Asked[] }) {
  const title = useEditor((state) => state.lineUp?.project.title ?? '');
  const [told, setTold] = useState('');
  const copy = () =>
    void navigator.clipboard
      .writeText(questionsText(title, asked))
      .then(() => setTold('Copied.'))
      .catch(() => setTold('This browser does not let the text be copied.'));
  return (
    <div className="questions">
      <p>
        <button type="button" onClick={copy}>
          Copy as text
        </button>{' '}
        <span className="muted" role="status">
          {told}
        </span>
      </p>
      {asked.map(({ ask, questions }) => (
        <section key={ask}>
          <h2>Ask: {ask}</h2>
          <ul>
            {questions.map(({ label, parts, checks }) => (
              <li key={label}>
                {label}:{' '}
                {parts.map(({ id, tag, field }) => (
                  <button key={`${id}/${field}`} type="button" className="quiet" onClick={() => select(id === '' ? [] : [id], field)}>
                    {tag}
                  </button>
                ))}
                <span className="muted">for {checks.join('; ')}</span>
              </li>
            ))}
          </ul>
        </section>
      ))}
    </div>
  );
}
