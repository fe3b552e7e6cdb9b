import type { Box, Item } from '../drawing/displayList.ts';
import { extent, meets } from '../drawing/extent.ts';
import type { OneLine } from '../drawing/oneLine.ts';
import { matchesOf } from './matches.ts';
import { areas, besideTitle_mm, fits } from './sheet.ts';
import { SPARE_mm, tilesOf, uncutItems } from './tiles.ts';

/** Where each part of a one-line stands on its sheet, and where it goes on. */

/** Half of a sign, its line included. */
export const SIGN_mm = 3.4;
/** Of the heading of a part. */
const HEADING_mm = 7;
export const LIST_PITCH_mm = 5;
/** On a narrow sheet what is said of the cuts stands under the heading, in so many lines and as many columns as it takes. */
export const LIST_LINES = 3;
/** A drawing stands no further from the head than this, however low it is. */
const LOWERED_mm = 12;

export interface Sign {
  readonly letter: string;
  readonly partIds: readonly string[];
  /** Its middle, on the sheet. */
  readonly x: number;
  readonly y: number;
  /** The part where it goes on, by its place in the list, and whether this one comes first. */
  readonly other: number;
  readonly first: boolean;
}

export interface PlacedPart {
  readonly tile: Box;
  readonly left: number;
  readonly top: number;
  /** Cut at the edges of the tile: cables, buses, lines round enclosures. */
  readonly lines: readonly Item[];
  /** Whole, on the sheet that holds their middle. */
  readonly whole: readonly Item[];
  readonly signs: readonly Sign[];
}

const holds = (tile: Box, { x, y, w, h }: Box): boolean =>
  x + w / 2 >= tile.x && x + w / 2 < tile.x + tile.w && y + h / 2 >= tile.y && y + h / 2 < tile.y + tile.h;

export function splitOneLine(drawing: OneLine, sheet: { readonly w: number; readonly h: number }): readonly PlacedPart[] {
  const { x_mm: x, y_mm: y, width_mm: w, height_mm: h } = drawing;
  const [above, beside] = areas(sheet);
  const area = fits(sheet, w, h) ? [above, beside].find((each) => each && w <= each.w && h <= each.h) : above;
  if (!area) throw new Error('the sheet has no room inside its border');
  const isNarrow = besideTitle_mm(sheet) === null;
  if (w <= area.w + SPARE_mm && h <= area.h + SPARE_mm) {
    const top = area.y + Math.max(0, Math.min((area.h - h) / 2, LOWERED_mm, area.h - h));
    return [{ tile: { x, y, w, h }, left: area.x + (area.w - w) / 2, top, lines: drawing.items, whole: [], signs: [] }];
  }
  const head = HEADING_mm + (isNarrow ? LIST_LINES * LIST_PITCH_mm : 0);
  // A sign stands beyond the cut, at the end of its line, where nothing else of the part can be.
  const across = w > area.w + SPARE_mm ? 2 * SIGN_mm : 0;
  const down = h > area.h - head + SPARE_mm ? 2 * SIGN_mm : 0;
  const room = { x: area.x + across, y: area.y + head + down, w: area.w - 2 * across, h: area.h - head - 2 * down };
  const uncut = uncutItems(drawing, room.w);
  const tiles = tilesOf(drawing, room.w, room.h).filter((tile) => drawing.items.some((item) => meets(extent([item]), tile)));
  const matches = matchesOf(drawing, tiles, uncut);
  return tiles.map((tile, index) => {
    const left = room.x + (room.w - tile.w) / 2;
    const top = room.y + Math.min((room.h - tile.h) / 2, LOWERED_mm);
    const signs = matches
      .filter((each) => each.from === index || each.to === index)
      .map(({ letter, partIds, axis, from, to, ...at }): Sign => {
        const first = from === index;
        const beyond = first ? SIGN_mm : -SIGN_mm;
        return {
          letter,
          partIds,
          x: at.x + (axis === 0 ? beyond : 0) + left - tile.x,
          y: at.y + (axis === 1 ? beyond : 0) + top - tile.y,
          other: first ? to : from,
          first,
        };
      });
    const lines = drawing.items.filter((item) => !uncut.has(item) && meets(extent([item]), tile));
    const whole = [...uncut].flatMap(([item, box]) => (holds(tile, box) ? [item] : []));
    return { tile, left, top, lines, whole, signs };
  });
}
