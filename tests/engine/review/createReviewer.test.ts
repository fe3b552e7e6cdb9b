import { describe, expect, it } from 'vitest';
import type { Check, CheckFacts, ElementScope, RunScope } from '../../../engine/checks/check.ts';
import { finding } from '../../../engine/checks/check.ts';
import type { Verdict } from '../../../engine/checks/finding.ts';
import { Memo } from '../../../engine/checks/memo.ts';
import { type Cable, type Element, type LineUp, newLineUp, withValueAt } from '../../../engine/index.ts';
import { createReviewer, judgedAlike } from '../../../engine/review/createReviewer.ts';
import { bareCable, barePart as part } from '../bareParts.ts';

/** What the whole review puts together of its zones, and what it remembers from one document to the next, told by checks that only say what they were told. */

const lineUpOf = (elements: readonly Element[], cables: readonly Cable[], project: Partial<LineUp['project']> = {}): LineUp => {
  const empty = newLineUp(project.basis ?? 'us');
  return { ...empty, project: { ...empty.project, ...project }, elements: [...elements], cables: [...cables] };
};
const edited = (lineUp: LineUp, id: string, path: string, value: unknown): LineUp => {
  const set = <T extends Element | Cable>(each: T): T => (each.id === id ? withValueAt(each, path, value) : each);
  return { ...lineUp, elements: lineUp.elements.map(set), cables: lineUp.cables.map(set) };
};
const KINDS = ['cable', 'element', 'drive', 'output', 'run', 'fault'] as const;
type Told = Readonly<Record<string, unknown>>;
const aboutOf = (kind: Check['scope'], told: Told): string => {
  const { id } = (
    kind === 'fault' ? (told['part'] ?? {}) : (told[kind === 'run' ? 'motor' : kind === 'output' ? 'drive' : kind] ?? {})
  ) as {
    id?: string;
  };
  return id ?? '';
};
/** One for each kind: its finding holds all that it was told. */
const telling = (verdict: Verdict = 'pass', see: (kind: Check['scope'], id: string, told: Told) => void = () => undefined): Check[] =>
  KINDS.map((scope) => {
    const facts: CheckFacts = { slug: scope, title: scope, authority: 'physics', source: '', rule: '', why: '' };
    const judge = (told: Told) => {
      const id = aboutOf(scope, told);
      see(scope, id, told);
      const runs = scope === 'run' ? [(told['motor'] as Element).tag] : [];
      const side = scope === 'element' ? `${told['side']}` : `${told['kind'] ?? ''}`;
      return [finding(facts, { kind: 'lineup', id: `${id}${side}`, tag: id }, runs, { verdict, phrase: '', text: JSON.stringify(told) })];
    };
    return { ...facts, scope, judge } as unknown as Check;
  });
const toldOf = (lineUp: LineUp) => {
  const seen = new Map<string, Told>();
  const review = createReviewer(
    telling('pass', (kind, id, told) => seen.set(`${kind}/${id}${kind === 'element' ? `/${told['side']}` : ''}`, told)),
  ).review(lineUp);
  return { review, told: <T>(what: string) => seen.get(what) as T, seen: [...seen.keys()] };
};

/**
 *   s ─c1─ b ─c2─ d ─o1─ ko ─o2─ j ─o3─ m1
 *          │                     ├─o4─ w ─o5─ m2
 *          └─c3─ k ─x1─ q ─x2────┘
 */
