import { autoTable } from 'jspdf-autotable';
import { translate } from '../drawing/displayList.ts';
import { badge } from '../drawing/marks.ts';
import { TRIANGLE_mm, triangle } from '../drawing/revisionMarks.ts';
import { type Block, type Column, type Section, type Table, verdictOf } from './content.ts';
import { FACE, type Fonts, Pen, PT } from './pen.ts';
import { BORDER_mm, STRIP_mm } from './sheet.ts';

/** Sections set one under the other on as many sheets as they need; it remembers on which sheet each begins, and what leads where. */

export const TEXT_mm = 3.8;
const TITLE_mm = 7;
const HEAD_mm = 5.2;
/** Room for a triangle beside a tag. */
const MARK_mm = TRIANGLE_mm + 1.2;
const EDGE = BORDER_mm + 3;
const FOOT = BORDER_mm + STRIP_mm + 3;
const TOP = BORDER_mm + 5;

export interface Sheet {
  readonly kind: string;
  /** A whole title block rather than the strip. */
  readonly block: boolean;
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

export class Flow {
  readonly pen: Pen;
  readonly w: number;
  readonly h: number;
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
  }

  /** Number of the sheet that is being drawn on. */
  get sheet(): number {
    return this.sheets.length;
  }

  newSheet(kind: string, block = false): void {
    if (this.sheets.length > 0) this.pen.doc.addPage([this.w, this.h], this.w > this.h ? 'landscape' : 'portrait');
    this.sheets.push({ kind, block });
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
    if (own || !first || !this.#fits(TITLE_mm + 4 + roomFor(first))) this.newSheet(title);
    this.begin(title);
    this.pen.text(title, EDGE, this.#y + TITLE_mm * 0.75, TITLE_mm, 600);
    this.#y += TITLE_mm + 4;
    blocks.forEach((block, i) => {
      if (i > 0 && block.t === 'table' && block.ownSheet) this.newSheet(title);
      this.#block(block, title, blocks.length > 1);
      while (this.sheets.length < this.pen.doc.getNumberOfPages()) this.sheets.push({ kind: title, block: false });
      this.pen.settle(this.sheet);
    });
  }

  #fits(height_mm: number): boolean {
    return this.#y + height_mm <= this.h - FOOT;
  }

  #block(block: Block, section: string, marked: boolean): void {
    if (!this.#fits(roomFor(block))) this.newSheet(section);
    if (block.t === 'table' && block.anchor) this.#anchors.set(block.anchor, this.sheet);
    if (block.title !== section && block.title !== '') {
      if (marked) this.pen.doc.outline.add(this.#mark, this.pen.safe(block.title), { pageNumber: this.sheet });
      for (const line of this.pen.wrapped(block.title, this.w - 2 * EDGE, HEAD_mm)) {
        this.pen.text(line, EDGE, this.#y + HEAD_mm * 0.8, HEAD_mm, 600);
        this.#y += HEAD_mm + 1;
      }
      this.#y += 1.5;
    }
    if (block.t === 'table') this.#table(block);
    else this.#pictures(block, section);
  }

  #pictures({ pictures }: Extract<Block, { t: 'pictures' }>, section: string): void {
    const { w, h } = this;
    let x = EDGE;
    let row = 0;
    for (const { items, w: width, h: height } of pictures) {
      if (x > EDGE && x + width > w - EDGE) {
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

  #table(whole: Table): void {
    const { doc } = this.pen;
    if (whole.intro) {
      const lines = this.pen.wrapped(whole.intro, this.w - 2 * EDGE, TEXT_mm);
      for (const [i, line] of lines.entries()) this.pen.text(line, EDGE, this.#y + 3.2 + 5 * i, TEXT_mm);
      this.#y += 5 * lines.length + 2;
    }
    if (whole.rows.length === 0) {
      this.pen.text(whole.empty, EDGE, this.#y + 3.2, TEXT_mm);
      this.#y += 12;
      return;
    }
    const room = this.w - 2 * EDGE;
    const table = marked(folded(whole, this.w > 500 ? 3 : this.w > 300 ? 2 : 1));
    const badges = new Set(table.verdictColumns);
    const fixed = table.columns.reduce((sum, each) => sum + (each.w ?? 0), 0);
    const shares = table.columns.reduce((sum, each) => sum + (each.grow ?? 0), 0);
    const side = ({ right }: Column) => (right ? ('right' as const) : ('left' as const));
    let end = this.#y;
    const begun = this.sheet;
    autoTable(doc, {
      startY: this.#y,
      theme: 'plain',
      margin: { left: EDGE, right: EDGE, top: TOP, bottom: FOOT },
      tableWidth: room,
      head: [table.columns.map((each) => ({ content: this.pen.safe(briefly(each.head)), styles: { halign: side(each) } }))],
      body: table.rows.map((row) => row.map((each) => this.pen.safe(each))),
      showHead: 'everyPage',
      rowPageBreak: 'avoid',
      styles: {
        font: FACE,
        fontStyle: 'normal',
        fontSize: TEXT_mm * PT,
        textColor: '#1C2225',
        cellPadding: { top: 0.8, bottom: 0.8, left: 1.2, right: 2.6 },
        overflow: 'linebreak',
        lineWidth: { bottom: 0.18 },
        lineColor: '#80827B',
        valign: 'top',
        minCellHeight: table.form ? 9 : 0,
      },
      headStyles: { font: FACE, fontStyle: 'bold', valign: 'bottom', lineWidth: { bottom: 0.5 }, lineColor: '#1C2225', minCellHeight: 0 },
      columnStyles: Object.fromEntries(
        table.columns.map((each, i) => [
          i,
          { cellWidth: each.w ?? (each.grow ? ((room - fixed) * each.grow) / shares : 0), halign: side(each) },
        ]),
      ),
      didParseCell: ({ section, column, row, cell }) => {
        if (section === 'head' ? table.columns[column.index]?.changed : column.index === 0 && table.changed) {
          // Beside every tag of the column, so that they stand under each other.
          cell.styles.cellPadding = { top: 0.8, bottom: 0.8, left: 1.2 + MARK_mm, right: 2.6 };
          if (section === 'head' || table.changed?.[row.index]) cell.styles.minCellHeight = TRIANGLE_mm + 0.6;
        }
        if (section !== 'body' || !badges.has(column.index) || !verdictOf(`${cell.raw}`)) return;
        // With its number beside it the word needs no weight, and what is broken into lines needs room on its right.
        const alone = !`${cell.raw}`.includes('  ');
        if (alone) cell.styles.fontStyle = 'bold';
        cell.styles.cellPadding = { top: 0.8, bottom: 0.8, left: 6.2, right: alone ? 0.5 : 2.6 };
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
        if (verdict) this.pen.draw(translate(badge(verdict), x + 3.4, y + 3.1), 0, 0, { x, y, w: width, h: height });
        const anchor = column.index === 0 ? table.links?.[row.index] : undefined;
        if (anchor) this.#leads.push({ sheet: begun + pageNumber - 1, x, y, w: width, h: height, anchor });
      },
      didDrawPage: ({ cursor }) => {
        end = cursor?.y ?? end;
      },
    });
    this.#y = end + 8;
  }
}

/** A head alone at the foot of a sheet says nothing: what must stand under it is its first pictures, or a few rows. */
const roomFor = (block: Block): number => HEAD_mm + 5 + (block.t === 'pictures' ? Math.max(...block.pictures.map((each) => each.h)) : 30);

/** With room beside the tags, where any has a mark. */
const marked = ({ changed, columns: [first, ...others], ...table }: Table): Table =>
  changed?.some(Boolean) && first
    ? { ...table, changed, columns: [{ ...first, ...(first.w !== undefined && { w: first.w + MARK_mm }) }, ...others] }
    : { ...table, columns: [...(first ? [first] : []), ...others] };

/** The rows of a table that folds, in so many columns side by side. */
function folded(table: Table, most: number): Table {
  const times = table.folds ? Math.min(most, table.rows.length) : 1;
  const height = Math.ceil(table.rows.length / times);
  const none = table.columns.map(() => '');
  const side = Array.from({ length: times }, (_, i) => i);
  return {
    ...table,
    columns: side.flatMap(() => table.columns),
    rows: Array.from({ length: height }, (_, row) => side.flatMap((i) => table.rows[i * height + row] ?? none)),
  };
}
