import { type Finding, type Verdict, worst } from '../checks/finding.ts';
import type { Review } from '../checks/solved.ts';
import { memory } from '../drawing/memory.ts';
import { asBuiltOf, isRecorded, recordedAt } from '../lineup/asBuilt.ts';
import type { Cable } from '../lineup/cable.ts';
import type { Element } from '../lineup/elements.ts';
import { AS_BUILT, fieldOf, valueAt } from '../lineup/fields.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import { shownValue } from '../lineup/shownValue.ts';
import { formatQuantity, type Units } from '../lineup/units.ts';
import { review as judge } from '../review/spoken.ts';
import { compareDesigns } from '../sizing/compareDesigns.ts';
import { type Table, VERDICT_WORD } from './content.ts';

/** What was found on site beside what was designed, and the design judged anew with it. */

export const NOT_RECORDED = 'not recorded';
const NOTHING_SAID: readonly Verdict[] = ['not-applicable', 'out-of-scope'];
const GREEN: readonly Verdict[] = ['pass', 'note', ...NOTHING_SAID];

interface Value {
  readonly label: string;
  readonly design: string;
  readonly built: string;
  readonly difference: string;
}
interface PartAsBuilt {
  readonly id: string;
  readonly tag: string;
  readonly values: readonly Value[];
  /** The worst that is said of the part. */
  readonly design: string;
  readonly built: string;
}

type Part = Element | Cable;
const kindOf = (part: Part): keyof typeof AS_BUILT => (part.kind === 'motor' ? 'motor' : 'cable');
const pathsOf = (part: Part): readonly string[] => [...AS_BUILT[kindOf(part)].asked, ...AS_BUILT[kindOf(part)].others];
const partsOf = ({ cables, elements }: LineUp): readonly Part[] => [...cables, ...elements].filter(isRecorded);
const recorded = (part: Part): boolean => pathsOf(part).some((path) => recordedAt(part, path) !== undefined);
const whole = (part: Part): boolean => AS_BUILT[kindOf(part)].asked.every((path) => recordedAt(part, path) !== undefined);

export const recordsAnything = (lineUp: LineUp): boolean => partsOf(lineUp).some(recorded);

const judged = memory<{ readonly lineUp: LineUp; readonly review: Review }>();
const builtOf = (lineUp: LineUp) =>
  judged(lineUp, [], () => {
    const built = asBuiltOf(lineUp);
    return { lineUp: built, review: judge(built) };
  });

/** Every value that is always asked, and each other that was recorded. */
export function asBuiltValues(part: Part, units: Units): readonly Value[] {
  const { asked, others } = AS_BUILT[kindOf(part)];
  return [...asked, ...others.filter((path) => recordedAt(part, path) !== undefined)].flatMap((path): Value | [] => {
    const field = fieldOf(kindOf(part), path);
    if (!field) return [];
    const [design, built] = [valueAt(part, path), recordedAt(part, path)];
    // Of a range the most counts.
    const most = path === 'length_m' ? valueAt(part, 'lengthMost_m') : undefined;
    const shown = (value: unknown): string => shownValue(field, value, units);
    return {
      label: field.label,
      design: design === undefined ? 'not known' : most === undefined ? shown(design) : `${shown(design)} to ${shown(most)}`,
      built: built === undefined ? NOT_RECORDED : shown(built),
      difference: differenceOf(most ?? design, built, (by) => (field.quantity ? formatQuantity(by, field.quantity, units) : `${by}`)),
    };
  });
}

function differenceOf(design: unknown, built: unknown, shown: (by: number) => string): string {
  if (design === undefined || built === undefined) return '–';
  if (design === built) return 'none';
  if (typeof design !== 'number' || typeof built !== 'number') return 'differs';
  const by = built - design;
  const share = design === 0 ? '' : `, ${signed(by, `${Math.abs((100 * by) / design).toFixed(1)} %`)}`;
  return `${signed(by, shown(Math.abs(by)))}${share}`;
}
const signed = (by: number, text: string): string => `${by < 0 ? '−' : '+'}${text}`;

