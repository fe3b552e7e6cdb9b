import { describe, expect, it } from 'vitest';
import { insertInto, setValue } from '../../../editor/store/edits.ts';
import { applyFix, type Finding, type Fix, type LineUp, proposeFixes } from '../../../engine/index.ts';
import { createReviewer } from '../../../engine/review/createReviewer.ts';
import type { Kind } from '../../../engine/sizing/fixKind.ts';
import { KINDS } from '../../../engine/sizing/fixKinds.ts';
import { moveOf } from '../../../engine/sizing/previewFix.ts';
import { broken, oneLead, twoMotors } from './oneLead.ts';
import { readExample } from './readExample.ts';

/** Every kind of change is offered where its check asks for it, and mends what it is offered for. */

type Values = Parameters<typeof broken>[1];
/** The change, the check that asks for it, and what is wrong with the line-up. */
type Case = readonly [kind: string, check: string, wrong: Values];

/** About 11 A of charging at 16 kHz beside the motor's 50. */
const CHARGED: Values = { 'VFD-1': { carrier_Hz: 16_000, outputCurrent_A: 51 }, 'W-1A': { length_m: 140 } };

const CASES: readonly Case[] = [
  ['landing full', 'shield-landing', { 'W-1A': { 'from.landing': 'none' } }],
  ['grounds landed', 'protective-earth', { 'W-1A': { 'to.groundsLanded': 0 } }],
  ['metal box', 'shield-continuity', { 'DS-1': { box: 'plastic' } }],
  ['as the check proposes', 'shield-continuity', { 'DS-1': { box: 'plastic' } }],
  ['disconnect at the drive', 'shield-continuity', { 'DS-1': { box: 'plastic' } }],
  ['disconnect ahead of the drive', 'shield-continuity', { 'DS-1': { box: 'plastic' } }],
  [
    'sets alike',
    'parallel-sets',
    { 'F-1': { 'conductor.sets': 2, 'conductor.size': '1/0 AWG', setsAlike: false, setsHoldAllPhases: true } },
  ],
  ['one set', 'parallel-sets', { 'F-1': { 'conductor.sets': 2, setsAlike: true, setsHoldAllPhases: true } }],
  ['more distance', 'separation', { 'W-1A': { 'installation.toControl_mm': 150 } }],
  ['divider', 'separation', { 'W-1A': { 'installation.toControl_mm': 150 } }],
  ['early-break contact', 'output-disconnect', { 'DS-1': { earlyBreakContact: 'absent' } }],
  ['lockable switch', 'motor-isolation', { 'DS-1': { lockable: false }, 'CB-1': { lockable: false, withinSight: false } }],
  [
    'disconnect at the motor',
    'motor-isolation',
    { 'DS-1': { lockable: false, withinSight: false }, 'CB-1': { lockable: false, withinSight: false } },
  ],
  ['lower carrier', 'charging-current', CHARGED],
  ['larger switch', 'output-disconnect', { 'DS-1': { ratedCurrent_A: 30 } }],
  ['filter jumpers', 'supply-earthing', { 'S-1': { earthing: 'ungrounded' }, 'VFD-1': { builtInFilter: true, filterJumpers: 'in' } }],
  [
    'isolation transformer',
    'supply-earthing',
    { 'S-1': { earthing: 'ungrounded' }, 'VFD-1': { builtInFilter: true, filterJumpers: 'in' } },
  ],
  ['drive for the supply', 'supply-earthing', { 'S-1': { earthing: 'ungrounded' }, 'VFD-1': { builtInFilter: true, filterJumpers: 'in' } }],
  ['no capacitor', 'output-capacitor', { 'M-1': { capacitor: true } }],
  [
    'residual-current type B',
    'residual-current',
    { 'CB-1': { residualCurrentType: 'A', residualCurrent_A: 3 }, 'VFD-1': { leakageCurrent_A: 0.05 } },
  ],
  ['marked device', 'fault-rating', { 'VFD-1': { faultRatingDeviceDrawn: false } }],
  ['listed combination', 'fault-rating', { 'VFD-1': { faultRating_A: 5000 } }],
  ['higher fault rating', 'fault-rating', { 'CB-1': { faultRating_A: 5000 } }],
  ['gland', 'conduit-fill', { 'W-1A': { outerDiameter_mm: 30, 'from.glandLeast_mm': 10, 'from.glandMost_mm': 20 } }],
  ['terminal kit', 'terminal-range', { 'VFD-1': { terminalLargest: '6 AWG' } }],
  ['terminal temperature', 'lead-ampacity', { 'DS-1': { terminalTemperature_C: 60 }, 'W-1A': { 'conductor.size': '6 AWG' } }],
  ['pin adapters', 'conductor-metal', { 'F-1': { 'conductor.metal': 'aluminium' }, 'VFD-1': { terminalMetal: 'copper-only' } }],
  [
    'copper tails',
    'conductor-metal',
    { 'F-1': { 'conductor.metal': 'aluminium', 'conductor.size': '1/0 AWG' }, 'VFD-1': { terminalMetal: 'copper-only' } },
  ],
  ['thinner tails', 'terminal-range', { 'W-1A': { 'conductor.size': '3/0 AWG' } }],
  ['copper', 'conductor-metal', { 'F-1': { 'conductor.metal': 'aluminium' }, 'VFD-1': { terminalMetal: 'copper-only' } }],
  ['ground size', 'protective-earth', { 'W-1A': { 'grounds.size': '14 AWG', 'grounds.count': 1 } }],
  [
    'another ground',
    'protective-earth',
    { 'W-1A': { 'grounds.count': 0, 'grounds.size': '6 AWG', 'from.groundsLanded': 0, 'to.groundsLanded': 0 } },
  ],
  ['symmetrical grounds', 'symmetry', { 'W-1A': { 'grounds.arrangement': 'single', 'grounds.count': 1 }, 'M-1': { ratedPower_W: 37_000 } }],
  ['bearing protection', 'symmetry', { 'M-1': { bearingProtection: 'none', ratedPower_W: 120_000 } }],
  ['common-mode cores', 'symmetry', { 'M-1': { bearingProtection: 'none', ratedPower_W: 120_000 } }],
  ['size up', 'lead-ampacity', { 'W-1A': { 'conductor.size': '10 AWG' } }],
  ['more sets', 'lead-drop', { 'W-1A': { 'conductor.size': '1/0 AWG', length_m: 500 } }],
  ['size down', 'terminal-range', { 'W-1A': { 'conductor.size': '3/0 AWG' } }],
  [
    'bigger raceway',
    'conduit-fill',
    { 'W-1A': { construction: 'singles', 'installation.raceway': 'steel-conduit', 'installation.racewaySize': '1/2' } },
  ],
  ['own raceway', 'lead-ampacity', { 'W-1A': { 'conductor.size': '6 AWG', 'installation.loadedConductors': 12 } }],
  ['other insulation', 'insulation-moisture', { 'W-1A': { 'insulation.type': 'THHN', 'installation.moisture': 'wet' } }],
  ['line reactor', 'supply-stiffness', { 'S-1': { faultCurrent_A: 50_000 }, 'VFD-1': { dcChoke: 'none' } }],
  ['d.c. choke', 'supply-stiffness', { 'S-1': { faultCurrent_A: 12_000 }, 'VFD-1': { dcChoke: 'none' } }],
  ['voltage class', 'insulation-voltage', { 'S-1': { voltage_V: 600 }, 'VFD-1': { ratedVoltage_V: 600 } }],
  ['steel conduit', 'shield-present', { 'W-1A': { construction: 'singles' }, 'W-1B': { construction: 'foil-and-braid' } }],
  ['shielded cable', 'shield-present', { 'W-1A': { construction: 'singles' } }],
  ['better shield', 'shield-adequacy', { 'W-1A': { shieldCoverage_pct: 60, shieldArea_mm2: 1 } }],
  ['made for the place', 'insulation-temperature', { 'W-1A': { 'installation.flexing': true, 'conductor.build': 'stranded' } }],
  ['inverter-duty motor', 'motor-peak-voltage', { 'M-1': { insulation: 'mg1-part-30' } }],
  ['inverter-duty motor', 'motor-peak-voltage', { 'M-1': { insulation: 'ivic-a' } }],
  ['dV/dt filter', 'motor-peak-voltage', { 'M-1': { insulation: 'mg1-part-30' } }],
  ['sine filter', 'motor-peak-voltage', { 'M-1': { insulation: 'mg1-part-30' } }],
  ['terminator', 'motor-peak-voltage', { 'M-1': { insulation: 'mg1-part-30' } }],
  ['shorter route', 'manual-limits', { 'VFD-1': { 'manual.lengthShielded_m': 40 } }],
  ['drive nearer to the motor', 'manual-limits', { 'VFD-1': { 'manual.lengthShielded_m': 40 } }],
];

