import { describe, expect, it } from 'vitest';
import { byValue } from '../../../engine/checks/byValue.ts';

describe('a function that remembers by value', () => {
  const counted = () => {
    const asked: string[] = [];
    const of = byValue((input: { readonly a: number; readonly b: number | undefined }, word: string) => {
      asked.push(`${input.a} ${input.b} ${word}`);
      return { sum: input.a + (input.b ?? 0), word };
    });
    return { asked, of };
  };

  it('works out once what is asked with the same values, whoever asks', () => {
    const { asked, of } = counted();
    const first = of({ a: 0.1, b: 2 }, 'x');
    expect(of({ a: 0.1, b: 2 }, 'x')).toBe(first);
    expect(asked).toEqual(['0.1 2 x']);
  });

  it('tells apart what differs in a last digit, in a word, in what is missing, and in its place', () => {
    const { asked, of } = counted();
    of({ a: 0.3, b: 1 }, 'x');
    of({ a: 0.1 + 0.2, b: 1 }, 'x');
    of({ a: 0.3, b: 1 }, 'y');
    of({ a: 0.3, b: undefined }, 'x');
    of({ a: 1, b: 0.3 }, 'x');
    expect(asked).toHaveLength(5);
  });

  it('takes no value for one of another name, in whatever order they stand or whichever is left out', () => {
    const asked: object[] = [];
    const of = byValue((input: { readonly a?: number; readonly b?: number; readonly c?: number }) => {
      asked.push(input);
      return input.a ?? 0;
    });
    expect([of({ a: 1, b: 2 }), of({ b: 1, a: 2 }), of({ a: 1, c: 2 }), of({ b: 1, c: 2 })]).toEqual([1, 2, 1, 0]);
    expect(asked).toHaveLength(4);
  });

  it('takes no two values for one text, nor one number for two', () => {
    const asked: unknown[] = [];
    const of = byValue((input: { readonly a: number | string; readonly b?: number }, ...more: readonly number[]) => {
      asked.push([input, more]);
      return asked.length;
    });
    expect([of({ a: 1, b: 2 }), of({ a: '1b,2' }), of({ a: 1 }, 12, 3), of({ a: 1 }, 1, 23), of({ a: 1 }, 123)]).toEqual([1, 2, 3, 4, 5]);
  });

  it('keeps a thousand answers, and lets the oldest go', () => {
    const { asked, of } = counted();
    for (let a = 0; a < 1001; a++) of({ a, b: 0 }, 'x');
    of({ a: 1, b: 0 }, 'x');
    expect(asked).toHaveLength(1001);
    of({ a: 0, b: 0 }, 'x');
    expect(asked).toHaveLength(1002);
  });
});
