import { type IDBPDatabase, openDB } from 'idb';
import { type LineUp, load, save } from '../../engine/index.ts';
import { openText, setSaved, useEditor } from '../store/editorStore.ts';

/** Keeps the work in the browser: written at most 300 ms after an edit, and at once when the page is hidden or left. */

const DELAY_MS = 300;
/** What is open, and what was open before another line-up took its place. */
type Key = 'current' | 'before';
/** Kept open: while a page is being left there is no time to open anything, only to begin a write. */
let opened: IDBPDatabase | null = null;
const database = async (): Promise<IDBPDatabase> => {
  opened ??= await openDB('copperline', 1, {
    upgrade: (db) => void db.createObjectStore('lineUps'),
    terminated: () => {
      opened = null;
    },
  });
  return opened;
};

async function put(key: Key, lineUp: LineUp): Promise<void> {
  const transaction = (opened ?? (await database())).transaction('lineUps', 'readwrite', { durability: 'strict' });
  const written = transaction.store.put(save(lineUp), key);
  // A page that is being left would otherwise be gone before the transaction ends by itself.
  transaction.commit();
  await Promise.all([written, transaction.done]);
}

/** The sign tells the truth: saved only while nothing newer waits. */
async function write(): Promise<void> {
  const { lineUp } = useEditor.getState();
  if (!lineUp) return;
  try {
    await put('current', lineUp);
    const now = useEditor.getState();
    // What is in a file already need not say less.
    if (now.lineUp === lineUp && now.saved !== 'saved to file') setSaved('saved in this browser');
  } catch {
    setSaved('not saved');
  }
}

/** The line-up that was open before the present one, if it can still be read. */
export async function keptBefore(): Promise<LineUp | null> {
  try {
    const kept: unknown = await (await database()).get('lineUps', 'before' satisfies Key);
    const loaded = typeof kept === 'string' ? load(kept, 'before') : null;
    return loaded?.ok && loaded.lineUp.elements.length > 0 ? loaded.lineUp : null;
  } catch {
    return null;
  }
}

/** Opens what was kept, then keeps every edit from here on. */
export async function startAutosave(): Promise<void> {
  try {
    const kept: unknown = await (await database()).get('lineUps', 'current' satisfies Key);
    if (typeof kept === 'string') openText(kept, 'the work kept in this browser');
  } catch {
    setSaved('not saved');
  }
  let timer: ReturnType<typeof setTimeout> | undefined;
  const writeNow = () => {
    clearTimeout(timer);
    timer = undefined;
    void write();
  };
  useEditor.subscribe((state, before) => {
    if (state.lineUp === before.lineUp) return;
    // Another line-up was opened over one that had been worked on: that one can be taken up again.
    if (state.opened !== before.opened && before.lineUp && before.past.length > 0) void put('before', before.lineUp).catch(() => undefined);
    setSaved('saving…');
    // The clock is not set back by further edits: someone who never pauses is saved too.
    timer ??= setTimeout(writeNow, DELAY_MS);
  });
  const flush = () => timer !== undefined && writeNow();
  addEventListener('pagehide', flush);
  document.addEventListener('visibilitychange', () => document.visibilityState === 'hidden' && flush());
}
