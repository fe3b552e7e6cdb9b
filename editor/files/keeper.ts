import { type LineUp, save } from '../../engine/index.ts';
import { documentOf, keyOf, seal, timeOf } from './sealed.ts';
import { type Found, isWhole, newestKeys, newestState, statesOf, superfluous } from './states.ts';
import type { Storage } from './storage.ts';

/** Keeps every edit of one tab, agrees with other tabs on who edits a document, and says truly what is kept. Knows nothing of the page. */

export type Sign = 'kept' | 'waiting' | 'failed';

/** The page, as far as keeping is concerned. */
export interface Page {
  readonly sign: (sign: Sign) => void;
  readonly say: (words: string) => void;
  /** Another document, to be edited or, while another tab does that, only to be followed. */
  readonly open: (lineUp: LineUp, following: boolean) => void;
  /** The same document as it stands now, or with another right to it. */
  readonly show: (lineUp: LineUp, following: boolean) => void;
  /** What is open from here on may be edited, or not. */
  readonly follow: (following: boolean) => void;
  /** None of its states can be read. */
  readonly refuse: (found: Found) => void;
}

export interface Word {
  readonly document: string;
  readonly what: 'kept' | 'wanted' | 'withheld';
}
/** Reaches all other tabs. */
export interface Channel {
  readonly post: (word: Word) => void;
  readonly hear: (listen: (word: Word) => void) => void;
}

/** A document of which a state is kept, as the start page lists it. */
export interface Kept extends Found {
  readonly document: string;
  readonly at: number;
}

const DELAY_MS = 300;
/** After a failure, and then twice as long each time. */
const FIRST_RETRY_MS = 2000;
const LAST_RETRY_MS = 60_000;
/** A page that is loaded anew may come before the browser has let go of the old one. */
const PATIENCE_MS = 800;
/** Besides the one that is open. */
const MOST_DOCUMENTS = 8;
/** Long enough for a lock that nobody has. */
const FREE_MS = 100;

interface Held {
  readonly document: string;
  /** Another tab edits it. */
  readonly following: boolean;
  /** Whether there is anything in it that someone did. */
  readonly touched: boolean;
  /** While it is followed: the state that is shown, and its key. */
  readonly shown: { readonly key: string; readonly lineUp: LineUp } | null;
  /** Lets go of the document, or of the wish to have it. */
  readonly release: () => void;
}

export interface Keeper {
  /** Opens the document that this tab had before it was loaded anew, else what was worked on last. */
  readonly start: (before?: string | null) => Promise<void>;
  /** Another document was opened on the page. */
  readonly begin: (lineUp: LineUp) => void;
  readonly edited: (lineUp: LineUp) => void;
  /** Writes what waits, at once: the page may be gone in a moment. */
  readonly flush: () => Promise<boolean>;
  readonly takeUp: (document: string) => Promise<void>;
  /** Asks the tab that edits this document to hand it over. */
  readonly takeOver: () => void;
  readonly present: () => string | null;
  /** How this document stood, the newest first. */
  readonly states: () => Promise<readonly Found[]>;
  /** Other documents that can be taken up again, the latest first. */
  readonly others: () => Promise<readonly Kept[]>;
}

