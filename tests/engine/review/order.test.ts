import { describe, expect, it } from 'vitest';
import { type CheckFacts, finding } from '../../../engine/checks/check.ts';
import { type Finding, VERDICTS, type Verdict } from '../../../engine/checks/finding.ts';
import { groupOf, inOrder, worstByRun } from '../../../engine/review/order.ts';

/** Worst first; then by tag, by check, by id: an order of the words alone, whatever came first. */

const of = (check: string, tag: string, verdict: Verdict, more: Partial<Finding> = {}): Finding =>
  finding(
    { slug: check, title: check, authority: 'guide', source: '', rule: '', why: '' } satisfies CheckFacts,
    { kind: 'element', id: tag, tag },
    more.runs ?? [],
    { verdict, phrase: '', text: '', ...more },
  );
const ids = (findings: readonly Finding[]) => findings.map((each) => each.id);
const groups = (...lists: readonly (readonly Finding[])[]) => lists.map(groupOf);
const NOTHING = { list: [], groups: [] };
const ordered = (list: readonly Finding[]) => inOrder(NOTHING, groups(list));

describe('the order of findings', () => {
  it('is by verdict, from fail to out of scope', () => {
    const mixed = [...VERDICTS].reverse().map((verdict, i) => of(`c${i}`, `t${i}`, verdict));
    expect(ordered(mixed).map((each) => each.verdict)).toEqual([
      'fail',
      'open',
      'caution',
      'note',
      'pass',
      'not-applicable',
      'out-of-scope',
    ]);
  });
  it('is by tag within a verdict, then by check, then by id', () => {
    const list = [
      of('b', 'Y', 'pass'),
      of('a', 'Y', 'pass', { id: 'a/2' }),
      of('a', 'Y', 'pass', { id: 'a/1' }),
      of('z', 'X', 'pass'),
      of('a', 'Z', 'fail'),
    ];
    const expected = ['a/element/Z', 'z/element/X', 'a/1', 'a/2', 'b/element/Y'];
    expect([ids(ordered(list)), ids(ordered([...list].reverse()))]).toEqual([expected, expected]);
  });
});

describe('findings of one box for several runs', () => {
  const gap = (runs: readonly string[], verdict: Verdict = 'fail', more: Partial<Finding> = {}) =>
    of('gap', 'JB', verdict, { runs, ...more });
  it('are one, that names every run once', () => {
    const { findings } = groupOf([gap(['M-1']), gap(['M-2', 'M-1'])]);
    expect(findings.map((each) => each.runs)).toEqual([['M-1', 'M-2']]);
  });
  it('say the worst of them, whichever comes first, and the first of two alike', () => {
    for (const list of [
      [gap(['M-1'], 'open', { text: 'o' }), gap(['M-2'], 'fail', { text: 'f' })],
      [gap(['M-2'], 'fail', { text: 'f' }), gap(['M-1'], 'open', { text: 'o' })],
    ])
      expect(groupOf(list).findings.map((each) => [each.verdict, each.text])).toEqual([['fail', 'f']]);
    expect(groupOf([gap(['M-1'], 'fail', { text: '1' }), gap(['M-2'], 'fail', { text: '2' })]).findings[0]?.text).toBe('1');
  });
  it('are mended by one change, of all their edits, each once', () => {
    const edit = (id: string, path = 'landing') => ({ id, path, value: 'clamp' });
    const fix = (label: string, ...edits: ReturnType<typeof edit>[]) => ({ label, edits });
    const list = [
      gap(['M-1'], 'fail', { fixes: [fix('bond', edit('JB'), edit('c1'))] }),
      gap(['M-2'], 'fail', { fixes: [fix('bond', edit('JB'), edit('c2'), edit('c1', 'other')), fix('move', edit('c3'))] }),
    ];
    expect(groupOf(list).findings[0]?.fixes).toEqual([
      fix('bond', edit('JB'), edit('c1'), edit('c2'), edit('c1', 'other')),
      fix('move', edit('c3')),
    ]);
  });
});

describe('a group', () => {
  it('counts its verdicts, and knows the worst of each run', () => {
    const group = groupOf([
      of('a', 'A', 'pass', { runs: ['M-1', 'M-2'] }),
      of('b', 'B', 'fail', { runs: ['M-2'] }),
      of('c', 'C', 'pass', { runs: ['M-3'] }),
    ]);
    expect(Object.fromEntries(group.counts)).toEqual({ fail: 1, pass: 2 });
    expect(Object.fromEntries(group.byRun)).toEqual({ 'M-1': 'pass', 'M-2': 'fail', 'M-3': 'pass' });
  });
  it('gives the worst of each run with the others, whichever comes first', () => {
    const [good, bad] = groups([of('a', 'A', 'pass', { runs: ['M-1', 'M-2'] })], [of('b', 'B', 'open', { runs: ['M-1'] })]);
    for (const both of [
      [good, bad],
      [bad, good],
    ])
      expect(worstByRun(both.flatMap((group) => group ?? [])).get('M-1')).toBe('open');
    expect(worstByRun(good ? [good] : []).get('M-2')).toBe('pass');
    expect(worstByRun([]).size).toBe(0);
  });
});

describe('all groups in one list', () => {
  const [one, two, three] = groups(
    [of('a', 'A', 'pass'), of('a', 'C', 'fail'), of('a', 'E', 'note')],
    [of('a', 'B', 'pass'), of('a', 'D', 'fail')],
    [of('a', 'F', 'open'), of('b', 'A', 'pass')],
  );
  const some = (...list: (typeof one)[]) => list.flatMap((group) => group ?? []);
  const everything = ['a/element/C', 'a/element/D', 'a/element/F', 'a/element/E', 'a/element/A', 'b/element/A', 'a/element/B'];
  it('are in the same order, all new or put in among what stood there', () => {
    const all = some(one, two, three);
    expect(ids(inOrder(NOTHING, all))).toEqual(everything);
    expect(ids(inOrder(NOTHING, [...all].reverse()))).toEqual(everything);
    for (const before of [some(one), some(two), some(three), some(one, three), all])
      expect(ids(inOrder({ list: inOrder(NOTHING, before), groups: before }, all))).toEqual(everything);
  });
  it('lose what is gone', () => {
    const all = some(one, two, three);
    const list = inOrder(NOTHING, all);
    expect(ids(inOrder({ list, groups: all }, some(one, three)))).toEqual(
      everything.filter((id) => !['a/element/B', 'a/element/D'].includes(id)),
    );
    expect(inOrder({ list, groups: all }, [])).toEqual([]);
  });
  it('keep what stood in order, and sort it not again', () => {
    // A list that is out of order tells that it was not touched.
    const list = [...(one?.findings ?? [])].reverse();
    expect(ids(inOrder({ list, groups: some(one) }, some(one)))).toEqual(ids(list));
  });
});
