import { TABLE_310_15_B, TABLE_310_15_C, TABLE_310_16, US_ADJUSTMENT, US_AMBIENT, US_AMPACITY } from '../catalog/ampacity.ts';
import { conductorSize } from '../catalog/conductors.ts';
import {
  IEC_AMBIENT_AIR,
  IEC_AMBIENT_GROUND,
  IEC_AMBIENT_SOURCE,
  IEC_AMPACITY,
  IEC_GROUPING,
  IEC_GROUPING_GROUND,
  IEC_GROUPING_GROUND_SOURCE,
  IEC_GROUPING_SOURCE,
  IEC_SOIL,
  IEC_SOIL_SOURCE,
  type ReferenceMethod,
} from '../catalog/iecAmpacity.ts';
import { cite } from '../catalog/source.ts';
import type { Amperes, Celsius } from './units.ts';

/** What current a cable may carry, all sets together, with each factor named. */

export interface AmpacityInput {
  readonly basis: 'us' | 'iec';
  readonly size: string;
  readonly metal: 'copper' | 'aluminium';
  readonly sets: number;
  readonly insulationTemperature_C: Celsius;
  /** Null: not known; no cap is applied and the caller judges it both ways. */
  readonly terminalTemperature_C: number | null;
  readonly ambient_C: Celsius;
  /** In the same raceway or bundle (US). */
  readonly loadedConductors: number;
  readonly method: ReferenceMethod;
  /** Circuits grouped together (IEC). */
  readonly groupedCircuits: number;
  /** Of the ground around a buried cable; null: the 2.5 K m/W of the tables. */
  readonly soil_KmPerW: number | null;
  readonly group: 'pvc' | 'xlpe';
}

export interface Ampacity {
  readonly value_A: Amperes;
  readonly table_A: Amperes;
  readonly factors: readonly { readonly name: string; readonly value: number; readonly source: string }[];
  /** Which row and column were used. */
  readonly column: string;
  readonly source: string;
}

export const ampacity = (input: AmpacityInput): Ampacity | null => (input.basis === 'us' ? usAmpacity(input) : iecAmpacity(input));

const columnOf = (temperature_C: number): 0 | 1 | 2 => (temperature_C >= 90 ? 2 : temperature_C >= 75 ? 1 : 0);
const COLUMN_C = [60, 75, 90] as const;

/**
 * Column of the insulation, times the factors, then not above the column of the terminals (NEC 110.14(C)), times the sets.
 * A metric size takes the largest US size that is not larger; below the smallest row there is none.
 */
function usAmpacity(input: AmpacityInput): Ampacity | null {
  const size = conductorSize(input.size);
  if (!size || input.insulationTemperature_C < 60) return null;
  const row = US_AMPACITY.filter((candidate) => (conductorSize(candidate.name)?.area_mm2 ?? Infinity) <= size.area_mm2 * 1.0001).at(-1);
  const column = columnOf(input.insulationTemperature_C);
  const table_A = row?.[input.metal][column] ?? null;
  const ambient = US_AMBIENT.find((band) => input.ambient_C <= band.upTo_C)?.factors[column] ?? null;
  if (!row || table_A === null || ambient === null) return null;
  const adjustment = (US_ADJUSTMENT.find((band) => input.loadedConductors <= band.upTo)?.percent ?? 35) / 100;
  let one = table_A * ambient * adjustment;
  let cap = '';
  if (input.terminalTemperature_C !== null) {
    const limit = row[input.metal][columnOf(input.terminalTemperature_C)];
    // A size that the column does not list may not be taken from a warmer one: a thinner wire would be given more than a thicker.
    if (limit === null) return null;
    if (limit < one) {
      one = limit;
      cap = `, held to the ${COLUMN_C[columnOf(input.terminalTemperature_C)]} °C column by the terminals (NEC 110.14(C))`;
    }
  }
  return {
    value_A: one * input.sets,
    table_A,
    factors: [
      { name: 'ambient', value: ambient, source: cite(TABLE_310_15_B) },
      { name: 'loaded conductors', value: adjustment, source: cite(TABLE_310_15_C) },
      { name: 'sets', value: input.sets, source: '' },
    ],
    column: `${row.name}, ${COLUMN_C[column]} °C column${cap}`,
    source: cite(TABLE_310_16),
  };
}

/**
 * A US size takes the next metric row that is not larger. The tables are for conductors at 70 °C (PVC) and 90 °C (XLPE, EPR): rubber
 * or cross-linked insulation that may not run at 90 °C takes the first, and what may not run at 70 °C has none.
 */
function iecAmpacity(input: AmpacityInput): Ampacity | null {
  const size = conductorSize(input.size);
  if (input.insulationTemperature_C < 70) return null;
  const group = input.insulationTemperature_C < 90 ? 'pvc' : input.group;
  const pick = (method: ReferenceMethod) =>
    IEC_AMPACITY.find((table) => table.metal === input.metal && table.group === group && table.method === method);
  const table = pick(input.method);
  const row = size ? table?.rows.filter(([area]) => area <= size.area_mm2 * 1.0001).at(-1) : undefined;
  if (!size || !table || !row) return null;
  // Aluminium XLPE: the tables at hand print B1 above C, the wrong way round physically; the smaller of the two is used.
  const other =
    input.metal === 'aluminium' && group === 'xlpe' && input.method === 'B1'
      ? pick('C')?.rows.find(([area]) => area === row[0])
      : undefined;
  const table_A = Math.min(row[1], other?.[1] ?? row[1]);
  const inGround = input.method === 'D1' || input.method === 'D2';
  const temperature = (inGround ? IEC_AMBIENT_GROUND : IEC_AMBIENT_AIR).find(([upTo_C]) => input.ambient_C <= upTo_C);
  const ambient = temperature?.[group === 'pvc' ? 1 : 2] ?? null;
  // More circuits than the table ends with have no factor in it.
  const direct = input.method === 'D2';
  const grouping = (direct ? IEC_GROUPING_GROUND : IEC_GROUPING).find(([circuits]) => input.groupedCircuits <= circuits)?.[1];
  if (ambient === null || grouping === undefined) return null;
  const soil = inGround ? soilFactor(input.soil_KmPerW ?? 2.5, input.method === 'D1') : 1;
  if (soil === null) return null;
  return {
    value_A: table_A * ambient * grouping * soil * input.sets,
    table_A,
    factors: [
      { name: inGround ? 'ground temperature' : 'ambient', value: ambient, source: cite(IEC_AMBIENT_SOURCE) },
      { name: 'grouping', value: grouping, source: cite(direct ? IEC_GROUPING_GROUND_SOURCE : IEC_GROUPING_SOURCE) },
      ...(inGround ? [{ name: 'soil', value: soil, source: cite(IEC_SOIL_SOURCE) }] : []),
      { name: 'sets', value: input.sets, source: '' },
    ],
    column: `${row[0]} mm², method ${input.method}`,
    source: cite(table.source),
  };
}

/** The row at or above: drier ground than the table knows has none. */
function soilFactor(resistivity_KmPerW: number, inDuct: boolean): number | null {
  const row = IEC_SOIL.find(([upTo]) => resistivity_KmPerW <= upTo);
  return row ? row[inDuct ? 1 : 2] : null;
}
