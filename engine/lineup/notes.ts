import type { LineUp } from './lineUp.ts';

/** Notes on the drawing: general ones, and keynotes that point to parts. Their number is their place in the list. Each of these makes a new document. */

export type Note = NonNullable<LineUp['notes']>[number];

export const MOST_NOTES = 500;

export const notesOf = ({ notes }: Pick<LineUp, 'notes'>): readonly Note[] => notes ?? [];

/** By part, the numbers of the notes that point to it, in order. */
export function keynotes(lineUp: Pick<LineUp, 'notes'>): ReadonlyMap<string, readonly number[]> {
  const numbers = new Map<string, number[]>();
  notesOf(lineUp).forEach(({ parts }, i) => {
    for (const id of parts ?? []) numbers.set(id, [...(numbers.get(id) ?? []), i + 1]);
  });
  return numbers;
}

/** The line-up itself comes back when there is no room for one more. */
export function addNote(lineUp: LineUp, says: string, parts: readonly string[] = []): LineUp {
  const notes = notesOf(lineUp);
  if (notes.length >= MOST_NOTES) return lineUp;
  const ids = new Set(notes.map((each) => each.id));
  let n = 1;
  while (ids.has(`n${n}`)) n++;
  return { ...lineUp, notes: [...notes, { id: `n${n}`, says, ...(parts.length > 0 ? { parts: [...parts] } : {}) }] };
}

export const changeNote = (lineUp: LineUp, id: string, change: Partial<Pick<Note, 'says' | 'parts'>>): LineUp => ({
  ...lineUp,
  notes: notesOf(lineUp).map((each) => (each.id === id ? { ...each, ...change } : each)),
});

export const deleteNote = (lineUp: LineUp, id: string): LineUp => ({ ...lineUp, notes: notesOf(lineUp).filter((each) => each.id !== id) });

/** One place up or down; the numbers follow. */
export function moveNote(lineUp: LineUp, id: string, by: 1 | -1): LineUp {
  const notes = [...notesOf(lineUp)];
  const at = notes.findIndex((each) => each.id === id);
  const [one, other] = [notes[at], notes[at + by]];
  if (!one || !other) return lineUp;
  notes[at] = other;
  notes[at + by] = one;
  return { ...lineUp, notes };
}

/** What stands beside the parts, without those that are gone: a note stays, and points to what is left. */
export function withoutParts<T extends Pick<LineUp, 'notes' | 'labels'>>(lineUp: T, gone: ReadonlySet<string>): T {
  const { notes, labels } = lineUp;
  return {
    ...lineUp,
    ...(notes && { notes: notes.map((each) => (each.parts ? { ...each, parts: each.parts.filter((id) => !gone.has(id)) } : each)) }),
    ...(labels && { labels: Object.fromEntries(Object.entries(labels).filter(([id]) => !gone.has(id))) }),
  };
}
