import { describe, expect, it } from 'vitest';
import type { RunScope } from '../../../engine/checks/check.ts';
import { commonMode } from '../../../engine/checks/commonModeCheck.ts';
import type { ShieldPath } from '../../../engine/checks/shieldPath.ts';
import type { Cable } from '../../../engine/lineup/cable.ts';
import type { Element, ElementOf } from '../../../engine/lineup/elements.ts';
import { expectClose } from '../../reference/expectClose.ts';
import { CABLE, DRIVE, MOTOR, runScope, SUPPLY } from './scopes.ts';
import { fields, labels, only } from './told.ts';

/**
 * The current of each edge and where it goes, worked by hand from forms that tests/reference holds against full-line solutions.
 * A third of √2 × 480 V is 226.27 V; 51 Ω a core are 17 Ω for three, where 3 nF of winding take 1.025 times the launch: 13.643 A.
 */

const C_F_PER_M = 1 / (150e6 * 51);
const LEAD: Cable = {
  ...CABLE,
  construction: 'copper-tape',
  wave: { velocity_mPerS: 150e6, toShield_FPerM: C_F_PER_M },
  from: { element: 'e1', port: 'load', landing: 'full' },
  to: { element: 'e2', port: 'line', landing: 'full' },
};
const KEEN: ElementOf<'drive'> = { ...DRIVE, riseTime_s: 0.1e-6 };
const WOUND: ElementOf<'motor'> = { ...MOTOR, ratedPower_W: 15_000, windingCapacitance_F: 3e-9 };
const WHOLE: ShieldPath = { state: 'continuous', breaks: [], bare: [] };
const TREE: RunScope['tree'] = { hops: [], motors: [], terminators: [], atDrive: null, unmodelled: null };
const judge = (more: Partial<RunScope> = {}) =>
  commonMode.scope === 'run'
    ? commonMode.judge({ ...runScope({ drive: KEEN, motor: WOUND, cables: [LEAD] }), shield: WHOLE, tree: TREE, ...more })
    : [];
const near = (ours: number | null | undefined, byHand: number) => expectClose(ours ?? 0, byHand, { relative: 2e-4 }, 'by hand');

