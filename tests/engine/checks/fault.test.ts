import { describe, expect, it } from 'vitest';
import type { ElementScope } from '../../../engine/checks/check.ts';
import { faultRating, impedanceGaps } from '../../../engine/checks/faultChecks.ts';
import type { Finding } from '../../../engine/checks/finding.ts';
import { type Element, review } from '../../../engine/index.ts';
import { complex } from '../../../engine/physics/complex.ts';
import { expectClose } from '../../reference/expectClose.ts';
import { LineUpBuilder } from '../lineUpBuilder.ts';
import { CABLE, DRIVE, elementScope, MOTOR, step } from './scopes.ts';
import { fields, labels } from './told.ts';

/** NEC 110.9 and 110.10: what is available at a part against what it is marked for, and a drive only with its own device. */

const PANEL: Element = { id: 'b', kind: 'bus', tag: 'P', faultRating_A: 14_000 };
const MARKED = { ...DRIVE, faultRating_A: 100_000, faultRatingDevice: 'a class J fuse', faultRatingDeviceDrawn: true };
const scopeOf = (more: Partial<ElementScope>): ElementScope =>
  elementScope({
    element: PANEL,
    flow: step({ faultCurrent_A: 14_000, coldPath_ohm: complex(0.003, 0.004), faultPeak_A: 30_000 }),
    ...more,
  });
const judged = (more: Partial<ElementScope> = {}): readonly Finding[] =>
  faultRating.scope === 'element' ? faultRating.judge(scopeOf(more)) : [];
const one = (more: Partial<ElementScope> = {}): Finding => {
  const [found, ...rest] = judged(more);
  if (!found || rest.length > 0) throw new Error('not one finding');
  return found;
};
const of = (faultCurrent_A: number | null, more: Partial<ElementScope> = {}) =>
  one({ flow: step({ faultCurrent_A, coldPath_ohm: complex(0.003, 0.004), faultPeak_A: 30_000 }), ...more });

describe('what is available against what is marked', () => {
  it('passes up to the marking and fails beyond it', () => {
    expect([of(14_000).verdict, of(14_001).verdict]).toEqual(['pass', 'fail']);
    const [good, bad] = [of(7000), of(21_000)];
    for (const [found, margin_pct] of [
      [good, 50],
      [bad, -50],
    ] as const) {
      expect([found.limit, found.unit, found.quantity, found.authority]).toEqual([14_000, 'A', 'available fault current', 'code']);
      expectClose(found.margin_pct ?? 0, margin_pct, { relative: 1e-12 }, 'by hand');
      expect(labels(found)).toEqual(['Fault rating of P']);
    }
    expect([good.value, good.phrase, good.text]).toEqual([
      7000,
      '7.0 of 14.0 kA',
      '7.00 kA are available at P, which is marked for 14.0 kA.',
    ]);
    expect([bad.value, bad.phrase, bad.text]).toEqual([
      21_000,
      '21.0 of 14.0 kA',
      '21.00 kA are available at P, which is marked for 14.0 kA.',
    ]);
    expect([good.remedies.length, bad.remedies]).toEqual([
      0,
      ['A part of a higher rating.', 'Current-limiting fuses ahead, where the marking allows that combination.'],
    ]);
    expect(good.runs).toEqual(['M']);
  });
  it('of a disconnect likewise, of a drive with the device that its marking names', () => {
    const knife: Element = { id: 'q', kind: 'disconnect', tag: 'Q', faultRating_A: 10_000 };
    expect([of(10_000, { element: knife }).verdict, of(10_001, { element: knife }).verdict]).toEqual(['pass', 'fail']);
    const found = of(65_000, { element: MARKED });
    expect([found.verdict, found.text]).toEqual(['pass', '65.00 kA are available at D, which is marked for 100.0 kA with a class J fuse.']);
    expect(labels(found)).toEqual([
      'Fault rating of D',
      'Device that the fault rating of D holds with',
      'Whether the device ahead of D is as marked',
    ]);
    expect(of(110_000, { element: MARKED }).remedies[0]).toContain('A listed fuse or reactor combination');
  });
  it('a drive with another device fails, whatever is available', () => {
    const other = { ...MARKED, faultRatingDeviceDrawn: false };
    const found = of(5000, { element: other });
    expect([found.verdict, found.authority, found.text]).toEqual([
      'fail',
      'manual',
      'The 100.0 kA of D hold only with a class J fuse, which is not what is drawn ahead of it.',
    ]);
    expect(labels(found)).toHaveLength(3);
    const { faultRatingDevice: _, ...unnamed } = other;
    expect(of(5000, { element: unnamed }).text).toContain('with the device its maker names');
    // Without a rating there is none that could hold, so that is what is asked.
    const { faultRating_A: __, ...unrated } = other;
    expect([of(5000, { element: unrated }).verdict, fields(of(5000, { element: unrated }))]).toEqual(['open', ['D: faultRating_A']]);
  });
  it('is asked of buses, switches and drives on the input side alone', () => {
    for (const element of [MOTOR, { id: 't', kind: 'transformer' as const, tag: 'T' }]) expect(judged({ element })).toEqual([]);
    for (const element of [PANEL, DRIVE]) expect(judged({ element, side: 'output' })).toEqual([]);
  });
});

