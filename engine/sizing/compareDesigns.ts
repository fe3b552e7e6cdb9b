import { DENSITY_kgPerM3 } from '../catalog/conductors.ts';
import { worstLength_m } from '../checks/cableModel.ts';
import type { Finding, Verdict } from '../checks/finding.ts';
import type { Review } from '../checks/solved.ts';
import { type Difference, differences } from '../lineup/differences.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import { fixed } from '../lineup/roundTo.ts';
import { formatQuantity } from '../lineup/units.ts';
import { choiceOf, volume_m3 } from './choices.ts';
import { moveOf } from './previewFix.ts';

/** Line-ups side by side, each against the first: how they differ as documents, which verdicts differ, and what they come to. */

export interface Compared {
  readonly name: string;
  readonly lineUp: LineUp;
  readonly review: Review;
}

/** A value in each of the line-ups. */
export interface ValueRow {
  readonly label: string;
  readonly cells: readonly string[];
}
export interface PartRows {
  /** '' for the project. */
  readonly id: string;
  readonly tag: string;
  readonly rows: readonly ValueRow[];
}

/** Against the first line-up; new and gone are findings that are made in one of the two only. */
export const MOVES = ['better', 'worse', 'asked', 'unchanged', 'new', 'gone'] as const;
export type VerdictMove = (typeof MOVES)[number];

export interface VerdictRow {
  readonly id: string;
  readonly title: string;
  readonly tag: string;
  /** Null where it is not said. */
  readonly cells: readonly (Finding | null)[];
  /** The first is compared with itself. */
  readonly moves: readonly VerdictMove[];
}

export interface Comparison {
  readonly names: readonly string[];
  readonly parts: readonly PartRows[];
  /** Those that differ; a finding that is new or gone is left out where it only says that all is well. */
  readonly verdicts: readonly VerdictRow[];
  /** Of all findings, one count a line-up. */
  readonly counts: readonly Readonly<Record<VerdictMove, number>>[];
  readonly totals: readonly ValueRow[];
}

export function compareDesigns(compared: readonly Compared[]): Comparison {
  const [first] = compared;
  if (!first) return { names: [], parts: [], verdicts: [], counts: [], totals: [] };
  // Units are a way of writing: all are written as the first is.
  const { units } = first.lineUp.project;
  const lineUps = compared.map(({ lineUp }) => (lineUp.project.units === units ? lineUp : withUnits(lineUp, units)));
  const rows = verdictRows(compared.map(({ review }) => review));
  return {
    names: compared.map(({ name }) => name),
    parts: partRows(lineUps),
    verdicts: rows.filter(tellsMore),
    counts: compared.map((_, i) => tally(rows.map((each) => each.moves[i] ?? 'unchanged'))),
    totals: totalsOf(compared, units),
  };
}

const withUnits = (lineUp: LineUp, units: LineUp['project']['units']): LineUp => ({ ...lineUp, project: { ...lineUp.project, units } });

const ABSENT = '–';

function partRows(lineUps: readonly LineUp[]): readonly PartRows[] {
  const held = lineUps.map((lineUp) => new Map([...lineUp.elements, ...lineUp.cables].map(({ id, tag }) => [id, tag] as const)));
  const has = (column: number, id: string): boolean => id === '' || held[column]?.has(id) === true;
  const firstWith = (id: string): number => held.findIndex((_, column) => has(column, id));
  const between = new Map<string, ReadonlyMap<string, Difference>>();
  const difference = (base: number, column: number, id: string): Difference | undefined => {
    const key = `${base}/${column}`;
    const [before, after] = [lineUps[base], lineUps[column]];
    if (!before || !after) return undefined;
    const found = between.get(key) ?? new Map(differences(before, after).map((each) => [each.id, each] as const));
    between.set(key, found);
    return found.get(id);
  };
  return ['', ...new Set(held.flatMap((each) => [...each.keys()]))].flatMap((id): PartRows | [] => {
    const base = firstWith(id);
    const rows = new Map<string, string[]>();
    if (lineUps.some((_, column) => !has(column, id)))
      rows.set(
        'Part',
        lineUps.map((_, column) => (has(column, id) ? 'there' : 'not there')),
      );
    lineUps.forEach((_, column) => {
      if (!has(column, id) || column === base) return;
      for (const { label, before, after } of difference(base, column, id)?.changes ?? []) {
        const cells = rows.get(label) ?? lineUps.map((_, each) => (has(each, id) ? before : ABSENT));
        cells[column] = after;
        rows.set(label, cells);
      }
    });
    const tag = id === '' ? 'project' : (held[base]?.get(id) ?? '');
    return rows.size === 0 ? [] : { id, tag, rows: [...rows].map(([label, cells]) => ({ label, cells })) };
  });
}

const SAYS_NOTHING: readonly Verdict[] = ['not-applicable', 'out-of-scope'];

function verdictRows(reviews: readonly Review[]): readonly VerdictRow[] {
  const columns = reviews.map(
    ({ findings }) => new Map(findings.flatMap((each) => (SAYS_NOTHING.includes(each.verdict) ? [] : [[each.id, each] as const]))),
  );
  return [...new Set(columns.flatMap((each) => [...each.keys()]))].flatMap((id): VerdictRow | [] => {
    const cells = columns.map((each) => each.get(id) ?? null);
    const named = cells.find((each) => each !== null);
    const [first = null] = cells;
    return named ? { id, title: named.title, tag: named.subject.tag, cells, moves: cells.map((each) => moved(first, each)) } : [];
  });
}

