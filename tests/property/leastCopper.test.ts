import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { badness, SIZE_RULES, worstByUnit } from '../../engine/sizing/sizeChecks.ts';
import { drawn, sized } from './sizedLineUp.ts';

/** The least conductor against every combination there is, on small line-ups of every form. */

const CASES = 1000;

describe('the least conductor', () => {
  it(`is that of every combination there is, in ${CASES} line-ups`, { timeout: 600_000 }, async () => {
    const met = { answered: 0, refused: 0, hasty: 0, barred: 0 };
    await fc.assert(
      fc.asyncProperty(drawn, async (each) => {
        const { all, answer } = await sized(each);
        if (all.least_m3 === null || !all.floorsMet) {
          met.refused++;
          expect(answer.unmet).not.toEqual([]);
          for (const { id, check, subject, verdict, inTheWay } of answer.unmet) {
            if (!inTheWay) continue;
            met.barred++;
            expect(inTheWay.sizes).not.toEqual([]);
            expect(inTheWay.breaks.map((finding) => finding.id)).not.toEqual([]);
            expect(inTheWay.breaks.map((finding) => finding.id)).not.toContain(id);
            // What one cable decides is met by the size that is named, whatever the others have.
            if (SIZE_RULES[check]?.reach !== 'cable') continue;
            const sizes = new Map(
              all.site.cables.flatMap((cable) =>
                inTheWay.sizes.flatMap(({ tag, choice }) => (tag === cable.tag ? [[cable.id, choice] as const] : [])),
              ),
            );
            const said = worstByUnit(all.judge(sizes).findings).get(`${check}/${subject.id}`);
            expect(said ? badness(said) : 0).toBeLessThan(verdict === 'fail' ? 3 : verdict === 'open' ? 2 : 1);
          }
          return;
        }
        const [given] = answer.notProved;
        if (given || answer.unmet.some(({ proved }) => !proved)) {
          met.hasty++;
          expect(each.budget).toBeDefined();
          // What is named passes and so is no less than the least; the bound of some of the cables is not above what all of them need.
          if (answer.unmet.length > 0 || !given) return;
          expect(answer.volume_m3).toBeGreaterThanOrEqual(all.least_m3 * (1 - 1e-12));
          expect(given.bound_m3).toBeLessThanOrEqual(all.least_m3 * (1 + 1e-12));
          expect(given.volume_m3).toBeGreaterThanOrEqual(given.bound_m3 * (1 - 1e-12));
          return;
        }
        met.answered++;
        expect(answer.unmet).toEqual([]);
        expect(answer.volume_m3).toBeCloseTo(all.least_m3, 12);
        // A size less anywhere breaks something.
        for (const cable of answer.cables) if (cable.below) expect(cable.breaks).not.toEqual([]);
      }),
      { numRuns: CASES, seed: 20261125 },
    );
    expect(met.hasty).toBeGreaterThan(0);
    expect(met.barred).toBeGreaterThan(CASES / 20);
    // Both happen, or the drawing of line-ups is of no use.
    expect(Math.min(met.answered, met.refused)).toBeGreaterThan(CASES / 20);
  });
});
