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

/** Three millimetres more still stay inside the border, since the estimate of text widths is generous. */
const SPARE_mm = 3;

/**
 * As few sheets as hold it, and as alike as can be: no sheet for a sliver of it. A cut crosses nothing; where the parts stand too close
 * for that, it crosses least, and rather makes one sheet more.
 */
function cuts(start: number, length: number, most: number, kept: readonly (readonly [number, number])[]): readonly number[] {
  const end = start + length;
  const found = [start];
  for (let from = start; end - from > most + SPARE_mm; ) {
    const sheets = Math.ceil((end - from - SPARE_mm) / most);
    const share = from + (end - from) / sheets;
    // No sheet on either side is narrower than a quarter.
    const limit = Math.min(from + most, end - most / 4);
    const rest = end - SPARE_mm - (sheets - 1) * most;
    const near = kept.filter(([a, b]) => b > from && a < limit);
    const [cut = share] = [share, limit, ...near.flat()]
      .filter((at) => at > from + most / 4 && at <= limit)
      .map((at) => {
        const crossed = near.filter(([a, b]) => a < at && at < b);
        // How much of what is crossed comes to stand on the wrong side.
        const depth = Math.max(0, ...crossed.map(([a, b]) => Math.min(at - a, b - at)));
        return { at, crossed: crossed.length, more: at < rest ? 1 : 0, depth };
      })
      .sort((a, b) => a.crossed - b.crossed || a.more - b.more || a.depth - b.depth || Math.abs(a.at - share) - Math.abs(b.at - share))
      .map(({ at }) => at);
    found.push(cut);
    from = cut;
  }
  return [...found, end];
}
