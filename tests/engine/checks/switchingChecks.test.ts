import { describe, expect, it } from 'vitest';
import type { DriveScope, ElementScope } from '../../../engine/checks/check.ts';
import { bypass, outputContactor, outputDisconnect, severalMotors } from '../../../engine/checks/switchingChecks.ts';
import type { Cable } from '../../../engine/lineup/cable.ts';
import type { Element, ElementOf } from '../../../engine/lineup/elements.ts';
import { expectClose } from '../../reference/expectClose.ts';
import { between, CABLE, DRIVE, elementScope, MOTOR, SUPPLY, step } from './scopes.ts';
import { fields, labels, only } from './told.ts';

/** NEC 430.110 with Table 430.250 (25 hp at 460 V: 34 A), 430.32 and 430.124; six times rated at starting, 15 % of sag (common practice). */

type Motor = ElementOf<'motor'>;
type Drive = ElementOf<'drive'>;
type Switch = ElementOf<'disconnect'>;
type Contactor = ElementOf<'contactor'>;
const HP_25 = 25 * 745.7;
const SMALL: Motor = { ...MOTOR, ratedPower_W: HP_25, ratedCurrent_A: 33 };

describe('a switch on the output', () => {
  const SWITCH: Switch = { id: 'x1', kind: 'disconnect', tag: 'X', ratedCurrent_A: 60, earlyBreakContact: 'wired', device: 'switch' };
  const judge = (part: Partial<Switch>, more: Partial<ElementScope> = {}) =>
    outputDisconnect.scope === 'element'
      ? outputDisconnect.judge(elementScope({ element: { ...SWITCH, ...part }, side: 'output', drive: DRIVE, motors: [SMALL], ...more }))
      : [];
  const part = (ending: string, ...of: Parameters<typeof judge>) =>
    only(judge(...of).filter(({ id }) => id === `output-disconnect/element/x1/${ending}`));
  it('carries 115 % of the table current: 1.15 × 34 A = 39.1 A', () => {
    const [enough, short] = [part('rating', { ratedCurrent_A: 39.1 }), part('rating', { ratedCurrent_A: 39 })];
    expectClose(enough.limit ?? 0, 39.1, { relative: 1e-9 }, 'NEC 430.110(A), Table 430.250');
    expectClose(part('rating', { ratedCurrent_A: 78.2 }).margin_pct ?? 0, 100, { relative: 1e-9 }, 'by hand');
    expect([enough.verdict, short.verdict, enough.source, enough.unit, enough.working, enough.remedies, short.remedies.length]).toEqual([
      'pass',
      'fail',
      'NEC 430.110(A), Table 430.250',
      'A',
      ['1.15 × 34.00 A = 39.10 A'],
      [],
      1,
    ]);
    expect([short.value, short.phrase, short.text, labels(short)]).toEqual([
      39,
      '39 of 39 A',
      'X is rated 39 A; 39.1 A are needed (115 % of the table current).',
      ['Rated current of X', 'Rated power of M', 'Rated voltage of M', 'Nameplate current of M'],
    ]);
    expectClose(part('rating', {}, { motors: [SMALL, SMALL] }).limit ?? 0, 78.2, { relative: 1e-9 }, 'by hand, of two');
    // 460 V has no row of 8 hp: the nameplate's current.
    const odd = part('rating', {}, { motors: [{ ...SMALL, ratedPower_W: 8.5 * 745.7, ratedCurrent_A: 12 }] });
    expectClose(odd.limit ?? 0, 13.8, { relative: 1e-9 }, 'by hand');
  });
  it('of a motor for low speed carries 115 % of its plate: 1.15 × 40 A = 46 A where the table has 34 A (NEC 430.6(A)(1))', () => {
    const slow = part('rating', { ratedCurrent_A: 45 }, { motors: [{ ...SMALL, ratedCurrent_A: 40 }] });
    expectClose(slow.limit ?? 0, 46, { relative: 1e-9 }, 'by hand');
    expect([slow.verdict, slow.text]).toEqual([
      'fail',
      'X is rated 45 A; 46.0 A are needed (115 % of the nameplate, which is above the table current).',
    ]);
  });
  it('ahead of a transformer to 2300 V carries what 60 A there are at 480 V: 1.15 × 60 × 2300 / 480 = 330.6 A', () => {
    const high = { ...SMALL, ratedVoltage_V: 2300, ratedCurrent_A: 60 };
    expectClose(
      part('rating', {}, { motors: [high], ...between(480, 2300) }).limit ?? 0,
      330.625,
      { relative: 1e-9 },
      'the same power on both sides',
    );
    // Without one it is the nameplate's, whatever the motor is made for.
    expectClose(part('rating', {}, { motors: [high] }).limit ?? 0, 69, { relative: 1e-9 }, 'by hand');
  });
  it('carries the rated current by IEC', () => {
    const found = part('rating', { ratedCurrent_A: 33 }, { basis: 'iec' });
    expect([found.verdict, found.limit, found.source, found.working, found.text]).toEqual([
      'pass',
      33,
      'IEC 60364-4-43 (In ≥ Ib)',
      ['33.00 A = 33.00 A'],
      'X is rated 33 A; 33.0 A are needed.',
    ]);
  });
  it('is open without its rating or the motor’s', () => {
    const asked = (...of: Parameters<typeof judge>) => {
      const found = part('rating', ...of);
      return [found.verdict, ...fields(found)];
    };
    const { ratedPower_W: _, ratedCurrent_A: __, ratedVoltage_V: ___, ...bare } = SMALL;
    expect(asked({ ratedCurrent_A: undefined })).toEqual(['open', 'X: ratedCurrent_A']);
    expect(asked({}, { motors: [{ ...bare, ratedPower_W: HP_25 }] })).toEqual(['open', 'M: ratedVoltage_V', 'M: ratedCurrent_A']);
    expect(asked({}, { motors: [{ ...bare, ratedVoltage_V: 460, ratedCurrent_A: 33 }] })).toEqual(['open', 'M: ratedPower_W']);
    expect(asked({}, { motors: [bare], basis: 'iec' })).toEqual(['open', 'M: ratedCurrent_A']);
    const unsaid = { between: [{ id: 't', kind: 'transformer', tag: 'T', secondaryVoltage_V: 480 }] as const };
    expect(asked({}, unsaid)).toEqual(['open', 'T: primaryVoltage_V']);
    expect(asked({}, { motors: [{ ...bare, ratedPower_W: HP_25, ratedVoltage_V: 460 }] })).toEqual(['open', 'M: ratedCurrent_A']);
  });
  it('has a contact that stops the drive first', () => {
    const [wired, absent, unknown] = [
      part('contact', {}),
      part('contact', { earlyBreakContact: 'absent' }),
      part('contact', { earlyBreakContact: undefined }),
    ];
    expect([wired.verdict, wired.authority, wired.source, wired.phrase, wired.remedies, labels(wired)]).toEqual([
      'pass',
      'guide',
      'drive makers’ published manuals',
      'early-break contact wired',
      [],
      ['Early-break contact of X'],
    ]);
    expect([absent.verdict, absent.phrase, absent.remedies.length, unknown.verdict, ...fields(unknown)]).toEqual([
      'caution',
      'no early-break contact',
      2,
      'open',
      'X: earlyBreakContact',
    ]);
    expect([wired.text, absent.text, part('contact', {}, { drive: null }).text]).toEqual([
      'X has an early-break contact that stops D first.',
      'X has no early-break contact: opened while the motor runs, it breaks a live drive output.',
      'X has an early-break contact that stops the drive first.',
    ]);
    // With others in series, all contacts stand in one circuit.
    const series = part('contact', { earlyBreakContact: 'absent' }, { seriesBoxes: [MOTOR, { ...SWITCH, tag: 'Y' }] });
    expect([series.remedies.length, / It is in series with Y: Wire/.test(series.text)]).toEqual([3, true]);
  });
  it('has better no fuses', () => {
    const of = (device: Switch['device']) => judge({ device }).map(({ id, verdict }) => [id.split('/')[3], verdict].join(' '));
    expect([of('switch'), of('breaker')]).toEqual([
      ['rating pass', 'contact pass'],
      ['rating pass', 'contact pass'],
    ]);
    expect([of('fuse'), of('fused-switch')]).toEqual([
      ['rating pass', 'contact pass', 'fuses note'],
      ['rating pass', 'contact pass', 'fuses note'],
    ]);
    const found = part('fuses', { device: 'fuse' });
    expect([found.authority, found.phrase, found.remedies.length, labels(found)]).toEqual([
      'manual',
      'fuses on the output',
      1,
      ['Which device X is'],
    ]);
    expect(part('fuses', { device: 'fuse' }, { drive: null }).text).toContain('on the output of a drive:');
  });
  it('is not asked of anything else', () =>
    expect([judge({}, { side: 'input' }), judge({}, { element: MOTOR }), only(judge({}, { motors: [] })).verdict]).toEqual([
      [],
      [],
      'not-applicable',
    ]));
});