const PARTS: readonly Element[] = [
  part('supply', 's', { voltage_V: 480 }),
  part('bus', 'b'),
  part('drive', 'd', { inputCurrent_A: 20, inputPowerFactor: 0.9 }),
  part('contactor', 'ko', { role: 'output' }),
  part('junction', 'j'),
  part('motor', 'm1', { ratedVoltage_V: 460, ratedCurrent_A: 10, powerFactor: 0.9 }),
  part('disconnect', 'w'),
  part('motor', 'm2', { ratedVoltage_V: 460, ratedCurrent_A: 10, powerFactor: 0.9 }),
  part('contactor', 'k', { role: 'bypass' }),
  part('disconnect', 'q'),
];
const link = (id: string, from: string, to: string): Cable => ({ ...bareCable(id, from, to), kind: 'link' });
const CABLES: readonly Cable[] = [
  link('c1', 's', 'b'),
  link('c2', 'b', 'd:line'),
  link('c3', 'b', 'k:line'),
  link('o1', 'd:load', 'ko:line'),
  link('o2', 'ko:load', 'j'),
  link('o3', 'j', 'm1'),
  link('o4', 'j', 'w:line'),
  link('o5', 'w:load', 'm2'),
  link('x1', 'k:load', 'q:line'),
  link('x2', 'q:load', 'j'),
];
const site = lineUpOf(PARTS, CABLES);
const ids = (parts: readonly { readonly id: string }[]): string => parts.map(({ id }) => String(id)).join(' ');

describe('a way around a drive', () => {
  const around = (lineUp: LineUp, id: string) => {
    const { bypassed, bypassLeg, bypassParts } = toldOf(lineUp).told<ElementScope>(`element/${id}/input`);
    return [ids(bypassed), ids(bypassLeg), ids(bypassParts)];
  };
  it('leads to all motors of the drive, by cables of its own to where the ways meet, over the parts on them', () => {
    expect(around(site, 'k')).toEqual(['m1 m2', 'x1 x2', 'q m1 m2 w']);
  });
  it('may land on the motor itself', () => {
    const direct = lineUpOf(
      PARTS.filter(({ id }) => 's b d m1 k'.split(' ').includes(id)),
      [...CABLES.slice(0, 3), link('o1', 'd:load', 'm1'), link('x1', 'k:load', 'm1')],
    );
    expect(around(direct, 'k')).toEqual(['m1', 'x1', '']);
  });
  it('may land behind where the motors part: its own cables end where it meets the way to any of them', () => {
    const beyond = lineUpOf(PARTS, [...CABLES.filter(({ id }) => id !== 'x2'), link('x2', 'q:load', 'w:line')]);
    expect(around(beyond, 'k')).toEqual(['m1 m2', 'x1 x2', 'q m2 w']);
  });
  it('leads nowhere where the drive has no motor, where it is not landed, and where it is another contactor', () => {
    const none = lineUpOf(
      PARTS.filter(({ kind }) => kind !== 'motor'),
      CABLES.filter(({ id }) => id !== 'o3' && id !== 'o5'),
    );
    expect(around(none, 'k')).toEqual(['', '', '']);
    expect(
      around(
        lineUpOf(
          PARTS,
          CABLES.filter(({ id }) => id !== 'x2'),
        ),
        'k',
      ),
    ).toEqual(['', '', '']);
    expect(around(edited(site, 'k', 'role', 'line'), 'd')).toEqual(['', '', '']);
    // A part ahead of it is told the motors alone.
    expect(around(site, 'b')).toEqual(['m1 m2', '', '']);
    const direct = lineUpOf([...PARTS, part('motor', 'm3')], [...CABLES.filter(({ id }) => id !== 'x2'), link('c4', 'b', 'm3')]);
    expect(around(direct, 'k')).toEqual(['', '', '']);
    const { bypassed } = toldOf(site).told<ElementScope>('element/ko/output');
    expect(bypassed).toEqual([]);
  });
});

