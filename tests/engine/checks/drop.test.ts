import { describe, expect, it } from 'vitest';
import type { CableScope, RunScope } from '../../../engine/checks/check.ts';
import { feederDrop, leadDrop } from '../../../engine/checks/drop.ts';
import { expectClose } from '../../reference/expectClose.ts';
import { CABLE, cableScope, cases, DRIVE, MOTOR, runScope, SUPPLY, step } from './scopes.ts';
import { fields, labels, only } from './told.ts';

/**
 * The limits of both drops, each at its edge: NEC 215.2(A)(2) informational note 2 (3 % on a feeder), IEC 60364-5-52 Annex G (5 %), NEC
 * 210.19 informational note (3 % on a lead), one maker's manual (2 %), NEMA MG 1 12.44 (90 % at the terminals). Figures worked by hand.
 */

const feeder = (more: Partial<CableScope> = {}) => only(feederDrop.scope === 'cable' ? feederDrop.judge(cableScope(more)) : []);
const lead = (more: Partial<RunScope> = {}) => only(leadDrop.scope === 'run' ? leadDrop.judge(runScope(more) as RunScope) : []);
const { project } = cableScope();

describe('the whole way to a motor', () => {
  // 480 V: 9.6 V are 2 %, 14.4 V are 3 %.
  const losing = (drop_V: number, lostAhead_pct: readonly number[], more: Partial<RunScope> = {}) =>
    lead({ start: step({ voltage_V: 460 }), terminal: step({ voltage_V: 460 - drop_V }), lostAhead_pct, ...more });
  it('over 5 % is a note: 2.9 % on the feeder and 2.2 % on the leads (NEC 210.19 informational note)', () => {
    const [bad, good] = [losing(10.56, [2.9]), losing(10.08, [2.9])];
    expect([bad.verdict, bad.limit, bad.phrase, bad.quantity]).toEqual(['note', 5, 'drop 5.10 % in all', 'drop from the supply on']);
    expectClose(bad.value ?? 0, 5.1, { relative: 1e-9 }, '2.9 + 2.2');
    expect(bad.text).toContain('From the supply on 5.10 % of 480 V are lost, of 5.0 %.');
    expect([good.verdict, good.limit, good.text.includes('From the supply on 5.00 % of 480 V are lost')]).toEqual(['note', 3, true]);
  });
  it('is told once: not where the leads or a feeder are over by themselves, nor where the feeders are over together', () => {
    expect([losing(14.4, [2.9]).limit, losing(10.56, [3.1]).verdict, losing(10.56, [2.6, 2.6]).verdict]).toEqual([3, 'note', 'note']);
  });
  it('is not told where the voltage of the supply or what arrives is not known, nor where nothing lies ahead', () => {
    const said = (found: ReturnType<typeof losing>) => [found.text.includes('From the supply on'), found.phrase.includes('in all')];
    expect(said(losing(10.56, [2.9]))).toEqual([true, true]);
    for (const found of [losing(10.56, [2.9], { nominal_V: null }), losing(10.56, [2.9], { inputKnown: false }), losing(10.56, [])])
      expect(said(found)).toEqual([false, false]);
  });
  it('shows what the other motors of the drive draw', () => {
    const other = { ...MOTOR, id: 'e7', tag: 'N' };
    const inputs = labels(losing(10.08, [], { driven: [MOTOR, other] }));
    expect(inputs).toEqual(expect.arrayContaining(['Rated voltage of N', 'Nameplate current of N']));
    expect(inputs.filter((each) => each === 'Nameplate current of M')).toHaveLength(1);
  });
  it('counts the turns of a transformer on the way: 20 V of 920 V behind 460 V are 10 V of 480 V', () => {
    const motor = { ...MOTOR, ratedVoltage_V: 920 };
    const found = losing(0, [2.95], { motor, start: step({ voltage_V: 460 }), terminal: step({ voltage_V: 900, gain: 2 }) });
    expectClose(found.value ?? 0, 2.95 + 1000 / 480, { relative: 1e-9 }, '2.95 + 2.083');
  });
});

