import { describe, expect, it } from 'vitest';
import { type LineUp, newLineUp } from '../../../engine/index.ts';
import { addNote, changeNote, deleteNote, keynotes, moveNote, notesOf, withoutParts } from '../../../engine/lineup/notes.ts';

/** Notes on the drawing: numbered by their place, pointing to parts. */

const noted: LineUp = {
  ...newLineUp(),
  notes: [
    { id: 'n1', says: 'a', parts: ['e1', 'e2'] },
    { id: 'n2', says: 'b' },
    { id: 'n3', says: 'c', parts: ['e2'] },
  ],
};
const said = (lineUp: LineUp): string =>
  notesOf(lineUp)
    .map(({ id, says }) => `${id} ${says}`)
    .join(', ');

describe('notes', () => {
  it('are none where there are none', () => expect(notesOf(newLineUp())).toEqual([]));
  it('by part are numbers, in order', () => {
    expect([...keynotes(noted)]).toEqual([
      ['e1', [1]],
      ['e2', [1, 3]],
    ]);
    expect(keynotes(newLineUp()).size).toBe(0);
  });
  it('are added at the end under an id that none has, pointing to parts or to none', () => {
    expect(notesOf(addNote(noted, 'd'))[3]).toEqual({ id: 'n4', says: 'd' });
    expect(notesOf(addNote(deleteNote(noted, 'n1'), 'd', ['e3']))[2]).toEqual({ id: 'n1', says: 'd', parts: ['e3'] });
    expect(notesOf(addNote(newLineUp(), 'first'))).toEqual([{ id: 'n1', says: 'first' }]);
  });
  it('are five hundred at most', () => {
    const notes = Array.from({ length: 499 }, (_, i) => ({ id: `x${i}`, says: '' }));
    const full = addNote({ ...newLineUp(), notes }, 'last');
    expect(notesOf(full).length).toBe(500);
    expect(addNote(full, 'more')).toBe(full);
  });
  it('are changed and deleted alone, the others the same objects', () => {
    const changed = changeNote(noted, 'n2', { says: 'B', parts: ['e9'] });
    expect(notesOf(changed)).toEqual([notesOf(noted)[0], { id: 'n2', says: 'B', parts: ['e9'] }, notesOf(noted)[2]]);
    expect(notesOf(changed)[0]).toBe(notesOf(noted)[0]);
    expect(said(deleteNote(noted, 'n2'))).toBe('n1 a, n3 c');
  });
  it('are moved by one place, not beyond the ends, and none that is not there', () => {
    expect([said(moveNote(noted, 'n1', 1)), said(moveNote(noted, 'n3', -1))]).toEqual(['n2 b, n1 a, n3 c', 'n1 a, n3 c, n2 b']);
    for (const [id, by] of [
      ['n1', -1],
      ['n3', 1],
      ['none', 1],
      ['none', -1],
    ] as const)
      expect(moveNote(noted, id, by)).toBe(noted);
    expect(said(noted)).toBe('n1 a, n2 b, n3 c');
  });
  it('stay when a part goes, and point to what is left; its label goes with it', () => {
    const labelled = { ...noted, labels: { e1: { dx_mm: 1, dy_mm: 0 }, e2: { dx_mm: 2, dy_mm: 0 } } };
    const left = withoutParts(labelled, new Set(['e2']));
    expect(left.notes?.map(({ parts }) => parts)).toEqual([['e1'], undefined, []]);
    expect(left.labels).toEqual({ e1: { dx_mm: 1, dy_mm: 0 } });
    expect(withoutParts(newLineUp(), new Set(['e2']))).toEqual(newLineUp());
  });
});
