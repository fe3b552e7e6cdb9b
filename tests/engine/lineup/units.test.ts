import { describe, expect, it } from 'vitest';
import { asTyped, formatQuantity, inUnitOf, parseQuantity, type Quantity, unitNames, unitOf, withUnit } from '../../../engine/index.ts';

/** What is typed against the definitions: NIST SP 811 appendix B for foot, inch, mil and horsepower (550 foot-pounds-force a second), SI prefixes for the rest. */

const typed = (text: string, quantity: Quantity, units: 'us' | 'metric' = 'metric') => {
  const parsed = parseQuantity(text, quantity, units);
  return parsed.ok ? parsed.value : parsed.what;
};
const POUND_FORCE_N = 0.45359237 * 9.80665;
const HP_W = 550 * 0.3048 * POUND_FORCE_N;

describe('every unit that may be typed', () => {
  const UNITS: readonly (readonly [Quantity, Readonly<Record<string, number>>])[] = [
    [
      'length',
      {
        m: 1,
        metre: 1,
        metres: 1,
        meter: 1,
        meters: 1,
        M: 1,
        km: 1000,
        KM: 1000,
        ft: 0.3048,
        "'": 0.3048,
        '′': 0.3048,
        feet: 0.3048,
        foot: 0.3048,
        FT: 0.3048,
      },
    ],
    ['smallLength', { mm: 1, MM: 1, mil: 0.0254, mils: 0.0254, Mil: 0.0254, in: 25.4, '"': 25.4, '″': 25.4, inch: 25.4 }],
    ['distance', { mm: 1, in: 25.4, inch: 25.4, cm: 10, m: 1000, ft: 304.8 }],
    ['power', { W: 1, kW: 1000, kw: 1000, KW: 1000, MW: 1e6, hp: HP_W, HP: HP_W }],
    ['apparentPower', { VA: 1, va: 1, kVA: 1000, kva: 1000, KVA: 1000, MVA: 1e6 }],
    ['voltage', { V: 1, v: 1, kV: 1000, KV: 1000, kv: 1000 }],
    ['current', { A: 1, a: 1, kA: 1000, ka: 1000, KA: 1000, mA: 0.001 }],
    ['frequency', { Hz: 1, hz: 1, HZ: 1, kHz: 1000, khz: 1000, KHZ: 1000 }],
    ['time', { s: 1, ms: 1e-3, µs: 1e-6, μs: 1e-6, us: 1e-6, ns: 1e-9, NS: 1e-9 }],
    ['percent', { '%': 1 }],
    ['area', { 'mm²': 1, mm2: 1 }],
    ['soil', { 'K·m/W': 1, 'Km/W': 1, 'K m/W': 1 }],
    ['velocity', { 'm/s': 1, 'm/µs': 1e6, 'm/μs': 1e6, 'm/us': 1e6 }],
    ['inductance', { H: 1, mH: 1e-3, µH: 1e-6, μH: 1e-6, uH: 1e-6, UH: 1e-6 }],
    ['capacitance', { nF: 1e-9, NF: 1e-9, µF: 1e-6, μF: 1e-6, uF: 1e-6, pF: 1e-12, PF: 1e-12 }],
    ['lineCapacitance', { 'pF/m': 1e-12, 'nF/km': 1e-12, 'pF/ft': 1e-12 / 0.3048 }],
    ['resistance', { Ω: 1, ohm: 1, Ohm: 1, OHM: 1, mΩ: 1e-3, mohm: 1e-3 }],
    ['number', { '': 1 }],
  ];
  it.each(UNITS)('%s', (quantity, units) => {
    for (const [name, factor] of Object.entries(units))
      for (const system of ['us', 'metric'] as const) {
        // Megawatts are not offered where horsepower comes first, nor small distances in feet where millimetres do.
        if (name === 'MW' && system === 'us') continue;
        if (quantity === 'distance' && name === 'ft' && system === 'metric') continue;
        for (const space of ['', ' ', '\u00a0', '\u2009', '\u202f']) {
          const value = typed(`2.5${space}${name}`, quantity, system);
          expect([name, system, typeof value]).toEqual([name, system, 'number']);
          expect(Math.abs(Number(value) / (2.5 * factor) - 1)).toBeLessThan(1e-11);
        }
      }
  });

  it('M and m are never taken for each other where a thousand million lies between', () => {
    for (const [text, quantity] of [
      ['2 MΩ', 'resistance'],
      ['2 Mohm', 'resistance'],
      ['2 MA', 'current'],
      ['2 mW', 'power'],
      ['2 mw', 'power'],
      ['2 mVA', 'apparentPower'],
      ['2 MH', 'inductance'],
    ] as const)
      expect([text, typed(text, quantity)]).toEqual([text, expect.stringContaining('is not a unit of this field: use ')]);
    expect(typed('2 stones', 'power')).toBe('“stones” is not a unit of this field: use kW, hp, W, MW');
    expect(typed('2 stones', 'number')).toBe('“stones” is not a unit of this field: use ');
  });

  it('a bare number is in the first unit of the system, and that is the one it is shown in', () => {
    const firsts: readonly (readonly [Quantity, number, number])[] = [
      ['length', 0.3048, 1],
      ['smallLength', 0.0254, 1],
      ['distance', 25.4, 1],
      ['power', HP_W, 1000],
      ['apparentPower', 1000, 1000],
      ['time', 1e-6, 1e-6],
      ['velocity', 1e6, 1e6],
      ['capacitance', 1e-9, 1e-9],
      ['inductance', 1e-6, 1e-6],
      ['lineCapacitance', 1e-12 / 0.3048, 1e-12],
    ];
    for (const [quantity, us, metric] of firsts) {
      expect(Math.abs(Number(typed('1', quantity, 'us')) / us - 1)).toBeLessThan(1e-11);
      expect(Math.abs(Number(typed('1', quantity)) / metric - 1)).toBeLessThan(1e-11);
      for (const system of ['us', 'metric'] as const) {
        expect(unitOf(quantity as Exclude<Quantity, 'size'>, system)).toBe(unitNames(quantity, system)[0]);
        expect(inUnitOf(Number(typed('37.5', quantity, system)), quantity as Exclude<Quantity, 'size'>, system)).toBe(37.5);
        expect(formatQuantity(Number(typed('7', quantity, system)), quantity, system)).toBe(`7\u00a0${unitNames(quantity, system)[0]}`);
      }
    }
  });
});

