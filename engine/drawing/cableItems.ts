import type { Verdict } from '../checks/finding.ts';
import type { Cable, Landing } from '../lineup/cable.ts';
import { type Item, type Point, type Segment, TEXT_mm, WEIGHT } from './displayList.ts';
import { unknownMark, verdictAlong } from './marks.ts';
import { along, beside, legs, length_mm, trim } from './polyline.ts';

/** The shield's companion stands this far to the right of its cable. */
export const COMPANION_mm = 1.8;

export interface CableDrawing {
  /** From the first end to the second. */
  readonly points: readonly Point[];
  readonly cable: Cable;
  readonly verdict: Verdict;
  /** The shield's way is interrupted at this end. */
  readonly gapFrom: boolean;
  readonly gapTo: boolean;
}

const DASHES: Readonly<Partial<Record<string, readonly number[]>>> = { 'foil-and-braid': [1.8, 1], 'copper-tape': [2.2, 0.9, 0.4, 0.9] };
const PAD_mm: Readonly<Record<Landing | 'unknown', number>> = { full: 0.9, clamp: 0.9, pigtail: 3.4, none: 3.6, unknown: 3.8 };

export function cableItems({ points, cable, verdict, gapFrom, gapTo }: CableDrawing): readonly Item[] {
  if (length_mm(points) < 0.01) return [];
  const items: Item[] = [{ t: 'line', points, weight_mm: WEIGHT.heavy, ink: 'ink' }];
  const pipe = (side: number, dash?: readonly number[]): Item => ({
    t: 'line',
    points: beside(trim(points, 1, 1), side),
    weight_mm: WEIGHT.thin,
    ink: 'ink',
    ...(dash ? { dash } : {}),
  });
  const build = cable.construction;
  const metalPipe = ['steel-conduit', 'aluminium-conduit', 'flexible-metal'].includes(cable.installation.raceway ?? '');
  if (cable.kind === 'cable') {
    if (build === 'corrugated-armour') items.push(pipe(-1.5), pipe(1.5), ...corrugations(points));
    else if (build === 'interlocked-armour') items.push(pipe(-1.5, [1, 0.6]), pipe(1.5, [1, 0.6]));
    else if (metalPipe && (build === 'singles' || build === 'multicore')) items.push(pipe(-1.3), pipe(1.3));
    const dash = build ? DASHES[build] : undefined;
    if (dash) {
      const from = cable.from.landing ?? 'unknown';
      const to = cable.to.landing ?? 'unknown';
      const start = Math.max(PAD_mm[from], gapFrom ? 3.6 : 0);
      const end = Math.max(PAD_mm[to], gapTo ? 3.6 : 0);
      items.push({ t: 'line', points: beside(trim(points, start, end), COMPANION_mm), weight_mm: 0.4, ink: 'ink', dash });
      items.push(...landingMark(from, points), ...landingMark(to, [...points].reverse(), -1));
    }
    if ((cable.conductor.sets ?? 1) > 1) items.push(...setsSlash(points, cable.conductor.sets ?? 1));
    items.push(...verdictAlong(verdict, trim(longestUpright(points), 4.5, 4.5)));
  }
  return items;
}

/** Marks stand on the piece that belongs to this cable alone; the pieces across are shared with the other branches. */
function longestUpright(points: readonly Point[]): readonly Point[] {
  const all = legs(points);
  const upright = all.filter((leg) => Math.abs(leg.uy) > 0.5 && leg.length > 9);
  const [leg] = upright.sort((a, b) => b.length - a.length);
  return leg
    ? [
        [leg.x, leg.y],
        [leg.x + leg.ux * leg.length, leg.y + leg.uy * leg.length],
      ]
    : points;
}

/** Inward ticks on both walls, every 2 mm. */
const corrugations = (points: readonly Point[]): readonly Item[] =>
  along(points, 2, 2, 1.5).flatMap(({ x, y, nx, ny }) =>
    [1, -1].map(
      (s): Item => ({
        t: 'line',
        points: [
          [x + s * nx * 1.5, y + s * ny * 1.5],
          [x + s * nx * 0.8 - ny * 0.7 * s, y + s * ny * 0.8 - nx * 0.7 * s],
        ],
        weight_mm: WEIGHT.thin,
        ink: 'ink',
      }),
    ),
  );

function setsSlash(points: readonly Point[], sets: number): readonly Item[] {
  const longest = [...legs(points)].sort((a, b) => b.length - a.length)[0];
  if (!longest) return [];
  const x = longest.x + (longest.ux * longest.length) / 2;
  const y = longest.y + (longest.uy * longest.length) / 2;
  return [
    {
      t: 'line',
      points: [
        [x - 1.6, y + 1.2],
        [x + 1.6, y - 1.2],
      ],
      weight_mm: 0.4,
      ink: 'ink',
    },
    { t: 'text', x: x - 2.6, y: y + 1.2, text: `${sets}`, size_mm: TEXT_mm, weight: 400, anchor: 'end', ink: 'ink' },
  ];
}

/**
 * How the shield is landed at the start of the points.
 * @param hand -1 when the points run against the cable, so that the mark stays on the shield's side
 */
export function landingMark(landing: Landing | 'unknown', points: readonly Point[], hand: 1 | -1 = 1): readonly Item[] {
  const first = legs(points)[0];
  if (!first) return [];
  // side (towards the shield) and depth (into the cable) to the sheet
  const at = (side: number, depth: number): Point => [
    first.x + first.uy * hand * side + first.ux * depth,
    first.y - first.ux * hand * side + first.uy * depth,
  ];
  const corner = (name: 'M' | 'L', side: number, depth: number): Segment => [name, ...at(side, depth)];
  switch (landing) {
    case 'full':
    case 'clamp': {
      const d = [corner('M', -1, 0), corner('L', 2.4, 0), corner('L', 2.4, 1), corner('L', -1, 1), corner('L', -1, 0)];
      return [
        landing === 'full'
          ? { t: 'path', d, weight_mm: 0, ink: 'ink', fill: 'ink' }
          : { t: 'path', d, weight_mm: 0.3, ink: 'ink', fill: 'canvas' },
      ];
    }
    case 'pigtail': {
      const s = COMPANION_mm;
      const [x, y] = at(s + 0.6, 0);
      const d: Segment[] = [
        corner('M', s, 3.4),
        ['C', ...at(s, 2), ...at(s + 1.6, 2.4), ...at(s + 1.2, 1.2)],
        ['C', ...at(s + 1, 0.5), ...at(s + 0.6, 0.5), ...at(s + 0.6, 0)],
      ];
      return [
        { t: 'path', d, weight_mm: 0.3, ink: 'ink' },
        { t: 'circle', x, y, r: 0.45, weight_mm: 0.3, ink: 'ink', fill: 'canvas' },
      ];
    }
    case 'none':
      return [{ t: 'line', points: [at(COMPANION_mm - 0.9, 3.6), at(COMPANION_mm + 0.9, 3.6)], weight_mm: WEIGHT.line, ink: 'ink' }];
    case 'unknown': {
      const [x, y] = at(COMPANION_mm + 0.4, 2.2);
      return unknownMark(x, y);
    }
  }
}