describe('the drop of a feeder', () => {
  const losing = (drop_V: number, more: Partial<CableScope> = {}) => feeder({ flow: step({ drop_V }), ...more });
  it('of 480 V passes up to 14.4 V, 3 %, and is a caution beyond: the note is advice', () => {
    expect([losing(14.4).verdict, losing(14.401).verdict]).toEqual(['pass', 'caution']);
    const found = losing(14.4);
    expect([found.value, found.limit, found.unit, found.authority, found.case, found.phrase]).toEqual([
      3,
      3,
      '%',
      'guide',
      'rated',
      'drop 3.00 %',
    ]);
    expectClose(losing(7.2).margin_pct ?? 0, 50, { relative: 1e-12 }, 'half is left');
    expect(found.source).toContain('215.2(A)(2)');
    expect(found.text).toBe('W loses 14.40 V, 3.00 % of 480 V, at 72.0 A; the guide allows 3.0 %.');
  });
  describe('in series with others', () => {
    // IEC 60364-5-52 Annex G: 5 % from the origin to the load; NEC 215.2(A)(2) informational note 2: 5 % for feeder and branch circuit.
    const iec = (lostAhead_pct: readonly (number | null)[], drop_V: number, more: Partial<CableScope> = {}) =>
      losing(drop_V, { basis: 'iec', nominal_V: 400, lostAhead_pct, ...more });
    it('of 4 % each is a note at the second: 8 % of 5 %; 4 % and 1 % pass', () => {
      const found = iec([4], 16);
      expect([found.verdict, found.value, found.limit, found.quantity, found.authority]).toEqual([
        'note',
        8,
        5,
        'drop from the supply on',
        'guide',
      ]);
      expect([found.phrase, found.text.includes('From the supply on 8.00 % are lost, of 5.0 %.')]).toEqual(['drop 8.00 % in all', true]);
      const good = iec([4], 4);
      expect([good.verdict, good.value, good.text.includes('From the supply on 5.00 % are lost, of 5.0 %.')]).toEqual(['pass', 1, true]);
      expect(losing(4.8).text).not.toContain('From the supply on');
    });
    it('of 2.6 % each is one under the NEC too, though 3 % is allowed to each', () => {
      const [bad, good] = [losing(12.48, { lostAhead_pct: [2.6] }), losing(12.48, { lostAhead_pct: [1.4, 1] })];
      expect([bad.verdict, bad.limit, good.verdict, good.limit]).toEqual(['note', 5, 'pass', 3]);
    });
    it('is told once: where a cable ahead is over by itself, or the sum was over there, this one is told for its own', () => {
      expect([iec([5.1], 4).verdict, iec([1, 4.5], 4).verdict, losing(4.8, { lostAhead_pct: [3.5] }).verdict]).toEqual([
        'pass',
        'pass',
        'pass',
      ]);
      // 0.5 and 3.2 % are less than 5 % together, and the second is over its own 3 %.
      expect(losing(9.6, { lostAhead_pct: [0.5, 3.2] }).verdict).toBe('pass');
      const own = iec([4], 24);
      expect([own.verdict, own.value, own.limit]).toEqual(['caution', 6, 5]);
    });
    it('follows a limit of the project that is larger', () => {
      const limits = { feederDrop_pct: 8 };
      expect([
        iec([4], 16, { project: { ...project, limits } }).verdict,
        iec([4], 16.1, { project: { ...project, limits } }).verdict,
      ]).toEqual(['pass', 'note']);
    });
    it('with the voltage ahead not known is open until what is known is too much', () => {
      const unsure = (drop_V: number) => iec([1, null], drop_V, { flow: step({ drop_V, voltage_V: null }) });
      expect([unsure(12).verdict, unsure(17).verdict]).toEqual(['open', 'note']);
    });
  });
  it('of 400 V passes up to 20 V, 5 %, under IEC', () => {
    const iec = (drop_V: number) => losing(drop_V, { basis: 'iec', nominal_V: 400 });
    expect([iec(20).verdict, iec(20.01).verdict, iec(20).limit]).toEqual(['pass', 'caution', 5]);
  });
  it('fails over the limit of the project, which stands in place of the guide’s', () => {
    const own = (drop_V: number) => losing(drop_V, { project: { ...project, limits: { feederDrop_pct: 2 } } });
    expect([own(9.6).verdict, own(9.61).verdict]).toEqual(['pass', 'fail']);
    expect([own(9.6).authority, own(9.6).limit, own(9.6).source]).toEqual(['project', 2, 'limit set for this project']);
    expect(own(9.6).text).toContain('this project allows 2.0 %');
  });
  it('is not asked behind a drive, inside one enclosure, or of a feeder without a motor', () => {
    expect(feederDrop.scope === 'cable' && feederDrop.judge(cableScope({ side: 'output' }))).toEqual([]);
    for (const cable of [
      { ...CABLE, kind: 'link' as const },
      { ...CABLE, length_m: 0 },
    ])
      expect([feeder({ cable }).verdict, feeder({ cable }).text]).toEqual([
        'not-applicable',
        'No length: a connection inside one enclosure.',
      ]);
    expect(feeder({ drives: [], motors: [] }).verdict).toBe('not-applicable');
    expect([feeder({ drives: [] }).verdict, feeder({ motors: [] }).verdict]).toEqual(['pass', 'pass']);
  });
  it('that collapses fails by physics, whatever a limit says', () => {
    const found = feeder({ flow: step({ collapsed: true, drop_V: null, says: ['how'] }) });
    expect([found.verdict, found.authority, found.working]).toEqual(['fail', 'physics', ['how']]);
    expect(labels(found)).toContain('Conductor size of W');
  });
  it('is open while the load or the voltage is not known, and names what it lacks', () => {
    expect([feeder({ flow: step({ drop_V: null }) }).verdict, feeder({ nominal_V: null }).verdict]).toEqual(['open', 'open']);
    expect(feeder({ nominal_V: null }).missing).toEqual([]);
    expect(feeder({ nominal_V: null }).text).toContain('the voltage or the load here is not known');
    const { inputCurrent_A: _, ...silent } = DRIVE;
    const { length_m: __, ...endless } = CABLE;
    const lacking = feeder({ flow: step({ drop_V: null }), drives: [silent], cable: { ...endless, conductor: { sets: 1 } } });
    expect(fields(lacking)).toEqual(['W: conductor.size', 'W: conductor.metal', 'W: length_m', 'D: inputCurrent_A']);
    expect(lacking.text).toContain('length of W, one way');
  });
  it('shows what it was made from, and the steps', () => {
    const found = losing(9.6, {
      flow: step({
        drop_V: 9.6,
        resistance_ohm: 0.05,
        reactance_ohm: 0.0125,
        says: ['first'],
        assumptions: [{ what: 'a', value: 'b', source: 'c' }],
      }),
      cable: { ...CABLE, lengthMost_m: 60 },
      drives: [{ ...DRIVE, manual: { inputVoltageLeast_pct: 85 } }],
    });
    expect(labels(found)).toEqual([
      'Voltage of S, line to line',
      'Conductor size of W',
      'Conductor metal of W',
      'Sets in parallel of W',
      'Length of W, one way',
      'Greatest length of W',
      'What W is laid in',
      'Construction of W',
      'Rated input current of D',
      'Input power factor of D',
      'Least input voltage in the manual of D',
      'Fault current of S',
    ]);
    expect(found.working).toEqual([
      'first',
      'Z = 50.000 + j12.500 mΩ, whole length, sets in parallel',
      'I = 72.00 A, phasor sum of what it feeds',
      'drop = |V near| − |V far| = 9.600 V',
    ]);
    expect(found.assumptions.map((each) => each.what)).toEqual(['a']);
    expect(found.remedies).toHaveLength(3);
  });
  it('with a power factor that is not given takes the worst, and says so of that drive alone', () => {
    const { inputPowerFactor: _, ...silent } = { ...DRIVE, tag: 'E' };
    const found = losing(9.6, { drives: [DRIVE, silent] });
    expect(found.assumptions.map((each) => each.what)).toEqual(['input power factor of E']);
    expect(found.working.at(-1)).toContain('√3 |Z|');
  });
});

