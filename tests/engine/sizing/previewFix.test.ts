import { describe, expect, it } from 'vitest';
import type { Review } from '../../../engine/checks/solved.ts';
import type { Finding, Fix, LineUp, Verdict } from '../../../engine/index.ts';
import { concerning, worstByCheck } from '../../../engine/sizing/concerning.ts';
import { moveOf, pointsGained, previewFix } from '../../../engine/sizing/previewFix.ts';
import { barePart } from '../bareParts.ts';
import { LineUpBuilder } from '../lineUpBuilder.ts';

/** What a fix moves, told of findings that are made up; and what a review says that concerns one cable. */

const found = (id: string, verdict: Verdict, more: Partial<Finding> = {}): Finding =>
  ({
    id,
    verdict,
    check: id,
    quantity: 'q',
    margin_pct: null,
    subject: { kind: 'cable', id, tag: id },
    runs: [],
    ...more,
  }) as unknown as Finding;
const of = (verdict: Verdict | null): Finding | null => (verdict === null ? null : found('a', verdict));

describe('what a change makes of a finding', () => {
  it.each<[Verdict | null, Verdict | null, string]>([
    // From worst to best: fail, open, caution, note, pass; what does not apply is as good as a pass.
    ['fail', 'caution', 'better'],
    ['fail', 'note', 'better'],
    ['fail', 'pass', 'better'],
    ['fail', null, 'better'],
    ['open', 'caution', 'better'],
    ['open', 'pass', 'better'],
    ['caution', 'note', 'better'],
    ['note', 'pass', 'better'],
    ['note', 'not-applicable', 'better'],
    ['caution', 'fail', 'worse'],
    ['open', 'fail', 'worse'],
    ['note', 'caution', 'worse'],
    ['pass', 'note', 'worse'],
    [null, 'fail', 'worse'],
    [null, 'note', 'worse'],
    ['not-applicable', 'fail', 'worse'],
    ['fail', 'fail', 'same'],
    ['open', 'open', 'same'],
    ['pass', 'not-applicable', 'same'],
    ['pass', 'out-of-scope', 'same'],
    [null, 'pass', 'same'],
    ['pass', null, 'same'],
    // What objected and cannot be judged any more asks, and so does what is new; what was settled is worse for it.
    ['fail', 'open', 'asked'],
    ['caution', 'open', 'asked'],
    [null, 'open', 'asked'],
    ['note', 'open', 'worse'],
    ['pass', 'open', 'worse'],
    ['not-applicable', 'open', 'worse'],
  ])('%s to %s: %s', (before, after, move) => {
    expect(moveOf(of(before), of(after))).toBe(move);
  });
});

describe('points of margin', () => {
  const points = (before: Partial<Finding> | null, after: Partial<Finding> | null) =>
    pointsGained(before && found('a', 'fail', before), after && found('a', 'fail', after));
  it('are told of one quantity with a margin on both sides', () => {
    expect(points({ margin_pct: -5 }, { margin_pct: -3.5 })).toBe(1.5);
    expect(points({ margin_pct: -5 }, { margin_pct: 3, quantity: 'other' })).toBeNull();
    expect([
      points({ margin_pct: -5 }, {}),
      points({}, { margin_pct: -5 }),
      points(null, { margin_pct: 1 }),
      points({ margin_pct: 1 }, null),
    ]).toEqual([null, null, null, null]);
  });
});

describe('a fix', () => {
  const lineUp: LineUp = { ...new LineUpBuilder().build(), elements: [barePart('motor', 'M', { ratedCurrent_A: 5 })] };
  const fix: Fix = { label: 'more', edits: [{ id: 'M', path: 'ratedCurrent_A', value: 6 }] };
  const review = (findings: readonly Finding[]): Review => ({ findings, runs: [] }) as unknown as Review;
  const seen = (before: readonly Finding[], after: readonly Finding[]) => {
    const judged: LineUp[] = [];
    const preview = previewFix(lineUp, fix, review(before), (made) => {
      judged.push(made);
      return review(after);
    });
    return { preview, judged };
  };

  it('is judged once, as made', () => {
    const { preview, judged } = seen([], []);
    expect(judged.map(({ elements }) => elements)).toEqual([[{ ...lineUp.elements[0], ratedCurrent_A: 6 }]]);
    expect(preview).toEqual({ fix, better: [], worse: [], asked: [], moreRoom: [], lessRoom: [], unchanged: [] });
  });

  it('tells each finding once, with what it was and what it is', () => {
    const before = [found('a', 'fail'), found('b', 'pass'), found('c', 'fail'), found('d', 'note'), found('gone', 'caution')];
    const after = [found('a', 'pass'), found('b', 'fail'), found('c', 'open'), found('d', 'note'), found('new', 'fail')];
    const { preview } = seen(before, after);
    expect(preview.better).toEqual([
      { id: 'a', before: before[0], after: after[0] },
      { id: 'gone', before: before[4], after: null },
    ]);
    expect(preview.worse).toEqual([
      { id: 'b', before: before[1], after: after[1] },
      { id: 'new', before: null, after: after[4] },
    ]);
    expect(preview.asked).toEqual([{ id: 'c', before: before[2], after: after[2] }]);
    expect(preview.unchanged).toEqual([after[3]]);
  });

  it('gives or takes room from a point of margin on, where the verdict stays', () => {
    const margins = [1, 0.99, -0.99, -1];
    const before = [
      ...margins.map((_, i) => found(`m${i}`, 'fail', { margin_pct: 10 })),
      found('better', 'fail', { margin_pct: -10 }),
      found('gone', 'pass'),
    ];
    const after = [
      ...margins.map((each, i) => found(`m${i}`, 'fail', { margin_pct: 10 + each })),
      found('better', 'pass', { margin_pct: 10 }),
    ];
    const { preview } = seen(before, after);
    expect([preview.moreRoom.map(({ id }) => id), preview.lessRoom.map(({ id }) => id)]).toEqual([['m0'], ['m3']]);
    expect(preview.unchanged.map(({ id }) => id)).toEqual(['m0', 'm1', 'm2', 'm3']);
  });
});

describe('what concerns a cable', () => {
  const own = { subject: { kind: 'cable', id: 'W', tag: 'W' } } as const;
  const findings = [
    found('drop', 'fail', { check: 'drop', runs: ['M1'] }),
    found('drop2', 'caution', { check: 'drop', ...own }),
    found('drop3', 'note', { check: 'drop', ...own }),
    found('peak', 'fail', { check: 'peak', runs: ['M2'] }),
    found('size', 'pass', { check: 'size', ...own, runs: [] }),
    found('both', 'note', { check: 'both', runs: ['M2', 'M1'] }),
    found('both2', 'pass', { check: 'both', runs: ['M1'] }),
    found('site', 'fail', { check: 'site', runs: [] }),
  ];
  const runs = [
    { motorTag: 'M1', path: ['F', 'W'] },
    { motorTag: 'M2', path: ['F', 'V'] },
  ];
  const review = { findings, runs } as unknown as Review;

  it('is what is said of itself and of the runs through it', () => {
    expect(concerning(review, 'W').map(({ id }) => id)).toEqual(['drop', 'drop2', 'drop3', 'size', 'both', 'both2']);
    expect(concerning(review, 'V').map(({ id }) => id)).toEqual(['peak', 'both']);
  });

  it('by check: the worst, which stands first; of itself where that is said', () => {
    expect([...worstByCheck(review, 'W')].map(([check, { id }]) => [check, id])).toEqual([
      ['drop', 'drop2'],
      ['size', 'size'],
      ['both', 'both'],
    ]);
  });
});
