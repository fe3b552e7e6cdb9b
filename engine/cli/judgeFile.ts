import { readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { type LineUp, leastCopper, load, review } from '../index.ts';
import { write, writeAll } from '../submittal/formats.ts';
import type { SheetKind } from '../submittal/sections.ts';
import { put } from './put.ts';
import { type Report, reportOf } from './report.ts';

/** One file judged and, where asked for, its package written. Plain data in and out, so that it can be done on any thread. */

export interface Job {
  readonly file: string;
  readonly basis: 'us' | 'iec' | null;
  /** Whether the least copper is sought; mostSets null: no more than are drawn. */
  readonly sizing: { readonly mostSets: number | null } | null;
  /** Name of the PDF to write. */
  readonly pdf: string | null;
  /** Folder to write the whole package into. */
  readonly folder: string | null;
  /** Null for the usual ones. */
  readonly sheets: readonly SheetKind[] | null;
  /** The file of the earlier issue, to show what changed. */
  readonly against: string | null;
}
export interface Judged {
  /** Null where the file could not be read. */
  readonly report: Report | null;
  readonly complaints: readonly string[];
  /** 0 nothing fails, 1 something fails, 2 bad input or place to write, 3 a fault of our own. */
  readonly exit: 0 | 1 | 2 | 3;
  /** How many files were written. */
  readonly written: number;
}

const font = (name: string): Uint8Array => readFileSync(fileURLToPath(new URL(`../../public/fonts/${name}`, import.meta.url)));
const fonts = async () => ({ regular: font('sans-400.woff'), semibold: font('sans-600.woff') });

/** Name of a line-up in its package: that of its file. */
export const stem = (file: string): string => basename(file).replace(/\.json$/i, '');

const refused = (exit: 2 | 3, ...complaints: readonly string[]): Judged => ({ report: null, complaints, exit, written: 0 });

/** Never throws: what goes wrong with one file leaves the others alone. */
export async function judgeFile(job: Job): Promise<Judged> {
  try {
    return await judged(job);
  } catch (fault) {
    const told = fault instanceof Error ? (fault.stack ?? fault.message) : String(fault);
    return refused(3, `${job.file}: internal fault`, ...told.split('\n'));
  }
}

/** The line-up of a file, or what is wrong with it. */
function open(file: string): LineUp | string {
  let text: string;
  try {
    text = readFileSync(file, 'utf8');
  } catch {
    return `${file}: it cannot be read. Check the name and that you may read it.`;
  }
  const loaded = load(text, basename(file));
  return loaded.ok ? loaded.lineUp : `${loaded.where}: ${loaded.what}. ${loaded.mend}`;
}

async function judged({ file, basis, sizing, pdf, folder, sheets, against }: Job): Promise<Judged> {
  const opened = open(file);
  const before = against === null ? undefined : open(against);
  if (typeof opened === 'string') return refused(2, opened);
  if (typeof before === 'string') return refused(2, before);
  const lineUp = basis ? { ...opened, project: { ...opened.project, basis } } : opened;
  const result = review(lineUp);
  const facts = {
    lineUp,
    review: result,
    date: lineUp.project.date ?? new Date().toISOString().slice(0, 10),
    fonts,
    sheets: sheets ?? undefined,
    against: before,
  };
  const asked = [
    ...(pdf === null ? [] : (await write('pdf', facts)).map(({ bytes }) => [pdf, bytes] as const)),
    ...(folder === null
      ? []
      : (await writeAll(facts)).map(({ ending, bytes }) => [join(folder, `${stem(file)}${ending}`), bytes] as const)),
  ];
  const sized = sizing && (await leastCopper(lineUp, sizing.mostSets === null ? {} : { mostSets: sizing.mostSets }));
  const failed = asked.filter(([path, bytes]) => !put(path, bytes));
  return {
    report: reportOf(file, lineUp, result, sized),
    complaints: failed.map(([path]) => `${path}: it cannot be written. Check that the folder exists and that you may write there.`),
    exit: failed.length > 0 ? 2 : result.counts.fail > 0 ? 1 : 0,
    written: asked.length - failed.length,
  };
}
