import type { Verdict } from '../checks/finding.ts';
import { type Item, type Point, type Segment, TEXT_mm } from './displayList.ts';
import { textWidth_mm } from './extent.ts';
import { along } from './polyline.ts';

/** Verdict marks: each has its own shape and line pattern, so that none is carried by colour alone. */

const polygon = (...points: readonly Point[]): readonly Segment[] =>
  [...points, points[0] ?? [0, 0]].map(([x, y], i) => [i === 0 ? 'M' : 'L', x, y] as const);
const stroke = (ink: Item['ink'], weight_mm: number, ...points: readonly Point[]): Item => ({ t: 'line', points, weight_mm, ink });

/** A badge 4 mm square, its middle at 0,0. Nothing for verdicts that have no shape on the drawing. */
export function badge(verdict: Verdict): readonly Item[] {
  switch (verdict) {
    case 'fail':
      return [
        {
          t: 'path',
          d: polygon([-0.83, -2], [0.83, -2], [2, -0.83], [2, 0.83], [0.83, 2], [-0.83, 2], [-2, 0.83], [-2, -0.83]),
          weight_mm: 0,
          ink: 'fail',
          fill: 'fail',
        },
        stroke('canvas', 0.55, [-0.8, -0.8], [0.8, 0.8]),
        stroke('canvas', 0.55, [-0.8, 0.8], [0.8, -0.8]),
      ];
    case 'open':
      return [
        { t: 'circle', x: 0, y: 0, r: 1.8, weight_mm: 0.5, ink: 'open', fill: 'canvas', dash: [0.01, 0.93] },
        {
          t: 'path',
          d: [
            ['M', -0.62, -0.35],
            ['C', -0.62, -1.15, 0.62, -1.15, 0.62, -0.35],
            ['C', 0.62, 0.15, 0, 0.15, 0, 0.6],
          ],
          weight_mm: 0.42,
          ink: 'open',
        },
        stroke('open', 0.42, [0, 1.1], [0, 1.12]),
      ];
    case 'caution':
      return [
        { t: 'path', d: polygon([0, -1.9], [2.1, 1.75], [-2.1, 1.75]), weight_mm: 0.5, ink: 'caution', fill: 'cautionTint' },
        stroke('caution', 0.5, [0, -0.55], [0, 0.55]),
        stroke('caution', 0.5, [0, 1.1], [0, 1.12]),
      ];
    case 'note':
      return [
        { t: 'rect', x: -1.6, y: -1.6, w: 3.2, h: 3.2, weight_mm: 0.3, ink: 'note' },
        stroke('note', 0.42, [0, -0.2], [0, 0.9]),
        stroke('note', 0.42, [0, -0.85], [0, -0.83]),
      ];
    case 'pass':
      return [stroke('ink3', 0.4, [-1.3, 0.1], [-0.4, 1.1], [1.4, -1.1])];
    default:
      return [];
  }
}

/** Crosses on a length that fails. */
export const barbs = (points: readonly Point[]): readonly Item[] =>
  along(points, 2, 5, 0.6).flatMap(({ x, y }) => [
    stroke('fail', 0.35, [x - 1.1, y - 1.1], [x + 1.1, y + 1.1]),
    stroke('fail', 0.35, [x - 1.1, y + 1.1], [x + 1.1, y - 1.1]),
  ]);

/** Open circles on a length that cannot be judged. */
export const beads = (points: readonly Point[]): readonly Item[] =>
  along(points, 1.6, 3, 0.6).map(({ x, y }) => ({ t: 'circle', x, y, r: 0.75, weight_mm: 0.3, ink: 'open', fill: 'canvas' }));

/** Ticks on the side away from the shield, on a length with a caution. */
export const fence = (points: readonly Point[]): readonly Item[] =>
  along(points, 1.5, 2.6, 0.6).map(({ x, y, nx, ny }) =>
    stroke('caution', 0.4, [x - 0.3 * nx, y - 0.3 * ny], [x - 1.9 * nx, y - 1.9 * ny]),
  );

export const verdictAlong = (verdict: Verdict, points: readonly Point[]): readonly Item[] =>
  verdict === 'fail' ? barbs(points) : verdict === 'open' ? beads(points) : verdict === 'caution' ? fence(points) : [];

/** Three figures need a wider ring than two. */
const radius_mm = (number: number): number => (number < 100 ? 3.4 : number < 1000 ? 4.2 : 5.2);
const LOZENGE_mm = 6.8;

/** A number of the findings table, or the first and the last of several that follow each other. */
export type Numbered = readonly [first: number, last: number];

/** Sorted numbers as they are ringed: three and more that follow each other share one ring. */
export function ringed(numbers: readonly number[]): readonly Numbered[] {
  const rows: number[][] = [];
  for (const number of numbers) {
    const row = rows.at(-1);
    if (row && row.at(-1) === number - 1) row.push(number);
    else rows.push([number]);
  }
  return rows.flatMap((row): readonly Numbered[] => {
    const [first = 0, last = first] = [row[0], row.at(-1)];
    return row.length < 3 ? row.map((each) => [each, each]) : [[first, last]];
  });
}

const ringWords = ([first, last]: Numbered): string => (first === last ? `${first}` : `${first}–${last}`);
export function ringSize_mm(of: Numbered): { readonly w: number; readonly h: number } {
  if (of[0] !== of[1]) return { w: textWidth_mm(ringWords(of), TEXT_mm, 600) + 4.4, h: LOZENGE_mm };
  return { w: 2 * radius_mm(of[0]), h: 2 * radius_mm(of[0]) };
}

/** Numbers of findings in their ring, as on the findings table; its middle at x, y. */
export function callout(of: Numbered, x: number, y: number): readonly Item[] {
  const { w, h } = ringSize_mm(of);
  return [
    of[0] === of[1]
      ? { t: 'circle', x, y, r: w / 2, weight_mm: 0.35, ink: 'ink', fill: 'canvas' }
      : { t: 'rect', x: x - w / 2, y: y - h / 2, w, h, corner_mm: h / 2, weight_mm: 0.35, ink: 'ink', fill: 'canvas' },
    { t: 'text', x, y: y + 1.25, text: ringWords(of), size_mm: TEXT_mm, weight: 600, anchor: 'middle', ink: 'ink' },
  ];
}

/** What is not known, at a place too small for a badge. */
export function unknownMark(x: number, y: number): readonly Item[] {
  return [
    { t: 'circle', x, y, r: 1.25, weight_mm: 0.3, ink: 'ink', fill: 'canvas', dash: [0.01, 0.65] },
    // A mark, not a text: drawn, so that nothing printed is smaller than the smallest text.
    {
      t: 'path',
      d: [
        ['M', x - 0.45, y - 0.3],
        ['C', x - 0.45, y - 0.9, x + 0.45, y - 0.9, x + 0.45, y - 0.3],
        ['C', x + 0.45, y + 0.1, x, y, x, y + 0.4],
      ],
      weight_mm: 0.3,
      ink: 'ink',
    },
    {
      t: 'line',
      points: [
        [x, y + 0.75],
        [x, y + 0.77],
      ],
      weight_mm: 0.3,
      ink: 'ink',
    },
  ];
}
