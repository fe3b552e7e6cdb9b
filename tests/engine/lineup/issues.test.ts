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
  newLineUp,
  nextRevision,
  save,
  withValueAt,
} from '../../../engine/index.ts';
import { changedTags, comparedWith } from '../../../engine/lineup/issues.ts';
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
    ['z', 'aa'],
    ['az', 'ba'],
    ['zz', 'aaa'],
    ['1.9', '1.10'],
    ['P-009', 'P-010'],
    ['Rev. 4b', 'Rev. 4c'],
    ['2026-A', '2026-B'],
    ['R2 D', 'R2 E'],
    ['Aa', 'Aa 2'],
    ['99999999999999999999', '100000000000000000000'],
    ['B+', 'B+ 2'],
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
  it('is none the hundred and first time', () => {
    let grown = newLineUp();
    for (let i = 0; i < 100; i++) grown = freeze(grown, { date: '2026-11-26' });
    expect([issuesOf(grown).length, new Set(issuesOf(grown).map(({ id }) => id)).size]).toEqual([100, 100]);
    expect(freeze(grown, { date: '2026-11-26' })).toBe(grown);
  });
  it('has never the id of one that was taken out while a comment is still of that one', () => {
    const commented = addComment(freeze(issued, FACTS), { says: 'On the second' });
    const again = freeze(deleteIssue(commented, 'i2'), FACTS);
    expect(issuesOf(again).map(({ id }) => id)).toEqual(['i1', 'i3']);
    expect(commentsOf(again).map(({ issue }) => issue)).toEqual(['i2']);
    expect(issuesOf(freeze(deleteIssue(freeze(issued, FACTS), 'i1'), FACTS)).map(({ id }) => id)).toEqual(['i2', 'i1']);
  });
  it('tells the tags of what it changed, the first of them nothing', () => {
    expect(changedTags(designOf(first), designOf(changed(first, 'W-2A')))).toEqual(['W-2A']);
    expect(changedTags(undefined, designOf(first))).toEqual([]);
  });
  it('that is taken out of none leaves none, and the first handed over again has none before it', () => {
    expect(deleteIssue(first, 'i1')).toEqual(first);
    expect('issues' in asIssued(issued, issuesOf(issued)[0] as ReturnType<typeof issuesOf>[number])).toBe(false);
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
  it('is counted on from the highest number, what is no number left out', () => {
    const numbered = changeComment(addComment(first, { says: 'a' }), 'c1', { number: '7' });
    const odd = changeComment(addComment(numbered, { says: 'b' }), 'c2', { number: 'x' });
    expect(commentsOf(addComment(odd, { says: 'c' })).map(({ id, number }) => `${id} ${number}`)).toEqual(['c1 7', 'c2 x', 'c3 8']);
    const gap = deleteComment(addComment(addComment(odd, { says: 'c' }), { says: 'd' }), 'c2');
    expect(commentsOf(gap).map(({ id }) => id)).toEqual(['c1', 'c3', 'c4']);
    expect(commentsOf(addComment(gap, { says: 'e' })).at(-1)?.id).toBe('c2');
  });
  it('is changed alone, the others staying the same objects, and taken out of none leaves none', () => {
    const two = addComment(addComment(first, { says: 'a' }), { says: 'b' });
    const answered = changeComment(two, 'c2', { reply: 'x' });
    expect(commentsOf(answered)[0]).toBe(commentsOf(two)[0]);
    expect(commentsOf(answered)[1]?.reply).toBe('x');
    expect(deleteComment(first, 'c1')).toEqual(first);
    expect(commentsOf(deleteComment(two, 'c1'))).toEqual([commentsOf(two)[1]]);
  });
  it('is none the two thousand and first time', () => {
    const comments = Array.from({ length: 1999 }, (_, i) => ({ id: `x${i}`, number: `${i}`, says: '' }));
    const full = addComment({ ...newLineUp(), comments }, { says: 'last' });
    expect(commentsOf(full).length).toBe(2000);
    expect(addComment(full, { says: 'more' })).toBe(full);
  });
  it('is answered, tied, closed and opened again; what is emptied is gone', () => {
    const closed = changeComment(asked, 'c1', { reply: 'XLPE', parts: ['a', 'b'], closed: '2026-11-27' });
    expect(commentsOf(closed)[0]).toMatchObject({ reply: 'XLPE', parts: ['a', 'b'], closed: '2026-11-27', says: 'Which insulation?' });
    expect(changeComment(closed, 'c1', { reply: '', parts: ['x'], closed: undefined })).toEqual(asked);
    expect(commentsOf(changeComment(asked, 'c1', { parts: [] }))[0]).not.toHaveProperty('parts');
    expect(deleteComment(asked, 'c1')).toEqual(issued);
  });
});
