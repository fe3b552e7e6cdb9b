import { describe, expect, it } from 'vitest';
import type { RunScope } from '../../../engine/checks/check.ts';
import { criticalLength, motorPeakVoltage } from '../../../engine/checks/waveChecks.ts';
import type { WaveTree } from '../../../engine/checks/waveTree.ts';
import type { Cable } from '../../../engine/lineup/cable.ts';
import type { ElementOf } from '../../../engine/lineup/elements.ts';
import { expectClose } from '../../reference/expectClose.ts';
import { CABLE, cases, DRIVE, MOTOR, runScope, SUPPLY, step } from './scopes.ts';
import { fields, labels, only } from './told.ts';

/**
 * What is made of a wave, beside limits that are laid around its peak. 80 Ω before 1500 Ω turn (1500 − 80) / (1500 + 80) = 0.8987 of it
 * back; at 150 m/µs and 0.1 µs the critical length is 1.25 × 0.1 µs × 150 m/µs / 2 = 9.375 m.
 */

type Motor = ElementOf<'motor'>;
type Drive = ElementOf<'drive'>;
type Filter = ElementOf<'filter'>;
const BUS = Math.SQRT2 * 480;
const LEAD: Cable = { ...CABLE, insulation: { type: 'XHHW-2' }, length_m: 100, wave: { impedance_ohm: 80, velocity_mPerS: 150e6 } };
const KEEN: Drive = { ...DRIVE, riseTime_s: 0.1e-6, frontEnd: 'diode' };
const WOUND: Motor = { ...MOTOR, ratedPower_W: 7500, surgeImpedance_ohm: 1500, insulation: 'entered', peakLimit_V: 2000 };
const FILTER: Filter = { id: 'f1', kind: 'filter', tag: 'Z', role: 'dvdt' };
const REACTOR: ElementOf<'reactor'> = { id: 'l1', kind: 'reactor', tag: 'L' };

interface Asked {
  readonly cable?: Cable;
  readonly drive?: Partial<Drive>;
  readonly motor?: Partial<Motor>;
  readonly tree?: Partial<WaveTree>;
  readonly scope?: Partial<RunScope>;
}
const scopeOf = ({ cable = LEAD, drive = {}, motor = {}, tree = {}, scope = {} }: Asked): RunScope => {
  const fed: Motor = { ...WOUND, ...motor };
  return {
    ...runScope({ cables: [cable], motor: fed, drive: { ...KEEN, ...drive } }),
    shield: { state: 'continuous', breaks: [], bare: [] },
    tree: {
      hops: [{ cable, from: 0, to: 1 }],
      motors: [{ motor: fed, node: 1 }],
      terminators: [],
      atDrive: null,
      unmodelled: null,
      ...tree,
    },
    ...scope,
  };
};
const without = <T extends object>(part: T, ...keys: readonly (keyof T)[]): T =>
  Object.fromEntries(Object.entries(part).filter(([key]) => !keys.includes(key as keyof T))) as T;
const ENDLESS = without(LEAD, 'length_m');
const ODD: Cable = { ...LEAD, construction: 'copper-tape', wave: undefined, insulation: { wall_mm: 1e-9 } };
const near = (ours: number | null | undefined, byHand: number) => expectClose(ours ?? 0, byHand, { relative: 1e-6 }, 'by hand');

const all = (asked: Asked = {}) => (motorPeakVoltage.scope === 'run' ? motorPeakVoltage.judge(scopeOf(asked)) : []);
const solved = (asked: Asked = {}) => only(all(asked).filter(({ id }) => !id.endsWith('/pulses')));