describe('cables in one raceway', () => {
  const sharing = (shares: Readonly<Record<string, readonly string[]>>, cables: readonly Cable[] = CABLES): LineUp =>
    Object.entries(shares).reduce((now, [id, list]) => edited(now, id, 'installation.sharedWith', list), lineUpOf(PARTS, cables));
  const together = (lineUp: LineUp, id: string) => {
    const { together: cables, togetherFed } = toldOf(lineUp).told<{ together: readonly Cable[]; togetherFed: readonly string[] }>(
      `cable/${id}`,
    );
    return [ids(cables), togetherFed.join(' ')];
  };
  it('are told to each of them, whichever says so, with what feeds them', () => {
    const shared = sharing({ c1: ['o1', 'c2'], c3: ['c1'] });
    expect([together(shared, 'c1'), together(shared, 'o1'), together(shared, 'c3')]).toEqual([
      ['c2 c3 o1', 'input input d'],
      ['c1 c2 c3', 'input input input'],
      ['c1 c2 o1', 'input input d'],
    ]);
    expect(together(sharing({ c1: ['c2'], c2: ['c1'] }), 'c1')).toEqual(['c2', 'input']);
  });
  it('are one raceway however it is said: who names the same cable lies with it too, and so on from name to name', () => {
    const chain = sharing({ c1: ['c2'], c3: ['c2'], o1: ['c3'], o4: ['o5'] });
    expect(['c1', 'c2', 'c3', 'o1', 'o5'].map((id) => together(chain, id)[0])).toEqual([
      'c2 c3 o1',
      'c1 c3 o1',
      'c1 c2 o1',
      'c1 c2 c3',
      'o4',
    ]);
    // One that is gone was in one raceway with all that name it.
    expect(together(sharing({ c1: ['gone'], c3: ['gone'] }), 'c1')).toEqual(['c3', 'input']);
  });
  it('are none where nobody says so, and neither itself nor one that is gone', () => {
    expect([together(site, 'c1'), together(sharing({ c1: [] }), 'c1'), together(sharing({ c2: ['c3'] }), 'c1')]).toEqual([
      ['', ''],
      ['', ''],
      ['', ''],
    ]);
    expect(together(sharing({ c1: ['c1', 'gone', 'c2'] }), 'c1')).toEqual(['c2', 'input']);
  });
  it('may be fed by nothing', () => {
    const loose = sharing({ c1: ['y'] }, [...CABLES, link('y', '', '')]);
    expect(together(loose, 'c1')).toEqual(['y', 'unfed']);
  });
});

describe('what a zone begins with', () => {
  const volts = (lineUp: LineUp) => {
    const { cases } = toldOf(lineUp).told<ElementScope>('element/s/input').flow;
    return (['rated', 'low line', 'high line', 'overload'] as const).map((name) => cases[name].voltage_V);
  };
  const close = (found: readonly (number | null)[], expected: readonly (number | null)[]) =>
    expect(found.map((each) => each && Number(each.toFixed(6)))).toEqual(expected);

  it('is the voltage of the supply; where it does not say how far it goes, ANSI C84.1 range A or IEC 60038', () => {
    close(volts(site), [480, 456, 504, 480]);
    close(volts({ ...edited(site, 's', 'voltage_V', 400), project: { ...site.project, basis: 'iec' } }), [400, 360, 440, 400]);
    close(volts(edited(edited(site, 's', 'voltageLeast_pct', 90), 's', 'voltageMost_pct', 103)), [480, 432, 494.4, 480]);
    // The wrong way round: the worse end of each all the same.
    close(volts(edited(edited(site, 's', 'voltageLeast_pct', 103), 's', 'voltageMost_pct', 90)), [480, 432, 494.4, 480]);
    expect(volts(edited(site, 's', 'voltage_V', undefined))).toEqual([null, null, null, null]);
  });
  it('is what the drive makes of its own input, in each case', () => {
    const made = (lineUp: LineUp) => {
      const { cases } = toldOf(lineUp).told<RunScope>('run/m1').start;
      return (['rated', 'low line', 'high line', 'overload'] as const).map((name) => cases[name].voltage_V);
    };
    close(made(site), [480, 456, 504, 480]);
    close(made(edited(site, 'd', 'outputRatio_pct', 95)), [456, 433.2, 478.8, 456]);
    // What is not known ahead of the drive is not known behind it, but the motors' own voltage in the rated case.
    close(made(edited(site, 's', 'voltage_V', undefined)).slice(0, 3), [460, null, null]);
    expect(toldOf(edited(site, 's', 'voltage_V', undefined)).told<RunScope>('run/m1').inputKnown).toBe(false);
  });
});

