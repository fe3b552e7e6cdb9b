import { type Item, TEXT_mm, translate, WEIGHT } from './displayList.ts';
import { badge } from './marks.ts';

/** How far the bracket of a gap reaches to the right of the axis. */
export const GAP_REACH_mm = 8.6;
/** How far it reaches along the cables above and below the box. */
export const GAP_END_mm = 3.6;

export interface GapDrawing {
  /** Axis and walls of the box. */
  readonly x: number;
  readonly top: number;
  readonly bottom: number;
  /** Whether a shield ends above, and below. */
  readonly above: boolean;
  readonly below: boolean;
  readonly state: 'broken' | 'open';
}

/** The bracket at a box that the shield does not pass: from one cut end out, along the box and back. The word stands beside it. */
export function gapItems({ x, top, bottom, above, below, state }: GapDrawing): readonly Item[] {
  const broken = state === 'broken';
  const ink = broken ? 'fail' : 'open';
  const right = x + GAP_REACH_mm + 1.6;
  const start = above ? top - GAP_END_mm : top + 1;
  const end = below ? bottom + GAP_END_mm : bottom - 1;
  const middle = (start + end) / 2;
  const items: Item[] = [
    {
      t: 'line',
      points: [
        [x + 3, start],
        [right, start],
        [right, end],
        [x + 3, end],
      ],
      weight_mm: WEIGHT.heavy,
      ink,
      ...(broken ? {} : { dash: [0.1, 1.2] }),
    },
  ];
  if (broken) {
    for (const y of [middle - 4.6, middle + 4.6])
      for (const s of [1, -1])
        items.push({
          t: 'line',
          points: [
            [right - 1.1, y - 1.1 * s],
            [right + 1.1, y + 1.1 * s],
          ],
          weight_mm: 0.35,
          ink,
        });
  }
  items.push(...translate(badge(broken ? 'fail' : 'open'), right, middle));
  return items;
}

export const gapPhrase = (state: 'broken' | 'open'): string => (state === 'broken' ? 'Shield gap' : 'Shield path open');

export const gapText = (state: 'broken' | 'open', phrase: string, x: number, y: number): Item => ({
  t: 'text',
  x,
  y,
  text: phrase,
  size_mm: TEXT_mm,
  weight: 600,
  anchor: 'start',
  ink: state === 'broken' ? 'fail' : 'open',
});
