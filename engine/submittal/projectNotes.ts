import type { LineUp } from '../lineup/lineUp.ts';
import { notesOf } from '../lineup/notes.ts';
import type { Table } from './content.ts';

/** The notes of this line-up, by the numbers that stand on the one-line. */
export function projectNotes(lineUp: LineUp): Table {
  const tags = new Map([...lineUp.elements, ...lineUp.cables].map((each) => [each.id, each.tag]));
  return {
    title: 'Notes of this drawing',
    empty: '',
    columns: [
      { head: 'No.', w: 12, right: true },
      { head: 'Note', grow: 1 },
      { head: 'For', w: 60 },
    ],
    rows: notesOf(lineUp).map(({ says, parts }, i) => [
      `${i + 1}`,
      says,
      parts && parts.length > 0 ? parts.map((id) => tags.get(id) ?? 'a part that is gone').join(', ') : 'all',
    ]),
  };
}
