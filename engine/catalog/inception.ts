import type { Source } from './source.ts';

/** What the onset of discharges on a wire hangs on beside its dimensions. */

export const INCEPTION_SOURCE: Source = {
  standard: 'one drive maker’s published wiring guide; material tables',
  edition: '2014',
  place: 'damp PVC below half of dry; permittivities',
  status: 'common practice',
};

export const INCEPTION = {
  /**
   * Permittivity dry, at the cautious end; what is left of the onset when damp or wet, PVC from the guide (0.4 to 0.6), others from memory
   * (0.8 to 1); and how far the onset may then be off: only PVC's is known worse than dry.
   */
  materials: {
    pvc: { permittivity: 4.5, moist: 0.5, moistSpread: 0.5 },
    xlpe: { permittivity: 3.2, moist: 0.9, moistSpread: 0.3 },
    epr: { permittivity: 3.5, moist: 0.9, moistSpread: 0.3 },
    hepr: { permittivity: 3.5, moist: 0.9, moistSpread: 0.3 },
  },
  drySpread: 0.3,
  /** Least wall a specification allows, of nominal (ICEA S-95-658, UL 758). */
  thinnest: 0.9,
  /** Common practice. */
  ageing: 0.85,
  /** Air at a wire that carries its load. */
  temperature_C: 75,
  /** Peak to ground, of the peak between phases: IEC 60034-18-41, from extracts. */
  toEarth: 0.7,
} as const;
