import { useEffect, useState } from 'react';
import { besideDifferences, type Difference, differences, type LineUp, newLineUp, oneLine, review, save } from '../../engine/index.ts';
import { keeper } from '../files/autosave.ts';
import { saveText } from '../files/lineUpFile.ts';
import { timeOf } from '../files/sealed.ts';
import type { Found } from '../files/states.ts';
import { Paint } from '../sheet/Paint.tsx';
import { edit, useEditor } from '../store/editorStore.ts';
import { Dialog } from './Dialog.tsx';
import '../ui/states.css';

/** How the open line-up stood before, as far as this browser keeps it: to be looked at, put back, or saved as a file. */
export default function StatesDialog({ lineUp, onClose }: { readonly lineUp: LineUp; readonly onClose: () => void }) {
  const [states, setStates] = useState<readonly Found[] | string | null>(null);
  const [looked, setLooked] = useState<string | null>(null);
  useEffect(() => {
    keeper.states().then(setStates, (fault: unknown) => setStates(fault instanceof Error ? fault.message : String(fault)));
  }, []);
  const list = Array.isArray(states) ? (states as readonly Found[]) : [];
  const shown = list.find(({ key }) => key === looked);
  return (
    <Dialog title={`Earlier states of ${lineUp.project.title}`} label="Earlier states" className="sizes states" onClose={onClose}>
      {(close) => (
        <>
          <p className="muted">
            Kept in this browser while you work, the older the farther apart. To put one back is one step, and can be undone.
          </p>
          {states === null && (
            <p className="muted" role="status">
              Reading…
            </p>
          )}
          {typeof states === 'string' && <p role="status">What this browser keeps could not be read: {states}.</p>}
          <div className="two">
            <ol aria-label="States, the newest first">
              {list.map((state) => (
                <Row
                  key={state.key}
                  state={state}
                  now={lineUp}
                  looked={state.key === looked}
                  look={() => setLooked(state.key === looked ? null : state.key)}
                  putBack={(before) => {
                    edit(`Put back ${timeText(state.key)}`, () => before, { select: [] });
                    close();
                  }}
                />
              ))}
            </ol>
            {shown?.lineUp && <Look key={shown.key} state={shown.key} before={shown.lineUp} now={lineUp} />}
          </div>
        </>
      )}
    </Dialog>
  );
}

/** As people of this place write the day and the time. */
const timeText = (key: string): string => new Date(timeOf(key)).toLocaleString(undefined, { dateStyle: 'medium', timeStyle: 'medium' });

const sizeText = (characters: number): string => `${(characters / 1000).toFixed(1)} kB`;

const counted = (count: number, one: string, several: string): string => `${count} ${count === 1 ? one : several}`;

/** What sets a state apart from the present one, in a few words. */
function apart(before: LineUp, now: LineUp): string {
  const differing = allDifferences(before, now).length;
  if (differing > 0) return counted(differing, 'difference', 'differences');
  return save(before) === save(now) ? 'as it is now' : 'only places on the sheet, issues or variants differ';
}

const allDifferences = (before: LineUp, now: LineUp): readonly Difference[] => [
  ...differences(before, now),
  ...besideDifferences(before, now),
];

interface RowProps {
  readonly state: Found;
  readonly now: LineUp;
  readonly looked: boolean;
  readonly look: () => void;
  readonly putBack: (before: LineUp) => void;
}

function Row({ state: { key, text, lineUp, fault }, now, looked, look, putBack }: RowProps) {
  const following = useEditor((state) => state.following);
  const time = timeText(key);
  const saveAs = () =>
    void saveText(
      text,
      `${lineUp ? 'line-up' : 'not-readable'}-${new Date(timeOf(key)).toISOString().slice(0, 19).replaceAll(':', '')}.json`,
    );
  return (
    <li className={looked ? 'looked' : ''}>
      <span className="what">
        <b>{time}</b>
        {lineUp ? (
          <span>
            {counted(lineUp.elements.length, 'part', 'parts')}, {counted(lineUp.cables.length, 'cable', 'cables')}, {sizeText(text.length)}{' '}
            · {apart(lineUp, now)}
          </span>
        ) : (
          <span>cannot be read: {fault}</span>
        )}
      </span>
      <span className="acts">
        {lineUp && (
          <>
            <button type="button" aria-pressed={looked} aria-label={`Look at ${time}`} onClick={look}>
              Look
            </button>
            <button type="button" disabled={following} aria-label={`Put back ${time}`} onClick={() => putBack(lineUp)}>
              Put back
            </button>
          </>
        )}
        <button type="button" aria-label={`Save as a file: ${time}`} onClick={saveAs}>
          Save as a file
        </button>
      </span>
    </li>
  );
}

const MARGIN_mm = 5;

function Look({ state, before, now }: { readonly state: string; readonly before: LineUp; readonly now: LineUp }) {
  // It is looked at, not judged: verdicts belong to what is open.
  const drawn = oneLine(before, review(newLineUp(before.project.basis)));
  const differing = allDifferences(before, now);
  return (
    <section aria-label={`The state of ${timeText(state)}`}>
      {before.elements.length === 0 ? (
        <p className="muted">An empty sheet.</p>
      ) : (
        <svg
          viewBox={`${drawn.x_mm - MARGIN_mm} ${drawn.y_mm - MARGIN_mm} ${drawn.width_mm + 2 * MARGIN_mm} ${drawn.height_mm + 2 * MARGIN_mm}`}
          role="img"
          aria-label={`One-line of ${timeText(state)}`}
        >
          <Paint items={drawn.items} />
        </svg>
      )}
      <b>Since then</b>
      {differing.length === 0 && <p className="muted">Nothing that is listed differs.</p>}
      <ul>
        {differing.map((each) => (
          <li key={`${each.id}/${each.tag}`}>{inWords(each)}</li>
        ))}
      </ul>
    </section>
  );
}

const inWords = ({ tag, kind, changes }: Difference): string => {
  const told = changes.map(({ label, before, after }) => `${label} ${before} → ${after}`).join('; ');
  return [kind === 'changed' ? tag : `${tag} ${kind}`, told].filter(Boolean).join(': ');
};
