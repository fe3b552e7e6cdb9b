import { describe, expect, it } from 'vitest';
import { createReviewer } from '../../engine/index.ts';
import { manyRuns, withLongerLead } from './manyRuns.ts';

const afterEdit = (runs: number): number => {
  const reviewer = createReviewer();
  const site = manyRuns(runs);
  expect(reviewer.review(site).recomputed).toBeGreaterThan(10 * runs);
  return reviewer.review(withLongerLead(site)).recomputed;
};

describe('what an edit recomputes', () => {
  it('depends on what a lead touches, not on the size of the site', () => {
    const small = afterEdit(5);
    expect(small).toBeGreaterThan(0);
    expect(afterEdit(50)).toBe(small);
  });

  it('is nothing when a part is moved', () => {
    const reviewer = createReviewer();
    const site = manyRuns(3);
    const before = reviewer.review(site);
    const after = reviewer.review({ ...site, positions: { e1: { x_mm: 10, y_mm: 20 } } });
    expect(after.recomputed).toBe(0);
    expect(after.findings).toBe(before.findings);
  });

  it('leaves the same answer as a fresh review', () => {
    const reviewer = createReviewer();
    const site = manyRuns(4);
    reviewer.review(site);
    const { recomputed: _a, ...warm } = reviewer.review(withLongerLead(site));
    const { recomputed: _b, ...fresh } = createReviewer().review(withLongerLead(site));
    expect(JSON.stringify(warm)).toBe(JSON.stringify(fresh));
  });
});
