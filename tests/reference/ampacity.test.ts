import { describe, expect, it } from 'vitest';
import { tableCurrent_A, WATTS_PER_HP } from '../../engine/catalog/motors.ts';
import { ampacity } from '../../engine/physics/ampacity.ts';
import { expectClose } from './expectClose.ts';

const us = (size: string, insulation_C: number, ambient_C: number, loaded: number, terminal_C: number | null = null) =>
  ampacity({
    basis: 'us',
    size,
    metal: 'copper',
    sets: 1,
    insulationTemperature_C: insulation_C,
    terminalTemperature_C: terminal_C,
    ambient_C,
    loadedConductors: loaded,
    method: 'B1',
    groupedCircuits: 1,
    soil_KmPerW: null,
    group: 'pvc',
  })?.value_A ?? Number.NaN;
const iec = (size: string, group: 'pvc' | 'xlpe', ambient_C: number, metal: 'copper' | 'aluminium' = 'copper', method: 'E' | 'F' = 'F') =>
  ampacity({
    basis: 'iec',
    size,
    metal,
    sets: 1,
    insulationTemperature_C: group === 'pvc' ? 70 : 90,
    terminalTemperature_C: null,
    ambient_C,
    loadedConductors: 3,
    method,
    groupedCircuits: 1,
    soil_KmPerW: null,
    group,
  });

describe('NEC ampacity, published examples', () => {
  it('six 12 AWG TW at 43 °C: 20 × 0.71 × 0.80 = 11.36 A (inspection exam question set)', () =>
    expectClose(us('12 AWG', 60, 43, 6), 11.36, { absolute: 0.005 }, 'exam'));
  it('10 AWG THHN at 49 °C: 40 × 0.82 = 32.8 A (continuing-education article)', () =>
    expectClose(us('10 AWG', 90, 49, 3), 32.8, { absolute: 0.05 }, 'article'));
  it('the same with four conductors: 26.24 A', () =>
    expectClose(us('10 AWG', 90, 49, 4), 26.24, { absolute: 0.005 }, 'article, with its 0.80'));
  it('12 AWG, 90 °C, 55 °C ambient: 22.8 A (engineers’ exam forum)', () =>
    expectClose(us('12 AWG', 90, 55, 3), 22.8, { absolute: 0.05 }, 'forum'));
  it('8 AWG on 75 °C terminals: 50 A (notes on motor calculations, 25 hp example)', () => expect(us('8 AWG', 90, 30, 3, 75)).toBe(50));
  it('25 hp at 460 V draws 34 A, 50 hp 65 A in the table (NEC Annex D8; notes on conductors)', () => {
    expect(tableCurrent_A(25 * WATTS_PER_HP, 460)?.current_A).toBe(34);
    expect(tableCurrent_A(50 * WATTS_PER_HP, 460)?.current_A).toBe(65);
  });
});

describe('IEC 60364-5-52 ampacity, published examples', () => {
  // A compressor maker's instruction books: method F at 45 °C.
  it('185 mm2 PVC at 45 °C: 409 × 0.79 = 323 A', () =>
    expectClose(iec('185 mm2', 'pvc', 45)?.value_A ?? 0, 323.1, { absolute: 0.5 }, 'instruction book'));
  it('120 mm2 XLPE at 45 °C: 383 × 0.87 = 333 A', () =>
    expectClose(iec('120 mm2', 'xlpe', 45)?.value_A ?? 0, 333.2, { absolute: 0.5 }, 'instruction book'));
  // A drive maker's guide: method E × 0.70.
  it.each([
    ['35 mm2', 'xlpe', 'copper', 110],
    ['95 mm2', 'xlpe', 'copper', 209],
    ['240 mm2', 'xlpe', 'copper', 376],
    ['50 mm2', 'pvc', 'copper', 107],
    ['300 mm2', 'pvc', 'copper', 348],
    ['70 mm2', 'xlpe', 'aluminium', 131],
    ['120 mm2', 'pvc', 'aluminium', 148],
  ] as const)('%s %s %s in method E × 0.70: %i A', (size, group, metal, printed) => {
    expectClose(0.7 * (iec(size, group, 30, metal, 'E')?.table_A ?? 0), printed, { absolute: 1 }, 'a drive maker’s guide');
  });

  const grouped = (given: { method: 'C' | 'D1' | 'D2'; circuits: number; group?: 'pvc' | 'xlpe'; hot_C?: number }) =>
    ampacity({
      basis: 'iec',
      size: '35 mm2',
      metal: 'copper',
      sets: 1,
      insulationTemperature_C: given.hot_C ?? 90,
      terminalTemperature_C: null,
      ambient_C: given.method === 'C' ? 30 : 20,
      loadedConductors: 3,
      method: given.method,
      groupedCircuits: given.circuits,
      soil_KmPerW: null,
      group: given.group ?? 'xlpe',
    })?.value_A ?? null;

  // 129 A alone, 35 mm2 copper XLPE (Table B.52.5), times Table B.52.18, touching (both from memory).
  it.each([
    [1, 129],
    [2, 129 * 0.75],
    [3, 129 * 0.65],
    [6, 129 * 0.5],
  ])('%i circuits straight in the ground', (circuits, expected) =>
    expectClose(grouped({ method: 'D2', circuits }) ?? 0, expected, { relative: 1e-12 }, 'Table B.52.18'),
  );
  it('more circuits than a table ends with have no factor: 20 in air (B.52.17), 6 in the ground (B.52.18)', () => {
    expectClose(grouped({ method: 'C', circuits: 20 }) ?? 0, 147 * 0.38, { relative: 1e-12 }, 'Table B.52.17');
    expect([grouped({ method: 'C', circuits: 21 }), grouped({ method: 'D2', circuits: 7 })]).toEqual([null, null]);
  });
  it('rubber that may run at 75 °C takes the 70 °C column, what may run at 60 °C has none (Table B.52.4: 119 A)', () => {
    expect(grouped({ method: 'C', circuits: 1, hot_C: 75 })).toBe(119);
    expect([grouped({ method: 'C', circuits: 1, group: 'pvc', hot_C: 60 }), grouped({ method: 'C', circuits: 1, hot_C: 60 })]).toEqual([
      null,
      null,
    ]);
  });
});
