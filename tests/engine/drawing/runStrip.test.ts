import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { extent, meets, textBox } from '../../../engine/drawing/extent.ts';
import { type LineUp, load, review, runPeaks, runStrip, STRIP_HEIGHT_mm, VERDICTS } from '../../../engine/index.ts';
import { LineUpBuilder } from '../lineUpBuilder.ts';
import { manyRuns } from '../manyRuns.ts';
import { threeRuns } from './threeRuns.ts';

/** A run whose one cable is so long that all else stands close together, with something to be said at each place. */
const farFeeder = (): LineUp =>
  new LineUpBuilder()
    .part('supply', { tag: 'UTIL', voltage_V: 480 })
    .part('disconnect', { tag: 'CB-1' })
    .cable({ tag: 'F-1', length_m: 2500 })
    .part('drive', { tag: 'VFD-1' })
    .cable({ tag: 'W-1A', construction: 'foil-and-braid', length_m: 2, to: { landing: 'none' } })
    .part('disconnect', { tag: 'DS-1', box: 'plastic' })
    .cable({ tag: 'W-1B', construction: 'foil-and-braid', length_m: 0.5, to: { landing: 'none' } })
    .part('junction', { tag: 'JB-1' })
    .cable({ tag: 'W-1C', construction: 'foil-and-braid', length_m: 0.5, from: { landing: 'none' } })
    .part('motor', { tag: 'M-1' })
    .build();

/** A run unrolled: to scale, in its frame, no text on another, every part and finding in its place. */

const FOLDER = join(import.meta.dirname, '../../../examples');
const SITES: readonly (readonly [string, LineUp])[] = [
  ...readdirSync(FOLDER).map((name) => {
    const loaded = load(readFileSync(join(FOLDER, name), 'utf8'));
    if (!loaded.ok) throw new Error(loaded.what);
    return [name, loaded.lineUp] as const;
  }),
  ['three runs', threeRuns()],
  ['five runs', manyRuns(5)],
  ['a far feeder', farFeeder()],
];

describe.each(SITES)('%s', (_name, lineUp) => {
  const answer = review(lineUp);
  const strips = answer.runs.map((run) => ({ run, strip: runStrip(lineUp, answer, run, undefined, runPeaks(lineUp, run)) }));

  it('keeps to its frame, and no text lies on another', () => {
    for (const { strip } of strips) {
      const texts = strip.items.flatMap((item) => (item.t === 'text' ? [{ says: item.text, box: textBox(item) }] : []));
      expect(texts.length).toBeGreaterThan(6);
      const clashes = texts.flatMap((a, i) => texts.slice(i + 1).flatMap((b) => (meets(a.box, b.box) ? [`${a.says} on ${b.says}`] : [])));
      expect(clashes).toEqual([]);
      const { x, y, w, h } = extent(strip.items);
      expect([x >= -0.5, y >= 0, x + w <= strip.width_mm + 0.5, y + h <= STRIP_HEIGHT_mm]).toEqual([true, true, true, true]);
      expect(strip.items.some((item) => JSON.stringify(item).includes('null'))).toBe(false);
    }
  });

  it('has every part of the way in order, and cables to one scale', () => {
    for (const { run, strip } of strips) {
      expect(strip.places.map((each) => each.id)).toEqual(run.path);
      strip.places.forEach((each, i) => {
        if (i > 0) expect(each.from_mm).toBe(strip.places[i - 1]?.to_mm);
      });
      const scales = strip.places.flatMap((place) => {
        const length = lineUp.cables.find((each) => each.id === place.id && each.kind === 'cable')?.length_m;
        return length ? [(place.to_mm - place.from_mm) / length] : [];
      });
      for (const scale of scales) expect(scale).toBeCloseTo(scales[0] ?? 0, 9);
    }
  });

  it('pins stand clear of each other, each over its worst', () => {
    const rank = new Map(answer.findings.map((each) => [each.id, VERDICTS.indexOf(each.verdict)]));
    for (const { strip } of strips) {
      strip.pins.forEach((pin, i) => {
        const before = strip.pins[i - 1];
        if (before) expect(pin.x_mm - before.x_mm).toBeGreaterThan(7.5);
        const ranks = pin.findings.map((id) => rank.get(id) ?? 0);
        expect(Math.min(...ranks)).toBe(ranks[0]);
      });
    }
  });

  it('pins each finding that speaks to its part, once', () => {
    for (const { run, strip } of strips) {
      const pinned = strip.pins.flatMap((each) => each.findings);
      expect(new Set(pinned).size).toBe(pinned.length);
      const due = answer.findings.filter(
        ({ subject, verdict }) =>
          ['fail', 'open', 'caution'].includes(verdict) &&
          (subject.kind === 'run' ? subject.id === run.motorId : run.path.includes(subject.id)),
      );
      expect([...pinned].sort()).toEqual(due.map((each) => each.id).sort());
    }
  });
});