describe('a contactor on the output', () => {
  const CONTACTOR: Contactor = { id: 'k1', kind: 'contactor', tag: 'K', role: 'output', opensAtZeroCurrent: true };
  const judge = (part: Partial<Contactor>, drive: Partial<Drive> | null = { control: 'scalar' }, more: Partial<ElementScope> = {}) =>
    outputContactor.scope === 'element'
      ? outputContactor.judge(
          elementScope({ element: { ...CONTACTOR, ...part }, side: 'output', drive: drive && { ...DRIVE, ...drive }, ...more }),
        )
      : [];
  it('moves at zero current, and not under vector control', () => {
    const [calm, vector, live] = [
      only(judge({})),
      only(judge({}, { control: 'vector' })),
      only(judge({ opensAtZeroCurrent: false }, { control: 'vector' })),
    ];
    expect([calm, vector, live].map((each) => [each.verdict, each.phrase, each.remedies.length])).toEqual([
      ['pass', 'opens at zero current', 0],
      ['note', 'opens at zero current', 0],
      ['caution', 'opens under current', 1],
    ]);
    expect([calm.text, vector.text, live.text]).toEqual([
      'K opens only when the drive is blocked.',
      'K opens only when the drive is blocked; D is under vector control, whose manual may forbid a contactor.',
      'K may open while the drive delivers current; D is under vector control, whose manual may forbid a contactor.',
    ]);
    expect(labels(calm)).toEqual(['Whether K opens at zero current only', 'Control of D']);
    expect(labels(only(judge({}, null)))).toEqual(['Whether K opens at zero current only']);
  });
  it('is open without either', () => {
    const [unknown, control] = [only(judge({ opensAtZeroCurrent: undefined })), only(judge({}, {}))];
    expect([unknown.verdict, ...fields(unknown)]).toEqual(['open', 'K: opensAtZeroCurrent']);
    // Which control it has decides between a pass and a note: not knowing is neither.
    expect([control.verdict, ...fields(control)]).toEqual(['open', 'D: control']);
    expect(only(judge({ opensAtZeroCurrent: false }, {})).verdict).toBe('caution');
  });
  it('is not asked of a way around, a feeder or another part', () =>
    expect([judge({ role: 'bypass' }), judge({}, {}, { side: 'input' }), judge({}, {}, { element: MOTOR })]).toEqual([[], [], []]));
});

