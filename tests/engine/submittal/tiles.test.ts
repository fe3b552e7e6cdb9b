import { describe, expect, it } from 'vitest';
import { review } from '../../../engine/index.ts';
import { packageDrawing } from '../../../engine/submittal/packageDrawing.ts';
import { areas, SHEETS } from '../../../engine/submittal/sheet.ts';
import { tilesOf } from '../../../engine/submittal/tiles.ts';
import { manyRuns } from '../manyRuns.ts';

/** A one-line that is too large for one sheet: where it is cut. */

const site = manyRuns(7);
const drawing = packageDrawing(site, review(site), undefined);
const height = drawing.height_mm;

describe('a drawing that is cut', () => {
  it.each([4, 8, 20, 60])('%d mm wider than the sheet is shared, and no sheet holds a sliver', (over) => {
    const most = drawing.width_mm - over;
    const tiles = tilesOf(drawing, most, height);
    expect(tiles).toHaveLength(2);
    for (const { w } of tiles) expect(w).toBeGreaterThan(most / 4);
  });
  it.each(Object.entries(SHEETS))('on %s covers the whole, nothing twice, within the border', (_, sheet) => {
    const area = areas(sheet)[0];
    if (!area) throw new Error('no room');
    const tiles = tilesOf(drawing, area.w, area.h);
    const columns = tiles.filter(({ y }) => y === tiles[0]?.y);
    expect(columns.reduce((sum, { w }) => sum + w, 0)).toBeCloseTo(drawing.width_mm, 6);
    expect(tiles.reduce((sum, { w, h }) => sum + w * h, 0)).toBeCloseTo(drawing.width_mm * height, 3);
    for (const { w, h } of tiles) {
      expect(w).toBeLessThanOrEqual(area.w + 3);
      expect(h).toBeLessThanOrEqual(area.h + 3);
      if (columns.length > 1) expect(w).toBeGreaterThan(area.w / 4);
    }
  });
});
