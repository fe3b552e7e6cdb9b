import { expect, it, vi } from 'vitest';
import { review } from '../../../engine/index.ts';
import { manyRuns, withLongerLead } from '../manyRuns.ts';

const solved = vi.hoisted(() => ({ count: 0 }));
vi.mock('../../../engine/physics/wave/edgePeak.ts', async (original) => {
  const real = await original<typeof import('../../../engine/physics/wave/edgePeak.ts')>();
  const edgePeak: typeof real.edgePeak = (...input) => {
    solved.count++;
    return real.edgePeak(...input);
  };
  return { ...real, edgePeak };
});

it('one edge is solved for all the checks of a run, and for all runs whose leads are alike', () => {
  review(manyRuns(5));
  expect(solved.count).toBe(1);
  review(withLongerLead(manyRuns(5)));
  expect(solved.count).toBe(2);
  review(manyRuns(3));
  expect(solved.count).toBe(2);
});
