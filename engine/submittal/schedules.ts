import type { Finding } from '../checks/finding.ts';
import { carrierOf } from '../checks/shieldPath.ts';
import type { Review, SolvedElement } from '../checks/solved.ts';
import { buildText, racewayText } from '../drawing/labels.ts';
import type { Cable } from '../lineup/cable.ts';
import type { Element, ElementKind, ElementOf } from '../lineup/elements.ts';
import { FIELDS, valueAt } from '../lineup/fields.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import { inUnitOf, type Quantity, type Units, unitOf } from '../lineup/units.ts';
import { asBuiltRows, recordsAnything, WITH_AS_BUILT } from './asBuilt.ts';
import { VERDICT_WORD } from './content.ts';
import { openItems } from './openTables.ts';

/** The schedules for other people's tools: one value a cell, numbers as numbers, the unit in the head. What is not known stays empty. */

export type Cell = string | number | null;
export interface Schedule {
  readonly slug: string;
  readonly title: string;
  readonly heads: readonly string[];
  readonly rows: readonly (readonly Cell[])[];
  /** Of the parts, row by row, where rows are parts. */
  readonly ids?: readonly string[];
}

interface Column<T> {
  readonly head: string;
  readonly of: (each: T) => Cell;
}

const schedule = <T>(slug: string, title: string, columns: readonly Column<T>[], rows: readonly T[]): Schedule => ({
  slug,
  title,
  heads: columns.map((each) => each.head),
  rows: rows.map((row) => columns.map((each) => each.of(row))),
});

const text = <T>(head: string, of: (each: T) => string | null | undefined): Column<T> => ({ head, of: (each) => of(each) ?? null });
const number = <T>(head: string, of: (each: T) => number | null | undefined): Column<T> => ({ head, of: (each) => of(each) ?? null });
const measured =
  (units: Units) =>
  <T>(head: string, quantity: Exclude<Quantity, 'size'>, of: (each: T) => number | null | undefined): Column<T> => ({
    head: [head, unitOf(quantity, units)].filter(Boolean).join(', '),
    of: (each) => {
      const value = of(each);
      return value === null || value === undefined ? null : inUnitOf(value, quantity, units);
    },
  });

export const schedulesOf = (lineUp: LineUp, review: Review): readonly Schedule[] => [
  cables(lineUp, review),
  equipment(lineUp, review),
  motors(lineUp, review),
  drives(lineUp, review),
  findings(review),
  ...(recordsAnything(lineUp) ? [asBuilt(lineUp, review)] : []),
  waiting(review),
];

function cables(lineUp: LineUp, review: Review): Schedule {
  const { units } = lineUp.project;
  const in_ = measured(units);
  const tags = new Map(lineUp.elements.map((each) => [each.id, each.tag]));
  const solved = new Map(review.cables.map((each) => [each.id, each]));
  const said = (each: Cable) => review.findings.find((finding) => finding.subject.id === each.id)?.verdict;
  const columns: readonly Column<Cable>[] = [
    text('Tag', (each) => each.tag),
    text('From', (each) => tags.get(each.from.element ?? '')),
    text('To', (each) => tags.get(each.to.element ?? '')),
    number('Sets', (each) => each.conductor.sets),
    text('Conductor size', (each) => each.conductor.size),
    text('Metal', (each) => each.conductor.metal),
    text('Insulation', (each) => each.insulation.type),
    in_('Insulation voltage', 'voltage', (each) => each.insulation.voltage_V),
    text('Construction', buildText),
    text('Shield carried by', (each) => carrierOf(each)),
    number('Grounding conductors', (each) => each.grounds.count),
    text('Grounding conductor size', (each) => each.grounds.size),
    text('Grounding arrangement', (each) => each.grounds.arrangement),
    in_('Length one way', 'length', (each) => each.length_m),
    in_('Length up to', 'length', (each) => each.lengthMost_m),
    text('Length is', (each) => each.lengthOrigin),
    text('Laid in', racewayText),
    text('Raceway size', (each) => each.installation.racewaySize),
    text('Around it', (each) => each.installation.moisture),
    in_('Hottest ambient', 'temperature', (each) => each.installation.ambient_C),
    text('Landing, start', (each) => each.from.landing),
    text('Landing, end', (each) => each.to.landing),
    in_('Current', 'current', (each) => solved.get(each.id)?.current_A),
    in_('Allowed current', 'current', (each) => solved.get(each.id)?.ampacity_A),
    in_('Drop', 'percent', (each) => solved.get(each.id)?.drop_pct),
    text('Worst verdict', (each) => VERDICT_WORD[said(each) ?? 'not-applicable']),
    text('Note', (each) => each.note),
  ];
  return schedule(
    'cables',
    'Cable schedule',
    columns,
    lineUp.cables.filter((each) => each.kind === 'cable'),
  );
}

const solvedOf = (review: Review): ReadonlyMap<string, SolvedElement> => new Map(review.elements.map((each) => [each.id, each]));

