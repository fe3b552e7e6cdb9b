import type { Source } from './source.ts';

/** Standard ratings of overcurrent devices, A. */

export const US_RATINGS_SOURCE: Source = { standard: 'NEC', edition: '2023', place: '240.6(A), Table 240.6(A)', status: 'published' };
export const IEC_RATINGS_SOURCE: Source = { standard: 'IEC 60898-1, 60947-2', place: 'preferred ratings', status: 'from memory' };

/** 10 A became a breaker rating in 2023. */
export const US_RATINGS_A: readonly number[] = [
  10, 15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125, 150, 175, 200, 225, 250, 300, 350, 400, 450, 500, 600, 700, 800, 1000,
  1200, 1600, 2000, 2500, 3000, 4000, 5000, 6000,
];
export const IEC_RATINGS_A: readonly number[] = [
  6, 10, 13, 16, 20, 25, 32, 40, 50, 63, 80, 100, 125, 160, 200, 250, 315, 400, 500, 630, 800, 1000, 1250, 1600, 2000, 2500, 3200, 4000,
];

/** The smallest standard rating not below the current, or null above the list. */
export const nextRating_A = (current_A: number, basis: 'us' | 'iec'): number | null =>
  (basis === 'us' ? US_RATINGS_A : IEC_RATINGS_A).find((rating) => rating >= current_A) ?? null;
