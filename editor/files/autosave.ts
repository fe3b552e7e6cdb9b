import { type IDBPDatabase, openDB } from 'idb';
import { type LineUp, load, save } from '../../engine/index.ts';
import { openText, setSaved, useEditor } from '../store/editorStore.ts';

/** Keeps the work in the browser: written at most 300 ms after an edit, and at once when the page is hidden or left. */

const DELAY_MS = 300;
/** What is open; and by the time they were kept, line-ups that gave way to another, or went to a file. */
const CURRENT = 'current';
const KEPT = 'kept/';
const MOST_KEPT = 8;
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

async function put(key: string, lineUp: LineUp): Promise<void> {
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
    await put(CURRENT, lineUp);
    const now = useEditor.getState();
    // What is in a file already need not say less.
    if (now.lineUp === lineUp && now.saved !== 'saved to file') setSaved('saved in this browser');
  } catch {
    setSaved('not saved');
  }
}

export interface Kept {
  /** When, in milliseconds. */
  readonly at: number;
  readonly lineUp: LineUp;
}

const keptKeys = async (): Promise<readonly string[]> =>
  (await (await database()).getAllKeys('lineUps')).flatMap((key) => (typeof key === 'string' && key.startsWith(KEPT) ? [key] : [])).sort();

/** Keeps a line-up as it is now; of too many the oldest goes. One that was kept last already is not kept twice. */
export async function keep(lineUp: LineUp): Promise<void> {
  const keys = await keptKeys();
  const db = await database();
  const last = keys.at(-1);
  if (last !== undefined && (await db.get('lineUps', last)) === save(lineUp)) return;
  await put(`${KEPT}${Date.now()}`, lineUp);
  for (const key of keys.slice(0, Math.max(0, keys.length + 1 - MOST_KEPT))) await db.delete('lineUps', key);
}

/** What was kept and can still be read, the newest first. */
export async function keptOnes(): Promise<readonly Kept[]> {
  try {
    const db = await database();
    const read = await Promise.all(
      (await keptKeys()).map(async (key): Promise<readonly Kept[]> => {
        const text: unknown = await db.get('lineUps', key);
        const loaded = typeof text === 'string' ? load(text, key) : null;
        return loaded?.ok && loaded.lineUp.elements.length > 0 ? [{ at: Number(key.slice(KEPT.length)), lineUp: loaded.lineUp }] : [];
      }),
    );
    return read.flat().reverse();
  } catch {
    return [];
  }
}

/** Opens what was kept, then keeps every edit from here on. */
export async function startAutosave(): Promise<void> {
  try {
    const kept: unknown = await (await database()).get('lineUps', CURRENT);
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
    if (state.opened !== before.opened && before.lineUp && before.past.length > 0) void keep(before.lineUp).catch(() => undefined);
    setSaved('saving…');
    // The clock is not set back by further edits: someone who never pauses is saved too.
    timer ??= setTimeout(writeNow, DELAY_MS);
  });
  const flush = () => timer !== undefined && writeNow();
  addEventListener('pagehide', flush);
  document.addEventListener('visibilitychange', () => document.visibilityState === 'hidden' && flush());
}