describe('numbers', () => {
  it.each([
    ['1.5', 1.5],
    ['1,5', 1.5],
    ['.5', 0.5],
    [',5', 0.5],
    ['-3', -3],
    ['−3', -3],
    ['+3', 3],
    ['1e3', 1000],
    ['1.5E-2', 0.015],
    ['0,250', 0.25],
    ['1234,5', 1234.5],
    ['1,234.5', 1234.5],
    ['1.234,5', 1234.5],
    ['1,234,567', 1_234_567],
    ['1.234.567', 1_234_567],
    ['1,234,567.5', 1_234_567.5],
    ['1.234.567,5', 1_234_567.5],
    ['1234,567', 1234.567],
    ['12,345.67', 12_345.67],
    ['12.345,67', 12_345.67],
    ['-1,234.5', -1234.5],
    ['+1.234,5', 1234.5],
    ['-12,345,678', -12_345_678],
    ['+12.345.678', 12_345_678],
    ['.25', 0.25],
    [',25', 0.25],
    ['1e12', 1e12],
    ['1e-12', 1e-12],
  ])('%s', (text, value) => expect(typed(text, 'number')).toBe(value));

  it('one comma before three digits is asked, with both readings', () => {
    for (const text of ['1,234', '12,345', '999,000', '-1,234'])
      expect(typed(text, 'number')).toContain(`may be ${text.replace(',', '')} or ${text.replace(',', '.')}`);
  });
  it.each([
    '1.2.3',
    '1,2,3',
    '12,34,567',
    '1,234.567,8',
    '1234,567.5',
    '1234.567,5',
    '1234,567,890',
    '1234.567.890',
    '1,234,567,8',
    '1.234.567.8',
    '1.234,5,6',
    '--3',
    '1e',
    '.',
    ',',
    'e5',
    'x',
    '1,',
    '5.',
  ])('%s is no number, and nothing is made of it', (text) => expect([text, typeof typed(text, 'number')]).toEqual([text, 'string']));
  it('nothing typed says so', () =>
    expect([typed('', 'length'), typed('  \u00a0', 'length')]).toEqual(['nothing is typed', 'nothing is typed']));
});

