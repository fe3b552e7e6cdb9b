import { describe, expect, it } from 'vitest';
import { motorLimit, PROVISIONAL } from '../../../engine/checks/motorLimit.ts';
import type { ElementOf } from '../../../engine/lineup/elements.ts';
import { expectClose } from '../../reference/expectClose.ts';
import { MOTOR } from './scopes.ts';

/** What a winding is built for, by NEMA MG 1 Parts 30 and 31 and IEC 60034-18-41 (from memory), its maker's word or his curve. */

const of = (more: Partial<ElementOf<'motor'>>, rise_s: number | null = null, project_V?: number) => {
  const limit = motorLimit({ ...MOTOR, ...more }, rise_s, project_V);
  return 'missing' in limit
    ? { peak_V: Number.NaN, name: '', authority: '', rise_s: null, riseBinds: false, ...limit }
    : { missing: [], says: undefined, ...limit };
};
const fields = (more: Partial<ElementOf<'motor'>>, rise_s: number | null = null) => of(more, rise_s).missing.map((each) => each.field);

describe('the limit of a motor', () => {
  it('Part 30: 1000 V, edges not faster than 2 µs', () => {
    const limit = of({ insulation: 'mg1-part-30' });
    expect([limit.peak_V, limit.rise_s, limit.riseBinds, limit.authority, limit.name]).toEqual([
      1000,
      2e-6,
      false,
      'standard',
      'NEMA MG 1 Part 30',
    ]);
    expect([PROVISIONAL.peak_V, PROVISIONAL.name]).toEqual([1000, 'NEMA MG 1 Part 30 (provisionally)']);
  });
  it('Part 31: 3.1 × 460 = 1426 V, edges not faster than 0.1 µs', () => {
    const limit = of({ insulation: 'mg1-part-31' });
    expectClose(limit.peak_V, 1426, { relative: 1e-12 }, 'by hand');
    expect([limit.rise_s, limit.riseBinds, limit.authority]).toEqual([0.1e-6, false, 'standard']);
    expect(limit.name).toContain('Part 31');
  });
  it.each([
    ['ivic-a', 1.1, 'A'],
    ['ivic-b', 1.5, 'B'],
    ['ivic-c', 2, 'C'],
    ['ivic-d', 2.5, 'D'],
  ] as const)('%s: %d × the bus, 1.35 × 460 V', (insulation, factor, letter) => {
    const limit = of({ insulation });
    expectClose(limit.peak_V, factor * 621, { relative: 1e-12 }, 'by hand');
    expect([limit.rise_s, limit.riseBinds, limit.authority, limit.name]).toEqual([
      null,
      false,
      'standard',
      `IEC 60034-18-41 category ${letter} (from memory)`,
    ]);
  });
  it('its maker’s own, with the edge that binds', () => {
    const limit = of({ insulation: 'entered', peakLimit_V: 1600, riseLimit_s: 1e-7 });
    expect([limit.peak_V, limit.rise_s, limit.riseBinds, limit.authority]).toEqual([1600, 1e-7, true, 'manual']);
    expect(of({ insulation: 'entered', peakLimit_V: 1600 }).rise_s).toBeNull();
  });
  it('is not known without what it is made from', () => {
    expect(fields({ insulation: undefined as never })).toEqual(['insulation']);
    expect(fields({ insulation: 'entered' })).toEqual(['peakLimit_V']);
    for (const insulation of ['mg1-part-31', 'ivic-b'] as const)
      expect(fields({ insulation, ratedVoltage_V: undefined as never })).toEqual(['ratedVoltage_V']);
    expect(fields({ insulation: 'mg1-part-30', ratedVoltage_V: undefined as never })).toEqual([]);
  });
  it('the project may only lower it', () => {
    const at = (project_V: number) => of({ insulation: 'mg1-part-30' }, null, project_V);
    expect([at(999).peak_V, at(999).authority, at(999).name, at(999).rise_s]).toEqual([999, 'project', 'the limit of this project', 2e-6]);
    expect([at(1000).authority, at(1200).peak_V]).toEqual(['standard', 1000]);
    expect(of({ insulation: undefined as never }, null, 500).missing).toHaveLength(1);
  });
});

describe('a curve of peak over rise time', () => {
  // In no order, as somebody may type it.
  const peakCurve = [
    { rise_s: 1e-6, peak_V: 1600 },
    { rise_s: 0.2e-6, peak_V: 1200 },
    { rise_s: 0.6e-6, peak_V: 1500 },
  ];
  const at = (rise_s: number | null, more: Partial<ElementOf<'motor'>> = {}) => of({ insulation: 'curve', peakCurve, ...more }, rise_s);
  it('is straight between its points: half-way from 1200 to 1500 V is 1350 V', () => {
    expectClose(at(0.4e-6).peak_V, 1350, { relative: 1e-12 }, 'half');
    expectClose(at(0.7e-6).peak_V, 1525, { relative: 1e-12 }, 'a quarter');
    for (const { rise_s, peak_V } of peakCurve) expectClose(at(rise_s).peak_V, peak_V, { relative: 1e-12 }, 'a point');
    expect([at(0.4e-6).authority, at(0.4e-6).rise_s, at(0.4e-6).riseBinds]).toEqual(['manual', null, false]);
  });
  it('a slower edge is no worse than the last; a faster one than the first is not known', () => {
    expect(at(5e-6).peak_V).toBe(1600);
    const beyond = at(0.1e-6);
    expect([beyond.missing.map((each) => [each.id, each.tag, each.field, each.ask]), beyond.says]).toEqual([
      [['e2', 'M', 'peakCurveSource', 'motor supplier']],
      'the curve begins at 0.20 µs, and the edge at M takes 0.10 µs',
    ]);
  });
  it('without a rise time its strictest point holds, wherever it is', () => {
    expect(at(null).peak_V).toBe(1200);
    expect(
      at(null, {
        peakCurve: [
          { rise_s: 1e-7, peak_V: 1400 },
          { rise_s: 1e-6, peak_V: 1300 },
        ],
      }).peak_V,
    ).toBe(1300);
  });
  it('is named by its source', () =>
    expect([at(null).name, at(null, { peakCurveSource: 'sheet 4' }).name]).toEqual(['the curve entered', 'the curve of sheet 4']));
  it('without points is not known', () => {
    expect([at(1e-6, { peakCurve: [] }).missing.length, of({ insulation: 'curve' }, 1e-6).missing.length]).toEqual([1, 1]);
    expect(at(1e-6, { peakCurve: [{ rise_s: 1e-6, peak_V: 1000 }] }).peak_V).toBe(1000);
  });
});
