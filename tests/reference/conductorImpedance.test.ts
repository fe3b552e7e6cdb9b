import { describe, expect, it } from 'vitest';
import { conductorImpedance } from '../../engine/physics/conductorImpedance.ts';
import { expectClose } from './expectClose.ts';

/** NEC Chapter 9 Tables 8 and 9, and IEC 60228 with the coefficients of IEC 60287-1-1, typed here a second time from memory. */

const KFT_M = 304.8;
const us = (size: string, more: Partial<Parameters<typeof conductorImpedance>[0]> = {}) =>
  conductorImpedance({ size, metal: 'copper', temperature_C: 75, frequency_Hz: 60, surround: 'steel', ...more });
const iec = (size: string, more: Partial<Parameters<typeof conductorImpedance>[0]> = {}) =>
  conductorImpedance({ size, metal: 'copper', temperature_C: 20, frequency_Hz: 50, surround: 'nonmetallic', ...more });

describe('NEC', () => {
  it('2 AWG: 0.20 Ω/kft and 0.057 Ω/kft in steel, 0.19 and 0.045 in plastic', () => {
    expectClose((us('2 AWG')?.resistance_ohmPerM ?? 0) * KFT_M, 0.2, { relative: 1e-9 }, 'Table 9');
    expectClose((us('2 AWG')?.reactance_ohmPerM ?? 0) * KFT_M, 0.057, { relative: 1e-9 }, 'Table 9');
    const plastic = us('2 AWG', { surround: 'nonmetallic' });
    expectClose((plastic?.resistance_ohmPerM ?? 0) * KFT_M, 0.19, { relative: 1e-9 }, 'Table 9');
    expectClose((plastic?.reactance_ohmPerM ?? 0) * KFT_M, 0.045, { relative: 1e-9 }, 'Table 9');
  });
  it('warmer by 0.323 % a degree, aluminium by 0.33 % (Table 8 note 2)', () => {
    const ratio = (metal: 'copper' | 'aluminium', temperature_C: number) =>
      (us('2 AWG', { metal, temperature_C })?.resistance_ohmPerM ?? 0) / (us('2 AWG', { metal })?.resistance_ohmPerM ?? 1);
    expectClose(ratio('copper', 25), 1 - 50 * 0.00323, { relative: 1e-9 }, 'copper');
    expectClose(ratio('aluminium', 90), 1 + 15 * 0.0033, { relative: 1e-9 }, 'aluminium');
    expect(us('2 AWG', { temperature_C: 25 })?.working[0]).toContain('× [1 + 0.00323 (25 − 75)]');
    expect(us('2 AWG')?.working[0]).toMatch(/^R 0\.2 Ω\/kft at 75 °C, 2 AWG copper, steel \(NEC.*\)$/);
  });
  it('reactance with the frequency, resistance without', () => {
    expectClose((us('2 AWG', { frequency_Hz: 50 })?.reactance_ohmPerM ?? 0) * KFT_M, (0.057 * 50) / 60, { relative: 1e-9 }, 'X ∝ f');
    expect(us('2 AWG', { frequency_Hz: 50 })?.resistance_ohmPerM).toBe(us('2 AWG')?.resistance_ohmPerM);
    expect([us('2 AWG')?.working[1], us('2 AWG', { frequency_Hz: 50 })?.working[1]]).toEqual([
      'X 0.057 Ω/kft at 60 Hz',
      'X 0.057 Ω/kft at 60 Hz × 50/60',
    ]);
  });
  it('a size that Table 9 leaves out has the d.c. resistance of Table 8, 4.99 Ω/kft for 16 AWG, and the reactance of the next, 0.073', () => {
    const found = us('16 AWG');
    expectClose((found?.resistance_ohmPerM ?? 0) * KFT_M, 4.99, { relative: 0.02 }, 'Table 8, from memory');
    expectClose((found?.reactance_ohmPerM ?? 0) * KFT_M, 0.073, { relative: 1e-9 }, '14 AWG');
    expect([found?.source.includes('reactance as 14 AWG'), us('2 AWG')?.source.includes('raised')]).toEqual([true, false]);
  });
  it('700 kcmil, which Table 9 leaves out, is raised as 600 and 750 kcmil beside it, by area', () => {
    // Table 8: 0.0214, 0.0184, 0.0171 Ω/kft; Table 9 in steel: 0.025 and 0.021. 0.0184 × (1.1682 + (1.2281 − 1.1682) × 100 / 150) = 0.02223.
    expectClose((us('700 kcmil')?.resistance_ohmPerM ?? 0) * KFT_M, 0.02223, { relative: 1e-3 }, 'by hand');
    // Aluminium: 0.0353, 0.0303, 0.0282; 0.039 and 0.031: 0.0303 × (1.1048 + (1.0993 − 1.1048) × 100 / 150) = 0.03336.
    expectClose((us('700 kcmil', { metal: 'aluminium' })?.resistance_ohmPerM ?? 0) * KFT_M, 0.03336, { relative: 1e-2 }, 'by hand');
    expectClose((us('700 kcmil')?.reactance_ohmPerM ?? 0) * KFT_M, 0.048, { relative: 1e-9 }, 'Table 9, 750 kcmil');
    expect(us('2 AWG', { temperature_C: 25 })?.working[0]).toContain('= 0.1677 Ω/kft');
  });
  it('14 and 18 AWG of aluminium, which Table 9 leaves out: 5.17 and 13.1 Ω/kft, raised by as little as 12 AWG is', () => {
    for (const [size, ohm] of [
      ['14 AWG', 5.17],
      ['18 AWG', 13.1],
    ] as const)
      expectClose((us(size, { metal: 'aluminium' })?.resistance_ohmPerM ?? 0) * KFT_M, ohm, { relative: 1e-9 }, 'Table 8');
  });
  it('what no table has is not known', () =>
    expect([us('7/0 AWG'), iec('3 mm2'), iec('1.5 mm2', { metal: 'aluminium' })]).toEqual([null, null, null]));
});

