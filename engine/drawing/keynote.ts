import { type Item, TEXT_mm } from './displayList.ts';

/** The number of a note in a square, beside the tag of each part that it is tied to. A finding's number stands in a ring. */

const HIGH_mm = 5;
const FIGURE_mm = 2;
const GAP_mm = 0.8;

const width = (number: number): number => Math.max(HIGH_mm, `${number}`.length * FIGURE_mm + 1.6);

/** They stand on the baseline of a text and begin at x. */
export function keynoteFlags(numbers: readonly number[], x: number, y: number): readonly Item[] {
  let left = x;
  return numbers.flatMap((number): readonly Item[] => {
    const w = width(number);
    const items: readonly Item[] = [
      { t: 'rect', x: left, y: y - HIGH_mm + 1.2, w, h: HIGH_mm, weight_mm: 0.3, ink: 'ink', fill: 'canvas' },
      { t: 'text', x: left + w / 2, y, text: `${number}`, size_mm: TEXT_mm, weight: 400, anchor: 'middle', ink: 'ink' },
    ];
    left += w + GAP_mm;
    return items;
  });
}
