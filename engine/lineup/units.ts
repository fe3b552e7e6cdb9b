import { fixed, roundTo } from './roundTo.ts';

/** The door between what people type and read and the SI values of the document. Factors are exact by definition. */

export type Quantity =
  | 'length'
  | 'smallLength'
  | 'distance'
  | 'power'
  | 'apparentPower'
  | 'voltage'
  | 'current'
  | 'frequency'
  | 'temperature'
  | 'time'
  | 'percent'
  | 'size'
  | 'resistance'
  | 'area'
  | 'soil'
  | 'velocity'
  | 'inductance'
  | 'capacitance'
  | 'lineCapacitance'
  | 'number';
export type Units = 'us' | 'metric';

interface Unit {
  readonly names: readonly string[];
  readonly factor: number;
}
interface Scale {
  /** The first is the one a bare number is taken in and shown in. */
  readonly us: readonly Unit[];
  readonly metric: readonly Unit[];
  readonly digits: (value: number) => number;
}

const unit = (factor: number, ...names: string[]): Unit => ({ names, factor });
const FT = unit(0.3048, 'ft', "'", '′', 'feet', 'foot');
const M = unit(1, 'm', 'metre', 'metres', 'meter', 'meters');
const MIL = unit(0.0254, 'mil', 'mils');
const MM = unit(1, 'mm');
const INCH = unit(25.4, 'in', '"', '″', 'inch');
const HP = unit(745.6998715822702, 'hp');
const KW = unit(1000, 'kW');
const KVA = unit(1000, 'kVA');
const about = (value: number): number => (Math.abs(value) >= 100 ? 0 : Math.abs(value) >= 10 ? 1 : 2);
const both = (...units: Unit[]) => ({ us: units, metric: units });

export const SCALES: Readonly<Record<Exclude<Quantity, 'temperature' | 'size'>, Scale>> = {
  length: { us: [FT, M, unit(1000, 'km')], metric: [M, FT, unit(1000, 'km')], digits: about },
  smallLength: { us: [MIL, MM, INCH], metric: [MM, MIL, INCH], digits: about },
  distance: {
    us: [INCH, MM, unit(304.8, 'ft'), unit(1000, 'm'), unit(10, 'cm')],
    metric: [MM, INCH, unit(10, 'cm'), unit(1000, 'm')],
    digits: about,
  },
  power: { us: [HP, KW, unit(1, 'W')], metric: [KW, HP, unit(1, 'W'), unit(1e6, 'MW')], digits: about },
  apparentPower: { ...both(KVA, unit(1e6, 'MVA'), unit(1, 'VA')), digits: about },
  voltage: { ...both(unit(1, 'V'), unit(1000, 'kV')), digits: about },
  current: { ...both(unit(1, 'A'), unit(1000, 'kA'), unit(0.001, 'mA')), digits: about },
  frequency: { ...both(unit(1, 'Hz'), unit(1000, 'kHz')), digits: about },
  time: { ...both(unit(1e-6, 'µs', 'μs', 'us'), unit(1e-9, 'ns'), unit(1e-3, 'ms'), unit(1, 's')), digits: () => 3 },
  percent: { ...both(unit(1, '%')), digits: about },
  area: { ...both(unit(1, 'mm²', 'mm2')), digits: about },
  soil: { ...both(unit(1, 'K·m/W', 'Km/W', 'K m/W')), digits: about },
  velocity: { ...both(unit(1e6, 'm/µs', 'm/μs', 'm/us'), unit(1, 'm/s')), digits: about },
  inductance: { ...both(unit(1e-6, 'µH', 'μH', 'uH'), unit(1e-3, 'mH'), unit(1, 'H')), digits: about },
  capacitance: { ...both(unit(1e-9, 'nF'), unit(1e-6, 'µF', 'μF', 'uF'), unit(1e-12, 'pF')), digits: about },
  lineCapacitance: {
    us: [unit(1e-12 / 0.3048, 'pF/ft'), unit(1e-12, 'pF/m', 'nF/km')],
    metric: [unit(1e-12, 'pF/m', 'nF/km'), unit(1e-12 / 0.3048, 'pF/ft')],
    digits: about,
  },
  resistance: { ...both(unit(1, 'Ω', 'ohm'), unit(0.001, 'mΩ', 'mohm')), digits: () => 4 },
  number: { ...both(unit(1, '')), digits: () => 3 },
};

