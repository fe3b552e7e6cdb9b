import { describe, expect, it } from 'vitest';
import { toldNumber } from '../../../engine/checks/figureText.ts';
import type { Finding } from '../../../engine/checks/finding.ts';
import { movedText, valueText } from '../../../engine/index.ts';

/** Numbers of findings in words; a no-break space before a unit is any space here. */

const peak = (value: number | null, limit: number | null, unit = 'V', quantity = 'peak') => ({ value, limit, unit, quantity }) as Finding;
const plain = (text: string): string => text.replaceAll('\u00a0', ' ');

describe('a number against its limit', () => {
  it('is rounded for show, and a length is told in the units of the project: 30.48 m are 100 ft', () => {
    expect(valueText(peak(1256.04, 1426), 'us')).toBe('1256.0 V, limit 1426.0 V');
    expect(valueText(peak(2, null, ''), 'us')).toBe('2');
    expect(plain(valueText(peak(30.48, 60.96, 'm'), 'us'))).toBe('100 ft, limit 200 ft');
    expect(plain(valueText(peak(0.381, 0.762, 'mm', 'thinnest wall'), 'us'))).toBe('15 mil, limit 30 mil');
    expect(valueText(peak(null, 3, '%'), 'us')).toBe('');
    expect(['', '%'].map((unit) => valueText(peak(2.5, 3, unit), 'us'))).toEqual(['2.50, limit 3.00', '2.50 %, limit 3.00 %']);
    expect(valueText(peak(3, null, '%'), 'us')).toBe('3.00 %');
  });
});

describe('an estimate', () => {
  const rough = (value: number, limit: number | null, confidence: 'good' | 'rough' = 'rough') =>
    ({ ...peak(value, limit), band: { low: value, high: value, confidence } }) as Finding;
  it('has the figures that its band vouches for, and its limit has its own', () => {
    expect(valueText(rough(1900.7, 1425.6), 'us')).toBe('1900 V, limit 1425.6 V');
    expect(valueText(rough(1900.7, null, 'good'), 'us')).toBe('1901 V');
    expect(valueText(rough(-1900.7, null), 'us')).toBe('−1900 V');
    expect(plain(valueText({ ...rough(30.48, 60.96), unit: 'm' }, 'us'))).toBe('100 ft, limit 200 ft');
    // The limit itself is no estimate, and neither is what has no band.
    expect([toldNumber(rough(1, 1425.64), 1425.64), toldNumber(rough(1, 1425.64), 1900.7)]).toEqual([1425.64, 1900]);
    expect(toldNumber({ band: null, limit: 3 }, 1900.7)).toBe(1900.7);
  });
  it('is never rounded to its limit or past it', () => {
    expect(valueText(rough(1003, 1000), 'us')).toBe('1003 V, limit 1000 V');
    expect(valueText(rough(999.84, 1000), 'us')).toBe('999.8 V, limit 1000 V');
    expect(valueText(rough(999.8, 1000), 'us')).toBe('999.8 V, limit 1000 V');
    expect(valueText(rough(1000, 1000), 'us')).toBe('1000 V, limit 1000 V');
  });
});

describe('a number that moves', () => {
  it('names the limit once where it stays, and twice where it does not', () => {
    expect(movedText(peak(1480, 1426), peak(1256, 1426), 'us')).toBe('1480.0 V → 1256.0 V, limit 1426.0 V');
    expect(movedText(peak(72, 63, 'A'), peak(72, 85, 'A'), 'us')).toBe('72.0 A, limit 63.0 A → 72.0 A, limit 85.0 A');
    expect(movedText(peak(3, 2, '%', 'drop'), peak(4, 2, '%', 'rise'), 'us')).toBe('3.00 %, limit 2.00 % → 4.00 %, limit 2.00 %');
    expect(movedText(peak(3, 2, 'A'), peak(4, 2, 'V'), 'us')).toBe('3.0 A, limit 2.0 A → 4.0 V, limit 2.0 V');
    expect(movedText(peak(3, 2, '', 'cores'), peak(3.2, 2, '%', 'drop'), 'us')).toBe('3, limit 2 → 3.20 %, limit 2.00 %');
  });
  it('is told alone where the other side has none, and not at all where it stays', () => {
    expect(movedText(peak(3.1, 3, '%'), null, 'us')).toBe('was 3.10 %, limit 3.00 %');
    expect(movedText(peak(null, null), peak(1.1, 3, '%'), 'us')).toBe('1.10 %, limit 3.00 %');
    expect(movedText(peak(5, 6), peak(5, 6), 'us')).toBe('');
  });
});
