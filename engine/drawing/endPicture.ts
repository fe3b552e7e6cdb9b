import { type Item, type Point, TEXT_mm, WEIGHT } from './displayList.ts';
import { wrapText } from './labels.ts';

/** How one end of a cable is prepared, seen from the side: it comes in from the left, through the wall of the box, and its cores go on. */

export type EndKind = 'full' | 'clamp' | 'pigtail' | 'none' | 'conduit' | 'plain' | 'unknown';

export const END_PICTURE = { w: 86, h: 56 } as const;

const MIDDLE = 31;
const WALL = { x: 31, w: 2.4, top: 16, bottom: 53 } as const;
/** Half of the jacket's thickness, and of the shield's inside it. */
const JACKET = 6;
const SHIELD = 4.6;
const CORES: readonly number[] = [-3.4, -1.1, 1.1, 3.4];
const BAR = { y: 46, from: 43, to: 80 } as const;

const line = (points: readonly Point[], weight_mm: number = WEIGHT.thin, dash?: readonly number[]): Item => ({
  t: 'line',
  points,
  weight_mm,
  ink: 'ink',
  ...(dash ? { dash } : {}),
});
const box = (x: number, y: number, w: number, h: number, weight_mm: number = WEIGHT.line, fill: 'canvas' | 'ink' = 'canvas'): Item => ({
  t: 'rect',
  x,
  y,
  w,
  h,
  weight_mm,
  ink: 'ink',
  fill,
});
const text = (says: string, x: number, y: number, anchor: 'start' | 'middle' | 'end' = 'start', weight: 400 | 600 = 400): Item => ({
  t: 'text',
  x,
  y,
  text: says,
  size_mm: TEXT_mm,
  weight,
  anchor,
  ink: 'ink',
});

/** The braid as crossed strokes. */
function braid(from: number, to: number): readonly Item[] {
  const items: Item[] = [box(from, MIDDLE - SHIELD, to - from, 2 * SHIELD, WEIGHT.thin)];
  for (let x = from; x + 3 <= to + 0.01; x += 3)
    items.push(
      line([
        [x, MIDDLE - SHIELD],
        [x + 3, MIDDLE + SHIELD],
      ]),
      line([
        [x, MIDDLE + SHIELD],
        [x + 3, MIDDLE - SHIELD],
      ]),
    );
  return items;
}

/** Cores from here on: three phases to the right, the ground down to its bar. */
function cores(from: number): readonly Item[] {
  return CORES.map((dy, i) =>
    i === CORES.length - 1
      ? line(
          [
            [from, MIDDLE + dy],
            [72, MIDDLE + dy],
            [72, BAR.y],
          ],
          WEIGHT.line,
          [2.4, 1],
        )
      : line(
          [
            [from, MIDDLE + dy],
            [from + 4, MIDDLE + dy],
            [70, MIDDLE - 12 + 5 * i],
            [84, MIDDLE - 12 + 5 * i],
          ],
          WEIGHT.line,
        ),
  );
}

const jacket = (to: number): Item => box(2, MIDDLE - JACKET, to - 2, 2 * JACKET, WEIGHT.line);
const bar: readonly Item[] = [
  box(BAR.from, BAR.y, BAR.to - BAR.from, 2.4),
  line(
    [
      [WALL.x + WALL.w, BAR.y + 1.2],
      [BAR.from, BAR.y + 1.2],
    ],
    WEIGHT.heavy,
  ),
  text('ground bar, bonded to the box', WALL.x + WALL.w + 2, BAR.y + 6.6),
];
/** The gland's body, on both sides of the wall. */
const gland: readonly Item[] = [
  box(WALL.x - 7, MIDDLE - 8.5, 7, 17),
  box(WALL.x + WALL.w, MIDDLE - 9.5, 3, 19),
  box(WALL.x - 11, MIDDLE - 7.4, 4, 14.8),
];
const wall: readonly Item[] = [
  box(WALL.x, WALL.top, WALL.w, MIDDLE - JACKET - WALL.top, WEIGHT.line),
  box(WALL.x, MIDDLE + JACKET, WALL.w, WALL.bottom - MIDDLE - JACKET, WEIGHT.line),
];
/** What a place is called, with a thin line to it. */
const leader = (says: string, x: number, y: number, to: Point): readonly Item[] => [
  line([[x, y + 1], to], WEIGHT.thin),
  { t: 'circle', x: to[0], y: to[1], r: 0.5, weight_mm: 0, ink: 'ink', fill: 'ink' },
  text(says, x, y),
];

