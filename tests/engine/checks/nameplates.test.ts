import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { setValue } from '../../../editor/store/edits.ts';
import type { ElementScope } from '../../../engine/checks/check.ts';
import { voltageMatch } from '../../../engine/checks/voltageMatch.ts';
import { type Element, load, review } from '../../../engine/index.ts';
import { DRIVE, elementScope, MOTOR, SUPPLY, step } from './scopes.ts';

/** Nameplates at the edges of ± 10 % (IEC 60038, NEMA MG 1 12.44, from memory), on a line-up of 480 V in order. */

const loaded = load(readFileSync(new URL('../../../examples/alder-mill-fan.json', import.meta.url), 'utf8'));
if (!loaded.ok) throw new Error(loaded.what);
const MILL = loaded.lineUp;
const judged = (tag: string, path: string, value: number | undefined) => {
  const id = MILL.elements.find((each) => each.tag === tag)?.id ?? '';
  return review(setValue(MILL, id, path, value)).findings.filter((each) => each.check === 'voltage-match' && each.subject.tag === tag);
};
const verdicts = (tag: string, path: string, ...values: readonly (number | undefined)[]) =>
  values.flatMap((value) => judged(tag, path, value).map((each) => each.verdict));

describe('rated voltages', () => {
  it('a drive from 432 to 528 V on 480 V, and not a tenth of a volt beyond', () =>
    expect(verdicts('VFD-1', 'ratedVoltage_V', 431.9, 432, 480, 528, 528.1)).toEqual(['fail', 'pass', 'pass', 'pass', 'fail']));
  it('a motor up to 528 V; below three quarters, 360 V, with a caution', () =>
    expect(verdicts('M-1', 'ratedVoltage_V', 359.9, 360, 460, 528, 528.1)).toEqual(['caution', 'pass', 'pass', 'pass', 'fail']));
  it('a transformer by the line ahead of it, 12 470 V: 11 223 to 13 717 V', () =>
    expect(verdicts('T-1', 'primaryVoltage_V', 11_222, 11_223, 13_717, 13_718)).toEqual(['fail', 'pass', 'pass', 'fail']));
  it.each([
    ['VFD-1', 'ratedVoltage_V'],
    ['M-1', 'ratedVoltage_V'],
    ['T-1', 'primaryVoltage_V'],
  ] as const)('%s without one is open, and that is what it lacks', (tag, path) => {
    const [found, ...more] = judged(tag, path, undefined);
    expect([found?.verdict, more.length, found?.missing.map((each) => each.field)]).toEqual(['open', 0, [path]]);
  });
  it('on a supply that is not known the supply is asked, not the part', () => {
    const supply = MILL.elements.find((each) => each.kind === 'supply')?.id ?? '';
    const found = review(setValue(MILL, supply, 'voltage_V', undefined)).findings.find(
      (each) => each.check === 'voltage-match' && each.subject.tag === 'T-1',
    );
    expect([found?.verdict, found?.missing.map((each) => `${each.tag}: ${each.field}`), found?.text]).toEqual([
      'open',
      ['UTIL: voltage_V'],
      'Cannot be judged yet: the nominal voltage at it is not known.',
    ]);
  });
  it('says both voltages, on what they were judged and what helps', () => {
    const [wrong] = judged('VFD-1', 'ratedVoltage_V', 240);
    expect([wrong?.value, wrong?.limit, wrong?.unit, wrong?.phrase, wrong?.quantity]).toEqual([
      240,
      480,
      'V',
      '240 V on 480 V',
      'rated voltage',
    ]);
    expect(wrong?.text).toBe('VFD-1 is made for 240 V and stands on 480 V.');
    expect(wrong?.working).toEqual(['240.0 / 480.0 V = 50.0 %']);
    expect(wrong?.remedies.length).toBeGreaterThan(1);
    expect(wrong?.runs).toEqual(['M-1']);
    expect(judged('VFD-1', 'ratedVoltage_V', 480)[0]?.remedies).toEqual([]);
    expect(judged('M-1', 'ratedVoltage_V', 230)[0]?.text).toContain('set to its voltage, and the peaks are those of the supply');
    expect(judged('M-1', 'ratedVoltage_V', 460)[0]?.text).not.toContain('peaks');
  });
  it('is asked of drives, motors and transformers alone, once each', () =>
    expect(
      review(MILL)
        .findings.filter((each) => each.check === 'voltage-match' && each.verdict !== 'not-applicable')
        .map((each) => each.subject.tag)
        .sort(),
    ).toEqual(['M-1', 'T-1', 'VFD-1']));
});

describe('which voltage counts', () => {
  const asked = (more: Partial<ElementScope>) => (voltageMatch.scope === 'element' ? voltageMatch.judge(elementScope(more)) : []);
  const transformer: Element = { id: 't', kind: 'transformer', tag: 'T', primaryVoltage_V: 480, secondaryVoltage_V: 2400 };
  const flow = step({ nominal_V: 12_470 });
  const limit = (more: Partial<ElementScope>) => asked({ flow, ...more }).map((each) => each.limit);
  it('is the one at its line side for a transformer of the input side, that of the drive’s supply for all others', () => {
    expect([limit({ element: transformer }), limit({ element: transformer, side: 'output' })]).toEqual([[12_470], [480]]);
    expect([limit({ element: MOTOR, side: 'output' }), limit({ element: MOTOR }), limit({ element: DRIVE })]).toEqual([
      [480],
      [480],
      [480],
    ]);
  });
  it('of a line whose least is above its most is not known: the two contradict each other', () => {
    const line = (voltageLeast_pct?: number, voltageMost_pct?: number): Element =>
      ({ ...SUPPLY, voltageLeast_pct, voltageMost_pct }) as Element;
    const found = asked({ element: line(110, 90), atSource: true })[0];
    expect([found?.verdict, found?.phrase, found?.runs]).toEqual(['open', 'least above most', ['M']]);
    expect(found?.text).toBe(
      'Cannot be judged: lowest line voltage of S, 110\u00a0%; highest line voltage of S, 90\u00a0%. The two contradict each other.',
    );
    for (const said of [line(90, 110), line(95, 95), line(110), line(undefined, 90), line()])
      expect(asked({ element: said, atSource: true })).toEqual([]);
  });
  it('is asked of no source, of no drive behind a drive, and of nothing without a nameplate of volts', () => {
    expect(asked({ atSource: true })).toEqual([]);
    expect(asked({ side: 'output' })).toEqual([]);
    expect(asked({ element: { id: 'b', kind: 'bus', tag: 'B' } })).toEqual([]);
  });
  it('a motor that runs without a drive stands at its own voltage: from 432 V on 480 V', () => {
    const across = (ratedVoltage_V: number) => asked({ element: { ...MOTOR, ratedVoltage_V } })[0];
    expect([across(431.9)?.verdict, across(432)?.verdict, across(460)?.verdict, across(528.1)?.verdict]).toEqual([
      'fail',
      'pass',
      'pass',
      'fail',
    ]);
    expect(across(230)?.text).toBe('M is made for 230 V and stands on 480 V.');
    expect(asked({ element: { ...MOTOR, ratedVoltage_V: 431.9 }, side: 'output' })[0]?.verdict).toBe('pass');
  });
  it('stands on the nameplates', () => expect(asked({})[0]?.authority).toBe('manual'));
});
