import { describe, expect, it } from 'vitest';
import { addComment, addNote, changeComment, changeNote, deleteComment, type LineUp, moveNote, newLineUp } from '../../../engine/index.ts';
import { differences } from '../../../engine/lineup/differences.ts';
import { deleteNote } from '../../../engine/lineup/notes.ts';
import { besideDifferences, commentDifferences, paperDifferences } from '../../../engine/lineup/paperDifferences.ts';
import { barePart } from '../bareParts.ts';

/** What changed beside the parts, told change by change. */

// A note and a part may well have the same id.
const motor = { ...barePart('motor', 'n1'), tag: 'M-1' };
const bare: LineUp = { ...newLineUp('iec'), elements: [motor] };
const noted = addNote(addNote(bare, 'Torque terminals'), 'Spare', ['n1']);
const told = (found: ReturnType<typeof paperDifferences>) =>
  found.map(({ tag, kind, changes }) => [`${kind} ${tag}`, ...changes.map((each) => `${each.label}: ${each.before} → ${each.after}`)]);
const paper = (before: LineUp, after: LineUp) => told(paperDifferences(before, after));
const titled = (project: object): LineUp => ({ ...bare, project: { ...bare.project, ...project } });

describe('notes', () => {
  it('that are new, gone, or say something else', () => {
    expect(paper(noted, { ...noted })).toEqual([]);
    expect(paper(bare, noted)).toEqual([
      ['added note 1', 'Says: – → Torque terminals'],
      ['added note 2', 'Says: – → Spare', 'Points to: – → M-1'],
    ]);
    expect(paper(noted, changeNote(noted, 'n2', { says: 'Reserve', parts: [] }))).toEqual([
      ['changed note 2', 'Says: Spare → Reserve', 'Points to: M-1 → –'],
    ]);
  });
  it('have another number when one before them is gone or moved: their number is what the drawing shows', () => {
    expect(paper(noted, deleteNote(noted, 'n1'))).toEqual([
      ['changed note 1', 'Number: 2 → 1'],
      ['removed note 1', 'Says: Torque terminals → –'],
    ]);
    expect(paper(noted, moveNote(noted, 'n2', -1))).toEqual([
      ['changed note 1', 'Number: 2 → 1'],
      ['changed note 2', 'Number: 1 → 2'],
    ]);
  });
  it('are no difference of the part that has the same id', () => {
    expect(differences(bare, noted)).toEqual([]);
  });
});

describe('the title block', () => {
  it('by the names on the form; what names the issue itself always differs, and is left out between issues', () => {
    const after = titled({ revision: 'B', date: '2027-01-01', checkedBy: 'B. Else', sheetSize: 'A3', showGrounds: true });
    expect(paper(bare, after)).toEqual([
      ['changed title block', 'Checked by: not set → B. Else', 'Sheet size: not set → A3', 'Show grounding conductors: not set → yes'],
    ]);
    expect(told(besideDifferences(bare, titled({ revision: 'B' })))).toEqual([['changed title block', 'Revision: not set → B']]);
    // Each of its fields by itself, and the date between two states of one document.
    for (const [field, label] of [
      ['status', 'Status'],
      ['createdBy', 'Created by'],
      ['approvedBy', 'Approved by'],
    ] as const)
      expect(paper(bare, titled({ [field]: 'x' }))).toEqual([['changed title block', `${label}: not set → x`]]);
    expect(told(besideDifferences(bare, titled({ date: '2027-01-01' })))).toEqual([
      ['changed title block', 'Date of issue: not set → 2027-01-01'],
    ]);
  });
});

describe('comments', () => {
  const asked = addComment(noted, { says: 'Too thin?', from: 'Reviewer', sheet: '3', parts: ['n1'] });
  it('that are new, answered or gone', () => {
    expect(told(commentDifferences(noted, asked))).toEqual([
      ['added comment 1', 'Says: – → Too thin?', 'Sheet: – → 3', 'From: – → Reviewer', 'Tied to: – → M-1'],
    ]);
    expect(told(besideDifferences(asked, changeComment(asked, 'c1', { reply: 'Made thicker.', closed: '2026-11-27' })))).toEqual([
      ['changed comment 1', 'Reply: – → Made thicker.', 'Closed: – → 2026-11-27'],
    ]);
    expect(told(commentDifferences(asked, deleteComment(asked, 'c1')))[0]?.[0]).toBe('removed comment 1');
  });
  it('belong to the document, not to an issue', () => expect(paper(noted, asked)).toEqual([]));
});
