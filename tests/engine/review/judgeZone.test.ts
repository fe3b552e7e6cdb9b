import { describe, expect, it } from 'vitest';
import type { CableScope, Check, DriveScope, ElementScope, OutputScope, RunScope } from '../../../engine/checks/check.ts';
import type { Finding } from '../../../engine/checks/finding.ts';
import { Memo } from '../../../engine/checks/memo.ts';
import { waveAt } from '../../../engine/checks/runWave.ts';
import { NO_FLOW, type StepResult } from '../../../engine/checks/solveZone.ts';
import { type Cable, type Element, newLineUp } from '../../../engine/index.ts';
import type { ElementOf } from '../../../engine/lineup/elements.ts';
import { buildNetwork, type Zone } from '../../../engine/network/network.ts';
import { type Around, judgeZone, switchedOff } from '../../../engine/review/judgeZone.ts';
import { loadsBelow } from '../../../engine/review/upstream.ts';
import { bareCable, barePart as part } from '../bareParts.ts';

/**
 * What each check is told of its subject, by hand on one drawing. Results are made up and carry the name of their place, so that it is
 * seen whose they are.
 *
 *   s ─c1─ t ─c2─ b ─c3─ q1 ─c4─ q2 ─c5─ f ─c6─ r ─c7─ n ─c11─ d1 ─o1─ w ─o2─ u ─o3─ j ─o4─ m1
 *                 │                                    └─c12─ d3                     └─o5─ m2
 *                 ├─c8─ d2 ─o6─ m3
 *                 ├─c9─ k ──o7──┘
 *                 └─c10─ m4
 */

const line = { conductor: { size: '2 AWG', metal: 'copper', sets: 1 }, insulation: { type: 'XHHW-2' } } as const;
const laid = { raceway: 'tray', ambient_C: 30, loadedConductors: 3, moisture: 'dry' } as const;
const DRIVE = { riseTime_s: 1e-7 };
const MOTOR = { ratedVoltage_V: 460, ratedPower_W: 40_000 };
const PARTS: readonly Element[] = [
  part('supply', 's', { earthing: 'it' }),
  part('transformer', 't', { secondaryEarthing: 'solid-wye', terminalTemperature_C: 75 }),
  part('bus', 'b', { terminalTemperature_C: 60 }),
  part('disconnect', 'q1', { device: 'breaker' }),
  part('disconnect', 'q2'),
  part('filter', 'f', { role: 'emc-input' }),
  part('reactor', 'r'),
  part('bus', 'n'),
  part('drive', 'd1', DRIVE),
  part('drive', 'd2', DRIVE),
  part('drive', 'd3'),
  part('contactor', 'k', { role: 'bypass' }),
  part('disconnect', 'w', { device: 'switch' }),
  part('transformer', 'u'),
  part('junction', 'j'),
  part('motor', 'm1', MOTOR),
  part('motor', 'm2', MOTOR),
  part('motor', 'm3', MOTOR),
  part('motor', 'm4', MOTOR),
];
const CABLES: readonly Cable[] = [
  bareCable('c1', 's', 't:line'),
  { ...bareCable('c2', 't:load', 'b'), ...line, installation: laid },
  bareCable('c3', 'b', 'q1:line'),
  bareCable('c4', 'q1:load', 'q2:line'),
  { ...bareCable('c5', 'q2:load', 'f:line'), length_m: 10 },
  { ...bareCable('c6', 'f:load', 'r:line'), kind: 'link' },
  { ...bareCable('c7', 'r:load', 'n'), length_m: 0 },
  bareCable('c8', 'd2:line', 'b'),
  bareCable('c9', 'b', 'k:line'),
  bareCable('c10', 'b', 'm4'),
  { ...bareCable('c11', 'n', 'd1:line'), kind: 'link' },
  { ...bareCable('c12', 'n', 'd3:line'), kind: 'link' },
  bareCable('o1', 'd1:load', 'w:line'),
  { ...bareCable('o2', 'w:load', 'u:line'), length_m: 3 },
  bareCable('o3', 'u:load', 'j'),
  bareCable('o4', 'j', 'm1'),
  bareCable('o5', 'm2', 'j'),
  { ...bareCable('o6', 'd2:load', 'm3'), ...line, installation: laid, construction: 'foil-and-braid', length_m: 30 },
  bareCable('o7', 'k:load', 'm3'),
];

/** The nominal voltage of each place: behind t 240 V, behind u 600 V, and what d1 and d2 make of their input. */
const NOMINAL: Readonly<Record<string, number>> = {
  s: 480,
  't:line': 480,
  'u:load': 600,
  j: 600,
  m1: 600,
  m2: 600,
  m3: 230,
  'd2:load': 230,
  'd1:load': 220,
  'w:line': 220,
  'w:load': 220,
  'u:line': 220,
};