export function createKeeper(storage: Storage, channel: Channel, page: Page): Keeper {
  let held: Held | null = null;
  /** By document, what is not kept yet. */
  const waiting = new Map<string, LineUp>();
  /** Documents that gave way to another before they were kept, and how another tab is let have them then. */
  const leaving = new Map<string, () => void>();
  const writing = new Set<Promise<unknown>>();
  /** Damaged states: someone may still mend them. */
  const spared = new Set<string>();
  let failed = false;
  let last = 0;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let retry: ReturnType<typeof setTimeout> | undefined;
  let retry_ms = FIRST_RETRY_MS;

  const sign = (): void => {
    failed &&= waiting.size > 0;
    if (!held?.following) page.sign(failed ? 'failed' : waiting.size > 0 ? 'waiting' : 'kept');
  };
  /** No two states have the same time, and none is older than one before it, even where the clock was set back. */
  const nextTime = (): number => {
    last = Math.max(storage.now(), last + 1);
    return last;
  };
  const seen = (keys: readonly string[]): void => {
    for (const key of keys) last = Math.max(last, timeOf(key));
  };

  /** Whether what waited is kept now; more may have come since. A page that is being left cannot wait for the sum. */
  async function write(document: string, atOnce = false): Promise<boolean> {
    const lineUp = waiting.get(document);
    if (!lineUp) return true;
    try {
      const [key, text] = [keyOf(document, nextTime()), save(lineUp)];
      const written = atOnce ? storage.write(key, seal(text), true) : storage.sum(text).then((sum) => storage.write(key, seal(text, sum)));
      writing.add(written);
      await written.finally(() => writing.delete(written));
    } catch {
      // What an older write comes to say is of no interest.
      if (waiting.get(document) === lineUp) fail();
      return false;
    }
    if (waiting.get(document) === lineUp) waiting.delete(document);
    if (!waiting.has(document)) {
      leaving.get(document)?.();
      leaving.delete(document);
    }
    retry_ms = FIRST_RETRY_MS;
    sign();
    channel.post({ document, what: 'kept' });
    await thin(document).catch(() => undefined);
    return true;
  }

  function fail(): void {
    failed = true;
    clearTimeout(retry);
    retry = setTimeout(() => writeAll(false), retry_ms);
    retry_ms = Math.min(2 * retry_ms, LAST_RETRY_MS);
    sign();
  }

  const writeAll = (atOnce: boolean): Promise<unknown> => {
    clearTimeout(timer);
    clearTimeout(retry);
    timer = undefined;
    return Promise.all([...waiting.keys()].map((document) => write(document, atOnce)));
  };

  async function thin(document: string): Promise<void> {
    for (;;) {
      const keys = (await storage.list(`${document}/`)).filter((key) => !spared.has(key));
      const key = superfluous(keys, storage.now());
      if (key === undefined) return;
      if (await isWhole(storage, await storage.read(key))) await storage.delete(key);
      else spared.add(key);
    }
  }

  function edited(lineUp: LineUp): void {
    if (!held || held.following) return;
    held = { ...held, touched: true };
    wait(held.document, lineUp);
  }

  function wait(document: string, lineUp: LineUp): void {
    waiting.set(document, lineUp);
    sign();
    // The clock is not set back by further edits: someone who never pauses is saved too.
    timer ??= setTimeout(() => writeAll(false), DELAY_MS);
  }

  /** What was only looked at goes; what was worked on is written, and only then may another tab have it. */
  async function giveWay({ document, following, touched, release }: Held): Promise<void> {
    if (following || (touched && !waiting.has(document))) release();
    else if (touched) {
      leaving.set(document, release);
      await write(document);
    } else {
      waiting.delete(document);
      await Promise.allSettled([...writing]);
      await erase(document).catch(() => undefined);
      release();
    }
  }

  /** Puts another document in the place of the present one. */
  async function hold(next: Held): Promise<void> {
    const before = held;
    held = next;
    if (before) await giveWay(before);
  }

  async function erase(document: string): Promise<void> {
    for (const key of await storage.list(`${document}/`)) await storage.delete(key);
  }

  function begin(lineUp: LineUp): void {
    const document = `${storage.now().toString(36)}-${Math.random().toString(36).slice(2, 10)}`;
    // Nobody else knows of it yet: where it cannot be locked there is nothing to let go of either.
    const lock = storage.lock(document).catch(() => () => undefined);
    const gone = hold({ document, following: false, touched: false, shown: null, release: () => void lock.then((free) => free()) });
    wait(document, lineUp);
    // What was only looked at is gone first: it must not cost another its place.
    void gone.then(prune).catch(() => undefined);
  }

  /** Of too many documents those go that nobody worked on for longest, unless another tab has them open. */
  async function prune(): Promise<void> {
    const keys = newestKeys(await storage.list('')).filter((key) => documentOf(key) !== held?.document && !waiting.has(documentOf(key)));
    for (const key of keys.slice(MOST_DOCUMENTS)) {
      const free = await lockSoon(documentOf(key), FREE_MS);
      if (!free) continue;
      await erase(documentOf(key)).finally(free);
    }
  }

  async function lockSoon(document: string, patience_ms: number): Promise<(() => void) | null> {
    const patience = new AbortController();
    const clock = setTimeout(() => patience.abort(), patience_ms);
    try {
      return await storage.lock(document, patience.signal);
    } catch {
      return null;
    } finally {
      clearTimeout(clock);
    }
  }

  async function takeUp(document: string): Promise<void> {
    if (held?.document === document) return;
    const [unsaved, mine] = [waiting.get(document), leaving.get(document)];
    if (unsaved && mine) {
      leaving.delete(document);
      void hold({ document, following: false, touched: true, shown: null, release: mine });
      page.open(unsaved, false);
      sign();
      return;
    }
    const free = await lockSoon(document, PATIENCE_MS);
    try {
      const { found, skipped } = await newestState(storage, document);
      if (!found?.lineUp) {
        free?.();
        if (found) page.refuse(found);
        return;
      }
      seen([found.key, ...skipped.map(({ key }) => key)]);
      const { key, lineUp } = found;
      void hold({ document, following: free === null, touched: true, shown: { key, lineUp }, release: free ?? (() => undefined) });
      page.open(lineUp, free === null);
      sign();
      if (skipped[0]) page.say(skippedWords(skipped[0], skipped.length));
      if (!free) queue(document);
    } catch (fault) {
      free?.();
      page.say(
        `What this browser keeps could not be read: ${fault instanceof Error ? fault.message : String(fault)}. Load the page again.`,
      );
    }
  }

  /** Waits for its turn to edit what another tab has. */
  function queue(document: string): void {
    const quit = new AbortController();
    if (held) held = { ...held, release: () => quit.abort() };
    storage.lock(document, quit.signal).then(
      (free) => (held?.document === document && held.following ? inherit(document, free) : free()),
      () => undefined,
    );
  }

  /** What the other tab kept last is shown before it is edited here. */
  async function inherit(document: string, free: () => void): Promise<void> {
    for (let pause_ms = FIRST_RETRY_MS; ; pause_ms = Math.min(2 * pause_ms, LAST_RETRY_MS)) {
      const newest = await newestState(storage, document).catch(() => null);
      if (held?.document !== document) return free();
      if (newest) {
        const { key = '', lineUp } = newest.found ?? {};
        seen([key]);
        const shown = held.shown?.lineUp;
        // Whatever was done in the other tab, it is no longer a document that was only looked at.
        held = { ...held, following: false, touched: true, release: free };
        if (lineUp) page.show(lineUp, false);
        else {
          // The other tab had only looked at it and took it away: it goes on from what is shown.
          page.follow(false);
          if (shown) wait(document, shown);
        }
        sign();
        page.say('The other tab let go of this line-up: you edit it here now.');
        return;
      }
      await new Promise((resolve) => setTimeout(resolve, pause_ms));
    }
  }

  const takeOver = (): void => {
    if (held?.following) channel.post({ document: held.document, what: 'wanted' });
  };

  /** Keeps what waits, and lets the other tab have it; what cannot be kept stays where it is. */
  async function handOver(document: string): Promise<void> {
    do if (!(await write(document))) return channel.post({ document, what: 'withheld' });
    while (waiting.has(document));
    if (held?.document !== document || held.following) return;
    const { release } = held;
    held = { ...held, following: true };
    page.follow(true);
    queue(document);
    release();
  }

  async function followOn(document: string): Promise<void> {
    const { found } = await newestState(storage, document);
    if (!found?.lineUp || !held?.following || held.document !== document || found.key <= (held.shown?.key ?? '')) return;
    held = { ...held, shown: { key: found.key, lineUp: found.lineUp } };
    page.show(found.lineUp, true);
  }

  channel.hear(({ document, what }) => {
    if (held?.document !== document) return;
    if (what === 'wanted' && !held.following) void handOver(document);
    else if (what === 'wanted') {
      // Whoever asks goes first.
      held.release();
      queue(document);
    } else if (what === 'withheld' && held.following)
      page.say('The other tab cannot keep its work just now, and holds on to it. Look there.');
    else if (what === 'kept' && held.following) void followOn(document).catch(() => undefined);
  });

  return {
    start: async (before) => {
      const keys = await storage.list('');
      seen(keys);
      const [newest] = newestKeys(keys);
      const own = before && keys.some((key) => documentOf(key) === before) ? before : null;
      if (own ?? newest) await takeUp(own ?? documentOf(newest ?? ''));
    },
    begin,
    edited,
    flush: async () => {
      await writeAll(true);
      return waiting.size === 0;
    },
    takeUp,
    takeOver,
    present: () => held?.document ?? null,
    states: async () => {
      await writeAll(false);
      return held ? statesOf(storage, held.document) : [];
    },
    others: async () => {
      const keys = newestKeys(await storage.list('')).filter((key) => documentOf(key) !== held?.document);
      const found = await Promise.all(
        keys.map(async (key): Promise<readonly Kept[]> => {
          const { found: newest } = await newestState(storage, documentOf(key));
          return newest && newest.lineUp?.elements.length !== 0 ? [{ ...newest, document: documentOf(key), at: timeOf(key) }] : [];
        }),
      );
      return found.flat();
    },
  };
}

const skippedWords = (found: Found, count: number): string =>
  `${count === 1 ? 'The latest state' : `The latest ${count} states`} kept in this browser cannot be read: ${found.fault}. The one before is open; “Earlier states” shows both.`;
