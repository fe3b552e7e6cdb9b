import { create } from 'zustand';
import { createReviewer, type LineUp, load, type Review, save } from '../../engine/index.ts';

/** The open document, its history, what is selected and what the engine says of it. History holds the very documents: undo is exact. */

export type Saved = 'saved in this browser' | 'saving…' | 'not saved' | 'saved to file';

interface Step {
  readonly lineUp: LineUp;
  readonly label: string;
}

export interface EditorState {
  readonly lineUp: LineUp | null;
  readonly review: Review | null;
  readonly past: readonly Step[];
  readonly future: readonly Step[];
  /** Ids of elements and cables. */
  readonly selected: readonly string[];
  readonly finding: string | null;
  /** Path of the field that is to take the focus. */
  readonly focusField: string | null;
  readonly refused: { readonly where: string; readonly what: string; readonly mend: string } | null;
  readonly saved: Saved;
  /** Why the last gesture did nothing. */
  readonly reason: string | null;
}

const reviewer = createReviewer();
const MOST_STEPS = 1000;

export const useEditor = create<EditorState>(() => ({
  lineUp: null,
  review: null,
  past: [],
  future: [],
  selected: [],
  finding: null,
  focusField: null,
  refused: null,
  saved: 'saved in this browser',
  reason: null,
}));

const { getState: get, setState: set } = useEditor;

/** Opens a document; its history starts anew. */
export function openLineUp(lineUp: LineUp): void {
  set({ lineUp, review: reviewer.review(lineUp), past: [], future: [], selected: [], finding: null, refused: null, reason: null });
}

/** Reads a file. What cannot be read is refused, and the open document stays as it is. */
export function openText(text: string, file: string): void {
  const loaded = load(text, file);
  if (loaded.ok) openLineUp(loaded.lineUp);
  else set({ refused: loaded });
}

/** One edit is one step back. An edit that changes nothing is none. */
export function edit(label: string, change: (lineUp: LineUp) => LineUp, select?: readonly string[]): void {
  const { lineUp, past, selected } = get();
  if (!lineUp) return;
  const next = change(lineUp);
  if (next === lineUp) return;
  set({
    lineUp: next,
    review: reviewer.review(next),
    past: [...past, { lineUp, label }].slice(-MOST_STEPS),
    future: [],
    selected: select ?? selected,
    reason: null,
  });
}

function travel(from: 'past' | 'future', to: 'past' | 'future'): void {
  const state = get();
  const step = state[from].at(-1);
  if (!step || !state.lineUp) return;
  set({
    lineUp: step.lineUp,
    review: reviewer.review(step.lineUp),
    [from]: state[from].slice(0, -1),
    [to]: [...state[to], { lineUp: state.lineUp, label: step.label }],
    selected: [],
    finding: null,
    reason: null,
  } as Partial<EditorState>);
}
export const undo = (): void => travel('past', 'future');
export const redo = (): void => travel('future', 'past');

export const select = (ids: readonly string[], focusField: string | null = null): void => set({ selected: ids, finding: null, focusField });
export const showFinding = (finding: string | null): void => set({ finding });
export const refuse = (reason: string | null): void => set({ reason });
export const closeRefusal = (): void => set({ refused: null });
export const closeLineUp = (): void => set({ lineUp: null, review: null, selected: [], finding: null });
export const setSaved = (saved: Saved): void => set({ saved });
export const asText = (): string | null => {
  const { lineUp } = get();
  return lineUp ? save(lineUp) : null;
};
