import { describe, expect, it } from 'vitest';
import type { DriveScope, ElementScope } from '../../../engine/checks/check.ts';
import type { Finding } from '../../../engine/checks/finding.ts';
import { harmonics, residualCurrent, supplyStiffness, voltageUnbalance } from '../../../engine/checks/sourceChecks.ts';
import type { ElementOf } from '../../../engine/lineup/elements.ts';
import { complex } from '../../../engine/physics/complex.ts';
import { expectClose } from '../../reference/expectClose.ts';
import { DRIVE, driveScope, elementScope, MOTOR, SUPPLY, step } from './scopes.ts';
import { fields, labels, only } from './told.ts';

/** A drive of 72 A on 480 V, √3 × 480 × 72 = 59.86 kVA; limits by one maker's published wiring guide, spectra from memory. */

type Drive = ElementOf<'drive'>;
type Reactor = ElementOf<'reactor'>;
type Transformer = ElementOf<'transformer'>;
const REACTOR: Reactor = { id: 'l1', kind: 'reactor', tag: 'L', impedance_pct: 3, ratedCurrent_A: 72 };
const TRANSFORMER: Transformer = {
  id: 't1',
  kind: 'transformer',
  tag: 'T',
  primaryVoltage_V: 4160,
  secondaryVoltage_V: 480,
  ratedPower_VA: 75_000,
  impedance_pct: 5,
};
const { project } = elementScope();
const NO_VOLTAGE = 'secondaryVoltage_V';
const without = <T extends object>(part: T, ...keys: readonly (keyof T)[]): T =>
  Object.fromEntries(Object.entries(part).filter(([key]) => !keys.includes(key as keyof T))) as T;