describe('temperatures', () => {
  it.each([
    ['212 °F', 'metric', 100],
    ['32F', 'metric', 0],
    ['-40 f', 'metric', -40],
    ['86', 'us', 30],
    ['30', 'metric', 30],
    ['30 C', 'us', 30],
    ['30 º c', 'us', 30],
  ] as const)('%s in %s', (text, units, celsius) => expect(typed(text, 'temperature', units)).toBe(celsius));
  it('is shown in the degrees of the system, to one', () => {
    expect([formatQuantity(30, 'temperature', 'us'), formatQuantity(30, 'temperature', 'metric')]).toEqual(['86\u00a0°F', '30\u00a0°C']);
    expect([inUnitOf(100, 'temperature', 'us'), inUnitOf(100, 'temperature', 'metric')]).toEqual([212, 100]);
    expect([unitOf('temperature', 'us'), unitOf('temperature', 'metric')]).toEqual(['°F', '°C']);
    expect([unitNames('temperature', 'us'), unitNames('temperature', 'metric')]).toEqual([
      ['°F', '°C'],
      ['°C', '°F'],
    ]);
    expect(typed('30 K', 'temperature')).toBe('“K” is not a temperature unit: use °C or °F');
  });
});

describe('sizes', () => {
  it.each([
    ['2 AWG', '2 AWG'],
    ['2awg', '2 AWG'],
    ['#2 AWG', '2 AWG'],
    ['12 ga', '12 AWG'],
    ['#6', '6 AWG'],
    ['AWG 2', '2 AWG'],
    ['awg #1/0', '1/0 AWG'],
    ['4/0 AWG', '4/0 AWG'],
    ['1/0', '1/0 AWG'],
    ['#3/0', '3/0 AWG'],
    ['500 kcmil', '500 kcmil'],
    ['500MCM', '500 kcmil'],
    ['35 mm2', '35 mm2'],
    ['35mm²', '35 mm2'],
    ['2,5 mm2', '2.5 mm2'],
    ['1.5 sq mm', '1.5 mm2'],
    ['16 sqmm', '16 mm2'],
    ['16 mm^2', '16 mm2'],
    ['0,75 mm2', '0.75 mm2'],
    ['#12', '12 AWG'],
    ['AWG 10', '10 AWG'],
  ])('%s', (text, size) => expect([typed(text, 'size', 'us'), typed(text, 'size')]).toEqual([size, size]));
  it('a bare number is mm² where sizes are metric, and asked about where they are not', () => {
    expect([typed('2,5', 'size'), typed('35', 'size')]).toEqual(['2.5 mm2', '35 mm2']);
    for (const text of ['35', '2.5', '0,75']) expect(typed(text, 'size', 'us')).toBe(`“${text}” may be AWG, kcmil or mm²: write the unit`);
    const odd = [
      '5/0',
      'big',
      '2 AWG or so',
      'x2 AWG',
      'x#2',
      'AWG',
      '#',
      'AWG 2 or so',
      '35 mm2 x',
      'x35 mm2',
      'x500 kcmil',
      '500 kcmils',
    ];
    for (const text of [...odd, '11/0', '1/00', '35x', 'x35'])
      for (const system of ['us', 'metric'] as const) expect(typed(text, 'size', system)).toContain('is not a conductor size');
  });
  it('that nobody makes is refused, and 0 is 1/0', () => {
    expect(typed('0 AWG', 'size')).toBe('1/0 AWG');
    for (const text of ['40 AWG', '39 AWG', '10 AWG', '1 AWG']) expect(typed(text, 'size')).toBe(text);
    for (const text of ['41 AWG', '99 AWG', '100 AWG', '00 AWG', '5/0 AWG'])
      expect(typed(text, 'size')).toBe(`“${text}” is no size: AWG goes from 40 to 1, then from 1/0 to 4/0`);
    for (const text of ['0 kcmil', '0 mm2', '0,0 mm2', '0']) expect(typed(text, 'size')).toContain('is not a conductor size');
  });
  it('is shown with its square', () => {
    expect([formatQuantity('35 mm2', 'size', 'us'), formatQuantity('2 AWG', 'size', 'metric'), formatQuantity(5, 'size', 'us')]).toEqual([
      '35\u00a0mm²',
      '2\u00a0AWG',
      '5',
    ]);
    expect([unitNames('size', 'us'), unitNames('size', 'metric')]).toEqual([
      ['AWG', 'kcmil', 'mm²'],
      ['mm²', 'AWG', 'kcmil'],
    ]);
  });
});

