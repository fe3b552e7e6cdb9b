import { describe, expect, it } from 'vitest';
import { feederAmpacity, leadAmpacity } from '../../../engine/checks/ampacityChecks.ts';
import { cableAmpacity, insulationTemperature_C, loadTemperature_C, terminals } from '../../../engine/checks/cableAmpacity.ts';
import type { CableScope } from '../../../engine/checks/check.ts';
import type { Cable } from '../../../engine/lineup/cable.ts';
import { expectClose } from '../../reference/expectClose.ts';
import { horsepower } from '../lineUpBuilder.ts';
import { between, CABLE, cableScope, DRIVE, MOTOR } from './scopes.ts';
import { fields, labels, only } from './told.ts';

/**
 * What feeders and leads must carry, at the edge of each rule: NEC 430.122, 430.22, 430.24 with Table 310.16 and Table 430.250, and IEC
 * 60364-5-52 Table B.52.4 and B.52.5, typed here a second time. Figures worked by hand.
 */

// Table 310.16, copper: 2 AWG 95 / 115 / 130 A, 3 AWG 85 / 100 / 115 A at 60 / 75 / 90 °C.
const LAID: Cable = {
  ...CABLE,
  insulation: { type: 'XHHW-2' },
  installation: { raceway: 'steel-conduit', ambient_C: 30, loadedConductors: 3, moisture: 'dry' },
};
const MARKED = { terminalTemperature_C: 75 } as const;
const [drive, motor] = [
  { ...DRIVE, ...MARKED },
  { ...MOTOR, ...MARKED, ratedPower_W: horsepower(60) },
];
const scopeOf = (more: Partial<CableScope>) =>
  cableScope({ cable: LAID, fromElement: motor, toElement: drive, drives: [drive], motors: [motor], ...more });
const feeder = (more: Partial<CableScope> = {}) => only(feederAmpacity.scope === 'cable' ? feederAmpacity.judge(scopeOf(more)) : []);
const lead = (more: Partial<CableScope> = {}) =>
  only(leadAmpacity.scope === 'cable' ? leadAmpacity.judge(scopeOf({ side: 'output', ...more })) : []);
const drawing = (...amperes: readonly number[]) => amperes.map((inputCurrent_A, i) => ({ ...drive, tag: `D${i + 1}`, inputCurrent_A }));
const laid = (more: Partial<Cable['installation']>): Cable => ({ ...LAID, installation: { ...LAID.installation, ...more } });
/** IEC: 25 mm² copper in conduit, method B1: 89 A with PVC (B.52.4), 117 A with XLPE (B.52.5). */
const metric: Cable = {
  ...LAID,
  conductor: { size: '25 mm2', metal: 'copper', sets: 1 },
  insulation: { type: 'XLPE' },
  installation: { ambient_C: 30, groupedCircuits: 1, method: 'B1', moisture: 'dry' },
};