/** The names a value may be typed in; the first is that of a bare number. */
export function unitNames(quantity: Quantity, units: Units): readonly string[] {
  if (quantity === 'temperature') return units === 'us' ? ['°F', '°C'] : ['°C', '°F'];
  if (quantity === 'size') return units === 'us' ? ['AWG', 'kcmil', 'mm²'] : ['mm²', 'AWG', 'kcmil'];
  return SCALES[quantity][units].flatMap((each) => each.names[0] || []);
}

/** M and m before these are a thousand million apart: there the case is never guessed. */
const BY_CASE = /^m(a|ω|ohm|h|w|va)$/;

export type Parsed = { readonly ok: true; readonly value: number | string } | { readonly ok: false; readonly what: string };

/** Reads a number that uses a point or a comma as its decimal mark. One comma before three digits could be either: asked, not guessed. */
function readNumber(text: string): number | string {
  if (/^[+-]?[1-9]\d{0,2},\d{3}$/.test(text))
    return `“${text}” may be ${text.replace(',', '')} or ${text.replace(',', '.')}: write it without the comma or with a point`;
  // Both marks, or one of them twice: only one reading is left.
  if (/^[+-]?\d{1,3}(,\d{3})+\.\d+$|^[+-]?\d{1,3}(,\d{3}){2,}$/.test(text)) return Number(text.replaceAll(',', ''));
  if (/^[+-]?\d{1,3}(\.\d{3})+,\d+$|^[+-]?\d{1,3}(\.\d{3}){2,}$/.test(text)) return Number(text.replaceAll('.', '').replace(',', '.'));
  if (!/^[+-]?(\d+([.,]\d+)?|[.,]\d+)(e[+-]?\d+)?$/i.test(text)) return `“${text}” is not a number`;
  return Number(text.replace(',', '.'));
}

/** @param text as typed; a bare number is in the first unit of the project's system */
export function parseQuantity(text: string, quantity: Quantity, units: Units): Parsed {
  const clean = text
    .replace(/[\u00a0\u2009\u202f]/g, ' ')
    .replace('−', '-')
    .trim();
  if (clean === '') return { ok: false, what: 'nothing is typed' };
  if (quantity === 'size') return parseSize(clean, units);
  const match = /^([+-]?[\d.,]+(?:e[+-]?\d+)?)\s*(.*)$/i.exec(clean);
  if (!match) return { ok: false, what: `“${clean}” does not begin with a number` };
  const number = readNumber(match[1] ?? '');
  if (typeof number === 'string') return { ok: false, what: number };
  const name = (match[2] ?? '').trim();
  if (quantity === 'temperature') {
    const letter = name.replace(/[°º\s]/g, '').toUpperCase();
    if (letter === 'C' || (letter === '' && units === 'metric')) return { ok: true, value: number };
    if (letter === 'F' || letter === '') return { ok: true, value: roundTo(((number - 32) * 5) / 9, 6) };
    return { ok: false, what: `“${name}” is not a temperature unit: use °C or °F` };
  }
  const scale = SCALES[quantity][units];
  const found =
    name === ''
      ? scale[0]
      : (scale.find((each) => each.names.includes(name)) ??
        (BY_CASE.test(name.toLowerCase())
          ? undefined
          : scale.find((each) => each.names.some((n) => n.toLowerCase() === name.toLowerCase()))));
  if (!found)
    return {
      ok: false,
      what: `“${name}” is not a unit of this field: use ${scale
        .map((each) => each.names[0])
        .filter(Boolean)
        .join(', ')}`,
    };
  // Twelve figures hide the last bit of the conversion and nothing else.
  return { ok: true, value: Number((number * found.factor).toPrecision(12)) };
}

