import { __createTable, __drawTable } from 'jspdf-autotable';
import { translate } from '../drawing/displayList.ts';
import { badge } from '../drawing/marks.ts';
import { TRIANGLE_mm, triangle } from '../drawing/revisionMarks.ts';
import { columnWidths } from './columnWidths.ts';
import { type Block, type Column, type Section, type Table, verdictOf } from './content.ts';
import { FACE, type Fonts, Pen, PT } from './pen.ts';
import { BORDER_mm, STRIP_mm } from './sheet.ts';

/** Sections set one under the other on as many sheets as they need; it remembers on which sheet each begins, and what leads where. */

export const TEXT_mm = 3.8;
const TITLE_mm = 7;
const HEAD_mm = 5.2;
/** What must stand under a head before its table may go on overleaf. */
const FEW_ROWS_mm = 12;
/** Above and below the words of a cell. */
const PAD_mm = 0.6;
/** Under a table. */
const GAP_mm = 6;
/** Between a table and a picture. */
const BESIDE_mm = 4;
/** Room for a triangle beside a tag. */
const MARK_mm = TRIANGLE_mm + 1.2;
const EDGE = BORDER_mm + 3;
const FOOT = BORDER_mm + STRIP_mm + 3;
const TOP = BORDER_mm + 5;

export interface Sheet {
  readonly kind: string;
  /** A whole title block rather than the strip. */
  readonly block: boolean;
  readonly w: number;
  readonly h: number;
}
interface Lead {
  readonly sheet: number;
  readonly x: number;
  readonly y: number;
  readonly w: number;
  readonly h: number;
  readonly anchor: string;
}

/** A head stands on every sheet, above its rows: one that is taller than a sheet leaves them no room. Names of parts are among the heads. */
const briefly = (head: string): string => {
  const line = head.replaceAll(/\s+/g, ' ');
  return line.length > 80 ? `${line.slice(0, 80)}…` : line;
};

/** A table as it will stand: how high it is, before anyone says where. */
interface Laid {
  readonly head_mm: number;
  readonly rows_mm: readonly number[];
  /** On as many sheets as it needs. @returns where it ends on the last of them */
  readonly draw: (y: number) => number;
}

/** How many rows stand in so much room; never all but the last, which would stand alone overleaf. */
function fitting(rows_mm: readonly number[], room_mm: number): number {
  let [n, left] = [0, room_mm];
  while (n < rows_mm.length && (rows_mm[n] ?? 0) <= left) left -= rows_mm[n++] ?? 0;
  return n > 2 && n === rows_mm.length - 1 ? n - 1 : n;
}
const sum = (list: readonly number[]): number => list.reduce((all, each) => all + each, 0);

export class Flow {
  readonly pen: Pen;
  w: number;
  h: number;
  readonly sheets: Sheet[] = [];
  readonly contents: { readonly title: string; readonly sheet: number }[] = [];
  readonly #anchors = new Map<string, number>();
  readonly #leads: Lead[] = [];
  #y = Infinity;
  /** Bookmark of the section that is being set. */
  #mark: unknown = null;

  constructor(fonts: Fonts, w: number, h: number) {
    this.pen = new Pen(fonts, w, h);
    this.w = w;
    this.h = h;
    const { doc } = this.pen;
    const add = doc.addPage.bind(doc);
    // What breaks a row that is taller than a sheet asks for one more without a size.
    doc.addPage = (...asked) => (asked.length > 0 ? add(...asked) : add([this.w, this.h], this.w > this.h ? 'landscape' : 'portrait'));
  }

  /** What follows stands on paper of this size. */
  take(w: number, h: number): void {
    if (w === this.w && h === this.h) return;
    this.w = w;
    this.h = h;
    this.#y = Infinity;
  }

  /** Number of the sheet that is being drawn on. */
  get sheet(): number {
    return this.sheets.length;
  }

  newSheet(kind: string, block = false): void {
    const { w, h } = this;
    if (this.sheets.length > 0) this.pen.doc.addPage();
    this.sheets.push({ kind, block, w, h });
    this.pen.settle(this.sheet);
    // Below a title block nothing flows on.
    this.#y = block ? Infinity : TOP;
  }

  begin(title: string): void {
    this.contents.push({ title, sheet: this.sheet });
    this.#mark = this.pen.doc.outline.add(null, this.pen.safe(title), { pageNumber: this.sheet });
  }