function moved(before: Finding | null, after: Finding | null): VerdictMove {
  if (!before || !after) return after ? 'new' : before ? 'gone' : 'unchanged';
  const move = moveOf(before, after);
  return move === 'same' ? 'unchanged' : move;
}

/** What moved, unless it is only new or gone and says that all is well. */
const tellsMore = ({ cells, moves }: VerdictRow): boolean =>
  moves.some((move) => move !== 'unchanged') && cells.some((each) => each !== null && each.verdict !== 'pass');

function tally(moves: readonly VerdictMove[]): Readonly<Record<VerdictMove, number>> {
  const count = (move: VerdictMove): number => moves.filter((each) => each === move).length;
  return {
    better: count('better'),
    worse: count('worse'),
    asked: count('asked'),
    unchanged: count('unchanged'),
    new: count('new'),
    gone: count('gone'),
  };
}

const KG_PER_LB = 0.453_592_37;
const IN3_PER_M3 = 61_023.744;

/** Phase conductors alone, as the least copper counts them. */
export function conductorOf({ cables }: LineUp): { readonly volume_m3: number; readonly mass_kg: number; readonly left: number } {
  let [volume, mass_kg, left] = [0, 0, 0];
  for (const cable of cables) {
    if (cable.kind !== 'cable') continue;
    const choice = choiceOf(cable);
    const { metal } = cable.conductor;
    if (!choice || worstLength_m(cable) === null || metal === undefined) left++;
    else {
      const one = volume_m3(cable, choice);
      volume += one;
      mass_kg += one * DENSITY_kgPerM3[metal];
    }
  }
  return { volume_m3: volume, mass_kg, left };
}

function totalsOf(compared: readonly Compared[], units: LineUp['project']['units']): readonly ValueRow[] {
  const us = units === 'us';
  const row = (label: string, cell: (of: Compared) => string): ValueRow => ({ label, cells: compared.map(cell) });
  const conductor = new Map(compared.map((each) => [each, conductorOf(each.lineUp)]));
  const summed = (of: Compared, text: (sum: ReturnType<typeof conductorOf>) => string): string => {
    const sum = conductor.get(of);
    return sum ? without(text(sum), sum.left, 'cable') : '';
  };
  return [
    row('Fail', ({ review }) => `${review.counts.fail}`),
    row('Open', ({ review }) => `${review.counts.open}`),
    row('Caution', ({ review }) => `${review.counts.caution}`),
    row('Cables', ({ lineUp }) => `${lineUp.cables.filter(({ kind }) => kind === 'cable').length}`),
    row('Length of all cables', ({ lineUp }) => {
      const lengths = lineUp.cables.map(worstLength_m);
      const known = lengths.flatMap((each) => each ?? []);
      return without(
        formatQuantity(
          known.reduce((sum, each) => sum + each, 0),
          'length',
          units,
        ),
        lengths.length - known.length,
        'cable',
      );
    }),
    row('Phase conductors, volume', (of) =>
      summed(of, ({ volume_m3 }) => (us ? `${fixed(volume_m3 * IN3_PER_M3, 1)} in³` : `${fixed(volume_m3 * 1000, 1)} dm³`)),
    ),
    row('Phase conductors, mass', (of) =>
      summed(of, ({ mass_kg }) => (us ? `${fixed(mass_kg / KG_PER_LB, 0)} lb` : `${fixed(mass_kg, 0)} kg`)),
    ),
    row('Largest drop in one cable', ({ lineUp, review }) => {
      const cables = new Set(lineUp.cables.flatMap(({ id, kind }) => (kind === 'cable' ? [id] : [])));
      return extreme(
        review.cables.flatMap(({ id, tag, drop_pct }) => (cables.has(id) ? [{ tag, value: drop_pct }] : [])),
        Math.max,
        (value) => `${fixed(value, 2)} %`,
      );
    }),
    row('Lowest voltage at a motor', ({ review }) =>
      extreme(
        review.runs.map(({ motorTag, terminalVoltage_pct }) => ({ tag: motorTag, value: terminalVoltage_pct })),
        Math.min,
        (value) => `${fixed(value, 1)} %`,
      ),
    ),
    row('Highest peak at a motor', ({ review }) =>
      extreme(
        review.runs.map(({ motorTag, peak_V }) => ({ tag: motorTag, value: peak_V })),
        Math.max,
        (value) => `${fixed(value, 0)} V`,
      ),
    ),
  ];
}

/** A sum that lacks some says so: it must not look like the lesser one. */
const without = (text: string, left: number, of: string): string =>
  left === 0 ? text : `over ${text}, without ${left} ${of}${left === 1 ? '' : 's'} not known`;

interface Known {
  readonly tag: string;
  readonly value: number | null;
}
function extreme(all: readonly Known[], choose: (a: number, b: number) => number, text: (value: number) => string): string {
  const known = all.flatMap(({ tag, value }) => (value === null ? [] : [{ tag, value }]));
  const unknown = all.length - known.length;
  const [first] = known;
  if (!first) return all.length === 0 ? ABSENT : 'not known';
  const found = known.reduce(
    (best, each) => (each.value !== best.value && choose(each.value, best.value) === each.value ? each : best),
    first,
  );
  return `${text(found.value)}, ${found.tag}${unknown > 0 ? `; not known for ${unknown}` : ''}`;
}