describe('how many figures are shown', () => {
  it.each([
    [1.239, 'voltage', '1.24\u00a0V'],
    [12.39, 'voltage', '12.4\u00a0V'],
    [123.9, 'voltage', '124\u00a0V'],
    [10, 'voltage', '10\u00a0V'],
    [100.4, 'voltage', '100\u00a0V'],
    [99.96, 'voltage', '100\u00a0V'],
    [-12.39, 'voltage', '−12.4\u00a0V'],
    [999, 'current', '999\u00a0A'],
    [1000, 'current', '1\u00a0kA'],
    [20_900, 'current', '20.9\u00a0kA'],
    [-20_900, 'current', '−20.9\u00a0kA'],
    [4000, 'frequency', '4\u00a0kHz'],
    [4000, 'voltage', '4000\u00a0V'],
    [0.15e-6, 'time', '0.15\u00a0µs'],
    [0.12345, 'resistance', '0.1235\u00a0Ω'],
    [0.12345, 'number', '0.123'],
  ] as const)('%f %s', (value, quantity, shown) => expect(formatQuantity(value, quantity, 'metric')).toBe(shown));
});

describe('what was typed', () => {
  it.each([
    ['0,5', 'length', 'us', '0,5\u00a0ft'],
    ['0,5', 'length', 'metric', '0,5\u00a0m'],
    ['1e3', 'power', 'metric', '1e3\u00a0kW'],
    ['1e-3', 'length', 'us', '1e-3\u00a0ft'],
    ['1e+12', 'number', 'us', '1e+12'],
    ['1e10', 'frequency', 'us', '1e10\u00a0Hz'],
    ['−5', 'temperature', 'us', '−5\u00a0°F'],
    ['25', 'size', 'metric', '25\u00a0mm²'],
    ['0.86', 'number', 'us', '0.86'],
    ['120 ft', 'length', 'metric', '120 ft'],
    ['1/0', 'size', 'us', '1/0'],
    ['/5', 'length', 'us', '/5'],
  ] as const)('%s as %s by %s habit is kept with its unit', (text, quantity, units, said) => {
    const whole = withUnit(text, quantity, units);
    expect(whole).toBe(said);
    for (const system of ['us', 'metric'] as const) expect(typed(whole, quantity, system)).toBe(typed(text, quantity, units));
  });
  it('is shown where it says the value in either system, and nowhere else', () => {
    expect(asTyped('120 ft', 36.576, 'length', 'metric')).toBe('120 ft');
    expect(asTyped('0 ft', 0, 'length', 'metric')).toBe('0 ft');
    expect(asTyped('#2 AWG', '2 AWG', 'size', 'metric')).toBe('#2 AWG');
    // The last bit of a conversion is no other value; a part in ten million is one.
    expect(asTyped('120 ft', 36.576 * (1 + 1e-12), 'length', 'metric')).toBe('120 ft');
    expect(asTyped('120 ft', 36.576 * (1 + 1e-7), 'length', 'metric')).toBe('36.6\u00a0m');
    // What nobody can say in which unit is left as it is.
    expect(withUnit('2', 'size', 'us')).toBe('2');
    // A bare number would change its meaning with the project's units, and a file may say anything.
    expect(asTyped('0,5', 0.1524, 'length', 'us')).toBe('0.5\u00a0ft');
    expect(asTyped('5 ft', 500, 'length', 'metric')).toBe('500\u00a0m');
    expect(asTyped('', 500, 'length', 'metric')).toBe('500\u00a0m');
    expect(asTyped(undefined, 500, 'length', 'metric')).toBe('500\u00a0m');
  });
});
