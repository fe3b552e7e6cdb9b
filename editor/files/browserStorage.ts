import { type IDBPDatabase, type IDBPTransaction, openDB } from 'idb';
import { sha256 } from '../../engine/index.ts';
import { bringBack, forgetLeft, leave } from './leaving.ts';
import { keyOf, seal } from './sealed.ts';
import type { Storage } from './storage.ts';

/** Keeps in IndexedDB and locks by Web Locks. */

const STORE = 'states';
/** Until version 2 there was one present line-up and a row of bare texts. */
const STORE_1 = 'lineUps';

async function takeOver(transaction: IDBPTransaction<unknown, string[], 'versionchange'>): Promise<void> {
  const old = transaction.objectStore(STORE_1);
  const to = transaction.objectStore(STORE);
  for (const key of await old.getAllKeys()) {
    const text: unknown = await old.get(key);
    const at = Number(String(key).split('/')[1] ?? Date.now());
    if (typeof text === 'string') await to.put(seal(text), keyOf(`from-1-${at}`, at));
  }
  transaction.db.deleteObjectStore(STORE_1);
}

/** Kept open: while a page is being left there is no time to open anything, only to begin a write. */
let opened: IDBPDatabase | null = null;
/** One opening for all who ask meanwhile: a second connection would stay open unknown to anyone, and keep a newer program from its store. */
let opening: Promise<IDBPDatabase> | null = null;
const forget = (): void => {
  opened = null;
  opening = null;
};
async function open(): Promise<IDBPDatabase> {
  try {
    opened = await openDB('copperline', 2, {
      upgrade: async (db, version, _to, transaction) => {
        db.createObjectStore(STORE);
        if (version === 1) await takeOver(transaction);
      },
      // A tab with a newer program wants to bring the store up to date.
      blocking: () => {
        opened?.close();
        forget();
      },
      terminated: forget,
    });
    await bringBack(async (key, state) => void (await opened?.put(STORE, state, key)));
    return opened;
  } catch (fault) {
    forget();
    throw fault;
  }
}
const database = (): Promise<IDBPDatabase> => {
  opening ??= open();
  return opening;
};

async function change(act: (store: { put: IDBObjectStore['put']; delete: IDBObjectStore['delete'] }) => unknown): Promise<void> {
  const transaction = (opened ?? (await database())).transaction(STORE, 'readwrite', { durability: 'strict' });
  const done = act(transaction.store as never);
  // A page that is being left would otherwise be gone before the transaction ends by itself.
  transaction.commit();
  await Promise.all([done, transaction.done]);
}

/** By the browser itself where it may: at the start, when nothing has run yet, ours takes longer than all other reading. */
async function sum(text: string): Promise<string> {
  // Served without encryption from elsewhere there is none.
  if (!crypto.subtle) return sha256(text);
  const bytes = await crypto.subtle.digest('SHA-256', new TextEncoder().encode(text));
  return Array.from(new Uint8Array(bytes), (byte) => byte.toString(16).padStart(2, '0')).join('');
}

export const browserStorage: Storage = {
  read: async (key) => (await database()).get(STORE, key),
  write: async (key, value, atOnce) => {
    const left = atOnce === true && leave(key, value);
    await change((store) => store.put(value, key));
    if (left) forgetLeft(key);
  },
  list: async (prefix) => (await (await database()).getAllKeys(STORE, IDBKeyRange.bound(prefix, `${prefix}\uffff`))).map(String),
  delete: (key) => change((store) => store.delete(key)),
  sum,
  now: Date.now,
  lock: (name, signal) =>
    new Promise((resolve, reject) => {
      // Served without encryption from elsewhere there are no locks. States are never written over, so that two tabs still lose nothing.
      if (!navigator.locks) resolve(() => undefined);
      else
        navigator.locks
          .request(`copperline/${name}`, signal ? { signal } : {}, () => new Promise<void>((release) => resolve(release)))
          .catch(reject);
    }),
};
