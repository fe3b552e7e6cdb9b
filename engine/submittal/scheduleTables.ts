import { worst } from '../checks/finding.ts';
import type { Review } from '../checks/solved.ts';
import { buildText, elementLines, groundsText, lengthText, metalText, racewayText, sizeText } from '../drawing/labels.ts';
import type { Cable, CableEnd } from '../lineup/cable.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import { formatQuantity } from '../lineup/units.ts';
import { calculationOf, figure, type Table, VERDICT_WORD } from './content.ts';
import type { Marks } from './revisions.ts';
import { type Cell, schedulesOf } from './schedules.ts';

/** The schedules as they stand on paper: several values a cell, so that a row stays in sight. */

const told = (intro: string | undefined) => (intro === undefined ? {} : { intro });

const LANDINGS: Readonly<Record<string, string>> = { full: 'full circumference', clamp: 'clamp', pigtail: 'pigtail', none: 'not landed' };

export function cableSchedule(lineUp: LineUp, review: Review, wide: boolean, marks: Marks): Table {
  const tags = new Map(lineUp.elements.map((each) => [each.id, each.tag]));
  const solved = new Map(review.cables.map((each) => [each.id, each]));
  const { units } = lineUp.project;
  const end = (at: CableEnd): string =>
    `${at.element ? (tags.get(at.element) ?? '?') : 'nowhere yet'}, ${at.landing ? LANDINGS[at.landing] : 'landing not known'}`;
  const unknown = 'not known';
  const what = (each: Cable): string =>
    `${each.conductor.sets ?? 1} × ${sizeText(each) ?? 'size not known'}${metalText(each) === null ? ', metal not known' : ` ${metalText(each)}`}`;
  const grounds = (each: Cable): string =>
    [groundsText(each) ?? unknown, each.grounds.count && each.grounds.arrangement].filter(Boolean).join(' ');
  const cables = lineUp.cables.filter((each) => each.kind === 'cable');
  const numbers = (each: Cable): readonly string[] => {
    const answer = solved.get(each.id);
    const n = (value: number | null | undefined) => figure(value ?? null);
    return [n(answer?.current_A), n(answer?.ampacity_A), n(answer?.drop_pct)];
  };
  const said = (each: Cable): string =>
    VERDICT_WORD[worst(review.findings.flatMap(({ subject, verdict }) => (subject.id === each.id ? [verdict] : [])))];
  const base = {
    title: 'Cable schedule',
    ...told(marks.says((each) => each.kind === 'cable')),
    empty: 'No cable is drawn.',
    links: cables.map((each) => calculationOf(each.id)),
    changed: cables.map((each) => marks.of(each.id)),
  };
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
        { head: 'Drop %', w: 19, right: true },
        { head: 'Verdict', w: 28 },
      ],
      verdictColumns: [12],
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
        said(each),
      ]),
    };
  return {
    ...base,
    columns: [
      { head: 'Tag', w: 22 },
      { head: 'From; to', grow: 1.3 },
      { head: 'Conductors, construction, grounds', grow: 1.3 },
      { head: 'Length, laid in', w: 32 },
      { head: 'Current, allowed A; drop %; verdict', w: 30 },
    ],
    rows: cables.map((each) => [
      each.tag,
      `${end(each.from)}\n${end(each.to)}`,
      `${what(each)} ${each.insulation.type ?? ''}\n${buildText(each) ?? unknown}\ngrounds ${grounds(each)}`,
      `${lengthText(each, units) ?? unknown}\n${racewayText(each) ?? ''}`,
      `${numbers(each).join('; ')}\n${said(each)}`,
    ]),
  };
}

export function equipmentList(lineUp: LineUp, review: Review, marks: Marks): Table {
  const solved = new Map(review.elements.map((each) => [each.id, each]));
  const { units } = lineUp.project;
  const shown = (value: number | null | undefined, quantity: 'voltage' | 'current') =>
    value === null || value === undefined ? '–' : formatQuantity(value, quantity, units);
  return {
    title: 'Equipment list',
    ...told(marks.says((each) => each.kind !== 'cable' && each.kind !== 'link')),
    changed: lineUp.elements.map((each) => marks.of(each.id)),
    empty: 'No part is drawn.',
    columns: [
      { head: 'Tag', w: 26 },
      { head: 'Kind', w: 24 },
      { head: 'Rating', grow: 2 },
      { head: 'Stands in', grow: 1 },
      { head: 'Voltage', w: 20, right: true },
      { head: 'Fault current', w: 20, right: true },
      { head: 'Note', grow: 2 },
    ],
    links: lineUp.elements.map((each) => calculationOf(each.id)),
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

/** Cable to buy, by make and size. */
export function cableTotals(lineUp: LineUp): Table {
  const { units } = lineUp.project;
  const rows = new Map<string, { readonly cells: readonly string[]; readonly tags: string[]; length_m: number; known: boolean }>();
  for (const each of lineUp.cables) {
    if (each.kind !== 'cable') continue;
    const cells = [
      sizeText(each) ?? 'size not known',
      metalText(each) ?? 'metal not known',
      buildText(each) ?? 'not known',
      each.insulation.type ?? 'not known',
    ];
    const row = rows.get(cells.join('|')) ?? { cells, tags: [], length_m: 0, known: true };
    const length_m = each.lengthMost_m ?? each.length_m;
    row.tags.push(each.tag);
    row.length_m += (length_m ?? 0) * (each.conductor.sets ?? 1);
    row.known &&= length_m !== undefined;
    rows.set(cells.join('|'), row);
  }
  return {
    title: 'Lengths to buy',
    intro: 'The longest length of each cable, once for every set; no allowance for cutting or for the ends.',
    empty: 'No cable is drawn.',
    columns: [
      { head: 'Size', w: 28 },
      { head: 'Metal', w: 20 },
      { head: 'Construction', w: 36 },
      { head: 'Insulation', w: 26 },
      { head: 'Length', w: 28, right: true },
      { head: 'Cables', grow: 1 },
    ],
    rows: [...rows.values()].map(({ cells, tags, length_m, known }) => [
      ...cells,
      known || length_m > 0 ? `${known ? '' : 'over '}${formatQuantity(length_m, 'length', units)}` : 'not known',
      tags.join(', '),
    ]),
  };
}

const shown = (cell: Cell): string => (cell === null ? '–' : typeof cell === 'number' ? figure(cell) : cell);

/** Drives or motors side by side, a value a row, as many to a table as the sheet is wide. */
export function plates(lineUp: LineUp, review: Review, slug: 'drives' | 'motors', wide: boolean, marks: Marks): readonly Table[] {
  const schedule = schedulesOf(lineUp, review).find((each) => each.slug === slug);
  if (!schedule) return [];
  const most = wide ? 10 : 3;
  const [, ...heads] = schedule.heads;
  const tables: Table[] = [];
  for (let from = 0; from < schedule.rows.length; from += most) {
    const parts = schedule.rows.slice(from, from + most);
    tables.push({
      title: from === 0 ? schedule.title : `${schedule.title}, continued`,
      empty: '',
      columns: [
        { head: 'Value', w: 58 },
        ...parts.map((part, i) => ({ head: shown(part[0] ?? null), grow: 1, changed: marks.of(schedule.ids?.[from + i] ?? '') })),
      ],
      rows: heads.map((head, i) => [head, ...parts.map((part) => shown(part[i + 1] ?? null))]),
      folds: wide && parts.length <= 3,
    });
  }
  return tables;
}
