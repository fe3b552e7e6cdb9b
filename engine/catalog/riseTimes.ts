import type { Source } from './source.ts';

/** 10 to 90 % rise times of the switches in use, seconds. */
export const RISE_TIMES: Source = {
  standard: 'L. Saunders and others, IEEE PCIC 1996; a paper on silicon-carbide inverters',
  place: 'switching times by device',
  status: 'from memory',
};
/** Silicon carbide: the worst case for a drive of which nothing is known. */
export const FASTEST_RISE_S = 0.01e-6;
/** Later insulated-gate transistors. */
export const USUAL_RISE_S = 0.1e-6;
/** The slow end of those. */
export const SLOW_RISE_S = 0.2e-6;
