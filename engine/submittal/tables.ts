import type { Finding, Verdict } from '../checks/finding.ts';
import type { Review } from '../checks/solved.ts';
import { buildText, elementLines, lengthText, metalText, racewayText, sizeText } from '../drawing/labels.ts';
import type { Cable, CableEnd } from '../lineup/cable.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import { formatQuantity } from '../lineup/units.ts';
import { groundRules } from '../review/groundRules.ts';

/** What stands in the tables after the drawing. `grow` is the share of the room that is left. */

export interface Column {
  readonly head: string;
  readonly w?: number;
  readonly grow?: number;
  readonly right?: boolean;
}
export interface Table {
  readonly title: string;
  readonly intro?: string;
  readonly columns: readonly Column[];
  readonly rows: readonly (readonly string[])[];
  readonly empty: string;
  /** Column of the verdict word, for its badge. */
  readonly verdictColumn?: number;
}

export const VERDICT_WORD: Readonly<Record<Verdict, string>> = {
  fail: 'FAIL',
  open: 'OPEN',
  caution: 'CAUTION',
  note: 'NOTE',
  pass: 'PASS',
  'not-applicable': 'N/A',
  'out-of-scope': 'OUT OF SCOPE',
};
const LISTED: readonly Verdict[] = ['fail', 'open', 'caution', 'note'];

/** Numbers shared by the rings on the drawing and the findings table. */
export const numbered = (review: Review): ReadonlyMap<string, number> =>
  new Map(review.findings.filter((each) => LISTED.includes(each.verdict)).map((each, index) => [each.id, index + 1]));

/** Enough figures to compare with the limit, no more: four. */
export function figure(value: number | null): string {
  if (value === null) return '–';
  if (value === 0) return '0';
  const text = Math.abs(value) >= 1000 ? value.toFixed(0) : `${Number(value.toPrecision(4))}`;
  return text.replace('-', '−');
}

const where = (finding: Finding): string => {
  const end = finding.subject.end ? `, ${finding.subject.end === 'from' ? 'first end' : 'second end'}` : '';
  const runs = finding.runs.filter((run) => run !== finding.subject.tag);
  return `${finding.subject.tag || 'line-up'}${end}${runs.length > 0 ? `\nrun ${runs.join(', ')}` : ''}`;
};
const margin = (finding: Finding): string => (finding.margin_pct === null ? '–' : `${figure(Number(finding.margin_pct.toFixed(1)))} %`);

