import { strToU8 } from 'fflate';
import { harmless } from '../lineup/cellGuard.ts';
import type { Cell, Schedule } from './schedules.ts';

/** A schedule as comma-separated values (RFC 4180): UTF-8 with its mark, so that a spreadsheet reads µ and ² right. Text that looks like a formula is guarded; numbers are never touched. */

const cell = (value: Cell): string => {
  if (value === null) return '';
  if (typeof value === 'number') return `${value}`;
  const safe = harmless(value);
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
};

export const csvOf = ({ heads, rows }: Schedule): Uint8Array =>
  strToU8(`\ufeff${[heads, ...rows].map((row) => `${row.map(cell).join(',')}\r\n`).join('')}`);
