import type { Source } from './source.ts';

/** Three loaded conductors, 30 °C air, 20 °C ground, soil 2.5 K m/W. Rows without two independent copies stand as 'from memory'. */

export type ReferenceMethod = 'B1' | 'B2' | 'C' | 'D1' | 'D2' | 'E' | 'F';
const table = (place: string, status: Source['status']): Source => ({ standard: 'IEC 60364-5-52', edition: '2009', place, status });

export interface IecAmpacityTable {
  readonly metal: 'copper' | 'aluminium';
  readonly group: 'pvc' | 'xlpe';
  readonly method: ReferenceMethod;
  readonly source: Source;
  /** [mm2, amperes] */
  readonly rows: readonly (readonly [number, number])[];
}

export const IEC_AMPACITY: readonly IecAmpacityTable[] = [
  { metal: 'copper', group: 'pvc', method: 'B1', source: table('Table B.52.4', 'published'), rows: [[1.5, 15.5], [2.5, 21], [4, 28], [6, 36], [10, 50], [16, 68], [25, 89], [35, 110], [50, 134], [70, 171], [95, 207], [120, 239], [150, 262], [185, 296], [240, 346], [300, 394]] },
  { metal: 'copper', group: 'pvc', method: 'B2', source: table('Table B.52.4', 'published'), rows: [[1.5, 15], [2.5, 20], [4, 27], [6, 34], [10, 46], [16, 62], [25, 80], [35, 99], [50, 118], [70, 149], [95, 179], [120, 206], [150, 225], [185, 255], [240, 297], [300, 339]] },
  { metal: 'copper', group: 'pvc', method: 'C', source: table('Table B.52.4', 'published'), rows: [[1.5, 17.5], [2.5, 24], [4, 32], [6, 41], [10, 57], [16, 76], [25, 96], [35, 119], [50, 144], [70, 184], [95, 223], [120, 259], [150, 299], [185, 341], [240, 403], [300, 464]] },
  { metal: 'copper', group: 'pvc', method: 'D1', source: table('Table B.52.4', 'from memory'), rows: [[1.5, 18], [2.5, 24], [4, 30], [6, 38], [10, 50], [16, 64], [25, 82], [35, 98], [50, 116], [70, 143], [95, 169], [120, 192], [150, 217], [185, 243], [240, 280], [300, 316]] },
  { metal: 'copper', group: 'pvc', method: 'D2', source: table('Table B.52.4', 'from memory'), rows: [[1.5, 19], [2.5, 24], [4, 33], [6, 41], [10, 54], [16, 70], [25, 92], [35, 110], [50, 130], [70, 162], [95, 193], [120, 220], [150, 246], [185, 278], [240, 320], [300, 359]] },
  { metal: 'copper', group: 'pvc', method: 'E', source: table('Table B.52.10', 'published'), rows: [[1.5, 18.5], [2.5, 25], [4, 34], [6, 43], [10, 60], [16, 80], [25, 101], [35, 126], [50, 153], [70, 196], [95, 238], [120, 276], [150, 319], [185, 364], [240, 430], [300, 497]] },
  { metal: 'copper', group: 'pvc', method: 'F', source: table('Table B.52.10', 'published'), rows: [[25, 110], [35, 137], [50, 167], [70, 216], [95, 264], [120, 308], [150, 356], [185, 409], [240, 485], [300, 561]] },
  { metal: 'copper', group: 'xlpe', method: 'B1', source: table('Table B.52.5', 'published'), rows: [[1.5, 20], [2.5, 28], [4, 37], [6, 48], [10, 66], [16, 88], [25, 117], [35, 144], [50, 175], [70, 222], [95, 269], [120, 312], [150, 342], [185, 384], [240, 450], [300, 514]] },
  { metal: 'copper', group: 'xlpe', method: 'B2', source: table('Table B.52.5', 'from memory'), rows: [[1.5, 19.5], [2.5, 26], [4, 35], [6, 44], [10, 60], [16, 80], [25, 105], [35, 128], [50, 154], [70, 194], [95, 233], [120, 268], [150, 300], [185, 340], [240, 398], [300, 455]] },
  { metal: 'copper', group: 'xlpe', method: 'C', source: table('Table B.52.5', 'published'), rows: [[1.5, 22], [2.5, 30], [4, 40], [6, 52], [10, 71], [16, 96], [25, 119], [35, 147], [50, 179], [70, 229], [95, 278], [120, 322], [150, 371], [185, 424], [240, 500], [300, 576]] },
  { metal: 'copper', group: 'xlpe', method: 'D1', source: table('Table B.52.5', 'from memory'), rows: [[1.5, 21], [2.5, 28], [4, 36], [6, 44], [10, 58], [16, 75], [25, 96], [35, 115], [50, 135], [70, 167], [95, 197], [120, 223], [150, 251], [185, 281], [240, 324], [300, 365]] },
  { metal: 'copper', group: 'xlpe', method: 'D2', source: table('Table B.52.5', 'from memory'), rows: [[1.5, 23], [2.5, 30], [4, 39], [6, 49], [10, 65], [16, 84], [25, 107], [35, 129], [50, 153], [70, 188], [95, 226], [120, 257], [150, 287], [185, 324], [240, 375], [300, 419]] },
  { metal: 'copper', group: 'xlpe', method: 'E', source: table('Table B.52.12', 'published'), rows: [[1.5, 23], [2.5, 32], [4, 42], [6, 54], [10, 75], [16, 100], [25, 127], [35, 158], [50, 192], [70, 246], [95, 298], [120, 346], [150, 399], [185, 456], [240, 538], [300, 621]] },
  { metal: 'copper', group: 'xlpe', method: 'F', source: table('Table B.52.12', 'published'), rows: [[25, 135], [35, 169], [50, 207], [70, 268], [95, 328], [120, 383], [150, 444], [185, 510], [240, 607], [300, 703]] },
  { metal: 'aluminium', group: 'pvc', method: 'B1', source: table('Table B.52.4', 'published'), rows: [[2.5, 16.5], [4, 22], [6, 28], [10, 39], [16, 53], [25, 70], [35, 86], [50, 104], [70, 133], [95, 161], [120, 186], [150, 204], [185, 230], [240, 269], [300, 306]] },
  { metal: 'aluminium', group: 'pvc', method: 'B2', source: table('Table B.52.4', 'from memory'), rows: [[2.5, 15.5], [4, 21], [6, 27], [10, 36], [16, 48], [25, 62], [35, 77], [50, 92], [70, 116], [95, 139], [120, 160], [150, 176], [185, 199], [240, 232], [300, 265]] },
  { metal: 'aluminium', group: 'pvc', method: 'C', source: table('Table B.52.4', 'published'), rows: [[2.5, 18.5], [4, 25], [6, 32], [10, 44], [16, 59], [25, 73], [35, 90], [50, 110], [70, 140], [95, 170], [120, 197], [150, 227], [185, 259], [240, 305], [300, 351]] },
  { metal: 'aluminium', group: 'pvc', method: 'D1', source: table('Table B.52.4', 'from memory'), rows: [[2.5, 18.5], [4, 24], [6, 30], [10, 39], [16, 50], [25, 64], [35, 77], [50, 91], [70, 112], [95, 132], [120, 150], [150, 169], [185, 190], [240, 218], [300, 247]] },
  { metal: 'aluminium', group: 'pvc', method: 'D2', source: table('Table B.52.4', 'from memory'), rows: [[16, 53], [25, 69], [35, 83], [50, 99], [70, 122], [95, 148], [120, 169], [150, 189], [185, 214], [240, 250], [300, 282]] },
  { metal: 'aluminium', group: 'pvc', method: 'E', source: table('Table B.52.11', 'published'), rows: [[2.5, 19.5], [4, 26], [6, 33], [10, 46], [16, 61], [25, 78], [35, 96], [50, 117], [70, 150], [95, 183], [120, 212], [150, 245], [185, 280], [240, 330], [300, 381]] },
  { metal: 'aluminium', group: 'pvc', method: 'F', source: table('Table B.52.11', 'published'), rows: [[25, 84], [35, 105], [50, 128], [70, 166], [95, 203], [120, 237], [150, 274], [185, 315], [240, 375], [300, 434]] },
  { metal: 'aluminium', group: 'xlpe', method: 'B1', source: table('Table B.52.5', 'from memory'), rows: [[2.5, 22], [4, 29], [6, 38], [10, 52], [16, 71], [25, 93], [35, 116], [50, 140], [70, 179], [95, 217], [120, 251], [150, 267], [185, 300], [240, 351], [300, 402]] },
  { metal: 'aluminium', group: 'xlpe', method: 'B2', source: table('Table B.52.5', 'from memory'), rows: [[2.5, 21], [4, 28], [6, 35], [10, 48], [16, 64], [25, 84], [35, 103], [50, 124], [70, 156], [95, 188], [120, 216], [150, 240], [185, 272], [240, 318], [300, 364]] },
  { metal: 'aluminium', group: 'xlpe', method: 'C', source: table('Table B.52.5', 'from memory'), rows: [[2.5, 24], [4, 32], [6, 41], [10, 57], [16, 76], [25, 90], [35, 112], [50, 136], [70, 174], [95, 211], [120, 245], [150, 283], [185, 323], [240, 382], [300, 440]] },
  { metal: 'aluminium', group: 'xlpe', method: 'D1', source: table('Table B.52.5', 'from memory'), rows: [[2.5, 22], [4, 28], [6, 35], [10, 46], [16, 59], [25, 75], [35, 90], [50, 106], [70, 130], [95, 154], [120, 174], [150, 197], [185, 220], [240, 253], [300, 286]] },
  { metal: 'aluminium', group: 'xlpe', method: 'D2', source: table('Table B.52.5', 'from memory'), rows: [[16, 64], [25, 82], [35, 98], [50, 117], [70, 144], [95, 172], [120, 197], [150, 220], [185, 250], [240, 290], [300, 326]] },
  { metal: 'aluminium', group: 'xlpe', method: 'E', source: table('Table B.52.13', 'published'), rows: [[2.5, 24], [4, 32], [6, 42], [10, 58], [16, 77], [25, 97], [35, 120], [50, 146], [70, 187], [95, 227], [120, 263], [150, 304], [185, 347], [240, 409], [300, 471]] },
  { metal: 'aluminium', group: 'xlpe', method: 'F', source: table('Table B.52.13', 'from memory'), rows: [[25, 103], [35, 129], [50, 159], [70, 206], [95, 253], [120, 296], [150, 343], [185, 395], [240, 471], [300, 547]] },
];

