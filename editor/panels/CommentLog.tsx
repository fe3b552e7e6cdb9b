import { useState } from 'react';
import {
  addComment,
  type Comment,
  type CommentChange,
  changeComment,
  commentsOf,
  deleteComment,
  type LineUp,
  lastIssue,
  MOST_COMMENTS,
} from '../../engine/index.ts';
import { partsOf } from '../commands/related.ts';
import { edit, useEditor } from '../store/editorStore.ts';
import { Folded } from './Folded.tsx';
import { today } from './Issues.tsx';

/** What the reviewer wrote: answered, tied to what the answer changed, and closed. */
export function CommentLog({ lineUp }: { readonly lineUp: LineUp }) {
  const selected = useEditor((state) => state.selected);
  const [draft, setDraft] = useState({ says: '', sheet: '', from: '' });
  const comments = commentsOf(lineUp);
  const open = comments.filter((each) => !each.closed).length;
  const add = () => {
    edit('Add a comment', (before) => addComment(before, { ...draft, says: draft.says.trim(), parts: [...selected] }));
    // The next one is mostly by the same hand.
    setDraft(({ from }) => ({ says: '', sheet: '', from }));
  };
  const field = (label: string, name: 'sheet' | 'from') => (
    <label>
      {label}
      <input maxLength={200} value={draft[name]} onChange={({ target }) => setDraft((before) => ({ ...before, [name]: target.value }))} />
    </label>
  );
  return (
    <section aria-label="Comments">
      <h2>Comments{comments.length > 0 && `: ${comments.length}, ${open} of them open`}</h2>
      {comments.length === 0 && <p className="muted">None yet. Write down what the reviewer says; it is printed with your reply.</p>}
      <ol className="log">
        {comments.map((comment) => (
          <OneComment key={comment.id} comment={comment} lineUp={lineUp} selected={selected} />
        ))}
      </ol>
      <form
        className="issue"
        onSubmit={(event) => {
          event.preventDefault();
          add();
        }}
      >
        <label className="whole">
          New comment
          <textarea
            value={draft.says}
            rows={2}
            maxLength={2000}
            onChange={({ target }) => setDraft((before) => ({ ...before, says: target.value }))}
          />
        </label>
        {field('On sheet', 'sheet')}
        {field('From', 'from')}
        <p>
          <button type="submit" className="main" disabled={draft.says.trim() === '' || comments.length >= MOST_COMMENTS}>
            Add comment
          </button>{' '}
          {selected.length > 0 && (
            <span className="muted">
              Tied to {tagsOf(selected, lineUp)}, which {selected.length === 1 ? 'is' : 'are'} chosen.
            </span>
          )}
        </p>
      </form>
    </section>
  );
}

/** A part that is gone is still known to the last issue. */
function tagsOf(ids: readonly string[], lineUp: LineUp): string {
  const design = lastIssue(lineUp)?.design;
  const tags = new Map([...(design ? [...design.elements, ...design.cables] : []), ...partsOf(lineUp)].map((each) => [each.id, each.tag]));
  return ids.map((id) => tags.get(id) ?? 'a part that is gone').join(', ');
}

interface OneCommentProps {
  readonly comment: Comment;
  readonly lineUp: LineUp;
  readonly selected: readonly string[];
}

function OneComment({ comment, lineUp, selected }: OneCommentProps) {
  const { number, sheet, says, closed } = comment;
  return (
    <li aria-label={`Comment ${number}`}>
      <Folded
        summary={
          <>
            <b>{number}</b> {sheet && <span className="muted">sheet {sheet}</span>} {says}{' '}
            <span className="muted">{closed ? `closed ${closed}` : 'open'}</span>
          </>
        }
      >
        {() => <Answer comment={comment} lineUp={lineUp} selected={selected} />}
      </Folded>
    </li>
  );
}

function Answer({ comment, lineUp, selected }: OneCommentProps) {
  const { id, number, says, sheet = '', from = '', reply = '', parts = [], closed } = comment;
  const [date, setDate] = useState(today);
  const change = (label: string, next: CommentChange) => edit(`${label} ${number}`, (before) => changeComment(before, id, next));
  return (
    <>
      <div className="issue">
        <label className="whole">
          Comment
          <textarea
            key={says}
            defaultValue={says}
            rows={2}
            maxLength={2000}
            onBlur={({ target }) => {
              const next = target.value.trim();
              if (next === '') target.value = says;
              else if (next !== says) change('Change comment', { says: next });
            }}
          />
        </label>
        {(['sheet', 'from'] as const).map((name) => {
          const was = name === 'sheet' ? sheet : from;
          return (
            <label key={`${name} ${was}`}>
              {name === 'sheet' ? 'On sheet' : 'From'}
              <input
                defaultValue={was}
                maxLength={200}
                onBlur={({ target }) => target.value.trim() !== was && change('Change comment', { [name]: target.value.trim() })}
              />
            </label>
          );
        })}
        <label className="whole">
          Reply
          <textarea
            key={reply}
            defaultValue={reply}
            rows={2}
            maxLength={2000}
            onBlur={({ target }) => target.value.trim() !== reply && change('Answer comment', { reply: target.value.trim() })}
          />
        </label>
      </div>
      <p>
        <span className="muted">{parts.length > 0 ? `Tied to ${tagsOf(parts, lineUp)}` : 'Tied to no part'}</span>{' '}
        {selected.length > 0 && (
          <button type="button" className="quiet" onClick={() => change('Tie comment', { parts: [...selected] })}>
            Tie to {tagsOf(selected, lineUp)}
          </button>
        )}
        {parts.length > 0 && (
          <button type="button" className="quiet" onClick={() => change('Untie comment', { parts: [] })}>
            Untie
          </button>
        )}
      </p>
      <p className="closing">
        {closed ? (
          <>
            <span className="muted">Closed {closed}</span>
            <button type="button" className="quiet" onClick={() => change('Open comment', { closed: undefined })}>
              Open again
            </button>
          </>
        ) : (
          <>
            <label>
              Closed on
              <input type="date" value={date} onChange={({ target }) => setDate(target.value)} />
            </label>
            <button type="button" disabled={date === ''} onClick={() => change('Close comment', { closed: date })}>
              Close comment {number}
            </button>
          </>
        )}
        <button
          type="button"
          className="quiet"
          aria-label={`Delete comment ${number}`}
          onClick={() => edit(`Delete comment ${number}`, (before) => deleteComment(before, id))}
        >
          Delete
        </button>
      </p>
    </>
  );
}
