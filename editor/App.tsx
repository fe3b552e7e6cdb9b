import { type DragEvent, lazy, Suspense, useEffect, useState } from 'react';
import { startAutosave } from './files/autosave.ts';
import { onKey } from './keys.ts';
import { Refusal } from './panels/Refusal.tsx';
import { Start } from './panels/Start.tsx';
import { useTheme } from './panels/theme.ts';
import { openText, useEditor } from './store/editorStore.ts';

const loadWorkspace = () => import('./Workspace.tsx');
const Workspace = lazy(loadWorkspace);

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
  const theme = useTheme();

  useEffect(() => {
    autosaving ??= startAutosave();
    void autosaving.then(() => setReady(true));
    // The start page does without the sheet; by the time someone opens a line-up it is there.
    void loadWorkspace();
  }, []);
  useEffect(() => {
    const listen = (event: KeyboardEvent) => onKey(event, () => document.querySelector<HTMLButtonElement>('.tray button')?.focus());
    window.addEventListener('keydown', listen);
    return () => window.removeEventListener('keydown', listen);
  }, []);

  if (!ready) return null;
  const onDrop = (event: DragEvent) => {
    event.preventDefault();
    const file = event.dataTransfer.files[0];
    if (file) void file.text().then((text) => openText(text, file.name));
  };
  return (
    // A file may be dropped anywhere; everything else on the page has controls of its own.
    // biome-ignore lint/a11y/noStaticElementInteractions: dropping a file is one of three ways; the other two are buttons
    <div className="page" onDragOver={(event) => event.preventDefault()} onDrop={onDrop}>
      {lineUp && review && !atStart ? (
        <Suspense fallback={<Opening />}>
          <Workspace key={opened} lineUp={lineUp} review={review} theme={theme} />
        </Suspense>
      ) : (
        <Start />
      )}
      <div role="status" aria-label="Reason" className={reason ? 'refusal' : ''}>
        {reason}
      </div>
      <Refusal />
    </div>
  );
}
