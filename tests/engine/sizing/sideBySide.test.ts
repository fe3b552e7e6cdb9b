import { describe, expect, it } from 'vitest';
import {
  type Cable,
  type Compared,
  compareDesigns,
  type Element,
  type Finding,
  type LineUp,
  MOVES,
  type Verdict,
} from '../../../engine/index.ts';
import { conductorOf } from '../../../engine/sizing/compareDesigns.ts';
import { bareCable, barePart } from '../bareParts.ts';
import { feet, LineUpBuilder } from '../lineUpBuilder.ts';

/** Designs side by side, of documents and reviews that are made up: what differs, how verdicts move, and what they come to. */

const found = (id: string, verdict: Verdict, more: Partial<Finding> = {}): Finding =>
  ({ id, verdict, title: `title of ${id}`, subject: { kind: 'cable', id, tag: `tag of ${id}` }, ...more }) as unknown as Finding;
interface Made {
  readonly elements?: readonly Element[];
  readonly cables?: readonly Cable[];
  readonly findings?: readonly Finding[];
  readonly units?: 'us' | 'metric';
  readonly counts?: object;
  readonly runs?: readonly object[];
  readonly solved?: readonly object[];
}
const design = (
  name: string,
  { elements = [], cables = [], findings = [], units = 'metric', counts = {}, runs = [], solved = [] }: Made,
): Compared => {
  const empty = new LineUpBuilder().build();
  const lineUp: LineUp = { ...empty, project: { ...empty.project, units }, elements: [...elements], cables: [...cables] };
  const review = { findings, counts: { fail: 0, open: 0, caution: 0, ...counts }, runs, cables: solved } as unknown as Compared['review'];
  return { name, lineUp, review };
};
const wire = (id: string, more: object = {}): Cable => ({ ...bareCable(id, '', ''), ...more });
const total = (label: string, ...made: readonly Made[]) =>
  compareDesigns(made.map((each, i) => design(`${i}`, each))).totals.find((each) => each.label === label)?.cells;

describe('documents', () => {
  const motor = (more: object) => barePart('motor', 'M', more);
  it('of none there is nothing to compare', () => {
    expect(compareDesigns([])).toEqual({ names: [], parts: [], verdicts: [], counts: [], totals: [] });
  });

  it('differ by part and value, each in every column, each against the first that has the part', () => {
    const { names, parts } = compareDesigns([
      design('a', { elements: [motor({ ratedCurrent_A: 5 })] }),
      design('b', { elements: [motor({ ratedCurrent_A: 6 }), barePart('bus', 'B', { ratedCurrent_A: 10 })] }),
      design('c', { elements: [motor({ ratedCurrent_A: 5, powerFactor: 0.8 }), barePart('bus', 'B', { ratedCurrent_A: 20 })] }),
      design('d', {}),
    ]);
    expect(names).toEqual(['a', 'b', 'c', 'd']);
    const plain = parts.map(({ id, tag, rows }) => [
      id,
      tag,
      rows.map(({ label, cells }) => [label, ...cells.map((each) => each.replace(/[^\d.–a-z]/g, ''))]),
    ]);
    expect(plain).toEqual([
      [
        'M',
        'M',
        [
          ['Part', 'there', 'there', 'there', 'notthere'],
          ['Nameplate current', '5', '6', '5', '–'],
          ['Power factor', 'notknown', 'notknown', '0.8', '–'],
        ],
      ],
      [
        'B',
        'B',
        [
          ['Part', 'notthere', 'there', 'there', 'notthere'],
          ['Rated current', '–', '10', '20', '–'],
        ],
      ],
    ]);
  });

  it('differ in the project too, and say nothing where all are alike', () => {
    const [a, b] = [design('a', {}), design('b', {})];
    expect(compareDesigns([a, b]).parts).toEqual([]);
    const titled = { ...b, lineUp: { ...b.lineUp, project: { ...b.lineUp.project, title: 'another' } } };
    expect(compareDesigns([a, titled]).parts.map(({ id, tag, rows }) => [id, tag, rows.map(({ cells }) => cells[1])])).toEqual([
      ['', 'project', ['another']],
    ]);
  });

  it('are written in the units of the first', () => {
    const [metric, us] = [
      design('a', { cables: [wire('W', { length_m: 10 })] }),
      design('b', { units: 'us', cables: [wire('W', { length_m: 20 })] }),
    ];
    const cells = (...made: readonly Compared[]) => compareDesigns(made).parts[0]?.rows[0]?.cells.map((each) => each.replace(/\s/g, ' '));
    expect([cells(metric, us), cells(us, metric)]).toEqual([
      ['10 m', '20 m'],
      ['65.6 ft', '32.8 ft'],
    ]);
  });
});