describe('a feeder by NEC 430.122', () => {
  it('carries 1.25 × the rated input: 92 A on 115 A, and not 92.1 A', () => {
    const [good, bad] = [feeder({ drives: drawing(92) }), feeder({ drives: drawing(92.1) })];
    expect([good.verdict, good.value, good.limit, bad.verdict]).toEqual(['pass', 115, 115, 'fail']);
    expectClose(bad.margin_pct ?? 0, (100 * (115 - 115.125)) / 115.125, { relative: 1e-9 }, 'short by hand');
    expect([good.unit, good.quantity, good.case, good.authority, good.phrase]).toEqual(['A', 'ampacity', 'rated', 'code', '115 of 115 A']);
    expect(good.source).toMatch(/430\.122.*310\.16/);
    expect(good.text).toBe('W carries 115.0 A; 115.0 A are needed (1.25 × 92.0 A rated input).');
    expect(good.working).toEqual([
      '1.25 × 92.0 A rated input',
      'table 130.0 A (2 AWG, 90 °C column, held to the 75 °C column by the terminals (NEC 110.14(C)))',
      '× 1 ambient (NEC Table 310.15(B)(1)(1))',
      '× 1 loaded conductors (NEC Table 310.15(C)(1))',
      '× 1 sets',
      '= 115.00 A',
    ]);
    expect(good.remedies).toHaveLength(3);
    expect(good.runs).toEqual(['M']);
  });
  it('takes no more of an insulation than its letters allow, whatever is entered: TW is 60 °C (Table 310.4(1)), 95 A of 2 AWG', () => {
    const tw = (temperature_C?: number): Cable => ({ ...LAID, insulation: { type: 'TW', temperature_C } });
    const [plain, claimed] = [tw(), tw(90)].map((cable) => feeder({ cable, drives: drawing(92) }));
    expect([plain?.verdict, plain?.value, claimed?.verdict, claimed?.value]).toEqual(['fail', 95, 'fail', 95]);
    expect(claimed?.working).toContain(
      'table 95.0 A (2 AWG, 60 °C column, the most of TW: 90 °C is entered, and the two contradict each other)',
    );
    // XHHW is 90 °C dry and 75 °C wet; less than its letters holds as it is entered.
    expect(insulationTemperature_C({ ...laid({ moisture: 'wet' }), insulation: { type: 'XHHW', temperature_C: 90 } })).toBe(75);
    expect(insulationTemperature_C({ ...LAID, insulation: { type: 'XHHW-2', temperature_C: 75 } })).toBe(75);
    expect(insulationTemperature_C({ ...LAID, insulation: { temperature_C: 105 } })).toBe(105);
  });
  it('of several drives 125 % of the largest and the rest: 20 + 52 × 1.25 + 30 = 115 A, in any order', () => {
    for (const order of [
      [20, 52, 30],
      [52, 30, 20],
      [30, 20, 52],
    ]) {
      const found = feeder({ drives: drawing(...order), motors: [{ ...motor, ratedCurrent_A: 100 }] });
      expect([found.verdict, found.limit]).toEqual(['pass', 115]);
      expect(found.text).toContain('125 % of the largest of 3 drives + the rest');
    }
    expect(feeder({ drives: drawing(20, 52, 30.1), motors: [{ ...motor, ratedCurrent_A: 100 }] }).verdict).toBe('fail');
  });
  it('with a way around the drive the larger of the two: a 60 hp motor wants 1.25 × 77 = 96.25 A (Table 430.250)', () => {
    const around = feeder({ drives: drawing(72), bypassed: [motor] });
    expect([around.limit, around.case, around.verdict]).toEqual([96.25, 'bypass', 'pass']);
    expect(around.text).toContain('way around the drive: 1.25 × 77.0 A');
    expect(labels(around)).toContain('table current of M');
    const [driven, same] = [feeder({ drives: drawing(78), bypassed: [motor] }), feeder({ drives: drawing(77), bypassed: [motor] })];
    expect([driven.limit, driven.case, same.limit, same.case]).toEqual([97.5, 'rated', 96.25, 'rated']);
    const { ratedPower_W: _, ...unsaid } = motor;
    const open = feeder({ drives: drawing(72), bypassed: [unsaid] });
    expect([open.verdict, fields(open)]).toEqual(['open', ['M: ratedPower_W']]);
  });
  it('with a way around one of two drives the other draws as before: 1.25 × 77 + 60 = 156.25 A, where the drives alone ask 150 A', () => {
    const two = drawing(72, 60).map((each, i) => ({ ...each, id: `d${i}` }));
    const found = feeder({ drives: two, drivesSeen: [1, 1], bypassed: [motor], bypassedDrives: ['d0'] });
    expect([found.limit, found.case]).toEqual([156.25, 'bypass']);
    expect(found.text).toContain('way around a drive, with ');
    // Around the smaller of them: 72 + 1.25 × 77 A.
    expect(feeder({ drives: two, drivesSeen: [1, 1], bypassed: [motor], bypassedDrives: ['d1'] }).limit).toBe(168.25);
    expect(feeder({ drives: two, drivesSeen: [1, 1], bypassed: [motor], bypassedDrives: ['d0'], basis: 'iec', cable: metric }).limit).toBe(
      135,
    );
  });
  it('counts motors without a drive by their table current (430.24): 1.25 × 52 + 34 = 99 A for a drive and 25 hp, 1.25 × 77 + 20 for 60 hp', () => {
    const small = { ...motor, tag: 'P', ratedPower_W: horsepower(25), ratedCurrent_A: 32 };
    const [one, two] = [
      feeder({ drives: drawing(52), motors: [motor, small], direct: [small] }),
      feeder({ drives: drawing(20), motors: [small, motor], direct: [motor] }),
    ];
    expect([one.verdict, one.limit, two.verdict, two.limit]).toEqual(['pass', 99, 'fail', 116.25]);
    expect(one.text).toContain('(125 % of the largest + the rest of 1 drive and 1 motor)');
    expect(labels(one)).toContain('table current of P');
    const { ratedCurrent_A: _, ...unsaid } = small;
    const open = feeder({ drives: drawing(52), motors: [motor, unsaid], direct: [unsaid] });
    expect([open.verdict, fields(open)]).toEqual(['open', ['P: ratedCurrent_A']]);
    // It is no motor of the drive: 52 A of rated input for 34 A would be oversized, and for 34 + 32 A not.
    const lone = { ...motor, ratedCurrent_A: 34 };
    expect(feeder({ drives: drawing(52), motors: [lone, small], direct: [small] }).verdict).toBe('note');
  });
  it('to motors alone carries what 430.22 and 430.24 ask: 1.25 × 77 A, and 1.25 × 77 + 34 A', () => {
    const small = { ...motor, tag: 'P', ratedPower_W: horsepower(25), ratedCurrent_A: 32 };
    const alone = feeder({ drives: [], direct: [motor] });
    expect([alone.verdict, alone.limit]).toEqual(['pass', 96.25]);
    expect(alone.text).toContain('1.25 × 77.0 A, ');
    expect(feeder({ drives: [], motors: [motor, small], direct: [motor, small] }).limit).toBe(130.25);
    // The leg of a way around, ahead of its contactor, feeds nothing else.
    const leg = feeder({ drives: [], motors: [], bypassed: [motor] });
    expect([leg.verdict, leg.limit, leg.case]).toEqual(['pass', 96.25, 'bypass']);
    // Those beside it run either way: 1.25 × 77 + 34 A.
    expect(feeder({ drives: drawing(72), bypassed: [motor], motors: [motor, small], direct: [small] }).limit).toBe(130.25);
  });
  it('is a note where the drives draw more than 1.3 times what the motors do: 97.5 A on 75 A', () => {
    expect([feeder({ drives: drawing(90) }).verdict]).toEqual(['pass']);
    const wide = { ...LAID, conductor: { ...LAID.conductor, size: '1/0 AWG' } };
    expect([97.5, 97.6].map((amperes) => feeder({ cable: wide, drives: drawing(amperes) }).verdict)).toEqual(['pass', 'note']);
    expect(feeder({ cable: wide, drives: drawing(105) }).text).toContain('is 140 % of the motors’ current');
    expect(feeder({ cable: wide, drives: drawing(105), motors: [] }).verdict).toBe('pass');
    // What does not carry is never only a note.
    expect(feeder({ drives: drawing(105) }).verdict).toBe('fail');
    const { ratedCurrent_A: _, ...unsaid } = motor;
    const found = feeder({ motors: [unsaid] });
    expect([found.verdict, found.text.includes('The current of M is not known')]).toEqual(['note', true]);
    expect(feeder({ cable: wide, drives: drawing(105), motors: [motor, { ...motor, ratedCurrent_A: 30 }] }).verdict).toBe('pass');
  });
  it('is not asked behind a drive, inside one enclosure, or where it feeds none', () => {
    expect(feederAmpacity.scope === 'cable' && feederAmpacity.judge(scopeOf({ side: 'output' }))).toEqual([]);
    expect(feeder({ drives: [] }).text).toBe('It feeds no drive and no motor.');
    for (const cable of [
      { ...LAID, kind: 'link' as const },
      { ...LAID, length_m: 0 },
    ])
      expect(feeder({ cable }).verdict).toBe('not-applicable');
  });
  it('without an input current is open', () => {
    const { inputCurrent_A: _, ...unsaid } = drive;
    expect([feeder({ drives: [unsaid] }).verdict, fields(feeder({ drives: [drive, unsaid] }))]).toEqual(['open', ['D: inputCurrent_A']]);
  });
});