describe('where something is not known it is open, and never for what is known', () => {
  it('the rating, and of a drive its device', () => {
    const { faultRating_A: _, ...unrated } = PANEL;
    const found = of(5000, { element: unrated as Element });
    expect([found.verdict, fields(found), found.value, found.unit]).toEqual(['open', ['P: faultRating_A'], 5000, 'A']);
    expect(found.text).toBe('Cannot be judged yet. Not known: fault rating of P. 5.00 kA are available at it.');
    expect(fields(of(5000, { element: { ...DRIVE, faultRating_A: 5000 } }))).toEqual(['D: faultRatingDevice', 'D: faultRatingDeviceDrawn']);
    // Too much is too much, with whatever device.
    expect(of(5001, { element: { ...DRIVE, faultRating_A: 5000 } }).verdict).toBe('fail');
  });
  it('the current, with what keeps it from being known', () => {
    const ahead: Element[] = [{ id: 'l', kind: 'reactor', tag: 'L' }];
    const found = of(null, { ahead });
    expect([found.verdict, fields(found), found.value]).toEqual(['open', ['L: impedance_pct', 'L: ratedCurrent_A'], null]);
    expect(found.text).toMatch(/^Cannot be judged yet\. Not known: .* of L\.$/);
    // What is not needed is not asked.
    expect(of(5000, { ahead }).verdict).toBe('pass');
    const plain = of(null);
    expect([plain.verdict, plain.missing, plain.phrase]).toEqual(['open', [], 'fault current?']);
    expect(plain.text).toBe('Cannot be judged yet: the impedance of something ahead cannot be made out.');
  });
  it('a part ahead that hides the current is named by the review of the whole line-up', () => {
    const lineUp = new LineUpBuilder({ title: 'hidden' })
      .part('supply', { tag: 'S', voltage_V: 480, faultCurrent_A: 20_000, xOverR: 8 })
      .part('filter', { tag: 'Z' })
      .part('disconnect', { tag: 'Q', faultRating_A: 10_000 })
      .part('drive', { tag: 'D', ratedVoltage_V: 480, inputCurrent_A: 50 })
      .build();
    const found = review(lineUp).findings.find((each) => each.check === 'fault-rating' && each.subject.tag === 'Q');
    expect([found?.verdict, found?.missing.map((each) => `${each.tag}: ${each.field}`)]).toEqual(['open', ['Z: role']]);
  });
  it.each([
    [CABLE, []],
    [{ ...CABLE, conductor: {}, length_m: undefined as never }, ['conductor.size', 'conductor.metal', 'length_m']],
    [{ ...CABLE, conductor: {}, length_m: 0 }, []],
    [{ ...CABLE, conductor: {}, kind: 'link' }, []],
    [{ id: 's', kind: 'supply', tag: 'S' }, ['voltage_V', 'faultCurrent_A']],
    [{ id: 't', kind: 'transformer', tag: 'T' }, ['ratedPower_VA', 'primaryVoltage_V', 'secondaryVoltage_V', 'impedance_pct']],
    [{ id: 'l', kind: 'reactor', tag: 'L' }, ['impedance_pct', 'ratedCurrent_A']],
    [{ id: 'f', kind: 'filter', tag: 'F' }, ['role']],
    [{ id: 'f', kind: 'filter', tag: 'F', drop_pct: 1 }, []],
    [PANEL, []],
  ] as const)('%o hides the current while these are missing', (part, expected) => {
    expect(impedanceGaps([part as Element]).map((each) => each.field)).toEqual(expected);
  });
});