const objects = ({ verdict }: Finding): boolean => verdict === 'fail' || verdict === 'caution';
const put = (
  lineUp: LineUp,
  kind: 'contactor' | 'reactor' | 'filter' | 'junction',
  values: Record<string, string | number | boolean>,
): LineUp => {
  const lead = lineUp.cables.find(({ tag }) => tag === 'W-1A');
  return applyFix(lineUp, {
    label: 'put in',
    edits: [],
    inserts: [{ kind, values: { box: 'metal', ...values }, cable: lead?.id ?? '', end: 'to', port: 'line' }],
  });
};
const air = readExample('quillback-hall-air');
const filterInWay = (): LineUp => {
  const made = insertInto(air, air.cables.find(({ tag }) => tag === 'W-1A')?.id ?? '', 'filter', { x_mm: 0, y_mm: 0 });
  return setValue(setValue(made?.lineUp ?? air, made?.id ?? '', 'role', 'dvdt'), made?.id ?? '', 'ratedCurrent_A', 100);
};
const cores = [{ use: 'brake', screened: false, insulation_V: 300 }] as const;
const withCores = (): LineUp => {
  const lineUp = broken(oneLead(), { 'M-1': { 'brake.fedFrom': 'own-supply' } });
  return { ...lineUp, cables: lineUp.cables.map((each) => (each.tag === 'W-1A' ? { ...each, auxiliary: [...cores] } : each)) };
};