describe('a lead by NEC 430.22', () => {
  it('carries 1.25 × the table current, not the nameplate: 96.25 A for 60 hp at 460 V', () => {
    const found = lead();
    expect([found.verdict, found.limit, found.text.includes('1.25 × 77.0 A')]).toEqual(['pass', 96.25, true]);
    const small = lead({ cable: { ...LAID, conductor: { ...LAID.conductor, size: '4 AWG' } } });
    // 4 AWG: 85 A.
    expect([small.verdict, small.value]).toEqual(['fail', 85]);
    expect(found.inputs.filter((each) => each.origin === 'looked up').map((each) => [each.what, each.value])).toEqual([
      ['table current of M', '77 A'],
      ['table current', '130.0 A'],
    ]);
  });
  it('of several motors 125 % of the largest and the rest: 1.25 × 52 + 14 + 14 = 93 A for 40, 10 and 10 hp', () => {
    const of = (hp: number) => ({ ...motor, ratedPower_W: horsepower(hp), ratedCurrent_A: hp });
    const found = lead({ motors: [of(10), of(40), of(10)] });
    expect([found.limit, found.text.includes('125 % of the largest + the rest of 3 motors')]).toEqual([93, true]);
  });
  it('a motor for low speed or high torque that draws more than the table takes its nameplate: 1.25 × 84 A = 105 A for 77 A (430.6(A)(1))', () => {
    const slow = lead({ motors: [{ ...motor, ratedCurrent_A: 84 }], cable: { ...LAID, conductor: { ...LAID.conductor, size: '3 AWG' } } });
    expect([slow.verdict, slow.limit, slow.value]).toEqual(['fail', 105, 100]);
    expect(slow.text).toContain('1.25 × 84.0 A, nameplate, above the table’s 77.0 A');
    expect(lead({ motors: [{ ...motor, ratedCurrent_A: 77 }] }).limit).toBe(96.25);
  });
  it('a motor of no table size takes its nameplate', () => {
    const found = lead({ motors: [{ ...motor, ratedVoltage_V: 380, ratedCurrent_A: 80 }] });
    expect([found.limit, found.text.includes('nameplate')]).toEqual([100, true]);
    expect(labels(found)).not.toContain('table current of M');
  });
  it('a drive marked to protect its conductors sets a floor above that, not below (NEC 430.122(B))', () => {
    const floored = (outputAmpacityLeast_A: number, more: Partial<CableScope> = {}) =>
      lead({ drive: { ...drive, manual: { protectsOutputConductors: true, outputAmpacityLeast_A } }, ...more });
    expect([floored(100).limit, floored(96.25).limit, floored(50).limit]).toEqual([100, 96.25, 96.25]);
    expect(floored(100).text).toContain('the least that D is marked for, above 1.25 × 77.0 A');
    expect(labels(floored(100))).toEqual(
      expect.arrayContaining([
        'Nameplate current of M',
        'Whether D is marked to protect its output wires',
        'Least ampacity of the output in the manual of D',
      ]),
    );
    expect(labels(floored(50))).not.toContain('Least ampacity of the output in the manual of D');
    expect(lead({ drive: { ...drive, manual: { protectsOutputConductors: false, outputAmpacityLeast_A: 100 } } }).limit).toBe(96.25);
    // What it is marked for decides: without it nothing passes.
    const marked = { ...drive, manual: { protectsOutputConductors: true } };
    const open = lead({ drive: marked });
    expect([open.verdict, fields(open)]).toEqual(['open', ['D: manual.outputAmpacityLeast_A']]);
    expect(lead({ drive: marked, cable: metric, basis: 'iec' }).verdict).toBe('pass');
    expect(lead({ drive: { ...drive, manual: { outputAmpacityLeast_A: 100 } } }).limit).toBe(100);
    // IEC knows no such marking.
    expect(floored(100, { cable: metric, basis: 'iec' }).limit).toBe(75);
    expect(lead({ drive: null }).limit).toBe(96.25);
    // Nor does a floor stand in for what is not known.
    const { ratedPower_W: _, ...unsaid } = motor;
    expect(floored(100, { motors: [unsaid] }).verdict).toBe('open');
  });
  it.each(['ratedCurrent_A', 'ratedPower_W', 'ratedVoltage_V'] as const)('without %s is open', (field) => {
    const { [field]: _, ...unsaid } = motor;
    expect([lead({ motors: [unsaid] }).verdict, fields(lead({ motors: [unsaid] }))]).toEqual(['open', [`M: ${field}`]]);
  });
  it('is not asked ahead of a drive or without a motor', () => {
    expect(leadAmpacity.scope === 'cable' && leadAmpacity.judge(scopeOf({ side: 'input' }))).toEqual([]);
    expect(lead({ motors: [] }).text).toBe('It feeds no motor.');
  });
});

