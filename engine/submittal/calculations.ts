import { toldNumber } from '../checks/figureText.ts';
import type { Finding } from '../checks/finding.ts';
import { CHECKS } from '../checks/index.ts';
import type { Review } from '../checks/solved.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import { type Block, calculationOf, figure, type Table, table, VERDICT_WORD } from './content.ts';
import { DEFERRAL } from './deferral.ts';
import { margin, numbered } from './findingTables.ts';

/** One calculation a part: its inputs once, numbered, and every check of it with the inputs it starts from, line by line to the result. */

/** Parts in the order in which a line-up is read, from source to motor; then what stands for itself, then the line-up as a whole. */
function subjects(lineUp: LineUp, review: Review): readonly string[] {
  return [...new Set([...review.runs.flatMap((run) => run.path), ...[...lineUp.elements, ...lineUp.cables].map((each) => each.id), ''])];
}

export function calculations(lineUp: LineUp, review: Review, wide: boolean): readonly Block[] {
  const judged = review.findings.filter((each) => each.verdict !== 'not-applicable' && each.verdict !== 'out-of-scope');
  const numbers = numbered(review);
  let intro: string | undefined = DEFERRAL;
  return subjects(lineUp, review).flatMap((id) => {
    const own = judged.filter((each) => each.subject.id === id);
    const [first] = own;
    if (!first) return [];
    const [given, ...checks] = calculation(id, first.subject.tag || 'the line-up', own, numbers, wide);
    if (!given) return [];
    // Once, above the first.
    const headed = intro === undefined ? given : { ...given, intro };
    intro = undefined;
    return [headed, ...checks].map(table);
  });
}

function calculation(
  id: string,
  tag: string,
  own: readonly Finding[],
  numbers: ReadonlyMap<string, number>,
  wide: boolean,
): readonly Table[] {
  const inputs = new Map<string, readonly string[]>();
  const startsFrom = own.map((finding) =>
    [
      ...finding.inputs.map((each) => [each.what, each.value, [each.origin, each.source].filter(Boolean).join(': ')]),
      ...finding.assumptions.map((each) => [each.what, each.value, `assumed: ${each.source}`]),
    ].map((cells) => {
      const key = cells.join('|');
      if (!inputs.has(key)) inputs.set(key, [`${inputs.size + 1}`, ...cells]);
      return Number(inputs.get(key)?.[0]);
    }),
  );
  const title = `Calculation of ${tag}`;
  const given: Table = {
    title,
    anchor: calculationOf(id),
    folds: true,
    empty: 'Nothing is entered from which it could be worked out.',
    columns: [
      { head: 'No.', w: 11, right: true },
      { head: 'Input', grow: 1.3 },
      { head: 'Value', grow: 1 },
      { head: 'Origin, source', grow: 1.2 },
    ],
    rows: [...inputs.values()],
  };
  const result = (each: Finding): string =>
    [
      each.text,
      ...(each.value === null
        ? []
        : [`${each.quantity}: ${[figure(toldNumber(each, each.value)), each.unit].join(' ').trim()}${bounds(each)}`]),
      ...(each.limit === null ? [] : [`limit ${[figure(each.limit), each.unit].join(' ').trim()}, margin ${margin(each)}`]),
      ...rests(each),
    ].join('\n');
  const from = (each: Finding): string => ranges(startsFrom[own.indexOf(each)] ?? []) || '–';
  // What passes by what it is, without arithmetic, takes a line each.
  const plain = own.filter((each) => each.verdict === 'pass' && each.working.length === 0);
  const worked = own.filter((each) => !plain.includes(each));
  const steps = (each: Finding): string => each.working.join('\n') || '–';
  const named = (each: Finding): string => {
    const number = numbers.get(each.id);
    return `${each.title}${number === undefined ? '' : `, finding ${number}`}${each.case === null ? '' : `\n${each.case}`}`;
  };
  const checks: Table = {
    title: `Checks of ${tag}`,
    verdictColumns: [0],
    empty: '',
    ...(wide
      ? {
          columns: [
            { head: 'Verdict', w: 27 },
            { head: 'Check, case', w: 44 },
            { head: 'From', w: 22 },
            { head: 'Working', grow: 1.5 },
            { head: 'Result', grow: 1.3 },
            { head: 'Authority', w: 22 },
          ],
          rows: worked.map((each) => [VERDICT_WORD[each.verdict], named(each), from(each), steps(each), result(each), each.authority]),
        }
      : {
          columns: [
            { head: 'Verdict', w: 27 },
            { head: 'Check, case, from', w: 38 },
            { head: 'Working, result, authority', grow: 1 },
          ],
          rows: worked.map((each) => [
            VERDICT_WORD[each.verdict],
            `${named(each)}\nfrom ${from(each)}`,
            [...each.working, result(each), each.authority].join('\n'),
          ]),
        }),
  };
  const others: Table = {
    title: `${tag} passes without arithmetic`,
    empty: '',
    folds: true,
    columns: [
      { head: 'Check', w: 46 },
      { head: 'From', w: 16 },
      { head: 'Result', grow: 1 },
      { head: 'Authority', w: 22 },
    ],
    rows: plain.map((each) => [each.title, from(each), result(each), each.authority]),
  };
  return [given, ...[checks, others].filter((each) => each.rows.length > 0)];
}

/** The source of a check stands once, among the rules applied; here only where a finding rests on another. */
const rests = ({ check, source }: Finding): readonly string[] =>
  source === CHECKS.find((each) => each.slug === check)?.source ? [] : [`rests on ${source}`];

const bounds = (finding: Finding): string => {
  const { band } = finding;
  const told = (number: number) => figure(toldNumber(finding, number));
  return band ? `, between ${told(band.low)} and ${told(band.high)} (${band.confidence})` : '';
};

/** 1, 2, 3, 7 as '1–3, 7'. */
export function ranges(list: readonly number[]): string {
  const sorted = [...new Set(list)].sort((a, b) => a - b);
  const said: string[] = [];
  for (let i = 0; i < sorted.length; ) {
    let last = i;
    while (sorted[last + 1] === (sorted[last] ?? 0) + 1) last++;
    said.push(last > i ? `${sorted[i]}–${sorted[last]}` : `${sorted[i]}`);
    i = last + 1;
  }
  return said.join(', ');
}