// 1.25 × 20 A at the drive are met by 10 AWG (35 A), 1.25 × 34 A straight from the feeder (25 hp, NEC Table 430.250) are not.
const aroundRules = broken(air, { 'VFD-1': { inputCurrent_A: 20 }, 'F-1': { 'conductor.size': '10 AWG' } });

const pigtailed = broken(oneLead(), { 'W-1A': { 'from.landing': 'pigtail', 'from.pigtailLength_mm': 100, 'from.pigtailWidth_mm': 10 } });
const inCategory = (emcCategory: 'C3', lineUp: LineUp): LineUp => ({ ...lineUp, project: { ...lineUp.project, emcCategory } });
/** A part put in behind what a cable starts from. */
const atStart = (
  lineUp: LineUp,
  tag: string,
  kind: 'transformer' | 'filter',
  values: Record<string, string | number | boolean>,
): LineUp => {
  const cable = lineUp.cables.find((each) => each.tag === tag)?.id ?? '';
  const inserts = [{ kind, values: { box: 'metal', ...values }, cable, end: 'from', port: 'load' } as const];
  return applyFix(lineUp, { label: 'put in', edits: [], inserts });
};
const TRANSFORMER = { primaryVoltage_V: 480, secondaryVoltage_V: 480, secondaryEarthing: 'solid-wye', impedance_pct: 5.75, xOverR: 6 };
const stiff = broken(oneLead(), { 'VFD-1': { dcChoke: 'none' }, 'S-1': { faultCurrent_A: 100_000, demandCurrent_A: 250 } });
const filtered = atStart(oneLead(), 'W-1A', 'filter', { role: 'sine' });