describe('a temperature without letters', () => {
  it('is that of a dry place: in a wet one the letters are asked for (NEC Table 310.4(1): XHHW 90 °C dry, 75 °C wet)', () => {
    const entered = (moisture: 'dry' | 'damp' | 'wet') =>
      lead({ cable: { ...LAID, insulation: { temperature_C: 90 }, installation: { ...LAID.installation, moisture } } });
    expect([entered('dry').verdict, entered('damp').verdict]).toEqual(['pass', 'pass']);
    expect([entered('wet').verdict, fields(entered('wet'))]).toEqual(['open', ['W: insulation.type']]);
  });
});

describe('on the other side of a transformer', () => {
  it('motors of a way around are seen through it too, and so are those beside the drives', () => {
    // Table 430.250: 77 A for 60 hp at 460 V.
    const around = feeder({ drives: drawing(72), bypassed: [motor], bypassedSeen: [2] });
    expectClose(around.limit ?? 0, 1.25 * 154, { relative: 1e-12 }, '2 × 77 A');
    const beside = feeder({ drives: drawing(72), motors: [motor], direct: [motor], motorsSeen: [2] });
    expectClose(beside.limit ?? 0, 1.25 * 154 + 72, { relative: 1e-12 }, 'the largest and the rest');
    expect(beside.text).toContain('125 % of the largest + the rest of 1 drive and 1 motor');
    const more = feeder({ drives: drawing(72, 20), drivesSeen: [1, 1], motors: [motor, motor], direct: [motor, motor] });
    expect(more.text).toContain('of 2 drives and 2 motors');
    const iec = feeder({ drives: drawing(72), motors: [motor], direct: [motor], basis: 'iec', cable: metric });
    expect(iec.text).toContain('the sum of 1 drive and 1 motor');
  });
  const wide: Cable = { ...LAID, conductor: { ...LAID.conductor, size: '4/0 AWG' } };
  const tall = { ...motor, ratedVoltage_V: 2300, ratedCurrent_A: 60 };
  it('a feeder at 208 V to a drive of 480 V carries 72 A as 72 × 480 / 208: 1.25 × 166.15 A = 207.7 A', () => {
    const found = feeder(between(208, 480));
    expectClose(found.limit ?? 0, (1.25 * 72 * 480) / 208, { relative: 1e-12 }, 'the same power on both sides');
    expect([found.verdict, feeder({ ...between(208, 480), cable: wide }).verdict]).toEqual(['fail', 'pass']);
    expect(found.text).toContain('1.25 × 166.2 A rated input, seen through T');
    expect(labels(found)).toContain('Primary voltage of T');
    expectClose(feeder(between(4160, 480)).limit ?? 0, (1.25 * 72 * 480) / 4160, { relative: 1e-12 }, 'the same power on both sides');
    expectClose(feeder({ ...between(208, 480), basis: 'iec', cable: metric }).limit ?? 0, (72 * 480) / 208, { relative: 1e-12 }, 'IEC: Ib');
    expect([feeder({ nominal_V: 440 }).limit, feeder({ nominal_V: null }).limit]).toEqual([90, 90]);
  });
  it('a lead at 480 V to a motor of 2300 V carries 60 A as 287.5 A', () => {
    const found = lead({ motors: [tall], ...between(480, 2300) });
    expectClose(found.limit ?? 0, 1.25 * 287.5, { relative: 1e-12 }, '60 × 2300 / 480');
    expect(found.text).toContain('nameplate, seen through T');
    expectClose(lead({ motors: [tall] }).limit ?? 0, 75, { relative: 1e-12 }, 'behind it its own');
    expect(lead({ motors: [{ ...motor, ratedVoltage_V: 380, ratedCurrent_A: 80 }] }).limit).toBe(100);
  });
  it('a drive is not oversized because its motor stands behind one: 287.5 A of 300 A', () => {
    expect(feeder({ drives: drawing(90), motors: [{ ...tall, ratedCurrent_A: 15 }], motorsSeen: [2300 / 480] }).verdict).toBe('pass');
  });
  it('without its voltages it is open', () => {
    const unsaid = { between: [{ id: 't', kind: 'transformer', tag: 'T', primaryVoltage_V: 480 }] as const };
    expect([fields(feeder(unsaid)), fields(lead(unsaid))]).toEqual([['T: secondaryVoltage_V'], ['T: secondaryVoltage_V']]);
  });
});

