import { describe, expect, it } from 'vitest';
import type { Finding } from '../../../engine/index.ts';
import { choicesOf, standardSizes } from '../../../engine/sizing/choices.ts';
import { type Choices, Site } from '../../../engine/sizing/site.ts';
import { badness, CABLE_CHECKS, SIZE_RULES, worstByUnit } from '../../../engine/sizing/sizeChecks.ts';
import { oneLead, twoDrives, twoMotors } from './oneLead.ts';
import { readExample } from './readExample.ts';

/** What the ladder of a cable leaves out is never asked of the whole again: that holds only while both say the same. */

const MOST_SETS = 2;
/** Every so many of the choices of a cable. */
const STRIDE = 3;
const bad = (finding: Finding | null | undefined): number => (finding ? badness(finding) : 0);

const LINE_UPS = [
  oneLead(),
  twoMotors(),
  twoDrives(),
  ...['alder-mill-fan', 'basalt-ridge-crusher', 'fennel-lane-capping', 'frostmere-cold-store', 'vantage-cleanroom-air'].map(readExample),
];

describe('a check that only the size of its own cable decides', () => {
  const own = CABLE_CHECKS.filter(({ slug }) => SIZE_RULES[slug]?.reach === 'cable');

  it.each(LINE_UPS.map((lineUp) => [lineUp.project.title, lineUp] as const))('says alone what it says in the review of %s', (_, lineUp) => {
    const site = new Site(lineUp);
    const judge = site.judge();
    expect(own.length).toBeGreaterThan(0);
    const rungs = site.cables.map((cable) => choicesOf(standardSizes(cable, lineUp.project.basis), MOST_SETS));
    for (let i = 0; i < Math.max(...rungs.map(({ length }) => length)); i += STRIDE) {
      // All others are of another size meanwhile: it is none of their business.
      const choices: Choices = new Map(
        site.cables.flatMap(({ id }, k) => rungs[k]?.slice(i, i + 1).map((choice) => [id, choice] as const) ?? []),
      );
      const whole = worstByUnit(judge(choices).findings);
      const said = site.cables.flatMap(({ id, tag }) =>
        own.map((check) => {
          const choice = choices.get(id);
          const alone = choice ? site.local(check, id, new Map([[id, choice]])) : null;
          return { tag, check: check.slug, alone: bad(alone), inReview: bad(whole.get(`${check.slug}/${id}`)) };
        }),
      );
      expect(said.filter(({ alone, inReview }) => alone !== inReview)).toEqual([]);
    }
  });
});
