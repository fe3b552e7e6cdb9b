import type { Item } from '../../../engine/drawing/displayList.ts';

/** Where the ink of a display list reaches to, reckoned without the engine: for what other readers find of it. */

type Point = readonly [number, number];

const STEPS = 400;

/** Points on the middle of every stroke; texts have none, since their width hangs on who sets them. */
export function pointsOf(item: Item): readonly Point[] {
  switch (item.t) {
    case 'text':
      return [];
    case 'line':
      return item.points;
    case 'rect':
      return [
        [item.x, item.y],
        [item.x + item.w, item.y + item.h],
      ];
    case 'circle':
      return [
        [item.x - item.r, item.y - item.r],
        [item.x + item.r, item.y + item.r],
      ];
    case 'path': {
      const found: Point[] = [];
      let [x, y] = [0, 0];
      for (const segment of item.d) {
        if (segment[0] === 'C') {
          const [, bx, by, cx, cy, dx, dy] = segment;
          for (let i = 0; i <= STEPS; i++) {
            const t = i / STEPS;
            const [a, b, c, d] = [(1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t ** 3];
            found.push([a * x + b * bx + c * cx + d * dx, a * y + b * by + c * cy + d * dy]);
          }
          [x, y] = [dx, dy];
        } else {
          [, x, y] = segment;
          found.push([x, y]);
        }
      }
      return found;
    }
  }
}

/** Left, top, right, bottom. */
export function bounds(points: readonly Point[]): readonly [number, number, number, number] {
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
}

export const count = (list: readonly string[]): Readonly<Record<string, number>> => {
  const counts: Record<string, number> = {};
  for (const each of list) counts[each] = (counts[each] ?? 0) + 1;
  return counts;
};