describe('by IEC 60364-5-52 the current itself', () => {
  it('Iz 117 A with XLPE, 89 A with PVC, in conduit', () => {
    const iec = (inputCurrent_A: number, cable = metric) =>
      feeder({ basis: 'iec', cable, drives: drawing(inputCurrent_A), motors: [{ ...motor, ratedCurrent_A: 200 }] });
    expect([iec(117).verdict, iec(117.1).verdict, iec(117).limit, iec(117).value]).toEqual(['pass', 'fail', 117, 117]);
    const pvc: Cable = { ...metric, insulation: { type: 'PVC' } };
    expect([iec(89, pvc).verdict, iec(89.1, pvc).verdict]).toEqual(['pass', 'fail']);
    expect(iec(50).text).toContain('Ib 50.0 A rated input');
    expect(feeder({ basis: 'iec', cable: metric, drives: drawing(40, 30) }).limit).toBe(70);
  });
  it('on a feeder the sum of drives and motors beside them: 72 + 45 = 117 A', () => {
    const beside = { ...motor, tag: 'P', ratedCurrent_A: 45 };
    const found = feeder({ basis: 'iec', cable: metric, motors: [motor, beside], direct: [beside] });
    expect([found.verdict, found.value, found.limit]).toEqual(['pass', 117, 117]);
    const more = { ...beside, ratedCurrent_A: 45.1 };
    expect(feeder({ basis: 'iec', cable: metric, motors: [motor, more], direct: [more] }).verdict).toBe('fail');
  });
  it('of the motors the nameplate: no table, no 125 %', () => {
    const found = lead({ basis: 'iec', cable: metric });
    expect([found.limit, found.text.includes('Ib 75.0 A nameplate')]).toEqual([75, true]);
    expect(labels(found)).not.toContain('table current of M');
    expect(labels(found)).not.toContain('Rated power of M');
    const { ratedPower_W: _, ...unsaid } = motor;
    expect(lead({ basis: 'iec', cable: metric, motors: [unsaid] }).verdict).toBe('pass');
    expect(lead({ basis: 'iec', cable: metric, motors: [motor, motor] }).limit).toBe(150);
  });
  it.each([
    ['E', 'steel-conduit', 'multicore'],
    ['C', 'plastic-conduit', 'singles'],
    ['F', 'tray', 'multicore'],
    ['B1', 'steel-conduit', 'foil-and-braid'],
    ['E', 'direct-buried', 'multicore'],
    ['D2', 'buried-duct', 'multicore'],
    ['D1', 'ladder', 'multicore'],
  ] as const)('method %s in %s, %s, passes nothing (Table B.52.1): it may carry less', (method, raceway, construction) => {
    const cable: Cable = { ...metric, construction, installation: { ...metric.installation, method, raceway } };
    const found = lead({ basis: 'iec', cable });
    expect([found.verdict, found.phrase, found.missing]).toEqual(['open', 'method and place differ', []]);
    // What fails by a method that is too good fails by any.
    expect(lead({ basis: 'iec', cable, motors: [{ ...motor, ratedCurrent_A: 400 }] }).verdict).toBe('fail');
    expect(lead({ cable: { ...cable, conductor: LAID.conductor, installation: { ...LAID.installation, method, raceway } } }).verdict).toBe(
      'pass',
    );
  });
  it.each([
    ['B1', 'steel-conduit', 'singles'],
    ['B2', 'plastic-conduit', 'multicore'],
    ['D1', 'buried-duct', 'multicore'],
    ['D2', 'direct-buried', 'multicore'],
    ['E', 'tray', 'foil-and-braid'],
    ['F', 'ladder', 'singles'],
    ['C', 'none', 'multicore'],
  ] as const)('method %s in %s, %s, is in order', (method, raceway, construction) => {
    const cable: Cable = { ...metric, construction, installation: { ...metric.installation, ambient_C: 20, method, raceway } };
    expect(lead({ basis: 'iec', cable, motors: [{ ...motor, ratedCurrent_A: 40 }] }).verdict).toBe('pass');
  });
  it('the soil of the tables is assumed where ducts in the ground say none, and said there alone', () => {
    const assumed = (more: Partial<Cable['installation']>) =>
      lead({ basis: 'iec', cable: { ...metric, installation: { ...metric.installation, ...more } } }).assumptions.map((each) => each.value);
    expect([assumed({ method: 'D1' }), assumed({ method: 'D1', soil_KmPerW: 1 }), assumed({ method: 'C' })]).toEqual([
      ['2.5 K·m/W'],
      [],
      [],
    ]);
    expect(assumed({ method: undefined as never })).toEqual([]);
    expect(
      labels(
        lead({
          basis: 'iec',
          cable: { ...metric, insulation: { type: 'XLPE', temperature_C: 90 }, installation: { ...metric.installation, soil_KmPerW: 2.5 } },
        }),
      ),
    ).toEqual([
      'Conductor size of W',
      'Conductor metal of W',
      'Sets in parallel of W',
      'Insulation type of W',
      'Insulation temperature of W',
      'Hottest ambient of W',
      'Whether it is dry, damp or wet around W',
      'Reference method of W',
      'Construction of W',
      'Circuits grouped with W',
      'Soil resistivity of W',
      'Terminal temperature of M',
      'Terminal temperature of D',
      'Nameplate current of M',
      'table current',
    ]);
  });
});