describe('a whole review', () => {
  const verdicts = (lineUp: LineUp, checks: readonly Check[] = telling()) => createReviewer(checks).review(lineUp);

  it('tells every part and cable in the order of the document, with nothing known of what is not fed', () => {
    const more = lineUpOf([part('motor', 'loose'), ...PARTS], [{ ...bareCable('y', 'loose', ''), construction: 'copper-tape' }, ...CABLES]);
    const { elements, cables, runs } = verdicts(more);
    expect([ids(elements), ids(cables)]).toEqual([ids(more.elements), ids(more.cables)]);
    expect(elements[0]).toEqual({ id: 'loose', tag: 'loose', voltage_V: null, faultCurrent_A: null, faultPeak_A: null });
    expect(cables[0]).toEqual({
      id: 'y',
      tag: 'y',
      side: 'unfed',
      current_A: null,
      resistance_ohm: null,
      reactance_ohm: null,
      drop_V: null,
      drop_pct: null,
      ampacity_A: null,
      ampacityFactors: [],
      shield: 'shield',
    });
    expect(elements.find(({ id }) => id === 'b')?.voltage_V).toBeCloseTo(480, 6);
    expect(cables.find(({ id }) => id === 'o1')?.side).toBe('output');
    expect(runs.map(({ motorId }) => motorId)).toEqual(['m1', 'm2']);
  });
  it('tells a part that stands open between two zones by its side toward the supply', () => {
    const { elements } = verdicts(edited(edited(site, 's', 'faultCurrent_A', 10_000), 'd', 'outputRatio_pct', 90));
    const k = elements.find(({ id }) => id === 'k');
    expect(k?.voltage_V).toBeCloseTo(elements.find(({ id }) => id === 'b')?.voltage_V ?? 0, 6);
    expect(k?.faultCurrent_A).toBeCloseTo(10_000, 6);
  });
  it('counts its verdicts, and is as bad as the worst; a run as bad as what is said of it', () => {
    const checks = telling('caution').map(
      (check): Check => (check.scope === 'run' ? (telling('fail').find(({ scope }) => scope === 'run') as Check) : check),
    );
    const { verdict, counts, runs, findings } = verdicts(site, checks);
    expect([verdict, counts.fail, counts.caution, counts.pass]).toEqual(['fail', 2, findings.length - 2, 0]);
    expect(runs.map((run) => run.verdict)).toEqual(['fail', 'fail']);
    expect(verdicts(site).verdict).toBe('pass');
    expect(verdicts(site).runs.map((run) => run.verdict)).toEqual(['pass', 'pass']);
  });
  it('is not in order where there is nothing to judge', () => {
    expect(verdicts(site, []).verdict).toBe('open');
    expect(verdicts(site, []).runs.map((run) => run.verdict)).toEqual(['not-applicable', 'not-applicable']);
    const bare = lineUpOf([part('supply', 's', { voltage_V: 480 }), part('bus', 'b')], [link('c', 's', 'b')]);
    expect(verdicts(bare).findings.length).toBeGreaterThan(0);
    expect([verdicts(bare).verdict, verdicts(bare, telling('fail')).verdict]).toEqual(['open', 'fail']);
    expect(verdicts(lineUpOf([], [])).verdict).toBe('open');
  });
  it('solves what a cable may carry only where that is shown', () => {
    // NEC Table 310.16: 2 AWG copper at 90 °C, three loaded conductors at 30 °C.
    const laid = { ambient_C: 30, loadedConductors: 3, moisture: 'dry' } as const;
    const wired = {
      ...bareCable('c1', 's', 'b'),
      conductor: { size: '2 AWG', metal: 'copper' } as const,
      insulation: { type: 'XHHW-2' } as const,
      installation: laid,
    };
    const carried = (reviewer: ReturnType<typeof createReviewer>) =>
      reviewer.review(lineUpOf(PARTS, [wired, ...CABLES.slice(1)])).cables[0]?.ampacity_A;
    expect([carried(createReviewer(telling())), carried(createReviewer(telling(), false))]).toEqual([130, null]);
  });
  it('tells what a feeder feeds by way of its drives', () => {
    const { drives, motors } = toldOf(site).told<{ drives: readonly Element[]; motors: readonly Element[] }>('cable/c2');
    expect([ids(drives), ids(motors)]).toEqual(['d', 'm1 m2']);
  });
  it('tells faults of what is drawn, each by itself, and a check that is switched off as such', () => {
    const faulty = lineUpOf([...PARTS, part('motor', 'm3'), part('motor', 'm4')], CABLES);
    const { findings } = verdicts(faulty);
    const faults = findings.filter(({ check }) => check === 'fault').map(({ subject }) => subject.id);
    expect(faults.sort()).toEqual(['m3unfed-motor', 'm4unfed-motor']);
    const reviewer = createReviewer(telling());
    reviewer.review(faulty);
    expect(reviewer.review({ ...faulty, elements: [...faulty.elements] }).recomputed).toBe(0);
    expect(verdicts(lineUpOf(PARTS.slice(1), [])).findings.filter(({ subject }) => subject.id === 'no-source').length).toBe(1);
    const off = verdicts({ ...faulty, project: { ...faulty.project, checks: { fault: { off: true } } } });
    expect(off.findings.filter(({ check }) => check === 'fault').map(({ verdict }) => verdict)).toEqual(['out-of-scope', 'out-of-scope']);
    expect(off.counts['out-of-scope']).toBe(2);
  });
});

