import { openDB } from 'idb';
import { asText, openText, setSaved, useEditor } from '../store/editorStore.ts';

/** Keeps the work in the browser: written at most 300 ms after an edit, and at once when the page is hidden or left. */

const DELAY_MS = 300;
const KEY = 'current';
const database = () => openDB('copperline', 1, { upgrade: (db) => void db.createObjectStore('lineUps') });

async function write(): Promise<void> {
  const text = asText();
  try {
    const db = await database();
    const transaction = db.transaction('lineUps', 'readwrite', { durability: 'strict' });
    await (text === null ? transaction.store.delete(KEY) : transaction.store.put(text, KEY));
    await transaction.done;
    if (text !== null) setSaved('saved in this browser');
  } catch {
    setSaved('not saved');
  }
}

/** Opens what was kept, then keeps every edit from here on. */
export async function startAutosave(): Promise<void> {
  try {
    const kept: unknown = await (await database()).get('lineUps', KEY);
    if (typeof kept === 'string') openText(kept, 'the work kept in this browser');
  } catch {
    setSaved('not saved');
  }
  let timer: ReturnType<typeof setTimeout> | undefined;
  useEditor.subscribe((state, before) => {
    if (state.lineUp === before.lineUp) return;
    if (state.lineUp) setSaved('saving…');
    clearTimeout(timer);
    timer = setTimeout(() => {
      timer = undefined;
      void write();
    }, DELAY_MS);
  });
  const flush = () => {
    if (timer === undefined) return;
    clearTimeout(timer);
    timer = undefined;
    void write();
  };
  addEventListener('pagehide', flush);
  document.addEventListener('visibilitychange', () => document.visibilityState === 'hidden' && flush());
}
