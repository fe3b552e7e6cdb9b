import { autoTable } from 'jspdf-autotable';
import type { Review } from '../checks/solved.ts';
import { type Item, translate } from '../drawing/displayList.ts';
import { extent, meets } from '../drawing/extent.ts';
import { legend } from '../drawing/legend.ts';
import { badge } from '../drawing/marks.ts';
import { oneLine } from '../drawing/oneLine.ts';
import { CHART, TURNS, waveCharts } from '../drawing/wavePicture.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import type { SheetSize } from '../lineup/project.ts';
import { save } from '../lineup/save.ts';
import { waveformOf } from '../review/waveform.ts';
import { CAUTION, NOT_COVERED } from './deferral.ts';
import { fileId, pdfDate } from './fileId.ts';
import { drawBorder, drawStrip, drawTitleBlock, type SheetFacts } from './frame.ts';
import { matchesOf } from './matches.ts';
import { FACE, type Fonts, Pen, PT } from './pen.ts';
import { areas, BORDER_mm, chooseSheet, fits, SHEETS, STRIP_mm, TITLE_W_mm } from './sheet.ts';
import {
  assumptionsTable,
  cableSchedule,
  equipmentList,
  findingsTable,
  notJudgedTable,
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
const RING_mm = 3.4;

/** A letter in a ring: the one-line goes on at the same letter elsewhere. */
const ring = (letter: string): readonly Item[] => [
  { t: 'circle', x: 0, y: 0, r: RING_mm - 0.2, weight_mm: 0.35, ink: 'ink', fill: 'canvas' },
  { t: 'text', x: 0, y: 1.25, text: letter, size_mm: TEXT_mm, weight: 600, anchor: 'middle', ink: 'ink' },
];

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
  const matches = matchesOf(drawing, tiles);
  const tags = new Map([...lineUp.elements, ...lineUp.cables].map((part) => [part.id, part.tag] as const));
  const key = legend(lineUp, review, true);
  const keyBox = extent(key);
  let keyed = key.length === 0;
  tiles.forEach((tile, index) => {
    if (index > 0) doc.addPage([w, h], w > h ? 'landscape' : 'portrait');
    kinds.push('One-line');
    const left = area.x + (area.w - tile.w) / 2;
    const top = area.y + Math.max(0, Math.min((area.h - tile.h) / 2, 12));
    const shown = drawing.items.filter((item) => meets(extent([item]), tile));
    pen.draw(shown, left - tile.x, top - tile.y, { x: left - 0.5, y: top - 0.5, w: tile.w + 1, h: tile.h + 1 });
    const spot = { x: BORDER_mm + 5, y: h - BORDER_mm - 8 - keyBox.h, w: keyBox.w, h: keyBox.h };
    const beside_mm = w - BORDER_mm - TITLE_W_mm - BORDER_mm;
    if (tiles.length > 1) {
      // Where it goes on stands at the foot, left of the title block, above the legend of the first sheet; on narrow sheets at the head.
      const count = matches.filter((each) => each.from === index || each.to === index).length;
      const foot = index === 0 && !keyed ? spot.y - 3 : h - BORDER_mm - 8;
      const listTop = beside_mm > 60 ? foot - 5 * (count - 1) : BORDER_mm + 12;
      pen.text(`Part ${index + 1} of ${tiles.length} of the one-line`, BORDER_mm + 4, BORDER_mm + 6, TEXT_mm, 600);
      matches
        .filter((each) => each.from === index || each.to === index)
        .forEach((each, row) => {
          const here = each.from === index;
          // The ring stands wholly on its own side of the cut.
          const x = Math.min(Math.max(each.x, tile.x + RING_mm), tile.x + tile.w - RING_mm) + left - tile.x;
          const y = Math.min(Math.max(each.y, tile.y + RING_mm), tile.y + tile.h - RING_mm) + top - tile.y;
          pen.draw(ring(each.letter), x, y, { x: 0, y: 0, w, h });
          const sheet = (here ? each.to : each.from) + 1;
          pen.text(
            `${each.letter}: ${tags.get(each.partId) ?? ''} ${here ? 'goes on at' : 'comes from'} sheet ${sheet}`,
            BORDER_mm + 4,
            listTop + 5 * row,
            TEXT_mm,
          );
        });
    }
    // The legend stands at the foot, left of the title block, where the drawing leaves it room.
    const free = spot.y > top + tile.h || spot.x + spot.w + 4 < left;
    if (index === 0 && key.length > 0 && free && spot.w + 7 < beside_mm) {
      pen.draw(key, spot.x - keyBox.x, spot.y - keyBox.y, { x: 0, y: 0, w, h });
      keyed = true;
    }
  });
  outline('One-line', 1);

  const wide = w > 300;
  const groups: readonly (readonly [string, readonly Table[]])[] = [
    ['Findings', [findingsTable(lineUp, review, wide), passesTable(review), notJudgedTable(review)]],
    ['Schedules', [cableSchedule(lineUp, review, wide), equipmentList(lineUp, review)]],
    ['Assumptions, open items', [openItems(review), assumptionsTable(review), switchedOff(lineUp), NOT_COVERED, CAUTION]],
  ];
  doc.addPage([w, h], w > h ? 'landscape' : 'portrait');
  let y = BORDER_mm + 5;
  for (const [kind, tables] of groups) {
    if (!keyed) {
      pen.text('Marks on the one-line', BORDER_mm + 3, y + HEAD_mm * 0.8, HEAD_mm, 600);
      pen.draw(key, BORDER_mm + 5 - keyBox.x, y + HEAD_mm + 5 - keyBox.y, { x: 0, y: 0, w, h });
      y += HEAD_mm + keyBox.h + 12;
      keyed = true;
    }
    for (const table of tables) {
      y = drawTable(pen, table, y, w, h, (page) => outline(table.title, page));
    }
    while (kinds.length < doc.getNumberOfPages()) kinds.push(kind);
  }

  y = drawWaves(pen, lineUp, review, y, w, h, (page) => outline('Waves at the motors', page));
  while (kinds.length < doc.getNumberOfPages()) kinds.push('Waves');

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

/** The charts of every run whose wave was solved, side by side where the sheet is wide enough; returns where the next may begin. */
function drawWaves(pen: Pen, lineUp: LineUp, review: Review, from: number, w: number, h: number, begun: (page: number) => void): number {
  const edge = BORDER_mm + 3;
  const foot = BORDER_mm + STRIP_mm + 3;
  const aRow = Math.max(1, Math.floor((w - 2 * edge) / (CHART.w + 6)));
  const waves = review.runs.flatMap((run) => {
    const wave = waveformOf(lineUp, run);
    return wave ? [{ wave, motorId: run.motorId }] : [];
  });
  const charts = waves.flatMap(({ wave, motorId }) =>
    waveCharts(wave, review.findings.find((each) => each.id === `motor-peak-voltage/element/${motorId}`)?.limit ?? null),
  );
  const words = waves.some(({ wave }) => wave.turn_s !== null) ? TURNS : [];
  const head = HEAD_mm + 4 + words.length * 5;
  let y = from;
  charts.forEach((items, i) => {
    const column = i % aRow;
    if (column === 0 && y + CHART.h + (i === 0 ? head : 0) > h - foot) {
      pen.doc.addPage([w, h], w > h ? 'landscape' : 'portrait');
      y = BORDER_mm + 5;
    }
    if (i === 0) {
      begun(pen.doc.getNumberOfPages());
      pen.text('Waves at the motors', edge, y + HEAD_mm * 0.8, HEAD_mm, 600);
      words.forEach((each, line) => {
        pen.text(each, edge, y + HEAD_mm + 4 + line * 5, TEXT_mm, 400);
      });
      y += head;
    }
    pen.draw(items, edge + column * (CHART.w + 6), y, { x: 0, y: 0, w, h });
    if (column === aRow - 1 || i === charts.length - 1) y += CHART.h + 4;
  });
  return y;
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
  if (table.intro) {
    const lines = pen.wrapped(table.intro, w - 2 * edge, TEXT_mm);
    for (const [i, line] of lines.entries()) pen.text(line, edge, y + 3.2 + 5 * i, TEXT_mm);
    y += 5 * lines.length + 2;
  }
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
      cellPadding: { top: 1, bottom: 1, left: 1.2, right: 2.6 },
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