describe('what it was made from', () => {
  it('is shown: 480 V / (√3 × 5 mΩ), by IEC with the factor 1.10 and the peak', () => {
    expect(of(5000).working).toEqual([
      'path from the source, conductors cold: Z = 3.0000 + j4.0000 mΩ, |Z| 5.0000 mΩ',
      'I = 480 V / (√3 |Z|)',
    ]);
    expect(of(5000, { basis: 'iec' }).working[1]).toBe('I″k = 1.10 × 480 V / (√3 |Z|); peak ip 30.00 kA (IEC 60909-0)');
    const flat = step({ faultCurrent_A: 5000, coldPath_ohm: complex(1), faultPeak_A: null });
    expect(one({ flow: flat, basis: 'iec' }).working[1]).toBe('I″k = 1.10 × 480 V / (√3 |Z|)');
    for (const more of [{ coldPath_ohm: null }, { nominal_V: null }]) expect(one({ flow: { ...flat, ...more } }).working).toEqual([]);
    expect(of(20_000).working).toHaveLength(2);
  });
  it('a supply of no known level is taken as unlimited, and said', () => {
    const supply: Element = { id: 's', kind: 'supply', tag: 'S', voltage_V: 480 };
    const flow = step({ faultCurrent_A: 5000, assumptions: [{ what: 'a', value: 'b', source: 'c' }] });
    const said = (ahead: readonly Element[]) => one({ flow, ahead }).assumptions.map((each) => each.what);
    expect([said([supply]), said([{ ...supply, faultCurrent_A: 1 } as Element]), said([PANEL])]).toEqual([
      ['a', 'fault level of S'],
      ['a'],
      ['a'],
    ]);
    expect(one({ flow: { ...flow, faultCurrent_A: 20_000 }, ahead: [supply] }).assumptions).toHaveLength(2);
  });
  it('of motors that run without a drive it shows their share, lists their currents, and asks for one that is not known', () => {
    const path = { coldPath_ohm: complex(0.003, 0.004), networkFault_A: 5000 };
    const found = one({ flow: step({ ...path, faultCurrent_A: 5300, feeding: [MOTOR] }) });
    expect([found.verdict, found.value, found.working[2]]).toEqual(['pass', 5300, '+ 300.0 A, 4 × rated, of M']);
    expect(labels(found)).toEqual(['Fault rating of P', 'Nameplate current of M']);
    expect(found.assumptions).toEqual([{ what: 'motors without a drive', value: '4 × rated current', source: 'IEEE 141, from memory' }]);
    const { ratedCurrent_A: _, ...unsaid } = MOTOR;
    const open = one({ flow: step({ ...path, faultCurrent_A: null, feeding: [unsaid] }) });
    expect([open.verdict, fields(open), open.working.length]).toEqual(['open', ['M: ratedCurrent_A'], 2]);
  });
  it('a feeder of no known sets has no impedance, one laid in nobody knows what no metal about it, and it is said', () => {
    const said = (more: Partial<typeof CABLE>) => of(5000, { ahead: [{ ...CABLE, ...more }] }).assumptions;
    const unset = { conductor: { size: '2 AWG', metal: 'copper' as const } };
    const worst = 'worst case for faults: not given';
    expect(said({})).toEqual([]);
    expect(said(unset)).toEqual([{ what: 'sets of W', value: 'any number', source: worst }]);
    expect(said({ installation: {} })).toEqual([{ what: 'metal around W', value: 'none', source: worst }]);
    expect([
      said({ installation: {}, construction: 'corrugated-armour' }),
      said({ ...unset, kind: 'link' }),
      said({ ...unset, length_m: 0 }),
    ]).toEqual([[], [], []]);
  });
  it('while open it lists what is known of the way', () => {
    const { faultRating_A: _, ...unrated } = PANEL;
    const ahead = [
      { id: 't', kind: 'transformer' as const, tag: 'T', ratedPower_VA: 1e6, impedance_pct: 5.75 },
      CABLE,
      { id: 's', kind: 'supply' as const, tag: 'S', faultCurrent_A: 9 },
    ];
    expect(labels(of(5000, { element: unrated as Element, ahead }))).toEqual([
      'Rated power of T',
      'Impedance of T',
      'Conductor size of W',
      'Conductor metal of W',
      'Length of W, one way',
      'Fault current of S',
    ]);
  });
});
