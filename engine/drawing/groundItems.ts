import type { Cable } from '../lineup/cable.ts';
import { type Item, type Point, WEIGHT } from './displayList.ts';
import { unknownMark } from './marks.ts';
import { beside, legs, trim } from './polyline.ts';

/** The protective conductors of a cable, shown on request: a line of long dashes at its left, joined at an end where all of them are landed. */

export const GROUND_mm = 3.2;
const DASH = [4, 1.2] as const;
/** Short of an end that is not known or not whole, for its mark. */
const PAD_mm = 2.6;

export type GroundEnd = 'landed' | 'lost' | 'unknown';

/** Some of them not landed is a loss: what is left may be too small, and is unsymmetrical. */
export function groundEnd({ grounds, ...cable }: Cable, end: 'from' | 'to'): GroundEnd {
  const landed = cable[end].groundsLanded;
  if (grounds.count === undefined || landed === undefined) return 'unknown';
  return landed >= grounds.count ? 'landed' : 'lost';
}

export function groundItems(cable: Cable, points: readonly Point[]): readonly Item[] {
  if (cable.kind !== 'cable' || cable.grounds.count === 0) return [];
  const ends = { from: groundEnd(cable, 'from'), to: groundEnd(cable, 'to') };
  const pad = (end: GroundEnd): number => (end === 'landed' ? 0.5 : PAD_mm);
  return [
    {
      t: 'line',
      points: beside(trim(points, pad(ends.from), pad(ends.to)), -GROUND_mm),
      weight_mm: WEIGHT.thin,
      ink: 'ink',
      dash: DASH,
    },
    ...endMark(ends.from, points, 1),
    ...endMark(ends.to, [...points].reverse(), -1),
  ];
}

/** @param hand -1 when the points run against the cable, so that the mark stays on its side */
function endMark(end: GroundEnd, points: readonly Point[], hand: 1 | -1): readonly Item[] {
  const first = legs(points)[0];
  if (!first) return [];
  const at = (side: number, depth: number): Point => [
    first.x - first.uy * hand * side + first.ux * depth,
    first.y + first.ux * hand * side + first.uy * depth,
  ];
  const [x, y] = at(GROUND_mm, PAD_mm - 1.3);
  switch (end) {
    case 'landed':
      return [{ t: 'line', points: [at(GROUND_mm, 0.5), at(0, 0.5)], weight_mm: WEIGHT.thin, ink: 'ink' }];
    case 'lost':
      return [{ t: 'circle', x, y, r: 0.8, weight_mm: 0.3, ink: 'ink', fill: 'canvas' }];
    case 'unknown':
      return unknownMark(x, y);
  }
}
