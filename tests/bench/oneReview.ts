import { createReviewer } from '../../engine/index.ts';
import { manyRuns } from '../engine/manyRuns.ts';

/** What `instructions` counts: the engine loaded, and so many runs reviewed once. */
const runs = Number(process.argv[2]);
if (runs > 0) createReviewer().review(manyRuns(runs));