/** What needs other parts than one run has. */
const OTHERS: readonly (readonly [kind: string, check: string, lineUp: LineUp])[] = [
  ['zero current', 'output-contactor', put(oneLead(), 'contactor', { role: 'output', opensAtZeroCurrent: false })],
  ['scalar control', 'several-motors', broken(twoMotors(), { 'VFD-1': { control: 'vector', outputCurrent_A: 80 } })],
  ['start together', 'several-motors', broken(twoMotors(), { 'M-1': { switchedAlone: true }, 'VFD-1': { outputCurrent_A: 80 } })],
  ['own protection', 'several-motors', broken(twoMotors(), { 'M-1': { overload: 'drive', ownShortCircuitDevice: false } })],
  ['larger drive', 'several-motors', broken(twoMotors(), { 'VFD-1': { outputCurrent_A: 50 } })],
  ['brake supply', 'auxiliary-cores', broken(oneLead(), { 'M-1': { 'brake.fedFrom': 'drive-output', 'brake.holdsLoad': true } })],
  [
    'no reactor',
    'lead-drop',
    put(broken(oneLead(), { 'W-1A': { length_m: 120 } }), 'reactor', { impedance_pct: 5, ratedCurrent_A: 50, ratedVoltage_V: 480 }),
  ],
  ['shorter tail', 'shield-landing', inCategory('C3', pigtailed)],
  ['one piece', 'shield-continuity', put(oneLead(), 'junction', { box: 'plastic', bondBar: false })],
  ['a drive for each motor', 'several-motors', broken(twoMotors(), { 'M-1': { overload: 'drive', ownShortCircuitDevice: false } })],
  ['smaller transformer', 'supply-stiffness', atStart(stiff, 'F-1', 'transformer', { ...TRANSFORMER, ratedPower_VA: 1_500_000 })],
  [
    'transformer for a drive',
    'output-transformer',
    atStart(filtered, 'W-1A', 'transformer', { ...TRANSFORMER, ratedPower_VA: 45_000, driveDuty: false }),
  ],
  ['output reactor', 'charging-current', broken(oneLead(), CHARGED)],
  ['smaller drive', 'feeder-ampacity', broken(oneLead(), { 'VFD-1': { inputCurrent_A: 80, outputCurrent_A: 84 } })],
  ['no way around the drive', 'feeder-ampacity', aroundRules],
  ['interlock', 'bypass', broken(air, { 'K-3': { interlock: 'none' } })],
  ['filter at the drive', 'bypass', filterInWay()],
  ['screened cores', 'auxiliary-cores', withCores()],
  ['own cable for the cores', 'auxiliary-cores', withCores()],
  ['higher carrier', 'carrier-window', put(oneLead(), 'filter', { role: 'sine', carrierLeast_Hz: 6000, carrierMost_Hz: 10_000 })],
];

describe('of a line-up whose every value is given', () => {
  const judgedFor = async (kind: string, check: string, lineUp: LineUp): Promise<void> => {
    const judge = createReviewer().review;
    const before = judge(lineUp).findings.filter((each) => each.check === check && objects(each));
    expect(before.length).toBeGreaterThan(0);
    const offered: string[] = [];
    for (const finding of before) {
      const proposals = await proposeFixes(
        lineUp,
        finding.id,
        {},
        KINDS.filter(({ name }) => name === kind),
      );
      for (const { fix, asksMaker } of proposals) {
        const after = judge(applyFix(lineUp, fix)).findings;
        expect(moveOf(finding, after.find(({ id }) => id === finding.id) ?? null)).toBe(asksMaker ? 'asked' : 'better');
        expect(after.filter((each) => each.check === 'topology')).toEqual([]);
      }
      offered.push(...proposals.map(({ kinds }) => kinds.join(' + ')));
      if (offered.includes(kind)) break;
    }
    expect(offered).toContain(kind);
  };
  it.each(CASES)('%s is offered for %s', (kind, check, wrong) => judgedFor(kind, check, broken(oneLead(), wrong)), 20_000);
  it.each(OTHERS)('%s is offered for %s', judgedFor, 20_000);

  it('no kind is left out', () => {
    // A tap is tried behind a transformer, in proposeFixes.test.ts.
    const tried = new Set(['transformer tap', ...[...CASES, ...OTHERS].map(([kind]) => kind)]);
    expect(KINDS.map(({ name }) => name).filter((name) => !tried.has(name))).toEqual([]);
  });
});