function equipment(lineUp: LineUp, review: Review): Schedule {
  const in_ = measured(lineUp.project.units);
  const solved = solvedOf(review);
  const at = (path: string) => (each: Element) => {
    const value = valueAt(each, path);
    return typeof value === 'number' ? value : null;
  };
  const word = (path: string) => (each: Element) => {
    const value = valueAt(each, path);
    return typeof value === 'boolean' ? (value ? 'yes' : 'no') : typeof value === 'string' ? value : null;
  };
  return schedule<Element>(
    'equipment',
    'Equipment schedule',
    [
      text('Tag', (each) => each.tag),
      text('Kind', (each) => each.kind),
      text('Stands in', (each) => each.enclosure),
      text('Device', (each) => word('device')(each) ?? word('role')(each)),
      in_('Rated voltage', 'voltage', (each) => at('ratedVoltage_V')(each) ?? at('secondaryVoltage_V')(each) ?? at('voltage_V')(each)),
      in_('Rated current', 'current', (each) => at('ratedCurrent_A')(each) ?? at('inputCurrent_A')(each)),
      in_('Trip rating', 'current', at('tripCurrent_A')),
      in_('Impedance', 'percent', at('impedance_pct')),
      in_('Fault rating', 'current', at('faultRating_A')),
      in_('Fault current there', 'current', (each) => solved.get(each.id)?.faultCurrent_A),
      in_('Voltage there', 'voltage', (each) => solved.get(each.id)?.voltage_V),
      text('Box', word('box')),
      text('Bond bar', word('bondBar')),
      text('Note', (each) => each.note),
    ],
    lineUp.elements,
  );
}

/** Every field of the design of one kind of part that anyone filled in, and what was solved of it. */
function plates<K extends ElementKind>(lineUp: LineUp, kind: K, slug: string, title: string, solved: readonly Column<ElementOf<K>>[]) {
  const { units } = lineUp.project;
  const parts = lineUp.elements.filter((each): each is ElementOf<K> => each.kind === kind);
  const fields = FIELDS[kind].filter(({ path }) => !path.startsWith('asBuilt.') && parts.some((part) => valueAt(part, path) !== undefined));
  const made = schedule<ElementOf<K>>(
    slug,
    title,
    [
      text('Tag', (each) => each.tag),
      ...fields.map((field): Column<ElementOf<K>> => {
        const of = (each: ElementOf<K>) => valueAt(each, field.path);
        if (field.quantity && field.quantity !== 'size')
          return measured(units)<ElementOf<K>>(field.label, field.quantity, (each) => of(each) as number | undefined);
        return {
          head: field.label,
          of: (each) => {
            const value = of(each);
            if (typeof value === 'boolean') return value ? 'yes' : 'no';
            return typeof value === 'number' || typeof value === 'string' ? value : null;
          },
        };
      }),
      ...solved,
    ],
    parts,
  );
  return { ...made, ids: parts.map((each) => each.id) };
}

function motors(lineUp: LineUp, review: Review): Schedule {
  const in_ = measured(lineUp.project.units);
  const runs = new Map(review.runs.map((run) => [run.motorId, run]));
  const tags = new Map(lineUp.elements.map((each) => [each.id, each.tag]));
  return plates(lineUp, 'motor', 'motors', 'Motor schedule', [
    text('Fed by', (each) => tags.get(runs.get(each.id)?.driveId ?? '')),
    in_('Length of the lead', 'length', (each) => runs.get(each.id)?.leadLength_m),
    in_('Voltage at its terminals', 'percent', (each) => runs.get(each.id)?.terminalVoltage_pct),
    in_('Peak at its terminals', 'voltage', (each) => runs.get(each.id)?.peak_V),
    text('Shield', (each) => runs.get(each.id)?.shield),
    text('Worst verdict', (each) => VERDICT_WORD[runs.get(each.id)?.verdict ?? 'not-applicable']),
  ]);
}

function drives(lineUp: LineUp, review: Review): Schedule {
  const in_ = measured(lineUp.project.units);
  const solved = solvedOf(review);
  return plates(lineUp, 'drive', 'drives', 'Drive schedule', [
    in_('Voltage at its input', 'voltage', (each) => solved.get(each.id)?.voltage_V),
    in_('Fault current at its input', 'current', (each) => solved.get(each.id)?.faultCurrent_A),
  ]);
}

const sixFigures = (value: number | null): number | null => (value === null ? null : Number(value.toPrecision(6)));

const findings = (review: Review): Schedule =>
  schedule<Finding>(
    'findings',
    'Findings',
    [
      text('Verdict', (each) => VERDICT_WORD[each.verdict]),
      text('Check', (each) => each.title),
      text('Of', (each) => each.subject.tag),
      text('Runs', (each) => each.runs.join(' ')),
      text('Quantity', (each) => (each.value === null ? null : each.quantity)),
      number('Value', (each) => sixFigures(each.value)),
      number('Limit', (each) => sixFigures(each.limit)),
      text('Unit', (each) => each.unit),
      number('Margin, %', (each) => sixFigures(each.margin_pct)),
      text('Finding', (each) => each.text),
      text('What to do', (each) => each.remedies.join(' ')),
      text('Authority', (each) => each.authority),
      text('Source', (each) => each.source),
    ],
    review.findings.filter((each) => each.verdict !== 'not-applicable'),
  );

const asBuilt = (lineUp: LineUp, review: Review): Schedule => ({
  slug: 'as-built',
  title: 'As built',
  heads: WITH_AS_BUILT,
  rows: asBuiltRows(lineUp, review).flatMap(({ tag, values, design, built }) =>
    values.map((each) => [tag, each.label, each.design, each.built, each.difference, design, built]),
  ),
});

/** What is still to be asked, as a list to send. */
function waiting(review: Review): Schedule {
  const { columns, rows } = openItems(review);
  return { slug: 'open', title: 'Open items', heads: columns.map((each) => each.head), rows };
}
