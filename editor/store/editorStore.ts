import { create } from 'zustand';
import { type ElementKind, type Fix, isTooNew, type LineUp, load, newLineUp, type Review, review } from '../../engine/index.ts';
import { withFix } from './edits.ts';
import { createJudge } from './judge.ts';
import { startThread } from './threads.ts';

/** The open document, its history, what is selected and what the engine says of it. A review of an older document is kept until the new one comes, and is called stale. History holds the very documents: undo is exact. */

export type Saved = 'saved in this browser' | 'kept in this browser only' | 'saving…' | 'not saved' | 'saved to file';

interface Step {
  readonly lineUp: LineUp;
  readonly label: string;
}

export interface EditorState {
  readonly lineUp: LineUp | null;
  readonly review: Review | null;
  /** The review is that of an older document. */
  readonly stale: boolean;
  /** It has been for so long that it shows. */
  readonly working: boolean;
  readonly past: readonly Step[];
  readonly future: readonly Step[];
  /** Ids of elements and cables. */
  readonly selected: readonly string[];
  readonly finding: string | null;
  /** A change that is shown in place of the document, and is not in it. Its review is null while that is being made. */
  readonly trying: { readonly fix: Fix; readonly lineUp: LineUp; readonly review: Review | null } | null;
  /** Path of the field that is to take the focus. */
  readonly focusField: string | null;
  /** The kind of part that waits in the tray for a place. */
  readonly waiting: ElementKind | null;
  /** Counts openings: the sheet begins afresh with each. */
  readonly opened: number;
  /** The start page lies over the open document. */
  readonly atStart: boolean;
  /** Another tab edits this document; here it is only shown as it stands there. */
  readonly following: boolean;
  readonly refused: { readonly where: string; readonly what: string; readonly mend: string } | null;
  readonly saved: Saved;
  /** Why the last gesture did nothing. */
  readonly reason: string | null;
}

const MOST_STEPS = 1000;

export const useEditor = create<EditorState>(() => ({
  lineUp: null,
  review: null,
  stale: false,
  working: false,
  past: [],
  future: [],
  selected: [],
  finding: null,
  trying: null,
  focusField: null,
  waiting: null,
  opened: 0,
  atStart: false,
  following: false,
  refused: null,
  saved: 'saved in this browser',
  reason: null,
}));

const { getState: get, setState: set } = useEditor;

/** An answer that comes sooner than this comes without a sign that it is being waited for: signs that flash tell nothing. */
const SIGN_MS = 150;
let sign: ReturnType<typeof setTimeout> | undefined;

type Judged = Pick<EditorState, 'review' | 'stale' | 'working'>;
const current = (answer: Review): Judged => {
  clearTimeout(sign);
  return { review: answer, stale: false, working: false };
};
const judge = createJudge(
  () => startThread('reviewer'),
  (answer) => set(({ trying }) => (trying ? { trying: { ...trying, review: answer } } : current(answer))),
);

/** The review of this document or, while that is being made, the one before, known to be stale. */
function judged(lineUp: LineUp): Judged {
  const answer = judge(lineUp);
  if (answer) return current(answer);
  const { review: before, stale, working } = get();
  if (!stale) sign = setTimeout(() => set({ working: true }), SIGN_MS);
  return { review: before, stale: true, working };
}

/** Of a document just opened there is no review before: nothing is said of it, and that it is worked on shows at once. */
function judgedFirst(lineUp: LineUp): Judged {
  const first = judged(lineUp);
  return first.stale ? { review: review(newLineUp(lineUp.project.basis)), stale: true, working: true } : first;
}

/** The open document with its own review, as soon as there is one. */
export function whenJudged(): Promise<{ readonly lineUp: LineUp; readonly review: Review }> {
  const { opened } = get();
  return new Promise((resolve, reject) => {
    const look = (state: EditorState): void => {
      if (state.opened !== opened) reject(new Error('another line-up was opened'));
      // Nothing leaves with verdicts that may lack something.
      else if (state.lineUp && isTooNew(state.lineUp)) reject(new Error(TOO_NEW));
      else if (state.lineUp && state.review && !state.stale) resolve({ lineUp: state.lineUp, review: state.review });
      else return;
      stop();
    };
    const stop = useEditor.subscribe(look);
    look(get());
  });
}

/** Opens a document; its history starts anew. */
export function openLineUp(lineUp: LineUp, following = false): void {
  set((before) => ({
    lineUp,
    ...judgedFirst(lineUp),
    past: [],
    future: [],
    selected: [],
    finding: null,
    trying: null,
    focusField: null,
    waiting: null,
    opened: before.opened + 1,
    atStart: false,
    following,
    refused: null,
    reason: null,
  }));
}

/** Shows the open document as it stands in another tab now. What led there was done in that tab, and is undone there. */
export const showAs = (lineUp: LineUp, following: boolean): void =>
  set((before) => ({
    lineUp,
    ...judged(lineUp),
    following,
    past: [],
    future: [],
    selected: stillThere(lineUp, before.selected),
    reason: null,
  }));

