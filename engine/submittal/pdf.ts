import { autoTable } from 'jspdf-autotable';
import type { Review } from '../checks/solved.ts';
import { translate } from '../drawing/displayList.ts';
import { extent, meets } from '../drawing/extent.ts';
import { badge } from '../drawing/marks.ts';
import { oneLine } from '../drawing/oneLine.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import type { SheetSize } from '../lineup/project.ts';
import { save } from '../lineup/save.ts';
import { CAUTION, NOT_COVERED } from './deferral.ts';
import { fileId, pdfDate } from './fileId.ts';
import { drawBorder, drawStrip, drawTitleBlock, type SheetFacts } from './frame.ts';
import { FACE, type Fonts, Pen, PT } from './pen.ts';
import { areas, BORDER_mm, chooseSheet, fits, SHEETS, STRIP_mm } from './sheet.ts';
import {
  assumptionsTable,
  cableSchedule,
  equipmentList,
  findingsTable,
  numbered,
  openItems,
  passesTable,
  switchedOff,
  type Table,
  VERDICT_WORD,
} from './tables.ts';
import { tilesOf } from './tiles.ts';

export interface SubmittalOptions {
  readonly fonts: Fonts;
  /** Day of issue, '2026-11-25'. Handed in, so that the same inputs give the same bytes. */
  readonly date: string;
  readonly sheetSize?: SheetSize;
}

const TEXT_mm = 3.8;
const HEAD_mm = 5.6;

/** The issue package: the annotated one-line, then findings, schedules, assumptions, and what was not judged. */
export function submittalPdf(lineUp: LineUp, review: Review, options: SubmittalOptions): Uint8Array {
  const drawing = oneLine(lineUp, review, { callouts: numbered(review) });
  const size = options.sheetSize ?? lineUp.project.sheetSize ?? chooseSheet(lineUp.project.basis, drawing.width_mm, drawing.height_mm);
  const { w, h } = SHEETS[size];
  const pen = new Pen(options.fonts, w, h);
  const { doc } = pen;
  const kinds: string[] = [];
  const outline = (title: string, page: number): void => void doc.outline.add(null, pen.safe(title), { pageNumber: page });

  const [above, beside] = areas({ w, h });
  const whole = fits({ w, h }, drawing.width_mm, drawing.height_mm);
  const area = whole ? [above, beside].find((each) => each && drawing.width_mm <= each.w && drawing.height_mm <= each.h) : above;
  if (!area) throw new Error('the sheet has no room inside its border');
  const tiles = tilesOf(drawing, area.w, area.h);
  tiles.forEach((tile, index) => {
    if (index > 0) doc.addPage([w, h], w > h ? 'landscape' : 'portrait');
    kinds.push('One-line');
    const left = area.x + (area.w - tile.w) / 2;
    const top = area.y + Math.max(0, Math.min((area.h - tile.h) / 2, 12));
    const shown = drawing.items.filter((item) => meets(extent([item]), tile));
    pen.draw(shown, left - tile.x, top - tile.y, { x: left - 0.5, y: top - 0.5, w: tile.w + 1, h: tile.h + 1 });
    if (tiles.length > 1) pen.text(`Part ${index + 1} of ${tiles.length} of the one-line`, BORDER_mm + 4, BORDER_mm + 6, TEXT_mm, 600);
  });
  outline('One-line', 1);

  const wide = w > 300;
  const groups: readonly (readonly [string, readonly Table[]])[] = [
    ['Findings', [findingsTable(review, wide), passesTable(review)]],
    ['Schedules', [cableSchedule(lineUp, review, wide), equipmentList(lineUp, review)]],
    ['Assumptions, open items', [openItems(review), assumptionsTable(review), switchedOff(lineUp), NOT_COVERED, CAUTION]],
  ];
  for (const [kind, tables] of groups) {
    doc.addPage([w, h], w > h ? 'landscape' : 'portrait');
    let y = BORDER_mm + 5;
    for (const table of tables) {
      y = drawTable(pen, table, y, w, h, (page) => outline(table.title, page));
    }
    while (kinds.length < doc.getNumberOfPages()) kinds.push(kind);
  }

  const total = doc.getNumberOfPages();
  for (let page = 1; page <= total; page++) {
    doc.setPage(page);
    const facts: SheetFacts = {
      project: lineUp.project,
      date: lineUp.project.date ?? options.date,
      size,
      kind: kinds[page - 1] ?? '',
      number: page,
      total,
      w,
      h,
    };
    drawBorder(pen, facts);
    if (page <= tiles.length) drawTitleBlock(pen, facts);
    else drawStrip(pen, facts);
  }
  doc.setProperties({ title: lineUp.project.title, subject: 'One-line diagram and cable review', creator: 'Copperline 0.1.0' });
  doc.setLanguage('en');
  doc.setCreationDate(pdfDate(options.date));
  doc.setFileId(fileId(`${save(lineUp)}${JSON.stringify(review.findings)}${options.date}${size}`));
  return new Uint8Array(doc.output('arraybuffer'));
}

