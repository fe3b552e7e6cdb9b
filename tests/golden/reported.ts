import { type Report, reportOf, reportText } from '../../engine/cli/report.ts';
import { CHECKS, type LineUp, review } from '../../engine/index.ts';
import { printable, printableJson } from '../../engine/lineup/printable.ts';

/** The two reports of the command line as golden files hold them. Runs in Node and on a page. */

/** The last bits of a sine are the machine's own: two of them may differ there, and never in a figure that anyone reads. */
const FIGURES = 9;

/** By slug, what a check says of itself. */
const OWN: ReadonlyMap<string, object> = new Map(
  CHECKS.map(({ slug, title, authority, source, why }) => [slug, { title, authority, source, why }]),
);

const isNothing = (value: unknown): boolean => value === null || value === '' || (Array.isArray(value) && value.length === 0);

/** Keys in order, numbers in these figures, and nothing of what is not known. What a number was made from, and whom it is of, is a line of words. */
function canonical(value: unknown): unknown {
  if (typeof value === 'number') return Number(value.toPrecision(FIGURES));
  if (Array.isArray(value)) return value.map(canonical);
  if (typeof value !== 'object' || value === null) return value;
  if ('what' in value || ('kind' in value && 'tag' in value)) return Object.values(value).join(' | ');
  const known = Object.entries(value).filter(([, each]) => !isNothing(each));
  return Object.fromEntries(known.map(([key, each]) => [key, canonical(each)] as const).sort(([a], [b]) => (a < b ? -1 : 1)));
}
const line = (value: unknown): string => printableJson(JSON.stringify(canonical(value)));

/** What its check says of itself stands in a file of its own, its sentence in the text report, and its check in its id. */
function rest(finding: Report['findings'][number]): object {
  const own = new Map(Object.entries(OWN.get(finding.check) ?? {}));
  const told = finding.verdict === 'not-applicable' ? [] : ['text'];
  if (finding.id.startsWith(`${finding.check}/`)) told.push('check');
  return Object.fromEntries(Object.entries(finding).filter(([key, value]) => !told.includes(key) && own.get(key) !== value));
}

export interface Reported {
  /** As `check FILE` prints it. */
  readonly text: string;
  /** What `check FILE --json` holds: the whole, each finding and each part solved in a line of its own. */
  readonly json: string;
}
export function reported(name: string, lineUp: LineUp): Reported {
  const report = reportOf(`${name}.json`, lineUp, review(lineUp));
  const { findings, solved, ...whole } = report;
  return {
    text: reportText(report).map(printable).join('\n'),
    json: [whole, ...findings.map(rest), ...solved.elements, ...solved.cables, ...solved.runs].map(line).join('\n'),
  };
}

export const checksSaid = (): string => [...OWN].map(([slug, own]) => line({ slug, ...own })).join('\n');
