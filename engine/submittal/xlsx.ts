import { strToU8 } from 'fflate';
import { escaped } from '../drawing/xml.ts';
import { harmless } from '../lineup/cellGuard.ts';
import type { Cell, Schedule } from './schedules.ts';
import { zipped } from './zipped.ts';

/** The schedules as one workbook, a sheet each: heads bold and kept in sight, no formulas, no links, the same bytes every time. */

const XML = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>';
const MAIN = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
const OFFICE = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
const PACKAGE = 'http://schemas.openxmlformats.org/package/2006';
const TYPE = 'application/vnd.openxmlformats-officedocument.spreadsheetml';

const letters = (column: number): string =>
  (column < 26 ? '' : letters(Math.floor(column / 26) - 1)) + String.fromCharCode(65 + (column % 26));

function cell(value: Cell, column: number, row: number, head: boolean): string {
  if (value === null) return '';
  const place = `r="${letters(column)}${row}"${head ? ' s="1"' : ''}`;
  if (typeof value === 'number') return `<c ${place}><v>${value}</v></c>`;
  // A spreadsheet reads _x0041_ as a letter by its number: the line ahead of such a thing is written so itself.
  const text = harmless(value).replace(/_(?=x[0-9A-Fa-f]{4}_)/g, '_x005F_');
  return `<c ${place} t="inlineStr"><is><t xml:space="preserve">${escaped(text)}</t></is></c>`;
}

const row = (cells: readonly Cell[], number: number): string =>
  `<row r="${number}">${cells.map((each, i) => cell(each, i, number, number === 1)).join('')}</row>`;

/** As wide as its longest text, within reason. */
function widths({ heads, rows }: Schedule): string {
  const columns = heads.map((head, i) => {
    const longest = Math.max(head.length, ...rows.map((each) => `${each[i] ?? ''}`.length));
    return `<col min="${i + 1}" max="${i + 1}" width="${Math.min(60, longest + 2)}" customWidth="1"/>`;
  });
  return `<cols>${columns.join('')}</cols>`;
}

const sheet = (each: Schedule): string =>
  `${XML}<worksheet xmlns="${MAIN}"><sheetViews><sheetView workbookViewId="0"><pane ySplit="1" topLeftCell="A2" activePane="bottomLeft" state="frozen"/></sheetView></sheetViews>${widths(each)}<sheetData>${[each.heads, ...each.rows].map((cells, i) => row(cells, i + 1)).join('')}</sheetData></worksheet>`;

const STYLES = `${XML}<styleSheet xmlns="${MAIN}"><fonts count="2"><font><sz val="11"/><name val="Calibri"/></font><font><b/><sz val="11"/><name val="Calibri"/></font></fonts><fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills><borders count="1"><border/></borders><cellStyleXfs count="1"><xf/></cellStyleXfs><cellXfs count="2"><xf xfId="0"/><xf xfId="0" fontId="1" applyFont="1"/></cellXfs></styleSheet>`;

export function xlsxOf(schedules: readonly Schedule[]): Uint8Array {
  const parts: Record<string, string> = {
    '[Content_Types].xml': `${XML}<Types xmlns="${PACKAGE}/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/><Override PartName="/xl/workbook.xml" ContentType="${TYPE}.sheet.main+xml"/><Override PartName="/xl/styles.xml" ContentType="${TYPE}.styles+xml"/>${schedules.map((_, i) => `<Override PartName="/xl/worksheets/sheet${i + 1}.xml" ContentType="${TYPE}.worksheet+xml"/>`).join('')}</Types>`,
    '_rels/.rels': `${XML}<Relationships xmlns="${PACKAGE}/relationships"><Relationship Id="rId1" Type="${OFFICE}/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
    'xl/workbook.xml': `${XML}<workbook xmlns="${MAIN}" xmlns:r="${OFFICE}"><sheets>${schedules.map((each, i) => `<sheet name="${escaped(each.title)}" sheetId="${i + 1}" r:id="rId${i + 1}"/>`).join('')}</sheets></workbook>`,
    'xl/_rels/workbook.xml.rels': `${XML}<Relationships xmlns="${PACKAGE}/relationships">${schedules.map((_, i) => `<Relationship Id="rId${i + 1}" Type="${OFFICE}/worksheet" Target="worksheets/sheet${i + 1}.xml"/>`).join('')}<Relationship Id="rId${schedules.length + 1}" Type="${OFFICE}/styles" Target="styles.xml"/></Relationships>`,
    'xl/styles.xml': STYLES,
  };
  schedules.forEach((each, i) => {
    parts[`xl/worksheets/sheet${i + 1}.xml`] = sheet(each);
  });
  return zipped(Object.fromEntries(Object.entries(parts).map(([name, text]) => [name, strToU8(text)])));
}
