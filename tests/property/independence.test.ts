import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { setValue } from '../../editor/store/edits.ts';
import { type LineUp, review } from '../../engine/index.ts';
import { cableIn, drawn, facts, idOf, RUNS, run } from './oneRun.ts';

/** Laws of what a review hangs on, ten thousand cases each. */

describe('what must not matter, and what must', () => {
  it('another line-up on the same sheet changes nothing of this one', () =>
    fc.assert(
      fc.property(drawn, drawn, (each, stranger) => {
        const site = run(each);
        const far = run({ ...stranger, basis: each.basis });
        const beside: LineUp = {
          ...site,
          elements: [...site.elements, ...far.elements.map((one) => ({ ...one, id: `x${one.id}`, tag: `x${one.tag}` }))],
          cables: [
            ...site.cables,
            ...far.cables.map((one) => ({
              ...one,
              id: `x${one.id}`,
              tag: `x${one.tag}`,
              from: { ...one.from, element: `x${one.from.element}` },
              to: { ...one.to, element: `x${one.to.element}` },
            })),
          ],
        };
        expect(facts(review(beside).findings.filter((one) => !one.subject.id.startsWith('x')))).toEqual(facts(review(site).findings));
      }),
      RUNS,
    ));

  it('a check without a value it needs is open, whatever the others are', () => {
    const needs = [
      ['lead-ampacity', 'W', 'conductor.size'],
      ['lead-ampacity', 'W', 'conductor.metal'],
      ['lead-ampacity', 'W', 'installation.ambient_C'],
      ['lead-ampacity', 'M', 'ratedCurrent_A'],
      ['feeder-ampacity', 'D', 'inputCurrent_A'],
      ['feeder-drop', 'F', 'length_m'],
      ['lead-drop', 'W', 'length_m'],
      ['lead-drop', 'M', 'ratedVoltage_V'],
      ['insulation-moisture', 'W', 'installation.moisture'],
      ['insulation-moisture', 'W', 'insulation.type'],
      ['insulation-wall', 'W', 'insulation.type'],
      ['shield-continuity', 'W', 'from.landing'],
      ['supply-earthing', 'S', 'earthing'],
      ['motor-peak-voltage', 'M', 'insulation'],
      ['critical-length', 'D', 'riseTime_s'],
    ] as const;
    fc.assert(
      fc.property(drawn, fc.constantFrom(...needs), (each, [check, tag, path]) => {
        const site = run(each);
        // The other cable still has its value.
        const other = tag === 'W' ? 'F' : tag === 'F' ? 'W' : '';
        const without = review(setValue(site, idOf(site, tag), path, undefined)).findings.filter(
          (one) => one.check === check && one.subject.tag !== other,
        );
        expect([check, path, without.some((one) => one.verdict === 'open'), without.some((one) => one.verdict === 'pass')]).toEqual([
          check,
          path,
          true,
          false,
        ]);
      }),
      RUNS,
    );
  });

  it('equal sets halve resistance and reactance', () =>
    fc.assert(
      fc.property(drawn, (each) => {
        const [one, two] = [cableIn(run({ ...each, sets: 1 }), 'W'), cableIn(run({ ...each, sets: 2 }), 'W')];
        expect(two?.resistance_ohm).toBeCloseTo((one?.resistance_ohm ?? Number.NaN) / 2, 12);
        expect(two?.reactance_ohm).toBeCloseTo((one?.reactance_ohm ?? Number.NaN) / 2, 12);
      }),
      RUNS,
    ));

  it('a cable drawn the other way round is the same cable', () =>
    fc.assert(
      fc.property(drawn, (each) => {
        const site = run(each);
        const turned = { ...site, cables: site.cables.map((one) => (one.tag === 'W' ? { ...one, from: one.to, to: one.from } : one)) };
        const plain = (lineUp: LineUp) => facts(review(lineUp).findings.filter((one) => one.subject.kind !== 'end'));
        expect(plain(turned)).toEqual(plain(site));
      }),
      RUNS,
    ));
});
