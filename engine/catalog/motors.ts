import { cite, type Source } from './source.ts';

/** Motor table currents. */

export const TABLE_430_250: Source = { standard: 'NEC', edition: '2023', place: 'Table 430.250', status: 'published' };

/** Three-phase induction, full load, amperes at 200, 208, 230, 460, 575 V. */
export const US_MOTOR_CURRENTS: readonly { readonly hp: number; readonly amperes: readonly (number | null)[] }[] = [
  { hp: 0.5, amperes: [2.5, 2.4, 2.2, 1.1, 0.9] },
  { hp: 0.75, amperes: [3.7, 3.5, 3.2, 1.6, 1.3] },
  { hp: 1, amperes: [4.8, 4.6, 4.2, 2.1, 1.7] },
  { hp: 1.5, amperes: [6.9, 6.6, 6, 3, 2.4] },
  { hp: 2, amperes: [7.8, 7.5, 6.8, 3.4, 2.7] },
  { hp: 3, amperes: [11, 10.6, 9.6, 4.8, 3.9] },
  { hp: 5, amperes: [17.5, 16.7, 15.2, 7.6, 6.1] },
  { hp: 7.5, amperes: [25.3, 24.2, 22, 11, 9] },
  { hp: 10, amperes: [32.2, 30.8, 28, 14, 11] },
  { hp: 15, amperes: [48.3, 46.2, 42, 21, 17] },
  { hp: 20, amperes: [62.1, 59.4, 54, 27, 22] },
  { hp: 25, amperes: [78.2, 74.8, 68, 34, 27] },
  { hp: 30, amperes: [92, 88, 80, 40, 32] },
  { hp: 40, amperes: [120, 114, 104, 52, 41] },
  { hp: 50, amperes: [150, 143, 130, 65, 52] },
  { hp: 60, amperes: [177, 169, 154, 77, 62] },
  { hp: 75, amperes: [221, 211, 192, 96, 77] },
  { hp: 100, amperes: [285, 273, 248, 124, 99] },
  { hp: 125, amperes: [359, 343, 312, 156, 125] },
  { hp: 150, amperes: [414, 396, 360, 180, 144] },
  { hp: 200, amperes: [552, 528, 480, 240, 192] },
  { hp: 250, amperes: [null, null, null, 302, 242] },
  { hp: 300, amperes: [null, null, null, 361, 289] },
  { hp: 350, amperes: [null, null, null, 414, 336] },
  { hp: 400, amperes: [null, null, null, 477, 382] },
  { hp: 450, amperes: [null, null, null, 515, 412] },
  { hp: 500, amperes: [null, null, null, 590, 472] },
];

const COLUMNS: readonly { readonly from_V: number; readonly to_V: number; readonly column: number; readonly volts: number }[] = [
  { from_V: 195, to_V: 204, column: 0, volts: 200 },
  { from_V: 205, to_V: 219, column: 1, volts: 208 },
  { from_V: 220, to_V: 240, column: 2, volts: 230 },
  { from_V: 440, to_V: 480, column: 3, volts: 460 },
  { from_V: 550, to_V: 600, column: 4, volts: 575 },
];

export const WATTS_PER_HP = 745.6998715822702;

/** The code's current for a motor of that power (nearest row within 3 %) and voltage, or null when the table has none. */
export function tableCurrent_A(power_W: number, voltage_V: number): { readonly current_A: number; readonly label: string } | null {
  const column = COLUMNS.find((range) => voltage_V >= range.from_V && voltage_V <= range.to_V);
  const hp = power_W / WATTS_PER_HP;
  const row = US_MOTOR_CURRENTS.find((candidate) => Math.abs(candidate.hp / hp - 1) <= 0.03);
  const current_A = column && row ? (row.amperes[column.column] ?? null) : null;
  return current_A === null || !row || !column ? null : { current_A, label: `${row.hp} hp at ${column.volts} V, ${cite(TABLE_430_250)}` };
}

export const IEC_MOTOR_SOURCE: Source = {
  standard: 'IEC 60947-4-1',
  edition: '2018',
  place: 'Table G.1; efficiency IEC 60034-30-1',
  status: 'from memory',
};

/** IEC 60947-4-1:2018 Table G.1 (from memory). 4 poles, 400 V, 50 Hz: [kW, IE3 efficiency %, typical power factor, indicative amperes]. Efficiency IEC 60034-30-1. */
export const IEC_MOTORS: readonly (readonly [number, number, number, number | null])[] = [
  [0.37, 77.3, 0.7, 1.1],
  [0.55, 80.8, 0.73, 1.5],
  [0.75, 82.5, 0.76, 1.9],
  [1.1, 84.1, 0.77, 2.7],
  [1.5, 85.3, 0.79, 3.6],
  [2.2, 86.7, 0.81, 4.9],
  [3, 87.7, 0.82, 6.5],
  [4, 88.6, 0.82, 8.5],
  [5.5, 89.6, 0.83, 11.5],
  [7.5, 90.4, 0.84, 15.5],
  [11, 91.4, 0.84, 22],
  [15, 92.1, 0.85, 29],
  [18.5, 92.6, 0.85, 35],
  [22, 93, 0.85, 41],
  [30, 93.6, 0.85, 55],
  [37, 93.9, 0.86, 66],
  [45, 94.2, 0.86, 80],
  [55, 94.6, 0.86, 97],
  [75, 95, 0.86, 132],
  [90, 95.2, 0.86, 160],
  [110, 95.4, 0.86, 195],
  [132, 95.6, 0.87, 230],
  [160, 95.8, 0.87, 280],
  [200, 96, 0.87, 350],
  [250, 96, 0.88, 430],
  [315, 96, 0.88, 540],
  [355, 96, 0.88, 610],
];

/** NEMA MG 1 Table 12-12, 10 CFR 431.25 Table 1: 4 poles, enclosed, premium efficiency; above 200 hp from memory. */
export const NEMA_EFFICIENCY: Source = { standard: 'NEMA MG 1', place: 'Table 12-12', status: 'published' };
export const NEMA_POWER_FACTOR: Source = {
  standard: 'NEMA motors',
  place: 'usual range of the power factor at full load',
  status: 'from memory',
};
/** [hp, efficiency %, power factor from, to]. */
export const US_MOTORS: readonly (readonly [number, number, number, number])[] = [
  [1, 85.5, 0.7, 0.8],
  [1.5, 86.5, 0.72, 0.82],
  [2, 86.5, 0.74, 0.83],
  [3, 89.5, 0.75, 0.84],
  [5, 89.5, 0.77, 0.86],
  [7.5, 91.7, 0.78, 0.87],
  [10, 91.7, 0.79, 0.87],
  [15, 92.4, 0.8, 0.87],
  [20, 93, 0.8, 0.87],
  [25, 93.6, 0.8, 0.88],
  [30, 93.6, 0.8, 0.88],
  [40, 94.1, 0.8, 0.88],
  [50, 94.5, 0.81, 0.88],
  [60, 95, 0.82, 0.89],
  [75, 95.4, 0.82, 0.89],
  [100, 95.4, 0.82, 0.89],
  [125, 95.4, 0.83, 0.9],
  [150, 95.8, 0.83, 0.9],
  [200, 96.2, 0.83, 0.9],
  [250, 96.2, 0.84, 0.91],
  [300, 96.2, 0.84, 0.91],
  [350, 96.2, 0.84, 0.91],
  [400, 96.2, 0.84, 0.91],
  [450, 96.2, 0.84, 0.91],
  [500, 96.2, 0.84, 0.91],
];