it('tells where the voltage stands, how far it is and where the shield ends', () => {
  const lineUp = threeRuns();
  const answer = review(lineUp);
  const strip = (tag: string) => {
    const run = answer.runs.find((each) => each.motorTag === tag);
    if (!run) throw new Error(tag);
    return runStrip(lineUp, answer, run);
  };
  const place = (tag: string, of: string) => strip(of).places.find((each) => each.tag === tag);
  expect(place('W-1B', 'M-1')?.distance_m).toBeCloseTo(64, 9);
  expect(place('CB-1', 'M-1')?.distance_m).toBeCloseTo(-42.672, 9);
  const volts = (tag: string) => answer.elements.find((each) => each.tag === tag)?.voltage_V ?? NaN;
  expect(place('F-1', 'M-1')?.voltage_pct).toBeCloseTo((100 * volts('VFD-1')) / volts('UTIL'), 9);
  expect(place('DS-1', 'M-1')?.shield).toBe('');
  expect(place('DS-2', 'M-2')?.shield).toBe('broken here');
  expect(place('W-3B', 'M-3')?.distance_m).toBeNull();
  expect(place('W-3B', 'M-3')?.voltage_pct).toBeNull();
  for (const { tag, faultCurrent_A } of answer.elements) expect(place(tag, 'M-2')?.fault_A ?? faultCurrent_A).toBe(faultCurrent_A);
  expect(place('VFD-1', 'M-1')?.fault_A).toBeGreaterThan(0);
  expect(place('M-1', 'M-1')?.fault_A).toBeNull();
  expect(place('W-2A', 'M-2')?.grounds).toBe('not known');
  expect(place('DS-2', 'M-2')?.grounds).toBe('');
});

describe('the peak along the lead', () => {
  const lineUp = manyRuns(1);
  const answer = review(lineUp);
  const [run] = answer.runs;
  if (!run) throw new Error('no run');
  const peaks = runPeaks(lineUp, run);

  it('begins at the bus and ends in what the gauge says', () => {
    expect(peaks).toHaveLength(41);
    expect(peaks[0]?.central_V).toBeCloseTo(run.bus_V ?? NaN, 6);
    const { at_m, low_V, central_V, high_V } = peaks.at(-1) ?? {};
    expect([at_m, low_V, central_V, high_V]).toEqual([run.leadLength_m, run.peakLow_V, run.peak_V, run.peakHigh_V]);
    for (const each of peaks) expect(each.low_V <= each.central_V && each.central_V <= each.high_V).toBe(true);
    // What stands next to the motor differs by no more than the loss that both waves are given alike.
    expect(Math.abs((peaks.at(-2)?.central_V ?? 0) / (run.peak_V ?? 1) - 1)).toBeLessThan(0.01);
  });

  it('is drawn with its limit, and told by the table from the drive on', () => {
    const strip = runStrip(lineUp, answer, run, undefined, peaks);
    expect(strip.items.some((each) => each.t === 'line' && each.points.length > 40)).toBe(true);
    const told = strip.places.map(({ tag, peak_V }) => [tag, peak_V === null ? null : Math.round(peak_V)]);
    const peak = Math.round(run.peak_V ?? 0);
    expect(told.slice(-3)).toEqual([
      ['VFD-1', Math.round(run.bus_V ?? 0)],
      ['W-1', peak],
      ['M-1', peak],
    ]);
    expect(told.slice(0, -3).every(([, volts]) => volts === null)).toBe(true);
  });

  it('is left away where the places are not known: on a tee and of a range of lengths', () => {
    const [lead] = lineUp.cables.filter((each) => each.tag === 'W-1');
    if (!lead) throw new Error('no lead');
    const ranged = { ...lineUp, cables: lineUp.cables.map((each) => (each === lead ? { ...each, lengthMost_m: 90 } : each)) };
    const second = { ...lineUp.elements.find((each) => each.tag === 'M-1'), id: 'm2', tag: 'M-2' } as LineUp['elements'][number];
    const tee = {
      ...lineUp,
      elements: [...lineUp.elements, second],
      cables: [...lineUp.cables, { ...lead, id: 'w2', tag: 'W-2', to: { element: 'm2' } }],
    };
    for (const other of [ranged, tee]) {
      const judged = review(other);
      const [first] = judged.runs;
      expect(first?.peak_V).not.toBeNull();
      expect(first && runPeaks(other, first)).toEqual([]);
      expect(first && runStrip(other, judged, first).places.every((each) => each.peak_V === null)).toBe(true);
    }
  });
});
