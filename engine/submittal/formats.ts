import { strToU8 } from 'fflate';
import type { Review } from '../checks/solved.ts';
import { memory } from '../drawing/memory.ts';
import { svgOf } from '../drawing/svg.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import type { DecidingUnknown } from '../sizing/decidingUnknowns.ts';
import { issuedText } from './issuedText.ts';
import { packageDrawing } from './packageDrawing.ts';
import type { Fonts } from './pen.ts';
import { schedulesOf } from './schedules.ts';
import { type SheetKind, usualSheets } from './sections.ts';
import { zipped } from './zipped.ts';

export { type Block, type Picture, type Table, writtenColumns } from './content.ts';
export { landingWords } from './ends.ts';
export { fieldSheet } from './fieldSheet.ts';
export { EVERY_SHEET, SHEET_KINDS, type SheetKind, usualSheets } from './sections.ts';

/** The package in every form it can be handed over in. Each writer is fetched only when it is asked for. */

export const FORMATS = {
  pdf: 'The set of sheets',
  html: 'The report, for screens and screen readers',
  xlsx: 'The schedules as a workbook',
  csv: 'The schedules as plain tables',
  svg: 'The one-line as a picture',
  dxf: 'The one-line for a drawing program',
  json: 'The line-up as issued, without what is kept beside it',
} as const;
export type Format = keyof typeof FORMATS;
const ENDINGS = Object.keys(FORMATS) as readonly Format[];

/** How far the set of sheets is, while it is written. */
export interface Step {
  /** The section that comes next. */
  readonly what: string;
  readonly done: number;
  readonly of: number;
}
export interface Package {
  readonly lineUp: LineUp;
  readonly review: Review;
  /** Day of issue, '2026-11-25'. */
  readonly date: string;
  readonly fonts: () => Promise<Fonts>;
  /** Sheets of the set and of the report; the usual ones where nothing is said, and the field sheets in the report. */
  readonly sheets?: readonly SheetKind[] | undefined;
  /** The line-up as it was issued before, where it is not the last issue in the document: what changed is clouded and listed. */
  readonly against?: LineUp | undefined;
  readonly onStep?: (step: Step) => void;
}
export interface Written {
  /** What comes after the name of the line-up: '.pdf', '.cables.csv'. */
  readonly ending: string;
  readonly bytes: Uint8Array;
}

/** Every value that nobody vouches for is tried at many places, and each time all is judged: on more parts than these that takes longer than the rest of the package. */
const MOST_PARTS = 16;
const remembered = memory<Promise<readonly DecidingUnknown[]>>();

async function decidingOf(lineUp: LineUp, sheets: readonly SheetKind[]): Promise<readonly DecidingUnknown[]> {
  if (!sheets.includes('open') || lineUp.elements.length > MOST_PARTS) return [];
  const { decidingUnknowns } = await import('../sizing/decidingUnknowns.ts');
  return remembered(lineUp, [], () => decidingUnknowns(lineUp));
}

const drawn = ({ lineUp, review, against }: Package) => packageDrawing(lineUp, review, against);

export async function write(format: Format, facts: Package): Promise<readonly Written[]> {
  const one = (bytes: Uint8Array): readonly Written[] => [{ ending: `.${format}`, bytes }];
  switch (format) {
    case 'pdf': {
      const { submittalPdf } = await import('./pdf.ts');
      const { lineUp, review, date, against, onStep, sheets = usualSheets(lineUp, review, against) } = facts;
      const deciding = await decidingOf(lineUp, sheets);
      return one(submittalPdf(lineUp, review, { fonts: await facts.fonts(), date, sheets, against, deciding, onStep }));
    }
    case 'html': {
      const { htmlOf } = await import('./html.ts');
      const { lineUp, review, date, against, sheets = [...usualSheets(lineUp, review, against), 'field'] } = facts;
      return one(htmlOf(lineUp, review, { date, sheets, against, deciding: await decidingOf(lineUp, sheets) }));
    }
    case 'xlsx':
      return one((await import('./xlsx.ts')).xlsxOf(schedulesOf(facts.lineUp, facts.review)));
    case 'csv': {
      const { csvOf } = await import('./csv.ts');
      return schedulesOf(facts.lineUp, facts.review).map((each) => ({ ending: `.${each.slug}.csv`, bytes: csvOf(each) }));
    }
    case 'svg': {
      const { items, x_mm, y_mm, width_mm, height_mm } = drawn(facts);
      return one(strToU8(svgOf(items, { x: x_mm, y: y_mm, w: width_mm, h: height_mm })));
    }
    case 'dxf':
      return one((await import('./dxf.ts')).dxfOf(drawn(facts)));
    case 'json':
      // Not under the name of the document, which holds more.
      return [{ ending: '.issued.json', bytes: strToU8(issuedText(facts.lineUp)) }];
  }
}

export async function writeAll(facts: Package): Promise<readonly Written[]> {
  const written: Written[] = [];
  for (const format of ENDINGS) written.push(...(await write(format, facts)));
  return written;
}

/** One file to hand over, where a form is several. */
export function bundled(format: Format, written: readonly Written[]): Written {
  const [first] = written;
  if (first && written.length === 1) return first;
  const files = Object.fromEntries(written.map(({ ending, bytes }) => [ending.slice(1), bytes]));
  return { ending: `.${format}.zip`, bytes: zipped(files) };
}
