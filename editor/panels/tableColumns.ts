import { type Cable, type ElementOf, FIELDS, type Field, type LineUp } from '../../engine/index.ts';

/** What stands in the table: three kinds of rows, and of each the values that decide most. All others are in the inspector. */

export const TABLES = { cable: 'Cables', motor: 'Motors', drive: 'Drives' } as const;
export type TableKind = keyof typeof TABLES;
export type RowPart = Cable | ElementOf<'motor'> | ElementOf<'drive'>;

const PATHS: Readonly<Record<TableKind, readonly string[]>> = {
  cable: [
    'length_m',
    'conductor.size',
    'conductor.metal',
    'conductor.sets',
    'construction',
    'insulation.type',
    'from.landing',
    'to.landing',
    'installation.raceway',
    'installation.moisture',
  ],
  motor: [
    'ratedPower_W',
    'ratedVoltage_V',
    'ratedCurrent_A',
    'ratedFrequency_Hz',
    'powerFactor',
    'efficiency_pct',
    'insulation',
    'peakLimit_V',
  ],
  drive: ['ratedPower_W', 'ratedVoltage_V', 'inputCurrent_A', 'outputCurrent_A', 'carrier_Hz', 'riseTime_s', 'frontEnd', 'faultRating_A'],
};

export const columnsOf = (kind: TableKind): readonly Field[] =>
  PATHS[kind].flatMap((path) => FIELDS[kind].filter((field) => field.path === path));

export const rowsOf = (lineUp: LineUp, kind: TableKind): readonly RowPart[] =>
  [...lineUp.cables, ...lineUp.elements].filter((part): part is RowPart => part.kind === kind);