describe('the drop of a feeder where the voltage ahead is not known', () => {
  /** A drive draws more the less it is given: what is lost is the least that it can be. */
  const behind = (drop_V: number, more: Partial<CableScope> = {}) => {
    const { length_m: _, ...endless } = { ...CABLE, id: 'c0', tag: 'F' };
    const { inputCurrent_A: __, ...silent } = { ...DRIVE, id: 'e9', tag: 'E' };
    return feeder({ flow: step({ drop_V, voltage_V: null }), ahead: [CABLE, endless, SUPPLY], undrawn: [silent], ...more });
  };
  it('is open however little is lost, and says what is missing', () => {
    const found = behind(0.1);
    expect([found.verdict, found.phrase, fields(found)]).toEqual(['open', 'voltage ahead?', ['F: length_m', 'E: inputCurrent_A']]);
    expect(found.text).toBe(
      'W loses at least 0.10 V, 0.02 % of 480 V: the voltage ahead is not known, and drives draw more the less it is. Not known: length of F, one way; rated input current of E.',
    );
    expect(found.remedies).toEqual(['Ask: installer, drive supplier.']);
    expect(labels(found).filter((each) => each === 'Conductor size of F' || each === 'Conductor size of W')).toEqual([
      'Conductor size of W',
      'Conductor size of F',
    ]);
    expect(behind(0.1, { ahead: [], undrawn: [] }).text).toContain('is. Something ahead cannot carry what it feeds.');
  });
  it('over the limit it stays what it is, as the least', () => {
    const over = behind(24);
    expect([over.verdict, over.value, over.text.includes('W loses at least 24.00 V')]).toEqual(['caution', 5, true]);
    expect(behind(24, { project: { ...project, limits: { feederDrop_pct: 2 } } }).verdict).toBe('fail');
  });
  it('ahead of an impedance that is not known it passes where twice as much would, too: the less arrives, the more is drawn', () => {
    const { length_m: _, ...endless } = { ...CABLE, id: 'c9', tag: 'G' };
    const found = [7.2, 7.201, 14.401].map((drop_V) => feeder({ unmadeBehind: [endless], flow: step({ drop_V }) }));
    expect(found.map((each) => each.verdict)).toEqual(['pass', 'open', 'caution']);
    expect(found[1] && [found[1].phrase, fields(found[1])]).toEqual(['voltage behind?', ['G: length_m']]);
    expect(found[1]?.text).toBe(
      'W loses at least 7.20 V, 1.50 % of 480 V: the voltage behind is not known, and drives draw more the less it is. Not known: length of G, one way.',
    );
    expect(found[0]?.text).toContain('W loses at least 7.20 V');
  });
  it('behind a supply of no known fault level it passes where twice as much would: at half of the voltage no drive runs', () => {
    const { faultCurrent_A: _, ...source } = SUPPLY;
    const found = [7.2, 7.201, 14.401].map((drop_V) => feeder({ source, flow: step({ drop_V }) }));
    expect(found.map((each) => each.verdict)).toEqual(['pass', 'open', 'caution']);
    expect(found[1] && [found[1].phrase, fields(found[1])]).toEqual(['voltage ahead?', ['S: faultCurrent_A']]);
  });
});

