import { MAKER, PROGRAM } from '../lineup/maker.ts';
import type { Project } from '../lineup/project.ts';
import type { Pen } from './pen.ts';
import { BORDER_mm, besideTitle_mm, STRIP_mm, TITLE_H_mm, TITLE_W_mm } from './sheet.ts';

/** Border with zones, title block (fields after ISO 7200, from memory) and the short strip of the sheets that follow. */

export interface SheetFacts {
  readonly project: Project;
  readonly date: string;
  readonly size: string;
  readonly kind: string;
  readonly number: number;
  readonly total: number;
  readonly w: number;
  readonly h: number;
}

export function drawBorder(pen: Pen, { w, h }: SheetFacts): void {
  const b = BORDER_mm;
  pen.frame(b, b, w - 2 * b, h - 2 * b, 0.7);
  const columns = w > h ? 8 : 4;
  const rows = w > h ? 4 : 6;
  for (let i = 0; i < columns; i++) {
    const x = b + ((w - 2 * b) * i) / columns;
    const middle = x + (w - 2 * b) / columns / 2;
    for (const [from, to, base] of [
      [b - 5, b, b - 3],
      [h - b, h - b + 5, h - b + 6],
    ] as const) {
      if (i > 0) pen.line(x, from, x, to, 0.35);
      pen.text(`${columns - i}`, middle, base, 3.8, 400, 'middle');
    }
  }
  for (let i = 0; i < rows; i++) {
    const y = b + ((h - 2 * b) * i) / rows;
    const middle = y + (h - 2 * b) / rows / 2;
    for (const [from, to, base] of [
      [b - 5, b, b - 6],
      [w - b, w - b + 5, w - b + 6],
    ] as const) {
      if (i > 0) pen.line(from, y, to, y, 0.35);
      pen.text('ABCDEF'[rows - 1 - i] ?? '', base, middle + 1.3, 3.8, 400, 'middle');
    }
  }
}

interface Cell {
  readonly label: string;
  readonly value: string;
  readonly w: number;
  readonly bold?: boolean;
}

export function drawTitleBlock(pen: Pen, facts: SheetFacts): void {
  const { project, w, h } = facts;
  const rows: readonly (readonly Cell[])[] = [
    [
      cell('Owner', project.owner, 66),
      cell('Created by', project.createdBy, 38),
      cell('Checked by', project.checkedBy, 38),
      cell('Approved by', project.approvedBy, 38),
    ],
    [{ ...cell('Title', project.title, 104), bold: true }, cell('Document type', facts.kind, 38), cell('Status', project.status, 38)],
    [
      { ...cell('Identification number', project.number, 54), bold: true },
      cell('Revision', project.revision, 20),
      cell('Date of issue', facts.date, 32),
      cell('Lang', 'en', 12),
      cell('Size', facts.size, 22),
      { ...cell('Sheet', `${facts.number} of ${facts.total}`, 40), bold: true },
    ],
  ];
  const left = w - BORDER_mm - TITLE_W_mm;
  const top = h - BORDER_mm - TITLE_H_mm;
  pen.line(left, top, w - BORDER_mm, top, 0.7);
  pen.line(left, top, left, h - BORDER_mm, 0.7);
  const rowHeight = TITLE_H_mm / rows.length;
  rows.forEach((row, i) => {
    const y = top + i * rowHeight;
    if (i > 0) pen.line(left, y, w - BORDER_mm, y, 0.35);
    let x = left;
    row.forEach((each, column) => {
      if (column > 0) pen.line(x, y, x, y + rowHeight, 0.35);
      pen.fitted(each.label, x + 1.5, y + 4.4, each.w - 2, 3.8);
      pen.fitted(each.value, x + 1.5, y + 10.8, each.w - 2.5, each.bold ? 4.8 : 4.2, each.bold ? 600 : 400);
      x += each.w;
    });
  });
  const room = besideTitle_mm({ w });
  if (room !== null)
    pen.fitted(
      `${MAKER}. A design aid: local code, authority and engineer of record decide.`,
      BORDER_mm + 2,
      h - BORDER_mm - 2.5,
      room,
      3.8,
    );
  else pen.text(PROGRAM, BORDER_mm + 2, top - 2.5, 3.8);
}

const cell = (label: string, value: string | undefined, w: number): Cell => ({ label, value: value ?? '', w });

export function drawStrip(pen: Pen, facts: SheetFacts): void {
  const { project, w, h } = facts;
  const left = BORDER_mm;
  const right = w - BORDER_mm;
  const top = h - BORDER_mm - STRIP_mm;
  pen.line(left, top, right, top, 0.7);
  const wide = w > 300;
  const cells: readonly Cell[] = wide
    ? [
        cell('Title', project.title, 0),
        cell('Document type', facts.kind, 66),
        cell('Created by', project.createdBy, 32),
        cell('Checked by', project.checkedBy, 32),
        cell('Identification number', project.number, 44),
        cell('Revision', project.revision, 22),
        cell('Date', facts.date, 30),
        cell('Made with', PROGRAM, 40),
        cell('Sheet', `${facts.number} of ${facts.total}`, 28),
      ]
    : [
        cell('Title', project.title, 0),
        cell('Number', project.number, 32),
        cell('Revision', project.revision, 20),
        cell('Made with', PROGRAM, 36),
        cell('Sheet', `${facts.number} of ${facts.total}`, 24),
      ];
  const rest = right - left - cells.reduce((sum, each) => sum + each.w, 0);
  let x = left;
  cells.forEach((each, i) => {
    const width = each.w || rest;
    if (i > 0) pen.line(x, top, x, h - BORDER_mm, 0.35);
    pen.fitted(each.label, x + 1.5, top + 4.6, width - 2, 3.8);
    pen.fitted(each.value, x + 1.5, top + 10.2, width - 2.5, 4.2, 600);
    x += width;
  });
}
