import { describe, expect, it } from 'vitest';
import type { Item } from '../../../engine/drawing/displayList.ts';
import { extent, meets, textBox } from '../../../engine/drawing/extent.ts';
import { type DecidingUnknown, decidingUnknowns, startFromFive, UNKNOWN_PICTURE, unknownPicture } from '../../../engine/index.ts';
import { readExample } from '../sizing/readExample.ts';

/** An unknown as a bar: marks where the numbers put them, worked out by hand, and no text on another. */

const turn = (at: number | string, from: 'pass' | 'fail' = 'pass', to: 'caution' | 'fail' | 'pass' = 'caution') => ({
  at,
  from,
  to,
  finding: { id: 'f', check: 'lead-drop', title: 'Voltage at the motor', subject: { kind: 'element' as const, id: 'e1', tag: 'M-1' } },
});
const unknown = (own: Partial<DecidingUnknown>): DecidingUnknown => ({
  id: 'c1',
  tag: 'W-1',
  field: 'length_m',
  label: 'Length, one way',
  quantity: 'length',
  ask: 'installer',
  because: 'range',
  now: 150,
  span: { least: 100, most: 200 },
  turns: [turn(175), turn(110)],
  distance: 0.25,
  ...own,
});
/** Uprights that reach out of the bar, and others, by their place. */
const uprights = (items: readonly Item[], weight_mm: number) =>
  items.flatMap((item) => (item.t === 'line' && item.weight_mm === weight_mm ? (item.points[0]?.[0] ?? []) : []));
const ring = (items: readonly Item[]) => items.flatMap((item) => (item.t === 'circle' ? item.x : []));
const filled = (items: readonly Item[]) =>
  items.flatMap((item) => (item.t === 'rect' && item.fill === 'rule' ? [[item.x, item.x + item.w]] : []));
const texts = (items: readonly Item[]) => items.flatMap((item) => (item.t === 'text' ? item.text.replaceAll('\u00a0', ' ') : []));

describe('the picture of an unknown', () => {
  it('puts its marks in proportion: the bar goes from 26 to 92 mm', () => {
    const items = unknownPicture(unknown({}), 'metric');
    // Half of 66 mm on; three quarters of it; a tenth of it.
    expect(ring(items)).toEqual([59]);
    expect(uprights(items, 0.7)).toEqual([75.5]);
    expect(uprights(items, 0.35)).toEqual([expect.closeTo(32.6, 9)]);
    expect(filled(items)).toEqual([[expect.closeTo(32.6, 9), 75.5]]);
  });
  it('is filled to its end where nothing turns on that side', () => {
    expect(filled(unknownPicture(unknown({ turns: [turn(175)] }), 'metric'))).toEqual([[26, 75.5]]);
    expect(filled(unknownPicture(unknown({ now: 200, turns: [turn(175)] }), 'metric'))).toEqual([[75.5, 92]]);
  });
  it('stands answers a step apart, and fills nothing: they have no order', () => {
    const items = unknownPicture(
      unknown({ quantity: null, span: { answers: ['dry', 'damp', 'wet', 'part-31'] }, now: 'wet', turns: [turn('damp', 'fail', 'pass')] }),
      'metric',
    );
    expect(ring(items)).toEqual([70]);
    expect(uprights(items, 0.7)).toEqual([48]);
    expect(uprights(items, 0.18)).toEqual([48, 70]);
    expect(filled(items)).toEqual([]);
    expect(texts(items)).toContain('part 31');
  });
  it('says what is taken, why it is not known, who knows it, and what turns', () => {
    expect(texts(unknownPicture(unknown({}), 'metric'))).toEqual([
      'Length, one way, W-1',
      'the far end of a range; ask: installer',
      '100 m',
      '200 m',
      'pass → caution at 175 m: Voltage at the motor, M-1',
      'taken: 150 m',
    ]);
  });
  it('keeps to its frame, and no text lies on another or on a mark, wherever the marks are', async () => {
    const five = startFromFive({ power_W: 45_000, voltage_V: 480, length_m: 64, place: 'damp', basis: 'us' });
    const ends = [100, 110, 150, 190, 200];
    const drawn = [
      ...(await decidingUnknowns(five)),
      ...(await decidingUnknowns(readExample('frostmere-cold-store'))),
      ...ends.flatMap((now) =>
        ends.map((at) => unknown({ now, turns: [turn(at)], label: 'A label that is as long as one may ever become, and longer' })),
      ),
    ];
    for (const each of drawn) {
      const items = unknownPicture(each, 'us');
      const frame = extent(items);
      expect(frame.x).toBeGreaterThanOrEqual(-0.5);
      expect(frame.x + frame.w).toBeLessThanOrEqual(UNKNOWN_PICTURE.w + 0.5);
      expect(frame.y + frame.h).toBeLessThanOrEqual(UNKNOWN_PICTURE.h);
      const boxes = items.flatMap((item) => (item.t === 'text' ? [textBox(item)] : []));
      const marks = items.flatMap((item) => (item.t === 'circle' || item.t === 'line' ? [extent([item])] : []));
      expect(boxes.flatMap((a, i) => [...boxes.slice(i + 1), ...marks].filter((b) => meets(a, b)))).toEqual([]);
    }
  });
});
