import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { setValue } from '../../../editor/store/edits.ts';
import { type Finding, type LineUp, load, review } from '../../../engine/index.ts';

/**
 * Insulation against pulses, moisture and voltage, at the edges of what its sources say: 15 mil everywhere (two drive makers' guides), 90 %
 * of nominal at the thinnest (ICEA S-95-658, UL 758), the letters of NEC Table 310.4(1), 600 V to 500 V, 750 V to 600 V and 1 kV above.
 */

const loaded = load(readFileSync(new URL('../../../examples/alder-mill-fan.json', import.meta.url), 'utf8'));
if (!loaded.ok) throw new Error(loaded.what);
const MILL = loaded.lineUp;
const id = (tag: string): string => [...MILL.elements, ...MILL.cables].find((each) => each.tag === tag)?.id ?? '';
type Values = Readonly<Record<string, unknown>>;
const withValues = (tag: string, values: Values): LineUp =>
  Object.entries(values).reduce((before, [path, value]) => setValue(before, id(tag), path, value), MILL);
const judged = (check: string, values: Values, tag = 'W-1'): Finding | undefined =>
  review(withValues(tag, values)).findings.find((each) => each.check === check && each.subject.tag === tag);
const verdict = (check: string, values: Values, tag = 'W-1') => judged(check, values, tag)?.verdict;
const MIL = 0.0254;

describe('wall', () => {
  const wall = (mils: number, concentricity_pct?: number) =>
    verdict('insulation-wall', { 'insulation.wall_mm': mils * MIL, 'insulation.concentricity_pct': concentricity_pct });
  it('15 mil nominal and everywhere passes, below 15 nominal fails, thin at places alone is a caution', () => {
    expect([wall(15, 100), wall(14.99, 100), wall(15, 99.9), wall(20, 75), wall(20, 74.9)]).toEqual([
      'pass',
      'fail',
      'caution',
      'pass',
      'caution',
    ]);
  });
  it('not known how well it is centred: 90 % of nominal, but the 67 % found in the field must pass too, or it is open', () => {
    // 15 / 0.67 = 22.39 mil, 15 / 0.90 = 16.67 mil.
    expect([wall(22.4), wall(22.38), wall(16.7), wall(16.6), wall(14.9)]).toEqual(['pass', 'open', 'open', 'caution', 'fail']);
    const open = judged('insulation-wall', { 'insulation.wall_mm': 20 * MIL, 'insulation.concentricity_pct': undefined });
    expect(open?.missing.map((each) => each.field)).toEqual(['insulation.concentricity_pct']);
    expect(open?.assumptions.map((each) => each.value)).toEqual(['90 %']);
    expect(open?.text).toBe(
      'W-1 has 20.0 mil (0.51 mm) nominal: at least 18.0 mil (0.46 mm) where the specification is kept, 13.4 mil (0.34 mm) in the worst wire found in the field; 15.0 mil (0.38 mm) is asked everywhere. How well it is centred decides.',
    );
  });
  it('of a type and size by its table: XHHW-2 of 8 AWG has 45 mil, THHN of 12 AWG 15 mil under its nylon (UL 44, UL 83)', () => {
    const [thick, thin] = [
      judged('insulation-wall', {}),
      judged('insulation-wall', { 'insulation.type': 'THHN', 'conductor.size': '12 AWG', 'insulation.concentricity_pct': 100 }),
    ];
    expect([thick?.verdict, thick?.working[1], thick?.unit, thick?.assumptions]).toEqual([
      'pass',
      'thinnest = nominal × 0.9 = 40.5 mil (1.03 mm)',
      'mm',
      [],
    ]);
    expect([thin?.verdict, thin?.phrase]).toEqual(['pass', 'wall 15.0 mil']);
    expect(thick?.working[0]).toContain('XHHW-2 8 AWG');
    expect(judged('insulation-wall', { 'insulation.wall_mm': 1 })?.working[0]).toContain('entered');
  });
  it('without type or size it is open and says which; of a feeder it is not asked', () => {
    const fields = (values: Values) => judged('insulation-wall', values)?.missing.map((each) => each.field);
    expect(fields({ 'insulation.type': undefined })).toEqual(['insulation.type']);
    expect(fields({ 'conductor.size': undefined })).toEqual(['conductor.size']);
    expect(fields({ 'insulation.type': undefined, 'conductor.size': undefined })).toEqual(['insulation.type', 'conductor.size']);
    expect(judged('insulation-wall', {}, 'F-1')).toBeUndefined();
  });
});