function parseSize(text: string, units: Units): Parsed {
  const none = { ok: false, what: `“${text}” is not a conductor size: write 2 AWG, 1/0, 500 kcmil or 35 mm2` } as const;
  const metric = /^(\d+(?:[.,]\d+)?)\s*(?:mm2|mm²|sq ?mm|mm\^2)$/i.exec(text);
  if (metric) return Number(metric[1]?.replace(',', '.')) > 0 ? { ok: true, value: `${(metric[1] ?? '').replace(',', '.')} mm2` } : none;
  const kcmil = /^(\d+)\s*(?:kcmil|mcm)$/i.exec(text);
  if (kcmil) return Number(kcmil[1]) > 0 ? { ok: true, value: `${kcmil[1]} kcmil` } : none;
  const awg = /^#?(\d+(?:\/0)?)\s*(?:awg|ga)$/i.exec(text) ?? /^(?:#|awg)\s*#?(\d+(?:\/0)?)$/i.exec(text) ?? /^([1-4]\/0)$/.exec(text);
  // From 40 to 1, then 1/0, which is also written 0, to 4/0 (ASTM B258).
  if (awg)
    return /^(?:40|[123]?\d|[1-4]\/0)$/.test(awg[1] ?? '')
      ? { ok: true, value: `${awg[1] === '0' ? '1/0' : awg[1]} AWG` }
      : { ok: false, what: `“${text}” is no size: AWG goes from 40 to 1, then from 1/0 to 4/0` };
  if (/^\d+([.,]\d+)?$/.test(text)) {
    if (units === 'metric') return Number(text.replace(',', '.')) > 0 ? { ok: true, value: `${text.replace(',', '.')} mm2` } : none;
    return { ok: false, what: `“${text}” may be AWG, kcmil or mm²: write the unit` };
  }
  return none;
}

/** A bare number with the unit that it was meant in: it would mean another length once the project counts in metres. */
export function withUnit(text: string, quantity: Quantity, units: Units): string {
  if (!/^[+\-−]?[\d.,]+(e[+-]?\d+)?$/i.test(text)) return text;
  const unit = quantity !== 'size' ? unitOf(quantity, units) : units === 'metric' ? 'mm²' : '';
  return unit === '' ? text : `${text}\u00a0${unit}`;
}

/** What was typed where it says the value that is judged, whichever system it is read in; else the value in the project's. */
export function asTyped(typed: string | undefined, value: number | string, quantity: Quantity, units: Units): string {
  const says = (system: Units): boolean => {
    const parsed = parseQuantity(typed ?? '', quantity, system);
    return parsed.ok && (parsed.value === value || Math.abs(Number(parsed.value) / Number(value) - 1) < 1e-9);
  };
  return typed !== undefined && says('us') && says('metric') ? typed : formatQuantity(value, quantity, units);
}

/** '210 ft', with a no-break space; sizes as '35 mm²'. */
export function formatQuantity(value: number | string, quantity: Quantity, units: Units): string {
  if (typeof value === 'string') return value.replace('mm2', 'mm²').replace(' ', '\u00a0');
  if (quantity === 'size') return `${value}`;
  if (quantity === 'temperature') {
    const shown = units === 'us' ? (value * 9) / 5 + 32 : value;
    return `${fixed(shown, 0)}\u00a0°${units === 'us' ? 'F' : 'C'}`;
  }
  const scale = SCALES[quantity];
  let shownIn = scale[units][0] ?? { names: [''], factor: 1 };
  if ((quantity === 'current' || quantity === 'frequency') && Math.abs(value) >= 1000) shownIn = scale[units][1] ?? shownIn;
  const shown = value / shownIn.factor;
  const text = `${roundTo(shown, scale.digits(shown))}`.replace('-', '−');
  return shownIn.names[0] ? `${text}\u00a0${shownIn.names[0]}` : text;
}

/** The unit that a column of this quantity is headed with; every number under it is in that one unit. */
export function unitOf(quantity: Exclude<Quantity, 'size'>, units: Units): string {
  if (quantity === 'temperature') return units === 'us' ? '°F' : '°C';
  return SCALES[quantity][units][0]?.names[0] ?? '';
}

/** The number in that unit, to six figures: more than anyone measured, and without the last bit of the conversion. */
export function inUnitOf(value: number, quantity: Exclude<Quantity, 'size'>, units: Units): number {
  const shown =
    quantity === 'temperature' ? (units === 'us' ? (value * 9) / 5 + 32 : value) : value / (SCALES[quantity][units][0]?.factor ?? 1);
  return Number(shown.toPrecision(6));
}