describe('verdicts', () => {
  const moved = (before: Verdict | null, after: Verdict | null) => {
    const of = (verdict: Verdict | null) => ({ findings: verdict === null ? [] : [found('x', verdict)] });
    const { verdicts, counts } = compareDesigns([design('a', of(before)), design('b', of(after))]);
    return [verdicts[0]?.moves[1] ?? null, MOVES.filter((move) => (counts[1]?.[move] ?? 0) > 0)];
  };
  it.each<[Verdict | null, Verdict | null, string | null, readonly string[]]>([
    ['fail', 'pass', 'better', ['better']],
    ['pass', 'caution', 'worse', ['worse']],
    ['fail', 'open', 'asked', ['asked']],
    ['fail', 'fail', null, ['unchanged']],
    [null, 'fail', 'new', ['new']],
    ['caution', null, 'gone', ['gone']],
    // What is new or gone and only says that all is well is counted and not told.
    [null, 'pass', null, ['new']],
    ['pass', null, null, ['gone']],
    // What does not apply is not said at all.
    ['not-applicable', 'fail', 'new', ['new']],
    ['fail', 'out-of-scope', 'gone', ['gone']],
    ['not-applicable', 'out-of-scope', null, []],
  ])('%s to %s: %s', (before, after, move, counted) => {
    expect(moved(before, after)).toEqual([move, counted]);
  });

  it('are named as the first that says them does, and each is compared with the first', () => {
    const of = (...findings: readonly Finding[]) => ({ findings });
    const { verdicts, counts } = compareDesigns([
      design('a', of(found('x', 'fail'))),
      design('b', of(found('x', 'pass'), found('y', 'caution'))),
      design('c', of(found('x', 'fail'), found('y', 'fail'))),
    ]);
    expect(verdicts.map(({ id, title, tag, moves, cells }) => [id, title, tag, moves, cells.map((each) => each?.verdict ?? null)])).toEqual(
      [
        ['x', 'title of x', 'tag of x', ['unchanged', 'better', 'unchanged'], ['fail', 'pass', 'fail']],
        ['y', 'title of y', 'tag of y', ['unchanged', 'new', 'new'], [null, 'caution', 'fail']],
      ],
    );
    expect(counts[0]).toEqual({ better: 0, worse: 0, asked: 0, unchanged: 2, new: 0, gone: 0 });
  });
});

