import { describe, expect, it } from 'vitest';
import type { ElementScope } from '../../../engine/checks/check.ts';
import { partCurrent } from '../../../engine/checks/partCurrentCheck.ts';
import type { Element } from '../../../engine/lineup/elements.ts';
import { expectClose } from '../../reference/expectClose.ts';
import { between, DRIVE, elementScope, MOTOR } from './scopes.ts';
import { fields, labels, only } from './told.ts';

/** Parts at their nameplates: a drive of 72 A rated input and a motor of 75 A, on 480 V. Figures worked by hand. */

const asked = (element: Element, more: Partial<ElementScope> = {}) =>
  partCurrent.scope === 'element' ? partCurrent.judge(elementScope({ element, ...more })) : [];
const of = (element: Element, more: Partial<ElementScope> = {}) => only(asked(element, more));
const part = (kind: 'bus' | 'reactor' | 'filter' | 'contactor', ratedCurrent_A?: number): Element =>
  ({ id: 'x', kind, tag: 'X', ...(ratedCurrent_A === undefined ? {} : { ratedCurrent_A }) }) as Element;
const OUT = { side: 'output', drive: DRIVE } as const;

describe('what stands in the way of a current', () => {
  it.each(['bus', 'reactor', 'filter', 'contactor'] as const)(
    'a %s carries the rated input ahead of a drive, the motor’s behind it',
    (kind) => {
      expect([72, 71.9].map((amperes) => of(part(kind, amperes)).verdict)).toEqual(['pass', 'fail']);
      expect([75, 74.9].map((amperes) => of(part(kind, amperes), OUT).verdict)).toEqual(['pass', 'fail']);
      expect(fields(of(part(kind)))).toEqual(['X: ratedCurrent_A']);
    },
  );
  it('says both, and from what', () => {
    const found = of(part('reactor', 20), OUT);
    expect([found.value, found.limit, found.unit, found.phrase, found.authority, found.working, found.remedies]).toEqual([
      20,
      75,
      'A',
      '20 of 75 A',
      'manual',
      ['75.00 A = 75.00 A against 20.00 A'],
      ['The next size of it.'],
    ]);
    expect(found.text).toBe('X is rated 20.0 A; through it 75.0 A are drawn for M.');
    expect(labels(found)).toEqual(['Rated current of X', 'Nameplate current of M']);
    expectClose(of(part('reactor', 90), OUT).margin_pct ?? 0, 20, { relative: 1e-9 }, '15 A of 75');
  });
  it('a transformer of 45 kVA carries 54.1 A at 480 V, one of 75 kVA 90.2 A; on its line side at 4160 V 72 A are 8.3 A', () => {
    const transformer = (kilo: number | undefined, primaryVoltage_V: number): Element => ({
      id: 't',
      kind: 'transformer',
      tag: 'T',
      primaryVoltage_V,
      ...(kilo === undefined ? {} : { ratedPower_VA: kilo * 1000 }),
    });
    const small = of(transformer(45, 480));
    expectClose(small.value ?? 0, 45_000 / Math.sqrt(3) / 480, { relative: 1e-12 }, 'S / (√3 V)');
    expect([small.verdict, of(transformer(75, 480)).verdict, fields(of(transformer(undefined, 480)))]).toEqual([
      'fail',
      'pass',
      ['T: ratedPower_VA'],
    ]);
    const high = of(transformer(75, 4160), between(4160, 480));
    expectClose(high.limit ?? 0, (72 * 480) / 4160, { relative: 1e-12 }, 'the same power on both sides');
    expect([high.verdict, of(transformer(59, 4160), between(4160, 480)).verdict]).toEqual(['pass', 'fail']);
    // A motor of 230 V on 480 V runs from a drive that is turned down: its current is what it is.
    expect(of(part('reactor', 80), { ...OUT, motors: [{ ...MOTOR, ratedVoltage_V: 230 }] }).limit).toBe(75);
    // Behind a drive up to 2300 V: 60 A there are 287.5 A here, 239 kVA.
    const tall = { ...OUT, motors: [{ ...MOTOR, ratedVoltage_V: 2300, ratedCurrent_A: 60 }], ...between(480, 2300) };
    expect([of(transformer(240, 480), tall).verdict, of(transformer(238, 480), tall).verdict]).toEqual(['pass', 'fail']);
  });
  it('where several hang on a bus it is a caution: they may not all run at once; through one reactor they do', () => {
    const both = { drives: [DRIVE, { ...DRIVE, tag: 'E' }] };
    expect([of(part('bus', 143), both).verdict, of(part('bus', 144), both).verdict, of(part('reactor', 143), both).verdict]).toEqual([
      'caution',
      'pass',
      'fail',
    ]);
    // 144 A at 480 V are 119.7 kVA.
    const transformer: Element = { id: 't', kind: 'transformer', tag: 'T', primaryVoltage_V: 480, ratedPower_VA: 119_000 };
    expect([of(transformer, both).verdict, of({ ...transformer, ratedPower_VA: 120_000 }, both).verdict]).toEqual(['caution', 'pass']);
    expect(of(part('bus', 143), both).text).toContain('144.0 A are drawn for D, E');
  });
  it('a bus carries a motor around its drive where that draws more, beside the other drive and a motor of its own', () => {
    const around = (amperes: number, more: Partial<ElementScope> = {}) => of(part('bus', amperes), { bypassed: [MOTOR], ...more });
    expect([around(74).verdict, around(75).verdict, around(74).case]).toEqual(['fail', 'pass', 'bypass']);
    const drives = [DRIVE, { ...DRIVE, id: 'e9', tag: 'E' }];
    expect([around(146, { drives }).verdict, around(147, { drives }).verdict]).toEqual(['caution', 'pass']);
    const pump = { ...MOTOR, id: 'e8', tag: 'P', ratedCurrent_A: 10 };
    const leg = { drives: [], motors: [pump], direct: [pump] };
    expect([around(84, leg).verdict, around(85, leg).verdict]).toEqual(['caution', 'pass']);
  });
  it('a way around carries the motors that it would feed', () => {
    // What it shares with the drive carries one or the other, the larger ahead of it; behind the drive it is the same motor.
    const shared = [{ bypassed: [MOTOR] }, { ...OUT, drives: [], bypassed: [MOTOR] }].map((more) => of(part('reactor', 60), more));
    expect(shared.map((each) => [each.limit, each.case, each.runs])).toEqual([
      [75, 'bypass', ['M']],
      [75, 'rated', ['M']],
    ]);
    // Motors that hang on the supply itself are no bypass.
    const direct = of(part('reactor', 80), { drives: [], direct: [MOTOR] });
    expect([direct.verdict, direct.limit, direct.case, direct.remedies]).toEqual(['pass', 75, 'rated', []]);
    const around = { ...part('contactor', 60), role: 'bypass' } as Element;
    const found = of(around, { drives: [], motors: [], bypassed: [MOTOR] });
    expect([found.verdict, found.limit, found.case, found.runs]).toEqual(['fail', 75, 'bypass', ['M']]);
    // Its other side lies behind the drive, and an open tie has one in each of two zones: neither is asked twice.
    expect(asked(around, { ...OUT, bypassed: [MOTOR] })).toEqual([]);
    expect(asked({ ...part('contactor', 60), state: 'open' } as Element, { drives: [], motors: [] })).toEqual([]);
  });
  it('is not asked of a terminator, a switch or a drive, nor where nothing is drawn', () => {
    const terminator = { ...part('filter', 1), role: 'terminator' } as Element;
    const gate: Element = { id: 'q', kind: 'disconnect', tag: 'Q' };
    expect([asked(terminator, OUT), asked(gate), asked(DRIVE)]).toEqual([[], [], []]);
    expect(asked(part('bus', 1), { drives: [], motors: [] })).toEqual([]);
  });
  it('is open without a current, or the voltages of a transformer between', () => {
    const { inputCurrent_A: _, ...unsaid } = DRIVE;
    expect(fields(of(part('bus', 100), { drives: [unsaid] }))).toEqual(['D: inputCurrent_A']);
    const nameless = { between: [{ id: 't', kind: 'transformer', tag: 'T', primaryVoltage_V: 480 }] as const };
    expect(fields(of(part('bus', 100), nameless))).toEqual(['T: secondaryVoltage_V']);
  });
});