describe('the impedance of a source', () => {
  const READ: Drive = { ...DRIVE, dcChoke: 'none', manual: { reactorRequired: false } };
  const of = (drive: Partial<Drive> = {}, more: Partial<DriveScope> = {}): Finding =>
    only(supplyStiffness.scope === 'drive' ? supplyStiffness.judge(driveScope({ drive: { ...READ, ...drive }, ...more })) : []);
  const fault = (faultCurrent_A: number) => ({ supply: { ...SUPPLY, faultCurrent_A } });
  it('is its fault level on the drive’s base: 72 of 20,000 A are 0.36 %', () => {
    const found = of();
    expectClose(found.value ?? 0, 0.36, { relative: 1e-12 }, 'by hand');
    expectClose(found.margin_pct ?? 0, -28, { relative: 1e-9 }, 'by hand: (0.36 − 0.5) / 0.5');
    expect([found.verdict, found.limit, found.unit, found.phrase, found.remedies.length]).toEqual([
      'caution',
      0.5,
      '%',
      'source 0.36 %',
      3,
    ]);
    expect(found.working).toEqual([
      'S of the drive = √3 × 480 V × 72.0 A = 59.86 kVA',
      '100 × 59.86 kVA / 16.63 MVA fault level = 0.360 %',
      'together 0.360 %',
    ]);
    expect(found.text).toBe(
      'The source of D has 0.36 % on the drive’s own base; without a d.c. choke at least 0.5 % is asked and 1 % is comfortable.',
    );
    expect(labels(found)).toEqual([
      'Rated input current of D',
      'D.c. choke of D',
      'Whether the manual of D asks for a reactor',
      'Fault current of S',
      'Voltage of S, line to line',
    ]);
  });
  it('of 0.5 % is enough without a choke and 0.25 % with one; 1 % is comfortable', () => {
    const at = (pct: number, dcChoke: 'none' | 'fitted') => of({ dcChoke }, fault(7200 / pct)).verdict;
    expect([0.499, 0.5, 0.999, 1].map((pct) => at(pct, 'none'))).toEqual(['caution', 'note', 'note', 'pass']);
    expect([0.249, 0.25, 0.999, 1].map((pct) => at(pct, 'fitted'))).toEqual(['caution', 'note', 'note', 'pass']);
    const [choked, calm] = [of({ dcChoke: 'fitted' }), of({}, fault(7200))];
    expect([choked.limit, choked.text.includes('with its d.c. choke at least 0.25 %'), calm.remedies]).toEqual([0.25, true, []]);
  });
  it('of a transformer is its own on the drive’s base, and too much transformer is a caution', () => {
    const by = (kVA: number, impedance_pct: number, dcChoke: 'none' | 'fitted' = 'none', reactors: readonly Reactor[] = []) =>
      of({ dcChoke }, { transformer: { ...TRANSFORMER, ratedPower_VA: 1000 * kVA, impedance_pct }, reactors });
    const found = by(75, 5);
    // 5 % × 59.86 / 75 kVA.
    expectClose(found.value ?? 0, 3.9906, { relative: 1e-4 }, 'by hand');
    expect([found.verdict, found.working[1]]).toEqual(['pass', '5 % × 59.86 / 75 kVA = 3.991 %; the transformer is 1.3 times the drive']);
    expect(found.text).toContain('own base, its transformer is 1.3 times the drive; without');
    expect(labels(found).slice(3)).toEqual(['Rated power of T', 'Impedance of T', 'Secondary voltage of T']);
    // 10 and 20 times 59.8597 kVA, at 1.2 % of the drive's base and more.
    expect([by(598, 12), by(599, 12), by(1197, 24, 'fitted'), by(1198, 24, 'fitted')].map((each) => each.verdict)).toEqual([
      'pass',
      'caution',
      'pass',
      'caution',
    ]);
    // What a reactor stands ahead of is no longer a matter of times.
    expect(by(1198, 24, 'none', [REACTOR]).verdict).toBe('pass');
  });
  it('counts reactors on the drive’s base, one that serves several as less', () => {
    const [own, shared] = [of({}, { reactors: [REACTOR] }), of({}, { reactors: [{ ...REACTOR, ratedCurrent_A: 720 }, REACTOR] })];
    expectClose(own.value ?? 0, 3.36, { relative: 1e-9 }, 'by hand');
    expectClose(shared.value ?? 0, 3.66, { relative: 1e-9 }, 'by hand: 0.36 + 0.3 + 3');
    expect([own.verdict, own.working[2], labels(own).slice(5)]).toEqual([
      'pass',
      "L: 3 % × 72.0 / 72.0 A = 3.000 % on this drive's base",
      ['Impedance of L', 'Rated current of L'],
    ]);
  });
  it('takes the per cent of a reactor of its own rated voltage: 3 % of 240 V are 1.5 % of 480 V', () => {
    const found = of({}, { reactors: [{ ...REACTOR, ratedVoltage_V: 240 }] });
    expectClose(found.value ?? 0, 1.86, { relative: 1e-9 }, '0.36 + 1.5');
    expect(labels(found).at(-1)).toBe('Rated voltage of L');
  });
  it('counts the feeder only where the project says so, and no reactor twice', () => {
    // 40 mΩ × √3 × 72 A / 480 V = 1.0392 %.
    const path = { feed: step({ leastPath_ohm: { re: 0.02, im: 0.04 } }) };
    const credited = { ...path, project: { ...project, creditFeeder: true } };
    expectClose(of({}, path).value ?? 0, 0.36, { relative: 1e-9 }, 'source alone');
    const found = of({}, credited);
    expectClose(found.value ?? 0, 1.0392, { relative: 1e-4 }, 'by hand');
    expect([found.verdict, found.working[2]]).toEqual([
      'pass',
      'path to the drive’s input, reactance 40.000 mΩ = 1.039 % (the project counts the feeder)'.replace('drive’s', "drive's"),
    ]);
    // The path holds the reactor too: 0.54 % of it is left for the rest.
    const reactors = [{ ...REACTOR, impedance_pct: 0.5 }];
    expectClose(of({}, { ...credited, reactors }).value ?? 0, 1.0392, { relative: 1e-4 }, 'by hand');
    expectClose(of({}, { ...credited, reactors: [REACTOR] }).value ?? 0, 3.36, { relative: 1e-9 }, 'what the path says is less');
    const less = of({}, { ...credited, feed: step({ leastPath_ohm: { re: 0, im: 0.01 } }) });
    expectClose(less.value ?? 0, 0.36, { relative: 1e-9 }, 'a path of less');
    expect([less.working.length, of({}, { ...credited, feed: step() }).value]).toEqual([3, of().value]);
  });
  it('is not asked of an active front end; a reactor that the manual asks for and that is not there fails', () => {
    const [active, asked] = [of({ frontEnd: 'active' }), of({ manual: { reactorRequired: true, page: '7' } })];
    expect([active.verdict, asked.verdict, asked.authority, asked.phrase, asked.remedies.length, labels(asked)]).toEqual([
      'not-applicable',
      'fail',
      'manual',
      'reactor asked for',
      1,
      ['Whether the manual of D asks for a reactor'],
    ]);
    expect(asked.source).toBe('the manual of D, page 7; it overrides the screening rules');
    expect(of({ manual: { reactorRequired: true } }, { reactors: [REACTOR] }).verdict).toBe('pass');
  });
  it('is open where the manual was not read, or where the choke decides', () => {
    const unread = of({ manual: {} }, fault(7200));
    expect([unread.verdict, ...fields(unread)]).toEqual(['open', 'D: manual.reactorRequired']);
    expect(unread.text).toBe(
      'The source of D has 1.00 % on the drive’s own base; by itself that is likely fine. Not known: whether the manual of D asks for a reactor.',
    );
    expect(unread.remedies).toEqual(['Ask: drive supplier.', ...of().remedies]);
    expect(fields(of({ manual: {} }, { reactors: [REACTOR] }))).toEqual([]);
    const choke = of({ dcChoke: undefined });
    expect([choke.verdict, ...fields(choke), choke.text.includes('fine with a d.c. choke and too stiff without one')]).toEqual([
      'open',
      'D: dcChoke',
      true,
    ]);
    expect(fields(without(of({ dcChoke: undefined, manual: {} })))).toEqual(['D: dcChoke', 'D: manual.reactorRequired']);
    const stiff = of({ dcChoke: undefined, manual: undefined }, fault(36_000));
    expect([...fields(stiff), stiff.text.includes('by itself that is too stiff.')]).toEqual(['D: manual.reactorRequired', true]);
    expect(of({ dcChoke: undefined }, fault(7200)).verdict).toBe('pass');
    expect(of({ dcChoke: undefined }, fault(36_000)).verdict).toBe('caution');
  });
  it('is open without what it is made of', () => {
    expect(fields(of({ inputCurrent_A: undefined }))).toEqual(['D: inputCurrent_A']);
    expect(fields(of({}, { supply: without(SUPPLY, 'faultCurrent_A', 'voltage_V') }))).toEqual(['S: faultCurrent_A', 'S: voltage_V']);
    expect(fields(of({}, { supply: without(SUPPLY, 'faultCurrent_A') }))).toEqual(['S: faultCurrent_A']);
    for (const key of ['ratedPower_VA', 'impedance_pct', NO_VOLTAGE] as const)
      expect(fields(of({}, { transformer: without(TRANSFORMER, key) }))).toEqual([`T: ${key}`]);
    expect(of({}, { supply: null })).toMatchObject({
      verdict: 'open',
      text: 'Cannot be judged yet: what lies ahead of it cannot be made out.',
      missing: [],
      remedies: [],
    });
    // A reactor of no known size may be as large as many drives together.
    for (const key of ['impedance_pct', 'ratedCurrent_A'] as const) {
      const found = of({}, { reactors: [without(REACTOR, key)] });
      expect([found.verdict, ...fields(found)]).toEqual(['open', `L: ${key}`]);
    }
  });
});

