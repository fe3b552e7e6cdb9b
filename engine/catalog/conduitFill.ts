import type { Source } from './source.ts';

/** How full a raceway may be, and what it holds. Areas in mm², converted exactly from the square inches of the table. */

export const FILL_TABLE_1: Source = { standard: 'NEC', edition: '2023', place: 'Chapter 9 Table 1', status: 'published' };
export const FILL_TABLE_4: Source = { standard: 'NEC', edition: '2023', place: 'Chapter 9 Table 4', status: 'from memory' };

/** Table 1: most of the internal area, by the number of conductors or cables. */
export const fillLimit_pct = (conductors: number): number => (conductors <= 1 ? 53 : conductors === 2 ? 31 : 40);

export type Conduit = 'EMT' | 'IMC' | 'RMC' | 'PVC40' | 'PVC80' | 'FMC';
export const TRADE_SIZES = ['1/2', '3/4', '1', '1 1/4', '1 1/2', '2', '2 1/2', '3', '3 1/2', '4', '5', '6'] as const;

/** Internal diameter, inches, and total area, square inches, in the order of the trade sizes. */
export const CONDUITS: Readonly<Record<Conduit, readonly (readonly [number, number])[]>> = {
  EMT: [
    [0.622, 0.304],
    [0.824, 0.533],
    [1.049, 0.864],
    [1.38, 1.496],
    [1.61, 2.036],
    [2.067, 3.356],
    [2.731, 5.858],
    [3.356, 8.846],
    [3.834, 11.545],
    [4.334, 14.753],
  ],
  IMC: [
    [0.66, 0.342],
    [0.864, 0.586],
    [1.105, 0.959],
    [1.448, 1.647],
    [1.683, 2.225],
    [2.15, 3.63],
    [2.557, 5.135],
    [3.176, 7.922],
    [3.671, 10.584],
    [4.166, 13.631],
  ],
  RMC: [
    [0.632, 0.314],
    [0.836, 0.549],
    [1.063, 0.887],
    [1.394, 1.526],
    [1.624, 2.071],
    [2.083, 3.408],
    [2.489, 4.866],
    [3.09, 7.499],
    [3.57, 10.01],
    [4.05, 12.882],
    [5.073, 20.212],
    [6.093, 29.158],
  ],
  PVC40: [
    [0.602, 0.285],
    [0.804, 0.508],
    [1.029, 0.832],
    [1.36, 1.453],
    [1.59, 1.986],
    [2.047, 3.291],
    [2.445, 4.695],
    [3.042, 7.268],
    [3.521, 9.737],
    [3.998, 12.554],
    [5.016, 19.761],
    [6.031, 28.567],
  ],
  PVC80: [
    [0.526, 0.217],
    [0.722, 0.409],
    [0.936, 0.688],
    [1.255, 1.237],
    [1.476, 1.711],
    [1.913, 2.874],
    [2.29, 4.119],
    [2.864, 6.442],
    [3.326, 8.688],
    [3.786, 11.258],
    [4.768, 17.855],
    [5.709, 25.598],
  ],
  FMC: [
    [0.635, 0.317],
    [0.824, 0.533],
    [1.02, 0.817],
    [1.275, 1.277],
    [1.538, 1.858],
    [2.04, 3.269],
    [2.5, 4.909],
    [3, 7.069],
    [3.5, 9.621],
    [4, 12.566],
  ],
};

const MM2_PER_IN2 = 645.16;

/** Internal area, or null for a size that the kind is not made in. */
export function conduitArea_mm2(kind: Conduit, trade: string): number | null {
  const at = (TRADE_SIZES as readonly string[]).indexOf(trade);
  const area = at < 0 ? undefined : CONDUITS[kind][at]?.[1];
  return area === undefined ? null : area * MM2_PER_IN2;
}