describe('what the lowest line voltage leaves the drive', () => {
  const at = (low_V: number | undefined, least_pct: number | undefined, drive = DRIVE) => {
    const asked = least_pct === undefined ? drive : { ...drive, manual: { inputVoltageLeast_pct: least_pct } };
    return feeder({ arrivesAt: [asked], arrivals: [step({ cases: cases(low_V === undefined ? {} : { 'low line': low_V }) })] });
  };
  it('is held to its manual: 408 V of 480 V are 85 %', () => {
    expect([at(408, 85).verdict, at(407.9, 85).verdict]).toEqual(['pass', 'fail']);
    const found = at(384, 85);
    expect([found.value, found.limit, found.unit, found.authority, found.case, found.quantity]).toEqual([
      80,
      85,
      '%',
      'manual',
      'low line',
      'voltage at the drive',
    ]);
    expectClose(found.margin_pct ?? 0, (100 * (80 - 85)) / 85, { relative: 1e-12 }, 'short by hand');
    expect(found.text).toContain('At low line D has 384 V, 80.0 % of its rating. Its manual asks for 85.0 %.');
    expect(found.source).toContain('the manual of D');
  });
  it('in per cent of the drive’s own rating, of the supply’s where that is not given', () => {
    const { ratedVoltage_V: _, ...unrated } = DRIVE;
    expect([at(391, 85, { ...DRIVE, ratedVoltage_V: 460 }).verdict, at(408, 85, unrated).verdict, at(407, 85, unrated).verdict]).toEqual([
      'pass',
      'pass',
      'fail',
    ]);
  });
  it('is told where no manual asks, and is open where one does and the voltage is not known', () => {
    expect(at(400, undefined).text).toContain('At low line D has 400 V, 83.3 % of its rating.');
    expect(at(undefined, undefined).text).not.toContain('At low line');
    const found = at(undefined, 85);
    expect([found.verdict, found.phrase, found.missing]).toEqual(['open', 'voltage at the drive?', []]);
  });
  it('is told with what else draws there, and asks for what is not known of it', () => {
    const drive = { ...DRIVE, manual: { inputVoltageLeast_pct: 85 } };
    const [other, pump] = [
      { ...DRIVE, id: 'e9', tag: 'E' },
      { ...MOTOR, id: 'e8', tag: 'P' },
    ];
    const unsure = (...parts: CableScope['arrivalParts']) =>
      feeder({
        drives: [drive],
        arrivesAt: [drive],
        arrivals: [step({ cases: cases({}) })],
        arrivalParts: [SUPPLY, CABLE, drive, ...parts],
      });
    const inputs = labels(unsure(other, pump));
    expect(inputs).toEqual(expect.arrayContaining(['Rated input current of E', 'Nameplate current of P', 'Rated voltage of P']));
    expect(inputs.filter((each) => each === 'Rated input current of D')).toHaveLength(1);
    expect(inputs.filter((each) => each === 'Conductor size of W')).toHaveLength(1);
    const { inputCurrent_A: _, ...silent } = other;
    const { ratedCurrent_A: __, ratedVoltage_V: ___, ...bare } = pump;
    expect(fields(unsure(silent, bare))).toEqual(['E: inputCurrent_A', 'P: ratedCurrent_A', 'P: ratedVoltage_V']);
  });
  it('behind a supply of no known fault level it is the most that it can be: enough is no pass, too little fails', () => {
    const { faultCurrent_A: _, ...source } = SUPPLY;
    const drive = { ...DRIVE, manual: { inputVoltageLeast_pct: 85 } };
    const left = (low_V: number, more: Partial<CableScope> = {}) =>
      feeder({ source, arrivesAt: [drive], arrivals: [step({ cases: cases({ 'low line': low_V }) })], ...more });
    expect([left(480).verdict, fields(left(480)), left(407.9).verdict]).toEqual(['open', ['S: faultCurrent_A'], 'fail']);
    expect(left(480).phrase).toBe('voltage at the drive?');
    expect(left(480).text).toContain('That is the most that it can be. Not known: fault current of S.');
    // What the feeder itself loses too much is known all the same; and where no manual asks, nothing hangs on the supply.
    const strict = { project: { ...project, limits: { feederDrop_pct: 1 } }, flow: step({ drop_V: 9.6 }) };
    expect([left(480, strict).verdict, feeder({ source }).verdict]).toEqual(['fail', 'pass']);
    expect(left(480, { flow: step({ drop_V: 24 }) }).verdict).toBe('open');
  });
  it('asks for what is not described on the way there, and for what draws current on it', () => {
    const asked = { ...DRIVE, manual: { inputVoltageLeast_pct: 85 } };
    const { length_m: _, ...endless } = { ...CABLE, id: 'c0', tag: 'F' };
    const { inputCurrent_A: __, ...silent } = { ...DRIVE, id: 'e9', tag: 'E' };
    const found = feeder({ arrivesAt: [asked], arrivals: [step()], arrivalParts: [endless, CABLE, asked, silent] });
    expect([found.verdict, fields(found)]).toEqual(['open', ['F: length_m', 'E: inputCurrent_A']]);
    expect(found.text).toContain('Not known: length of F, one way; rated input current of E.');
    expect(found.remedies).toEqual(['Ask: installer, drive supplier.']);
  });
  it('of one drive that is not known does not hide that of another that fails', () => {
    const asked = (tag: string) => ({ ...DRIVE, tag, manual: { inputVoltageLeast_pct: 85 } });
    const found = feeder({ arrivesAt: [asked('A'), asked('B')], arrivals: [step(), step({ cases: cases({ 'low line': 400 }) })] });
    expect([found.verdict, found.text.includes('B has 400 V')]).toEqual(['fail', true]);
  });
  it('each of several drives is asked: the second one’s fails too', () => {
    const asked = (tag: string) => ({ ...DRIVE, tag, manual: { inputVoltageLeast_pct: 85 } });
    const [good, bad] = [470, 400].map((volts) => step({ cases: cases({ 'low line': volts }) }));
    const found = feeder({ arrivesAt: [asked('A'), asked('B')], arrivals: good && bad ? [good, bad] : [] });
    expect([found.verdict, found.text.includes('B has 400 V'), found.text.includes('A has')]).toEqual(['fail', true, false]);
    // A drive for which nothing arrived is not known, never a crash.
    expect(feeder({ arrivesAt: [asked('A')], arrivals: [] }).verdict).toBe('open');
  });
});

