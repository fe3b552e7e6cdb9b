import { describe, expect, it } from 'vitest';
import { cableImpedance, ratedTemperature_C, surroundOf, wayLength_m, worstLength_m } from '../../../engine/checks/cableModel.ts';
import type { Cable } from '../../../engine/lineup/cable.ts';
import { expectClose } from '../../reference/expectClose.ts';
import { CABLE } from './scopes.ts';

/**
 * A cable as the physics wants it. 2 AWG copper in steel has 0.20 + j 0.057 Ω per 1000 ft at 75 °C, in PVC 0.19 + j 0.045 (NEC Chapter 9
 * Table 9), and at 25 °C 1 − 50 × 0.00323 of it (Table 8 note 2); 25 mm² 0.727 Ω/km at 20 °C (IEC 60228), 0.08 Ω/km (IEC 60364-5-52 Annex G).
 */

const KFT = 304.8;
const COLD = 1 - 50 * 0.00323;
const WIRED: Cable = { ...CABLE, length_m: KFT };
const of = (more: Partial<Cable> = {}, basis: 'us' | 'iec' = 'us', temperature_C = 75, hertz = 60) =>
  cableImpedance({ ...WIRED, ...more }, hertz, basis, temperature_C);
const near = (ours: number | undefined, hand: number, relative = 1e-9) => expectClose(ours ?? Number.NaN, hand, { relative }, 'by hand');

describe('what surrounds the conductors', () => {
  const around = (
    raceway: Cable['installation']['raceway'],
    construction: Cable['construction'],
    unsaid: 'steel' | 'nonmetallic' = 'steel',
  ) => surroundOf({ ...CABLE, installation: raceway ? { raceway } : {}, construction }, unsaid);
  it('is the pipe, then the armour', () => {
    expect([around('steel-conduit', 'corrugated-armour'), around('flexible-metal', 'multicore')]).toEqual(['steel', 'steel']);
    expect([around('aluminium-conduit', 'interlocked-armour'), around('tray', 'corrugated-armour')]).toEqual(['aluminium', 'aluminium']);
    expect([around('tray', 'interlocked-armour'), around(undefined, 'interlocked-armour', 'nonmetallic')]).toEqual(['steel', 'steel']);
    expect(around(undefined, 'corrugated-armour')).toBe('aluminium');
    for (const raceway of ['plastic-conduit', 'tray', 'ladder', 'none', 'buried-duct', 'direct-buried'] as const)
      expect([around(raceway, 'singles'), around(raceway, 'multicore'), around(raceway, undefined)]).toEqual(Array(3).fill('nonmetallic'));
  });
  it('where nobody said what it is laid in is the worst for what is asked, whatever its build', () => {
    for (const construction of ['singles', 'multicore', 'copper-tape', undefined] as const)
      expect([around(undefined, construction), around(undefined, construction, 'nonmetallic')]).toEqual(['steel', 'nonmetallic']);
  });
});

describe('its length', () => {
  const long = (more: Partial<Cable>) => worstLength_m({ ...CABLE, ...more });
  it('is the long end of a range, whichever of the two that is; of a link nothing', () => {
    expect([long({ length_m: 5 }), long({ length_m: 5, lengthMost_m: 9 }), long({ length_m: 9, lengthMost_m: 5 })]).toEqual([5, 9, 9]);
    expect([long({ length_m: undefined as never }), long({ length_m: undefined as never, lengthMost_m: 9 })]).toEqual([null, null]);
    expect([long({ kind: 'link' }), long({ kind: 'link', length_m: undefined as never }), long({ length_m: 0 })]).toEqual([0, 0, 0]);
  });
  it('of a way is all of them together, or not known', () => {
    const cables = [CABLE, { ...CABLE, lengthMost_m: 90 }, { ...CABLE, kind: 'link' as const }];
    expect([wayLength_m([]), wayLength_m(cables), wayLength_m([...cables, { ...CABLE, length_m: undefined as never }])]).toEqual([
      0,
      150,
      null,
    ]);
  });
});

describe('the temperature its resistance is taken at', () => {
  it('is that of the table, 75 °C; by IEC that of its insulation: entered, of its type, or 90 °C', () => {
    const at = (insulation: Cable['insulation'], basis: 'us' | 'iec' = 'iec') => ratedTemperature_C({ ...CABLE, insulation }, basis);
    expect([at({ type: 'PVC' }), at({ type: 'XLPE' }), at({ type: 'PVC', temperature_C: 105 }), at({})]).toEqual([70, 90, 105, 90]);
    expect(at({ type: 'PVC', temperature_C: 105 }, 'us')).toBe(75);
  });
});

