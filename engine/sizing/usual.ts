import { IEC_MOTOR_SOURCE, IEC_MOTORS, TABLE_430_250, tableCurrent_A } from '../catalog/motors.ts';
import { cite, type Source } from '../catalog/source.ts';
import type { Cable } from '../lineup/cable.ts';
import type { Element } from '../lineup/elements.ts';
import { fieldOf, valueAt } from '../lineup/fields.ts';
import { formatQuantity, type Quantity, type Units } from '../lineup/units.ts';

/** What a value usually is, in plain words, where one is far from it: a slip of the pen is seen where it was made. No verdict rests on this. */

type Part = Element | Cable;

/** From and to, in the units of the document. All common practice: wide enough that nobody is told what they know. */
const USUAL: Readonly<Record<string, readonly [number, number]>> = {
  'supply.frequency_Hz': [50, 60],
  'supply.faultCurrent_A': [1e3, 2e5],
  'supply.xOverR': [0.3, 50],
  'transformer.impedance_pct': [1, 12],
  'transformer.xOverR': [0.3, 50],
  'disconnect.faultRating_A': [5e3, 2e5],
  'reactor.impedance_pct': [1, 8],
  'filter.drop_pct': [0.5, 12],
  'drive.carrier_Hz': [1e3, 2e4],
  'drive.riseTime_s': [2e-8, 3e-6],
  'drive.inputPowerFactor': [0.55, 1],
  'drive.faultRating_A': [5e3, 2e5],
  'motor.ratedFrequency_Hz': [40, 400],
  'motor.powerFactor': [0.5, 0.97],
  'motor.efficiency_pct': [60, 98.5],
  'motor.serviceFactor': [1, 1.4],
  'cable.length_m': [0.3, 500],
  'cable.lengthMost_m': [0.3, 500],
  'cable.insulation.voltage_V': [300, 2000],
  'cable.outerDiameter_mm': [4, 130],
  'cable.installation.ambient_C': [-10, 60],
  'cable.installation.ambientLeast_C': [-50, 40],
};

/** A current is told where it is asked for, and where what was given is this far from it. */
const FAR = [0.7, 1.4] as const;

interface Current {
  readonly current_A: number;
  readonly source: Source;
}

function motorCurrent(power_W: number, voltage_V: number): Current | null {
  const us = tableCurrent_A(power_W, voltage_V);
  if (us) return { current_A: us.current_A, source: TABLE_430_250 };
  const row = voltage_V >= 380 && voltage_V <= 415 ? IEC_MOTORS.find(([kW]) => Math.abs((kW * 1000) / power_W - 1) <= 0.03) : undefined;
  return row?.[3] ? { current_A: (row[3] * 400) / voltage_V, source: IEC_MOTOR_SOURCE } : null;
}

function currentSaid(part: Part, path: string, units: Units): string | null {
  const whole = (part.kind === 'motor' && path === 'ratedCurrent_A') || (part.kind === 'drive' && path === 'outputCurrent_A');
  if (!whole || part.ratedPower_W === undefined || part.ratedVoltage_V === undefined) return null;
  const usual = motorCurrent(part.ratedPower_W, part.ratedVoltage_V);
  if (!usual) return null;
  const value = valueAt(part, path);
  const ratio = typeof value === 'number' ? value / usual.current_A : null;
  if (ratio !== null && ratio >= FAR[0] && ratio <= FAR[1]) return null;
  const said = (number: number, quantity: Quantity): string => formatQuantity(number, quantity, units);
  return `${said(part.ratedPower_W, 'power')} at ${said(part.ratedVoltage_V, 'voltage')} usually ${part.kind === 'motor' ? 'draws' : 'feeds'} about ${said(usual.current_A, 'current')} (${cite(usual.source)}).`;
}

/** Null where nothing is to be said. */
export function usualOf(part: Part, path: string, units: Units): string | null {
  const kind = part.kind === 'link' ? 'cable' : part.kind;
  const range = USUAL[`${kind}.${path}`];
  const value = valueAt(part, path);
  if (!range) return currentSaid(part, path, units);
  if (typeof value !== 'number' || (value >= range[0] && value <= range[1])) return null;
  const quantity = fieldOf(kind, path)?.quantity;
  const [least, most] = range.map((each) => (quantity ? formatQuantity(each, quantity, units) : `${each}`));
  return `Usually ${least} to ${most} (common practice).`;
}