describe('moisture', () => {
  const inPlace = (type: string, moisture: string, tag = 'W-1', more: Values = {}) =>
    verdict('insulation-moisture', { 'insulation.type': type, 'installation.moisture': moisture, ...more }, tag);
  it.each([
    ['THHN', ['note', 'caution', 'fail'], ['pass', 'pass', 'fail']],
    ['RHH', ['pass', 'pass', 'fail'], ['pass', 'pass', 'fail']],
    ['THWN-2', ['note', 'caution', 'fail'], ['pass', 'pass', 'pass']],
    ['TW', ['note', 'caution', 'fail'], ['pass', 'pass', 'pass']],
    ['THW', ['note', 'caution', 'fail'], ['pass', 'pass', 'pass']],
    ['MTW', ['note', 'caution', 'fail'], ['pass', 'pass', 'pass']],
    ['PVC', ['note', 'caution', 'fail'], ['pass', 'pass', 'pass']],
    ['XHHW-2', ['pass', 'pass', 'pass'], ['pass', 'pass', 'pass']],
    ['RHW-2', ['pass', 'pass', 'pass'], ['pass', 'pass', 'pass']],
    ['XLPE', ['pass', 'pass', 'pass'], ['pass', 'pass', 'pass']],
    ['EPR', ['pass', 'pass', 'pass'], ['pass', 'pass', 'pass']],
  ] as const)('%s dry, damp and wet, behind the drive and ahead of it', (type, behind, ahead) => {
    const places = ['dry', 'damp', 'wet'];
    expect(places.map((place) => inPlace(type, place))).toEqual(behind);
    expect(places.map((place) => inPlace(type, place, 'F-1'))).toEqual(ahead);
  });
  it('under the ground is wet, whatever is said of the place (NEC 300.5(B))', () => {
    for (const raceway of ['buried-duct', 'direct-buried']) {
      expect(inPlace('THHN', 'dry', 'F-1', { 'installation.raceway': raceway })).toBe('fail');
      expect(judged('insulation-moisture', { 'installation.moisture': undefined, 'installation.raceway': raceway })?.text).toContain(
        'underground',
      );
    }
    expect(judged('insulation-moisture', {})?.text).not.toContain('underground');
  });
  it('a cable said not to be rated wet is not, whatever its letters', () => {
    expect(inPlace('XHHW-2', 'wet', 'W-1', { 'insulation.wetRated': false })).toBe('fail');
    expect(inPlace('XHHW-2', 'damp', 'W-1', { 'insulation.wetRated': false })).toBe('pass');
    // And a word on it does not make a dry type wet.
    expect(inPlace('THHN', 'wet', 'F-1', { 'insulation.wetRated': true })).toBe('fail');
  });
  it('stands on the code where letters forbid it, on a guide where pulses do', () => {
    const of = (type: string, tag: string) =>
      judged('insulation-moisture', { 'insulation.type': type, 'installation.moisture': 'wet' }, tag);
    expect([of('THHN', 'F-1')?.authority, of('THHN', 'F-1')?.source]).toEqual(['code', 'NEC 310.10(C)']);
    expect(of('THWN-2', 'W-1')?.authority).toBe('guide');
    expect(of('THWN-2', 'W-1')?.text).toContain('inception falls below half');
    expect(of('THWN-2', 'F-1')?.text).toContain('ahead of the drive it sees no pulses');
    expect(judged('insulation-moisture', { 'insulation.type': 'THWN-2' })?.text).toContain('acceptable dry');
    expect(judged('insulation-moisture', { 'insulation.type': 'THWN-2' })?.remedies).toEqual([]);
    expect(of('THWN-2', 'W-1')?.remedies.length).toBe(2);
  });
  it('without type or place it is open and says which', () => {
    const fields = (values: Values) => judged('insulation-moisture', values)?.missing.map((each) => each.field);
    expect(fields({ 'insulation.type': undefined })).toEqual(['insulation.type']);
    expect(fields({ 'installation.moisture': undefined })).toEqual(['installation.moisture']);
    expect(fields({ 'insulation.type': undefined, 'installation.moisture': undefined })).toEqual([
      'insulation.type',
      'installation.moisture',
    ]);
  });
});

describe('voltage class', () => {
  const supplied = (volts: number | undefined, cable_V: number) => {
    const transformer = setValue(withValues('W-1', { 'insulation.voltage_V': cable_V }), id('T-1'), 'secondaryVoltage_V', volts);
    return review(transformer).findings.find((each) => each.check === 'insulation-voltage' && each.subject.tag === 'W-1');
  };
  it.each([
    [500, 600],
    [501, 750],
    [600, 750],
    [601, 1000],
    [690, 1000],
    [999, 1000],
    [1001, 2000],
  ])('on %i V a cable for %i V passes, and one for half a volt less is a caution', (volts, asked) => {
    expect([supplied(volts, asked)?.verdict, supplied(volts, asked - 0.5)?.verdict]).toEqual(['pass', 'caution']);
    expect(supplied(volts, asked)?.limit).toBe(asked);
  });
  it('by its letters 600 V, which is said to be assumed; without either it is open', () => {
    const found = judged('insulation-voltage', {});
    expect([found?.value, found?.assumptions.map((each) => each.value)]).toEqual([600, ['600 V']]);
    expect(judged('insulation-voltage', { 'insulation.voltage_V': 1000 })?.assumptions).toEqual([]);
    const open = judged('insulation-voltage', { 'insulation.type': undefined });
    expect([open?.verdict, open?.missing.map((each) => each.field)]).toEqual(['open', ['insulation.voltage_V', 'insulation.type']]);
    expect(supplied(undefined, 600)?.verdict).toBe('open');
    expect(supplied(undefined, 600)?.text).toBe('Cannot be judged yet: the nominal voltage at it is not known.');
  });
  it('the room that is left is told in per cent of what is asked: 1000 V where 600 V is, two thirds', () => {
    expect(judged('insulation-voltage', { 'insulation.voltage_V': 1000 })?.margin_pct).toBeCloseTo(200 / 3, 9);
    expect(judged('insulation-voltage', { 'insulation.voltage_V': 300 })?.margin_pct).toBeCloseTo(-50, 9);
  });
});