describe('the current of each edge', () => {
  it('is what cable and winding take of a third of the bus, within a factor of two', () => {
    const found = only(judge());
    near(found.value, 13.643);
    near(found.band?.low, 6.8215);
    near(found.band?.high, 27.286);
    expect([found.verdict, found.unit, found.case, found.band?.confidence, found.phrase, found.remedies, found.assumptions.length]).toEqual(
      ['pass', 'A', 'rated', 'rough', '14 A to ground', [], 2],
    );
    // 3 × 130.72 pF/m × 60 m.
    expect(found.working).toEqual([
      'step 678.8 V / 3 = 226.3 V in 0.125 µs',
      'Zcm 17.0 Ω, cable to ground 23.53 nF, winding 3.00 nF',
      'the lesser of k1 × step / Zcm and C × step / tr: 13.64 A',
    ]);
    expect(found.runs).toEqual(['M']);
    expect(found.text).toBe('Each edge sends about 14 A (7 to 27 A) to ground by cable and motor; it returns in the shield.');
    expect(labels(found)).toEqual([
      'Voltage of S, line to line',
      'Rise time of D, 10 to 90 %',
      'Rated power of M',
      'Capacitance of M, windings to frame',
      'Length of W, one way',
      'Construction of W',
      'Conductor size of W',
      'Sets in parallel of W',
      'What W is laid in',
      'Capacitance of W, core to shield',
    ]);
  });
  it('of a slow edge is what charges both: 26.53 nF × 226.27 V / 1.25 µs = 4.802 A', () => {
    near(only(judge({ drive: { ...KEEN, riseTime_s: 1e-6 } })).value, 4.802);
    // Two pieces are as long together, the long end of a range.
    const halves = [
      { ...LEAD, length_m: 20, lengthMost_m: 40 },
      { ...LEAD, length_m: 20 },
    ];
    near(only(judge({ drive: { ...KEEN, riseTime_s: 1e-6 }, cables: halves })).value, 4.802);
    // Two sets: 50.06 nF.
    near(
      only(judge({ drive: { ...KEEN, riseTime_s: 1e-6 }, cables: [{ ...LEAD, conductor: { ...LEAD.conductor, sets: 2 } }] })).value,
      9.061,
    );
  });
  it('shows all that it was made from', () => {
    const told: Cable = { ...LEAD, lengthMost_m: 70, insulation: { type: 'XHHW-2', wall_mm: 1 } };
    expect(labels(only(judge({ drive: { ...KEEN, frontEnd: 'active', busRaise_pct: 10 }, cables: [told] })))).toHaveLength(15);
  });
  it('behind an active front end is a tenth more', () => near(only(judge({ drive: { ...KEEN, frontEnd: 'active' } })).value, 15.007));
  it('without shield or pipe goes through 100 Ω, 1.45 times the launch at 3 nF: 3.281 A', () => {
    const bare: Cable = { ...LEAD, construction: 'multicore', installation: { raceway: 'tray' } };
    const found = only(judge({ cables: [bare], shield: { ...WHOLE, state: 'none' } }));
    near(found.value, 3.281);
    expect([found.verdict, found.remedies.length, found.assumptions[0]?.value, found.assumptions[0]?.source]).toEqual([
      'note',
      2,
      '100 Ω',
      'no shield or metal pipe: 60 to 150 Ω, by the ground wire',
    ]);
    near(only(judge({ cables: [{ ...bare, conductor: { ...bare.conductor, sets: 2 } }] })).value, 6.562);
  });
  it('is told which way it takes', () => {
    const way = (state: ShieldPath['state']) => {
      const found = only(judge({ shield: { ...WHOLE, state } }));
      return [found.verdict, found.text.split('; ')[1]];
    };
    expect([way('none'), way('broken'), way('open')]).toEqual([
      ['note', 'there is no shield, and it returns by the ground wire and whatever lies near.'],
      ['note', 'the shield is broken on its way back.'],
      ['note', 'whether the shield is whole on its way back is not known.'],
    ]);
  });
  it('goes through the bearings of a motor over 20 kW too: at most 35 %, 4.8 of 13.64 A (A. Muetze, A. Binder 2007)', () => {
    const of = (ratedPower_W: number | undefined) => only(judge({ motor: { ...WOUND, ratedPower_W } })).text;
    expect(of(20_001)).toContain('in the shield. Of it up to 4.8 A may circulate through the bearings of M.');
    for (const power of [20_000, undefined]) expect(of(power).endsWith('; it returns in the shield.')).toBe(true);
  });
  it('assumes a usual edge and a winding by size, and says so', () => {
    const { windingCapacitance_F: _, ...sized } = WOUND;
    // 7.5 kW: 1.23 nF.
    const found = only(judge({ drive: DRIVE, motor: { ...sized, ratedPower_W: 7500 } }));
    expect(found.assumptions.map(({ what, value }) => `${what}: ${value}`)).toEqual([
      'common-mode impedance of the cable, three phases: 17 Ω',
      'windings of M to frame: 1.2 nF',
      'rise time of D: 0.1 µs',
      'front end of D: diode bridge',
    ]);
    expect(found.working[0]).toContain('in 0.125 µs');
  });
  it('is open without length, motor or voltage, and of dimensions that give no line', () => {
    const asked = (more: Partial<RunScope>) => {
      const found = only(judge(more));
      return [found.verdict, ...fields(found)];
    };
    const { length_m: _, ...endless } = LEAD;
    const { ratedPower_W: __, windingCapacitance_F: ___, ...unnamed } = WOUND;
    const { voltage_V: ____, ...blank } = SUPPLY;
    expect(asked({ cables: [endless as Cable], motor: unnamed, nominal_V: null, voltageFrom: blank })).toEqual([
      'open',
      'W: length_m',
      'M: ratedPower_W',
      'S: voltage_V',
    ]);
    expect(asked({ cables: [endless as Cable] })).toEqual(['open', 'W: length_m']);
    const odd: Cable = { ...LEAD, tag: 'V', wave: undefined, insulation: { type: 'XHHW-2', wall_mm: 1e-9 } };
    expect(asked({ cables: [LEAD, odd] })).toEqual(['open', 'V: insulation.wall_mm']);
    expect(only(judge({ cables: [LEAD, odd] })).text).toBe(
      'Cannot be judged: the size and wall of V give no line that a wave could run on.',
    );
    for (const none of [
      { ...LEAD, kind: 'link' as const },
      { ...LEAD, length_m: 0 },
    ])
      expect(asked({ cables: [none] })).toEqual(['not-applicable']);
  });
});

