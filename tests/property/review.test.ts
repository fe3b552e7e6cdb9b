import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { setValue } from '../../editor/store/edits.ts';
import { createReviewer, review } from '../../engine/index.ts';
import { cableIn, drawn, facts, idOf, RUNS, real, run } from './oneRun.ts';

/** Laws of the whole review, ten thousand cases each. */

describe('laws of the review', () => {
  it('a longer lead loses no less, and leaves the motor no more', () =>
    fc.assert(
      fc.property(drawn, real(1, 3), (each, k) => {
        const site = run(each);
        const reviewer = createReviewer();
        const before = reviewer.review(site);
        const after = reviewer.review(setValue(site, idOf(site, 'W'), 'length_m', each.length_m * k));
        const drop = (list: typeof before) => list.cables.find((one) => one.tag === 'W')?.drop_V ?? Number.POSITIVE_INFINITY;
        expect(drop(after)).toBeGreaterThanOrEqual(drop(before) * (1 - 1e-9));
        const left = (list: typeof before) => list.runs[0]?.terminalVoltage_pct ?? 0;
        expect(left(after)).toBeLessThanOrEqual(left(before) * (1 + 1e-9));
      }),
      RUNS,
    ));

  it('a hotter place never raises what a cable may carry', () =>
    fc.assert(
      fc.property(drawn, real(0, 20), (each, more) => {
        const [cool, hot] = [
          cableIn(run(each), 'W')?.ampacity_A ?? null,
          cableIn(run({ ...each, ambient_C: each.ambient_C + more }), 'W')?.ampacity_A ?? null,
        ];
        if (hot !== null) expect(hot).toBeLessThanOrEqual((cool ?? 0) * (1 + 1e-12));
      }),
      RUNS,
    ));

  it('units on the screen change no number and no verdict', () =>
    fc.assert(
      fc.property(drawn, (each) => {
        const site = run(each);
        const other = { ...site, project: { ...site.project, units: site.project.units === 'us' ? ('metric' as const) : ('us' as const) } };
        expect(facts(review(other).findings)).toEqual(facts(review(site).findings));
      }),
      RUNS,
    ));
});
