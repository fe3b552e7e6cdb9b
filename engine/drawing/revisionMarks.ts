import { type Box, type Item, type Segment, TEXT_mm } from './displayList.ts';
import { arc } from './glyphs.ts';

/** A cloud round what changed since the last issue, and beside its tag the triangle that names the revision. */

const BUMP_mm = 3.4;
export const TRIANGLE_mm = 8;

/** Bumps outward all along the box, clockwise; as many whole ones to a side as come nearest to their size. */
export function cloud({ x, y, w, h }: Box): Item {
  const sides = [
    { x, y, dx: 1, dy: 0, length: w, from: 180 },
    { x: x + w, y, dx: 0, dy: 1, length: h, from: 270 },
    { x: x + w, y: y + h, dx: -1, dy: 0, length: w, from: 0 },
    { x, y: y + h, dx: 0, dy: -1, length: h, from: 90 },
  ];
  const d: Segment[] = [];
  for (const side of sides) {
    const count = Math.max(1, Math.round(side.length / BUMP_mm));
    const step = side.length / count;
    for (let i = 0; i < count; i++) {
      const middle = (i + 0.5) * step;
      const bump = arc(side.x + side.dx * middle, side.y + side.dy * middle, step / 2, side.from, side.from + 180);
      d.push(...(d.length === 0 ? bump : bump.slice(1)));
    }
  }
  return { t: 'path', d, weight_mm: 0.35, ink: 'ink2' };
}

/** The letter of the revision in its triangle; it stands on the baseline of a text and begins at x. */
export const triangle = (revision: string, x: number, y: number): readonly Item[] => [
  {
    t: 'path',
    d: [
      ['M', x, y + 1],
      ['L', x + TRIANGLE_mm, y + 1],
      ['L', x + TRIANGLE_mm / 2, y + 1 - TRIANGLE_mm * 0.87],
      ['L', x, y + 1],
    ],
    weight_mm: 0.35,
    ink: 'ink',
    fill: 'canvas',
  },
  {
    t: 'text',
    x: x + TRIANGLE_mm / 2,
    y: y + 0.2,
    // Its end: P10 is not P1.
    text: revision.slice(-2).trim(),
    size_mm: TEXT_mm,
    weight: 600,
    anchor: 'middle',
    ink: 'ink',
  },
];
