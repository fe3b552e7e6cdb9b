import './named.ts';
import { mkdirSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { CHECKS, fixed, load, MAKER, type Review, review, sourcesMarkdown, sourcesPage } from '../index.ts';
import { printable, printableJson } from '../lineup/printable.ts';
import { EVERY_SHEET, type SheetKind } from '../submittal/sections.ts';
import { buildId } from './buildId.ts';
import { type Job, stem } from './judgeFile.ts';
import { judgeFiles } from './judgeFiles.ts';
import { lineUpsIn, type Named } from './lineUpsIn.ts';
import { sweep } from './put.ts';
import { reportText } from './report.ts';

/** check FILE_OR_FOLDER... | --list | --docs | --help | --version. Exit 0 nothing fails, 1 something fails, 2 bad input or usage, 3 internal fault. */

const USAGE =
  'usage: npm run --silent check -- FILE_OR_FOLDER... [--json | --out DIR] [--basis us|iec] [--least-copper [--sets N]] [--pdf OUT] [--package DIR] [--sheets NAME,NAME] [--against OLD] | --list [--json] | --docs | --help | --version';

const print = (line: string): void => void process.stdout.write(`${printable(line)}\n`);
const complain = (...lines: readonly string[]): void => void process.stderr.write(lines.map((line) => `${printable(line)}\n`).join(''));
const printJson = (value: unknown): void => void process.stdout.write(`${printableJson(JSON.stringify(value, null, 2))}\n`);

interface Options {
  readonly files: readonly Named[];
  readonly json: boolean;
  readonly list: boolean;
  readonly docs: boolean;
  readonly basis: 'us' | 'iec' | null;
  readonly leastCopper: boolean;
  /** Most sets in parallel that may be proposed; null for no more than are drawn. */
  readonly sets: number | null;
  readonly pdf: string | null;
  /** Where the result of each file is kept as it is ready. */
  readonly out: string | null;
  readonly folder: string | null;
  readonly sheets: readonly SheetKind[] | null;
  readonly against: string | null;
}

function readOptions(args: readonly string[]): Options | string {
  const paths: string[] = [];
  let [json, list, docs, least] = [false, false, false, false];
  let sets: number | null = null;
  let basis: Options['basis'] = null;
  let pdf: string | null = null;
  let out: string | null = null;
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
    } else if (arg === '--out') {
      const value = args[++i];
      if (value === undefined || value.startsWith('--')) return '--out takes the folder to keep the results in';
      out = value;
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
    else paths.push(arg);
  }
  if (!list && !docs && paths.length === 0) return 'no file is named';
  const files = lineUpsIn(paths, out);
  if (!list && !docs && files.length === 0) return `no line-up (a file that ends in .json) is in ${paths.join(' or ')}`;
  if (sets !== null && !least) return '--sets goes with --least-copper';
  if (pdf !== null && files.length > 1) return '--pdf takes one line-up at a time';
  const twice = folder === null ? undefined : twin(files.map(({ file }) => stem(file)));
  if (twice !== undefined) return `two files are called ${twice}: their packages would overwrite each other`;
  const kept = out === null ? undefined : twin(files.map(({ name }) => name));
  if (kept !== undefined) return `two files are called ${kept}: their results would overwrite each other`;
  if (out !== null && (json || pdf !== null || folder !== null)) return '--out does not go with --json, --pdf or --package';
  if (sheets !== null && pdf === null && folder === null) return '--sheets goes with --pdf or --package';
  if (against !== null && (files.length > 1 || (pdf === null && folder === null)))
    return '--against takes one line-up, with --pdf or --package';
  return { files, json, list, docs, basis, leastCopper: least, sets, pdf, out, folder, sheets, against };
}

/** The first that was there before. */
function twin(names: readonly string[]): string | undefined {
  const seen = new Set<string>();
  return names.find((name) => seen.size === seen.add(name).size);
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

function made(folder: string): boolean {
  try {
    mkdirSync(folder, { recursive: true });
    return true;
  } catch {
    return false;
  }
}

/** Each result is on the disk as soon as it is ready, and what is there already is not judged again. Only a line a file is held. */
async function keepAll(files: readonly Named[], jobOf: (file: string) => Job, out: string): Promise<number> {
  sweep(out);
  // Another Node may round the last digit otherwise.
  const build = `${buildId()} ${process.version}`;
  const from = performance.now();
  let [ready, judged] = [0, 0];
  const outcomes = await judgeFiles(
    files.map(({ file, name }) => ({ job: jobOf(file), path: join(out, `${name}.result.json`), build })),
    (_job, { fresh }) => {
      const before = Math.floor((100 * ready++) / files.length);
      if (fresh) judged++;
      if (Math.floor((100 * ready) / files.length) > before)
        complain(
          `${ready} of ${files.length}, ${judged} judged in ${fixed((performance.now() - from) / 1000, 0)} s, ${ready - judged} as before`,
        );
    },
  );
  for (const [i, { verdict, counts }] of outcomes.entries())
    if (verdict && counts)
      print(`${files[i]?.file}: ${verdict.toUpperCase()}  ${counts.fail} fail, ${counts.open} open, ${counts.caution} caution`);
  complain(...outcomes.flatMap((each) => each.complaints));
  return outcomes.reduce((most, each) => Math.max(most, each.exit), 0);
}

async function main(args: readonly string[]): Promise<number> {
  if (args.length === 1 && args[0] === '--version') {
    print(MAKER);
    return 0;
  }
  if (args.includes('--help')) {
    print(USAGE);
    return 0;
  }
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
  const { files, basis, leastCopper, sets, pdf, out, folder, sheets, against } = options;
  const unmade = [folder, ...(out === null ? [] : files.map(({ name }) => dirname(join(out, name))))].find(
    (each) => each !== null && !made(each),
  );
  if (unmade) {
    complain(`${unmade}: this folder cannot be made. Check that you may write there.`);
    return 2;
  }
  const jobOf = (file: string): Job => ({
    file,
    basis,
    sizing: leastCopper ? { mostSets: sets } : null,
    pdf,
    folder,
    sheets,
    against,
  });
  if (out !== null) return await keepAll(files, jobOf, out);
  let ready = 0;
  const judged = await judgeFiles(
    files.map(({ file }) => jobOf(file)),
    ({ file }, { report, written }) => {
      ready++;
      if (folder !== null) complain(`${ready} of ${files.length}: ${file}: ${report ? `${written} files written` : 'not judged'}`);
    },
  );
  const reports = judged.flatMap((each) => each.report ?? []);
  complain(...judged.flatMap((each) => each.complaints));
  if (options.json) printJson(reports);
  else reports.flatMap(reportText).forEach(print);
  return judged.reduce((most, each) => Math.max(most, each.exit), 0);
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