/** From here on the open document is edited in another tab, or in this one. */
export const follow = (following: boolean): void => set({ following, past: [], future: [] });

function refusesToEdit(lineUp: LineUp, following: boolean): boolean {
  if (following) refuse('Another tab edits this line-up, and this one shows it. Take over to edit it here.');
  else if (isTooNew(lineUp)) refuse(TOO_NEW);
  else return false;
  return true;
}
const TOO_NEW = 'A newer program wrote this line-up: only that may change it, judge it for good and issue it.';

/** Reads a file. What cannot be read is refused, and the open document stays as it is. */
export function openText(text: string, file: string): void {
  const loaded = load(text, file, { tooNew: true });
  if (loaded.ok) {
    openLineUp(loaded.lineUp);
    if (loaded.notes.length > 0) refuse(loaded.notes.join(' '));
  } else set({ refused: loaded });
}

/** A burst of small edits of one kind, such as arrow keys, is one step back. */
const BURST_MS = 1000;
let burst: { readonly name: string; readonly lineUp: LineUp; readonly at: number } | null = null;

export interface EditOptions {
  readonly select?: readonly string[];
  /** Edits of this name that follow each other closely make one step. */
  readonly burst?: string;
}

/** One edit is one step back. An edit that changes nothing is none. */
export function edit(label: string, change: (lineUp: LineUp) => LineUp, options: EditOptions = {}): void {
  const { lineUp, past, selected, finding, focusField, following, trying } = get();
  if (!lineUp || refusesToEdit(lineUp, following)) return;
  // What the hand took hold of may not be in the document.
  if (trying) {
    refuse('A change is only being tried: apply it or put it back first.');
    return;
  }
  const next = change(lineUp);
  if (next === lineUp) return;
  const now = Date.now();
  const goesOn = burst !== null && burst.name === options.burst && burst.lineUp === lineUp && now - burst.at < BURST_MS;
  burst = options.burst === undefined ? null : { name: options.burst, lineUp: next, at: now };
  set({
    lineUp: next,
    ...judged(next),
    past: goesOn ? past : [...past, { lineUp, label }].slice(-MOST_STEPS),
    future: [],
    selected: options.select ?? selected,
    // What was just made is what is looked at.
    finding: options.select ? null : finding,
    focusField: options.select ? null : focusField,
    reason: null,
  });
}

/** Makes the edit that a finding proposes. It was proposed for the document as it was judged, and may not suit a newer one. */
export function takeFix(fix: Fix): void {
  if (get().stale) {
    refuse(STILL_JUDGED);
    return;
  }
  set({ trying: null });
  edit(fix.label, (before) => withFix(before, fix));
}
const STILL_JUDGED = 'The line-up is still being judged: press again when the verdict is there.';

/** Shows a change on the sheet, judged, as if it were made. Nothing is stored. */
export function tryFix(fix: Fix): void {
  const { lineUp, stale } = get();
  if (!lineUp) return;
  if (stale) refuse(STILL_JUDGED);
  else {
    const tried = withFix(lineUp, fix);
    set({ trying: { fix, lineUp: tried, review: judge(tried) }, reason: null });
  }
}

export function putBack(): void {
  const { lineUp, trying } = get();
  if (!trying) return;
  set({ trying: null, reason: null });
  // Its review is known: the judge is told, so that an answer about what was tried is not taken for one about the document.
  if (lineUp) judge(lineUp);
}

const stillThere = (lineUp: LineUp, ids: readonly string[]): readonly string[] =>
  ids.filter((id) => [...lineUp.elements, ...lineUp.cables].some((part) => part.id === id));

function travel(from: 'past' | 'future', to: 'past' | 'future'): void {
  const state = get();
  const step = state[from].at(-1);
  if (state.trying) putBack();
  if (state.trying || !step || !state.lineUp || refusesToEdit(state.lineUp, state.following)) return;
  set({
    lineUp: step.lineUp,
    ...judged(step.lineUp),
    [from]: state[from].slice(0, -1),
    [to]: [...state[to], { lineUp: state.lineUp, label: step.label }],
    selected: stillThere(step.lineUp, state.selected),
    reason: null,
  } as Partial<EditorState>);
}
export const undo = (): void => travel('past', 'future');
export const redo = (): void => travel('future', 'past');

export function select(ids: readonly string[], focusField: string | null = null): void {
  putBack();
  set({ selected: ids, finding: null, focusField, reason: null });
}
export function showFinding(finding: string | null): void {
  putBack();
  set({ finding });
}
export const wait = (waiting: ElementKind | null): void => set({ waiting });
export const refuse = (reason: string | null): void => set({ reason });
export const closeRefusal = (): void => set({ refused: null });
/** Shows or leaves the start page; the open document stays open beneath it. */
export const showStart = (atStart: boolean): void => set({ atStart });
export const setSaved = (saved: Saved): void => set({ saved });
