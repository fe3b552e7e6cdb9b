import { type LineUp, type Loaded, load } from '../../engine/index.ts';
import { documentOf, type State, timeOf } from './sealed.ts';
import type { Storage } from './storage.ts';

/**
 * A document in the browser is a row of states, each written once under a key of its own and never changed: `document/time`. The newest
 * that is whole is the present one. Nothing is written over, so that a write that fails, or a tab that knows too little, harms no state
 * but its own.
 */

/** One state as it was found. */
export interface Found {
  readonly key: string;
  /** As much of its text as there is. */
  readonly text: string;
  /** Null: damaged, or not to be read. */
  readonly lineUp: LineUp | null;
  /** What is wrong with it, in words; null when nothing is. */
  readonly fault: string | null;
}

const inWords = (loaded: Loaded & { readonly ok: false }): string => `${loaded.where}: ${loaded.what}`;

const partsOf = (value: unknown): Partial<State> => (typeof value === 'object' && value !== null ? value : {});

/** Whether it is what was written, to the last letter. */
export async function isWhole(storage: Storage, value: unknown): Promise<boolean> {
  const { text, length, sha256: sum } = partsOf(value);
  return typeof text === 'string' && text.length === length && (await storage.sum(text)) === sum;
}

async function look(storage: Storage, key: string, value: unknown): Promise<Found> {
  const { text, length } = partsOf(value);
  if (typeof text !== 'string') return { key, text: '', lineUp: null, fault: 'nothing of it is left' };
  if (text.length !== length) return { key, text, lineUp: null, fault: `of ${length} characters ${text.length} are left` };
  if (!(await isWhole(storage, value))) return { key, text, lineUp: null, fault: 'it is not what was written' };
  const loaded = load(text, 'the state', { tooNew: true });
  return loaded.ok ? { key, text, lineUp: loaded.lineUp, fault: null } : { key, text, lineUp: null, fault: inWords(loaded) };
}

export const readState = async (storage: Storage, key: string): Promise<Found> => look(storage, key, await storage.read(key));

/** All states of a document, the newest first. */
export async function statesOf(storage: Storage, document: string): Promise<readonly Found[]> {
  const keys = await storage.list(`${document}/`);
  return (await Promise.all(keys.map((key) => readState(storage, key)))).reverse();
}

export interface Newest {
  /** The newest that is whole; without one, the newest as it was found. */
  readonly found: Found | undefined;
  /** Newer ones that are damaged, the newest first. */
  readonly skipped: readonly Found[];
}

export async function newestState(storage: Storage, document: string): Promise<Newest> {
  const skipped: Found[] = [];
  for (const key of [...(await storage.list(`${document}/`))].reverse()) {
    const found = await readState(storage, key);
    if (found.lineUp) return { found, skipped };
    skipped.push(found);
  }
  return { found: skipped[0], skipped };
}

/** The newest state of each document, by document, the latest worked on first. */
export function newestKeys(keys: readonly string[]): readonly string[] {
  const newest = new Map(keys.map((key) => [documentOf(key), key]));
  return [...newest.values()].sort((a, b) => timeOf(b) - timeOf(a));
}

export const MOST_STATES = 30;
/** States of the last minute stand evenly; from there on the older the farther apart. */
const EVEN_MS = 60_000;

/** Of too many states the one that is missed least: its neighbours are closest for their age. Never one of the newest two, nor the first of all. */
export function superfluous(keys: readonly string[], now: number): string | undefined {
  if (keys.length <= MOST_STATES) return undefined;
  const lost = (i: number): number => {
    const [before, after] = [keys[i - 1] ?? '', keys[i + 1] ?? ''];
    return (timeOf(after) - timeOf(before)) / (Math.max(0, now - timeOf(after)) + EVEN_MS);
  };
  let least = 1;
  for (let i = 2; i < keys.length - 2; i++) if (lost(i) < lost(least)) least = i;
  return keys[least];
}
