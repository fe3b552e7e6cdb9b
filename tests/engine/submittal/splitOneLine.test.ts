import { describe, expect, it } from 'vitest';
import type { Box } from '../../../engine/drawing/displayList.ts';
import { extent, meets } from '../../../engine/drawing/extent.ts';
import { review } from '../../../engine/index.ts';
import { packageDrawing } from '../../../engine/submittal/packageDrawing.ts';
import { BORDER_mm, SHEETS, TITLE_H_mm } from '../../../engine/submittal/sheet.ts';
import { SIGN_mm, type Sign, splitOneLine } from '../../../engine/submittal/splitOneLine.ts';
import { PROJECTS } from '../../golden/projects.ts';
import { manyRuns } from '../manyRuns.ts';

/** A one-line that goes on over several sheets: where its signs stand, on every size of paper. */

const boxOf = ({ x, y }: Sign): Box => ({ x: x - SIGN_mm, y: y - SIGN_mm, w: 2 * SIGN_mm, h: 2 * SIGN_mm });
/** What is left of a box inside the window that its part is cut at. */
const within = (box: Box, window: Box): Box => {
  const [x, y] = [Math.max(box.x, window.x), Math.max(box.y, window.y)];
  return { x, y, w: Math.min(box.x + box.w, window.x + window.w) - x, h: Math.min(box.y + box.h, window.y + window.h) - y };
};

describe.each([...PROJECTS, ['seven runs', manyRuns(7)] as const])('%s', (_, lineUp) => {
  const drawing = packageDrawing(lineUp, review(lineUp), undefined);
  it.each(Object.entries(SHEETS))(
    'on %s goes on at signs that touch no symbol, label or one another, and has no empty sheet',
    (_, sheet) => {
      const parts = splitOneLine(drawing, sheet);
      for (const { tile, left, top, lines, whole, signs } of parts) {
        const shown = [...lines, ...whole];
        if (drawing.items.length > 0) expect(shown.length).toBeGreaterThan(0);
        const symbols = new Set(drawing.parts.filter(({ kind }) => kind === 'element').flatMap(({ items }) => items));
        const window: Box = { x: tile.x - 0.5, y: tile.y - 0.5, w: tile.w + 1, h: tile.h + 1 };
        const onSheet = (box: Box): Box => ({ ...box, x: box.x + left - tile.x, y: box.y + top - tile.y });
        const drawn = [
          ...lines.filter((item) => symbols.has(item) || item.t === 'text').map((item) => ({ item, box: within(extent([item]), window) })),
          ...whole.map((item) => ({ item, box: extent([item]) })),
        ].map(({ item, box }) => ({ item, box: onSheet(box) }));
        for (const { box } of parts.length > 1 ? drawn : []) {
          expect(box.x).toBeGreaterThan(BORDER_mm);
          expect(box.x + box.w).toBeLessThan(sheet.w - BORDER_mm);
        }
        for (const [i, sign] of signs.entries()) {
          const box = boxOf(sign);
          const own = new Set(drawing.parts.filter(({ id }) => sign.partIds.includes(id)).flatMap(({ items }) => items));
          expect(drawn.filter((each) => !own.has(each.item) && meets(each.box, box))).toEqual([]);
          expect(signs.slice(i + 1).filter((other) => meets(boxOf(other), box))).toEqual([]);
          expect(box.x).toBeGreaterThan(BORDER_mm);
          expect(box.x + box.w).toBeLessThan(sheet.w - BORDER_mm);
          expect(box.y).toBeGreaterThan(BORDER_mm);
          expect(box.y + box.h).toBeLessThanOrEqual(sheet.h - BORDER_mm - TITLE_H_mm);
          expect(parts[sign.other]?.signs.some(({ letter, first }) => letter === sign.letter && first !== sign.first)).toBe(true);
        }
      }
    },
  );
});