const probe = (scope: Check['scope'], see: (scope: never) => void, runs: readonly string[] = []): Check =>
  ({
    scope,
    slug: scope,
    judge: (told: never) => {
      see(told);
      return [{ id: `${scope}/${seenId(told)}`, check: scope, verdict: 'pass', subject: { tag: '' }, runs, fixes: [] }];
    },
  }) as unknown as Check;
const seenId = (told: { cable?: Cable; element?: Element; motor?: Element; drive?: Element | null }): string =>
  (told.cable ?? told.element ?? told.motor ?? told.drive)?.id ?? '';

interface Asked {
  readonly parts?: readonly Element[];
  readonly cables?: readonly Cable[];
  readonly off?: Readonly<Record<string, { off: boolean; reason?: string }>>;
  readonly flows?: (place: string) => Partial<StepResult>;
  readonly shown?: boolean;
  readonly kinds?: readonly Check['scope'][];
}
const ALL: readonly Check['scope'][] = ['cable', 'element', 'drive', 'output', 'run'];

function asked({ parts = PARTS, cables = CABLES, off = {}, flows = () => ({}), shown = true, kinds = ALL }: Asked = {}) {
  const { zones, runs } = buildNetwork({ elements: [...parts], cables: [...cables] });
  const seen: Record<string, Map<string, unknown>> = {};
  const probes = kinds.map((kind) => {
    const map = new Map<string, unknown>();
    seen[kind] = map;
    return [kind, [probe(kind, (told) => map.set(map.has(seenId(told)) ? `${seenId(told)} again` : seenId(told), told))]] as const;
  });
  const find = (id: string) => cables.find((each) => each.id === id) as Cable;
  const motor = (id: string) => parts.find((each) => each.id === id) as ElementOf<'motor'>;
  const { project } = newLineUp();
  const around: Omit<Around, 'below' | 'runs'> = {
    memo: new Memo(),
    checks: new Map(probes),
    shown,
    project: { ...project, checks: off },
    stepOf: (zone: Zone, index: number): StepResult => {
      const place = zone.steps[index]?.node ?? '';
      return { ...NO_FLOW, says: [place], nominal_V: NOMINAL[place] ?? 240, ...flows(place) };
    },
    neighbours: (cable) =>
      cable.id === 'c3'
        ? [
            { cable: find('c4'), zone: zones[0] ?? null },
            { cable: find('o1'), zone: zones.find(({ source }) => source.id === 'd1') ?? null },
            { cable: find('o7'), zone: null },
          ]
        : [],
    bypassed: (element) =>
      element.id === 'k'
        ? { drive: 'd2', motors: [motor('m3')], leg: [find('o7')], parts: [motor('m3')] }
        : { drive: null, motors: [], leg: [], parts: [] },
  };
  const outputs = new Map(zones.filter(({ kind }) => kind === 'output').map((zone) => [zone.source.id, zone]));
  const reviews = zones.map((zone) => ({
    zone,
    ...judgeZone(zone, {
      ...around,
      below: loadsBelow(zone, outputs),
      runs: runs.filter((run) => run.steps.at(-1)?.zone === zone),
    }),
  }));
  return {
    around,
    reviews,
    of: <T>(kind: Check['scope'], id: string) => seen[kind]?.get(id) as T,
    seen: (kind: Check['scope']) => [...(seen[kind]?.keys() ?? [])],
    cable: (id: string) => reviews.flatMap(({ cables: list }) => list).find((each) => each.id === id),
    run: (id: string) => reviews.flatMap(({ runs: list }) => list).find((each) => each.motorId === id),
    element: (id: string) => reviews.flatMap(({ elements }) => elements).find((each) => each.id === id),
    ids: reviews.flatMap(({ group }) => group.findings.map(({ id }) => id)),
  };
}
const all = asked();
const ids = (parts: readonly { readonly id: string }[]): string => parts.map(({ id }) => id).join(' ');
const sorted = (parts: readonly { readonly id: string }[]): string =>
  parts
    .map(({ id }) => id)
    .sort()
    .join(' ');
const places = (results: readonly StepResult[]): string => results.map(({ says }) => says[0]).join(' ');

