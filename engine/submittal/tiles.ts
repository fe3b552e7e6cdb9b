import type { Box, Item } from '../drawing/displayList.ts';
import { extent, meets, textBox } from '../drawing/extent.ts';
import type { OneLine, OneLinePart } from '../drawing/oneLine.ts';

/** What is never cut: symbols, labels and marks, but for what is as long as half a sheet, such as a bus. */
export function uncutItems(drawing: OneLine, w: number): ReadonlyMap<Item, Box> {
  const found = new Map<Item, Box>();
  for (const { kind, items, said, x, y, w: wide, h } of drawing.parts) {
    const whole = { x, y, w: wide, h };
    if (kind === 'element') for (const item of items) found.set(item, whole);
    for (const cluster of clusters(said)) {
      const box = extent(cluster);
      for (const item of cluster) found.set(item, box);
    }
  }
  for (const item of drawing.items) if (item.t === 'text' && !found.has(item)) found.set(item, textBox(item));
  return new Map([...found].filter(([, box]) => box.w < w / 2));
}

/** What is said at the left of a part, and what at its right: a phrase stays with its mark and its numbers. */
function clusters(said: readonly Item[]): readonly (readonly Item[])[] {
  const found: Item[][] = [];
  let right = Number.NEGATIVE_INFINITY;
  for (const { item, box } of said.map((item) => ({ item, box: extent([item]) })).sort((a, b) => a.box.x - b.box.x)) {
    if (box.x > right + APART_mm) found.push([]);
    found.at(-1)?.push(item);
    right = Math.max(right, box.x + box.w);
  }
  return found;
}
/** Less than lies between the two, and more than between the words of one. */
const APART_mm = 3;

/** Splits a one-line over several sheets at full size: text is never made smaller than can be read. Cuts fall where only cables cross. */
export function tilesOf(drawing: OneLine, w: number, h: number): readonly Box[] {
  const symbols = new Set(drawing.parts.filter(({ kind }) => kind === 'element').flatMap(({ items }) => items));
  const kept = [...new Map([...uncutItems(drawing, w)].map(([item, box]) => [box, symbols.has(item) ? SYMBOL : 1]))].map(
    ([box, worth]): Kept => ({ ...box, worth }),
  );
  // What is said of a part stands on both sides of it, and is best read together.
  const together = drawing.parts
    .map(({ kind, items, said }) => extent(kind === 'element' ? [...items, ...said] : said))
    .filter((box) => box.w < w / 2)
    .map((box): Kept => ({ ...box, worth: TOGETHER }));
  kept.push(...together);
  const cables = drawing.parts.filter((part) => part.kind === 'cable');
  const ys = cuts(drawing.y_mm, drawing.height_mm, h, spans([...kept, ...legsOf(cables, 1)], 1));
  return pairs(ys).flatMap(
    ([from, to]) => across({ x: drawing.x_mm, y: from, w: drawing.width_mm, h: to - from }, w, [...kept, ...legsOf(cables, 0)]).tiles,
  );
}

/** A row cut across, in places of its own. Where that would cut a part, and the row can be cut in two between parts, each half is easier. */
function across(row: Box, w: number, kept: readonly Kept[]): { readonly tiles: readonly Box[]; readonly cut: number } {
  const own = kept.filter((box) => meets(box, row));
  const [wide, high] = [spans(own, 0), spans(own, 1)];
  const xs = cuts(row.x, row.w, w, wide);
  const whole = {
    tiles: pairs(xs).map(([from, to]) => ({ ...row, x: from, w: to - from })),
    cut: xs.slice(1, -1).reduce((sum, at) => sum + crossed(at, wide), 0),
  };
  if (whole.cut === 0) return whole;
  const middle = row.y + row.h / 2;
  const [at] = edges(high)
    .filter((y) => Math.abs(y - middle) <= row.h / 4 && crossed(y, high) === 0)
    .sort((a, b) => Math.abs(a - middle) - Math.abs(b - middle));
  if (at === undefined) return whole;
  const halves = [
    { ...row, h: at - row.y },
    { ...row, y: at, h: row.y + row.h - at },
  ].map((half) => across(half, w, kept));
  const cut = halves.reduce((sum, half) => sum + half.cut, 0);
  return cut < whole.cut ? { tiles: halves.flatMap(({ tiles }) => tiles), cut } : whole;
}

