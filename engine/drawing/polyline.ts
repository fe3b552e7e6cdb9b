import type { Point } from './displayList.ts';

/** Right-angled polylines. The side of a line is its left hand as seen on the sheet when it runs down: +x for downward, so that a shield stands at the right. */

interface Leg {
  readonly x: number;
  readonly y: number;
  readonly length: number;
  /** Direction. */
  readonly ux: number;
  readonly uy: number;
}

export function legs(points: readonly Point[]): readonly Leg[] {
  const found: Leg[] = [];
  for (let i = 0; i + 1 < points.length; i++) {
    const [x, y] = points[i] ?? [0, 0];
    const [x2, y2] = points[i + 1] ?? [0, 0];
    const length = Math.hypot(x2 - x, y2 - y);
    if (length > 1e-9) found.push({ x, y, length, ux: (x2 - x) / length, uy: (y2 - y) / length });
  }
  return found;
}

export const length_mm = (points: readonly Point[]): number => legs(points).reduce((sum, leg) => sum + leg.length, 0);

/** Places at `start`, then every `pitch`, staying `rest` short of the end; nx, ny points to the shield's side. */
export function along(points: readonly Point[], start: number, pitch: number, rest: number) {
  const places: { x: number; y: number; nx: number; ny: number }[] = [];
  const total = length_mm(points);
  let before = 0;
  let next = start;
  for (const leg of legs(points)) {
    for (; next <= before + leg.length && next < total - rest; next += pitch) {
      const at = next - before;
      places.push({ x: leg.x + leg.ux * at, y: leg.y + leg.uy * at, nx: leg.uy, ny: -leg.ux });
    }
    before += leg.length;
  }
  return places;
}

/** Cut off `start` at the beginning and `end` at the end. Empty when nothing is left. */
export function trim(points: readonly Point[], start: number, end: number): readonly Point[] {
  const total = length_mm(points);
  if (start + end >= total) return [];
  const kept: Point[] = [];
  let before = 0;
  for (const leg of legs(points)) {
    const from = Math.max(start - before, 0);
    const to = Math.min(total - end - before, leg.length);
    if (to > from) {
      if (kept.length === 0) kept.push([leg.x + leg.ux * from, leg.y + leg.uy * from]);
      kept.push([leg.x + leg.ux * to, leg.y + leg.uy * to]);
    }
    before += leg.length;
  }
  return kept;
}

/** A parallel line `side` millimetres to the shield's side (negative: the other one), corners mitred. */
export function beside(points: readonly Point[], side: number): readonly Point[] {
  const all = legs(points);
  const first = all[0];
  const last = all[all.length - 1];
  if (!first || !last) return [];
  const made: Point[] = [[first.x + first.uy * side, first.y - first.ux * side]];
  for (let i = 0; i + 1 < all.length; i++) {
    const a = all[i];
    const b = all[i + 1];
    if (!a || !b) continue;
    const straight = a.ux * b.ux + a.uy * b.uy > 0.999;
    made.push([b.x + (straight ? b.uy : a.uy + b.uy) * side, b.y - (straight ? b.ux : a.ux + b.ux) * side]);
  }
  made.push([last.x + last.ux * last.length + last.uy * side, last.y + last.uy * last.length - last.ux * side]);
  return made;
}