/** Factors by temperature, [°C, PVC 70 °C, XLPE or EPR 90 °C]: the first row not exceeded. */
export const IEC_AMBIENT_SOURCE: Source = table('Tables B.52.14 and B.52.15', 'published');
export const IEC_AMBIENT_AIR: readonly (readonly [number, number | null, number | null])[] = [
  [10, 1.22, 1.15],
  [15, 1.17, 1.12],
  [20, 1.12, 1.08],
  [25, 1.06, 1.04],
  [30, 1, 1],
  [35, 0.94, 0.96],
  [40, 0.87, 0.91],
  [45, 0.79, 0.87],
  [50, 0.71, 0.82],
  [55, 0.61, 0.76],
  [60, 0.5, 0.71],
  [65, null, 0.65],
  [70, null, 0.58],
  [75, null, 0.5],
  [80, null, 0.41],
];
export const IEC_AMBIENT_GROUND: readonly (readonly [number, number | null, number | null])[] = [
  [10, 1.1, 1.07],
  [15, 1.05, 1.04],
  [20, 1, 1],
  [25, 0.95, 0.96],
  [30, 0.89, 0.93],
  [35, 0.84, 0.89],
  [40, 0.77, 0.85],
  [45, 0.71, 0.8],
  [50, 0.63, 0.76],
  [55, 0.55, 0.71],
  [60, 0.45, 0.65],
  [65, null, 0.6],
  [70, null, 0.53],
  [75, null, 0.46],
  [80, null, 0.38],
];

/** Bunched in air, on a surface, embedded or enclosed: [circuits, factor]. */
export const IEC_GROUPING_SOURCE: Source = table('Table B.52.17 item 1', 'published');
export const IEC_GROUPING: readonly (readonly [number, number])[] = [
  [1, 1],
  [2, 0.8],
  [3, 0.7],
  [4, 0.65],
  [5, 0.6],
  [6, 0.57],
  [7, 0.54],
  [8, 0.52],
  [9, 0.5],
  [12, 0.45],
  [16, 0.41],
  [20, 0.38],
];
