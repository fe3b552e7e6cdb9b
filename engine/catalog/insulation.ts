import { conductorSize } from './conductors.ts';
import type { Source } from './source.ts';

/** Insulation types: what they are made of, what they stand, and how thick they are. */

export interface InsulationFacts {
  readonly polymer: 'pvc' | 'xlpe' | 'epr' | 'hepr';
  readonly nylon: boolean;
  readonly temperatureDry_C: number;
  /** Null where the type may not be used wet. */
  readonly temperatureWet_C: number | null;
  readonly voltage_V: number;
  readonly source: Source;
}

export const INSULATION_TYPES_US: Source = { standard: 'NEC', edition: '2023', place: 'Table 310.4(1)', status: 'published' };
export const INSULATION_TYPES_IEC: Source = { standard: 'IEC 60502-1', edition: '2021', place: 'Tables 2 and 3', status: 'from memory' };

/** RHH, RHW and RHW-2 may be XLPE or EPR; both behave alike here. The polymers of the NEC types are from memory: the table says thermoset or thermoplastic. */
const FACTS: Readonly<Record<string, InsulationFacts>> = {
  THHN: { polymer: 'pvc', nylon: true, temperatureDry_C: 90, temperatureWet_C: null, voltage_V: 600, source: INSULATION_TYPES_US },
  THWN: { polymer: 'pvc', nylon: true, temperatureDry_C: 75, temperatureWet_C: 75, voltage_V: 600, source: INSULATION_TYPES_US },
  'THWN-2': { polymer: 'pvc', nylon: true, temperatureDry_C: 90, temperatureWet_C: 90, voltage_V: 600, source: INSULATION_TYPES_US },
  TW: { polymer: 'pvc', nylon: false, temperatureDry_C: 60, temperatureWet_C: 60, voltage_V: 600, source: INSULATION_TYPES_US },
  THW: { polymer: 'pvc', nylon: false, temperatureDry_C: 75, temperatureWet_C: 75, voltage_V: 600, source: INSULATION_TYPES_US },
  'THW-2': { polymer: 'pvc', nylon: false, temperatureDry_C: 90, temperatureWet_C: 90, voltage_V: 600, source: INSULATION_TYPES_US },
  XHHW: { polymer: 'xlpe', nylon: false, temperatureDry_C: 90, temperatureWet_C: 75, voltage_V: 600, source: INSULATION_TYPES_US },
  'XHHW-2': { polymer: 'xlpe', nylon: false, temperatureDry_C: 90, temperatureWet_C: 90, voltage_V: 600, source: INSULATION_TYPES_US },
  RHH: { polymer: 'xlpe', nylon: false, temperatureDry_C: 90, temperatureWet_C: null, voltage_V: 600, source: INSULATION_TYPES_US },
  RHW: { polymer: 'xlpe', nylon: false, temperatureDry_C: 75, temperatureWet_C: 75, voltage_V: 600, source: INSULATION_TYPES_US },
  'RHW-2': { polymer: 'xlpe', nylon: false, temperatureDry_C: 90, temperatureWet_C: 90, voltage_V: 600, source: INSULATION_TYPES_US },
  MTW: { polymer: 'pvc', nylon: false, temperatureDry_C: 90, temperatureWet_C: 60, voltage_V: 600, source: INSULATION_TYPES_US },
  PVC: { polymer: 'pvc', nylon: false, temperatureDry_C: 70, temperatureWet_C: 70, voltage_V: 1000, source: INSULATION_TYPES_IEC },
  XLPE: { polymer: 'xlpe', nylon: false, temperatureDry_C: 90, temperatureWet_C: 90, voltage_V: 1000, source: INSULATION_TYPES_IEC },
  EPR: { polymer: 'epr', nylon: false, temperatureDry_C: 90, temperatureWet_C: 90, voltage_V: 1000, source: INSULATION_TYPES_IEC },
  HEPR: { polymer: 'hepr', nylon: false, temperatureDry_C: 90, temperatureWet_C: 90, voltage_V: 1000, source: INSULATION_TYPES_IEC },
};

/** The facts of a type by its letters, or null for one that is not listed. */
export const insulationFacts = (type: string | undefined): InsulationFacts | null => (type === undefined ? null : (FACTS[type] ?? null));

