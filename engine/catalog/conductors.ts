import type { Source } from './source.ts';

/** Conductor sizes, areas and resistances. Sizes ascend. */

export interface ConductorSize {
  readonly name: string;
  readonly system: 'us' | 'iec';
  readonly area_mm2: number;
}

export const TABLE_8: Source = {
  standard: 'NEC',
  edition: '2017, 2023',
  place: 'Chapter 9 Table 8',
  status: 'published',
};

/** Stranded, uncoated; solid only where the table has no stranded row. D.c. resistance at 75 °C, ohm per 1000 ft. */
export interface UsConductor {
  readonly name: string;
  readonly area_mm2: number;
  readonly diameter_mm: number;
  readonly copper_ohmPerKft: number;
  readonly aluminium_ohmPerKft: number;
}

export const US_CONDUCTORS: readonly UsConductor[] = [
  { name: '18 AWG', area_mm2: 0.823, diameter_mm: 1.16, copper_ohmPerKft: 7.95, aluminium_ohmPerKft: 13.1 },
  { name: '16 AWG', area_mm2: 1.31, diameter_mm: 1.46, copper_ohmPerKft: 4.99, aluminium_ohmPerKft: 8.21 },
  { name: '14 AWG', area_mm2: 2.08, diameter_mm: 1.85, copper_ohmPerKft: 3.14, aluminium_ohmPerKft: 5.17 },
  { name: '12 AWG', area_mm2: 3.31, diameter_mm: 2.32, copper_ohmPerKft: 1.98, aluminium_ohmPerKft: 3.25 },
  { name: '10 AWG', area_mm2: 5.261, diameter_mm: 2.95, copper_ohmPerKft: 1.24, aluminium_ohmPerKft: 2.04 },
  { name: '8 AWG', area_mm2: 8.367, diameter_mm: 3.71, copper_ohmPerKft: 0.778, aluminium_ohmPerKft: 1.28 },
  { name: '6 AWG', area_mm2: 13.3, diameter_mm: 4.67, copper_ohmPerKft: 0.491, aluminium_ohmPerKft: 0.808 },
  { name: '4 AWG', area_mm2: 21.15, diameter_mm: 5.89, copper_ohmPerKft: 0.308, aluminium_ohmPerKft: 0.508 },
  { name: '3 AWG', area_mm2: 26.67, diameter_mm: 6.6, copper_ohmPerKft: 0.245, aluminium_ohmPerKft: 0.403 },
  { name: '2 AWG', area_mm2: 33.62, diameter_mm: 7.42, copper_ohmPerKft: 0.194, aluminium_ohmPerKft: 0.319 },
  { name: '1 AWG', area_mm2: 42.41, diameter_mm: 8.43, copper_ohmPerKft: 0.154, aluminium_ohmPerKft: 0.253 },
  { name: '1/0 AWG', area_mm2: 53.49, diameter_mm: 9.45, copper_ohmPerKft: 0.122, aluminium_ohmPerKft: 0.201 },
  { name: '2/0 AWG', area_mm2: 67.43, diameter_mm: 10.62, copper_ohmPerKft: 0.0967, aluminium_ohmPerKft: 0.159 },
  { name: '3/0 AWG', area_mm2: 85.01, diameter_mm: 11.94, copper_ohmPerKft: 0.0766, aluminium_ohmPerKft: 0.126 },
  { name: '4/0 AWG', area_mm2: 107.2, diameter_mm: 13.41, copper_ohmPerKft: 0.0608, aluminium_ohmPerKft: 0.1 },
  { name: '250 kcmil', area_mm2: 127, diameter_mm: 14.61, copper_ohmPerKft: 0.0515, aluminium_ohmPerKft: 0.0847 },
  { name: '300 kcmil', area_mm2: 152, diameter_mm: 16, copper_ohmPerKft: 0.0429, aluminium_ohmPerKft: 0.0707 },
  { name: '350 kcmil', area_mm2: 177, diameter_mm: 17.3, copper_ohmPerKft: 0.0367, aluminium_ohmPerKft: 0.0605 },
  { name: '400 kcmil', area_mm2: 203, diameter_mm: 18.49, copper_ohmPerKft: 0.0321, aluminium_ohmPerKft: 0.0529 },
  { name: '500 kcmil', area_mm2: 253, diameter_mm: 20.65, copper_ohmPerKft: 0.0258, aluminium_ohmPerKft: 0.0424 },
  { name: '600 kcmil', area_mm2: 304, diameter_mm: 22.68, copper_ohmPerKft: 0.0214, aluminium_ohmPerKft: 0.0353 },
  { name: '700 kcmil', area_mm2: 355, diameter_mm: 24.49, copper_ohmPerKft: 0.0184, aluminium_ohmPerKft: 0.0303 },
  { name: '750 kcmil', area_mm2: 380, diameter_mm: 25.35, copper_ohmPerKft: 0.0171, aluminium_ohmPerKft: 0.0282 },
  { name: '800 kcmil', area_mm2: 405, diameter_mm: 26.16, copper_ohmPerKft: 0.0161, aluminium_ohmPerKft: 0.0265 },
  { name: '900 kcmil', area_mm2: 456, diameter_mm: 27.79, copper_ohmPerKft: 0.0143, aluminium_ohmPerKft: 0.0235 },
  { name: '1000 kcmil', area_mm2: 507, diameter_mm: 29.26, copper_ohmPerKft: 0.0129, aluminium_ohmPerKft: 0.0212 },
];