/** How a verdict on what was built may be told: nothing passes on a value that nobody recorded, of the part or of anything on its runs. */
function teller(lineUp: LineUp, review: Review): (verdict: Verdict, runs: readonly string[], own: readonly string[]) => string {
  const parts = new Map(partsOf(lineUp).map((part) => [part.id, part]));
  const onRun = new Map(review.runs.map((run) => [run.motorTag, [...run.path, run.motorId]]));
  return (verdict, runs, own) => {
    const all = [...new Set([...own, ...runs.flatMap((run) => onRun.get(run) ?? [])])].flatMap((id) => parts.get(id) ?? []);
    const known = all.some(recorded) && (all.every(whole) || !GREEN.includes(verdict));
    return known ? VERDICT_WORD[verdict] : NOT_RECORDED;
  };
}

export function asBuiltRows(lineUp: LineUp, review: Review): readonly PartAsBuilt[] {
  const built = builtOf(lineUp).review;
  const tell = teller(lineUp, built);
  const said = (findings: readonly Finding[], id: string): Verdict =>
    worst(findings.flatMap(({ subject, verdict }) => (subject.id === id ? [verdict] : [])));
  return partsOf(lineUp).map((part) => {
    const runs = built.runs.flatMap(({ motorTag, motorId, path }) => (motorId === part.id || path.includes(part.id) ? [motorTag] : []));
    return {
      id: part.id,
      tag: part.tag,
      values: asBuiltValues(part, lineUp.project.units),
      design: VERDICT_WORD[said(review.findings, part.id)],
      built: tell(said(built.findings, part.id), runs, [part.id]),
    };
  });
}

export const WITH_AS_BUILT = ['Part', 'Value', 'Design', 'As built', 'Difference', 'Design says', 'As built says'] as const;

export function asBuiltTables(lineUp: LineUp, review: Review): readonly Table[] {
  if (!recordsAnything(lineUp)) return [];
  const built = builtOf(lineUp);
  const tell = teller(lineUp, built.review);
  const { verdicts } = compareDesigns([
    { name: 'Design', lineUp, review },
    { name: 'As built', ...built },
  ]);
  const [part, value, design, found, difference, says, builtSays] = WITH_AS_BUILT;
  return [
    {
      title: 'Design and as built',
      intro:
        'Each part is judged anew with what was recorded in the place of what was designed; what hangs on a designed value that was not kept is asked again. Nothing passes as built before every value on its runs is recorded.',
      empty: '',
      columns: [
        { head: part, w: 30 },
        { head: value, grow: 1 },
        { head: design, grow: 1 },
        { head: found, grow: 1 },
        { head: difference, grow: 1 },
        { head: says, w: 31 },
        { head: builtSays, w: 31 },
      ],
      verdictColumns: [5, 6],
      rows: asBuiltRows(lineUp, review).flatMap((each) =>
        each.values.map(({ label, design, built, difference }, i) => [
          i === 0 ? each.tag : '',
          label,
          design,
          built,
          difference,
          ...(i === 0 ? [each.design, each.built] : ['', '']),
        ]),
      ),
    },
    {
      title: 'Verdicts that differ as built',
      empty: 'None.',
      columns: [
        { head: 'Of', w: 30 },
        { head: 'Check', grow: 1 },
        { head: design, w: 31 },
        { head: found, w: 31 },
        { head: 'As built, in words', grow: 2 },
      ],
      verdictColumns: [2, 3],
      rows: verdicts.map(({ tag, title, cells: [before, after] }) => {
        const told = after ? tell(after.verdict, after.runs, [after.subject.id]) : '–';
        const words = after && told !== NOT_RECORDED ? after.text : '–';
        return [tag || 'line-up', title, before ? VERDICT_WORD[before.verdict] : '–', told, words];
      }),
    },
  ];
}