describe('voltage unbalance', () => {
  const of = (unbalance_pct: number | undefined, more: Partial<ElementScope> = {}) =>
    voltageUnbalance.scope === 'element' ? voltageUnbalance.judge(elementScope({ element: { ...SUPPLY, unbalance_pct }, ...more })) : [];
  it('over 3 % is a caution, over 2 % a note', () => {
    expect([2, 2.01, 3, 3.01].map((pct) => only(of(pct)).verdict)).toEqual(['pass', 'note', 'note', 'caution']);
    const found = only(of(1.5));
    expect([found.value, found.limit, found.unit, found.margin_pct, found.phrase, found.remedies, labels(found)]).toEqual([
      1.5,
      3,
      '%',
      50,
      'unbalance 1.5 %',
      [],
      ['Voltage unbalance of S'],
    ]);
    expect([found.working, only(of(2.5)).remedies.length, only(of(2.5)).text]).toEqual([
      ['as given: 1.50 %'],
      2,
      'The line voltages of S differ by 2.5 % from their mean; to 2 % is usual, over 3 % is too much.',
    ]);
  });
  it('is asked of a supply that feeds a drive', () => {
    const open = only(of(undefined));
    expect([open.verdict, ...fields(open)]).toEqual(['open', 'S: unbalance_pct']);
    expect([of(1, { element: DRIVE }), only(of(1, { drives: [] })).verdict]).toEqual([[], 'not-applicable']);
  });
});