describe('what it was made from', () => {
  it('is shown, by NEC the loaded conductors and what Table 430.250 is asked with', () => {
    expect(labels(lead())).toEqual([
      'Conductor size of W',
      'Conductor metal of W',
      'Sets in parallel of W',
      'Insulation type of W',
      'Hottest ambient of W',
      'Whether it is dry, damp or wet around W',
      'Loaded conductors together with W',
      'Terminal temperature of M',
      'Terminal temperature of D',
      'Rated power of M',
      'Rated voltage of M',
      'Nameplate current of M',
      'table current of M',
      'table current',
    ]);
    expect(labels(feeder())).toContain('Rated input current of D');
  });
});

describe('where something is not known', () => {
  it.each([
    [
      'us',
      [
        'conductor.size',
        'conductor.metal',
        'installation.ambient_C',
        'installation.loadedConductors',
        'insulation.type',
        'installation.moisture',
      ],
    ],
    [
      'iec',
      [
        'conductor.size',
        'conductor.metal',
        'installation.ambient_C',
        'installation.groupedCircuits',
        'installation.method',
        'insulation.type',
        'installation.moisture',
      ],
    ],
  ] as const)('of the cable, by %s, it says what', (basis, expected) => {
    const bare = { ...CABLE, conductor: {}, installation: {} };
    const found = lead({ basis, cable: bare });
    expect([found.verdict, found.missing.map((each) => each.field)]).toEqual(['open', expected]);
  });
  it('a temperature stands for the type, the place is asked only without the type', () => {
    const { moisture: _, ...place } = LAID.installation;
    const asked = (insulation: Cable['insulation'], installation = place) => fields(lead({ cable: { ...LAID, insulation, installation } }));
    expect([asked({ temperature_C: 90 }), asked({ temperature_C: 90 }, LAID.installation), asked({ type: 'XHHW-2' })]).toEqual([
      ['W: installation.moisture'],
      [],
      [],
    ]);
  });
  it('the wet figure is taken and said: THHN does 75 °C there as THWN, XHHW 75 of 90 °C', () => {
    const { moisture: _, ...place } = LAID.installation;
    const found = lead({ cable: { ...LAID, insulation: { type: 'XHHW' }, installation: place } });
    expect(found.assumptions.map((each) => [each.what, each.value])).toEqual([['place', 'wet']]);
    expect(lead().assumptions).toEqual([]);
    const { sets: __, ...one } = LAID.conductor;
    expect(lead({ cable: { ...LAID, conductor: one } }).assumptions.map((each) => each.what)).toEqual(['sets in parallel']);
  });
  it('a size that no table has is open, not a pass', () => {
    const found = lead({ cable: laid({ ambient_C: 95 }) });
    expect([found.verdict, found.phrase, fields(found)]).toEqual(['open', 'no table row', ['W: conductor.size']]);
    expect(found.remedies).toHaveLength(1);
  });
});