export function findingsTable(lineUp: LineUp, review: Review, wide: boolean): Table {
  const numbers = numbered(review);
  const listed = review.findings.filter((each) => numbers.has(each.id));
  const base = { title: 'Findings', intro: groundRules(lineUp), empty: 'No finding stands against this line-up.', verdictColumn: 1 };
  const todo = (each: Finding): string => each.remedies.join('\n') || '–';
  const numbersOf = (each: Finding): string =>
    each.value === null
      ? '–'
      : [
          `${figure(each.value)} ${each.unit}`.trim(),
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

/** What was not judged because nothing there is to judge, or because the project does not want it, with the reason. */
export function notJudgedTable(review: Review): Table {
  const rows = new Map<string, { readonly first: Finding; readonly places: Set<string> }>();
  for (const each of review.findings) {
    if (each.verdict !== 'not-applicable' && each.verdict !== 'out-of-scope') continue;
    const key = `${each.check}|${each.text}`;
    const row = rows.get(key) ?? { first: each, places: new Set<string>() };
    row.places.add(each.subject.tag || 'line-up');
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

const LANDINGS: Readonly<Record<string, string>> = { full: 'full circumference', clamp: 'clamp', pigtail: 'pigtail', none: 'not landed' };

export function cableSchedule(lineUp: LineUp, review: Review, wide: boolean): Table {
  const tags = new Map(lineUp.elements.map((each) => [each.id, each.tag]));
  const solved = new Map(review.cables.map((each) => [each.id, each]));
  const { units } = lineUp.project;
  const end = (at: CableEnd): string =>
    `${at.element ? (tags.get(at.element) ?? '?') : 'nowhere yet'}, ${at.landing ? LANDINGS[at.landing] : 'landing not known'}`;
  const unknown = 'not known';
  const what = (each: Cable): string =>
    [`${each.conductor.sets ?? 1} ×`, sizeText(each) ?? 'size not known', metalText(each) ?? 'metal not known'].join(' ');
  const grounds = (each: Cable): string =>
    each.grounds.count === undefined
      ? unknown
      : [`${each.grounds.count} ×`, each.grounds.size ?? '', each.grounds.arrangement ?? ''].join(' ').trim();
  const cables = lineUp.cables.filter((each) => each.kind === 'cable');
  const numbers = (each: Cable): readonly string[] => {
    const answer = solved.get(each.id);
    const n = (value: number | null | undefined) => figure(value ?? null);
    return [n(answer?.current_A), n(answer?.ampacity_A), n(answer?.drop_pct)];
  };
  const base = { title: 'Cable schedule', empty: 'No cable is drawn.' };
  if (wide)
    return {
      ...base,
      columns: [
        { head: 'Tag', w: 24 },
        { head: 'From, landing', grow: 1.2 },
        { head: 'To, landing', grow: 1.2 },
        { head: 'Conductors', w: 40 },
        { head: 'Insulation', w: 32 },
        { head: 'Construction', grow: 1 },
        { head: 'Grounds', grow: 1 },
        { head: 'Length one way', w: 26, right: true },
        { head: 'Laid in', grow: 0.9 },
        { head: 'Current A', w: 19, right: true },
        { head: 'Allowed A', w: 20, right: true },
        { head: 'Drop %', w: 15, right: true },
      ],
      rows: cables.map((each) => [
        each.tag,
        end(each.from),
        end(each.to),
        what(each),
        [each.insulation.type, each.insulation.voltage_V === undefined ? null : formatQuantity(each.insulation.voltage_V, 'voltage', units)]
          .filter(Boolean)
          .join(', ') || unknown,
        buildText(each) ?? unknown,
        grounds(each),
        lengthText(each, units) ?? unknown,
        racewayText(each) ?? (each.installation.raceway === 'none' ? 'free' : unknown),
        ...numbers(each),
      ]),
    };
  return {
    ...base,
    columns: [
      { head: 'Tag', w: 22 },
      { head: 'From; to', grow: 1.3 },
      { head: 'Conductors, construction, grounds', grow: 1.3 },
      { head: 'Length, laid in', w: 32 },
      { head: 'Current, allowed A; drop %', w: 30 },
    ],
    rows: cables.map((each) => [
      each.tag,
      `${end(each.from)}\n${end(each.to)}`,
      `${what(each)} ${each.insulation.type ?? ''}\n${buildText(each) ?? unknown}\ngrounds ${grounds(each)}`,
      `${lengthText(each, units) ?? unknown}\n${racewayText(each) ?? ''}`,
      numbers(each).join('; '),
    ]),
  };
}

export function equipmentList(lineUp: LineUp, review: Review): Table {
  const solved = new Map(review.elements.map((each) => [each.id, each]));
  const { units } = lineUp.project;
  const shown = (value: number | null | undefined, quantity: 'voltage' | 'current') =>
    value === null || value === undefined ? '–' : formatQuantity(value, quantity, units);
  return {
    title: 'Equipment list',
    empty: 'No part is drawn.',
    columns: [
      { head: 'Tag', w: 26 },
      { head: 'Kind', w: 30 },
      { head: 'Rating', grow: 2 },
      { head: 'Stands in', grow: 1 },
      { head: 'Voltage', w: 22, right: true },
      { head: 'Fault current', w: 28, right: true },
      { head: 'Note', grow: 1 },
    ],
    rows: lineUp.elements.map((each) => [
      each.tag,
      each.kind,
      elementLines(each, units).join('; ') || 'not known',
      each.enclosure ?? '–',
      shown(solved.get(each.id)?.voltage_V, 'voltage'),
      shown(solved.get(each.id)?.faultCurrent_A, 'current'),
      each.note ?? '–',
    ]),
  };
}

export function openItems(review: Review): Table {
  const asked = new Map<string, { ask: string; tag: string; label: string; checks: Set<string> }>();
  for (const finding of review.findings)
    for (const each of finding.missing) {
      const key = `${each.id}/${each.field}`;
      const item = asked.get(key) ?? { ask: each.ask, tag: each.tag, label: each.label, checks: new Set<string>() };
      item.checks.add(finding.title);
      asked.set(key, item);
    }
  return {
    title: 'Open items',
    empty: 'Nothing is missing.',
    columns: [
      { head: 'Ask', w: 46 },
      { head: 'Of', w: 30 },
      { head: 'What is missing', grow: 1 },
      { head: 'Checks that wait for it', grow: 2 },
    ],
    rows: [...asked.values()].map((each) => [each.ask, each.tag || 'project', each.label, [...each.checks].join('; ')]),
  };
}

export function assumptionsTable(review: Review): Table {
  const rows = new Map<string, { cells: string[]; used: Set<string> }>();
  for (const finding of review.findings)
    for (const each of finding.assumptions) {
      const key = `${each.what}|${each.value}|${each.source}`;
      const row = rows.get(key) ?? { cells: [each.what, each.value, each.source], used: new Set<string>() };
      row.used.add(`${finding.title} (${finding.subject.tag || 'line-up'})`);
      rows.set(key, row);
    }
  return {
    title: 'Assumptions',
    empty: 'Nothing was assumed.',
    columns: [
      { head: 'What', grow: 1.2 },
      { head: 'Taken as', grow: 0.8 },
      { head: 'Source', grow: 1 },
      { head: 'Used by', grow: 1.6 },
    ],
    rows: [...rows.values()].map(({ cells, used }) => [...cells, [...used].join('; ')]),
  };
}

export function switchedOff(lineUp: LineUp): Table {
  return {
    title: 'Checks switched off',
    empty: 'No check is switched off.',
    columns: [
      { head: 'Check', w: 70 },
      { head: 'Reason given', grow: 1 },
    ],
    rows: Object.entries(lineUp.project.checks)
      .filter(([, check]) => check.off)
      .map(([slug, check]) => [slug, check.reason?.trim() || 'no reason given']),
  };
}
