import type { Finding } from '../checks/finding.ts';
import { carrierOf } from '../checks/shieldPath.ts';
import type { Review, SolvedElement } from '../checks/solved.ts';
import type { Cable } from '../lineup/cable.ts';
import type { Element, ElementKind, ElementOf } from '../lineup/elements.ts';
import { FIELDS, type Field, fieldOf, valueAt } from '../lineup/fields.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import { KIND_HEAD, TOGETHER, type ToldHead } from '../lineup/scheduleHeads.ts';
import { shownValue } from '../lineup/shownValue.ts';
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

const told = <T>(head: ToldHead, of: (each: T) => string | null | undefined): Column<T> => text(head, of);

const plain = (value: unknown): Cell =>
  typeof value === 'boolean' ? (value ? 'yes' : 'no') : typeof value === 'number' || typeof value === 'string' ? value : null;

/** A listed value or a size as people read it; what is read back from there takes either. */
const cellOf = (field: Field, value: unknown, units: Units): Cell =>
  typeof value === 'string' && (field.kind === 'choice' || field.quantity === 'size') ? shownValue(field, value, units) : plain(value);

/** A value of the document under the name of its field. */
function known<T extends object>(kind: ElementKind | 'cable', path: string, units: Units): readonly Column<T>[] {
  const field = fieldOf(kind, path);
  if (!field) return [];
  const { label, quantity } = field;
  return quantity && quantity !== 'size'
    ? [measured(units)<T>(label, quantity, (each) => valueAt(each, path) as number | undefined)]
    : [{ head: label, of: (each) => cellOf(field, valueAt(each, path), units) }];
}

export const schedulesOf = (lineUp: LineUp, review: Review): readonly Schedule[] => [
  cables(lineUp, review),
  equipment(lineUp, review),
  motors(lineUp, review),
  drives(lineUp, review),
  findings(review),
  ...(recordsAnything(lineUp) ? [asBuilt(lineUp, review)] : []),
  waiting(lineUp, review),
];

const CABLE_PATHS = ['conductor.sets', 'conductor.size', 'conductor.metal', 'insulation.type', 'insulation.voltage_V', 'construction']
  .concat('grounds.count', 'grounds.size', 'grounds.arrangement', 'length_m', 'lengthMost_m', 'lengthOrigin')
  .concat('installation.raceway', 'installation.racewaySize', 'installation.moisture', 'installation.ambient_C')
  .concat('from.landing', 'to.landing');

function cables(lineUp: LineUp, review: Review): Schedule {
  const { units } = lineUp.project;
  const in_ = measured(units);
  const tags = new Map(lineUp.elements.map((each) => [each.id, each.tag]));
  const solved = new Map(review.cables.map((each) => [each.id, each]));
  const said = (each: Cable) => review.findings.find((finding) => finding.subject.id === each.id)?.verdict;
  const columns: readonly Column<Cable>[] = [
    text('Tag', (each) => each.tag),
    told('From', (each) => tags.get(each.from.element ?? '')),
    told('To', (each) => tags.get(each.to.element ?? '')),
    ...CABLE_PATHS.slice(0, 6).flatMap((path) => known<Cable>('cable', path, units)),
    told('Shield carried by', (each) => carrierOf(each)),
    ...CABLE_PATHS.slice(6).flatMap((path) => known<Cable>('cable', path, units)),
    in_<Cable>('Current' satisfies ToldHead, 'current', (each) => solved.get(each.id)?.current_A),
    in_('Allowed current' satisfies ToldHead, 'current', (each) => solved.get(each.id)?.ampacity_A),
    in_('Drop' satisfies ToldHead, 'percent', (each) => solved.get(each.id)?.drop_pct),
    told('Worst verdict', (each) => VERDICT_WORD[said(each) ?? 'not-applicable']),
    ...known<Cable>('cable', 'note', units),
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
  const first = (head: string) => (each: Element) =>
    plain(TOGETHER[head]?.map((path) => valueAt(each, path)).find((value) => value !== undefined));
  const numberOf = (head: string) => (each: Element) => {
    const value = first(head)(each);
    return typeof value === 'number' ? value : null;
  };
  // All kinds that have the field call it the same.
  const shared = (kind: ElementKind, path: string) => known<Element>(kind, path, lineUp.project.units);
  return schedule<Element>(
    'equipment',
    'Equipment schedule',
    [
      text('Tag', (each) => each.tag),
      text(KIND_HEAD, (each) => each.kind),
      ...shared('motor', 'enclosure'),
      { head: 'Device', of: first('Device') },
      in_('Rated voltage', 'voltage', numberOf('Rated voltage')),
      in_('Rated current', 'current', numberOf('Rated current')),
      ...shared('disconnect', 'tripCurrent_A'),
      ...shared('reactor', 'impedance_pct'),
      ...shared('disconnect', 'faultRating_A'),
      in_('Fault current there' satisfies ToldHead, 'current', (each) => solved.get(each.id)?.faultCurrent_A),
      in_('Voltage there' satisfies ToldHead, 'voltage', (each) => solved.get(each.id)?.voltage_V),
      ...shared('motor', 'box'),
      ...shared('motor', 'bondBar'),
      ...shared('motor', 'note'),
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
    [text('Tag', (each) => each.tag), ...fields.flatMap(({ path }) => known<ElementOf<K>>(kind, path, units)), ...solved],
    parts,
  );
  return { ...made, ids: parts.map((each) => each.id) };
}

function motors(lineUp: LineUp, review: Review): Schedule {
  const in_ = measured(lineUp.project.units);
  const runs = new Map(review.runs.map((run) => [run.motorId, run]));
  const tags = new Map(lineUp.elements.map((each) => [each.id, each.tag]));
  return plates(lineUp, 'motor', 'motors', 'Motor schedule', [
    told('Fed by', (each) => tags.get(runs.get(each.id)?.driveId ?? '')),
    in_('Length of the lead' satisfies ToldHead, 'length', (each) => runs.get(each.id)?.leadLength_m),
    in_('Voltage at its terminals' satisfies ToldHead, 'percent', (each) => runs.get(each.id)?.terminalVoltage_pct),
    in_('Peak at its terminals' satisfies ToldHead, 'voltage', (each) => runs.get(each.id)?.peak_V),
    told('Shield', (each) => runs.get(each.id)?.shield),
    told('Worst verdict', (each) => VERDICT_WORD[runs.get(each.id)?.verdict ?? 'not-applicable']),
  ]);
}

function drives(lineUp: LineUp, review: Review): Schedule {
  const in_ = measured(lineUp.project.units);
  const solved = solvedOf(review);
  return plates(lineUp, 'drive', 'drives', 'Drive schedule', [
    in_('Voltage at its input' satisfies ToldHead, 'voltage', (each) => solved.get(each.id)?.voltage_V),
    in_('Fault current at its input' satisfies ToldHead, 'current', (each) => solved.get(each.id)?.faultCurrent_A),
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
function waiting(lineUp: LineUp, review: Review): Schedule {
  const { columns, rows } = openItems(lineUp, review);
  return { slug: 'open', title: 'Open items', heads: columns.map((each) => each.head), rows };
}
