import { strToU8 } from 'fflate';
import type { Cell, Schedule } from './schedules.ts';

/** A schedule as comma-separated values (RFC 4180): UTF-8 with its mark, so that a spreadsheet reads µ and ² right. */

/** What a spreadsheet would take for a formula, full-width forms too; a leading tab or line end hides one. */
const FORMULA = /^[=+\-@\t\r\n＝＋－＠]/u;

/** Text that looks like a formula gets an apostrophe ahead and stays text; numbers are never touched. */
export const harmless = (text: string): string => (FORMULA.test(text) ? `'${text}` : text);

const cell = (value: Cell): string => {
  if (value === null) return '';
  if (typeof value === 'number') return `${value}`;
  const safe = harmless(value);
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
};

export const csvOf = ({ heads, rows }: Schedule): Uint8Array =>
  strToU8(`\ufeff${[heads, ...rows].map((row) => `${row.map(cell).join(',')}\r\n`).join('')}`);
