import type { Box, Item } from '../drawing/displayList.ts';
import { extent, textBox } from '../drawing/extent.ts';
import type { OneLine } from '../drawing/oneLine.ts';

/** Splits a one-line over several sheets at full size: text is never made smaller than can be read. Cuts fall where only cables cross. */
export function tilesOf(drawing: OneLine, w: number, h: number): readonly Box[] {
  const kept: Box[] = [
    ...drawing.parts.filter((part) => part.kind === 'element'),
    ...drawing.items.filter((item): item is Extract<Item, { t: 'text' }> => item.t === 'text').map(textBox),
    // Rings with numbers: a ring cut in two says nothing.
    ...drawing.items.filter((item) => item.t === 'circle' && item.r > 3).map((item) => extent([item])),
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

/** Each cut as far on as can be where it crosses nothing; where the parts stand too close for that, where it crosses least. */
function cuts(start: number, length: number, most: number, kept: readonly (readonly [number, number])[]): readonly number[] {
  const end = start + length;
  const found = [start];
  // Three more millimetres still stay inside the border (the estimate of text widths is generous): no sheet for a sliver.
  for (let from = start; end - from > most + 3; ) {
    const limit = from + most;
    let cut = limit;
    let least = Number.POSITIVE_INFINITY;
    const near = kept.filter(([a, b]) => b > from && a < limit);
    for (const at of new Set([limit, ...near.flat()])) {
      if (at <= from + most / 4 || at > limit) continue;
      const crossed = near.filter(([a, b]) => a < at && at < b).length;
      if (crossed < least || (crossed === least && at > cut)) [cut, least] = [at, crossed];
    }
    found.push(cut);
    from = cut;
  }
  return [...found, end];
}
