import { bench, describe } from 'vitest';
import { createReviewer } from '../../engine/index.ts';
import { manyRuns, withLongerLead } from '../engine/manyRuns.ts';

for (const runs of [1, 10, 100, 1000]) {
  describe(`${runs} runs`, () => {
    const site = manyRuns(runs);
    bench('full review', () => void createReviewer().review(site), { time: 1000 });
    const reviewer = createReviewer();
    reviewer.review(site);
    let length_m = 40;
    bench(
      'one lead edited',
      () => {
        length_m += 0.001;
        reviewer.review(withLongerLead(site, length_m));
      },
      { time: 1000 },
    );
  });
}