  lead(x: number, y: number, w: number, h: number, anchor: string): void {
    this.#leads.push({ sheet: this.sheet, x, y, w, h, anchor });
  }

  /** Leads to what turned out to be on no sheet are left out. */
  drawLeads(): void {
    for (const { sheet, x, y, w, h, anchor } of this.#leads) {
      const pageNumber = this.#anchors.get(anchor);
      if (pageNumber === undefined) continue;
      this.pen.doc.setPage(sheet);
      this.pen.doc.link(x, y, w, h, { pageNumber });
    }
  }

  section({ title, blocks }: Section): void {
    const [first] = blocks;
    const own = first?.t === 'table' && (first.ownSheet || first.form);
    // One after the other: the tables of all calculations together are hundreds of megabytes.
    const laidOut = (block: Block): Laid | null => (block.t === 'table' && block.rows.length > 0 ? this.#laid(block, title) : null);
    let made = first ? laidOut(first) : null;
    if (own || !first || !this.#begins(first, made, title, TITLE_mm + 4)) this.newSheet(title);
    this.begin(title);
    this.pen.text(title, EDGE, this.#y + TITLE_mm * 0.75, TITLE_mm, 600);
    this.#y += TITLE_mm + 4;
    blocks.forEach((block, i) => {
      if (i > 0) made = laidOut(block);
      if (i > 0 && ((block.t === 'table' && block.ownSheet) || !this.#begins(block, made, title))) this.newSheet(title);
      this.#block(block, made, title, blocks.length > 1);
      while (this.sheets.length < this.pen.doc.getNumberOfPages()) this.sheets.push({ kind: title, block: false, w: this.w, h: this.h });
      this.pen.settle(this.sheet);
    });
  }

  /**
   * Whether a block may begin here. A head alone at the foot of a sheet says nothing: under it must stand its first pictures, or a few
   * rows, and all of them where they are to stay together and one sheet can hold them.
   */
  #begins(block: Block, laid: Laid | null, section: string, above_mm = 0): boolean {
    const head = above_mm + this.#titleLines(block, section).length * (HEAD_mm + 1) + 1.5;
    if (block.t === 'pictures') return this.#fits(head + (block.pictures[0]?.h ?? 0));
    const intro = this.#introLines(block).length * 5 + 2;
    if (!laid) return this.#fits(head + (this.#besideTitle(block, section) === null ? intro + 5 : 0));
    const whole = head + intro + Math.max(laid.head_mm + sum(laid.rows_mm), block.beside?.h ?? 0);
    if (block.together && whole <= this.h - FOOT - TOP) return this.#fits(whole);
    let few = 0;
    for (const each of laid.rows_mm) if (few < FEW_ROWS_mm) few += each;
    return this.#fits(head + intro + laid.head_mm + few);
  }

  #titleLines(block: Block, section: string): readonly string[] {
    return block.title === section || block.title === '' ? [] : this.pen.wrapped(block.title, this.w - 2 * EDGE, HEAD_mm);
  }

  /** Where the one sentence of an empty table stands: beside its title where there is room, so that it asks for no sheet of its own. */
  #besideTitle({ intro, empty, title }: Table, section: string): number | null {
    if (intro || title === section || title === '') return null;
    const x = EDGE + this.pen.width(title, HEAD_mm, 600) + 5;
    return x + this.pen.width(empty, TEXT_mm) <= this.w - EDGE ? x : null;
  }

  #introLines({ intro }: Table): readonly string[] {
    return intro ? this.pen.wrapped(intro, this.w - 2 * EDGE, TEXT_mm) : [];
  }

  #fits(height_mm: number): boolean {
    return this.#y + height_mm <= this.h - FOOT;
  }

