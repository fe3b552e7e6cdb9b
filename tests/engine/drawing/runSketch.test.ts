import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { extent } from '../../../engine/drawing/extent.ts';
import { type Item, type LineUp, load, newLineUp, review, runSketch, SKETCH } from '../../../engine/index.ts';

/** A line-up at a glance. */

const FOLDER = new URL('../../../examples/', import.meta.url);
const read = (name: string): LineUp => {
  const loaded = load(readFileSync(new URL(name, FOLDER), 'utf8'), name);
  if (!loaded.ok) throw new Error(loaded.what);
  return loaded.lineUp;
};
const sketch = (lineUp: LineUp): readonly Item[] => runSketch(lineUp, review(lineUp));
const count = (items: readonly Item[], kind: Item['t'], ink?: string): number =>
  items.filter((each) => each.t === kind && (ink === undefined || each.ink === ink)).length;

describe('a line-up at a glance', () => {
  it.each(readdirSync(FOLDER))('%s stays within its frame', (name) => {
    const { x, y, w, h } = extent(sketch(read(name)));
    expect([x >= 0, y >= 0, x + w <= SKETCH.width_mm, y + h <= SKETCH.height_mm]).toEqual([true, true, true, true]);
  });

  it('has one motor a run, and the metal of each conductor', () => {
    expect(count(sketch(read('fennel-lane-capping.json')), 'circle')).toBe(4);
    expect(count(sketch(read('basalt-ridge-crusher.json')), 'line', 'aluminium')).toBe(1);
  });

  it('cuts the shield where a box cuts it, and nowhere else', () => {
    expect(count(sketch(read('heron-weir-pumps.json')), 'line', 'fail')).toBe(2);
    expect(count(sketch(read('alder-mill-fan.json')), 'line', 'fail')).toBe(0);
  });

  it('of an empty sheet is empty', () => {
    expect(sketch(newLineUp())).toEqual([]);
  });
});
