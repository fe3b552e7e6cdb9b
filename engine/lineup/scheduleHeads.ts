/** What the columns of the schedules are called, beside the names of the fields themselves: for who writes them and for who reads them back. */

/** Columns in which the kinds of equipment stand together, each with its own value: the first of these that it has. */
export const TOGETHER: Readonly<Record<string, readonly string[]>> = {
  Device: ['device', 'role'],
  'Rated voltage': ['ratedVoltage_V', 'secondaryVoltage_V', 'voltage_V'],
  'Rated current': ['ratedCurrent_A', 'inputCurrent_A'],
};

/** In the equipment schedule: what each row is. */
export const KIND_HEAD = 'Kind';

/** Said by the drawing or by the review. There is nothing to take back from them. */
export const TOLD = [
  'From',
  'To',
  'Shield carried by',
  'Current',
  'Allowed current',
  'Drop',
  'Worst verdict',
  'Fault current there',
  'Voltage there',
  'Fed by',
  'Length of the lead',
  'Voltage at its terminals',
  'Peak at its terminals',
  'Shield',
  'Voltage at its input',
  'Fault current at its input',
] as const;
export type ToldHead = (typeof TOLD)[number];
