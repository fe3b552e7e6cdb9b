import { ReactFlowProvider } from '@xyflow/react';
import { type DragEvent, useEffect, useState } from 'react';
import { startAutosave } from './files/autosave.ts';
import { onKey } from './keys.ts';
import { Header } from './panels/Header.tsx';
import { Reader } from './panels/Reader.tsx';
import { Refusal } from './panels/Refusal.tsx';
import { Start } from './panels/Start.tsx';
import { Tray } from './panels/Tray.tsx';
import { useTheme } from './panels/theme.ts';
import { Sheet } from './sheet/Sheet.tsx';
import { familyOf } from './sheet/scale.ts';
import { openText, useEditor } from './store/editorStore.ts';

let autosaving: Promise<void> | null = null;

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
        <ReactFlowProvider key={opened}>
          <main className="app">
            <Header lineUp={lineUp} review={review} theme={theme} />
            <Tray family={familyOf(lineUp)} />
            <Sheet lineUp={lineUp} review={review} />
            <Reader lineUp={lineUp} review={review} />
          </main>
        </ReactFlowProvider>
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
