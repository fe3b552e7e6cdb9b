import type { Basis, SheetSize } from '../lineup/project.ts';

/** Trimmed sheets, long edge across except the smallest. ISO 216 and ANSI/ASME Y14.1, from memory. */
export const SHEETS: Readonly<Record<SheetSize, { readonly w: number; readonly h: number }>> = {
  A4: { w: 210, h: 297 },
  A3: { w: 420, h: 297 },
  A2: { w: 594, h: 420 },
  A1: { w: 841, h: 594 },
  A0: { w: 1189, h: 841 },
  'ANSI-A': { w: 215.9, h: 279.4 },
  'ANSI-B': { w: 431.8, h: 279.4 },
  'ANSI-C': { w: 558.8, h: 431.8 },
  'ANSI-D': { w: 863.6, h: 558.8 },
  'ANSI-E': { w: 1117.6, h: 863.6 },
};

/** What any printer on site takes, of the same family. */
export const officePaper = (size: SheetSize): SheetSize => (size.startsWith('ANSI') ? 'ANSI-A' : 'A4');

export const BORDER_mm = 12.7;
export const TITLE_W_mm = 180;
export const TITLE_H_mm = 40;
/** Title strip of the sheets after the drawing. */
export const STRIP_mm = 13;

/** Nothing said: the smallest sheet of the basis that holds the one-line at full size beside or above the title block. */
export function chooseSheet(basis: Basis, width_mm: number, height_mm: number): SheetSize {
  const sizes: readonly SheetSize[] = basis === 'us' ? ['ANSI-B', 'ANSI-C', 'ANSI-D'] : ['A3', 'A2', 'A1'];
  return sizes.find((size) => fits(SHEETS[size], width_mm, height_mm)) ?? sizes[0] ?? 'A3';
}

export function fits(sheet: { readonly w: number; readonly h: number }, width_mm: number, height_mm: number): boolean {
  return areas(sheet).some((area) => width_mm <= area.w && height_mm <= area.h);
}

/** Room beside the title block for the line that says what made the sheet; null on narrow sheets, where the line stands above the block. */
export function besideTitle_mm({ w }: { readonly w: number }): number | null {
  const room = w - 2 * BORDER_mm - TITLE_W_mm - 4;
  return room > 60 ? room : null;
}
const LINE_mm = 6;

/** Where a drawing may stand: above the title block, or at its left over the whole height. */
export function areas(sheet: { readonly w: number; readonly h: number }) {
  const edge = BORDER_mm + 2;
  const w = sheet.w - 2 * edge;
  const h = sheet.h - 2 * edge;
  return [
    { x: edge, y: edge, w, h: h - TITLE_H_mm - (besideTitle_mm(sheet) === null ? LINE_mm : 0) },
    { x: edge, y: edge, w: w - TITLE_W_mm, h },
  ];
}