describe('IEC', () => {
  it('35 mm²: 0.524 Ω/km, 0.554 flexible, 0.868 of aluminium at 20 °C; 0.08 Ω/km', () => {
    // Skin and proximity add a fraction of a per cent at 50 Hz.
    const per_km = (more = {}) => 1000 * (iec('35 mm2', more)?.resistance_ohmPerM ?? 0);
    for (const [found, table] of [
      [per_km(), 0.524],
      [per_km({ build: 'flexible' }), 0.554],
      [per_km({ metal: 'aluminium' }), 0.868],
    ] as const) {
      expectClose(found, table, { relative: 0.003 }, 'IEC 60228');
      expect(found).toBeGreaterThan(table);
    }
    expectClose(iec('35 mm2')?.reactance_ohmPerM ?? 0, 0.08e-3, { relative: 1e-9 }, 'Annex G');
    expectClose(iec('35 mm2', { frequency_Hz: 60 })?.reactance_ohmPerM ?? 0, 0.096e-3, { relative: 1e-9 }, 'X ∝ f');
    expect([iec('35 mm2')?.source.includes('class 2'), iec('35 mm2', { build: 'flexible' })?.source.includes('class 5')]).toEqual([
      true,
      true,
    ]);
    expect(iec('35 mm2', { metal: 'aluminium', build: 'flexible' })?.source).toContain('class 2');
  });
  it('warmer by 0.393 % a degree, aluminium by 0.403 % (IEC 60287-1-1)', () => {
    const ratio = (metal: 'copper' | 'aluminium') =>
      (iec('35 mm2', { metal, temperature_C: 90 })?.resistance_ohmPerM ?? 0) / (iec('35 mm2', { metal })?.resistance_ohmPerM ?? 1);
    expectClose(ratio('copper'), 1 + 70 * 0.00393, { relative: 0.003 }, 'copper');
    expectClose(ratio('aluminium'), 1 + 70 * 0.00403, { relative: 0.003 }, 'aluminium');
  });
  it('cores far apart have skin effect alone, 3.62 % at 400 mm² and 20 °C; the nearer they lie, the more is added', () => {
    // 0.047 Ω/km: x² = 8π 50 / 0.000047 × 1e-7 = 2.67366; x⁴ / (192 + 0.8 x⁴) = 0.036155.
    const of = (wall_mm?: number) => 1000 * (iec('400 mm2', { wall_mm })?.resistance_ohmPerM ?? 0);
    expectClose(of(1e6), 0.047 * 1.036155, { relative: 1e-5 }, 'IEC 60287-1-1');
    // Cores of 23.1 mm with 1 mm around each lie 25.1 mm apart: (23.1 / 25.1)² = 0.846987 of 0.312 × 0.846987 + 1.18 / 0.306155 is 12.612 %.
    expectClose(of(1), 0.047 * (1.036155 + 0.12612), { relative: 1e-5 }, 'IEC 60287-1-1, by hand');
    expect(of(1)).toBeGreaterThan(of(2));
    expect(of(2)).toBeGreaterThan(of(1e6));
    expect(of()).toBe(of(0.7));
  });
  it('wire whose diameter no table gives is a rod of its area: 0.75 mm² at 30 kHz', () => {
    // x⁴ = (8π 30000 / 0.0245 × 1e-7)² = 9.4709: 4.7455 % by skin effect; a rod of 0.97721 mm, 2.37721 from the next, so 3.0230 % by proximity.
    const found = 1000 * (iec('0.75 mm2', { frequency_Hz: 30_000 })?.resistance_ohmPerM ?? 0);
    expectClose(found, 24.5 * 1.077685, { relative: 1e-5 }, 'IEC 60287-1-1, by hand');
  });
  it('says how, with the frequency where it is another', () => {
    const { working = [] } = iec('35 mm2', { temperature_C: 70 }) ?? {};
    // 0.524 × (1 + 0.00393 × 50) = 0.62697 Ω/km.
    expect(working[0]).toMatch(/^R 0\.524 Ω\/km at 20 °C, 35 mm2 copper .* × \[1 \+ 0\.00393 \(70 − 20\)\] = 0\.62697 Ω\/km$/);
    expect([working[2], iec('35 mm2', { frequency_Hz: 60 })?.working[2]]).toEqual([
      'X 0.08 Ω/km at 50 Hz (IEC 60364-5-52 Annex G)',
      'X 0.08 Ω/km at 50 Hz (IEC 60364-5-52 Annex G) × 60/50',
    ]);
  });
});
