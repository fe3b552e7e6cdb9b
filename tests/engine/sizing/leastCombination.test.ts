import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { review } from '../../../engine/index.ts';
import { volume_m3 } from '../../../engine/sizing/choices.ts';
import { drawn, sized } from '../../property/sizedLineUp.ts';

/** A few of the line-ups of the property, each asked by itself: the least of every combination, and what is told with it. */

const CASES = fc
  .sample(drawn, { seed: 20261127, numRuns: 80 })
  .filter(({ sizes, sets }) => sizes.length === 2 && sets === 1)
  .slice(0, 30);

describe('the least conductor of a small line-up', () => {
  it.each(CASES.map((each, i) => [i, each] as const))('%d', async (_i, each) => {
    const { cables, locked, all, answer } = await sized(each);
    expect(answer.cables.map(({ id }) => id)).toEqual(cables.map(({ id }) => id));
    expect(answer.cables.filter((cable) => cable.locked).map(({ id }) => id)).toEqual(locked);
    expect(answer.left).toEqual([]);
    // What is told of each cable is of that cable: its volume, and all of them together.
    for (const { id, least, volume_m3: told, now, volumeNow_m3 } of answer.cables) {
      const cable = cables.find((other) => other.id === id);
      if (!cable) throw new Error('of no cable');
      expect(told).toBe(least && volume_m3(cable, least));
      expect(volumeNow_m3).toBe(now && volume_m3(cable, now));
      if (locked.includes(id)) expect(least ?? now).toEqual(now);
    }
    expect(answer.volume_m3).toBeCloseTo(
      answer.cables.reduce((sum, cable) => sum + (cable.volume_m3 ?? 0), 0),
      12,
    );
    const named = new Map(answer.cables.flatMap(({ id, least }) => (least ? [[id, least] as const] : [])));
    expect(answer.lineUp.cables.map(({ id, conductor: { size } }) => named.get(id)?.size ?? size)).toEqual(
      answer.lineUp.cables.map(({ conductor: { size } }) => size),
    );
    if (all.least_m3 === null || !all.floorsMet) {
      expect(answer.unmet).not.toEqual([]);
      for (const { cables: tags, locked: inItsWay } of answer.unmet) {
        expect(tags).not.toEqual([]);
        expect(inItsWay.filter((tag) => !locked.includes(cables.find((cable) => cable.tag === tag)?.id ?? ''))).toEqual([]);
      }
      return;
    }
    const hasty = answer.notProved[0] ?? answer.unmet.find(({ proved }) => !proved);
    if (hasty) {
      expect(each.budget).toBeDefined();
      if (answer.unmet.length === 0) expect(answer.volume_m3).toBeGreaterThanOrEqual(all.least_m3 * (1 - 1e-12));
      for (const { bound_m3, volume_m3: found } of answer.notProved) expect(found).toBeGreaterThanOrEqual(bound_m3 * (1 - 1e-12));
      return;
    }
    expect([answer.unmet, answer.notProved]).toEqual([[], []]);
    expect(answer.volume_m3).toBeCloseTo(all.least_m3, 12);
    for (const { below, breaks, governs } of answer.cables) {
      if (below) expect(breaks).not.toEqual([]);
      expect(governs).toBe(breaks[0]?.check ?? null);
    }
    // What stands beside the answer, the whole review says of the line-up with it too.
    const said = new Set(review(answer.lineUp).findings.map(({ id }) => id));
    expect(answer.beside.filter(({ id }) => !said.has(id))).toEqual([]);
  });
});
