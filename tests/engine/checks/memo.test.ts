import { describe, expect, it } from 'vitest';
import { Memo } from '../../../engine/checks/memo.ts';

/** Reviews in turn, each told here in full: what is worked out again, what is the same object, and what is let go. */

/** A memory, and a way to make one review with it. */
const reviews = () => {
  const memo = new Memo();
  return {
    memo,
    review: <T>(ask: (memo: Memo) => T): T => {
      memo.begin();
      const told = ask(memo);
      memo.end();
      return told;
    },
  };
};

describe('a result', () => {
  it('is the same object while what it was made from is, and counts where it is made anew', () => {
    const { memo, review } = reviews();
    const [a, b] = [{}, {}];
    const ask = (deps: readonly unknown[]) =>
      review((each) =>
        each.get(
          'k',
          deps,
          () => ({ made: 1 }),
          () => 3,
        ),
      );
    const first = ask([a, 1]);
    expect(memo.recomputed).toBe(3);
    expect([ask([a, 1]), memo.recomputed]).toEqual([first, 0]);
    expect(ask([a, 1])).toBe(first);
    for (const deps of [[b, 1], [a, 2], [a], [a, 1, undefined], [1, a]]) {
      expect(ask(deps)).not.toBe(first);
      expect(memo.recomputed).toBe(3);
      expect(ask([a, 1])).not.toBe(first);
    }
  });
  it('counts for none where nobody says how many it holds', () => {
    const { memo, review } = reviews();
    review((each) => each.get('k', [], () => 5));
    expect(memo.recomputed).toBe(0);
  });
  it('of a list hangs on what stands in it, in its order, and not on the list', () => {
    const { review } = reviews();
    const [a, b] = [{}, {}];
    const ask = (list: unknown) => review((memo) => memo.get('k', [list], () => ({})));
    const first = ask([a, b]);
    expect(ask([a, b])).toBe(first);
    for (const other of [[b, a], [a], [a, b, b], [a, {}], 'ab', { 0: a, 1: b, length: 2 }]) {
      const last = ask([a, b]);
      expect(ask(other)).not.toBe(last);
    }
    const whole = ask('ab');
    expect(ask(['a', 'b'])).not.toBe(whole);
    // No number that is none, and no zero of another sign, passes for a change that it is not.
    const none = ask([Number.NaN]);
    expect(ask([Number.NaN])).toBe(none);
  });
  it('that one review did not ask for is forgotten; one that it asked for is not', () => {
    const { review } = reviews();
    const ask = (key: string) => review((memo) => memo.get(key, [], () => ({})));
    const first = ask('k');
    expect(ask('k')).toBe(first);
    expect(ask('k')).toBe(first);
    ask('other');
    expect(ask('k')).not.toBe(first);
  });
  it('within a review is not taken from that same review', () => {
    const { memo, review } = reviews();
    review((each) => {
      const first = each.get('k', [], () => ({}));
      expect(each.get('k', [], () => ({}))).not.toBe(first);
    });
    expect(memo.recomputed).toBe(0);
  });
});

describe('a result that is made of many', () => {
  const ask = (review: ReturnType<typeof reviews>['review'], whole: unknown, parts: readonly unknown[]) =>
    review((memo) =>
      memo.inner('k', [whole], (own) =>
        parts.map((part, i) =>
          own.get(
            `${i}`,
            [part],
            () => ({ part }),
            () => 1,
          ),
        ),
      ),
    );
  it('is the same while nothing changed; else each of the many is, whose own did not', () => {
    const { memo, review } = reviews();
    const first = ask(review, 'one', ['a', 'b']);
    expect(memo.recomputed).toBe(2);
    expect(ask(review, 'one', ['never asked'])).toBe(first);
    expect(memo.recomputed).toBe(0);
    const second = ask(review, 'two', ['a', 'c']);
    expect(second).not.toBe(first);
    expect([second[0] === first[0], second[1] === first[1], memo.recomputed]).toEqual([true, false, 1]);
    // Two reviews on, still.
    ask(review, 'two', []);
    expect(ask(review, 'three', ['a', 'c'])[1]).toBe(second[1]);
    expect(memo.recomputed).toBe(0);
  });
  it('lets go of the many with itself', () => {
    const { memo, review } = reviews();
    const first = ask(review, 'one', ['a']);
    review(() => null);
    expect(ask(review, 'one', ['a'])[0]).not.toBe(first[0]);
    expect(memo.recomputed).toBe(1);
  });
});

describe('what says the same', () => {
  const twice = (was: object, is: object): boolean => {
    const { review } = reviews();
    const keep = (fresh: object) => review((memo) => memo.keep('k', fresh));
    expect(keep(was)).toBe(was);
    const kept = keep(is);
    expect(kept === was || kept === is).toBe(true);
    // Whichever was kept is what the next is held to.
    expect(keep(is)).toBe(kept);
    return kept === was;
  };
  it('is taken for the same, at any depth', () => {
    for (const [was, is] of [
      [{ a: 1 }, { a: 1 }],
      [{ a: { b: [1, 'x', null, { c: true }] } }, { a: { b: [1, 'x', null, { c: true }] } }],
      [{ a: Number.NaN }, { a: Number.NaN }],
      [{ a: 1, b: undefined }, { a: 1 }],
      [{ a: 1 }, { a: 1, b: undefined }],
      [
        { b: 2, a: 1 },
        { a: 1, b: 2 },
      ],
      [{ a: 0 }, { a: -0 }],
      [{}, {}],
    ] as const)
      expect([was, twice(was, is)]).toEqual([was, true]);
  });
  it('and nothing else is', () => {
    for (const [was, is] of [
      [{ a: 1 }, { a: 2 }],
      [{ a: 1 }, { a: '1' }],
      [{ a: { b: [1, 2] } }, { a: { b: [1, 3] } }],
      [{ a: [1] }, { a: [1, 2] }],
      [{ a: [1, 2] }, { a: [1] }],
      [{ a: [1] }, { a: { 0: 1 } }],
      [{ a: { 0: 1 } }, { a: [1] }],
      [{ a: [] }, { a: {} }],
      [{ a: null }, { a: {} }],
      [{ a: {} }, { a: null }],
      [{ a: null }, { a: undefined }],
      [{ a: {} }, { a: 1 }],
      [{ a: 1 }, { a: {} }],
      [{ a: {} }, { a: 'x' }],
      [{ a: 'x' }, { a: {} }],
      [{ a: 1 }, { a: 1, b: 2 }],
      [{ a: 1, b: 2 }, { a: 1 }],
      [{ a: 1 }, {}],
      [{}, { a: 1 }],
    ] as const)
      expect([was, is, twice(was, is)]).toEqual([was, is, false]);
  });
  it('is asked of a part too: of the whole that was remembered', () => {
    const { review } = reviews();
    const part = { a: 1 };
    const same = (fresh: object, pick = (whole: { readonly list: readonly object[] }) => whole.list[0]) =>
      review((memo) => {
        const told = memo.same('k', pick, fresh);
        memo.get('k', [{}], () => ({ list: [told] }));
        return told;
      });
    expect(same(part)).toBe(part);
    expect(same({ a: 1 })).toBe(part);
    const other = { a: 2 };
    expect(same(other)).toBe(other);
    const third = { a: 2 };
    expect(same(third, () => undefined as never)).toBe(third);
  });
});