describe('critical length', () => {
  const of = (asked: Asked) => only(criticalLength.scope === 'run' ? criticalLength.judge(scopeOf(asked)) : []);
  const at = (length_m: number) => of({ cable: { ...LEAD, length_m } });
  it('is 9.375 m: longer is a note, and never more', () => {
    expect([at(9.375).verdict, at(9.38).verdict, at(1000).verdict]).toEqual(['pass', 'note', 'note']);
    const [short, long] = [at(4.6875), at(100)];
    near(short.limit, 9.375);
    near(short.margin_pct, 50);
    expect([short.value, short.unit, short.phrase, short.remedies, short.assumptions]).toEqual([
      4.6875,
      'm',
      'short of critical length',
      [],
      [],
    ]);
    expect([long.phrase, long.remedies.length]).toEqual(['full reflection', 1]);
    expect(long.text).toMatch(/^From D to M it is .*; the critical length at 0.10 µs is .*: the peak at the motor is the full one\.$/);
    expect(short.text).toMatch(/the critical length at 0.10 µs is [^:]*\.$/);
    expect(long.working).toEqual([
      'lc = 1.25 × tr × v / 2 = 1.25 × 0.100 µs × 150 m/µs / 2 = 9.4 m; length 100.0 m',
      // By v t / 3 of the 10 to 90 % time, and at 220 m/µs.
      expect.stringMatching(/^between 5\.0 m \(v t \/ 3, t of 10 to 90 %\) and 13\.[78] m \(220 m\/µs\)$/),
      expect.stringContaining('ring 1 / (4 td) = 375 kHz'),
    ]);
    expect(labels(long)).toEqual(['Rise time of D, 10 to 90 %', 'Length of W, one way', 'Speed of the wave along W']);
    expect(labels(of({ cable: { ...LEAD, lengthMost_m: 110 } }))).toHaveLength(4);
  });
  it('of a range takes the long end, though the short one rings higher', () => {
    const thin = { ...LEAD, conductor: { ...LEAD.conductor, size: '14 AWG' } };
    const found = of({ cable: { ...thin, length_m: 9, lengthMost_m: 2000 } });
    const [short, long] = [9, 2000].map((length_m) => solved({ cable: { ...thin, length_m } }).value ?? 0) as [number, number];
    expect([short > long, found.verdict, found.value]).toEqual([true, 'note', 2000]);
  });
  it('is known from 5.0 to 13.75 m, and a length between is said to be', () => {
    const unsure = [4.99, 5.01, 13.74, 13.76].map((length_m) => at(length_m).text.includes('the band holds this length'));
    expect(unsure).toEqual([false, true, true, false]);
    expect(at(9).text).toMatch(/ It may be anything from 16\.4.ft to 45\.1.ft: the band holds this length\.$/);
  });
  it('of an assumed speed says so', () => {
    const found = of({ cable: { ...LEAD, wave: { impedance_ohm: 80 } } });
    expect(found.assumptions.map(({ what, value }) => `${what}: ${value}`)).toEqual(['speed of the wave: 150 m/µs']);
    // Whatever else of the wave is assumed does not move it.
    expect(of({ cable: { ...LEAD, wave: { velocity_mPerS: 150e6 } } }).assumptions).toEqual([]);
  });
  it('is open without a rise time, and shown at a usual 0.1 µs', () => {
    const found = of({ drive: { riseTime_s: undefined } });
    expect([found.verdict, found.phrase, ...fields(found), found.value]).toEqual(['open', 'rise time?', 'D: riseTime_s', 100]);
    near(found.limit, 9.375);
    expect(found.text).toMatch(/^The rise time of D is not known; at a usual 0.1 µs the critical length would be .*, and the way is .*\.$/);
  });
  it('is open without a length, and of dimensions that give no line', () => {
    const [endless, odd] = [of({ cable: ENDLESS }), of({ cable: ODD })];
    expect([endless.verdict, ...fields(endless), odd.verdict, ...fields(odd)]).toEqual([
      'open',
      'W: length_m',
      'open',
      'W: insulation.wall_mm',
    ]);
    expect(odd.text).toBe(
      'The wave on W is not solved: its size and wall give no line that a wave could run on: mend them, or enter its surge impedance.',
    );
    // One that another motor hangs on.
    const branch = { ...ENDLESS, id: 'c2', tag: 'B' };
    expect(fields(of({ scope: { cables: [ENDLESS, branch] }, cable: ENDLESS }))).toEqual(['W: length_m', 'B: length_m']);
    const other = of({
      tree: {
        hops: [
          { cable: LEAD, from: 0, to: 1 },
          { cable: branch, from: 0, to: 2 },
        ],
      },
    });
    expect([other.verdict, ...fields(other), other.text]).toEqual([
      'open',
      'B: length_m',
      'Cannot be judged yet. Not known: length of B, one way.',
    ]);
  });
  it('is no matter of a softened edge, or of no cable', () => {
    expect(of({ tree: { atDrive: FILTER } }).text).toBe('Z slows the edge: see the peak at the motor.');
    expect(of({ tree: { unmodelled: REACTOR } }).text).toBe('L slows the edge: see the peak at the motor.');
    const none = of({ cable: { ...ENDLESS, kind: 'link' }, tree: { hops: [], motors: [{ motor: WOUND, node: 0 }] } });
    expect([of({ tree: { atDrive: FILTER } }).verdict, none.verdict, none.text]).toEqual([
      'not-applicable',
      'not-applicable',
      'No cable between drive and motor.',
    ]);
  });
});