describe('the way around a drive', () => {
  const AROUND: Contactor = { id: 'k1', kind: 'contactor', tag: 'K', role: 'bypass', interlock: 'both' };
  const LEG: Cable = { ...CABLE, tag: 'B' };
  const BARE: Cable = { ...LEG, construction: 'multicore', installation: { raceway: 'tray' } };
  const { raceway: _, ...NOWHERE } = LEG.installation;
  const UNKNOWN: Cable = { ...LEG, installation: NOWHERE };
  const FILTER: ElementOf<'filter'> = { id: 'f1', kind: 'filter', tag: 'Z', role: 'sine', ratedCurrent_A: 80 };
  // 6 × 33 A × √3 × (20 mΩ × 0.35 + 40 mΩ × 0.93675) = 15.251 V: 3.1773 % of 480 V.
  const PATH = step({ path_ohm: { re: 0.02, im: 0.04 } });
  const judge = (more: Partial<ElementScope> = {}, part: Partial<Contactor> = {}) =>
    bypass.scope === 'element'
      ? bypass.judge(
          elementScope({
            element: { ...AROUND, ...part },
            bypassed: [SMALL],
            bypassLeg: [LEG],
            flow: PATH,
            ahead: [SUPPLY],
            ...more,
          }),
        )
      : [];
  const part = (ending: string, ...of: Parameters<typeof judge>) =>
    only(judge(...of).filter(({ id }) => id === `bypass/element/k1/${ending}`));
  it('has an interlock', () => {
    const of = (interlock: Contactor['interlock']) => part('interlock', {}, { interlock });
    expect(
      (['none', 'electrical', 'mechanical', 'both'] as const).map((each) => [of(each).verdict, of(each).authority, of(each).phrase]),
    ).toEqual([
      ['fail', 'physics', 'no interlock'],
      ['note', 'manual', 'electrical interlock'],
      ['pass', 'manual', 'mechanical interlock'],
      ['pass', 'manual', 'mechanical and electrical interlock'],
    ]);
    expect((['none', 'electrical', 'mechanical', 'both'] as const).map((each) => of(each).text)).toEqual([
      'K is not interlocked with the drive’s output: closed by mistake it puts mains on it.',
      'K has an electrical interlock; a mechanical one as well is usual.',
      'K has a mechanical interlock.',
      'K has a mechanical and an electrical interlock.',
    ]);
    expect([of('none').remedies.length, of('both').remedies, labels(of('both'))]).toEqual([1, [], ['Interlock of K']]);
    expect([of(undefined).verdict, ...fields(of(undefined))]).toEqual(['open', 'K: interlock']);
  });
  it('holds no filter that is not made for it', () => {
    for (const role of ['sine', 'dvdt'] as const) {
      const found = part('filter', { bypassParts: [MOTOR, { ...FILTER, role }] });
      expect([found.verdict, found.case, found.phrase, found.remedies.length, labels(found)]).toEqual([
        'caution',
        'bypass',
        'filter in the way around',
        2,
        ['Kind of Z', 'Rated current of Z'],
      ]);
      expect(found.text).toContain('Z lies in the way around');
    }
    expect(judge({ bypassParts: [{ ...FILTER, role: 'terminator' }] }).length).toBe(2);
  });
  it('is shielded as the lead is', () => {
    const [one, two] = [part('shield', { bypassLeg: [BARE, LEG] }), part('shield', { bypassLeg: [BARE, { ...BARE, tag: 'C' }, UNKNOWN] })];
    expect([one.verdict, one.authority, one.phrase, one.remedies.length, labels(one), two.text.slice(0, 32)]).toEqual([
      'caution',
      'guide',
      'way around unshielded',
      1,
      ['Construction of B', 'What B is laid in'],
      'B, C in the way around have no s',
    ]);
    expect([one.text.slice(0, 28), one.source]).toEqual(['B in the way around has no s', 'drive makers’ published guides on shielding']);
    const unknown = part('shield', { bypassLeg: [UNKNOWN] });
    expect([unknown.verdict, ...fields(unknown)]).toEqual(['open', 'B: installation.raceway']);
    expect(
      judge({
        bypassLeg: [
          { ...BARE, kind: 'link' },
          { ...UNKNOWN, kind: 'link' },
        ],
      }).length,
    ).toBe(2);
  });
  it('puts the supply’s voltage on a motor that the drive was set to: from 432 to 528 V on 480 V', () => {
    const at = (ratedVoltage_V: number, more: Parameters<typeof judge>[0] = {}) =>
      judge({ bypassed: [{ ...SMALL, ratedVoltage_V }], ...more }).find(({ id }) => id === 'bypass/element/k1/voltage');
    expect([431.9, 432, 528, 528.1].map((volts) => at(volts)?.verdict)).toEqual(['fail', undefined, undefined, 'fail']);
    expect([at(230)?.text, at(230)?.case, at(230)?.authority]).toEqual(['K puts 480 V on M, made for 230 V.', 'bypass', 'manual']);
    const down: Element = { id: 't', kind: 'transformer', tag: 'T' };
    expect(at(230, { bypassParts: [down] })).toBeUndefined();
  });
  it('sags by √3 × 6 I (R cos φ + X sin φ) at starting: 3.18 % of 480 V for 33 A', () => {
    const found = part('start', {});
    expectClose(found.value ?? 0, 3.1773, { relative: 1e-4 }, 'by hand');
    expectClose(found.margin_pct ?? 0, (100 * (15 - 3.1773)) / 15, { relative: 1e-4 }, 'by hand');
    expect([found.verdict, found.case, found.authority, found.limit, found.unit, found.phrase, found.remedies]).toEqual([
      'pass',
      'bypass',
      'practice',
      15,
      '%',
      'start drop 3.2 %',
      [],
    ]);
    expect(found.working).toEqual(['I = 6 × 33.0 A', '√3 I (R cos φ + X sin φ), R 20.000 mΩ, X 40.000 mΩ, cos φ 0.35 = 15.25 V']);
    expect(found.text).toBe('Started through K, M draws about 198 A and the voltage there sags by 3.2 %; 15 % is usual as the most.');
    expect(labels(found)).toEqual(['Nameplate current of M', 'Voltage of S, line to line', 'Fault current of S']);
    expect(found.assumptions.map(({ what, value }) => `${what}: ${value}`)).toEqual([
      'starting current: 6 times rated',
      'power factor while starting: 0.35',
    ]);
    // 15 % is 4.7210 times as much.
    const at = (factor: number) => part('start', { flow: step({ path_ohm: { re: 0.02 * factor, im: 0.04 * factor } }) });
    expect([at(4.72).verdict, at(4.722).verdict, at(4.722).remedies.length]).toEqual(['pass', 'caution', 2]);
  });
  it('starts all that hangs on it at once', () => {
    const found = part('start', { bypassed: [SMALL, { ...SMALL, tag: 'N', ratedCurrent_A: 66 }] });
    expectClose(found.value ?? 0, 3 * 3.1773, { relative: 1e-4 }, 'three times 33 A');
    expect(found.text).toContain('M and N draw about 594 A');
  });
  it('is open without motor current, voltage or impedance; too much already is too much', () => {
    const asked = (more: Partial<ElementScope>) => {
      const found = part('start', more);
      return [found.verdict, ...fields(found)];
    };
    const { ratedCurrent_A: __, ...unnamed } = SMALL;
    expect(asked({ bypassed: [unnamed] })).toEqual(['open', 'M: ratedCurrent_A']);
    const blank: ElementOf<'supply'> = { id: 'e0', kind: 'supply', tag: 'S' };
    expect(asked({ nominal_V: null, voltageFrom: blank, ahead: [blank] })).toEqual(['open', 'S: voltage_V', 'S: faultCurrent_A']);
    expect(asked({ flow: step(), ahead: [SUPPLY, { ...CABLE, conductor: {} }] })).toEqual([
      'open',
      'W: conductor.size',
      'W: conductor.metal',
    ]);
    expect(part('start', { bypassed: [unnamed] }).text).toBe('Cannot be judged yet. Not known: nameplate current of M.');
    expect(part('start', { flow: step() }).text).toBe('Cannot be judged yet: the impedance ahead of it is not known.');
    // Of a source without a fault level no sag is known: not none.
    const { faultCurrent_A: ___, ...endless } = SUPPLY;
    expect(asked({ ahead: [endless] })).toEqual(['open', 'S: faultCurrent_A']);
    expect(asked({ ahead: [endless], flow: step({ path_ohm: { re: 0.2, im: 0.4 } }) })).toEqual(['caution']);
  });
  it('that leads to no motor says so beside the rest, each under its own name', () => {
    const found = judge({ bypassed: [], bypassLeg: [BARE], bypassParts: [FILTER] });
    expect(found.map(({ id, verdict }) => `${id.split('/')[3]} ${verdict}`)).toEqual([
      'interlock pass',
      'filter caution',
      'shield caution',
      'start not-applicable',
    ]);
  });
  it('is not asked of another part', () =>
    expect([judge({ side: 'output' }), judge({}, { role: 'line' }), judge({ element: MOTOR })]).toEqual([[], [], []]));
});

