import { mkdirSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { CHECKS, load, type Review, review, sourcesMarkdown, sourcesPage } from '../index.ts';
import { EVERY_SHEET, type SheetKind } from '../submittal/sections.ts';
import { type Report, stem } from './judgeFile.ts';
import { judgeFiles } from './judgeFiles.ts';
import { sizingText } from './sizingReport.ts';

/** check FILE... | --list | --docs. Exit 0 nothing fails, 1 something fails, 2 bad input or usage, 3 internal fault. */

const USAGE =
  'usage: npm run --silent check -- FILE... [--json] [--basis us|iec] [--least-copper [--sets N]] [--pdf OUT] [--package DIR] [--sheets NAME,NAME] [--against OLD] | --list [--json] | --docs';

/** Control and direction-changing characters out: text from a file never drives a terminal. */
const printable = (text: string): string => text.replace(/[\u0000-\u001f\u007f-\u009f\u200e\u200f\u202a-\u202e\u2066-\u2069]/gu, '');
const print = (line: string): void => void process.stdout.write(`${printable(line)}\n`);
const complain = (...lines: readonly string[]): void => void process.stderr.write(lines.map((line) => `${printable(line)}\n`).join(''));
/** Line by line: what JSON itself does not escape is taken out, its own line ends stay. */
const printJson = (value: unknown): void => JSON.stringify(value, null, 2).split('\n').forEach(print);

interface Options {
  readonly files: readonly string[];
  readonly json: boolean;
  readonly list: boolean;
  readonly docs: boolean;
  readonly basis: 'us' | 'iec' | null;
  readonly leastCopper: boolean;
  /** Most sets in parallel that may be proposed; null for no more than are drawn. */
  readonly sets: number | null;
  readonly pdf: string | null;
  readonly folder: string | null;
  readonly sheets: readonly SheetKind[] | null;
  readonly against: string | null;
}

function readOptions(args: readonly string[]): Options | string {
  const files: string[] = [];
  let [json, list, docs, least] = [false, false, false, false];
  let sets: number | null = null;
  let basis: Options['basis'] = null;
  let pdf: string | null = null;
  let folder: string | null = null;
  let sheets: readonly SheetKind[] | null = null;
  let against: string | null = null;
  for (let i = 0; i < args.length; i++) {
    const arg = args[i] ?? '';
    if (arg === '--json') json = true;
    else if (arg === '--list') list = true;
    else if (arg === '--docs') docs = true;
    else if (arg === '--least-copper') least = true;
    else if (arg === '--sets') {
      sets = Number(args[++i]);
      if (!Number.isInteger(sets) || sets < 1 || sets > 20) return '--sets takes a number from 1 to 20';
    } else if (arg === '--basis') {
      const value = args[++i];
      if (value !== 'us' && value !== 'iec') return '--basis takes us or iec';
      basis = value;
    } else if (arg === '--pdf') {
      const value = args[++i];
      if (value === undefined || value.startsWith('--')) return '--pdf takes the name of the file to write';
      pdf = value;
    } else if (arg === '--package') {
      const value = args[++i];
      if (value === undefined || value.startsWith('--')) return '--package takes the folder to write into';
      folder = value;
    } else if (arg === '--against') {
      const value = args[++i];
      if (value === undefined || value.startsWith('--')) return '--against takes the file of the earlier issue';
      against = value;
    } else if (arg === '--sheets') {
      const named = (args[++i] ?? '').split(',');
      const unknown = named.find((each) => !EVERY_SHEET.some((kind) => kind === each));
      if (unknown !== undefined) return `--sheets takes names of sheets with commas between: ${EVERY_SHEET.join(',')}`;
      sheets = EVERY_SHEET.filter((each) => named.includes(each));
    } else if (arg.startsWith('-')) return `${arg} is not an option`;
    else files.push(arg);
  }
  if (!list && !docs && files.length === 0) return 'no file is named';
  if (sets !== null && !least) return '--sets goes with --least-copper';
  if (pdf !== null && files.length > 1) return '--pdf takes one line-up at a time';
  const twice = folder === null ? undefined : files.map(stem).find((name, i, names) => names.indexOf(name) !== i);
  if (twice !== undefined) return `two files are called ${twice}: their packages would overwrite each other`;
  if (sheets !== null && pdf === null && folder === null) return '--sheets goes with --pdf or --package';
  if (against !== null && (files.length > 1 || (pdf === null && folder === null)))
    return '--against takes one line-up, with --pdf or --package';
  return { files, json, list, docs, basis, leastCopper: least, sets, pdf, folder, sheets, against };
}

function asText({ file, verdict, counts, rules, findings, sizing }: Report): void {
  print(
    `${file}: ${verdict.toUpperCase()}  ${counts.fail} fail, ${counts.open} open, ${counts.caution} caution, ${counts.note} note, ${counts.pass} pass`,
  );
  if (rules !== '') print(`  ${rules}`);
  for (const each of findings) {
    if (each.verdict === 'not-applicable') continue;
    print(
      `  ${each.verdict.padEnd(12)} ${each.subject.tag.padEnd(8)} ${each.check.padEnd(20)} ${each.text} [${each.authority}: ${each.source}]`,
    );
  }
  if (sizing) sizingText(sizing).forEach(print);
}

/** The worked line-ups, whose findings serve as examples. */
function examples(): readonly Review[] {
  const folder = fileURLToPath(new URL('../../examples', import.meta.url));
  return readdirSync(folder)
    .sort()
    .flatMap((name) => {
      const loaded = load(readFileSync(join(folder, name), 'utf8'), name);
      return loaded.ok ? [review(loaded.lineUp)] : [];
    });
}

async function main(args: readonly string[]): Promise<number> {
  const options = readOptions(args);
  if (typeof options === 'string') {
    complain(options, USAGE);
    return 2;
  }
  if (options.list) {
    if (options.json) printJson(CHECKS.map(({ slug, title, authority, source }) => ({ slug, title, authority, source })));
    else
      for (const { slug, title, authority, source } of CHECKS)
        print(`${slug.padEnd(20)} ${title.padEnd(30)} ${authority.padEnd(10)} ${source}`);
    return 0;
  }
  if (options.docs) {
    sourcesMarkdown(sourcesPage(examples())).split('\n').forEach(print);
    return 0;
  }
  const { files, basis, leastCopper, sets, pdf, folder, sheets, against } = options;
  if (folder !== null)
    try {
      mkdirSync(folder, { recursive: true });
    } catch {
      complain(`${folder}: this folder cannot be made. Check that you may write there.`);
      return 2;
    }
  let ready = 0;
  const judged = await judgeFiles(
    files.map((file) => ({ file, basis, sizing: leastCopper ? { mostSets: sets } : null, pdf, folder, sheets, against })),
    ({ file }, { report, written }) => {
      ready++;
      if (folder !== null) complain(`${ready} of ${files.length}: ${file}: ${report ? `${written} files written` : 'not judged'}`);
    },
  );
  const reports = judged.flatMap((each) => each.report ?? []);
  complain(...judged.flatMap((each) => each.complaints));
  if (options.json) printJson(reports);
  else reports.forEach(asText);
  return Math.max(...judged.map((each) => each.exit));
}

// A reader that has seen enough (head, less) closes the pipe: that is no fault.
process.stdout.on('error', (fault: NodeJS.ErrnoException) => {
  if (fault.code !== 'EPIPE') throw fault;
  process.exit();
});

try {
  process.exitCode = await main(process.argv.slice(2));
} catch (fault) {
  complain(...`internal fault: ${fault instanceof Error ? (fault.stack ?? fault.message) : String(fault)}`.split('\n'));
  process.exitCode = 3;
}
