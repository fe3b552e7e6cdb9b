import type { Source } from './source.ts';

/** IEEE 519-2014 and 2022 at the point of common coupling. */

export const VOLTAGE_SOURCE: Source = { standard: 'IEEE 519', edition: '2014, 2022', place: 'Table 1', status: 'published' };
const VOLTAGE_MEMORY: Source = { ...VOLTAGE_SOURCE, status: 'from memory' };
export const CURRENT_SOURCE: Source = { standard: 'IEEE 519', edition: '2014, 2022', place: 'Table 2', status: 'published' };

/** [bus up to V, one harmonic %, total %, source] */
const VOLTAGE: readonly (readonly [number, number, number, Source])[] = [
  [1000, 5, 8, VOLTAGE_SOURCE],
  [69_000, 3, 5, VOLTAGE_MEMORY],
  [161_000, 1.5, 2.5, VOLTAGE_MEMORY],
];
const VOLTAGE_ABOVE = [Number.POSITIVE_INFINITY, 1, 1.5, VOLTAGE_MEMORY] as const;

/** [Isc/IL below, total demand distortion %], 120 V to 69 kV */
const CURRENT: readonly (readonly [number, number])[] = [
  [20, 5],
  [50, 8],
  [100, 12],
  [1000, 15],
];
const CURRENT_ABOVE = [Number.POSITIVE_INFINITY, 20] as const;

export function voltageLimit(bus_V: number): { readonly single_pct: number; readonly total_pct: number; readonly source: Source } {
  const [, single_pct, total_pct, source] = VOLTAGE.find(([upTo]) => bus_V <= upTo) ?? VOLTAGE_ABOVE;
  return { single_pct, total_pct, source };
}

export function currentLimit(faultOverDemand: number): { readonly total_pct: number; readonly source: Source } {
  const [, total_pct] = CURRENT.find(([below]) => faultOverDemand < below) ?? CURRENT_ABOVE;
  return { total_pct, source: CURRENT_SOURCE };
}
