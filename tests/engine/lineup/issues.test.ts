import { describe, expect, it } from 'vitest';
import {
  addComment,
  asIssued,
  asLineUp,
  changeComment,
  commentsOf,
  deleteComment,
  deleteIssue,
  designOf,
  freeze,
  issuesOf,
  type LineUp,
  lastIssue,
  load,
  nextRevision,
  save,
  withValueAt,
} from '../../../engine/index.ts';
import { comparedWith } from '../../../engine/lineup/issues.ts';
import { manyRuns } from '../manyRuns.ts';
import { readExample } from '../sizing/readExample.ts';

const first = readExample('heron-weir-pumps');
const FACTS = { date: '2026-11-26', says: 'For approval', by: 'A. N. Other', checkedBy: 'B. Else' };
const changed = (lineUp: LineUp, tag: string): LineUp => ({
  ...lineUp,
  cables: lineUp.cables.map((each) => (each.tag === tag ? withValueAt(each, 'conductor.size', '1/0 AWG') : each)),
});

describe('the next revision', () => {
  it.each([
    ['A', 'B'],
    ['Z', 'AA'],
    ['AZ', 'BA'],
    ['ZZ', 'AAA'],
    ['a', 'b'],
    ['0', '1'],
    ['9', '10'],
    ['09', '10'],
    ['P1', 'P2'],
    ['P09', 'P10'],
    ['C-B', 'C-C'],
    ['draft', 'draft 2'],
    ['draft 2', 'draft 3'],
    ['', 'B'],
  ])('after %s is %s', (revision, next) => {
    const frozen = freeze({ ...first, project: { ...first.project, revision } }, FACTS);
    expect(frozen.project.revision).toBe(next);
    if (revision !== '') expect(nextRevision(revision)).toBe(next);
  });
});

describe('an issue', () => {
  const issued = freeze(first, FACTS);
  it('holds the line-up as it was, and the document goes on as the next revision without its date', () => {
    expect(issuesOf(issued)).toEqual([{ id: 'i1', revision: 'A', ...FACTS, design: designOf(first) }]);
    expect(issued.project).toEqual({ ...first.project, revision: 'B', date: undefined });
    expect(issued.cables).toBe(first.cables);
  });
  it('is saved, opens as it was, and is a line-up again by itself', () => {
    const loaded = load(save(issued));
    expect(loaded.ok && save(loaded.lineUp)).toBe(save(issued));
    expect(save(asLineUp(lastIssue(issued)?.design ?? designOf(issued)))).toBe(save(first));
  });
  it('names the first revision where none is named, in what it froze too', () => {
    const { revision: _revision, ...project } = first.project;
    const [issue] = issuesOf(freeze({ ...first, project }, { date: '2026-11-26' }));
    expect([issue?.revision, issue?.design.project.revision]).toEqual(['A', 'A']);
    expect(Object.keys(issue ?? {})).toEqual(['id', 'revision', 'date', 'design']);
  });
  it('is what the next is compared with, unless another is named', () => {
    const [second] = [changed(issued, 'W-2A')];
    const third = freeze(second, FACTS);
    expect(comparedWith(first, undefined)).toBeUndefined();
    expect(comparedWith(third, undefined)?.cables).toBe(second.cables);
    expect(comparedWith(third, first)).toBe(first);
    expect(lastIssue(third)?.revision).toBe('B');
  });
  it('handed over again has those before it beside it, and the comments', () => {
    const third = addComment(freeze(changed(issued, 'W-2A'), FACTS), { says: 'Why?' });
    const [one, two] = issuesOf(third);
    if (!one || !two) throw new Error('two were issued');
    expect(issuesOf(asIssued(third, one))).toEqual([]);
    expect(issuesOf(asIssued(third, two))).toEqual([one]);
    expect(asIssued(third, two).project.revision).toBe('B');
    expect(commentsOf(asIssued(third, two)).length).toBe(1);
  });
  it('is taken out alone, and with the last of them nothing is left', () => {
    const third = freeze(issued, FACTS);
    expect(issuesOf(deleteIssue(third, 'i1')).map((each) => each.id)).toEqual(['i2']);
    expect(deleteIssue(issued, 'i1')).toEqual({ ...first, project: issued.project });
  });
  it('is refused where the document could soon not be opened again', () => {
    const large = manyRuns(200);
    let grown = large;
    for (let i = 0; i < 101; i++) {
      const next = freeze(grown, { date: '2026-11-26' });
      if (next === grown) break;
      grown = next;
    }
    expect(issuesOf(grown).length).toBeGreaterThan(3);
    expect(issuesOf(grown).length).toBeLessThanOrEqual(100);
    expect(load(save(grown)).ok).toBe(true);
    expect(freeze(grown, FACTS)).toBe(grown);
  });
});

describe('a comment', () => {
  const issued = freeze(first, FACTS);
  const asked = addComment(issued, { says: 'Which insulation?', from: 'Reviewer', sheet: '5', parts: ['x'] });
  it('is numbered, and knows the issue that it was written on', () => {
    expect(commentsOf(addComment(asked, { says: 'And here?' })).map(({ id, number, issue }) => [id, number, issue])).toEqual([
      ['c1', '1', 'i1'],
      ['c2', '2', 'i1'],
    ]);
    expect(commentsOf(addComment(first, { says: 'Early' }))).toEqual([{ id: 'c1', number: '1', says: 'Early' }]);
  });
  it('is answered, tied, closed and opened again; what is emptied is gone', () => {
    const closed = changeComment(asked, 'c1', { reply: 'XLPE', parts: ['a', 'b'], closed: '2026-11-27' });
    expect(commentsOf(closed)[0]).toMatchObject({ reply: 'XLPE', parts: ['a', 'b'], closed: '2026-11-27', says: 'Which insulation?' });
    expect(changeComment(closed, 'c1', { reply: '', parts: ['x'], closed: undefined })).toEqual(asked);
    expect(commentsOf(changeComment(asked, 'c1', { parts: [] }))[0]).not.toHaveProperty('parts');
    expect(deleteComment(asked, 'c1')).toEqual(issued);
  });
});
