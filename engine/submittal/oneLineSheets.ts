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
import { areas, BORDER_mm, besideTitle_mm, TITLE_H_mm, TITLE_W_mm } from './sheet.ts';
import { LIST_LINES, LIST_PITCH_mm, SIGN_mm, type Sign, splitOneLine } from './splitOneLine.ts';

/** The one-line at full size or larger, on one sheet or cut over several with a letter at each cut. */

/** What is said of a cut takes no more, as a rule. */
const COLUMN_mm = 58;

const goesOn = (here: boolean, cables: number): string =>
  cables > 1 ? (here ? 'go on at' : 'come from') : here ? 'goes on at' : 'comes from';

/** A letter in a ring: the one-line goes on at the same letter elsewhere. */
const ring = ({ letter, x, y }: Sign): readonly Item[] => [
  { t: 'circle', x, y, r: SIGN_mm - 0.2, weight_mm: 0.35, ink: 'ink', fill: 'canvas' },
  { t: 'text', x, y: y + 1.25, text: letter, size_mm: TEXT_mm, weight: 600, anchor: 'middle', ink: 'ink' },
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
  if (k === 1) return drawing;
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
  const parts = splitOneLine(drawing, { w, h });
  const tags = new Map([...lineUp.elements, ...lineUp.cables].map((part) => [part.id, part.tag] as const));
  const ids = new Map([...tags].map(([id, tag]) => [tag, id] as const));
  const links = linkNames(lineUp);
  const key = enlarge(legend(lineUp, review, clouded), k);
  const keyBox = extent(key);
  const beside_mm = w - BORDER_mm - TITLE_W_mm - BORDER_mm;
  const window: Box = { x: 0, y: 0, w, h };
  parts.forEach(({ tile, left, top, lines, whole, signs }, index) => {
    flow.newSheet(title, true);
    if (index === 0) flow.begin(title);
    const first = flow.sheet - index;
    const shown = [...lines, ...whole];
    const rings = signs.flatMap(ring);
    pen.draw(lines, left - tile.x, top - tile.y, { x: left - 0.5, y: top - 0.5, w: tile.w + 1, h: tile.h + 1 });
    pen.draw(whole, left - tile.x, top - tile.y, window);
    pen.draw(rings, 0, 0, window);
    for (const item of shown) {
      const id = item.t === 'text' ? ids.get(item.text) : undefined;
      if (item.t !== 'text' || id === undefined) continue;
      const box = textBox(item);
      flow.lead(box.x + left - tile.x, box.y + top - tile.y, box.w, box.h, calculationOf(id));
    }
    // The legend stands at the foot, left of the title block, or at the head, where the drawing leaves it room; the sheet of notes has it in any case.
    const spots = [...(keyBox.w + 7 < beside_mm ? [h - BORDER_mm - 8 - keyBox.h] : []), ...(parts.length === 1 ? [BORDER_mm + 5] : [])].map(
      (y): Box => ({ x: BORDER_mm + 5, y, w: keyBox.w, h: keyBox.h }),
    );
    const spot =
      index === 0 && key.length > 0
        ? spots.find((each) => isClear({ ...each, x: each.x - left + tile.x, y: each.y - top + tile.y }, shown) && isClear(each, rings))
        : undefined;
    if (spot) pen.draw(key, spot.x - keyBox.x, spot.y - keyBox.y, window);
    if (parts.length === 1) return;
    pen.text(sayOf(lineUp)(`Part ${index + 1} of ${parts.length} of the one-line`), BORDER_mm + 4, BORDER_mm + 6, TEXT_mm, 600);
    // Where it goes on stands at the foot, left of the title block and right of the legend; on narrow sheets at the head.
    const isNarrow = besideTitle_mm({ w }) === null;
    const list: Box = isNarrow
      ? { x: BORDER_mm + 4, y: BORDER_mm + 11, w: w - 2 * BORDER_mm - 8, h: LIST_LINES * LIST_PITCH_mm }
      : {
          x: BORDER_mm + 4 + (spot ? keyBox.w + 7 : 0),
          y: h - BORDER_mm - TITLE_H_mm + 5,
          w: beside_mm - (spot ? keyBox.w + 7 : 0) - 8,
          h: TITLE_H_mm - 8,
        };
    const rows = Math.floor(list.h / LIST_PITCH_mm);
    const column_mm = list.w / Math.max(Math.floor(list.w / COLUMN_mm), Math.ceil(signs.length / rows));
    signs.forEach(({ letter, partIds, other, first: here }, i) => {
      pen.fitted(
        `${letter}: ${partIds.map((id) => links.get(id) ?? tags.get(id) ?? '').join(', ')} ${goesOn(here, partIds.length)} sheet ${first + other}`,
        list.x + column_mm * Math.floor(i / rows),
        list.y + LIST_PITCH_mm * (i % rows),
        column_mm - 3,
        TEXT_mm,
      );
    });
  });
}