describe('a box that opens its way', () => {
  const BOX: Element = { id: 'b1', kind: 'disconnect', tag: 'X', box: 'plastic' };
  const V: Cable = { ...LEAD, id: 'c1', tag: 'V', length_m: 30, to: { element: 'b1', port: 'line', landing: 'none', groundsLanded: 3 } };
  const W: Cable = { ...LEAD, id: 'c2', tag: 'W', length_m: 30, from: { element: 'b1', port: 'load', landing: 'none', groundsLanded: 3 } };
  const BROKEN: ShieldPath = { state: 'broken', breaks: [{ state: 'broken', elementId: 'b1', ends: [] }], bare: [] };
  const at = (cables: readonly Cable[] = [V, W], shield = BROKEN, more: Partial<RunScope> = {}) =>
    judge({ cables, boxes: [MOTOR, BOX], shield, ...more }).slice(1);
  const ended = (cable: Cable, end: 'from' | 'to', more: object): Cable => ({ ...cable, [end]: { ...cable[end], ...more } });
  it('where the ground wire goes on is lifted by L I / tr: 1.2247 µH × 13.643 A / 0.125 µs = 133.67 V', () => {
    const found = only(at());
    near(found.value, 133.67);
    near(found.band?.low, 66.835);
    near(found.band?.high, 267.34);
    expect([found.id, found.runs, found.assumptions.length]).toEqual(['common-mode/element/b1/e2', ['M'], 2]);
    expect([found.verdict, found.unit, found.case, found.band?.confidence, found.phrase, found.remedies.length]).toEqual([
      'note',
      'V',
      'rated',
      'rough',
      'box lifted 134 V',
      2,
    ]);
    // 1 / (1 + 1.2 × 60) = 1.4 %; ωL / (ωL + 2 Z) = 24 / (24 + 200) = 10.7 %.
    expect(found.text).toBe(
      'At X only the ground wire goes through: the box is lifted by about 134 V (67 to 267 V) on each edge, and 1.4 % to 11 % of the current, 0.19 A to 1.5 A, goes outside the cable (order of magnitude).',
    );
    expect(found.working.slice(3)).toEqual([
      'L 1.00 to 1.50 µH in the way back; L I / tr = 1.22 µH × 13.64 A / 0.125 µs = 133.7 V',
      "share outside: L / (L + L' l) with L' 0.4 to 1.2 µH/m, and ωL / (ωL + 2 Z) with Z 100 to 300 Ω on a long run: 1.4 to 10.7 %",
    ]);
    expect(labels(found)).toEqual([
      'Shield landing at the end of V',
      'Grounds landed at the end of V',
      'Length of V, one way',
      'Shield landing at the start of W',
      'Grounds landed at the start of W',
      'Length of W, one way',
      'What the box of X is made of',
    ]);
  });
  it('where no ground wire goes on sends half to all of it elsewhere', () => {
    for (const cables of [
      [ended(V, 'to', { groundsLanded: 0 }), W],
      [V, { ...W, grounds: { count: 0 } }],
      [V, ended(W, 'from', { groundsLanded: 0 })],
    ]) {
      const found = only(at(cables));
      expect([found.id, found.verdict, found.value, found.case, found.phrase, found.remedies.length, found.working.length]).toEqual([
        'common-mode/element/b1/e2',
        'note',
        null,
        'rated',
        'all of it leaves here',
        2,
        4,
      ]);
      expect(found.text).toBe(
        'At X neither shield nor ground wire goes through: half to all of the 14 A of each edge goes by building steel and whatever else it finds.',
      );
    }
  });
  it('of which nobody said whether the ground wire goes on is open, with what it would be', () => {
    const found = only(at([ended(V, 'to', { groundsLanded: undefined }), ended(W, 'from', { groundsLanded: undefined })]));
    expect([found.verdict, ...fields(found), Math.round(found.value ?? 0)]).toEqual([
      'open',
      'V: to.groundsLanded',
      'W: from.groundsLanded',
      134,
    ]);
    expect(found.text).toContain('If it does, the box is lifted by about 134 V');
    expect(fields(only(at([V, ended(W, 'from', { groundsLanded: undefined })])))).toEqual(['W: from.groundsLanded']);
  });
  it('with pigtails is lifted by theirs: two of 100 mm, 2 × 82.9 nH, give 17.25 V', () => {
    const tails = [
      ended(V, 'to', { landing: 'pigtail', pigtailLength_mm: 100 }),
      ended(W, 'from', { landing: 'pigtail', pigtailLength_mm: 100 }),
    ];
    const found = only(at(tails, WHOLE));
    near(found.value, 17.255);
    expect([found.verdict, found.text.slice(0, 43), found.assumptions.length]).toEqual([
      'note',
      'At X the shields are joined by pigtails: th',
      2,
    ]);
    expect(found.working[3]).toContain('L 0.12 to 0.22 µH');
    expect(labels(found).slice(0, 3)).toEqual([
      'Shield landing at the end of V',
      'Grounds landed at the end of V',
      'Pigtail length at the end of V',
    ]);
    // One of no known length is taken as usual, and said to be.
    const one = only(at([ended(V, 'to', { landing: 'pigtail' }), ended(W, 'from', { landing: 'full' })], WHOLE));
    near(one.value, 17.255 / 2);
    expect(one.assumptions.map(({ what, value }) => `${what}: ${value}`).at(-1)).toBe('pigtail of V at X: 100 mm');
    near(only(at([ended(V, 'to', { landing: 'full' }), ended(W, 'from', { landing: 'pigtail' })], WHOLE)).value, 17.255 / 2);
    // Where the shield is cut besides, the ground wire decides; a break elsewhere, or one that is not known, is another matter.
    near(only(at(tails)).value, 133.67);
    for (const other of [
      { state: 'broken', elementId: 'b2', ends: [] },
      { state: 'open', elementId: 'b1', ends: [] },
    ] as const)
      near(only(at(tails, { ...BROKEN, breaks: [other] })).value, 17.255);
  });
  it('is found whichever way its cables are drawn', () => {
    const turned = (cable: Cable): Cable => ({ ...cable, from: cable.to, to: cable.from });
    const found = only(at([turned(V), turned(W)]));
    near(found.value, 133.67);
    expect(labels(found).filter((each) => each.startsWith('Grounds'))).toEqual([
      'Grounds landed at the start of V',
      'Grounds landed at the end of W',
    ]);
    const tails = only(at([turned(ended(V, 'to', { landing: 'pigtail' })), turned(ended(W, 'from', { landing: 'full' }))], WHOLE));
    expect(tails.assumptions.at(-1)?.what).toBe('pigtail of V at X');
  });
  it('is none where the shields are joined, the break lies elsewhere or is not known, or a cable has none', () => {
    const whole = [ended(V, 'to', { landing: 'full' }), ended(W, 'from', { landing: 'full' })];
    const bare = (cable: Cable): Cable => ({ ...cable, construction: 'multicore', installation: { raceway: 'tray' } });
    const broken = (state: 'broken' | 'open', elementId: string): ShieldPath => ({ ...BROKEN, breaks: [{ state, elementId, ends: [] }] });
    for (const found of [
      at(whole, WHOLE),
      at(undefined, broken('broken', 'b2')),
      at(undefined, broken('open', 'b1')),
      at([bare(V), W]),
      at([V, bare(W)]),
      at(undefined, undefined, { boxes: [] }),
      at([V, ended(W, 'from', { element: 'b9' })]),
      at([ended(V, 'to', { element: 'b9' }), W]),
    ])
      expect(found).toEqual([]);
  });
});