/** A cut through a symbol is worse than one through some labels. */
const SYMBOL = 5;
const TOGETHER = 2;
type Kept = Box & { readonly worth: number };
type Span = readonly [from: number, to: number, worth: number];
const CLEAR_mm = 0.4;
const spans = (boxes: readonly Kept[], axis: 0 | 1): readonly Span[] =>
  boxes.map(({ x, y, w, h, worth }) => (axis === 0 ? [x - CLEAR_mm, x + w + CLEAR_mm, worth] : [y - CLEAR_mm, y + h + CLEAR_mm, worth]));
const edges = (kept: readonly Span[]): readonly number[] => [...kept.map(([from]) => from), ...kept.map(([, to]) => to)];
const crossed = (at: number, kept: readonly Span[]): number =>
  kept.reduce((sum, [from, to, worth]) => sum + (from < at && at < to ? worth : 0), 0);
const pairs = (at: readonly number[]): readonly (readonly [number, number])[] => at.slice(1).map((to, i) => [at[i] ?? to, to]);

/** What is drawn beside a cable: its shield, its pipe, its marks. */
const BESIDE_mm = 3;
/** The legs of cables that lie along a cut of this axis: a cable is cut across, never along. */
const legsOf = (cables: readonly OneLinePart[], axis: 0 | 1): readonly Kept[] =>
  cables.flatMap(({ items: [spine] }) =>
    spine?.t !== 'line'
      ? []
      : spine.points.slice(1).flatMap((b, i) => {
          const a = spine.points[i] ?? b;
          if (Math.abs(a[axis] - b[axis]) > 0.01) return [];
          const [x, y] = [Math.min(a[0], b[0]), Math.min(a[1], b[1])];
          const [length, thick] = [Math.abs(a[(1 - axis) as 0 | 1] - b[(1 - axis) as 0 | 1]), 2 * BESIDE_mm];
          return [
            axis === 0
              ? { x: x - BESIDE_mm, y, w: thick, h: length, worth: SYMBOL }
              : { x, y: y - BESIDE_mm, w: length, h: thick, worth: SYMBOL },
          ];
        }),
  );

/** Three millimetres more still stay inside the border, since the estimate of text widths is generous. */
export const SPARE_mm = 3;

/**
 * As few sheets as hold it, and as alike as can be: no sheet for a sliver of it. A cut crosses nothing; where the parts stand too close
 * for that, it crosses least, and rather makes one sheet more.
 */
function cuts(start: number, length: number, most: number, kept: readonly Span[]): readonly number[] {
  const end = start + length;
  const found = [start];
  for (let from = start; end - from > most + SPARE_mm; ) {
    const sheets = Math.ceil((end - from - SPARE_mm) / most);
    const share = from + (end - from) / sheets;
    // No sheet on either side is narrower than a quarter.
    const limit = Math.min(from + most, end - most / 4);
    const rest = end - SPARE_mm - (sheets - 1) * most;
    const near = kept.filter(([a, b]) => b > from && a < limit);
    const [cut = share] = [share, limit, ...edges(near)]
      .filter((at) => at > from + most / 4 && at <= limit)
      .map((at) => {
        // How much of what is crossed comes to stand on the wrong side.
        const depth = Math.max(0, ...near.map(([a, b]) => Math.min(at - a, b - at)));
        return { at, crossed: crossed(at, near), more: at < rest ? 1 : 0, depth };
      })
      .sort((a, b) => a.crossed - b.crossed || a.more - b.more || a.depth - b.depth || Math.abs(a.at - share) - Math.abs(b.at - share))
      .map(({ at }) => at);
    found.push(cut);
    from = cut;
  }
  return [...found, end];
}
