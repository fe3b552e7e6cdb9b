import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { columnWidths } from '../../../engine/submittal/columnWidths.ts';
import type { Column } from '../../../engine/submittal/content.ts';

/** Columns share their room so that the rows become low, and never higher than by their shares. Every letter here is 2 mm wide. */

const widthOf = (text: string): number => 2 * text.length;
const columns: readonly Column[] = [
  { head: 'No.', w: 12 },
  { head: 'Said', grow: 1 },
  { head: 'More', grow: 1 },
  { head: 'To write', grow: 1 },
];
const widths = (rows: readonly (readonly string[])[], times = 1): readonly number[] =>
  columnWidths(Array.from({ length: times }, () => columns).flat(), rows, times, 312 * times, new Set(), widthOf);
const sum = (list: readonly number[]): number => list.reduce((a, b) => a + b, 0);
/** Greedy, as a hand would break it: 3.8 mm of a cell are its margins. */
const lines = (text: string, width: number): number =>
  text.split(' ').reduce(
    ({ n, at }, word) => {
      const next = at === 0 ? widthOf(word) : at + 2 + widthOf(word);
      return at > 0 && next > width - 3.8 ? { n: n + 1, at: widthOf(word) } : { n, at: next };
    },
    { n: 1, at: 0 },
  ).n;
const height = (rows: readonly (readonly string[])[], ws: readonly number[]): number =>
  sum(rows.map((row) => Math.max(...row.map((cell, i) => lines(cell, ws[i] ?? 0)))));

describe('the columns of a table', () => {
  it('give what one does not need to the one that does', () => {
    const rows = [['1', 'short', 'a long sentence that needs a good deal more room than its share of the sheet gives', '']];
    const [number, said = 0, more = 0, write] = widths(rows);
    expect([number, write]).toEqual([12, 100]);
    expect(more).toBeGreaterThan(said);
    expect(height(rows, widths(rows))).toBe(1);
  });
  it('give room to one long word too, which is broken over lines', () => {
    // 600 mm are seven lines of the 96.2 mm in its share; from 150.2 mm in steps of 6 they are four, and never three.
    expect(widths([['1', 'short', 'x'.repeat(300), '']]).slice(1, 3)).toEqual([46, 154]);
  });
  it('stand alike each time that they stand side by side', () => {
    const row = ['1', 'short', 'a long sentence that needs a good deal more room than its share of the sheet gives', ''];
    const all = widths([[...row, ...row]], 2);
    expect(all.slice(4)).toEqual(all.slice(0, 4));
    expect(sum(all)).toBeCloseTo(624, 9);
  });
  it('fill the room, keep what is to be written in, and make no table higher', () =>
    fc.assert(
      fc.property(fc.array(fc.tuple(fc.lorem({ maxCount: 20 }), fc.lorem({ maxCount: 20 })), { minLength: 1, maxLength: 12 }), (said) => {
        const rows = said.map(([a, b], i) => [`${i}`, a, b, '']);
        const found = widths(rows);
        expect(sum(found)).toBeCloseTo(312, 9);
        expect(found[3]).toBe(100);
        expect(height(rows, found)).toBeLessThanOrEqual(height(rows, [12, 100, 100, 100]));
      }),
    ));
});
