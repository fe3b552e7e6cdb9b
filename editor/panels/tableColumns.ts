import { type Cable, type ElementOf, FIELDS, type Field, fixed, formatQuantity, type LineUp, type Review } from '../../engine/index.ts';

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

/** What the review or the drawing says of a row: to be read, not typed. Empty where it is not known. */
export interface Told {
  readonly label: string;
  readonly says: (part: RowPart) => string;
}

export function toldOf(
  kind: TableKind,
  lineUp: LineUp,
  review: Review,
): { readonly first: readonly Told[]; readonly last: readonly Told[] } {
  const tags = new Map(lineUp.elements.map((each) => [each.id, each.tag]));
  const cables = new Map(review.cables.map((each) => [each.id, each]));
  const elements = new Map(review.elements.map((each) => [each.id, each]));
  const runs = new Map(review.runs.map((each) => [each.motorId, each]));
  const number = (value: number | null | undefined, digits: number, unit: string): string =>
    value === null || value === undefined ? '' : `${fixed(value, digits)} ${unit}`;
  switch (kind) {
    case 'cable': {
      const end = (side: 'from' | 'to') => (part: RowPart) => (part.kind === 'cable' ? (tags.get(part[side].element ?? '') ?? '') : '');
      return {
        first: [
          { label: 'From', says: end('from') },
          { label: 'To', says: end('to') },
        ],
        last: [
          { label: 'Drop', says: ({ id }) => number(cables.get(id)?.drop_pct, 2, '%') },
          { label: 'Current', says: ({ id }) => number(cables.get(id)?.current_A, 1, 'A') },
          { label: 'Allowed', says: ({ id }) => number(cables.get(id)?.ampacity_A, 0, 'A') },
        ],
      };
    }
    case 'motor':
      return {
        first: [],
        last: [
          { label: 'Voltage', says: ({ id }) => number(runs.get(id)?.terminalVoltage_pct, 1, '%') },
          { label: 'Peak', says: ({ id }) => number(runs.get(id)?.peak_V, 0, 'V') },
          {
            label: 'Way from the drive',
            says: ({ id }) => {
              const length_m = runs.get(id)?.leadLength_m;
              return length_m === null || length_m === undefined ? '' : formatQuantity(length_m, 'length', lineUp.project.units);
            },
          },
        ],
      };
    case 'drive':
      return { first: [], last: [{ label: 'Fault current there', says: ({ id }) => kiloamperes(elements.get(id)?.faultCurrent_A) }] };
  }
}
const kiloamperes = (value: number | null | undefined): string =>
  value === null || value === undefined ? '' : `${fixed(value / 1000, 2)} kA`;
