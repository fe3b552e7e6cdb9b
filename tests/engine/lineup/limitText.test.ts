import { describe, expect, it } from 'vitest';
import { limitText } from '../../../engine/index.ts';

/** Limits as they are told: whole, and in the unit that makes them shortest. Worked by hand. */

describe('a limit', () => {
  it.each([
    [1, 'time', 'us', '1 s'],
    [2e-3, 'time', 'us', '2 ms'],
    [1.5e-7, 'time', 'metric', '150 ns'],
    [1e6, 'voltage', 'us', '1000 kV'],
    [500, 'voltage', 'us', '500 V'],
    [-5, 'voltage', 'us', '−5 V'],
    [0.3048, 'length', 'us', '1 ft'],
    [5000, 'length', 'metric', '5 km'],
    [745_700, 'power', 'us', '1000 hp'],
    [1000, 'power', 'metric', '1 kW'],
    [1e6, 'power', 'metric', '1 MW'],
    [12.5, 'percent', 'us', '12.5 %'],
    [0.86, 'number', 'us', '0.86'],
    // To six figures, so that the last bit of a conversion does not show, and no fewer.
    [1 / 3, 'number', 'us', '0.333333'],
    [123_456, 'number', 'us', '123456'],
  ] as const)('of %f (%s, %s) is %s', (value, quantity, units, text) =>
    expect(limitText(value, quantity, units).replace('\u00a0', ' ')).toBe(text),
  );
  it('that is as long in two units is told in the one the project counts in', () => {
    // 0.1 µs has as many letters as 100 ns.
    expect([limitText(1e-7, 'time', 'us'), limitText(0, 'time', 'us'), limitText(0, 'length', 'us')]).toEqual([
      '0.1\u00a0µs',
      '0\u00a0µs',
      '0\u00a0ft',
    ]);
  });
  it('of a temperature is in degrees, of a size in its own number', () => {
    expect([limitText(100, 'temperature', 'us'), limitText(-40, 'temperature', 'metric'), limitText(5, 'size', 'us')]).toEqual([
      '212\u00a0°F',
      '−40\u00a0°C',
      '5',
    ]);
  });
});