/** One table under the last; returns where the next may begin. */
function drawTable(pen: Pen, table: Table, from: number, w: number, h: number, begun: (page: number) => void): number {
  const { doc } = pen;
  const edge = BORDER_mm + 3;
  const foot = BORDER_mm + STRIP_mm + 3;
  let y = from;
  // A head alone at the foot of a sheet says nothing: keep room for the head row and a few lines.
  if (y + 40 > h - foot) {
    doc.addPage([w, h], w > h ? 'landscape' : 'portrait');
    y = BORDER_mm + 5;
  }
  begun(doc.getNumberOfPages());
  pen.text(table.title, edge, y + HEAD_mm * 0.8, HEAD_mm, 600);
  y += HEAD_mm + 2.5;
  if (table.rows.length === 0) {
    pen.text(table.empty, edge, y + 3.2, TEXT_mm);
    return y + 12;
  }
  const room = w - 2 * edge;
  const fixed = table.columns.reduce((sum, each) => sum + (each.w ?? 0), 0);
  const shares = table.columns.reduce((sum, each) => sum + (each.grow ?? 0), 0);
  const columnStyles = Object.fromEntries(
    table.columns.map((each, i) => [
      i,
      { cellWidth: each.w ?? ((room - fixed) * (each.grow ?? 1)) / shares, halign: each.right ? ('right' as const) : ('left' as const) },
    ]),
  );
  let end = y;
  autoTable(doc, {
    startY: y,
    theme: 'plain',
    margin: { left: edge, right: edge, top: BORDER_mm + 5, bottom: foot },
    tableWidth: room,
    head: [
      table.columns.map((each) => ({
        content: pen.safe(each.head),
        styles: { halign: each.right ? ('right' as const) : ('left' as const) },
      })),
    ],
    body: table.rows.map((row) => row.map((each) => pen.safe(each))),
    showHead: 'everyPage',
    rowPageBreak: 'avoid',
    styles: {
      font: FACE,
      fontStyle: 'normal',
      fontSize: TEXT_mm * PT,
      textColor: '#1C2225',
      cellPadding: { top: 1, bottom: 1, left: 1.2, right: 1.2 },
      overflow: 'linebreak',
      lineWidth: { bottom: 0.18 },
      lineColor: '#80827B',
      valign: 'top',
    },
    headStyles: { font: FACE, fontStyle: 'bold', valign: 'bottom', lineWidth: { bottom: 0.5 }, lineColor: '#1C2225' },
    columnStyles,
    didParseCell: (data) => {
      if (data.section === 'body' && data.column.index === table.verdictColumn) {
        data.cell.styles.fontStyle = 'bold';
        data.cell.styles.cellPadding = { top: 1, bottom: 1, left: 6.2, right: 0.5 };
      }
    },
    didDrawCell: (data) => {
      if (data.section !== 'body' || data.column.index !== table.verdictColumn) return;
      const verdict = (Object.keys(VERDICT_WORD) as (keyof typeof VERDICT_WORD)[]).find((each) => VERDICT_WORD[each] === data.cell.raw);
      const { x, y: top, width, height } = data.cell;
      if (verdict) pen.draw(translate(badge(verdict), x + 3.4, top + 3.3), 0, 0, { x, y: top, w: width, h: height });
    },
    didDrawPage: (data) => {
      end = data.cursor?.y ?? end;
    },
  });
  return end + 8;
}
