import { follow, openLineUp, openText, refuse, type Saved, setSaved, showAs, useEditor } from '../store/editorStore.ts';
import { browserStorage } from './browserStorage.ts';
import { type Channel, createKeeper, type Sign, type Word } from './keeper.ts';
import { timeOf } from './sealed.ts';

/** Keeps the work of this page in the browser: 300 ms after an edit, and at once when the page is hidden or left. */

/** Whether the browser gave its word not to clear what it keeps. It is asked for it at the first real edit. */
let lasting = false;
let asked = false;

const WORDS: Readonly<Record<Sign, () => Saved>> = {
  kept: () => (lasting ? 'saved in this browser' : 'kept in this browser only'),
  waiting: () => 'saving…',
  failed: () => 'not saved',
};
let sign: Sign = 'kept';
const showSign = (): void => {
  const { saved } = useEditor.getState();
  // What is in a file already need not say less.
  if (sign === 'waiting' || saved !== 'saved to file') setSaved(WORDS[sign]());
};

async function askToLast(): Promise<void> {
  if (asked || !navigator.storage?.persist) return;
  asked = true;
  lasting = await navigator.storage.persist().catch(() => false);
  showSign();
  if (!lasting && useEditor.getState().reason === null)
    refuse('This browser may clear what it keeps when room grows short. Save to a file what must last (Ctrl S).');
}

/** What the keeper itself does to the page is no edit. */
let told = false;
const telling = (act: () => void): void => {
  told = true;
  try {
    act();
  } finally {
    told = false;
  }
};

const radio = new BroadcastChannel('copperline');
const channel: Channel = {
  post: (word) => radio.postMessage(word),
  hear: (listen) => {
    radio.onmessage = ({ data }: MessageEvent<Word>) => listen(data);
  },
};

export const keeper = createKeeper(browserStorage, channel, {
  sign: (next) => {
    sign = next;
    showSign();
  },
  say: refuse,
  open: (lineUp, following) => telling(() => openLineUp(lineUp, following)),
  show: (lineUp, following) => telling(() => showAs(lineUp, following)),
  follow,
  refuse: ({ key, text }) => openText(text, `the work kept in this browser on ${new Date(timeOf(key)).toLocaleString()}`),
});

/** What this tab has open, for when it is loaded anew: another tab may have worked on something else since. */
const OPEN = 'copperline.open';

/** Opens what was worked on last, then keeps every edit from here on. */
export async function startAutosave(): Promise<void> {
  lasting = (await navigator.storage?.persisted?.().catch(() => false)) ?? false;
  await keeper.start(sessionStorage.getItem(OPEN)).catch(() => setSaved('not saved'));
  useEditor.subscribe((state, before) => {
    if (told || !state.lineUp || state.lineUp === before.lineUp) return;
    if (state.opened !== before.opened) return keeper.begin(state.lineUp);
    keeper.edited(state.lineUp);
    void askToLast();
  });
  const flush = () => {
    sessionStorage.setItem(OPEN, keeper.present() ?? '');
    void keeper.flush();
  };
  addEventListener('pagehide', () => {
    // What stands in a field is taken, as by going to the next one.
    (document.activeElement as HTMLElement | null)?.blur();
    flush();
  });
  document.addEventListener('visibilitychange', () => document.visibilityState === 'hidden' && flush());
}