export const IEC_60228: Source = { standard: 'IEC 60228', edition: '2004', place: 'Tables 1 to 3', status: 'published' };

/** Largest d.c. resistance at 20 °C, ohm per kilometre; typical compacted diameter (to 95 mm2 from makers' data, above from memory). */
export interface IecConductor {
  readonly name: string;
  readonly area_mm2: number;
  readonly diameter_mm: number | null;
  readonly copperClass2_ohmPerKm: number | null;
  readonly copperClass5_ohmPerKm: number | null;
  readonly aluminium_ohmPerKm: number | null;
}

export const IEC_CONDUCTORS: readonly IecConductor[] = [
  { name: '0.5 mm2', area_mm2: 0.5, diameter_mm: null, copperClass2_ohmPerKm: 36, copperClass5_ohmPerKm: 39, aluminium_ohmPerKm: null },
  { name: '0.75 mm2', area_mm2: 0.75, diameter_mm: null, copperClass2_ohmPerKm: 24.5, copperClass5_ohmPerKm: 26, aluminium_ohmPerKm: null },
  { name: '1 mm2', area_mm2: 1, diameter_mm: null, copperClass2_ohmPerKm: 18.1, copperClass5_ohmPerKm: 19.5, aluminium_ohmPerKm: null },
  { name: '1.5 mm2', area_mm2: 1.5, diameter_mm: 1.56, copperClass2_ohmPerKm: 12.1, copperClass5_ohmPerKm: 13.3, aluminium_ohmPerKm: null },
  { name: '2.5 mm2', area_mm2: 2.5, diameter_mm: 2.01, copperClass2_ohmPerKm: 7.41, copperClass5_ohmPerKm: 7.98, aluminium_ohmPerKm: null },
  { name: '4 mm2', area_mm2: 4, diameter_mm: 2.55, copperClass2_ohmPerKm: 4.61, copperClass5_ohmPerKm: 4.95, aluminium_ohmPerKm: null },
  { name: '6 mm2', area_mm2: 6, diameter_mm: 3.12, copperClass2_ohmPerKm: 3.08, copperClass5_ohmPerKm: 3.3, aluminium_ohmPerKm: null },
  { name: '10 mm2', area_mm2: 10, diameter_mm: 4.05, copperClass2_ohmPerKm: 1.83, copperClass5_ohmPerKm: 1.91, aluminium_ohmPerKm: 3.08 },
  { name: '16 mm2', area_mm2: 16, diameter_mm: 4.65, copperClass2_ohmPerKm: 1.15, copperClass5_ohmPerKm: 1.21, aluminium_ohmPerKm: 1.91 },
  { name: '25 mm2', area_mm2: 25, diameter_mm: 5.9, copperClass2_ohmPerKm: 0.727, copperClass5_ohmPerKm: 0.78, aluminium_ohmPerKm: 1.2 },
  { name: '35 mm2', area_mm2: 35, diameter_mm: 6.9, copperClass2_ohmPerKm: 0.524, copperClass5_ohmPerKm: 0.554, aluminium_ohmPerKm: 0.868 },
  { name: '50 mm2', area_mm2: 50, diameter_mm: 8, copperClass2_ohmPerKm: 0.387, copperClass5_ohmPerKm: 0.386, aluminium_ohmPerKm: 0.641 },
  { name: '70 mm2', area_mm2: 70, diameter_mm: 9.8, copperClass2_ohmPerKm: 0.268, copperClass5_ohmPerKm: 0.272, aluminium_ohmPerKm: 0.443 },
  { name: '95 mm2', area_mm2: 95, diameter_mm: 11.4, copperClass2_ohmPerKm: 0.193, copperClass5_ohmPerKm: 0.206, aluminium_ohmPerKm: 0.32 },
  {
    name: '120 mm2',
    area_mm2: 120,
    diameter_mm: 12.8,
    copperClass2_ohmPerKm: 0.153,
    copperClass5_ohmPerKm: 0.161,
    aluminium_ohmPerKm: 0.253,
  },
  {
    name: '150 mm2',
    area_mm2: 150,
    diameter_mm: 14.2,
    copperClass2_ohmPerKm: 0.124,
    copperClass5_ohmPerKm: 0.129,
    aluminium_ohmPerKm: 0.206,
  },
  {
    name: '185 mm2',
    area_mm2: 185,
    diameter_mm: 15.9,
    copperClass2_ohmPerKm: 0.0991,
    copperClass5_ohmPerKm: 0.106,
    aluminium_ohmPerKm: 0.164,
  },
  {
    name: '240 mm2',
    area_mm2: 240,
    diameter_mm: 18.3,
    copperClass2_ohmPerKm: 0.0754,
    copperClass5_ohmPerKm: 0.0801,
    aluminium_ohmPerKm: 0.125,
  },
  {
    name: '300 mm2',
    area_mm2: 300,
    diameter_mm: 20.5,
    copperClass2_ohmPerKm: 0.0601,
    copperClass5_ohmPerKm: 0.0641,
    aluminium_ohmPerKm: 0.1,
  },
  {
    name: '400 mm2',
    area_mm2: 400,
    diameter_mm: 23.1,
    copperClass2_ohmPerKm: 0.047,
    copperClass5_ohmPerKm: 0.0486,
    aluminium_ohmPerKm: 0.0778,
  },
  {
    name: '500 mm2',
    area_mm2: 500,
    diameter_mm: 26.4,
    copperClass2_ohmPerKm: 0.0366,
    copperClass5_ohmPerKm: 0.0384,
    aluminium_ohmPerKm: 0.0605,
  },
  {
    name: '630 mm2',
    area_mm2: 630,
    diameter_mm: 30.2,
    copperClass2_ohmPerKm: 0.0283,
    copperClass5_ohmPerKm: 0.0287,
    aluminium_ohmPerKm: 0.0469,
  },
];

export const US_SIZES: readonly ConductorSize[] = US_CONDUCTORS.map(({ name, area_mm2 }) => ({ name, system: 'us', area_mm2 }));
export const IEC_SIZES: readonly ConductorSize[] = IEC_CONDUCTORS.map(({ name, area_mm2 }) => ({ name, system: 'iec', area_mm2 }));
const BY_NAME = new Map([...US_SIZES, ...IEC_SIZES].map((size) => [size.name, size] as const));

/** Diameter over the strands, or null where no table has it. */
export const conductorDiameter_mm = (name: string): number | null =>
  (US_CONDUCTORS.find((each) => each.name === name) ?? IEC_CONDUCTORS.find((each) => each.name === name))?.diameter_mm ?? null;

/** The size of that trade name, or null for one that no table has. */
export const conductorSize = (name: string): ConductorSize | null => BY_NAME.get(name) ?? null;

export const DENSITY: Source = { standard: 'IEC 60028, IEC 60111', place: 'density at 20 °C', status: 'from memory' };

/** Annealed copper, hard-drawn aluminium. */
export const DENSITY_kgPerM3 = { copper: 8890, aluminium: 2703 } as const;
