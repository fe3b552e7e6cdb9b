import type { Box, Item } from '../drawing/displayList.ts';
import type { OneLine } from '../drawing/oneLine.ts';

/** Where a one-line that is cut over several sheets goes on: a letter at each cut line, the same on both sides. */

export interface Match {
  readonly letter: string;
  /** More than one where cables lie on one another. */
  readonly partIds: readonly string[];
  readonly x: number;
  readonly y: number;
  /** Of the cut: 0 at the right of the tile it comes from, 1 at its foot. */
  readonly axis: 0 | 1;
  /** Places of the two tiles in their list. */
  readonly from: number;
  readonly to: number;
}

/** Cables that cross a cut so near to each other have one sign. */
const NEAR_mm = 7;

const letterAt = (i: number): string =>
  `${i >= 26 ? String.fromCharCode(64 + Math.floor(i / 26)) : ''}${String.fromCharCode(65 + (i % 26))}`;

export function matchesOf(drawing: OneLine, tiles: readonly Box[], uncut: ReadonlyMap<Item, Box>): readonly Match[] {
  const found: Match[] = [];
  for (const part of drawing.parts) {
    // The heavy line of a cable or a bus comes first among its items.
    const spine = part.items.find((item): item is Extract<Item, { t: 'line' }> => item.t === 'line' && item.ink === 'ink');
    if (!spine || uncut.has(spine)) continue;
    tiles.forEach((tile, from) => {
      const right = tile.x + tile.w;
      const bottom = tile.y + tile.h;
      for (let i = 0; i + 1 < spine.points.length; i++) {
        const [a, b] = [spine.points[i], spine.points[i + 1]];
        if (!a || !b) continue;
        for (const [at, axis] of [
          [right, 0],
          [bottom, 1],
        ] as const) {
          const [p, q] = [a[axis], b[axis]];
          if (!(Math.min(p, q) < at - 0.01 && Math.max(p, q) > at + 0.01)) continue;
          const share = (at - p) / (q - p);
          const [p2, q2] = axis === 0 ? [a[1], b[1]] : [a[0], b[0]];
          const other = p2 + share * (q2 - p2);
          const [x, y] = axis === 0 ? [at, other] : [other, at];
          const inside = axis === 0 ? y >= tile.y && y <= bottom : x >= tile.x && x <= right;
          if (!inside) continue;
          const step = 0.5;
          const to = tiles.findIndex((each) => {
            const [px, py] = axis === 0 ? [x + step, y] : [x, y + step];
            return px >= each.x && px <= each.x + each.w && py >= each.y && py <= each.y + each.h;
          });
          if (to < 0 || to === from || found.some((each) => each.partIds.includes(part.id) && each.from === from && each.to === to))
            continue;
          const same = found.findIndex((each) => each.from === from && each.to === to && Math.hypot(each.x - x, each.y - y) < NEAR_mm);
          const there = found[same];
          if (there) found[same] = { ...there, partIds: [...there.partIds, part.id] };
          else found.push({ letter: letterAt(found.length), partIds: [part.id], x, y, axis, from, to });
        }
      }
    });
  }
  return found;
}