describe('what is remembered', () => {
  const feeder = {
    ...bareCable('c2', 'b', 'd:line'),
    conductor: { size: '8 AWG', metal: 'copper', sets: 1 } as const,
    insulation: { type: 'XHHW-2' } as const,
    installation: { ambient_C: 30, loadedConductors: 3, moisture: 'dry' } as const,
    length_m: 60,
  };
  const rich = lineUpOf(
    [...PARTS, part('motor', 'm3', { ratedVoltage_V: 460, ratedCurrent_A: 10, powerFactor: 0.9 })],
    [...CABLES.map((each) => (each.id === 'c2' ? feeder : each)), link('c4', 'b', 'm3')],
  );
  const shared = edited(edited(rich, 's', 'faultCurrent_A', 10_000), 'c1', 'installation.sharedWith', ['o1']);
  /** The same without a way around. */
  const plain = { ...shared, elements: shared.elements.filter(({ id }) => id !== 'k') };
  const { recomputed: _recomputed, ...empty } = createReviewer(telling()).review(lineUpOf([], []));
  const without = (review: object) => ({ ...review, recomputed: undefined });

  it('is the answer to the same parts, wherever they stand', () => {
    const reviewer = createReviewer(telling());
    const first = reviewer.review(site);
    expect(first.recomputed).toBe(first.findings.length);
    const moved = reviewer.review({ ...site, positions: { s: { x_mm: 1, y_mm: 1 } } });
    expect(moved).toEqual({ ...first, recomputed: 0 });
    expect(moved.findings).toBe(first.findings);
    expect(reviewer.review({ ...site, elements: [...site.elements] }).recomputed).toBe(0);
    expect(judgedAlike(site, { ...site })).toBe(true);
    for (const other of [{ elements: [] }, { cables: [] }, { project: { ...site.project } }])
      expect(judgedAlike(site, { ...site, ...other })).toBe(false);
    expect(without(reviewer.review(lineUpOf([], [])))).toEqual(without(empty));
  });

  const relanded = (id: string, end: 'from' | 'to', at: object) => (now: LineUp) => edited(now, id, end, at);
  it.each([
    ['the voltage of the supply', (now: LineUp) => edited(now, 's', 'voltage_V', 470)],
    ['how low it goes', (now: LineUp) => edited(now, 's', 'voltageLeast_pct', 90)],
    ['what a note says', (now: LineUp) => edited(now, 'j', 'note', 'x')],
    ['a motor', (now: LineUp) => edited(now, 'm2', 'ratedCurrent_A', 11)],
    ['what a way around is', (now: LineUp) => edited(now, 'k', 'role', 'line')],
    ['a cable of its leg', (now: LineUp) => edited(now, 'x2', 'note', 'x')],
    ['a part of its leg', (now: LineUp) => edited(now, 'q', 'note', 'x')],
    ['a neighbour in another zone', (now: LineUp) => edited(now, 'o1', 'note', 'x')],
    [
      'what feeds a neighbour',
      (now: LineUp) => ({ ...now, cables: now.cables.map((each) => (each.id === 'o1' ? { ...each, from: {} } : each)) }),
    ],
    ['how long a feeder is', (now: LineUp) => edited(now, 'c2', 'length_m', 90)],
    [
      'the temperature that its resistance is taken at',
      (now: LineUp) => ({ ...now, project: { ...now.project, conductorTemperature: 'by-load' as const } }),
    ],
    ['who shares a raceway', (now: LineUp) => edited(now, 'o3', 'installation.sharedWith', ['c2'])],
    ['the ratio of the drive', (now: LineUp) => edited(now, 'd', 'outputRatio_pct', 90)],
    ['the code it is judged by', (now: LineUp) => ({ ...now, project: { ...now.project, basis: 'iec' as const } })],
    ['what motors feed into a fault', (now: LineUp) => ({ ...now, project: { ...now.project, motorContribution: true } })],
    ['what is switched off', (now: LineUp) => ({ ...now, project: { ...now.project, checks: { run: { off: true } } } })],
    ['where a cable lands', relanded('o5', 'from', { element: 'j' })],
    [
      'which end is which',
      (now: LineUp) => relanded('c2', 'to', { element: 'b' })(relanded('c2', 'from', { element: 'd', port: 'line' })(now)),
    ],
    ['whose word a value ahead of the drive is', (now: LineUp) => edited(now, 'c2', 'provenance', { length_m: { origin: 'measured' } })],
    ['the order of cables', (now: LineUp) => ({ ...now, cables: [...now.cables].reverse() })],
    ['a part less', (now: LineUp) => ({ ...now, elements: now.elements.filter(({ id }) => id !== 'm2') })],
  ])('never answers for another line-up: %s', (_what, change) => {
    for (const base of [shared, plain]) {
      const reviewer = createReviewer(telling());
      const before = reviewer.review(base);
      const after = change(base);
      expect(without(reviewer.review(after))).toEqual(without(createReviewer(telling()).review(after)));
      expect(without(reviewer.review(base))).toEqual(without(before));
    }
  });

  it('costs an edit what it touches: of a lead nothing ahead of the drive, of a bus nothing behind one that sees no change', () => {
    const reviewer = createReviewer(telling());
    const before = reviewer.review(site);
    const after = reviewer.review(edited(site, 'o5', 'note', 'x'));
    const same = new Set(before.findings);
    const made = after.findings.filter((each) => !same.has(each)).map(({ id }) => id);
    expect(after.recomputed).toBe(made.length);
    // The cable itself, its neighbour on the terminals of w and of m2, the drive’s output and both of its runs; k's way leads past it not.
    expect(made.filter((id) => id.includes('input') || id.startsWith('cable/lineup/c'))).toEqual([]);
    expect(made).toContain('cable/lineup/o5');
    expect(made).not.toContain('cable/lineup/o1');
  });

  it('of solved zones may be shared with another reviewer', () => {
    const solving = new Memo();
    const results: unknown[] = [];
    const see = (kind: Check['scope'], id: string, told: Told) => {
      if (kind === 'element' && id === 'b') results.push(told['flow']);
    };
    const [one, other] = [createReviewer(telling('pass', see), true, solving), createReviewer(telling('pass', see), false, solving)];
    one.review(site);
    other.review(site);
    expect(results.length).toBe(2);
    expect(results[1]).toBe(results[0]);
    createReviewer(telling('pass', see)).review(site);
    expect(results[2]).not.toBe(results[0]);
  });

  it('leaves a step that came out as before the same object', () => {
    const flows: unknown[] = [];
    const see = (kind: Check['scope'], id: string, told: Told) => {
      if (kind === 'element' && id === 'b') flows.push(told['flow']);
    };
    const reviewer = createReviewer(telling('pass', see));
    reviewer.review(site);
    reviewer.review(edited(site, 'b', 'note', 'x'));
    expect(flows.length).toBe(2);
    expect(flows[1]).toBe(flows[0]);
  });
});
