import { toldNumber } from '../checks/figureText.ts';
import type { Finding, Verdict } from '../checks/finding.ts';
import type { Review } from '../checks/solved.ts';
import type { CableEnd } from '../lineup/cable.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import { groundRules } from '../review/groundRules.ts';
import { calculationOf, figure, type Table, VERDICT_WORD } from './content.ts';

/** What the checks say, in tables. */

const LISTED: readonly Verdict[] = ['fail', 'open', 'caution', 'note'];

/** Numbers shared by the rings on the drawing and the findings table. */
export const numbered = (review: Review): ReadonlyMap<string, number> =>
  new Map(review.findings.filter((each) => LISTED.includes(each.verdict)).map((each, index) => [each.id, index + 1]));

/** Place of a finding: the part, its end, and the runs it concerns. */
export const where = (finding: Finding): string => {
  const end = finding.subject.end ? `, ${finding.subject.end === 'from' ? 'first end' : 'second end'}` : '';
  const runs = finding.runs.filter((run) => run !== finding.subject.tag);
  return `${finding.subject.tag || 'line-up'}${end}${runs.length > 0 ? `\nrun ${runs.join(', ')}` : ''}`;
};
export const margin = (finding: Finding): string =>
  finding.margin_pct === null ? '–' : `${figure(Number(finding.margin_pct.toFixed(1)))} %`;

export function findingsTable(lineUp: LineUp, review: Review, wide: boolean): Table {
  const numbers = numbered(review);
  const listed = review.findings.filter((each) => numbers.has(each.id));
  const base = {
    title: 'Findings',
    intro: groundRules(lineUp),
    empty: 'No finding stands against this line-up.',
    verdictColumns: [1],
    links: listed.map((each) => calculationOf(each.subject.id)),
  };
  const todo = (each: Finding): string => each.remedies.join('\n') || '–';
  const numbersOf = (each: Finding): string =>
    each.value === null
      ? '–'
      : [
          `${figure(toldNumber(each, each.value))} ${each.unit}`.trim(),
          ...(each.limit === null ? [] : [`limit ${figure(each.limit)}`]),
          ...(each.margin_pct === null ? [] : [`margin ${margin(each)}`]),
        ].join('\n');
  if (wide)
    return {
      ...base,
      columns: [
        { head: 'No.', w: 11, right: true },
        { head: 'Verdict', w: 27 },
        { head: 'Check', w: 36 },
        { head: 'Where', w: 27 },
        { head: 'Value, limit', w: 31 },
        { head: 'Finding', grow: 1.7 },
        { head: 'What to do', grow: 1.5 },
        { head: 'On whose word', grow: 1.3 },
      ],
      rows: listed.map((each) => [
        `${numbers.get(each.id)}`,
        VERDICT_WORD[each.verdict],
        each.title,
        where(each),
        numbersOf(each),
        each.text,
        todo(each),
        `${each.authority}: ${each.source}`,
      ]),
    };
  return {
    ...base,
    columns: [
      { head: 'No.', w: 11, right: true },
      { head: 'Verdict', w: 25 },
      { head: 'Check, where', grow: 1 },
      { head: 'Value, limit', w: 31 },
      { head: 'Finding, what to do, on whose word', grow: 2 },
    ],
    rows: listed.map((each) => [
      `${numbers.get(each.id)}`,
      VERDICT_WORD[each.verdict],
      `${each.title}\n${where(each)}`,
      numbersOf(each),
      `${each.text}\nWhat to do: ${todo(each)}\nOn whose word: ${each.authority}, ${each.source}`,
    ]),
  };
}

/** What passes, one row a check, each place in a line of its own with its margin. */
export function passesTable(review: Review): Table {
  const rows = new Map<string, { readonly first: Finding; readonly lines: Set<string> }>();
  for (const each of review.findings) {
    if (each.verdict !== 'pass') continue;
    const row = rows.get(each.check) ?? { first: each, lines: new Set<string>() };
    row.lines.add(`${each.text}${each.margin_pct === null ? '' : ` Margin ${margin(each)}.`}`);
    rows.set(each.check, row);
  }
  return {
    title: 'Checks that pass',
    empty: 'No check passes yet.',
    columns: [
      { head: 'Check', w: 46 },
      { head: 'What was found', grow: 2 },
      { head: 'On whose word', grow: 1 },
    ],
    rows: [...rows.values()].map(({ first, lines }) => [first.title, [...lines].join('\n'), `${first.authority}: ${first.source}`]),
  };
}

/** A connection inside an enclosure has a tag that stands nowhere else on paper: there it is called by what it joins. */
export function linkNames(lineUp: LineUp): ReadonlyMap<string, string> {
  const tags = new Map(lineUp.elements.map(({ id, tag }) => [id, tag]));
  const end = ({ element }: CableEnd) => tags.get(element ?? '') ?? 'nowhere';
  return new Map(lineUp.cables.filter(({ kind }) => kind === 'link').map(({ id, from, to }) => [id, `${end(from)} to ${end(to)}`]));
}

/** What was not judged because nothing there is to judge, or because the project does not want it, with the reason. */
export function notJudgedTable(lineUp: LineUp, review: Review): Table {
  const names = linkNames(lineUp);
  const rows = new Map<string, { readonly first: Finding; readonly places: Set<string> }>();
  for (const each of review.findings) {
    if (each.verdict !== 'not-applicable' && each.verdict !== 'out-of-scope') continue;
    const key = `${each.check}|${each.text}`;
    const row = rows.get(key) ?? { first: each, places: new Set<string>() };
    row.places.add(names.get(each.subject.id) ?? (each.subject.tag || 'line-up'));
    rows.set(key, row);
  }
  // Links say the same of every check: once is enough.
  const links = [...rows.values()].filter(({ first }) => first.text === 'A connection inside one enclosure.');
  const others = [...rows.values()].filter((row) => !links.includes(row));
  const tags = [...new Set(links.flatMap(({ places }) => [...places]))];
  return {
    title: 'Not judged, and why',
    empty: 'Every check applies.',
    columns: [
      { head: 'Check', w: 52 },
      { head: 'Where', grow: 1 },
      { head: 'Reason', grow: 1.4 },
    ],
    rows: [
      ...others.map(({ first, places }) => [first.title, [...places].join(', '), first.text]),
      ...(links.length > 0 ? [['Checks of cables', tags.join(', '), 'A connection inside one enclosure.']] : []),
    ],
  };
}