describe('harmonics', () => {
  const of = (more: Partial<ElementScope> = {}) => (harmonics.scope === 'element' ? harmonics.judge(elementScope(more)) : []);
  const supply = (more: Partial<ElementOf<'supply'>> = {}, flow = step({ networkFault_A: 20_000 }), drive: Partial<Drive> = {}) => {
    const element = { ...SUPPLY, ...more };
    return only(of({ element, flow, drives: [{ ...DRIVE, ...drive }], ahead: [element] }));
  };
  /** √Σ (h a)² of orders 5, 7, 11, 13. */
  const weighed = (...shares: readonly number[]) => Math.hypot(...shares.map((share, i) => share * ([5, 7, 11, 13][i] ?? 0)));
  it('without a choke: Σ (h Ih / Ik)² of 65, 41, 8.5 and 7.7 %; less with one', () => {
    const [bare, choked] = [supply(), supply({}, undefined, { dcChoke: 'fitted' })];
    const share = (100 * 72) / 20_000;
    expectClose(bare.value ?? 0, share * weighed(0.65, 0.41, 0.085, 0.077), { relative: 1e-9 }, 'by hand');
    expectClose(choked.value ?? 0, share * weighed(0.4, 0.15, 0.08, 0.05), { relative: 1e-9 }, 'by hand');
    expect([bare.verdict, bare.limit, bare.unit, labels(choked)[2]]).toEqual(['note', 8, '%', 'D.c. choke of D']);
    expectClose(bare.margin_pct ?? 0, (100 * (8 - (bare.value ?? 0))) / 8, { relative: 1e-9 }, 'by hand');
    expect(bare.working).toEqual([
      'I5 = 46.8 A',
      'I7 = 29.5 A',
      'I11 = 6.1 A',
      'I13 = 5.5 A',
      'THD = √Σ (h Ih / Ik)² with Ik 20.00 kA = 1.64 %',
      // √(65² + 41² + 8.5² + 7.7²) = 77.7 %; 20,000 / 72 = 278.
      'current distortion 78 % of 72 A; limit 15 % at Isc/IL 278 (IEEE 519 Table 2), which holds at the utility’s connection',
      'estimate, no band known: the spectra are usual values, and all bridges are added in phase',
    ]);
  });
  it('of unknown demand are taken as all of it, and said to be', () => {
    const found = supply();
    expect([found.phrase, found.remedies.length, found.assumptions.map((each) => each.what)]).toEqual([
      'demand not given',
      2,
      ['spectrum of the bridges', 'demand current'],
    ]);
    expect(found.text).toBe(
      'The demand of the whole installation at S is not given: with the drives taken as all of it, their currents may distort the voltage by about 1.6 % (limit 8 %): a study is needed. How far this is off is not known: the spectra are usual values, and all bridges are added in phase.',
    );
    expect(labels(found)).toEqual(['Rated input current of D', 'Rated voltage of D', 'Voltage of S, line to line', 'Fault current of S']);
  });
  it('call for a study over 25 % of the current, or over 5 % of distortion', () => {
    const [quarter, over] = [supply({ demandCurrent_A: 288 }), supply({ demandCurrent_A: 287 })];
    expect([quarter.phrase, over.phrase, quarter.remedies, over.remedies.length]).toEqual([
      'harmonics look small',
      'harmonic study needed',
      [],
      2,
    ]);
    expect(quarter.text).toBe(
      'Drives take 25 % of the current at S; their currents may distort the voltage by about 1.6 % (limit 8 %): the screen suggests that the limits can be kept; it proves nothing. How far this is off is not known: the spectra are usual values, and all bridges are added in phase.',
    );
    expect([labels(quarter).at(-1), quarter.assumptions.length]).toEqual(['Demand of the installation at S', 1]);
    // A quarter of 77.7 %; 20,000 / 288 = 69.
    expect(quarter.working.at(-2)).toContain('current distortion 19 % of 288 A; limit 12 % at Isc/IL 69 ');
    // 4.5487 × 7200 / Ik is 5 % at 6550 A.
    // Whatever motors would feed into a fault beside it.
    const at = (level: number) =>
      supply({ faultCurrent_A: level, demandCurrent_A: 5000 }, step({ networkFault_A: level, faultCurrent_A: 1e6 })).phrase;
    expect([at(6560), at(6540)]).toEqual(['harmonics look small', 'harmonic study needed']);
    // A demand of less than the drives is that of the drives.
    expect(supply({ demandCurrent_A: 10 }).text).toContain('Drives take 100 % of the current');
    expect(supply({}, step({ networkFault_A: 1e6 })).text).toContain('by less than 0.1 %');
    expect(supply({}, step({ networkFault_A: 655_000 })).text).toContain('by less than 0.1 %');
    expect(supply({}, step({ networkFault_A: 650_000 })).text).toContain('by about 0.1 %');
  });
  it('of drives at another voltage are those here, and of several add up', () => {
    const found = supply({ voltage_V: 4160 });
    expectClose((found.value ?? 0) / (supply().value ?? 1), 480 / 4160, { relative: 1e-9 }, 'ratio of voltages');
    // 1 kV to 69 kV: 5 %.
    expect(found.limit).toBe(5);
    const plain = without(DRIVE, 'ratedVoltage_V');
    const two = only(of({ element: SUPPLY, flow: step({ networkFault_A: 20_000 }), drives: [plain, DRIVE] }));
    expectClose((two.value ?? 0) / (supply().value ?? 1), 2, { relative: 1e-9 }, 'two alike');
  });
  it('of what the network gives at the least: twice the path warm and long, half the fault current that it has cold and short', () => {
    const flow = (warm: number) => step({ networkFault_A: 20_000, coldPath_ohm: complex(0.003, 0.004), path_ohm: complex(0, warm) });
    const of_A = (warm: number) => supply({}, flow(warm)).value ?? 0;
    expectClose(of_A(0.01) / (supply().value ?? 1), 2, { relative: 1e-9 }, 'long');
    expectClose(of_A(0.005), supply().value ?? 0, { relative: 1e-9 }, 'as cold');
    // A path makes no network of one that is not known.
    const unknown = step({ coldPath_ohm: complex(0.003, 0.004), path_ohm: complex(0, 0.01) });
    expect(supply({}, unknown).verdict).toBe('open');
    const behind = (flow: ElementScope['flow']) => only(of({ element: TRANSFORMER, flow, ahead: [TRANSFORMER, SUPPLY] }));
    expect(behind(unknown).value).toBe(behind(step()).value);
  });
  it('behind a transformer: of its own rating, its fault current with what lies ahead of it', () => {
    const at = (part: Transformer, faultCurrent_A: number | null, more: Partial<ElementScope> = {}) =>
      only(of({ element: part, flow: step({ networkFault_A: faultCurrent_A }), ahead: [part, SUPPLY], ...more }));
    const part = { ...TRANSFORMER, ratedPower_VA: 300_000 };
    const distortion = (fault_A: number) => (100 * 72 * weighed(0.65, 0.41, 0.085, 0.077)) / fault_A;
    // 300 kVA / (√3 × 480 V × 5 %) = 7216.9 A; 20,000 A at 4160 V are 173,333 A at 480 V; both in a row 6928.4 A. 72 of 360.84 A are 20 %.
    const found = at(part, 20_000);
    expectClose(found.value ?? 0, distortion(6928.4), { relative: 1e-5 }, 'by hand');
    expect([found.phrase, found.text.includes('Drives take 20 % of the current at T'), found.assumptions.length]).toEqual([
      'harmonics look small',
      true,
      1,
    ]);
    expect(found.working[0]).toBe('Ik = 1 / (1 / 7.22 kA of its own + 1 / 173.33 kA of the network, 20.00 kA ahead of it) = 6.93 kA');
    expect(labels(found).slice(2)).toEqual([
      'Secondary voltage of T',
      'Rated power of T',
      'Primary voltage of T',
      'Impedance of T',
      'Voltage of S, line to line',
      'Fault current of S',
    ]);
    // A weak supply ahead leaves less, and distorts more: 500 A at 4160 V are 4333.3 A, in a row 2707.6 A.
    expectClose(at(part, 500).value ?? 0, distortion(2707.6), { relative: 1e-4 }, 'by hand');
    const boundless = at(part, null, { ahead: [part, without(SUPPLY, 'faultCurrent_A')] });
    expectClose(boundless.value ?? 0, distortion(7216.9), { relative: 1e-5 }, 'its own alone');
    expect(boundless.working[0]).toBe('I5 = 46.8 A');
    expect(boundless.assumptions.map((each) => `${each.what}: ${each.value}`).at(-1)).toBe('fault level ahead of T: unlimited');
    for (const key of ['ratedPower_VA', 'primaryVoltage_V', NO_VOLTAGE, 'impedance_pct'] as const) {
      const open = at(without(part, key), 20_000);
      expect([open.verdict, ...fields(open)]).toEqual(['open', `T: ${key}`]);
    }
  });
  it('are screened of bridges alone, and open without what they are made of', () => {
    const of480 = (drive: Partial<Drive>) => supply({}, undefined, drive);
    expect([of480({ frontEnd: 'active' }).verdict, of({ element: MOTOR })]).toEqual(['not-applicable', []]);
    const both = only(of({ element: SUPPLY, flow: step({ networkFault_A: 20_000 }), drives: [DRIVE, { ...DRIVE, frontEnd: 'active' }] }));
    expect(both.value).toBe(supply().value);
    expect(fields(of480({ inputCurrent_A: undefined }))).toEqual(['D: inputCurrent_A']);
    const blank = supply({ voltage_V: undefined, faultCurrent_A: undefined }, step());
    expect([blank.verdict, ...fields(blank)]).toEqual(['open', 'S: faultCurrent_A', 'S: voltage_V']);
    expect(supply({}, step()).verdict).toBe('open');
  });
});