describe('a length that is a range', () => {
  const range = (length_m: number | undefined, lengthMost_m: number, drop_V = 9.6) => {
    const { length_m: _, ...cable } = CABLE;
    return feeder({
      flow: step({ drop_V }),
      project: { ...project, units: 'metric' },
      cable: { ...cable, ...(length_m === undefined ? {} : { length_m }), lengthMost_m },
    }).text.replaceAll('\u00a0', ' ');
  };
  it('says what the short end gives and where the limit is met: 2 % at 100 m is 1 % at 50 m and 3 % at 150 m', () =>
    expect(range(50, 100)).toContain(' Judged at the long end, 100 m; at 50 m about 1.00 %, and the limit is met up to about 150 m of W.'));
  it('is none where the ends are one, turned about, or nothing is lost', () => {
    for (const text of [range(100, 100), range(100, 60), range(50, 100, 0)]) expect(text).not.toContain('long end');
  });
});

describe('the drop from drive to motor', () => {
  /** Of 460 V at a motor for 460 V: the volts lost, in per cent of 4.6 V each. */
  const losing = (lost_V: number, more: Partial<RunScope> = {}) =>
    lead({ start: step({ voltage_V: 480 }), terminal: step({ voltage_V: 480 - lost_V }), ...more });
  it('of 460 V is noted over 9.2 V, 2 %, and a caution over 13.8 V, 3 %', () => {
    expect([9.2, 9.21, 13.8, 13.81].map((lost) => losing(lost).verdict)).toEqual(['pass', 'note', 'note', 'caution']);
    const found = losing(6.9);
    expectClose(found.value ?? 0, 1.5, { relative: 1e-12 }, 'of nameplate');
    expectClose(found.margin_pct ?? 0, 50, { relative: 1e-9 }, 'half is left');
    expect([found.limit, found.unit, found.authority, found.case, found.quantity, found.phrase]).toEqual([
      3,
      '%',
      'guide',
      'rated',
      'drop from drive to motor',
      'drop 1.50 %',
    ]);
    expect(found.remedies).toHaveLength(4);
    expect(found.runs).toEqual(['M']);
  });
  it('fails over the limit of the project, without a note below it', () => {
    const own = (lost: number) => losing(lost, { project: { ...project, limits: { leadDrop_pct: 2.5 } } });
    expect([11.5, 11.51].map((lost) => [own(lost).verdict, own(lost).authority])).toEqual([
      ['pass', 'project'],
      ['fail', 'project'],
    ]);
  });
  it('fails where less than 90 %, 414 V, is left at the terminals, however little the leads lose', () => {
    const left = (volts: number) => lead({ start: step({ voltage_V: volts + 1 }), terminal: step({ voltage_V: volts }) });
    expect([left(414).verdict, left(413.9).verdict]).toEqual(['pass', 'fail']);
    const found = left(391);
    expect([found.value, found.limit, found.authority, found.quantity, found.phrase]).toEqual([
      85,
      90,
      'standard',
      'voltage at the terminals',
      '85.0 % at the motor',
    ]);
    expectClose(found.margin_pct ?? 0, (100 * (85 - 90)) / 90, { relative: 1e-12 }, 'by hand');
  });
  it('across a transformer counts what is lost, not what it makes: 480 V × 5 less 2350 V', () => {
    const found = lead({
      motor: { ...MOTOR, ratedVoltage_V: 2300 },
      start: step({ voltage_V: 480 }),
      terminal: step({ voltage_V: 2354, gain: 5 }),
    });
    expectClose(found.value ?? 0, (100 * 46) / 2300, { relative: 1e-12 }, '46 V');
    expect(found.working[1]).toContain('480.00 V × 5.0000 through the transformer');
    expect(losing(1).working[1]).toBe('at the drive 480.00 V, at the motor 479.00 V (phasor solution)');
  });
  it('tells the other cases where they are known', () => {
    const terminal = step({ voltage_V: 470, cases: cases({ 'low line': 437, overload: 460 }) });
    expect(lead({ start: step({ voltage_V: 480 }), terminal }).text).toContain(' Other cases: low line 95.0 %, overload 100.0 %.');
    expect(losing(1).text).not.toContain('Other cases');
    expect(lead({ terminal, inputKnown: false }).text).not.toContain('Other cases');
  });
  it('without the input side a good drop is open, a bad one for the project still fails', () => {
    for (const lost of [1, 10, 20])
      expect([losing(lost, { inputKnown: false }).verdict, losing(lost, { inputKnown: false }).phrase]).toEqual(['open', 'input voltage?']);
    expect(losing(20, { inputKnown: false, project: { ...project, limits: { leadDrop_pct: 2 } } }).verdict).toBe('fail');
    // Less than 90 % is no verdict while what arrives is not known.
    expect(losing(100, { inputKnown: false }).verdict).toBe('open');
    const { inputCurrent_A: _, ...silent } = DRIVE;
    expect(fields(losing(1, { inputKnown: false, drive: silent }))).toEqual(['D: inputCurrent_A']);
    expect(losing(1, { inputKnown: false }).missing).toEqual([]);
    // Another drive on the same supply draws as much as nobody knows.
    const other = { ...silent, id: 'e9', tag: 'E' };
    const found = losing(1, { inputKnown: false, drive: silent, undrawnAhead: [silent, other] });
    expect([found.verdict, fields(found)]).toEqual(['open', ['D: inputCurrent_A', 'E: inputCurrent_A']]);
    expect(losing(1, { inputKnown: false }).text).toContain('What the feeder leaves is not known.');
  });
  it('behind a supply of no known fault level a good drop is open: what the feeder leaves is the most that it can be', () => {
    const { faultCurrent_A: _, ...supply } = SUPPLY;
    const found = losing(1, { ahead: [supply] });
    expect([found.verdict, found.phrase, fields(found)]).toEqual(['open', 'input voltage?', ['S: faultCurrent_A']]);
    expect([found.text.includes('can be given at most 104.1 %'), losing(1).text.includes('can be given 104.1 %')]).toEqual([true, true]);
    // Less than 90 % at the most is less than 90 %.
    expect(losing(100, { ahead: [supply] }).verdict).toBe('fail');
  });
  it('is open while motor, cables or boxes are not known, and names what is missing of each', () => {
    const { ratedVoltage_V: _, ratedCurrent_A: __, ...bare } = MOTOR;
    expect(fields(lead({ motor: bare }))).toEqual(['M: ratedCurrent_A', 'M: ratedVoltage_V']);
    expect(lead({ motor: bare }).verdict).toBe('open');
    const unsized = { ...CABLE, conductor: {} };
    expect(fields(lead({ cables: [unsized] }))).toEqual(['W: conductor.size', 'W: conductor.metal']);
    // What has no length loses nothing, whatever it is made of.
    expect(
      lead({
        cables: [
          { ...unsized, length_m: 0 },
          { ...unsized, kind: 'link' },
        ],
      }).verdict,
    ).toBe('pass');
    expect(
      fields(
        lead({
          boxes: [
            { id: 'b1', kind: 'reactor', tag: 'L' },
            { id: 'b2', kind: 'filter', tag: 'Z' },
            { id: 'b3', kind: 'disconnect', tag: 'Q' },
            { id: 'b4', kind: 'transformer', tag: 'T', ratedPower_VA: 75_000, secondaryVoltage_V: 480, impedance_pct: 5 },
          ],
        }),
      ),
    ).toEqual(['L: impedance_pct', 'Z: role', 'T: primaryVoltage_V']);
  });
  it('is open while another motor on the drive is not described', () => {
    for (const more of [{ start: step({ voltage_V: null }) }, { terminal: step({ voltage_V: null }) }])
      expect([lead(more).verdict, lead(more).phrase, lead(more).missing]).toEqual(['open', 'load not known', []]);
  });
  it('that collapses fails by physics', () => {
    const found = lead({ terminal: step({ voltage_V: null, collapsed: true }) });
    expect([found.verdict, found.authority, found.phrase]).toEqual(['fail', 'physics', 'load cannot be carried']);
  });
  it('shows what it was made from, and what was assumed', () => {
    const found = losing(1, {
      cables: [{ ...CABLE, lengthMost_m: 60 }],
      boxes: [
        { id: 'b1', kind: 'reactor', tag: 'L', impedance_pct: 3, ratedCurrent_A: 80 },
        { id: 'b2', kind: 'filter', tag: 'Z', role: 'sine', drop_pct: 4 },
      ],
      assumptions: [{ what: 'a', value: 'b', source: 'c' }],
    });
    expect(labels(found)).toEqual([
      'Rated voltage of M',
      'Nameplate current of M',
      'Power factor of M',
      'Rated frequency of M',
      'Conductor size of W',
      'Conductor metal of W',
      'Sets in parallel of W',
      'Length of W, one way',
      'Greatest length of W',
      'Impedance of L',
      'Rated current of L',
      'Drop of Z at rated current',
      'Rated input current of D',
      'Voltage of S, line to line',
      'Fault current of S',
    ]);
    expect(found.assumptions.map((each) => each.what)).toEqual(['a']);
    const { outputRatio_pct: _, ...drive } = DRIVE;
    const { powerFactor: __, ratedFrequency_Hz: ___, ...motor } = MOTOR;
    const guessed = losing(1, { drive, motor });
    expect(guessed.assumptions.map((each) => each.what)).toEqual(['most output of D', 'power factor of M']);
    expect([guessed.working[0], losing(1, { motor, basis: 'iec' }).working[0], losing(1).working[0]]).toEqual([
      'current of M: 75.0 A at 60 Hz',
      'current of M: 75.0 A at 50 Hz',
      'current of M: 75.0 A at 60 Hz',
    ]);
    expect(losing(1, { motor: { ...motor, ratedFrequency_Hz: 87 } }).working[0]).toContain('at 87 Hz');
  });
  it('of a length that is a range says where the limit turns, for each cable', () => {
    const cables = [CABLE, { ...CABLE, tag: 'X', length_m: 30, lengthMost_m: 90 }];
    const text = losing(4.6, { cables, project: { ...project, units: 'metric' } }).text.replaceAll('\u00a0', ' ');
    // 1 % at 90 m: 3 % at 270 m.
    expect(text).toMatch(
      /against 3\.0 %\..* Judged at the long end, 90 m; at 30 m about 0\.33 %, and the limit is met up to about 270 m of X\.$/,
    );
  });
});
