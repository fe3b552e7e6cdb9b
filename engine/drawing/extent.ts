import type { Box, Item, TextItem } from './displayList.ts';

/**
 * Room a text takes, a little too wide rather than too narrow: advance widths of Copperline Sans in classes, in em
 * (read from the font: figures 0.497, most small letters below 0.56, capitals below 0.66).
 */
export function textWidth_mm(text: string, size_mm: number, weight: 400 | 600): number {
  let em = 0;
  for (const letter of text) {
    if (/[ .,:;'’|!iIlj()\u00a0\u2009-]/.test(letter)) em += 0.31;
    else if (/[frt/]/.test(letter)) em += 0.38;
    else if (/[mMW%@—□→]/.test(letter)) em += 0.86;
    else if (/[A-Zw&ΩØ+×≤≥−=±√]/.test(letter)) em += 0.62;
    else em += 0.53;
  }
  return em * size_mm * (weight === 600 ? 1.04 : 1);
}

export function textBox(item: TextItem): Box {
  const w = textWidth_mm(item.text, item.size_mm, item.weight);
  const x = item.anchor === 'start' ? item.x : item.anchor === 'end' ? item.x - w : item.x - w / 2;
  return { x, y: item.y - 0.74 * item.size_mm, w, h: 0.96 * item.size_mm };
}

function boxOf(item: Item): Box {
  if (item.t === 'text') return textBox(item);
  const half = item.weight_mm / 2;
  if (item.t === 'circle')
    return { x: item.x - item.r - half, y: item.y - item.r - half, w: 2 * item.r + 2 * half, h: 2 * item.r + 2 * half };
  if (item.t === 'rect') return { x: item.x - half, y: item.y - half, w: item.w + 2 * half, h: item.h + 2 * half };
  const points =
    item.t === 'line'
      ? item.points
      : item.d.flatMap(
          (s) =>
            (s[0] === 'C'
              ? [
                  [s[1], s[2]],
                  [s[3], s[4]],
                  [s[5], s[6]],
                ]
              : [[s[1], s[2]]]) as [number, number][],
        );
  return around(points.map(([x, y]) => ({ x: x - half, y: y - half, w: 2 * half, h: 2 * half })));
}

/** The smallest box round several. */
export function around(boxes: readonly Box[]): Box {
  if (boxes.length === 0) return { x: 0, y: 0, w: 0, h: 0 };
  let left = Infinity,
    top = Infinity,
    right = -Infinity,
    bottom = -Infinity;
  for (const box of boxes) {
    left = Math.min(left, box.x);
    top = Math.min(top, box.y);
    right = Math.max(right, box.x + box.w);
    bottom = Math.max(bottom, box.y + box.h);
  }
  return { x: left, y: top, w: right - left, h: bottom - top };
}

export const extent = (items: readonly Item[]): Box => around(items.map(boxOf));

export const meets = (a: Box, b: Box): boolean =>
  a.x < b.x + b.w - 1e-9 && b.x < a.x + a.w - 1e-9 && a.y < b.y + b.h - 1e-9 && b.y < a.y + a.h - 1e-9;