const of = solved;
const PLAIN = of();
const V = PLAIN.value ?? 0;
const [LOW, HIGH] = [PLAIN.band?.low ?? 0, PLAIN.band?.high ?? 0];
/** With a limit of so many volts. */
const limited = (peakLimit_V: number, asked: Asked = {}) => of({ ...asked, motor: { ...asked.motor, peakLimit_V } });

describe('the peak at a motor', () => {
  it('of a long lead is (1 + Γ) times the bus less what the line loses', () => {
    expect([V / BUS < 1.8987, V / BUS > 1.85, LOW < V, HIGH > V, 1.1 * V > HIGH]).toEqual([true, true, true, true, true]);
    near(PLAIN.margin_pct, (100 * (2000 - V)) / 2000);
    expect([PLAIN.quantity, PLAIN.unit, PLAIN.case, PLAIN.limit, PLAIN.authority, PLAIN.remedies.length]).toEqual([
      'peak line to line, nominal supply',
      'V',
      'rated',
      2000,
      'manual',
      5,
    ]);
    expect([PLAIN.working[0], PLAIN.working[2]]).toEqual(['bus = √2 × 480 V = 678.8 V, unloaded', expect.stringContaining('= 0.899')]);
    const last = PLAIN.working.slice(-4);
    expect([last[0]?.endsWith(`; ${(V / BUS).toFixed(2)} × bus`), last[1]]).toEqual([true, `at +10 % line ${(1.1 * V).toFixed(1)} V`]);
    expect([last[2]?.endsWith(' µs, within 40 %'), last[3]?.includes('curve A ends at about 1.56 kV')]).toEqual([true, true]);
    expect([PLAIN.assumptions, PLAIN.runs, limited(0.5 * V).runs]).toEqual([[], ['M'], ['M']]);
  });
  describe('of a range of lengths', () => {
    const THIN = { ...LEAD, conductor: { ...LEAD.conductor, size: '14 AWG' } };
    const at = (length_m: number, lengthMost_m?: number, motor: Partial<Motor> = {}, drive: Partial<Drive> = {}) => ({
      cable: { ...THIN, length_m, ...(lengthMost_m === undefined ? {} : { lengthMost_m }) },
      motor,
      drive,
    });
    it('is that at the critical length, where it rings highest, if that lies between', () => {
      const found = of(at(2, 2000));
      near(found.value, of(at(9.375)).value ?? 0);
      expect([2, 2000].map((length_m) => (of(at(length_m)).value ?? 0) < (found.value ?? 0))).toEqual([true, true]);
      expect(found.text).toMatch(/ Of the range of lengths 30\.8.ft is the worst\.$/);
    });
    it('is that of the end that is worse for its limit: a short lead keeps the edge fast', () => {
      const slow = { riseLimit_s: 0.09e-6 };
      const [short, long, range] = [of(at(5, undefined, slow)), of(at(9, undefined, slow)), of(at(5, 9, slow))];
      expect([short.verdict, long.verdict, range.verdict]).toEqual(['fail', 'pass', 'fail']);
      expect(short.value).toBeLessThan(long.value ?? 0);
    });
    it('lets close pulses meet the ring of the long end', () => {
      const close = (asked: Asked) => only(all(asked).filter(({ id }) => id.endsWith('/pulses')));
      const slow = { pulseLeast_s: 5e-6 };
      const [short, long, range] = [at(20, undefined, {}, slow), at(200, undefined, {}, slow), at(20, 200, {}, slow)].map((asked) =>
        close({ ...asked, motor: { peakLimit_V: 1600 } }),
      );
      expect([short?.verdict, long?.verdict, range?.verdict]).toEqual(['pass', 'note', 'note']);
      expect(range?.working).toEqual(long?.working);
    });
  });
  it('shows all that it was made from', () => {
    const told: Asked = {
      drive: { busRaise_pct: 10, brakingBus_V: 700 },
      motor: { riseLimit_s: 1e-9, peakCurveSource: 'M' },
      cable: { ...LEAD, construction: 'copper-tape', lengthMost_m: 110, insulation: { type: 'XHHW-2', wall_mm: 1.2 } },
      tree: { terminators: [{ filter: { ...FILTER, role: 'terminator', resistance_ohm: 80, capacitance_F: 1e-7 }, node: 1 }] },
    };
    expect(labels(of(told))).toEqual([
      'Voltage of S, line to line',
      'Rise time of D, 10 to 90 %',
      'Front end of D',
      'How much the front end of D raises its bus',
      'Bus voltage of D while braking',
      'What the winding of M is built to',
      'Peak that the maker of M allows',
      'Least rise time that the maker of M allows',
      'Where the curve of M is taken from',
      'Rated voltage of M',
      'Rated power of M',
      'Surge impedance of M, line to line',
      'Length of W, one way',
      'Greatest length of W',
      'Construction of W',
      'Insulation type of W',
      'Insulation wall of W',
      'Conductor size of W',
      'Sets in parallel of W',
      'Surge impedance of W, line to line',
      'Speed of the wave along W',
      'Resistance with the capacitor of Z, one phase',
      'Capacitance of Z, one phase',
    ]);
    const softened = {
      ...FILTER,
      inductance_H: 1e-4,
      capacitance_F: 3e-8,
      resistance_ohm: 10,
      acrossInductor_ohm: 150,
      ratedVoltage_V: 480,
    };
    expect(labels(of({ tree: { atDrive: softened } })).slice(-5)).toHaveLength(5);
    expect(labels(of({ tree: { atDrive: softened } })).filter((each) => / of Z\b/.test(each))).toHaveLength(5);
    const coil = { ...REACTOR, impedance_pct: 3, ratedVoltage_V: 480, ratedCurrent_A: 72, coreLoss_ohm: 5000 };
    expect(labels(of({ tree: { atDrive: coil } })).filter((each) => / of L\b/.test(each))).toHaveLength(4);
  });
  it('over the limit fails, within the band or 10 % of it is a caution', () => {
    const of = (volts: number) => limited(volts);
    expect([LOW * 0.999, LOW * 1.001, V * 0.999].map((each) => of(each).verdict)).toEqual(['fail', 'fail', 'fail']);
    expect([V * 1.0001, HIGH * 0.999, HIGH * 1.001, V * 1.0999, V * 1.1001].map((each) => of(each).verdict)).toEqual([
      'caution',
      'caution',
      'caution',
      'caution',
      'pass',
    ]);
    const straddles = (volts: number) => of(volts).text.includes('the band straddles the limit');
    expect([LOW * 0.999, LOW * 1.001, HIGH * 0.999, HIGH * 1.001].map(straddles)).toEqual([false, true, true, false]);
    const beyond = of(1.09 * V).text;
    expect(beyond).toContain(`At +10 % line it is ${(1.1 * V).toFixed(1)} V.`);
    expect([of(V * 1.0001).text.includes('% line'), of(2000).text]).toEqual([
      false,
      `${V.toFixed(0)} V stand at M on each edge; the motor maker’s limit allows 2000 V.`,
    ]);
    expect(of(2000).phrase).toBe(`${V.toFixed(0)} V at the motor`);
  });
  it('while braking, and on a line that is higher by its own word, counts too', () => {
    const braking = { drive: { brakingBus_V: 1.2 * BUS } };
    const found = limited(1.15 * V, braking);
    expect([found.verdict, found.text.includes(`At +10 % line or while braking it is ${(1.2 * V).toFixed(1)} V.`)]).toEqual([
      'caution',
      true,
    ]);
    expect([limited(1.21 * V, braking).verdict, limited(1.15 * V, { drive: { brakingBus_V: BUS } }).verdict]).toEqual(['pass', 'pass']);
    expect(found.working.at(-3)).toBe(`at +10 % line ${(1.1 * V).toFixed(1)} V; braking ${(1.2 * V).toFixed(1)} V`);
    const high = { scope: { start: step({ cases: cases({ rated: 460, 'high line': 552 }) }) } };
    expect([limited(1.19 * V, high).verdict, limited(1.21 * V, high).verdict]).toEqual(['caution', 'pass']);
    expect(limited(1.19 * V, high).text).toContain(`At +20 % line it is ${(1.2 * V).toFixed(1)} V.`);
    for (const less of [cases({ rated: 460, 'high line': 470 }), cases({ 'high line': 552 }), cases({ rated: 0, 'high line': 552 })])
      expect(limited(1.09 * V, { scope: { start: step({ cases: less }) } }).text).toContain('At +10 % line');
  });
  it('is higher on an active front end, and not known while that is not', () => {
    const unknown = (volts: number, more: Partial<Drive> = {}) => limited(volts, { drive: { frontEnd: undefined, ...more } });
    const active = (volts: number, more: Partial<Drive> = {}) => limited(volts, { drive: { frontEnd: 'active', ...more } });
    near(active(3000).value, 1.1 * V);
    near(active(3000, { busRaise_pct: 25 }).value, 1.25 * V);
    expect(active(3000).working[0]).toBe('bus = √2 × 480 V × 1.10 = 746.7 V, unloaded');
    expect(active(3000).assumptions.map(({ what, value }) => `${what}: ${value}`)).toEqual(['bus of D above the crest of the line: 10 %']);
    expect(active(3000, { busRaise_pct: 25 }).assumptions).toEqual([]);
    expect(unknown(3000).assumptions.map(({ what, value }) => `${what}: ${value}`)).toEqual(['front end of D: diode bridge']);
    // Within the limit with either, and with an active one not at +10 % line: 1.1 × 1.1 = 1.21.
    const granted = 'A diode bridge is taken for granted: with an active front end it would be about';
    expect([1.2, 1.22].map((each) => unknown(each * V).text.includes(granted))).toEqual([true, false]);
    expect(unknown(1.2 * V).text).toContain(`about ${Math.round(1.1 * V)} V, and at +10 % line ${Math.round(1.21 * V)} V.`);
    // Over the limit with one and within it without.
    const found = unknown(1.05 * V);
    expect([found.verdict, ...fields(found)]).toEqual(['open', 'D: frontEnd']);
    expect(found.text).toContain('an active front end would raise it by 10 %, and which D has');
    expect([active(1.05 * V).verdict, active(1.15 * V).verdict]).toEqual(['fail', 'caution']);
    expect([unknown(1.22 * V).verdict, unknown(0.9 * V).verdict, unknown(1.22 * V, { busRaise_pct: 25 }).verdict]).toEqual([
      'pass',
      'fail',
      'open',
    ]);
  });
  it('must not come by a faster edge than the maker allows, which is known within 40 %', () => {
    const rise_us = Number(/of the peak: ([\d.]+) µs/.exec(PLAIN.working.join())?.[1]);
    const of = (times: number) => limited(2000, { motor: { riseLimit_s: times * rise_us * 1e-6 } });
    // The figure is printed to 10 ns.
    expect([0.8, 1.25, 1.65].map((times) => of(times).verdict)).toEqual(['pass', 'caution', 'fail']);
    expect(of(1.25).text).toMatch(/ Its edges take 0\.\d\d µs there; the motor maker’s limit holds for 0\.\d µs and slower\.$/);
    // Part 30 says 2 µs, and nothing of faster ones: a caution.
    const part30 = limited(0, { motor: { insulation: 'mg1-part-30' }, scope: { nominal_V: 240 } });
    expect([part30.verdict, part30.limit]).toEqual(['caution', 1000]);
    const unsaid = limited(2000, { drive: { riseTime_s: undefined }, motor: { riseLimit_s: 1e-6 } });
    expect([unsaid.verdict, ...fields(unsaid)]).toEqual(['open', 'D: riseTime_s']);
    expect(unsaid.text).toContain('whether the edge is slow enough for the motor maker’s limit hangs on the rise time of D');
  });
  it('hangs on the rise time of a short lead, and is open without it only where that decides', () => {
    const short = { cable: { ...LEAD, length_m: 5 }, drive: { riseTime_s: undefined } };
    const [decides, over, within] = [limited(1.6 * BUS, short), limited(1.02 * BUS, short), limited(3 * BUS, short)];
    expect([decides.verdict, ...fields(decides), over.verdict, within.verdict]).toEqual(['open', 'D: riseTime_s', 'fail', 'pass']);
    expect(decides.text).toMatch(
      /^With the fastest edge \d+ V stand at M, over 1086 V; with a slow one less\. The rise time of D decides\.$/,
    );
    expect(decides.value).toBe(within.value);
    // One that is known and too fast fails, whatever a slower one would do.
    const known = { ...short, drive: { riseTime_s: 0.1e-6 } };
    expect(limited(0.99 * (of(known).value ?? 0), known).verdict).toBe('fail');
  });
  it('beside no limit is open, and told beside a general-purpose motor’s', () => {
    const none = of({ motor: { insulation: undefined } });
    expect([none.verdict, ...fields(none), none.limit, none.value]).toEqual(['open', 'M: insulation', 1000, V]);
    expect(none.text).toBe(
      `${V.toFixed(0)} V at M; what its winding is built for is not known. As a general-purpose motor (1000 V) it would fail.`,
    );
    expect(of({ motor: { insulation: undefined }, scope: { nominal_V: 240 } }).text).toContain('it would be within its limit.');
    const curve = of({ motor: { insulation: 'curve', peakCurve: [{ rise_s: 1, peak_V: 900 }] } });
    expect(curve.text).toContain('the curve begins at 1000000.00 µs');
  });
  it('of a motor of no known size is nearly full', () => {
    const found = of({ motor: { ratedPower_W: undefined, surgeImpedance_ohm: undefined } });
    expect(found.assumptions.map(({ what, value }) => `${what}: ${value}`).at(-1)).toBe('power of M: small: nearly full reflection');
    expect(of({ motor: { ratedPower_W: undefined } }).assumptions).toEqual([]);
    expect(of({ motor: { surgeImpedance_ohm: undefined } }).assumptions.map(({ what }) => what)).toEqual(['surge impedance of M']);
  });
  it('is told beside the ends of curves that are not judged by', () => {
    const last = (ratedVoltage_V: number | undefined) => of({ motor: { ratedVoltage_V } }).working.at(-1) ?? '';
    expect([500, 501, 690].map((volts) => /curve ([AB])/.exec(last(volts))?.[1])).toEqual(['A', 'B', 'B']);
    for (const volts of [691, undefined]) expect(last(volts)).toMatch(/^edge at the motor/);
  });
});

