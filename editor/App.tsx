import { ReactFlowProvider } from '@xyflow/react';
import { type DragEvent, useCallback, useEffect, useRef, useState } from 'react';
import type { ElementKind } from '../engine/index.ts';
import { startAutosave } from './files/autosave.ts';
import { onKey } from './keys.ts';
import { Header } from './panels/Header.tsx';
import { Reader } from './panels/Reader.tsx';
import { Start } from './panels/Start.tsx';
import { Tray } from './panels/Tray.tsx';
import { Sheet } from './sheet/Sheet.tsx';
import { closeRefusal, openText, useEditor } from './store/editorStore.ts';

let autosaving: Promise<void> | null = null;

export function App() {
  const lineUp = useEditor((state) => state.lineUp);
  const review = useEditor((state) => state.review);
  const refused = useEditor((state) => state.refused);
  const [ready, setReady] = useState(false);
  const [waiting, setWaiting] = useState<ElementKind | null>(null);
  const dialog = useRef<HTMLDialogElement>(null);
  const placed = useCallback(() => setWaiting(null), []);

  useEffect(() => {
    autosaving ??= startAutosave();
    void autosaving.then(() => setReady(true));
  }, []);
  useEffect(() => {
    const listen = (event: KeyboardEvent) => onKey(event, () => document.querySelector<HTMLButtonElement>('.tray button')?.focus());
    window.addEventListener('keydown', listen);
    return () => window.removeEventListener('keydown', listen);
  }, []);
  useEffect(() => {
    if (refused) dialog.current?.showModal();
  }, [refused]);

  if (!ready) return null;
  const onDrop = (event: DragEvent) => {
    event.preventDefault();
    const file = event.dataTransfer.files[0];
    if (file) void file.text().then((text) => openText(text, file.name));
  };
  return (
    // A file may be dropped anywhere; everything else on the page has controls of its own.
    // biome-ignore lint/a11y/noStaticElementInteractions: dropping a file is one of three ways; the other two are buttons
    <div style={{ height: '100%' }} onDragOver={(event) => event.preventDefault()} onDrop={onDrop}>
      {lineUp && review ? (
        <ReactFlowProvider>
          <main className="app">
            <Header lineUp={lineUp} review={review} />
            <Tray family={lineUp.project.symbols ?? lineUp.project.basis} waiting={waiting} onWait={setWaiting} />
            <Sheet lineUp={lineUp} review={review} waiting={waiting} onPlaced={placed} />
            <Reader lineUp={lineUp} review={review} />
          </main>
        </ReactFlowProvider>
      ) : (
        <Start />
      )}
      {refused && (
        <dialog ref={dialog} onClose={closeRefusal} aria-label="The file was not opened">
          <h2 className="serif">The file was not opened</h2>
          <p>
            <b>{refused.where}</b>: {refused.what}.
          </p>
          <p>{refused.mend}</p>
          <p className="muted">What you had open is untouched.</p>
          <button type="button" className="main" onClick={() => dialog.current?.close()}>
            Close
          </button>
        </dialog>
      )}
    </div>
  );
}