describe('several motors on one drive', () => {
  const M1: Motor = {
    ...SMALL,
    id: 'm1',
    tag: 'M1',
    ratedCurrent_A: 10,
    overload: 'own',
    ownShortCircuitDevice: true,
    switchedAlone: false,
  };
  const M2: Motor = { ...M1, id: 'm2', tag: 'M2', ratedCurrent_A: 20 };
  const MADE: Drive = { ...DRIVE, outputCurrent_A: 40, overload_pct: 150, control: 'scalar' };
  const judge = (drive: Partial<Drive> = {}, motors: readonly Motor[] = [M1, M2], more: Partial<DriveScope> = {}) => {
    const scope: DriveScope = {
      project: elementScope().project,
      basis: 'us',
      drive: { ...MADE, ...drive },
      feed: step(),
      earthing: undefined,
      earthingPart: SUPPLY,
      filters: [],
      motors,
      motorsSeen: motors.map(() => 1),
      between: [],
      transformer: null,
      supply: SUPPLY,
      reactors: [],
      ahead: [],
      ...more,
    };
    return severalMotors.scope === 'drive' ? severalMotors.judge(scope) : [];
  };
  const part = (ending: string, ...of: Parameters<typeof judge>) =>
    only(judge(...of).filter(({ id }) => id === `several-motors/element/e1/${ending}`));
  const without = (motor: Motor, key: keyof Motor): Motor => ({ ...motor, [key]: undefined });
  it('draw together what it delivers, with 10 % in hand', () => {
    const of = (outputCurrent_A: number) => part('current', { outputCurrent_A });
    const [ample, tight, over] = [of(33), of(32.9), of(29.9)];
    expect([ample, tight, of(30), over].map((each) => [each.verdict, each.authority, each.remedies.length])).toEqual([
      ['pass', 'practice', 0],
      ['caution', 'practice', 1],
      ['caution', 'practice', 1],
      ['fail', 'manual', 1],
    ]);
    expect([ample.value, ample.limit, ample.unit, ample.phrase, ample.working, labels(ample)]).toEqual([
      30,
      33,
      'A',
      '30 of 33 A',
      ['sum 30.00 A; with 10 % in hand 33.00 A'],
      ['Rated output current of D', 'Nameplate current of M1', 'Nameplate current of M2'],
    ]);
    expectClose(ample.margin_pct ?? 0, 100 / 11, { relative: 1e-9 }, 'by hand: 3 of 33');
    expect(ample.text).toBe('M1, M2 together draw 30.0 A; D delivers 33.0 A, and 10 % in hand is usual.');
    const [unrated, unnamed] = [part('current', { outputCurrent_A: undefined }), part('current', {}, [without(M1, 'ratedCurrent_A'), M2])];
    expect([unrated, unnamed].map((each) => [each.verdict, ...fields(each)])).toEqual([
      ['open', 'D: outputCurrent_A'],
      ['open', 'M1: ratedCurrent_A'],
    ]);
  });
  it('of one motor it delivers what the plate says', () => {
    const of = (ratedCurrent_A: number, more: Partial<Motor> = {}) => judge({}, [{ ...M1, ratedCurrent_A, ...more }]);
    expect([of(40), of(40.1)].map((found) => [found.length, only(found).verdict, only(found).authority])).toEqual([
      [1, 'pass', 'manual'],
      [1, 'fail', 'manual'],
    ]);
    expect(only(of(75)).text).toBe('M1 draws 75.0 A; D delivers 40.0 A.');
    expect([only(of(75)).remedies, only(of(40)).remedies]).toEqual([['A larger drive.'], []]);
    // 9 A at 2300 V are 43.1 A at 480 V.
    const high = only(judge({}, [{ ...M1, ratedCurrent_A: 9 }], between(480, 2300)));
    expectClose(high.value ?? 0, (9 * 2300) / 480, { relative: 1e-12 }, 'the same power on both sides');
    expect([high.verdict, high.text]).toEqual(['fail', 'M1 draws 43.1 A, seen through T; D delivers 40.0 A.']);
  });
  it('have each an overload and a short-circuit device', () => {
    const of = (...motors: readonly Motor[]) => part('protection', {}, motors);
    const all = of(M1, M2);
    expect([all.verdict, all.phrase, labels(all)]).toEqual([
      'pass',
      'each motor protected',
      [
        'Overload protection of M1',
        'Whether M1 has a short-circuit device of its own',
        'Overload protection of M2',
        'Whether M2 has a short-circuit device of its own',
      ],
    ]);
    for (const bare of [{ overload: 'drive' }, { overload: 'none' }, { ownShortCircuitDevice: false }] as const) {
      const found = of(M1, { ...M2, ...bare });
      expect([found.verdict, found.phrase, found.remedies.length, labels(found)]).toEqual([
        'fail',
        'motors not protected singly',
        2,
        ['Overload protection of M2', 'Whether M2 has a short-circuit device of its own'],
      ]);
      expect(found.text).toBe('M2 on D has no overload or short-circuit protection of its own.');
    }
    expect(of({ ...M1, overload: 'none' }, { ...M2, overload: 'none' }).text).toBe(
      'M1, M2 on D have no overload or short-circuit protection of their own.',
    );
    expect(of(without(M1, 'overload'), { ...M2, overload: 'none' }).verdict).toBe('fail');
    const open = of(without(M1, 'overload'), without(M2, 'ownShortCircuitDevice'));
    expect([open.verdict, ...fields(open)]).toEqual(['open', 'M1: overload', 'M2: ownShortCircuitDevice']);
  });
  it('start together, or one of them within the overload: 30 A + 5 × 20 A = 130 A', () => {
    const together = part('switching');
    expect([together.verdict, together.phrase, labels(together)]).toEqual([
      'pass',
      'started together',
      ['Whether M1 is switched while others run', 'Whether M2 is switched while others run'],
    ]);
    const alone = [M1, { ...M2, switchedAlone: true }];
    const of = (drive: Partial<Drive>, motors = alone) => part('switching', drive, motors);
    const [within, over] = [of({ outputCurrent_A: 100, overload_pct: 130 }), of({ outputCurrent_A: 100, overload_pct: 129 })];
    expect([within.verdict, within.value, within.limit, within.case, within.unit, within.authority, within.remedies]).toEqual([
      'pass',
      130,
      130,
      'overload',
      'A',
      'practice',
      [],
    ]);
    expectClose(of({ outputCurrent_A: 100, overload_pct: 260 }).margin_pct ?? 0, 50, { relative: 1e-9 }, 'by hand');
    expect([over.verdict, over.remedies.length, over.phrase, over.working, labels(over)]).toEqual([
      'caution',
      2,
      '130 of 129 A',
      ['30.00 A + 5 × 20.00 A = 130.00 A; overload 129.00 A'],
      [
        'Rated output current of D',
        'How much overload D allows',
        'Nameplate current of M1',
        'Whether M1 is switched while others run',
        'Nameplate current of M2',
        'Whether M2 is switched while others run',
      ],
    ]);
    expect([over.text, within.text, over.assumptions.map(({ what, value }) => `${what}: ${value}`)]).toEqual([
      'Switching on M2 while the others run takes 130 A; the overload of D is 129 A: start them together only.',
      'Switching on M2 while the others run takes 130 A; the overload of D is 130 A.',
      ['starting current: 6 times rated'],
    ]);
    expect(
      of({}, [
        { ...M1, switchedAlone: true },
        { ...M2, switchedAlone: true },
      ]).value,
    ).toBe(130);
    expect(of({}, [{ ...M1, switchedAlone: true }, M2]).value).toBe(80);
    expect(
      of({}, [
        { ...M1, switchedAlone: true },
        { ...M2, switchedAlone: true },
      ]).text,
    ).toContain('on M1 or M2 while');
    const asked = (...given: Parameters<typeof of>) => {
      const found = of(...given);
      return [found.verdict, ...fields(found)];
    };
    expect(asked({}, [without(M1, 'switchedAlone'), M2])).toEqual(['open', 'M1: switchedAlone']);
    expect(asked({ outputCurrent_A: undefined, overload_pct: undefined }, [without(M1, 'ratedCurrent_A'), ...alone.slice(1)])).toEqual([
      'open',
      'D: outputCurrent_A',
      'D: overload_pct',
      'M1: ratedCurrent_A',
    ]);
    expect(asked({ outputCurrent_A: undefined, overload_pct: undefined }, [M1, M2])).toEqual(['pass']);
  });
  it('want scalar control', () => {
    const [scalar, vector, unknown] = (['scalar', 'vector', undefined] as const).map((control) => part('control', { control }));
    expect([scalar, vector].map((each) => [each?.verdict, each?.authority, each?.phrase, each?.remedies.length])).toEqual([
      ['pass', 'manual', 'scalar control', 0],
      ['caution', 'manual', 'vector control of several', 1],
    ]);
    expect([scalar?.text, vector?.text, scalar && labels(scalar)]).toEqual([
      'D is under scalar control.',
      'D is under vector control, which models one motor; with several, scalar control is asked.',
      ['Control of D'],
    ]);
    expect(scalar?.source).toBe('drive makers’ published manuals: scalar control only');
    expect([unknown?.verdict, unknown && fields(unknown)]).toEqual(['open', ['D: control']]);
  });
  it('are no matter of one', () => {
    expect(only(judge({}, [])).verdict).toBe('not-applicable');
    expect(judge().every(({ runs }) => runs.join() === 'M1,M2')).toBe(true);
  });
});
