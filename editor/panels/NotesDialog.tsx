import { useState } from 'react';
import { addNote, changeNote, deleteNote, type LineUp, MOST_NOTES, moveNote, type Note, notesOf } from '../../engine/index.ts';
import { partsOf } from '../commands/related.ts';
import { edit, useEditor } from '../store/editorStore.ts';
import { Dialog } from './Dialog.tsx';

/** Notes of the drawing in their order, which is their number; each for all of it, or tied to parts. */
export default function NotesDialog({ lineUp, onClose }: { readonly lineUp: LineUp; readonly onClose: () => void }) {
  const [draft, setDraft] = useState('');
  const selected = useEditor((state) => state.selected);
  const notes = notesOf(lineUp);
  const add = () => {
    if (draft.trim() === '') return;
    edit('Add a note', (before) => addNote(before, draft.trim(), selected));
    setDraft('');
  };
  const tags = (ids: readonly string[]): string =>
    partsOf(lineUp)
      .flatMap(({ id, tag }) => (ids.includes(id) ? [tag] : []))
      .join(', ');
  return (
    <Dialog title="Notes on the drawing" label="Notes" className="sizes notes" onClose={onClose}>
      {notes.length === 0 && <p className="muted">There are none yet. A note that is tied to parts stands beside them by its number.</p>}
      <ol>
        {notes.map((note, i) => (
          <OneNote
            key={note.id}
            note={note}
            number={i + 1}
            last={i === notes.length - 1}
            tags={tags(note.parts ?? [])}
            selected={selected}
          />
        ))}
      </ol>
      <label>
        New note
        <textarea value={draft} rows={2} maxLength={2000} onChange={({ target }) => setDraft(target.value)} />
      </label>
      <p>
        <button type="button" className="main" disabled={draft.trim() === '' || notes.length >= MOST_NOTES} onClick={add}>
          Add note
        </button>{' '}
        <span className="muted">
          {selected.length > 0 ? `For ${tags(selected)}, which ${selected.length === 1 ? 'is' : 'are'} chosen.` : 'For all of the drawing.'}
        </span>
      </p>
    </Dialog>
  );
}

interface OneNoteProps {
  readonly note: Note;
  readonly number: number;
  readonly last: boolean;
  readonly tags: string;
  readonly selected: readonly string[];
}

function OneNote({ note, number, last, tags, selected }: OneNoteProps) {
  const { id, says } = note;
  const change = (next: string) =>
    next.trim() !== '' && next !== says && edit('Change a note', (before) => changeNote(before, id, { says: next.trim() }));
  const tie = (parts: string[]) => edit('Tie a note', (before) => changeNote(before, id, { parts }));
  return (
    <li>
      <textarea
        aria-label={`Note ${number}`}
        key={says}
        defaultValue={says}
        rows={2}
        maxLength={2000}
        onBlur={({ target }) => change(target.value)}
      />
      <p>
        <span className="muted">{tags === '' ? 'For all of the drawing' : `For ${tags}`}</span>{' '}
        {selected.length > 0 && (
          <button type="button" className="quiet" onClick={() => tie([...selected])}>
            Tie to what is chosen
          </button>
        )}
        {tags !== '' && (
          <button type="button" className="quiet" onClick={() => tie([])}>
            For all
          </button>
        )}
        <button
          type="button"
          className="quiet"
          disabled={number === 1}
          aria-label={`Note ${number} up`}
          onClick={() => edit('Move a note', (before) => moveNote(before, id, -1))}
        >
          Up
        </button>
        <button
          type="button"
          className="quiet"
          disabled={last}
          aria-label={`Note ${number} down`}
          onClick={() => edit('Move a note', (before) => moveNote(before, id, 1))}
        >
          Down
        </button>
        <button
          type="button"
          className="quiet"
          aria-label={`Delete note ${number}`}
          onClick={() => edit('Delete a note', (before) => deleteNote(before, id))}
        >
          Delete
        </button>
      </p>
    </li>
  );
}