describe('more circuits in its raceway than are said to be loaded', () => {
  // Table 310.15(C)(1): 80 % with 4 to 6 conductors, 70 % with 7 to 9; 130 A × 0.8 = 104 A and × 0.7 = 91 A.
  const beside = (count: number, amperes: number, more: Partial<CableScope> = {}) =>
    feeder({
      drives: drawing(amperes),
      motors: [],
      together: Array.from({ length: count }, (_, i) => ({ ...LAID, id: `x${i}`, tag: `X${i + 1}` })),
      togetherFed: Array.from({ length: count }, () => 'input'),
      ...more,
    });
  it('is open where it carries enough with the fewer only, and judged with the more where it passes with both', () => {
    const open = beside(1, 92);
    expect([open.verdict, open.value, open.limit, fields(open)]).toEqual(['open', 104, 115, ['W: installation.loadedConductors']]);
    expect(open.text).toBe(
      'Loaded conductors together with W: 3 as is said, with which it carries 115.0 A; 6 in its raceway, with which it carries 104.0 A; 115.0 A are needed.',
    );
    expect(beside(2, 80).value).toBe(91);
    const pass = beside(1, 80);
    expect([pass.verdict, pass.value, pass.assumptions]).toEqual([
      'pass',
      104,
      [{ what: 'Loaded conductors together with W', value: '6', source: 'as many as lie in its raceway: said are 3' }],
    ]);
    expect(beside(1, 93).verdict).toBe('fail');
  });
  it('as many as are said, or more, are taken as said; so are those in no pipe, and what nothing feeds', () => {
    expect(
      [beside(1, 80, { cable: laid({ loadedConductors: 6 }) }), beside(1, 72, { cable: laid({ loadedConductors: 9 }) })].map((each) => [
        each.value,
        each.assumptions,
      ]),
    ).toEqual([
      [104, []],
      [91, []],
    ]);
    expect([beside(1, 92, { cable: laid({ raceway: 'tray' }) }).verdict, beside(1, 92, { togetherFed: ['unfed'] }).verdict]).toEqual([
      'pass',
      'pass',
    ]);
  });
  it('in the IEC basis circuits: 117 A × 0.8 for two (Table B.52.17)', () => {
    const piped = { ...metric, installation: { ...metric.installation, raceway: 'plastic-conduit' as const } };
    const found = [93, 94].map((amperes) => beside(1, amperes, { basis: 'iec', cable: piped }));
    expect(found.map((each) => each.verdict)).toEqual(['pass', 'open']);
    expectClose(found[0]?.value ?? 0, 93.6, { relative: 1e-12 }, 'B.52.17');
    expect(fields(found[1] ?? beside(1, 1))).toEqual(['W: installation.groupedCircuits']);
    expect(found[1]?.text).toContain('Circuits grouped with W: 1 as is said, with which it carries 117.0 A; 2 in its raceway, with');
  });
});

describe('terminals (NEC 110.14(C))', () => {
  const between = (from: 60 | 75 | 90 | undefined, to: 60 | 75 | 90 | undefined, amperes: number) => {
    const end = (temperature: 60 | 75 | 90 | undefined) => {
      const { terminalTemperature_C: _, ...bare } = drive;
      return {
        ...bare,
        tag: temperature === undefined ? 'unmarked' : `${temperature}`,
        ...(temperature === undefined ? {} : { terminalTemperature_C: temperature }),
      };
    };
    return feeder({
      fromElement: end(from),
      toElement: end(to),
      drives: drawing(amperes / 1.25),
      motors: [{ ...motor, ratedCurrent_A: 200 }],
    });
  };
  it('the cooler end decides: 95 A at 60 °C, 115 A at 75 °C, 130 A at 90 °C', () => {
    expect([between(75, 75, 115).verdict, between(75, 75, 116).verdict]).toEqual(['pass', 'fail']);
    expect([between(60, 75, 95).verdict, between(90, 60, 96).verdict]).toEqual(['pass', 'fail']);
    expect([between(90, 90, 130).verdict, between(90, 90, 131).verdict]).toEqual(['pass', 'fail']);
  });
  it('an unmarked end is 60 °C for a pass and 75 °C for a failure; between, it is the marking that decides', () => {
    expect([95, 95.1, 115, 115.1].map((amperes) => between(undefined, 75, amperes).verdict)).toEqual(['pass', 'open', 'open', 'fail']);
    expect([115, 115.1].map((amperes) => between(undefined, 90, amperes).verdict)).toEqual(['open', 'fail']);
    const found = between(undefined, 90, 110);
    expect([fields(found), found.value, found.limit]).toEqual([['unmarked: terminalTemperature_C'], 95, 110]);
    expectClose(found.margin_pct ?? 0, (100 * (95 - 110)) / 110, { relative: 1e-9 }, 'of the lesser');
    expect(found.text).toContain(
      'carries 115.0 A with 75 °C terminals and 95.0 A with 60 °C ones; 110.0 A are needed. The marking of unmarked decides.',
    );
    expect(found.remedies[0]).toMatch(/^Ask: [a-z]/);
    expect(found.remedies).toHaveLength(4);
    expect(between(undefined, undefined, 110).text).toContain('unmarked and unmarked');
  });
  it('under IEC terminals set no column', () => {
    const bare = { ...drive, terminalTemperature_C: undefined } as unknown as typeof drive;
    expect(lead({ basis: 'iec', cable: metric, fromElement: bare, toElement: bare }).value).toBe(117);
  });
  it('a supply has none: the other end alone counts', () => {
    const supply = { id: 'e9', kind: 'supply' as const, tag: 'S' };
    expect(terminals([supply, drive])).toEqual({ coolest_C: 75, unknown: [] });
    expect(terminals([supply])).toEqual({ coolest_C: null, unknown: [] });
    expect(terminals([{ ...drive, terminalTemperature_C: 90 }, drive]).coolest_C).toBe(75);
    const bus = { id: 'e8', kind: 'bus' as const, tag: 'B' };
    expect(terminals([bus, drive]).unknown).toEqual([bus]);
  });
});

