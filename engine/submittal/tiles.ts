import type { Box, Item } from '../drawing/displayList.ts';
import { textBox } from '../drawing/extent.ts';
import type { OneLine } from '../drawing/oneLine.ts';

/** Splits a one-line over several sheets at full size: text is never made smaller than can be read. Cuts fall where only cables cross. */
export function tilesOf(drawing: OneLine, w: number, h: number): readonly Box[] {
  const kept: Box[] = [
    ...drawing.parts.filter((part) => part.kind === 'element'),
    ...drawing.items.filter((item): item is Extract<Item, { t: 'text' }> => item.t === 'text').map(textBox),
  ];
  const xs = cuts(
    drawing.x_mm,
    drawing.width_mm,
    w,
    kept.filter((box) => box.w < w / 2).map((box) => [box.x - 0.4, box.x + box.w + 0.4] as const),
  );
  const ys = cuts(
    drawing.y_mm,
    drawing.height_mm,
    h,
    kept.map((box) => [box.y - 0.4, box.y + box.h + 0.4] as const),
  );
  const tiles: Box[] = [];
  for (let row = 0; row + 1 < ys.length; row++)
    for (let column = 0; column + 1 < xs.length; column++) {
      const x = xs[column] ?? 0;
      const y = ys[row] ?? 0;
      tiles.push({ x, y, w: (xs[column + 1] ?? 0) - x, h: (ys[row + 1] ?? 0) - y });
    }
  return tiles;
}

function cuts(start: number, length: number, most: number, kept: readonly (readonly [number, number])[]): readonly number[] {
  const end = start + length;
  const found = [start];
  for (let from = start; end - from > most + 1e-9; ) {
    let cut = from + most;
    // Go back from the last possible place to the first that touches nothing; if none is free, cut at the limit.
    for (let inside = kept.filter(([a, b]) => a < cut && cut < b); inside.length > 0; inside = kept.filter(([a, b]) => a < cut && cut < b))
      cut = Math.min(...inside.map(([a]) => a));
    if (cut <= from + most / 4) cut = from + most;
    found.push(cut);
    from = cut;
  }
  return [...found, end];
}
