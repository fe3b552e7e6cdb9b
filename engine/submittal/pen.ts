import { strFromU8, strToU8, zlibSync } from 'fflate';
import { jsPDF } from 'jspdf';
import { type Box, type Ink, type Item, type Segment, TEXT_mm } from '../drawing/displayList.ts';
import { arc } from '../drawing/glyphs.ts';
import { LIGHT } from '../drawing/svg.ts';
import { unpackedFont } from './unpackedFont.ts';

/** Millimetres, our two weights of one face, and no character lost without a sign. */

/** As they are fetched, packed. */
export interface Fonts {
  readonly regular: Uint8Array;
  readonly semibold: Uint8Array;
}
export const FACE = 'CopperlineSans';
/** Points in a millimetre. */
export const PT = 72 / 25.4;
const MISSING = '□';
/** Between a number and its unit: there no line ends. */
const UNIT = /(?<=\d) (?=(?:°[CF]|%|[kmµn]?[VAWΩFHJ]|kVA|k?Hz|[kmcµ]?m²?|[µnm]?s|ft|in|mil|hp|AWG|kcmil)(?![\p{L}\d]))/gu;
/**
 * Letters that are one glyph of the face, and the one of them that is written. The file tells its readers one letter a glyph, whichever was
 * written last: one soft hyphen anywhere, and no search would find any hyphen of the set.
 */
export const WRITTEN_AS: Readonly<Record<string, string>> = {
  '\u00a0': ' ',
  '\u00ad': '-',
  '\u2010': '-',
  '\u2011': '-',
  '\u03bc': '\u00b5',
  '\u207c': '\u02ed',
  '\u2206': '\u0394',
  '\u2126': '\u03a9',
  '\u03d5': '\u03c6',
};
const TWINS = new RegExp(`[${Object.keys(WRITTEN_AS).join('')}]`, 'gu');

interface Font {
  readonly id: string;
  readonly metadata: { characterToGlyph(code: number): number; widthOfGlyph(glyph: number): number };
}

/**
 * Of a stream, as jsPDF asks for it: deflated. Its own way adds one letter to the next, and each is an object of its own until the file is
 * done: of a large set that is 200 MB.
 */
const deflated = (data: string, filters: readonly string[]) =>
  filters.length === 0
    ? { data, reverseChain: '' }
    : { data: strFromU8(zlibSync(strToU8(data, true)), true), reverseChain: '/FlateDecode' };

export class Pen {
  readonly doc: jsPDF;
  readonly #glyphs = new Map<number, boolean>();
  readonly #widths = new Map<string, Map<number, number>>();

  constructor(fonts: Fonts, width_mm: number, height_mm: number) {
    this.doc = new jsPDF({
      unit: 'mm',
      format: [width_mm, height_mm],
      orientation: width_mm > height_mm ? 'landscape' : 'portrait',
      putOnlyUsedFonts: true,
      compress: true,
      // Far finer than any printer, and coarser than the last bit, in which one machine's arithmetic differs from another's.
      floatPrecision: 4,
    });
    Object.assign(jsPDF.API, { processDataByFilters: deflated });
    this.#addFont('regular.ttf', fonts.regular, 'normal');
    this.#addFont('semibold.ttf', fonts.semibold, 'bold');
    this.doc.setFont(FACE, 'normal');
    // Joins Arabic letters, of which the face has none: a fifth of the time of a set.
    const { events } = this.doc.internal;
    for (const token of Object.keys(events.getTopics()['preProcessText'] ?? {})) events.unsubscribe(token);
    // A page that is in the file is needed no more.
    events.subscribe('putPage', ({ pageNumber }: { readonly pageNumber: number }) => this.#pages[pageNumber - 1]?.splice(0));
    this.doc.getStringUnitWidth = (text) => this.#widthOf(text);
  }

  /** Of the font as it is set, in its size. */
  #widthOf(text: string): number {
    const { id, metadata } = this.doc.getFont() as unknown as Font;
    const known = this.#widths.get(id) ?? new Map<number, number>();
    this.#widths.set(id, known);
    let width = 0;
    for (let i = 0; i < text.length; i++) {
      const code = text.charCodeAt(i);
      let own = known.get(code);
      if (own === undefined) {
        own = metadata.widthOfGlyph(metadata.characterToGlyph(code)) || 0;
        known.set(code, own);
      }
      width += own;
    }
    return width / 1000;
  }

