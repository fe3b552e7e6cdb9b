import type { Source } from './source.ts';

/** A.c. resistance and reactance, three single conductors in conduit, 60 Hz, 75 °C, ohm to neutral per 1000 ft. */

export const TABLE_9: Source = { standard: 'NEC', edition: '2017', place: 'Chapter 9 Table 9', status: 'published' };

export interface AcImpedanceRow {
  readonly name: string;
  readonly reactance: { readonly nonmetallic: number; readonly aluminium: number; readonly steel: number };
  readonly copper: { readonly nonmetallic: number; readonly aluminium: number; readonly steel: number };
  readonly aluminium: { readonly nonmetallic: number; readonly aluminium: number; readonly steel: number } | null;
}

export const AC_IMPEDANCE: readonly AcImpedanceRow[] = [
  {
    name: '14 AWG',
    reactance: { nonmetallic: 0.058, aluminium: 0.058, steel: 0.073 },
    copper: { nonmetallic: 3.1, aluminium: 3.1, steel: 3.1 },
    aluminium: null,
  },
  {
    name: '12 AWG',
    reactance: { nonmetallic: 0.054, aluminium: 0.054, steel: 0.068 },
    copper: { nonmetallic: 2, aluminium: 2, steel: 2 },
    aluminium: { nonmetallic: 3.2, aluminium: 3.2, steel: 3.2 },
  },
  {
    name: '10 AWG',
    reactance: { nonmetallic: 0.05, aluminium: 0.05, steel: 0.063 },
    copper: { nonmetallic: 1.2, aluminium: 1.2, steel: 1.2 },
    aluminium: { nonmetallic: 2, aluminium: 2, steel: 2 },
  },
  {
    name: '8 AWG',
    reactance: { nonmetallic: 0.052, aluminium: 0.052, steel: 0.065 },
    copper: { nonmetallic: 0.78, aluminium: 0.78, steel: 0.78 },
    aluminium: { nonmetallic: 1.3, aluminium: 1.3, steel: 1.3 },
  },
  {
    name: '6 AWG',
    reactance: { nonmetallic: 0.051, aluminium: 0.051, steel: 0.064 },
    copper: { nonmetallic: 0.49, aluminium: 0.49, steel: 0.49 },
    aluminium: { nonmetallic: 0.81, aluminium: 0.81, steel: 0.81 },
  },
  {
    name: '4 AWG',
    reactance: { nonmetallic: 0.048, aluminium: 0.048, steel: 0.06 },
    copper: { nonmetallic: 0.31, aluminium: 0.31, steel: 0.31 },
    aluminium: { nonmetallic: 0.51, aluminium: 0.51, steel: 0.51 },
  },
  {
    name: '3 AWG',
    reactance: { nonmetallic: 0.047, aluminium: 0.047, steel: 0.059 },
    copper: { nonmetallic: 0.25, aluminium: 0.25, steel: 0.25 },
    aluminium: { nonmetallic: 0.4, aluminium: 0.41, steel: 0.4 },
  },
  {
    name: '2 AWG',
    reactance: { nonmetallic: 0.045, aluminium: 0.045, steel: 0.057 },
    copper: { nonmetallic: 0.19, aluminium: 0.2, steel: 0.2 },
    aluminium: { nonmetallic: 0.32, aluminium: 0.32, steel: 0.32 },
  },
  {
    name: '1 AWG',
    reactance: { nonmetallic: 0.046, aluminium: 0.046, steel: 0.057 },
    copper: { nonmetallic: 0.15, aluminium: 0.16, steel: 0.16 },
    aluminium: { nonmetallic: 0.25, aluminium: 0.26, steel: 0.25 },
  },
  {
    name: '1/0 AWG',
    reactance: { nonmetallic: 0.044, aluminium: 0.044, steel: 0.055 },
    copper: { nonmetallic: 0.12, aluminium: 0.13, steel: 0.12 },
    aluminium: { nonmetallic: 0.2, aluminium: 0.21, steel: 0.2 },
  },
  {
    name: '2/0 AWG',
    reactance: { nonmetallic: 0.043, aluminium: 0.043, steel: 0.054 },
    copper: { nonmetallic: 0.1, aluminium: 0.1, steel: 0.1 },
    aluminium: { nonmetallic: 0.16, aluminium: 0.16, steel: 0.16 },
  },
  {
    name: '3/0 AWG',
    reactance: { nonmetallic: 0.042, aluminium: 0.042, steel: 0.052 },
    copper: { nonmetallic: 0.077, aluminium: 0.082, steel: 0.079 },
    aluminium: { nonmetallic: 0.13, aluminium: 0.13, steel: 0.13 },
  },
  {
    name: '4/0 AWG',
    reactance: { nonmetallic: 0.041, aluminium: 0.041, steel: 0.051 },
    copper: { nonmetallic: 0.062, aluminium: 0.067, steel: 0.063 },
    aluminium: { nonmetallic: 0.1, aluminium: 0.11, steel: 0.1 },
  },
  {
    name: '250 kcmil',
    reactance: { nonmetallic: 0.041, aluminium: 0.041, steel: 0.052 },
    copper: { nonmetallic: 0.052, aluminium: 0.057, steel: 0.054 },
    aluminium: { nonmetallic: 0.085, aluminium: 0.09, steel: 0.086 },
  },
  {
    name: '300 kcmil',
    reactance: { nonmetallic: 0.041, aluminium: 0.041, steel: 0.051 },
    copper: { nonmetallic: 0.044, aluminium: 0.049, steel: 0.045 },
    aluminium: { nonmetallic: 0.071, aluminium: 0.076, steel: 0.072 },
  },
  {
    name: '350 kcmil',
    reactance: { nonmetallic: 0.04, aluminium: 0.04, steel: 0.05 },
    copper: { nonmetallic: 0.038, aluminium: 0.043, steel: 0.039 },
    aluminium: { nonmetallic: 0.061, aluminium: 0.066, steel: 0.063 },
  },
  {
    name: '400 kcmil',
    reactance: { nonmetallic: 0.04, aluminium: 0.04, steel: 0.049 },
    copper: { nonmetallic: 0.033, aluminium: 0.038, steel: 0.035 },
    aluminium: { nonmetallic: 0.054, aluminium: 0.059, steel: 0.055 },
  },
  {
    name: '500 kcmil',
    reactance: { nonmetallic: 0.039, aluminium: 0.039, steel: 0.048 },
    copper: { nonmetallic: 0.027, aluminium: 0.032, steel: 0.029 },
    aluminium: { nonmetallic: 0.043, aluminium: 0.048, steel: 0.045 },
  },
  {
    name: '600 kcmil',
    reactance: { nonmetallic: 0.039, aluminium: 0.039, steel: 0.048 },
    copper: { nonmetallic: 0.023, aluminium: 0.028, steel: 0.025 },
    aluminium: { nonmetallic: 0.036, aluminium: 0.041, steel: 0.038 },
  },
  {
    name: '750 kcmil',
    reactance: { nonmetallic: 0.038, aluminium: 0.038, steel: 0.048 },
    copper: { nonmetallic: 0.019, aluminium: 0.024, steel: 0.021 },
    aluminium: { nonmetallic: 0.029, aluminium: 0.034, steel: 0.031 },
  },
  {
    name: '1000 kcmil',
    reactance: { nonmetallic: 0.037, aluminium: 0.037, steel: 0.046 },
    copper: { nonmetallic: 0.015, aluminium: 0.019, steel: 0.018 },
    aluminium: { nonmetallic: 0.023, aluminium: 0.027, steel: 0.025 },
  },
];