describe('a cable is told', () => {
  const told = (id: string) => all.of<CableScope>('cable', id);
  const rows = (of: (scope: CableScope) => unknown, which: string) => Object.fromEntries(which.split(', ').map((id) => [id, of(told(id))]));

  it('each once, on its side, with what is at its ends as it is drawn', () => {
    expect(all.seen('cable').sort()).toEqual(CABLES.map(({ id }) => id).sort());
    expect(rows(({ side }) => side, 'c1, c12, o1, o7')).toEqual({ c1: 'input', c12: 'input', o1: 'output', o7: 'output' });
    expect(rows(({ fromElement, toElement }) => `${fromElement.id} ${toElement.id}`, 'c1, c3, c8, o5, o6, o7')).toEqual({
      c1: 's t',
      c3: 'b q1',
      c8: 'd2 b',
      o5: 'm2 j',
      o6: 'd2 m3',
      o7: 'k m3',
    });
  });
  it('all that lands on the same terminals, itself among them', () => {
    expect(rows(({ landedFrom, landedTo }) => [sorted(landedFrom), sorted(landedTo)], 'c1, c2, c8, o3, o5, o7')).toEqual({
      c1: ['c1', 'c1'],
      c2: ['c2', 'c10 c2 c3 c8 c9'],
      c8: ['c8', 'c10 c2 c3 c8 c9'],
      o3: ['o3', 'o3 o4 o5'],
      o5: ['o5', 'o3 o4 o5'],
      o7: ['o7', 'o6 o7'],
    });
  });
  it('what arrives at its far end, and the voltage that is nominal there', () => {
    expect(rows(({ flow }) => places([flow]), 'c1, c8, o2, o7')).toEqual({ c1: 't:line', c8: 'd2:line', o2: 'u:line', o7: 'k:load' });
    // Behind a drive it is that of the drive's own supply, until a transformer makes another.
    expect(rows(({ nominal_V }) => nominal_V, 'c1, c8, o1, o2, o3, o4, o6')).toEqual({
      c1: 480,
      c8: 240,
      o1: 240,
      o2: 240,
      o3: 600,
      o4: 600,
      o6: 240,
    });
    expect(rows(({ voltageFrom, source }) => `${voltageFrom.id} ${source.id}`, 'c1, c8, o1, o3, o6')).toEqual({
      c1: 's s',
      c8: 't s',
      o1: 't d1',
      o3: 'u d1',
      o6: 't d2',
    });
  });
  it('drives for which it is the last cable with a length, links and lengths of nothing left out', () => {
    expect(rows(({ arrivesAt, arrivals }) => `${sorted(arrivesAt)} at ${places(arrivals)}`, 'c5, c8, c4, c7, c11, o1')).toEqual({
      c5: 'd1 d3 at d1:line d3:line',
      c8: 'd2 at d2:line',
      c4: ' at ',
      c7: ' at ',
      c11: ' at ',
      o1: ' at ',
    });
  });
  it('what it feeds, and the drive that feeds it', () => {
    expect(rows(({ drives, motors, drive }) => [sorted(drives), sorted(motors), drive?.id ?? null], 'c1, c5, c8, c10, o1, o4')).toEqual({
      c1: ['d1 d2 d3', 'm1 m2 m3 m4', null],
      c5: ['d1 d3', 'm1 m2', null],
      c8: ['d2', 'm3', null],
      c10: ['', 'm4', null],
      o1: ['', 'm1 m2', 'd1'],
      o4: ['', 'm1', 'd1'],
    });
  });
  it('the device ahead of it, not the one at its far end nor one beyond a transformer, and the nearest that may be one', () => {
    expect(rows(({ guard, unsorted }) => [guard?.id ?? null, unsorted?.id ?? null], 'c1, c3, c4, c5, c11, o1, o3, o6')).toEqual({
      c1: [null, null],
      c3: [null, null],
      c4: ['q1', null],
      c5: ['q1', 'q2'],
      c11: ['q1', 'q2'],
      o1: ['q1', 'q2'],
      o3: [null, null],
      o6: [null, null],
    });
  });
  it('whether a filter stands ahead on its own side of the drive', () => {
    expect(rows(({ filterAhead }) => filterAhead, 'c4, c6, c11, c8, o1')).toEqual({ c4: false, c6: true, c11: true, c8: false, o1: false });
  });
  it('what stands between it and its loads with an impedance that nobody knows', () => {
    const made = asked({ flows: (place) => (['f:line', 'd2:line'].includes(place) ? {} : { resistance_ohm: 0 }) });
    const of = (id: string) => sorted(made.of<CableScope>('cable', id).unmadeBehind);
    expect([of('c2'), of('c4'), of('c5'), of('c10'), of('o1')]).toEqual(['c5 c8', 'c5', '', '', '']);
  });
  it('motors that it feeds without a drive between', () => {
    expect(rows(({ direct }) => ids(direct), 'c1, c10, c3, c8, o1, o4')).toEqual({ c1: 'm4', c10: 'm4', c3: '', c8: '', o1: '', o4: '' });
  });
  it('motors that a way around a drive would feed through it', () => {
    expect(rows(({ bypassed }) => ids(bypassed), 'c1, c2, c9, c3, c8, c10, o6, o7')).toEqual({
      c1: 'm3',
      c2: 'm3',
      c9: 'm3',
      c3: '',
      c8: '',
      c10: '',
      o6: '',
      o7: '',
    });
  });
  it('what lies in its raceway, and what feeds that', () => {
    expect([ids(told('c3').together), told('c3').togetherFed]).toEqual(['c4 o1 o7', ['input', 'd1', 'unfed']]);
    expect([told('c4').together, told('c4').togetherFed]).toEqual([[], []]);
  });
});

