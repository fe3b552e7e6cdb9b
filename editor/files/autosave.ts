import { type IDBPDatabase, openDB } from 'idb';
import { type LineUp, load, save } from '../../engine/index.ts';
import { openText, refuse, setSaved, useEditor } from '../store/editorStore.ts';

/** Keeps the work in the browser: written at most 300 ms after an edit, and at once when the page is hidden or left. */

const DELAY_MS = 300;
/** What is open; and by the time they were kept, line-ups that gave way to another, or went to a file. */
const CURRENT = 'current';
const KEPT = 'kept/';
const MOST_KEPT = 8;
/** The key of what this tab laid aside, in what the browser keeps for this tab alone. */
const ASIDE = 'copperline.aside';
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

const put = (key: string, lineUp: LineUp): Promise<void> => putText(key, save(lineUp));

async function putText(key: string, text: string): Promise<void> {
  const transaction = (opened ?? (await database())).transaction('lineUps', 'readwrite', { durability: 'strict' });
  const written = transaction.store.put(text, key);
  // A page that is being left would otherwise be gone before the transaction ends by itself.
  transaction.commit();
  await Promise.all([written, transaction.done]);
}

/** Where this tab keeps its work: of several, one has the place that is opened next time, the others one each among those to take up again. */
let place = CURRENT;
/** Lets another tab have it. */
let letGo = (): void => undefined;

/** After a failure, and then twice as long each time. */
const FIRST_RETRY_MS = 2000;
const LAST_RETRY_MS = 60_000;
let turn = 0;
let retry_ms = FIRST_RETRY_MS;

/** The sign tells the truth: saved only while nothing newer waits. What an older write comes to say is of no interest. */
async function write(): Promise<void> {
  const { lineUp } = useEditor.getState();
  if (!lineUp) return;
  const mine = ++turn;
  try {
    await put(place, lineUp);
    retry_ms = FIRST_RETRY_MS;
    const now = useEditor.getState();
    // What is in a file already need not say less.
    if (now.lineUp === lineUp && now.saved !== 'saved to file') setSaved('saved in this browser');
  } catch {
    if (mine !== turn) return;
    setSaved('not saved');
    setTimeout(() => mine === turn && void write(), retry_ms);
    retry_ms = Math.min(2 * retry_ms, LAST_RETRY_MS);
  }
}

/** A page that is loaded anew may come before the browser has let go of the old one. */
const WAIT_MS = 800;

/** Whether this tab has the place that is opened next time, for as long as it lives. One that has to wait gets it when the other closes. */
function holdPlace(): Promise<boolean> {
  if (!navigator.locks) return Promise.resolve(true);
  const hold = () =>
    new Promise<void>((done) => {
      letGo = done;
    });
  return new Promise((resolve) => {
    navigator.locks
      .request(CURRENT, { signal: AbortSignal.timeout(WAIT_MS) }, () => {
        resolve(true);
        return hold();
      })
      .catch(() => {
        place = `${KEPT}${Date.now()}`;
        resolve(false);
        void navigator.locks.request(CURRENT, async () => {
          await takePlace().catch(() => setSaved('not saved'));
          return hold();
        });
      });
  });
}

/** The other tab is gone. What it had open goes to those that can be taken up again before this one takes its place. */
async function takePlace(): Promise<void> {
  const db = await database();
  const left: unknown = await db.get('lineUps', CURRENT);
  if (typeof left === 'string') await putText(`${KEPT}${Date.now()}`, left);
  const mine = place;
  place = CURRENT;
  const { lineUp } = useEditor.getState();
  if (lineUp) await put(CURRENT, lineUp);
  await db.delete('lineUps', mine);
}

export interface Kept {
  /** When, in milliseconds. */
  readonly at: number;
  /** Null: it cannot be read any more; its text is kept all the same. */
  readonly lineUp: LineUp | null;
  readonly text: string;
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

/** What was kept, the newest first. */
export async function keptOnes(): Promise<readonly Kept[]> {
  try {
    const db = await database();
    const read = await Promise.all(
      (await keptKeys()).map(async (key): Promise<readonly Kept[]> => {
        const text: unknown = await db.get('lineUps', key);
        if (typeof text !== 'string' || key === place) return [];
        const loaded = load(text, key);
        const at = Number(key.slice(KEPT.length));
        if (!loaded.ok) return [{ at, lineUp: null, text }];
        return loaded.lineUp.elements.length > 0 ? [{ at, lineUp: loaded.lineUp, text }] : [];
      }),
    );
    return read.flat().reverse();
  } catch {
    return [];
  }
}

let timer: ReturnType<typeof setTimeout> | undefined;
const stopClock = (): void => {
  clearTimeout(timer);
  timer = undefined;
};

/** Opens what was kept, then keeps every edit from here on. */
export async function startAutosave(): Promise<void> {
  try {
    const first = await holdPlace();
    const back = await takeBack(first);
    const kept: unknown = first && !back ? await (await database()).get('lineUps', CURRENT) : null;
    if (!first && !back) refuse('Copperline is open in another tab. What you begin here is kept beside it, and overwrites nothing.');
    if (typeof kept === 'string') {
      openText(kept, 'the work kept in this browser');
      // What cannot be read must not be written over by what comes next.
      if (useEditor.getState().refused) await putText(`${KEPT}${Date.now()}`, kept);
    }
  } catch {
    setSaved('not saved');
  }
  const writeNow = () => {
    stopClock();
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
  const writeLast = () => timer !== undefined && writeNow();
  addEventListener('pagehide', writeLast);
  document.addEventListener('visibilitychange', () => document.visibilityState === 'hidden' && writeLast());
}

/** Writes what is open at once. False: it could not be written. */
export async function flush(): Promise<boolean> {
  stopClock();
  const { lineUp } = useEditor.getState();
  try {
    if (lineUp) await put(place, lineUp);
    return true;
  } catch {
    setSaved('not saved');
    return false;
  }
}

/**
 * Lays the work where this tab alone finds it again and lets go of the place, before the tab is loaded anew: a second tab that waited
 * for the place may have it meanwhile. False: it could not be written, and all stays as it is.
 */
export async function handOver(): Promise<boolean> {
  stopClock();
  const { lineUp } = useEditor.getState();
  if (!lineUp) return true;
  const aside = `${KEPT}${Date.now()}`;
  try {
    await put(aside, lineUp);
    sessionStorage.setItem(ASIDE, aside);
    await (await database()).delete('lineUps', place);
  } catch {
    setSaved('not saved');
    return false;
  }
  place = aside;
  letGo();
  return true;
}

/** What this tab laid aside before it was loaded anew. */
async function takeBack(first: boolean): Promise<boolean> {
  const aside = sessionStorage.getItem(ASIDE);
  sessionStorage.removeItem(ASIDE);
  const text: unknown = aside && (await (await database()).get('lineUps', aside));
  if (!aside || typeof text !== 'string') return false;
  openText(text, 'the work kept in this browser');
  if (!first) place = aside;
  else if (!useEditor.getState().refused) {
    await putText(CURRENT, text);
    await (await database()).delete('lineUps', aside);
  }
  return true;
}