/** Average wall, 600 V types: [up to mm2, mil]. The first row that holds the size. Type THW-2 as THW, MTW without jacket (column A). */
const WALLS_MIL: Readonly<Record<string, readonly (readonly [number, number])[]>> = {
  THHN: [
    [3.32, 15],
    [5.27, 20],
    [13.31, 30],
    [33.66, 40],
    [107.29, 50],
    [253.52, 60],
    [507.02, 70],
  ],
  THWN: [
    [3.32, 15],
    [5.27, 20],
    [13.31, 30],
    [33.66, 40],
    [107.29, 50],
    [253.52, 60],
    [507.02, 70],
  ],
  'THWN-2': [
    [3.32, 15],
    [5.27, 20],
    [13.31, 30],
    [33.66, 40],
    [107.29, 50],
    [253.52, 60],
    [507.02, 70],
  ],
  TW: [
    [5.27, 30],
    [8.38, 45],
    [33.66, 60],
    [107.29, 80],
    [253.52, 95],
    [507.02, 110],
  ],
  THW: [
    [5.27, 30],
    [8.38, 45],
    [33.66, 60],
    [107.29, 80],
    [253.52, 95],
    [507.02, 110],
  ],
  'THW-2': [
    [5.27, 30],
    [8.38, 45],
    [33.66, 60],
    [107.29, 80],
    [253.52, 95],
    [507.02, 110],
  ],
  XHHW: [
    [5.27, 30],
    [33.66, 45],
    [107.29, 55],
    [253.52, 65],
    [507.02, 80],
  ],
  'XHHW-2': [
    [5.27, 30],
    [33.66, 45],
    [107.29, 55],
    [253.52, 65],
    [507.02, 80],
  ],
  RHH: [
    [5.27, 45],
    [33.66, 60],
    [107.29, 80],
    [253.52, 95],
    [507.02, 110],
  ],
  RHW: [
    [5.27, 45],
    [33.66, 60],
    [107.29, 80],
    [253.52, 95],
    [507.02, 110],
  ],
  'RHW-2': [
    [5.27, 45],
    [33.66, 60],
    [107.29, 80],
    [253.52, 95],
    [507.02, 110],
  ],
  MTW: [
    [5.27, 30],
    [8.38, 45],
    [33.66, 60],
    [107.29, 80],
    [253.52, 95],
    [507.02, 110],
  ],
};

/** Nominal wall by size, 0.6/1 kV: [mm2, PVC, XLPE, EPR, HEPR], mm. */
const WALLS_MM: readonly (readonly [number, number, number, number, number])[] = [
  [1.5, 0.8, 0.7, 1, 0.7],
  [2.5, 0.8, 0.7, 1, 0.7],
  [4, 1, 0.7, 1, 0.7],
  [6, 1, 0.7, 1, 0.7],
  [10, 1, 0.7, 1, 0.7],
  [16, 1, 0.7, 1, 0.7],
  [25, 1.2, 0.9, 1.2, 0.9],
  [35, 1.2, 0.9, 1.2, 0.9],
  [50, 1.4, 1, 1.4, 1],
  [70, 1.4, 1.1, 1.4, 1.1],
  [95, 1.6, 1.1, 1.6, 1.1],
  [120, 1.6, 1.2, 1.6, 1.2],
  [150, 1.8, 1.4, 1.8, 1.4],
  [185, 2, 1.6, 2, 1.6],
  [240, 2.2, 1.7, 2.2, 1.7],
  [300, 2.4, 1.8, 2.4, 1.8],
  [400, 2.6, 2, 2.6, 2],
  [500, 2.8, 2.2, 2.8, 2.2],
  [630, 2.8, 2.4, 2.8, 2.4],
];

export const MM_PER_MIL = 0.0254;

/** Nylon over the wall of THHN, THWN and THWN-2: [up to mm2, mil]. UL 83; 4 to 8 mil read in a data sheet, 9 mil from memory. */
const NYLON_MIL: readonly (readonly [number, number])[] = [
  [5.27, 4],
  [13.31, 5],
  [33.66, 6],
  [107.29, 7],
  [253.52, 8],
];
const NYLON_ABOVE_MIL = 9;

/** Thickness of the nylon of that type and size; 0 for a type without. */
export function nylon_mm(type: string | undefined, area_mm2: number): number {
  if (insulationFacts(type)?.nylon !== true) return 0;
  return (NYLON_MIL.find(([upTo]) => area_mm2 <= upTo)?.[1] ?? NYLON_ABOVE_MIL) * MM_PER_MIL;
}
export const WALL_SOURCES = {
  us: { standard: 'NEC', edition: '2020', place: 'Tables 310.4(1), 310.4(2)', status: 'published' },
  iec: { standard: 'IEC 60502-1', edition: '2021', place: 'Tables 5 to 7', status: 'from memory' },
} as const satisfies Record<string, Source>;

/** Nominal wall of one conductor of that type and size, or null where the table has none. */
export function wallThickness_mm(
  type: string | undefined,
  sizeName: string | undefined,
): { readonly wall_mm: number; readonly source: Source } | null {
  const size = sizeName === undefined ? null : conductorSize(sizeName);
  if (!size || type === undefined) return null;
  const mils = WALLS_MIL[type]?.find(([upTo_mm2]) => size.area_mm2 <= upTo_mm2);
  if (mils) return { wall_mm: mils[1] * MM_PER_MIL, source: WALL_SOURCES.us };
  const column = ['PVC', 'XLPE', 'EPR', 'HEPR'].indexOf(type);
  const row = column < 0 ? undefined : WALLS_MM.find(([upTo_mm2]) => size.area_mm2 <= upTo_mm2);
  return row ? { wall_mm: row[column + 1] ?? 0, source: WALL_SOURCES.iec } : null;
}