describe('a part is told', () => {
  const told = (id: string) => all.of<ElementScope>('element', id);
  const rows = (of: (scope: ElementScope) => unknown, which: string) =>
    Object.fromEntries(which.split(', ').map((id) => [id, of(told(id))]));

  it('each once, by what arrives at its line side; of a drive that is its supply, of a supply what it gives', () => {
    // What stands open between two zones is a part of both.
    expect(all.seen('element').sort()).toEqual([...PARTS.map(({ id }) => id), 'k again'].sort());
    expect(rows(({ flow, side, atSource }) => [places([flow]), side, atSource], 's, t, d1, w, u, k, k again')).toEqual({
      s: ['s', 'input', true],
      t: ['t:line', 'input', false],
      d1: ['d1:line', 'input', false],
      w: ['w:line', 'output', false],
      u: ['u:line', 'output', false],
      k: ['k:line', 'input', false],
      'k again': ['k:load', 'output', false],
    });
  });
  it('motors that a way around a drive at it or behind it would feed', () => {
    expect(rows(({ bypassed }) => ids(bypassed), 'b, k, q1, d2')).toEqual({ b: 'm3', k: 'm3', q1: '', d2: '' });
  });
  it('what it feeds and what feeds it', () => {
    expect(rows(({ drives, motors, drive }) => [sorted(drives), sorted(motors), drive?.id], 'q1, q2, b, d2, w, m4')).toEqual({
      q1: ['d1 d3', 'm1 m2', undefined],
      q2: ['d1 d3', 'm1 m2', undefined],
      b: ['d1 d2 d3', 'm1 m2 m3 m4', undefined],
      d2: ['d2', 'm3', undefined],
      w: ['', 'm1 m2', 'd1'],
      m4: ['', 'm4', undefined],
    });
  });
  it('the voltage that is nominal for it', () => {
    expect(rows(({ nominal_V, voltageFrom }) => `${nominal_V} ${voltageFrom.id}`, 's, t, b, w, u, j, m1, m3')).toEqual({
      s: '480 s',
      t: '480 s',
      b: '240 t',
      w: '240 t',
      u: '240 t',
      j: '600 u',
      m1: '600 u',
      m3: '240 t',
    });
  });
  it('boxes between it and its drive, and all ahead of it on the input side', () => {
    expect(rows(({ seriesBoxes }) => ids(seriesBoxes), 'm1, j, u, w, q2, m3')).toEqual({
      m1: 'w u j',
      j: 'w u',
      u: 'w',
      w: '',
      q2: '',
      m3: '',
    });
    expect(rows(({ ahead }) => ids(ahead), 'q2, s, m1')).toEqual({ q2: 'q2 c4 q1 c3 b c2 t c1 s', s: 's', m1: '' });
  });
  it('what a way around leads to', () => {
    expect(rows(({ bypassed, bypassLeg, bypassParts }) => [ids(bypassed), ids(bypassLeg), ids(bypassParts)], 'k, b')).toEqual({
      k: ['m3', 'o7', 'm3'],
      b: ['m3', '', ''],
    });
  });
});

describe('a drive is told', () => {
  const told = (id: string) => all.of<DriveScope>('drive', id);
  it('of itself once, on its input', () => {
    expect(all.seen('drive').sort()).toEqual(['d1', 'd2', 'd3']);
    expect(places([told('d1').feed])).toBe('d1:line');
  });
  it('the grounding, the transformer and the supply behind it', () => {
    expect([told('d1').earthing, told('d1').earthingPart.id, told('d1').transformer?.id, told('d1').supply?.id]).toEqual([
      'solid-wye',
      't',
      't',
      's',
    ]);
  });
  it('filters and reactors ahead, motors behind, and what was solved on the way', () => {
    const of = ({ filters, reactors, motors }: DriveScope) => [ids(filters), ids(reactors), sorted(motors)];
    expect([of(told('d1')), of(told('d2'))]).toEqual([
      ['f', 'r', 'm1 m2'],
      ['', '', 'm3'],
    ]);
    expect(places(told('d2').ahead)).toBe('d2:line b t:load t:line s');
  });
  it('of reactors those on its own side of the nearest transformer', () => {
    const parts = [part('supply', 's'), part('reactor', 'far'), part('transformer', 't'), part('reactor', 'near'), part('drive', 'd')];
    const cables = [
      bareCable('1', 's', 'far:line'),
      bareCable('2', 'far:load', 't:line'),
      bareCable('3', 't:load', 'near:line'),
      bareCable('4', 'near:load', 'd:line'),
    ];
    expect(ids(asked({ parts, cables }).of<DriveScope>('drive', 'd').reactors)).toBe('near');
  });
  it('none of what is not there', () => {
    const bare = asked({
      parts: [part('supply', 's', { earthing: 'tn' }), part('drive', 'd')],
      cables: [{ ...bareCable('c', 's', 'd:line'), kind: 'link' }],
    });
    expect(bare.of<CableScope>('cable', 'c').arrivesAt).toEqual([]);
    const scope = bare.of<DriveScope>('drive', 'd');
    expect([scope.transformer, scope.supply?.id, scope.earthing]).toEqual([null, 's', 'tn']);
  });
});

