import type { Source } from './source.ts';

/** Ampacities and their factors. */

export const TABLE_310_16: Source = { standard: 'NEC', edition: '2020, 2023', place: 'Table 310.16', status: 'published' };
export const TABLE_310_15_B: Source = { standard: 'NEC', edition: '2023', place: 'Table 310.15(B)(1)(1)', status: 'published' };
export const TABLE_310_15_C: Source = { standard: 'NEC', edition: '2023', place: 'Table 310.15(C)(1)', status: 'published' };

/** Not more than three loaded conductors in raceway, cable or earth, 30 °C; amperes at 60, 75, 90 °C. */
export const US_AMPACITY: readonly {
  readonly name: string;
  readonly copper: readonly [number | null, number | null, number | null];
  readonly aluminium: readonly [number | null, number | null, number | null];
}[] = [
  { name: '18 AWG', copper: [null, null, 14], aluminium: [null, null, null] },
  { name: '16 AWG', copper: [null, null, 18], aluminium: [null, null, null] },
  { name: '14 AWG', copper: [15, 20, 25], aluminium: [null, null, null] },
  { name: '12 AWG', copper: [20, 25, 30], aluminium: [15, 20, 25] },
  { name: '10 AWG', copper: [30, 35, 40], aluminium: [25, 30, 35] },
  { name: '8 AWG', copper: [40, 50, 55], aluminium: [35, 40, 45] },
  { name: '6 AWG', copper: [55, 65, 75], aluminium: [40, 50, 55] },
  { name: '4 AWG', copper: [70, 85, 95], aluminium: [55, 65, 75] },
  { name: '3 AWG', copper: [85, 100, 115], aluminium: [65, 75, 85] },
  { name: '2 AWG', copper: [95, 115, 130], aluminium: [75, 90, 100] },
  { name: '1 AWG', copper: [110, 130, 145], aluminium: [85, 100, 115] },
  { name: '1/0 AWG', copper: [125, 150, 170], aluminium: [100, 120, 135] },
  { name: '2/0 AWG', copper: [145, 175, 195], aluminium: [115, 135, 150] },
  { name: '3/0 AWG', copper: [165, 200, 225], aluminium: [130, 155, 175] },
  { name: '4/0 AWG', copper: [195, 230, 260], aluminium: [150, 180, 205] },
  { name: '250 kcmil', copper: [215, 255, 290], aluminium: [170, 205, 230] },
  { name: '300 kcmil', copper: [240, 285, 320], aluminium: [195, 230, 260] },
  { name: '350 kcmil', copper: [260, 310, 350], aluminium: [210, 250, 280] },
  { name: '400 kcmil', copper: [280, 335, 380], aluminium: [225, 270, 305] },
  { name: '500 kcmil', copper: [320, 380, 430], aluminium: [260, 310, 350] },
  { name: '600 kcmil', copper: [350, 420, 475], aluminium: [285, 340, 385] },
  { name: '700 kcmil', copper: [385, 460, 520], aluminium: [315, 375, 425] },
  { name: '750 kcmil', copper: [400, 475, 535], aluminium: [320, 385, 435] },
  { name: '800 kcmil', copper: [410, 490, 555], aluminium: [330, 395, 445] },
  { name: '900 kcmil', copper: [435, 520, 585], aluminium: [355, 425, 480] },
  { name: '1000 kcmil', copper: [455, 545, 615], aluminium: [375, 445, 500] },
];

/** Factors by ambient on a 30 °C base: the first row whose upper end is not exceeded. Columns 60, 75, 90 °C. */
export const US_AMBIENT: readonly { readonly upTo_C: number; readonly factors: readonly [number | null, number | null, number | null] }[] =
  [
    { upTo_C: 10, factors: [1.29, 1.2, 1.15] },
    { upTo_C: 15, factors: [1.22, 1.15, 1.12] },
    { upTo_C: 20, factors: [1.15, 1.11, 1.08] },
    { upTo_C: 25, factors: [1.08, 1.05, 1.04] },
    { upTo_C: 30, factors: [1, 1, 1] },
    { upTo_C: 35, factors: [0.91, 0.94, 0.96] },
    { upTo_C: 40, factors: [0.82, 0.88, 0.91] },
    { upTo_C: 45, factors: [0.71, 0.82, 0.87] },
    { upTo_C: 50, factors: [0.58, 0.75, 0.82] },
    { upTo_C: 55, factors: [0.41, 0.67, 0.76] },
    { upTo_C: 60, factors: [null, 0.58, 0.71] },
    { upTo_C: 65, factors: [null, 0.47, 0.65] },
    { upTo_C: 70, factors: [null, 0.33, 0.58] },
    { upTo_C: 75, factors: [null, null, 0.5] },
    { upTo_C: 80, factors: [null, null, 0.41] },
    { upTo_C: 85, factors: [null, null, 0.29] },
  ];

/** Per cent by number of loaded conductors. */
export const US_ADJUSTMENT: readonly { readonly upTo: number; readonly percent: number }[] = [
  { upTo: 3, percent: 100 },
  { upTo: 6, percent: 80 },
  { upTo: 9, percent: 70 },
  { upTo: 20, percent: 50 },
  { upTo: 30, percent: 45 },
  { upTo: 40, percent: 40 },
  { upTo: Number.POSITIVE_INFINITY, percent: 35 },
];