describe('what a cable of the document may carry', () => {
  it('the place decides the temperature: XHHW 90 °C dry and damp, 75 °C wet; a value entered is not raised', () => {
    const of = (insulation: Cable['insulation'], moisture: Cable['installation']['moisture']) =>
      insulationTemperature_C({
        ...LAID,
        insulation,
        installation: { ...LAID.installation, ...(moisture ? { moisture } : { moisture: undefined as never }) },
      });
    expect([
      of({ type: 'XHHW' }, 'dry'),
      of({ type: 'XHHW' }, 'damp'),
      of({ type: 'XHHW' }, 'wet'),
      of({ type: 'XHHW' }, undefined),
    ]).toEqual([90, 90, 75, 75]);
    expect([of({ type: 'XHHW-2' }, 'wet'), of({ temperature_C: 105 }, 'wet'), of({}, 'dry')]).toEqual([90, 105, null]);
    expect([of({ type: 'XHHW', temperature_C: 60 }, 'wet'), of({ type: 'XHHW', temperature_C: 105 }, 'wet')]).toEqual([60, 75]);
  });
  it('two sets carry twice, six conductors 80 %, at 40 °C 91 % of the 90 °C column (Tables 310.15(C)(1), (B)(1))', () => {
    const value = (cable: Cable) => cableAmpacity(cable, 'us', null)?.value_A;
    expect([value(LAID), value({ ...LAID, conductor: { ...LAID.conductor, sets: 2 } })]).toEqual([130, 260]);
    const { sets: _, ...one } = LAID.conductor;
    expect(value({ ...LAID, conductor: one })).toBe(130);
    expectClose(value(laid({ loadedConductors: 6 })) ?? 0, 104, { relative: 1e-12 }, '0.8');
    expectClose(value(laid({ ambient_C: 40 })) ?? 0, 118.3, { relative: 1e-12 }, '0.91');
  });
  it('is not known without size, metal, insulation, ambient or the way it is laid', () => {
    const without = (cable: Cable, basis: 'us' | 'iec' = 'us') => cableAmpacity(cable, basis, null);
    const { ambient_C: _, ...cool } = LAID.installation;
    const { loadedConductors: __, ...alone } = LAID.installation;
    const { groupedCircuits: ___, ...ungrouped } = metric.installation;
    const { method: ____, ...anyhow } = metric.installation;
    for (const cable of [
      { ...LAID, conductor: { metal: 'copper' as const } },
      { ...LAID, conductor: { size: '2 AWG' } },
      { ...LAID, insulation: {} },
      { ...LAID, installation: cool },
      { ...LAID, installation: alone },
    ])
      expect(without(cable)).toBeNull();
    for (const installation of [ungrouped, anyhow]) expect(without({ ...metric, installation }, 'iec')).toBeNull();
    expect(without(metric, 'iec')?.value_A).toBe(117);
    expect(without({ ...metric, insulation: { temperature_C: 70 } }, 'iec')?.value_A).toBe(89);
  });
  it('what is not known to be cross-linked is taken as PVC, at whatever temperature it says it may run', () => {
    const value = (insulation: Cable['insulation']) => cableAmpacity({ ...metric, insulation }, 'iec', null)?.value_A;
    expect([value({ type: 'XLPE' }), value({ type: 'PVC', temperature_C: 90 }), value({ temperature_C: 90 })]).toEqual([117, 89, 89]);
  });
  it('groups and soil count: 2 circuits 80 % (B.52.17), 1 K·m/W in ducts 1.18 (B.52.16)', () => {
    const value = (more: Partial<Cable['installation']>) =>
      cableAmpacity({ ...metric, installation: { ...metric.installation, ...more } }, 'iec', null)?.value_A ?? 0;
    expectClose(value({ groupedCircuits: 2 }), 117 * 0.8, { relative: 1e-12 }, 'B.52.17');
    expectClose(
      value({ method: 'D1', ambient_C: 20, soil_KmPerW: 1 }) / value({ method: 'D1', ambient_C: 20 }),
      1.18,
      { relative: 1e-12 },
      'B.52.16',
    );
  });
  it('a conductor at half of its ampacity warms by a quarter: 30 + 60 / 4 = 45 °C, and never beyond 400 °C', () => {
    expect([loadTemperature_C(LAID, 'us', 65), loadTemperature_C(LAID, 'us', 130), loadTemperature_C(LAID, 'us', 5000)]).toEqual([
      45, 90, 400,
    ]);
    const { ambient_C: _, ...cool } = LAID.installation;
    for (const cable of [
      { ...LAID, insulation: {} },
      { ...LAID, conductor: {} },
      { ...LAID, installation: cool },
    ])
      expect(loadTemperature_C(cable, 'us', 65)).toBeNull();
  });
});