  /** The pages before this one, each in one string: the thousands of small ones that it was made of take ten times the memory. */
  settle(page: number): void {
    for (const own of this.#pages.slice(1, page)) {
      if (own.length > 1) own.splice(0, own.length, own.join('\n'));
    }
  }

  /** From 1 on, as sheets are numbered. */
  get #pages(): string[][] {
    return this.doc.internal.pages as unknown as string[][];
  }

  #addFont(name: string, packed: Uint8Array, style: 'normal' | 'bold'): void {
    const bytes = unpackedFont(packed);
    let binary = '';
    for (let at = 0; at < bytes.length; at += 8192) binary += String.fromCharCode(...bytes.subarray(at, at + 8192));
    this.doc.addFileToVFS(name, binary);
    this.doc.addFont(name, FACE, style);
  }

  /** A character that the face lacks would vanish: it becomes a box instead. */
  safe(text: string): string {
    let made = '';
    for (const letter of text.normalize('NFC').replaceAll(UNIT, '\u00a0')) {
      const code = letter.codePointAt(0) ?? 0;
      if (letter === '\n') made += letter;
      else if (/\s/u.test(letter) && code !== 0xa0) made += code === 0x2009 || code === 0x202f ? '\u00a0' : ' ';
      else made += this.#has(code) ? letter : MISSING;
    }
    return made;
  }

  #has(code: number): boolean {
    const known = this.#glyphs.get(code);
    if (known !== undefined) return known;
    const font = this.doc.getFont() as unknown as Font;
    const has = code >= 0x20 && code <= 0xffff && font.metadata.characterToGlyph(code) > 0;
    this.#glyphs.set(code, has);
    return has;
  }

  text(
    text: string,
    x: number,
    y: number,
    size_mm: number,
    weight: 400 | 600 = 400,
    anchor: 'start' | 'middle' | 'end' = 'start',
    ink: Ink = 'ink',
  ): void {
    this.doc.setFont(FACE, weight === 600 ? 'bold' : 'normal');
    this.doc.setFontSize(size_mm * PT);
    this.doc.setTextColor(LIGHT[ink]);
    // On one line: whoever has room for more has folded it before.
    const written = this.safe(text)
      .replaceAll('\n', ' ')
      .replace(TWINS, (letter) => WRITTEN_AS[letter] ?? letter);
    this.doc.text(written, x, y, {
      align: anchor === 'start' ? 'left' : anchor === 'end' ? 'right' : 'center',
      baseline: 'alphabetic',
    });
  }

  /** In one line of this width, whatever lines the text has: first smaller, down to the smallest that is printed, then shortened with a sign that it is. */
  fitted(text: string, x: number, y: number, width_mm: number, size_mm: number, weight: 400 | 600 = 400): void {
    this.doc.setFont(FACE, weight === 600 ? 'bold' : 'normal');
    let shown = this.safe(text)
      .replace(/[ \n]+/g, ' ')
      .trim();
    const wide = (candidate: string, size: number): boolean => {
      this.doc.setFontSize(size * PT);
      return this.doc.getTextWidth(candidate) > width_mm;
    };
    let size = size_mm;
    while (size > TEXT_mm && wide(shown, size)) size = Math.max(TEXT_mm, size - 0.2);
    if (wide(shown, size)) {
      let [fits, tooLong] = [0, shown.length];
      while (tooLong - fits > 1) {
        const middle = (fits + tooLong) >> 1;
        if (wide(`${shown.slice(0, middle)}…`, size)) tooLong = middle;
        else fits = middle;
      }
      shown = `${shown.slice(0, fits).trimEnd()}…`;
    }
    this.text(shown, x, y, size, weight);
  }

  width(text: string, size_mm: number, weight: 400 | 600 = 400): number {
    this.doc.setFont(FACE, weight === 600 ? 'bold' : 'normal');
    this.doc.setFontSize(size_mm * PT);
    return this.doc.getTextWidth(this.safe(text));
  }

  /** In lines of at most this width. */
  wrapped(text: string, width_mm: number, size_mm: number): readonly string[] {
    this.doc.setFont(FACE, 'normal');
    this.doc.setFontSize(size_mm * PT);
    return this.doc.splitTextToSize(this.safe(text), width_mm) as string[];
  }

  line(x1: number, y1: number, x2: number, y2: number, weight_mm: number): void {
    this.doc.setDrawColor(LIGHT.ink);
    this.doc.setLineWidth(weight_mm);
    this.doc.setLineDashPattern([], 0);
    this.doc.line(x1, y1, x2, y2);
  }

  frame(x: number, y: number, w: number, h: number, weight_mm: number): void {
    this.line(x, y, x + w, y, weight_mm);
    this.line(x + w, y, x + w, y + h, weight_mm);
    this.line(x + w, y + h, x, y + h, weight_mm);
    this.line(x, y + h, x, y, weight_mm);
  }

  /** Items of a display list, moved, and cut at the window. */
  draw(items: readonly Item[], dx: number, dy: number, window: Box): void {
    this.doc.saveGraphicsState();
    this.doc.rect(window.x, window.y, window.w, window.h, null);
    this.doc.clip();
    this.doc.discardPath();
    for (const item of items) this.#item(item, dx, dy);
    this.doc.restoreGraphicsState();
  }

  #item(item: Item, dx: number, dy: number): void {
    if (item.t === 'text') {
      this.text(item.text, item.x + dx, item.y + dy, item.size_mm, item.weight, item.anchor, item.ink);
      return;
    }
    const dash = 'dash' in item && item.dash ? [...item.dash] : [];
    const round = dash.length === 0 || (dash[0] ?? 1) < 0.2;
    this.doc.setLineCap(round ? 'round' : 'butt');
    this.doc.setLineJoin('round');
    this.doc.setLineDashPattern(dash, 0);
    if (item.weight_mm > 0) {
      this.doc.setDrawColor(LIGHT[item.ink]);
      this.doc.setLineWidth(item.weight_mm);
    }
    const fill = 'fill' in item ? item.fill : undefined;
    if (fill) this.doc.setFillColor(LIGHT[fill]);
    const style = fill ? (item.weight_mm > 0 ? 'FD' : 'F') : 'S';
    if (item.t === 'rect') {
      if (item.corner_mm) this.doc.roundedRect(item.x + dx, item.y + dy, item.w, item.h, item.corner_mm, item.corner_mm, style);
      else this.doc.rect(item.x + dx, item.y + dy, item.w, item.h, style);
      return;
    }
    const d: readonly Segment[] =
      item.t === 'circle'
        ? arc(item.x, item.y, item.r, 0, 360)
        : item.t === 'path'
          ? item.d
          : item.points.map(([x, y], i) => [i === 0 ? 'M' : 'L', x, y] as const);
    this.doc.path(
      d.map((s) =>
        s[0] === 'C'
          ? { op: 'c', c: [s[1] + dx, s[2] + dy, s[3] + dx, s[4] + dy, s[5] + dx, s[6] + dy] }
          : { op: s[0] === 'M' ? 'm' : 'l', c: [s[1] + dx, s[2] + dy] },
      ),
    );
    if (style === 'S') this.doc.stroke();
    else if (style === 'F') this.doc.fill();
    else this.doc.fillStroke();
  }
}