describe('what they come to', () => {
  it('counts what fails, is open or cautioned, and the cables without links', () => {
    const made = { counts: { fail: 3, open: 2, caution: 1 }, cables: [wire('W'), wire('V'), wire('L', { kind: 'link' })] };
    expect(['Fail', 'Open', 'Caution', 'Cables'].map((label) => total(label, made))).toEqual([['3'], ['2'], ['1'], ['2']]);
  });

  it('sums lengths at their long end, and says how many are not known', () => {
    const text = (...cables: readonly Cable[]) => total('Length of all cables', { cables })?.[0]?.replace(/\s/g, ' ');
    expect(text(wire('W', { length_m: 10, lengthMost_m: 40 }), wire('V', { length_m: 5 }), wire('L', { kind: 'link' }))).toBe('45 m');
    expect(text(wire('W', { length_m: 10 }), wire('V'))).toBe('over 10 m, without 1 cable not known');
    expect(text(wire('W'), wire('V'), wire('U', { length_m: 10 }))).toBe('over 10 m, without 2 cables not known');
  });

  // 100 m × 3 × 2 sets of 95 mm²: 57 dm³; copper weighs 8.89 kg/dm³ (IEC 60028), aluminium 2.703 (IEC 60889).
  const heavy = (metal: string) => wire('W', { length_m: 100, conductor: { size: '95 mm2', metal, sets: 2 } });
  it('weighs phase conductors by their metal, in the units of the first', () => {
    const text = (label: string, ...made: readonly Made[]) =>
      total(`Phase conductors, ${label}`, ...made)?.map((each) => each.replace(/\s/g, ' '));
    expect(text('volume', { cables: [heavy('copper')] })).toEqual(['57.0 dm³']);
    expect(text('mass', { cables: [heavy('copper')] }, { cables: [heavy('aluminium')] })).toEqual(['507 kg', '154 kg']);
    // 57 dm³ are 3478.4 in³ (61.0237 in³ a dm³); 506.73 kg are 1117.1 lb.
    expect([text('volume', { units: 'us', cables: [heavy('copper')] }), text('mass', { units: 'us', cables: [heavy('copper')] })]).toEqual([
      ['3478.4 in³'],
      ['1117 lb'],
    ]);
    expect(text('mass', { cables: [heavy('copper'), wire('V', { length_m: 10 })] })).toEqual(['over 507 kg, without 1 cable not known']);
  });

  it('leaves out, and counts, a cable of no known size, metal or length, and no link', () => {
    const left = (...cables: readonly Cable[]) => conductorOf({ ...new LineUpBuilder().build(), cables: [...cables] }).left;
    const whole = { length_m: feet(10), conductor: { size: '4 AWG', metal: 'copper' } };
    expect(left(wire('W', whole), wire('L', { kind: 'link' }))).toBe(0);
    expect([
      left(wire('W', { ...whole, length_m: undefined })),
      left(wire('W', { ...whole, conductor: { size: '4 AWG' } })),
      left(wire('W', { ...whole, conductor: { metal: 'copper' } })),
      left(wire('W', { ...whole, conductor: { size: '7 AWG', metal: 'copper' } })),
    ]).toEqual([1, 1, 1, 1]);
  });

  const runs = (label: string, key: string, ...values: readonly (number | null)[]) =>
    total(label, {
      runs: values.map((value, i) => ({ motorTag: `M-${i + 1}`, terminalVoltage_pct: null, peak_V: null, [key]: value })),
    })?.[0]?.replace(/\s/g, ' ');
  it('names the worst motor, the first of two alike, and those not known', () => {
    const [lowest, peak] = ['Lowest voltage at a motor', 'Highest peak at a motor'];
    expect([runs(lowest, 'terminalVoltage_pct', 98, 95.55, 97), runs(peak, 'peak_V', 900, 1200.4, 1000)]).toEqual([
      '95.6 %, M-2',
      '1200 V, M-2',
    ]);
    expect([runs(lowest, 'terminalVoltage_pct', 95, 95), runs(peak, 'peak_V', 900, 900)]).toEqual(['95.0 %, M-1', '900 V, M-1']);
    expect([runs(lowest, 'terminalVoltage_pct', null, 95, null), runs(peak, 'peak_V', null), runs(peak, 'peak_V')]).toEqual([
      '95.0 %, M-2; not known for 2',
      'not known',
      '–',
    ]);
  });

  it('names the cable with the largest drop, of cables alone', () => {
    const cables = [wire('W'), wire('V'), wire('L', { kind: 'link' })];
    const solved = [
      { id: 'W', tag: 'W', drop_pct: 1.234 },
      { id: 'V', tag: 'V', drop_pct: 2.345 },
      { id: 'L', tag: 'L', drop_pct: 9 },
    ];
    expect(total('Largest drop in one cable', { cables, solved })?.[0]?.replace(/\s/g, ' ')).toBe('2.35 %, V');
  });
});