describe('the output of a drive is told', () => {
  const told = (id: string) => all.of<OutputScope>('output', id);
  it('of each drive, all that hangs on it, nearest first, itself not', () => {
    expect(all.seen('output').sort()).toEqual(['d1', 'd2', 'd3']);
    const { cables, parts, motors } = told('d1');
    expect([ids(cables), ids(parts), ids(motors)]).toEqual(['o1 o2 o3 o4 o5', 'w u j m1 m2', 'm1 m2']);
    expect([ids(told('d3').cables), ids(told('d3').parts)]).toEqual(['', '']);
  });
  it('the voltage of its supply, and the lines that waves run on', () => {
    const { nominal_V, voltageFrom, tree } = told('d1');
    expect([nominal_V, voltageFrom.id, ids(tree.hops.map(({ cable }) => cable)), tree.unmodelled?.id]).toEqual([
      240,
      't',
      'o1 o2 o3 o4 o5',
      'u',
    ]);
  });
});

describe('through transformers', () => {
  // t halves 480 V, u makes 600 of 240 V.
  const turns: Readonly<Record<string, object>> = {
    t: { primaryVoltage_V: 480, secondaryVoltage_V: 240 },
    u: { primaryVoltage_V: 240, secondaryVoltage_V: 600 },
  };
  const turned = asked({ parts: PARTS.map((each) => ({ ...each, ...turns[each.id] }) as Element) });
  it('a cable is told how what it feeds is seen, a way around too', () => {
    const told = (id: string) => {
      const { drives, drivesSeen, motors, motorsSeen, bypassed, bypassedSeen, between } = turned.of<CableScope>('cable', id);
      const by = (parts: readonly Element[], seen: readonly number[]) => parts.map((each, i) => `${each.id} ${seen[i]}`).sort();
      return [by(drives, drivesSeen), by(motors, motorsSeen), by(bypassed, bypassedSeen), ids(between)];
    };
    expect(told('c1')).toEqual([['d1 0.5', 'd2 0.5', 'd3 0.5'], ['m1 1.25', 'm2 1.25', 'm3 0.5', 'm4 0.5'], ['m3 0.5'], 't']);
    expect(told('c9')).toEqual([[], [], ['m3 1'], '']);
    expect(told('c8')).toEqual([['d2 1'], ['m3 1'], [], '']);
    expect(told('o2')).toEqual([[], ['m1 2.5', 'm2 2.5'], [], 'u']);
    expect(told('o3')).toEqual([[], ['m1 1', 'm2 1'], [], '']);
  });
  it('so are a part, a drive and all that hangs on it', () => {
    const part = turned.of<ElementScope>('element', 't');
    expect([part.bypassedSeen, ids(part.between)]).toEqual([[0.5], 't']);
    const drive = turned.of<DriveScope>('drive', 'd1');
    expect([drive.motorsSeen, ids(drive.between)]).toEqual([[2.5, 2.5], 'u']);
    const output = turned.of<OutputScope>('output', 'd1');
    expect([output.motorsSeen, ids(output.between)]).toEqual([[2.5, 2.5], 'u']);
  });
  it('what a limit of a drive’s manual hangs on is told to the cable ahead of it alone: its way, and all that draws there', () => {
    const parts = PARTS.map((each) => (each.id === 'd2' ? { ...each, manual: { inputVoltageLeast_pct: 90 } } : each) as Element);
    const limited = asked({ parts });
    const told = (id: string) => limited.of<CableScope>('cable', id).arrivalParts.map((each) => each.id);
    expect(told('c8').sort()).toEqual(['b', 'c1', 'c2', 'c8', 'd1', 'd2', 'd3', 'm4', 's', 't']);
    expect([told('c5'), told('c2')]).toEqual([[], []]);
  });
});

