import { useState } from 'react';
import {
  asIssued,
  type Difference,
  deleteIssue,
  differences,
  freeze,
  type Issue,
  type IssueFacts,
  issuesOf,
  type LineUp,
  paperDifferences,
  revisionOf,
} from '../../engine/index.ts';
import type { Format } from '../../engine/submittal/formats.ts';
import { exportPackage } from '../files/exportPackage.ts';
import { edit, refuse, useEditor } from '../store/editorStore.ts';
import { Folded } from './Folded.tsx';

/** Issues the present revision, and keeps those that were issued, the latest first. */
export function Issues({ lineUp }: { readonly lineUp: LineUp }) {
  const issues = issuesOf(lineUp);
  const revision = revisionOf(lineUp);
  return (
    <section aria-label="Revisions">
      {/* After an issue the form begins anew. */}
      <IssueForm key={revision} lineUp={lineUp} revision={revision} />
      <h2>Issued</h2>
      {issues.length === 0 && (
        <p className="muted">Nothing yet. What is issued is kept here as it is, and the next revision is compared with it.</p>
      )}
      <ul aria-label="Issued" className="log">
        {issues.toReversed().map((issue) => (
          <IssueRow key={issue.id} issue={issue} lineUp={lineUp} />
        ))}
      </ul>
    </section>
  );
}

export const today = (): string => new Date().toISOString().slice(0, 10);

function IssueForm({ lineUp, revision }: { readonly lineUp: LineUp; readonly revision: string }) {
  const { project } = lineUp;
  const stale = useEditor((state) => state.stale);
  const reason = useEditor((state) => state.reason);
  const [facts, setFacts] = useState<Required<IssueFacts>>({
    date: /^\d{4}-\d{2}-\d{2}$/.test(project.date ?? '') ? (project.date ?? '') : today(),
    says: '',
    by: project.createdBy ?? '',
    checkedBy: project.checkedBy ?? '',
  });
  const field = (label: string, name: keyof IssueFacts, type: 'date' | 'text' = 'text') => (
    <label>
      {label}
      <input
        type={type}
        maxLength={2000}
        value={facts[name]}
        onChange={({ target }) => setFacts((before) => ({ ...before, [name]: target.value }))}
      />
    </label>
  );
  const issue = () => {
    // A verdict may have gone stale since the button was drawn.
    if (useEditor.getState().stale) return refuse('The line-up is still being judged: issue it when the verdict is there.');
    edit(`Issue revision ${revision}`, (before) => freeze(before, facts));
    if (useEditor.getState().lineUp === lineUp)
      refuse('There is no room for another issue. Keep the oldest as a file, then take it out here.');
  };
  return (
    <form
      className="issue"
      onSubmit={(event) => {
        event.preventDefault();
        issue();
      }}
    >
      {field('Date of issue', 'date', 'date')}
      {field('By', 'by')}
      {field('Checked', 'checkedBy')}
      <div className="whole">{field('What it is for', 'says')}</div>
      <p>
        <button type="submit" className="main" disabled={stale || facts.date === ''}>
          Issue revision {revision}
        </button>
        <span className="muted" role="status">
          {reason ??
            (stale
              ? 'The line-up is still being judged.'
              : facts.date === ''
                ? 'It needs a date.'
                : 'It is frozen as it is now, and the line-up goes on as the next revision.')}
        </span>
      </p>
    </form>
  );
}

function IssueRow({ issue, lineUp }: { readonly issue: Issue; readonly lineUp: LineUp }) {
  const { id, revision, date, says, by, checkedBy } = issue;
  const [writing, setWriting] = useState(false);
  const hand = async (format: Format) => {
    setWriting(true);
    await exportPackage(format, { issued: { lineUp: asIssued(lineUp, issue), date } });
    setWriting(false);
  };
  return (
    <li aria-label={`Revision ${revision}`}>
      <p>
        <b>Revision {revision}</b> {[date, by && `by ${by}`, checkedBy && `checked by ${checkedBy}`].filter(Boolean).join(', ')}
      </p>
      {says && <p>{says}</p>}
      <Folded summary="What changed since">
        {() => <Changes found={[...differences(issue.design, lineUp), ...paperDifferences(issue.design, lineUp)]} />}
      </Folded>
      <p>
        <button type="button" className="quiet" disabled={writing} onClick={() => void hand('pdf')}>
          {writing ? 'Writing…' : 'Its package'}
        </button>
        <button type="button" className="quiet" disabled={writing} onClick={() => void hand('json')}>
          As a line-up of its own
        </button>
        <button
          type="button"
          className="quiet"
          aria-label={`Take out revision ${revision}`}
          onClick={() => edit(`Take out revision ${revision}`, (before) => deleteIssue(before, id))}
        >
          Take out
        </button>
      </p>
    </li>
  );
}

/** More than anyone reads here; the package lists them all. */
const MOST_SHOWN = 200;
const WORDS = { added: 'new', removed: 'taken out', changed: '' } as const;

function Changes({ found }: { readonly found: readonly Difference[] }) {
  if (found.length === 0) return <p className="muted">Nothing.</p>;
  return (
    <ul className="differing">
      {found.slice(0, MOST_SHOWN).map(({ id, tag, kind, changes }) => (
        <li key={`${id}/${tag}`}>
          <b>{tag}</b> {WORDS[kind]}
          {kind !== 'changed' && changes.length > 0 && ': '}
          {changes.map(({ label, before, after }) => `${label} ${before}, now ${after}`).join('; ')}
        </li>
      ))}
      {found.length > MOST_SHOWN && <li>{found.length - MOST_SHOWN} more, in the package.</li>}
    </ul>
  );
}