describe('a peak that is not solved', () => {
  it('is open without voltage, limit or length', () => {
    const blank = without(SUPPLY, 'voltage_V');
    const found = of({ cable: ENDLESS, motor: { insulation: undefined }, scope: { nominal_V: null, voltageFrom: blank } });
    expect([found.verdict, ...fields(found)]).toEqual(['open', 'M: insulation', 'W: length_m', 'S: voltage_V']);
    expect(found.text).toBe('Cannot be judged yet: the supply voltage of its drive is not known.');
    const endless = of({ cable: ENDLESS, motor: { insulation: undefined } });
    expect([endless.verdict, ...fields(endless)]).toEqual(['open', 'M: insulation', 'W: length_m']);
    // One on another branch, ahead of it in the tree, beside its own.
    const branch = { ...ENDLESS, id: 'c2', tag: 'B' };
    const hops = [
      { cable: branch, from: 0, to: 2 },
      { cable: ENDLESS, from: 0, to: 1 },
    ];
    expect(fields(of({ cable: ENDLESS, tree: { hops } }))).toEqual(['W: length_m', 'B: length_m']);
    const odd = of({ cable: ODD });
    expect([odd.verdict, ...fields(odd), odd.text.includes('give no line')]).toEqual(['open', 'W: insulation.wall_mm', true]);
    const none = of({ cable: { ...ENDLESS, kind: 'link' }, tree: { hops: [], motors: [{ motor: WOUND, node: 0 }] } });
    expect([none.verdict, none.text, none.runs]).toEqual(['not-applicable', 'No cable between drive and motor.', ['M']]);
  });
  it('is left to the maker of what stands between', () => {
    const said = (tree: Partial<WaveTree>) => {
      const found = of({ tree, cable: ENDLESS, motor: { insulation: undefined } });
      return [found.verdict, found.phrase, ...fields(found)];
    };
    expect(said({ atDrive: { ...FILTER, role: 'sine' } })).toEqual([
      'open',
      'peak behind Z?',
      'M: insulation',
      'W: length_m',
      'Z: motorPeak_V',
    ]);
    expect(of({ tree: { atDrive: { ...FILTER, role: 'sine' } } }).text).toContain('a usual figure is 1.5 times the line, 720 V');
    expect(of({ tree: { atDrive: FILTER } }).text).toBe(
      'Z between drive and motor changes the wave; without its maker’s figure for the peak at the motor it is not judged here.',
    );
    const blank = { filter: { ...FILTER, role: 'terminator' as const }, node: 1 };
    expect(of({ tree: { terminators: [blank] } }).text).toContain('the peak at the motor, or its parts, it is not judged here');
    expect(of({ tree: { unmodelled: { ...REACTOR, role: 'sine' } } }).text).toContain('L between drive and motor');
  });
});

