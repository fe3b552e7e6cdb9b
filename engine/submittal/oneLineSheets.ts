import type { Review } from '../checks/solved.ts';
import { type Box, enlarge, type Item } from '../drawing/displayList.ts';
import { extent, meets, textBox } from '../drawing/extent.ts';
import { legend } from '../drawing/legend.ts';
import type { OneLine } from '../drawing/oneLine.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import { sayOf } from '../lineup/vocabulary.ts';
import { calculationOf } from './content.ts';
import { linkNames } from './findingTables.ts';
import { type Flow, TEXT_mm } from './flow.ts';
import { matchesOf } from './matches.ts';
import { areas, BORDER_mm, fits, TITLE_W_mm } from './sheet.ts';
import { tilesOf } from './tiles.ts';

/** The one-line at full size or larger, on one sheet or cut over several with a letter at each cut. */

const RING_mm = 3.4;

/** A letter in a ring: the one-line goes on at the same letter elsewhere. */
const ring = (letter: string): readonly Item[] => [
  { t: 'circle', x: 0, y: 0, r: RING_mm - 0.2, weight_mm: 0.35, ink: 'ink', fill: 'canvas' },
  { t: 'text', x: 0, y: 1.25, text: letter, size_mm: TEXT_mm, weight: 600, anchor: 'middle', ink: 'ink' },
];

/** Nothing that stands so near would be taken for part of the other. */
const CLEAR_mm = 4;
const isClear = ({ x, y, w, h }: Box, items: readonly Item[]): boolean => {
  const room = { x: x - CLEAR_mm, y: y - CLEAR_mm, w: w + 2 * CLEAR_mm, h: h + 2 * CLEAR_mm };
  return !items.some((item) => meets(extent([item]), room));
};

/** Lettering grows by these steps, 2.5 to 3.5 to 5 mm (ISO 3098): a large sheet is read at half its size too. */
const STEPS = [2, 1.4];

/** As many times as large as stands above the title block, where the key has its room beside it. */
function stepOf({ width_mm, height_mm }: OneLine, sheet: { readonly w: number; readonly h: number }): number {
  const [above] = areas(sheet);
  return STEPS.find((each) => above && width_mm * each <= above.w && height_mm * each <= above.h) ?? 1;
}

function larger(drawing: OneLine, k: number): OneLine {
  return {
    x_mm: drawing.x_mm * k,
    y_mm: drawing.y_mm * k,
    width_mm: drawing.width_mm * k,
    height_mm: drawing.height_mm * k,
    items: enlarge(drawing.items, k),
    boundaries: enlarge(drawing.boundaries, k),
    parts: drawing.parts.map((part) => ({ ...part, x: part.x * k, y: part.y * k, w: part.w * k, h: part.h * k })),
  };
}

export function oneLineSheets(flow: Flow, title: string, lineUp: LineUp, review: Review, drawn: OneLine, clouded: boolean): void {
  const { w, h, pen } = flow;
  const k = stepOf(drawn, { w, h });
  const drawing = larger(drawn, k);
  const [above, beside] = areas({ w, h });
  const whole = fits({ w, h }, drawing.width_mm, drawing.height_mm);
  const area = whole ? [above, beside].find((each) => each && drawing.width_mm <= each.w && drawing.height_mm <= each.h) : above;
  if (!area) throw new Error('the sheet has no room inside its border');
  const tiles = tilesOf(drawing, area.w, area.h);
  const matches = matchesOf(drawing, tiles);
  const tags = new Map([...lineUp.elements, ...lineUp.cables].map((part) => [part.id, part.tag] as const));
  const ids = new Map([...tags].map(([id, tag]) => [tag, id] as const));
  const links = linkNames(lineUp);
  const key = enlarge(legend(lineUp, review, clouded), k);
  const keyBox = extent(key);
  const beside_mm = w - BORDER_mm - TITLE_W_mm - BORDER_mm;
  const window: Box = { x: 0, y: 0, w, h };
  tiles.forEach((tile, index) => {
    flow.newSheet(title, true);
    if (index === 0) flow.begin(title);
    const first = flow.sheet - index;
    const left = area.x + (area.w - tile.w) / 2;
    const own = matches.filter((each) => each.from === index || each.to === index);
    // On narrow sheets what is said of the cuts stands at the head, and the drawing under it where it has room to.
    const headed = beside_mm > 60 || tiles.length === 1 ? 0 : 12 + 5 * own.length;
    const top = area.y + Math.max(0, Math.min(Math.max((area.h - tile.h) / 2, headed), Math.max(12, headed), area.h - tile.h));
    const shown = drawing.items.filter((item) => meets(extent([item]), tile));
    pen.draw(shown, left - tile.x, top - tile.y, { x: left - 0.5, y: top - 0.5, w: tile.w + 1, h: tile.h + 1 });
    for (const item of shown) {
      const id = item.t === 'text' ? ids.get(item.text) : undefined;
      if (item.t !== 'text' || id === undefined) continue;
      const box = textBox(item);
      flow.lead(box.x + left - tile.x, box.y + top - tile.y, box.w, box.h, calculationOf(id));
    }
    // The legend stands at the foot, left of the title block, or at the head, where the drawing leaves it room; the sheet of notes has it in any case.
    const spots = [...(keyBox.w + 7 < beside_mm ? [h - BORDER_mm - 8 - keyBox.h] : []), ...(tiles.length === 1 ? [BORDER_mm + 5] : [])].map(
      (y): Box => ({ x: BORDER_mm + 5, y, w: keyBox.w, h: keyBox.h }),
    );
    const spot =
      index === 0 && key.length > 0
        ? spots.find((each) => isClear({ ...each, x: each.x - left + tile.x, y: each.y - top + tile.y }, shown))
        : undefined;
    if (spot) pen.draw(key, spot.x - keyBox.x, spot.y - keyBox.y, window);
    if (tiles.length === 1) return;
    // Where it goes on stands at the foot, left of the title block, above the legend; on narrow sheets at the head.
    const foot = (spot?.y ?? h - BORDER_mm - 5) - 3;
    const listTop = beside_mm > 60 ? foot - 5 * (own.length - 1) : BORDER_mm + 12;
    pen.text(sayOf(lineUp)(`Part ${index + 1} of ${tiles.length} of the one-line`), BORDER_mm + 4, BORDER_mm + 6, TEXT_mm, 600);
    own.forEach((each, row) => {
      const here = each.from === index;
      // The ring stands wholly on its own side of the cut.
      const x = Math.min(Math.max(each.x, tile.x + RING_mm), tile.x + tile.w - RING_mm) + left - tile.x;
      const y = Math.min(Math.max(each.y, tile.y + RING_mm), tile.y + tile.h - RING_mm) + top - tile.y;
      pen.draw(ring(each.letter), x, y, window);
      pen.text(
        `${each.letter}: ${links.get(each.partId) ?? tags.get(each.partId) ?? ''} ${here ? 'goes on at' : 'comes from'} sheet ${first + (here ? each.to : each.from)}`,
        BORDER_mm + 4,
        listTop + 5 * row,
        TEXT_mm,
      );
    });
  });
}