function drawn(kind: EndKind): readonly Item[] {
  switch (kind) {
    case 'full':
      return [
        ...cores(43),
        jacket(21),
        ...braid(21, 42),
        ...wall,
        ...gland,
        box(WALL.x - 6, MIDDLE - SHIELD - 1.6, 6, 1.6, WEIGHT.thin, 'ink'),
        box(WALL.x - 6, MIDDLE + SHIELD, 6, 1.6, WEIGHT.thin, 'ink'),
        ...leader('shield gripped all round', 37, 14.4, [WALL.x - 3, MIDDLE - SHIELD - 0.8]),
      ];
    case 'clamp':
      return [
        ...cores(63),
        jacket(47),
        ...braid(47, 56),
        box(56, MIDDLE - JACKET, 7, 2 * JACKET),
        ...wall,
        ...gland,
        box(49, MIDDLE - 7.4, 5, 2 * 7.4, WEIGHT.heavy),
        line(
          [
            [51.5, MIDDLE + 7.4],
            [51.5, BAR.y],
          ],
          1.4,
        ),
        ...leader('clamp on bare shield', 37, 14.4, [51.5, MIDDLE - 7.4]),
      ];
    case 'pigtail':
      return [
        ...cores(49),
        jacket(43),
        ...braid(43, 49),
        ...wall,
        ...gland,
        line(
          [
            [46, MIDDLE + SHIELD],
            [46, MIDDLE + 12],
            [50, BAR.y],
          ],
          1.4,
        ),
        ...leader('shield gathered into a braid', 37, 14.4, [46, MIDDLE + 10]),
      ];
    case 'none':
      return [
        ...cores(43),
        jacket(43),
        ...wall,
        ...gland,
        line(
          [
            [44.5, MIDDLE - 7],
            [44.5, MIDDLE + 7],
          ],
          WEIGHT.line,
          [0.8, 0.8],
        ),
        ...leader('shield ends here, insulated', 37, 14.4, [44.5, MIDDLE - 6.4]),
      ];
    case 'conduit':
      return [
        ...cores(41),
        box(2, MIDDLE - 7.4, 33.4, 1.4, WEIGHT.thin, 'ink'),
        box(2, MIDDLE + 6, 33.4, 1.4, WEIGHT.thin, 'ink'),
        ...CORES.map((dy) =>
          line(
            [
              [2, MIDDLE + dy],
              [41, MIDDLE + dy],
            ],
            WEIGHT.line,
          ),
        ),
        ...wall,
        box(WALL.x - 3.4, MIDDLE - 10, 3.4, 20),
        box(WALL.x + WALL.w, MIDDLE - 10, 3.4, 20),
        box(WALL.x + WALL.w + 3.4, MIDDLE - 8.4, 2, 16.8),
        ...CORES.map((dy) =>
          line(
            [
              [WALL.x - 3.4, MIDDLE + dy],
              [WALL.x + WALL.w + 5.4, MIDDLE + dy],
            ],
            WEIGHT.thin,
          ),
        ),
        ...leader('locknuts and bushing', 41, 14.4, [WALL.x + WALL.w + 2, MIDDLE - 9]),
      ];
    case 'plain':
      return [...cores(43), jacket(43), ...wall, ...gland, ...leader('gland grips the jacket', 37, 14.4, [WALL.x - 4, MIDDLE - 8])];
    case 'unknown':
      return [
        ...cores(43),
        jacket(21),
        ...braid(21, 30),
        ...wall,
        box(WALL.x - 9, MIDDLE - 9, 18, 18),
        text('?', WALL.x, MIDDLE + 1.4, 'middle', 600),
      ];
  }
}

/** @param title at the head, in at most two lines */
export function endPicture(kind: EndKind, title: string): readonly Item[] {
  const head = wrapText(title, END_PICTURE.w - 2, 600, 2).map((says, i) => text(says, 0, 3.4 + 4.7 * i, 'start', 600));
  return [...head, ...bar, ...drawn(kind)];
}
