import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { type LineUp, review } from '../../engine/index.ts';
import { type SheetKind, usualSheets, write } from '../../engine/submittal/formats.ts';
import { PROJECTS, WORKED } from './projects.ts';
import { checksSaid, reported } from './reported.ts';

/** Golden files: one a project with its three reports one after another, and one of what the checks say of themselves. */

export const FOLDER = join(import.meta.dirname, 'reports');
export const HOW_TO_ACCEPT = 'If this is meant: npm run golden, then read what git diff tests/golden shows and commit it with its cause.';
/** Heads of the three, at the beginning of a line. */
const HEADS = { text: '=== text report', json: '=== JSON report, a line a finding', pdf: '=== text of the set of sheets' } as const;
type Part = keyof typeof HEADS;

const font = (name: string) => new Uint8Array(readFileSync(join(import.meta.dirname, '../../public/fonts', name)));
const fonts = async () => ({ regular: font('sans-400.woff'), semibold: font('sans-600.woff') });

/** Sheets of the worked line-ups alone: what they say stands in the JSON report too, or is the same for every line-up. */
const ONLY_WORKED: readonly SheetKind[] = ['legend', 'calculations', 'sources'];

/** In the order in which it was set. Read by a library of a fixed version, so that every machine reads the same. */
async function sheetsText(name: string, lineUp: LineUp): Promise<string> {
  const result = review(lineUp);
  const sheets = usualSheets(lineUp, result).filter((kind) => WORKED.has(name) || !ONLY_WORKED.includes(kind));
  const [set] = await write('pdf', { lineUp, review: result, date: '2026-01-01', fonts, sheets });
  const document = await getDocument({ data: set?.bytes.slice(), useSystemFonts: false, verbosity: 0 }).promise;
  const read: string[] = [];
  for (let n = 1; n <= document.numPages; n++) {
    const { items } = await (await document.getPage(n)).getTextContent();
    read.push(`--- sheet ${n}\n${items.map((item) => ('str' in item ? `${item.str}${item.hasEOL ? '\n' : ''}` : '')).join('')}`);
  }
  await document.destroy();
  return read.join('\n');
}

export const asFile = (parts: Readonly<Partial<Record<Part, string>>>): string =>
  Object.entries(parts)
    .map(([part, said]) => `${HEADS[part as Part]}\n${said}\n`)
    .join('');

/** By name of its file, what each holds as things are. */
export const GOLDEN: ReadonlyMap<string, () => Promise<string>> = new Map([
  ['checks.txt', async () => `${checksSaid()}\n`],
  ...[...PROJECTS].map(
    ([name, lineUp]) => [`${name}.txt`, async () => asFile({ ...reported(name, lineUp), pdf: await sheetsText(name, lineUp) })] as const,
  ),
]);

export const acceptedNames = (): readonly string[] => (existsSync(FOLDER) ? readdirSync(FOLDER).sort() : []);
export const accepted = (name: string): string => {
  const path = join(FOLDER, name);
  return existsSync(path) ? readFileSync(path, 'utf8') : '';
};
/** Without the sheets. */
export const acceptedReports = (name: string): string => accepted(`${name}.txt`).split(HEADS.pdf)[0] ?? '';

/** How much of a line is shown on each side of where it differs. */
const SHOWN = 90;

/** In each report, the lines that are not as they were accepted; null where nothing differs. */
export function difference(name: string, was: string, is: string): string | null {
  if (was === is) return null;
  if (was === '') return `${name}: nothing is accepted yet`;
  const [before, now] = [partsOf(was), partsOf(is)];
  return [...new Set([...before.keys(), ...now.keys()])]
    .flatMap((head) => changed(`${name}, ${head.replace('=== ', '')}`, before.get(head) ?? NO_PART, now.get(head) ?? NO_PART))
    .join('\n');
}

interface Lines {
  /** Of the file, how many lines stand before. */
  readonly before: number;
  readonly lines: readonly string[];
}
const NO_PART: Lines = { before: 0, lines: [] };
/** By their heads. */
function partsOf(file: string): ReadonlyMap<string, Lines> {
  let before = 0;
  return new Map(
    file.split(/^(?====)/m).map((part) => {
      const lines = part.split('\n').slice(0, -1);
      const own = [lines[0] ?? '', { before, lines }] as const;
      before += lines.length;
      return own;
    }),
  );
}

function changed(where: string, was: Lines, is: Lines): readonly string[] {
  const [old, own] = [was.lines, is.lines];
  const least = Math.min(old.length, own.length);
  let first = 0;
  while (first < least && old[first] === own[first]) first++;
  if (first === old.length && first === own.length) return [];
  let after = 0;
  while (after < least - first && old.at(-1 - after) === own.at(-1 - after)) after++;
  const [gone, come] = [old.slice(first, old.length - after), own.slice(first, own.length - after)];
  const [a, b] = [gone[0] ?? '(no line)', come[0] ?? '(no line)'];
  let at = 0;
  while (at < a.length && a[at] === b[at]) at++;
  const excerpt = (line: string): string =>
    `${at > SHOWN ? '…' : ''}${line.slice(Math.max(0, at - SHOWN), at + SHOWN)}${line.length > at + SHOWN ? '…' : ''}`;
  return [
    `${where}: from line ${was.before + first + 1} on ${gone.length} became ${come.length}. The first of them`,
    `  was ${excerpt(a)}`,
    `  is  ${excerpt(b)}`,
  ];
}
