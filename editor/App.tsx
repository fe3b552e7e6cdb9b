import { type DragEvent, lazy, Suspense, useEffect, useState } from 'react';
import { onKey } from './commands/keyboard.ts';
import { startAutosave } from './files/autosave.ts';
import { guardLeaving, openDropped } from './files/lineUpFile.ts';
import { Refusal } from './panels/Refusal.tsx';
import { Start } from './panels/Start.tsx';
import { useDesk } from './store/deskStore.ts';
import { useEditor } from './store/editorStore.ts';

const loadWorkspace = () => import('./Workspace.tsx');
const Workspace = lazy(loadWorkspace);
const loadKeys = () => import('./panels/Keys.tsx');
const Keys = lazy(loadKeys);

let autosaving: Promise<void> | null = null;

/** While the sheet is still being fetched. */
function Opening() {
  return (
    <main className="start">
      <h1>Copperline</h1>
      <p role="status">Opening the sheet…</p>
    </main>
  );
}

export function App() {
  const lineUp = useEditor((state) => state.lineUp);
  const review = useEditor((state) => state.review);
  const atStart = useEditor((state) => state.atStart);
  const opened = useEditor((state) => state.opened);
  const reason = useEditor((state) => state.reason);
  const [ready, setReady] = useState(false);
  const keysShown = useDesk((state) => state.keysShown);

  useEffect(() => {
    autosaving ??= startAutosave();
    void autosaving.then(() => setReady(true));
    // The start page does without the sheet; by the time someone opens a line-up it is there.
    void loadWorkspace();
    void loadKeys();
  }, []);
  useEffect(guardLeaving, []);
  useEffect(() => {
    window.addEventListener('keydown', onKey);
    return () => window.removeEventListener('keydown', onKey);
  }, []);

  if (!ready) return null;
  const onDrop = (event: DragEvent) => {
    event.preventDefault();
    const file = event.dataTransfer.files[0];
    if (file) void openDropped(file);
  };
  return (
    // A file may be dropped anywhere; everything else on the page has controls of its own.
    // biome-ignore lint/a11y/noStaticElementInteractions: dropping a file is one of three ways; the other two are buttons
    <div className="page" onDragOver={(event) => event.preventDefault()} onDrop={onDrop}>
      {lineUp && review && !atStart ? (
        <Suspense fallback={<Opening />}>
          <Workspace key={opened} lineUp={lineUp} review={review} />
        </Suspense>
      ) : (
        <Start />
      )}
      <div role="status" aria-label="Reason" className={reason ? 'refusal' : ''}>
        {reason}
      </div>
      <Refusal />
      <Suspense>{keysShown && <Keys />}</Suspense>
    </div>
  );
}