describe('a run is told', () => {
  const told = (id: string) => all.of<RunScope>('run', id);
  it('only behind a drive', () => expect(all.seen('run').sort()).toEqual(['m1', 'm2', 'm3']));
  it('cables and boxes from its drive on, and each disconnect from the supply on', () => {
    const { drive, cables, boxes, disconnects, driven } = told('m2');
    expect([drive.id, ids(cables), ids(boxes), ids(disconnects), ids(driven)]).toEqual(['d1', 'o1 o2 o3 o5', 'w u j', 'q1 q2 w', 'm1 m2']);
    expect([ids(told('m3').cables), ids(told('m3').boxes), ids(told('m3').disconnects)]).toEqual(['o6', '', '']);
  });
  it('what was solved at its drive and at its motor, and what is nominal ahead of the drive', () => {
    const { start, terminal, nominal_V, voltageFrom } = told('m1');
    expect([places([start, terminal]), nominal_V, voltageFrom.id]).toEqual(['d1:load m1', 240, 't']);
    expect(ids(told('m3').ahead)).toBe('d2 c8 b c2 t c1 s');
  });
  it('what each cable with a length loses ahead of its drive, in per cent, the nearest first; so is a cable', () => {
    // 4.8 V of 240, 2.4 V of 240, 4.8 V of 480; c7 and c11 have no length.
    const lost = asked({ flows: (place) => ({ drop_V: { b: 4.8, 'f:line': 2.4, 't:line': 4.8 }[place] ?? null }) });
    expect(lost.of<RunScope>('run', 'm1').lostAhead_pct).toEqual([1, null, null, 2, 1]);
    expect(lost.of<CableScope>('cable', 'c4').lostAhead_pct).toEqual([null, 2, 1]);
    expect([lost.of<CableScope>('cable', 'c1').lostAhead_pct, lost.of<CableScope>('cable', 'o1').lostAhead_pct]).toEqual([[], []]);
  });
  it('what draws a current on its supply that nobody knows', () => {
    // Nothing says what d1, d2, d3 or m4 draw; with d2 known the others are left.
    expect(sorted(told('m1').undrawnAhead)).toBe('d1 d2 d3 m4');
    const parts = PARTS.map((each) => (each.id === 'd2' ? { ...each, inputCurrent_A: 20 } : each)) as readonly Element[];
    expect(sorted(asked({ parts }).of<RunScope>('run', 'm1').undrawnAhead)).toBe('d1 d3 m4');
  });
  it('whether the voltage at its drive is known', () => {
    expect(told('m1').inputKnown).toBe(false);
    const known = asked({ flows: (place) => (place === 'd1:line' ? { voltage_V: 239 } : {}) });
    expect([known.of<RunScope>('run', 'm1').inputKnown, known.of<RunScope>('run', 'm3').inputKnown]).toEqual([true, false]);
  });
  it('what was assumed on its way, ahead of the drive and behind it', () => {
    const assuming = asked({ flows: (place) => ({ assumptions: [{ what: place, value: '', source: '' }] }) });
    expect(assuming.of<RunScope>('run', 'm3').assumptions.map(({ what }) => what)).toEqual(['d2:line', 'm3']);
  });
  it('how its shield fares, and the lines of all that hangs on the drive', () => {
    expect([told('m3').shield.state, told('m3').tree.hops.length]).toEqual(['open', 2]);
  });
});

describe('what is solved of a zone', () => {
  const flows = (place: string): Partial<StepResult> =>
    ({
      b: {
        voltage_V: 239,
        faultCurrent_A: 9000,
        faultPeak_A: 20_000,
        current_A: 70,
        drop_V: 4.8,
        resistance_ohm: 0.01,
        reactance_ohm: 0.02,
      },
      'd2:line': { voltage_V: 238 },
      m3: { voltage_V: 207, drop_V: 23, current_A: 52 },
      m4: { voltage_V: 230 },
    })[place] ?? {};
  const solved = asked({ flows });

  it('are parts, each by its line side, once', () => {
    expect(solved.element('b')).toEqual({ id: 'b', tag: 'b', voltage_V: 239, faultCurrent_A: 9000, faultPeak_A: 20_000 });
    const list = solved.reviews.flatMap(({ elements }) => elements.map(({ id }) => id));
    expect(sorted(solved.reviews.flatMap(({ cables }) => cables))).toBe(sorted(CABLES));
    expect(list.sort()).toEqual([...PARTS.map(({ id }) => id), 'k'].sort());
  });
  it('are cables: the drop of what is nominal, behind a drive of what the motor is rated for', () => {
    // 4.8 V of 240 and 23 V of 460.
    expect(solved.cable('c2')).toMatchObject({ side: 'input', current_A: 70, drop_V: 4.8, resistance_ohm: 0.01, reactance_ohm: 0.02 });
    expect([solved.cable('c2')?.drop_pct, solved.cable('o6')?.drop_pct, solved.cable('c8')?.drop_pct]).toEqual([2, 5, null]);
    expect([solved.cable('o6')?.side, solved.cable('o6')?.shield, solved.cable('c11')?.side]).toEqual(['output', 'shield', 'input']);
  });
  it('and no drop in per cent of a voltage that nobody knows', () => {
    const parts = PARTS.map((each) => (each.id === 'm3' ? part('motor', 'm3') : each));
    expect(asked({ parts, flows }).cable('o6')?.drop_pct).toBeNull();
    expect(asked({ flows: (place) => ({ ...flows(place), nominal_V: null }) }).cable('c2')?.drop_pct).toBeNull();
  });
  it('are what a cable may carry, by the cooler of its terminals, if that is shown', () => {
    // NEC Table 310.16, 2 AWG copper: 95 A at 60 °C, where the bus is; 130 A at 90 °C where no terminal is marked.
    expect([solved.cable('c2')?.ampacity_A, solved.cable('o6')?.ampacity_A, solved.cable('c8')?.ampacity_A]).toEqual([95, 130, null]);
    expect(solved.cable('c2')?.ampacityFactors.length).toBeGreaterThan(0);
    expect(solved.cable('c2')?.ampacityFactors.every(({ name, value }) => name !== '' && value > 0)).toBe(true);
    expect(solved.cable('c8')?.ampacityFactors).toEqual([]);
    const hidden = asked({ shown: false }).cable('c2');
    expect([hidden?.ampacity_A, hidden?.ampacityFactors]).toEqual([null, []]);
  });
});

