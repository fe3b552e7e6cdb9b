import type { Source } from './source.ts';

/** Protective conductors: by the device ahead (NEC), by the line conductor (IEC). */

export const TABLE_250_122: Source = { standard: 'NEC', edition: '2023', place: 'Table 250.122', status: 'published' };
export const TABLE_54_2: Source = { standard: 'IEC 60364-5-54', edition: '2011', place: 'Table 54.2', status: 'published' };

/** [rating of the overcurrent device not above A, copper, aluminium]. Aluminium at 5000 and 6000 A is 1200 kcmil in the 2017 edition. */
export const EQUIPMENT_GROUNDS: readonly (readonly [number, string, string])[] = [
  [15, '14 AWG', '12 AWG'],
  [20, '12 AWG', '10 AWG'],
  [60, '10 AWG', '8 AWG'],
  [100, '8 AWG', '6 AWG'],
  [200, '6 AWG', '4 AWG'],
  [300, '4 AWG', '2 AWG'],
  [400, '3 AWG', '1 AWG'],
  [500, '2 AWG', '1/0 AWG'],
  [600, '1 AWG', '2/0 AWG'],
  [800, '1/0 AWG', '3/0 AWG'],
  [1000, '2/0 AWG', '4/0 AWG'],
  [1200, '3/0 AWG', '250 kcmil'],
  [1600, '4/0 AWG', '350 kcmil'],
  [2000, '250 kcmil', '400 kcmil'],
  [2500, '350 kcmil', '600 kcmil'],
  [3000, '400 kcmil', '600 kcmil'],
  [4000, '500 kcmil', '750 kcmil'],
];

/** Smallest wire-type grounding conductor behind a device, or null above the rows kept here (to 4000 A). */
export function equipmentGround(rating_A: number, metal: 'copper' | 'aluminium'): { readonly size: string } | null {
  const row = EQUIPMENT_GROUNDS.find(([upTo]) => rating_A <= upTo);
  return row ? { size: metal === 'copper' ? row[1] : row[2] } : null;
}

/** Least protective conductor of the same material beside a line conductor, before it is rounded up to a size that is sold. */
export const protectiveConductor_mm2 = (line_mm2: number): number => (line_mm2 <= 16 ? line_mm2 : line_mm2 <= 35 ? 16 : line_mm2 / 2);
