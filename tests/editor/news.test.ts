import { describe, expect, it } from 'vitest';
import { newsOf } from '../../editor/panels/news.ts';
import { setValue } from '../../editor/store/edits.ts';
import { review } from '../../engine/index.ts';
import { manyRuns } from '../engine/manyRuns.ts';

/** What is told of an edit to those who do not see the tally. */

const site = manyRuns(1);
const lead = site.cables.find((each) => each.tag === 'W-1')?.id ?? '';

describe('news of verdicts', () => {
  it('says what fails anew, and what does no more', () => {
    const [good, bad] = [review(site), review(setValue(site, [lead], 'conductor.size', '14 AWG', undefined))];
    const fails =
      bad.findings.filter((each) => each.verdict === 'fail').length - good.findings.filter((each) => each.verdict === 'fail').length;
    expect(fails).toBeGreaterThan(0);
    expect(newsOf(good, bad)).toContain(`${fails} new fail`);
    expect(newsOf(bad, good)).toContain(`${fails} fail no more`);
  });
  it('is silent where nothing changed', () => {
    expect(newsOf(review(site), review(site))).toBe('');
  });
});