describe('what is solved of a run', () => {
  const at = (more: Readonly<Record<string, Partial<StepResult>>>) => (place: string) => more[place] ?? {};
  const volts = at({ 'd2:line': { voltage_V: 238 }, m3: { voltage_V: 207 }, m4: { voltage_V: 230 } });

  it('is its way from the supply: parts and cables in turn, each once', () => {
    expect(all.run('m3')?.path).toEqual(['s', 'c1', 't', 'c2', 'b', 'c8', 'd2', 'o6', 'm3']);
    expect(all.run('m1')?.path.join(' ')).toBe('s c1 t c2 b c3 q1 c4 q2 c5 f c6 r c7 n c11 d1 o1 w o2 u o3 j o4 m1');
  });
  it('is the voltage at the motor, of what it is rated for', () => {
    const { run } = asked({ flows: volts });
    expect([run('m3')?.terminalVoltage_pct, run('m4')?.terminalVoltage_pct, run('m1')?.terminalVoltage_pct]).toEqual([45, 50, null]);
    const blank = PARTS.map((each) => (each.kind === 'motor' ? part('motor', each.id) : each));
    const unrated = asked({ parts: blank, flows: volts });
    expect([unrated.run('m3')?.terminalVoltage_pct, unrated.run('m4')?.terminalVoltage_pct]).toEqual([null, null]);
    // Where the voltage ahead of the drive is not known, what it gives is not known either.
    expect(asked({ flows: at({ m3: { voltage_V: 207 } }) }).run('m3')?.terminalVoltage_pct).toBeNull();
    expect(asked({ flows: at({ 'd2:line': { voltage_V: 238 } }) }).run('m3')?.terminalVoltage_pct).toBeNull();
  });
  it('without a drive is nothing that a drive makes', () => {
    expect(all.run('m4')).toEqual({
      motorId: 'm4',
      motorTag: 'm4',
      driveId: null,
      path: ['s', 'c1', 't', 'c2', 'b', 'c10', 'm4'],
      terminalVoltage_pct: null,
      bus_V: null,
      peak_V: null,
      peakLow_V: null,
      peakHigh_V: null,
      riseAtMotor_s: null,
      ring_Hz: null,
      ringOut_s: null,
      criticalLength_m: null,
      leadLength_m: null,
      shield: 'none',
      breaks: [],
      verdict: 'not-applicable',
    });
  });

  // One lead alone on its drive, so that its wave is solved.
  const parts = PARTS.filter(({ id }) => id !== 'k');
  const cables = CABLES.filter(({ id }) => id !== 'c9' && id !== 'o7');
  const plain = asked({ parts, cables });
  it('are the bus, √2 of what is nominal ahead of the drive, and the wave at the motor that it makes', () => {
    const run = plain.run('m3');
    const { tree, motor, drive } = plain.of<RunScope>('run', 'm3');
    const bus_V = Math.SQRT2 * 240;
    const wave = waveAt(tree, motor, { bus_V, rise_s: 1e-7, basis: 'us' });
    if ('none' in wave) throw new Error(wave.none);
    expect(drive.id).toBe('d2');
    expect(run).toMatchObject({ driveId: 'd2', bus_V, peak_V: wave.central_V, peakLow_V: wave.low_V, peakHigh_V: wave.high_V });
    expect(run).toMatchObject({ riseAtMotor_s: wave.rise_s, ring_Hz: wave.ring_Hz, ringOut_s: wave.ringOut_s, leadLength_m: 30 });
    expect(run).toMatchObject({ motorId: 'm3', motorTag: 'm3', verdict: 'not-applicable' });
    // lc = 1.25 tr v / 2, slower than light in the best of insulation.
    expect(run?.criticalLength_m).toBe(wave.critical_m);
    expect(run?.criticalLength_m).toBeLessThan((1.25 * 1e-7 * 2.99792458e8) / 2 / Math.sqrt(2));
    // A foil that nobody says how it is landed.
    expect([run?.shield, run?.breaks.length]).toEqual(['open', 2]);
  });
  it('is no wave where that is not shown, or the bus or the edge is not known', () => {
    const none = [
      asked({ parts, cables, shown: false }),
      asked({ parts: parts.map((each) => (each.id === 'd2' ? part('drive', 'd2') : each)), cables }),
      asked({ parts, cables, flows: () => ({ nominal_V: null }) }),
    ];
    for (const { run } of none) expect([run('m3')?.peak_V, run('m3')?.criticalLength_m]).toEqual([null, null]);
    expect(none.map(({ run }) => run('m3')?.bus_V)).toEqual([Math.SQRT2 * 240, Math.SQRT2 * 240, null]);
    expect(none.map(({ run }) => run('m3')?.leadLength_m)).toEqual([30, 30, 30]);
  });
  it('is no wave where a cable has no known length, nor a peak where a filter’s maker has the word', () => {
    expect([all.run('m1')?.peak_V, all.run('m1')?.criticalLength_m, all.run('m1')?.leadLength_m]).toEqual([null, null, null]);
    const filtered = asked({
      parts: [...parts, part('filter', 'z', { role: 'sine' })],
      cables: [
        ...cables.filter(({ id }) => id !== 'o6'),
        { ...bareCable('z1', 'd2:load', 'z:line'), kind: 'link' },
        { ...(cables.find(({ id }) => id === 'o6') as Cable), from: { element: 'z', port: 'load' } },
      ],
    });
    const run = filtered.run('m3');
    expect([run?.peak_V, run?.peakLow_V, run?.riseAtMotor_s, run?.ring_Hz]).toEqual([null, null, null, null]);
    // A filter behind the drive is none ahead of its supply cable.
    expect(filtered.of<CableScope>('cable', 'o6').filterAhead).toBe(false);
  });
});

