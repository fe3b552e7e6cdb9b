import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { textBox } from '../../../engine/drawing/extent.ts';
import { CHART } from '../../../engine/drawing/wavePicture.ts';
import { type LineUp, load, review, waveCharts, waveformOf } from '../../../engine/index.ts';

/** The charts of a run: the numbers of the review, within their frame, no text on another. */

const FOLDER = join(import.meta.dirname, '../../../examples');
const SITES: readonly (readonly [string, LineUp])[] = readdirSync(FOLDER).map((name) => {
  const loaded = load(readFileSync(join(FOLDER, name), 'utf8'));
  if (!loaded.ok) throw new Error(loaded.what);
  return [name, loaded.lineUp];
});

describe.each(SITES)('%s', (_name, lineUp) => {
  const { runs } = review(lineUp);
  it('draws what was solved: on a long lead the highest sample is the peak, within its band', () => {
    for (const run of runs) {
      const wave = waveformOf(lineUp, run);
      if (!wave) continue;
      const highest = Math.max(...wave.samples.map(([, volts]) => volts));
      expect(highest).toBeLessThanOrEqual(wave.peak_V * 1.001);
      expect(wave.peak_V).toBe(run.peak_V);
      if (wave.length_m > wave.critical_m) expect(highest).toBeGreaterThan(wave.peak_V * 0.985);
      expect(wave.low_V).toBeLessThanOrEqual(wave.peak_V);
      expect(wave.high_V).toBeGreaterThanOrEqual(wave.peak_V);
      for (const each of wave.byLength) {
        expect(each.low_V).toBeLessThanOrEqual(each.central_V);
        expect(each.central_V).toBeLessThanOrEqual(each.high_V);
      }
      const at = wave.byLength.find(({ length_m }) => length_m >= wave.length_m);
      if (at) expect(Math.abs(at.central_V / wave.peak_V - 1)).toBeLessThan(0.06);
    }
  });
  it('keeps to its frame, and no text lies on another', () => {
    for (const run of runs) {
      const wave = waveformOf(lineUp, run);
      for (const items of wave ? waveCharts(wave, 1600, 'metric') : []) {
        const texts = items.flatMap((item) => (item.t === 'text' ? [{ says: item.text, ...textBox(item) }] : []));
        for (const text of texts) {
          expect([text.says, text.x >= -0.5 && text.x + text.w <= CHART.w && text.y >= -0.5 && text.y + text.h <= CHART.h]).toEqual([
            text.says,
            true,
          ]);
        }
        texts.forEach((a, i) => {
          for (const b of texts.slice(i + 1)) {
            const wide = Math.min(a.x + a.w, b.x + b.w) - Math.max(a.x, b.x);
            const high = Math.min(a.y + a.h, b.y + b.h) - Math.max(a.y, b.y);
            expect([a.says, b.says, wide > 0.3 && high > 0.3]).toEqual([a.says, b.says, false]);
          }
        });
      }
    }
  });
});