describe('a peak that a filter’s maker states', () => {
  const stated = (filter: Partial<Filter>, motor: Partial<Motor> = {}, more: Asked = {}) =>
    of({ ...more, motor: { peakLimit_V: 900, ...motor }, tree: { atDrive: { ...FILTER, motorPeak_V: 900, ...filter } } });
  it('holds, beside the limit', () => {
    const [within, over] = [stated({}), stated({ motorPeak_V: 1800 })];
    expect([within.verdict, within.value, within.limit, within.unit, within.authority, within.margin_pct, within.phrase]).toEqual([
      'pass',
      900,
      900,
      'V',
      'manual',
      0,
      '900 V at the motor',
    ]);
    expect([over.verdict, over.margin_pct, over.working, over.text]).toEqual([
      'fail',
      -100,
      ['1800.0 V stated, 900.0 V allowed'],
      'Behind Z its maker states 1800 V at the motor; the motor maker’s limit allows 900 V.',
    ]);
    expect(labels(stated({ motorRise_s: 1e-6 }, { riseLimit_s: 1e-7, peakCurveSource: 'x' }))).toEqual([
      'Peak at the motor that the maker of Z states',
      'Rise time at the motor that the maker of Z states',
      'What the winding of M is built to',
      'Peak that the maker of M allows',
      'Least rise time that the maker of M allows',
      'Where the curve of M is taken from',
      'Rated voltage of M',
    ]);
  });
  it('wants its rise time where the limit speaks of one, unless it is over or of a sine', () => {
    const asked = stated({}, { riseLimit_s: 1e-6 });
    expect([asked.verdict, ...fields(asked)]).toEqual(['open', 'Z: motorRise_s']);
    expect(asked.text).toContain(
      'within 900 V; how fast the edge is at the motor is not entered, and the motor maker’s limit speaks of it',
    );
    expect([stated({ motorPeak_V: 901 }, { riseLimit_s: 1e-6 }).verdict, stated({ role: 'sine' }, { riseLimit_s: 1e-6 }).verdict]).toEqual([
      'fail',
      'pass',
    ]);
    const curve: Partial<Motor> = { insulation: 'curve', peakCurve: [{ rise_s: 1e-7, peak_V: 1000 }] };
    expect([stated({}, curve).verdict, stated({ motorRise_s: 2e-7 }, curve).verdict]).toEqual(['open', 'pass']);
    const rise = (motorRise_s: number) => stated({ motorRise_s }, { riseLimit_s: 1e-6 });
    // Within 40 % of it a caution; one part in fifty is nothing.
    expect([0.981e-6, 0.979e-6, 0.715e-6, 0.713e-6].map((each) => rise(each).verdict)).toEqual(['pass', 'caution', 'caution', 'fail']);
    expect(rise(0.8e-6).text).toContain(' Its edges take 0.80 µs there; the motor maker’s limit holds for 1.0 µs and slower.');
    expect(stated({ role: 'sine', motorRise_s: 1e-9 }, { riseLimit_s: 1e-6 }).verdict).toBe('pass');
    // A standard that says nothing of faster edges leaves a caution.
    expect(stated({ motorRise_s: 1e-9 }, { insulation: 'mg1-part-30' }).verdict).toBe('caution');
  });
  it('is open beside no limit, or while a length is not known', () => {
    expect(fields(stated({}, { insulation: undefined }))).toEqual(['M: insulation']);
    expect(fields(stated({}, { insulation: undefined }, { cable: ENDLESS }))).toEqual(['M: insulation', 'W: length_m']);
    // A curve says nothing of edges that are faster than its first point.
    const early = stated({ motorRise_s: 0.5e-7 }, { insulation: 'curve', peakCurve: [{ rise_s: 1e-7, peak_V: 1000 }] });
    expect([early.verdict, ...fields(early), early.runs]).toEqual(['open', 'M: peakCurveSource', ['M']]);
    const endless = stated({}, {}, { cable: ENDLESS });
    expect([endless.verdict, ...fields(endless)]).toEqual(['open', 'W: length_m']);
  });
});