describe('findings of a zone', () => {
  it('are those of each subject, of the kinds that are asked', () => {
    const expected = [
      ...CABLES.map(({ id }) => `cable/${id}`),
      ...PARTS.map(({ id }) => `element/${id}`),
      'element/k',
      ...['drive/d1', 'drive/d2', 'drive/d3', 'output/d1', 'output/d2', 'output/d3', 'run/m1', 'run/m2', 'run/m3'],
    ];
    expect([...all.ids].sort()).toEqual(expected.sort());
    expect(asked({ kinds: [] }).ids).toEqual([]);
  });
  it('of a kind that is not asked take nothing to be made', () => {
    for (const kind of ALL) {
      const { around } = asked({ kinds: ALL.filter((each) => each !== kind) });
      const key = { cable: 'cable/c3', element: 'element/q1', drive: 'drive/d1', output: 'output/d1', run: 'run/m1' }[kind as 'cable'];
      let made = false;
      around.memo.end();
      around.memo.begin();
      // What was judged is remembered under its name; nothing stands under this one.
      around.memo.same(
        key,
        () => {
          made = true;
          return undefined;
        },
        {},
      );
      expect([kind, made]).toEqual([kind, false]);
    }
  });
  it('of one subject are remembered while its scope says the same', () => {
    const { around, reviews } = asked({ cables: CABLES.filter(({ id }) => id !== 'c3') });
    const results = new Map(reviews.map(({ zone }) => [zone, zone.steps.map((_, i) => around.stepOf(zone, i))]));
    const nowhere = { drive: null, motors: [], leg: [], parts: [] };
    const memos = new Map(reviews.map(({ zone }) => [zone, new Memo()]));
    const still = { ...around, stepOf: (zone: Zone, i: number) => results.get(zone)?.[i] ?? NO_FLOW, bypassed: () => nowhere };
    const outputs = new Map(reviews.flatMap(({ zone }) => (zone.kind === 'output' ? [[zone.source.id, zone] as const] : [])));
    const { runs } = buildNetwork({ elements: [...PARTS], cables: CABLES.filter(({ id }) => id !== 'c3') });
    const judged = () =>
      [...memos].flatMap(([zone, memo]) => {
        memo.begin();
        const own = runs.filter((run) => run.steps.at(-1)?.zone.source === zone.source);
        const { group } = judgeZone(zone, { ...still, memo, below: loadsBelow(zone, outputs), runs: own });
        memo.end();
        return group.findings;
      });
    const recomputed = () => [...memos.values()].reduce((sum, memo) => sum + memo.recomputed, 0);
    const first = judged();
    expect(recomputed()).toBe(first.length);
    judged();
    expect(recomputed()).toBe(0);
    outputs.delete('d2');
    const made = judged().filter((each) => !first.includes(each));
    // Of what hangs on d2 nothing is known any more: all on the way to it is judged anew, and nothing else.
    const way = ['cable/c1', 'cable/c2', 'cable/c8', 'drive/d2', 'element/b', 'element/d2', 'element/s', 'element/t'];
    expect(made.map(({ id }) => id).sort()).toEqual(way);
    expect(recomputed()).toBe(made.length);
  });
  it('that the project switches off are said to be, with its reason', () => {
    const off = asked({ off: { run: { off: true, reason: 'site tested' }, drive: { off: true }, output: { off: false } } });
    const of = (check: string) => off.reviews.flatMap(({ group }) => group.findings).find((each) => each.check === check);
    expect([of('run')?.verdict, of('run')?.text]).toEqual(['out-of-scope', 'Switched off for this project: site tested.']);
    expect([of('drive')?.verdict, of('drive')?.text]).toEqual(['out-of-scope', 'Switched off for this project.']);
    expect([of('output')?.verdict, of('cable')?.verdict]).toEqual(['pass', 'pass']);
    const finding = { check: 'cable' } as Finding;
    expect(switchedOff(finding, {})).toBe(finding);
  });
});