describe('the way around a drive, taken out', () => {
  const feeder = (lineUp: LineUp) =>
    createReviewer()
      .review(lineUp)
      .findings.find(({ check }) => check === 'feeder-ampacity');
  const noBypass = KINDS.filter(({ name }) => name === 'no way around the drive');
  const offered = (lineUp: LineUp) => proposeFixes(lineUp, feeder(lineUp)?.id ?? '', {}, noBypass);

  it('goes with its cables, and leaves the run as it was', async () => {
    const [only] = await offered(aroundRules);
    const made = applyFix(aroundRules, only?.fix ?? { label: '', edits: [] });
    const gone = (now: LineUp, before: LineUp) =>
      [...before.elements, ...before.cables].filter(({ id }) => ![...now.elements, ...now.cables].some((each) => each.id === id));
    expect(gone(made, aroundRules).map(({ id }) => id)).toEqual(['e12', 'c11', 'c99']);
    expect(feeder(aroundRules)).toMatchObject({ verdict: 'fail', case: 'bypass', value: 35, limit: 42.5 });
    expect(feeder(made)).toMatchObject({ verdict: 'pass', value: 35, limit: 25 });
  });

  it('is the whole of it, a switch in it too', async () => {
    const longer = insertInto(aroundRules, 'c99', 'disconnect', { x_mm: 0, y_mm: 0 });
    const [only] = await offered(longer?.lineUp ?? aroundRules);
    expect(only?.fix.removes).toEqual(['e12', longer?.id]);
  });

  it('is not offered where the drive rules the feeder', async () => {
    expect(await offered(broken(aroundRules, { 'VFD-1': { inputCurrent_A: 40 } }))).toEqual([]);
  });
});

describe('two changes together', () => {
  const long = broken(oneLead(), { 'W-1A': { length_m: 200 } });
  const idOf = (tag: string): string => [...long.elements, ...long.cables].find((each) => each.tag === tag)?.id ?? '';
  const kindOf = (name: string, made: Partial<Fix>): Kind => ({ name, of: () => [[{ label: name, edits: [], ...made }]] });
  const length = (m: number) => ({ id: idOf('W-1A'), path: 'length_m', value: m });
  const thicker = ['W-1A', 'W-1B'].map((tag) => ({ id: idOf(tag), path: 'conductor.size', value: '3 AWG' }));
  const moves = [{ id: idOf('DS-1'), beside: idOf('VFD-1'), port: 'load' as const, asks: ['withinSight'] }];
  const proposed = (...kinds: readonly Kind[]) => {
    const drop = createReviewer()
      .review(long)
      .findings.find(({ check }) => check === 'lead-drop');
    return proposeFixes(long, drop?.id ?? '', {}, kinds);
  };

  // 200 m of 4 AWG drop 3.6 %; neither nine tenths of it nor the next size alone is enough for 3 %.
  it('are both made, what moves too', async () => {
    const [only, ...others] = await proposed(kindOf('shorter', { edits: [length(180)] }), kindOf('moved', { edits: thicker, moves }));
    expect([only?.kinds, others]).toEqual([['shorter', 'moved'], []]);
    const made = applyFix(long, only?.fix ?? { label: '', edits: [] });
    expect(made.cables.map(({ kind, from, to }) => [kind, from.element, to.element])).toContainEqual(['link', idOf('VFD-1'), idOf('DS-1')]);
  });

  it('are not two where they set the same value', async () => {
    expect(await proposed(kindOf('thicker', { edits: [...thicker, length(230)] }), kindOf('shorter', { edits: [length(180)] }))).toEqual(
      [],
    );
  });
});

describe('symmetrical grounds', () => {
  it('are landed, all three: the protective conductor is none the worse for them', async () => {
    const one = { 'grounds.arrangement': 'single', 'grounds.count': 1, 'from.groundsLanded': 1, 'to.groundsLanded': 1 };
    const lineUp = broken(oneLead(), { 'W-1A': one, 'M-1': { ratedPower_W: 37_000 } });
    const before = createReviewer().review(lineUp).findings;
    const symmetry = before.find(({ check, verdict }) => check === 'symmetry' && verdict !== 'pass');
    const kinds = KINDS.filter(({ name }) => name === 'symmetrical grounds');
    const [only] = await proposeFixes(lineUp, symmetry?.id ?? '', {}, kinds);
    expect(only?.worse.map(({ id }) => id)).toEqual([]);
  });
});
