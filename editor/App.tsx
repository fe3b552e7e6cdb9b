import { type DragEvent, useEffect } from 'react';
import { startAutosave } from './files/autosave.ts';
import { guardLeaving } from './files/filed.ts';
import { late, notFetched } from './panels/late.tsx';
import { Refusal } from './panels/Refusal.tsx';
import { useDesk } from './store/deskStore.ts';
import { useEditor } from './store/editorStore.ts';

const Workspace = late(() => import('./Workspace.tsx'), <Opening />);
const Start = late(() => import('./panels/Start.tsx'), <Opening />);
const Keys = late(() => import('./panels/Keys.tsx'));
const NewerVersion = late(() => import('./panels/NewerVersion.tsx'));
const FromLink = late(() => import('./panels/FromLink.tsx'));
const loadFiles = () => import('./files/lineUpFile.ts');

/** What was worked on last is opened, and the sheet for it fetched, before anything is drawn; else the start page, which does without the sheet. */
export async function begin(): Promise<void> {
  // What cannot be fetched now is asked for again when it is shown, and said then.
  const [sheet, start] = [Workspace, Start].map((each) => each.fetched().catch(() => undefined));
  // Keys are heard before there is anything to be seen.
  const keys = import('./commands/keyboard.ts').then(({ onKey }) => window.addEventListener('keydown', onKey), notFetched);
  await startAutosave();
  await (useEditor.getState().lineUp ? Promise.all([sheet, keys]) : start);
}

/** While a page is still being fetched. */
function Opening() {
  return (
    <main className="start">
      <h1>Copperline</h1>
      <p role="status">Opening…</p>
    </main>
  );
}

/** On its own, so that a word to the hand draws nothing else anew. */
function Reason() {
  const reason = useEditor((state) => state.reason);
  return (
    <div role="status" aria-label="Reason" className={reason ? 'refusal' : ''}>
      {reason}
    </div>
  );
}

export function App() {
  const lineUp = useEditor((state) => state.lineUp);
  const review = useEditor((state) => state.review);
  const atStart = useEditor((state) => state.atStart);
  const opened = useEditor((state) => state.opened);
  const keysShown = useDesk((state) => state.keysShown);

  // Soon to be asked for, and not worth waiting for then.
  useEffect(() => {
    void Keys.fetched();
    void loadFiles();
  }, []);
  useEffect(guardLeaving, []);
  const onDrop = (event: DragEvent) => {
    event.preventDefault();
    const file = event.dataTransfer.files[0];
    if (file) void loadFiles().then(({ openDropped }) => openDropped(file));
  };
  return (
    // A file may be dropped anywhere; everything else on the page has controls of its own.
    // biome-ignore lint/a11y/noStaticElementInteractions: dropping a file is one of three ways; the other two are buttons
    <div className="page" onDragOver={(event) => event.preventDefault()} onDrop={onDrop}>
      {lineUp && review && !atStart ? <Workspace key={opened} lineUp={lineUp} review={review} /> : <Start />}
      <Reason />
      <Refusal />
      {keysShown && <Keys />}
      <NewerVersion />
      <FromLink />
    </div>
  );
}