describe('a residual-current device', () => {
  const BREAKER: ElementOf<'disconnect'> = { id: 'q1', kind: 'disconnect', tag: 'Q', device: 'breaker' };
  const LEAKY: Drive = { ...DRIVE, leakageCurrent_A: 0.045 };
  const of = (part: Partial<ElementOf<'disconnect'>>, more: Partial<ElementScope> = {}) =>
    residualCurrent.scope === 'element'
      ? residualCurrent.judge(elementScope({ element: { ...BREAKER, ...part }, drives: [LEAKY, LEAKY], ...more }))
      : [];
  it('ahead of a rectifier is of type B, or there is none', () => {
    const [none, wrong] = [only(of({ residualCurrentType: 'none' })), only(of({ residualCurrentType: 'A' }))];
    expect([none.verdict, none.phrase, none.text, labels(none)]).toEqual([
      'pass',
      'no residual-current device',
      'Q has no residual-current device.',
      ['Which device Q is', 'Residual-current type of Q'],
    ]);
    expect([wrong.verdict, wrong.phrase, wrong.remedies.length, labels(wrong)]).toEqual([
      'caution',
      'residual-current type A',
      2,
      ['Which device Q is', 'Residual-current type of Q'],
    ]);
    expect(wrong.text).toContain('of type A ahead of D, D; behind');
  });
  it('is judged in a switch too, or where its device is not said: that is what one without overcurrent release is', () => {
    for (const device of ['switch', 'fused-switch', undefined] as const)
      expect([only(of({ device, residualCurrentType: 'A' })).verdict, only(of({ device, residualCurrentType: 'B' })).verdict]).toEqual([
        'caution',
        'open',
      ]);
    expect(only(of({ device: 'switch', residualCurrentType: 'none' })).verdict).toBe('not-applicable');
    // One of type A is a caution: that nobody says of a switch what it holds is no better.
    for (const device of ['switch', 'fused-switch'] as const) {
      const { residualCurrentType: _, ...unsaid } = BREAKER;
      const found = only(
        residualCurrent.scope === 'element' ? residualCurrent.judge(elementScope({ element: { ...unsaid, device }, drives: [LEAKY] })) : [],
      );
      expect([found.verdict, ...fields(found)]).toEqual(['open', 'Q: residualCurrentType']);
    }
    expect(only(of({ residualCurrentType: 'A' }, { drives: [] })).verdict).toBe('not-applicable');
  });
  it('stands 30 % of its setting: 0.09 of 0.3 A', () => {
    const at = (residualCurrent_A: number) => only(of({ residualCurrentType: 'B', residualCurrent_A }));
    const [enough, low] = [at(0.3), at(0.299)];
    expect([enough.verdict, enough.authority, enough.unit, enough.phrase, enough.remedies]).toEqual([
      'pass',
      'practice',
      'mA',
      '90 mA to ground',
      [],
    ]);
    expectClose(enough.value ?? 0, 90, { relative: 1e-12 }, 'by hand');
    expectClose(enough.limit ?? 0, 90, { relative: 1e-12 }, 'by hand');
    expectClose(at(0.6).margin_pct ?? 0, 50, { relative: 1e-9 }, 'by hand');
    expect([low.verdict, low.remedies.length, low.working, labels(low)]).toEqual([
      'caution',
      3,
      ['sum of the drives 90.00 mA; 0.3 × 299 mA = 89.70 mA'],
      [
        'Which device Q is',
        'Residual-current type of Q',
        'Residual-current setting of Q',
        'Current from D to ground',
        'Current from D to ground',
      ],
    ]);
    expect(low.text).toBe('The drives behind Q pass 90.0 mA to ground; 89.7 mA is 30 % of its setting.');
  });
  it('is open without type, setting or a drive’s current, and is not asked elsewhere', () => {
    const asked = (part: Partial<ElementOf<'disconnect'>>, more: Partial<ElementScope> = {}) => {
      const found = only(of(part, more));
      return [found.verdict, ...fields(found)];
    };
    expect(asked({})).toEqual(['open', 'Q: residualCurrentType']);
    expect(asked({ device: undefined })).toEqual(['open', 'Q: device', 'Q: residualCurrentType']);
    expect(asked({ device: undefined }, { drives: [] })).toEqual(['not-applicable']);
    expect(asked({}, { drives: [] })).toEqual(['not-applicable']);
    expect(asked({ device: 'fuse' })).toEqual(['not-applicable']);
    expect(asked({ residualCurrentType: 'B' })).toEqual(['open', 'Q: residualCurrent_A']);
    expect(asked({ residualCurrentType: 'B', residualCurrent_A: 0.3 }, { drives: [LEAKY, DRIVE] })).toEqual([
      'open',
      'D: leakageCurrent_A',
    ]);
    expect([of({}, { side: 'output' }), of({}, { element: SUPPLY })]).toEqual([[], []]);
  });
});