describe('pulses that meet the last ring', () => {
  const judge = (asked: Asked = {}) => all(asked).filter(({ id }) => id === 'motor-peak-voltage/element/e2/pulses');
  const pulses = (asked: Asked = {}) => only(judge(asked));
  const RING_s = Number(/= ([\d.]+) µs, a²/.exec(pulses().working[0] ?? '')?.[1]) * 1e-6;
  it('may reach 2 to 2.8 times the bus, where that is over the limit a note', () => {
    const [over, within] = [pulses({ motor: { peakLimit_V: 2.79 * BUS } }), pulses({ motor: { peakLimit_V: 2.81 * BUS } })];
    expect([over.verdict, over.remedies.length, within.verdict, within.remedies]).toEqual(['note', 2, 'pass', []]);
    near(over.value, 2.8 * BUS);
    near(over.band?.low, 2 * BUS);
    near(over.band?.high, 2.8 * BUS);
    near(over.margin_pct, (100 * (2.79 - 2.8)) / 2.79);
    expect([over.title, over.authority, over.case, over.unit, over.band?.confidence, over.phrase]).toEqual([
      'Peak of close pulses',
      'estimate',
      'rated',
      'V',
      'rough',
      'up to 1900 V possible',
    ]);
    expect(over.working[1]).toBe('least 2 × 678.8 V, most 2.8 × 678.8 V');
    expect(over.text).toMatch(
      /needs [\d.]+ µs to fall to a tenth; whether D keeps its edges that far apart is not known\. Edges that meet it/,
    );
    expect(labels(over)).toEqual([
      'Rise time of D, 10 to 90 %',
      'Length of W, one way',
      'Construction of W',
      'Insulation type of W',
      'Conductor size of W',
      'Sets in parallel of W',
      'Surge impedance of W, line to line',
      'Speed of the wave along W',
    ]);
  });
  it('are none where the drive keeps its edges apart', () => {
    const at = (times: number) => pulses({ motor: { peakLimit_V: 1500 }, drive: { pulseLeast_s: times * RING_s } });
    const [apart, close] = [at(1.01), at(0.99)];
    expect([apart.verdict, apart.value, apart.limit, apart.band, apart.phrase, apart.remedies]).toEqual([
      'pass',
      null,
      null,
      null,
      'ring dies between edges',
      [],
    ]);
    const told = (times: number) => (times * RING_s * 1e6).toFixed(1);
    expect(apart.text).toBe(`D keeps ${told(1.01)} µs between edges; the ring at M has fallen to a tenth after ${told(1)} µs.`);
    expect([labels(apart)[0], apart.runs]).toEqual(['Least time between edges of D', ['M']]);
    expect([close.verdict, close.text.includes(`, and D lets edges follow each other after ${told(0.99)} µs. Edges`)]).toEqual([
      'note',
      true,
    ]);
  });
  it('are not looked at behind a filter, or on a lead short of critical', () => {
    expect(judge({ cable: { ...LEAD, length_m: 9.375 } })).toEqual([]);
    expect(judge({ cable: { ...LEAD, length_m: 9.38 } })).toHaveLength(1);
    const coil = { ...REACTOR, impedance_pct: 3, ratedVoltage_V: 480, ratedCurrent_A: 72, coreLoss_ohm: 5000 };
    expect(judge({ tree: { atDrive: coil } })).toEqual([]);
  });
});