  #block(block: Block, laid: Laid | null, section: string, marked: boolean): void {
    if (block.t === 'table' && block.anchor) this.#anchors.set(block.anchor, this.sheet);
    const title = this.#titleLines(block, section);
    if (title.length > 0) {
      if (marked) this.pen.doc.outline.add(this.#mark, this.pen.safe(block.title), { pageNumber: this.sheet });
      for (const line of title) {
        this.pen.text(line, EDGE, this.#y + HEAD_mm * 0.8, HEAD_mm, 600);
        this.#y += HEAD_mm + 1;
      }
      this.#y += 1.5;
    }
    const beside = block.t === 'table' && !laid ? this.#besideTitle(block, section) : null;
    if (block.t === 'table' && beside !== null) {
      this.pen.text(block.empty, beside, this.#y - 2.5 - HEAD_mm * 0.2, TEXT_mm);
      this.#y += GAP_mm;
    } else if (block.t === 'table') this.#table(block, laid);
    else this.#pictures(block, section);
  }

  #pictures({ pictures }: Extract<Block, { t: 'pictures' }>, section: string): void {
    const { w, h } = this;
    let x = EDGE;
    let row = 0;
    for (const [i, { items, w: width, h: height }] of pictures.entries()) {
      const next = pictures[i + 1];
      const pair = width + (next?.paired ? 6 + next.w : 0);
      if (x > EDGE && x + pair > w - EDGE) {
        x = EDGE;
        this.#y += row + 4;
        row = 0;
      }
      if (x === EDGE && !this.#fits(height)) this.newSheet(section);
      this.pen.draw(items, x, this.#y, { x: 0, y: 0, w, h });
      x += width + 6;
      row = Math.max(row, height);
    }
    this.#y += row + 6;
  }

  #table(table: Table, laid: Laid | null): void {
    const intro = this.#introLines(table);
    for (const [i, line] of intro.entries()) this.pen.text(line, EDGE, this.#y + 3.2 + 5 * i, TEXT_mm);
    if (intro.length > 0) this.#y += 5 * intro.length + 2;
    if (laid) {
      const { beside } = table;
      if (beside) this.pen.draw(beside.items, this.w - EDGE - beside.w, this.#y, { x: 0, y: 0, w: this.w, h: this.h });
      this.#y = Math.max(laid.draw(this.#y), beside ? this.#y + beside.h : 0) + GAP_mm;
    } else {
      this.pen.text(table.empty, EDGE, this.#y + 3.2, TEXT_mm);
      this.#y += 12;
    }
  }

  /** @param like how often it stands side by side, and in what widths: what goes on from elsewhere looks as it did there */
  #laid(whole: Table, section: string, like?: { readonly times: number; readonly widths: readonly number[] }): Laid {
    const { doc } = this.pen;
    const room = this.w - 2 * EDGE - (whole.beside ? whole.beside.w + BESIDE_mm : 0);
    const times = like?.times ?? (whole.folds ? Math.min(this.w > 500 ? 3 : this.w > 300 ? 2 : 1, whole.rows.length) : 1);
    const table = marked(folded(whole, times));
    const badges = new Set(table.verdictColumns);
    const body = table.rows.map((row) => row.map((each) => this.pen.safe(each)));
    const widths = like?.widths ?? columnWidths(table.columns, body, times, room, badges, (text) => this.pen.width(text, TEXT_mm));
    const side = ({ right }: Column) => (right ? ('right' as const) : ('left' as const));
    let end = 0;
    let begun = 0;
    const made = __createTable(doc, {
      startY: TOP,
      theme: 'plain',
      margin: { left: EDGE, right: EDGE, top: TOP, bottom: FOOT },
      tableWidth: room,
      head: [table.columns.map((each) => ({ content: this.pen.safe(briefly(each.head)), styles: { halign: side(each) } }))],
      body,
      showHead: 'everyPage',
      rowPageBreak: 'avoid',
      styles: {
        font: FACE,
        fontStyle: 'normal',
        fontSize: TEXT_mm * PT,
        textColor: '#1C2225',
        cellPadding: { top: PAD_mm, bottom: PAD_mm, left: 1.2, right: 2.6 },
        overflow: 'linebreak',
        lineWidth: { bottom: 0.18 },
        lineColor: '#80827B',
        valign: 'top',
        minCellHeight: table.form ? 9 : 0,
      },
      headStyles: { font: FACE, fontStyle: 'bold', valign: 'bottom', lineWidth: { bottom: 0.5 }, lineColor: '#1C2225', minCellHeight: 0 },
      columnStyles: Object.fromEntries(table.columns.map((each, i) => [i, { cellWidth: widths[i] ?? 0, halign: side(each) }])),
      didParseCell: ({ section, column, row, cell }) => {
        if (section === 'head' ? table.columns[column.index]?.changed : column.index === 0 && table.changed) {
          // Beside every tag of the column, so that they stand under each other.
          cell.styles.cellPadding = { top: PAD_mm, bottom: PAD_mm, left: 1.2 + MARK_mm, right: 2.6 };
          if (section === 'head' || table.changed?.[row.index]) cell.styles.minCellHeight = TRIANGLE_mm + 0.6;
        }
        if (section !== 'body' || !badges.has(column.index) || !verdictOf(`${cell.raw}`)) return;
        // With its number beside it the word needs no weight, and what is broken into lines needs room on its right.
        const alone = !`${cell.raw}`.includes('  ');
        if (alone) cell.styles.fontStyle = 'bold';
        cell.styles.cellPadding = { top: PAD_mm, bottom: PAD_mm, left: 6.2, right: alone ? 0.5 : 2.6 };
      },
      didDrawCell: ({ section, column, row, cell, pageNumber }) => {
        const { x, y, width, height } = cell;
        const revision =
          section === 'head' ? table.columns[column.index]?.changed : column.index === 0 ? table.changed?.[row.index] : undefined;
        // A head stands at the foot of its cell, a row at the top.
        const base = section === 'head' ? y + height - 1.9 : y + TRIANGLE_mm * 0.87 - 0.4;
        if (revision) this.pen.draw(triangle(revision, x + 0.8, base), 0, 0, { x: 0, y: 0, w: this.w, h: this.h });
        if (section !== 'body') return;
        const verdict = badges.has(column.index) ? verdictOf(`${cell.raw}`) : undefined;
        if (verdict) this.pen.draw(translate(badge(verdict), x + 3.4, y + 2.3 + PAD_mm), 0, 0, { x, y, w: width, h: height });
        const anchor = column.index === 0 ? table.links?.[row.index] : undefined;
        if (anchor) this.#leads.push({ sheet: begun + pageNumber - 1, x, y, w: width, h: height, anchor });
      },
      didDrawPage: ({ cursor }) => {
        end = cursor?.y ?? end;
      },
    });
    const rows = made.body;
    const head_mm = sum(made.head.map(({ height }) => height));
    const rows_mm = rows.map(({ height }) => height);
    const put = (y: number, from: number, to = rows.length): number => {
      begun = this.sheet;
      made.settings.startY = y;
      __drawTable(doc, Object.assign(made, { body: rows.slice(from, to) }));
      return end;
    };
    const draw = (y: number, from = 0): number => {
      const free = this.h - FOOT - y - head_mm;
      let n = fitting(rows_mm.slice(from), free);
      // A row that is taller than a sheet is broken where it must be, and what follows it goes on from there.
      if (from + n === rows.length || (n === 0 && y === TOP)) return put(y, from);
      if (n > 0 && times > 1) {
        // Each sheet is read down its own columns.
        const part = (begin: number, past?: number) =>
          this.#laid({ ...whole, rows: whole.rows.slice(begin, past) }, section, { times, widths });
        let here = part(0, n * times);
        while (n > 1 && sum(here.rows_mm) > free) here = part(0, --n * times);
        here.draw(y);
        this.newSheet(section);
        return part(n * times).draw(TOP);
      }
      if (n > 0) put(y, from, from + n);
      this.newSheet(section);
      return draw(TOP, from + n);
    };
    return { head_mm, rows_mm, draw };
  }
}

/** With room beside the tags, where any has a mark. */
const marked = ({ changed, columns: [first, ...others], ...table }: Table): Table =>
  changed?.some(Boolean) && first
    ? { ...table, changed, columns: [{ ...first, ...(first.w !== undefined && { w: first.w + MARK_mm }) }, ...others] }
    : { ...table, columns: [...(first ? [first] : []), ...others] };

/** The rows of a table that folds, in so many columns side by side. */
function folded(table: Table, times: number): Table {
  const height = Math.ceil(table.rows.length / times);
  const none = table.columns.map(() => '');
  const side = Array.from({ length: times }, (_, i) => i);
  return {
    ...table,
    columns: side.flatMap(() => table.columns),
    rows: Array.from({ length: height }, (_, row) => side.flatMap((i) => table.rows[i * height + row] ?? none)),
    ...(table.verdictColumns && { verdictColumns: side.flatMap((i) => table.verdictColumns?.map((at) => at + i * none.length) ?? []) }),
  };
}