describe('its impedance', () => {
  it('is that of its length in steel, as warm as asked; cold at 25 °C by NEC', () => {
    const found = of();
    near(found?.z.re, 0.2);
    near(found?.z.im, 0.057);
    near(found?.cold.re, 0.2 * COLD);
    near(found?.cold.im, 0.057);
    near(of({}, 'us', 90)?.z.re, 0.2 * (1 + 15 * 0.00323));
    near(of({}, 'us', 75, 50)?.z.im, (0.057 * 50) / 60);
    expect(found?.says).toEqual([expect.stringContaining('R 0.2 Ω/kft at 75 °C, 2 AWG copper, steel'), 'X 0.057 Ω/kft at 60 Hz']);
  });
  it('by IEC is cold at 20 °C; its wall keeps the cores apart', () => {
    const metric = { conductor: { size: '25 mm2', metal: 'copper' as const, sets: 1 }, insulation: { type: 'XLPE' as const } };
    const found = of(metric, 'iec', 90, 50);
    near(found?.cold.re, 0.727 * 0.3048, 0.01);
    near(found?.z.re, 0.727 * 0.3048 * (1 + 0.00393 * 70), 0.01);
    near(found?.z.im, 0.08 * 0.3048);
    // The thicker the wall, the less nearness adds; without one that is known the closest is taken.
    const big = { ...metric.conductor, size: '300 mm2' };
    const r = (insulation: Cable['insulation']) => of({ conductor: big, insulation }, 'iec', 90, 50)?.z.re ?? Number.NaN;
    expect(r({ wall_mm: 9 })).toBeLessThan(r({ type: 'XLPE' }));
    expect(r({ type: 'XLPE' })).toBeLessThan(r({}));
    near(r({ type: 'XLPE', wall_mm: 9 }), r({ wall_mm: 9 }));
    const flexible = of({ ...metric, conductor: { ...metric.conductor, build: 'flexible' } }, 'iec', 90, 50);
    near((flexible?.cold.re ?? 0) / (found?.cold.re ?? 1), 0.78 / 0.727, 1e-3);
  });
  it('of a range is the long end for what it loses, the short one for what a fault draws', () => {
    for (const ends of [
      { length_m: KFT, lengthMost_m: 3 * KFT },
      { length_m: 3 * KFT, lengthMost_m: KFT },
    ]) {
      near(of(ends)?.z.re, 0.6);
      near(of(ends)?.cold.re, 0.2 * COLD);
    }
  });
  it('in sets side by side is so much less; of nobody knows how many the most and the least there is', () => {
    const sets = (count: number | undefined) => of({ conductor: { ...WIRED.conductor, sets: count } });
    near(sets(4)?.z.im, 0.057 / 4);
    near(sets(4)?.cold.re, 0.05 * COLD);
    near(sets(undefined)?.z.re, 0.2);
    expect(sets(undefined)?.cold).toEqual({ re: 0, im: 0 });
  });
  it('laid in nobody knows what is that in steel, and for a fault that in no metal', () => {
    const found = of({ installation: {} });
    near(found?.z.im, 0.057);
    near(found?.cold.re, 0.19 * COLD);
    near(found?.cold.im, 0.045);
  });
  it('of no length is none, whatever it is made of', () => {
    const blank = { conductor: {} };
    for (const more of [{ kind: 'link' as const }, { length_m: 0 }])
      expect(of({ ...blank, ...more })).toEqual({ z: { re: 0, im: 0 }, cold: { re: 0, im: 0 }, says: [] });
  });
  it('is not known without length, size or metal, of a size that no table has, or a metal that size is not made of', () => {
    const { size, metal } = CABLE.conductor as { size: string; metal: 'copper' };
    for (const more of [
      { length_m: undefined as never },
      { conductor: { metal } },
      { conductor: { size } },
      { conductor: { size: '7 AWG', metal } },
      { conductor: { size: '1.5 mm2', metal: 'aluminium' as const } },
    ])
      expect([more, of(more)]).toEqual([more, null]);
  });
});
