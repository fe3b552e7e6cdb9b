import { availableParallelism } from 'node:os';
import { setFlagsFromString } from 'node:v8';
import { Worker } from 'node:worker_threads';
import { type Job, type Judged, judgeFile } from './judgeFile.ts';
import { judgeAndKeep, type KeepJob, type Outcome } from './keptResult.ts';

/** Several files, each on the next free thread; what goes wrong with one leaves the others alone. */

export type Answer<J extends Job | KeepJob> = J extends KeepJob ? Outcome : Judged;

/** On whichever thread. */
export const answer = (job: Job | KeepJob): Promise<Judged | Outcome> => ('job' in job ? judgeAndKeep(job) : judgeFile(job));

/** A thread costs a start of its own: fewer files without a package are judged here. */
const WORTH_THREADS = 24;

/** @returns the answers in the order of the files */
export async function judgeFiles<J extends Job | KeepJob>(
  jobs: readonly J[],
  done: (job: J, answer: Answer<J>) => void,
): Promise<readonly Answer<J>[]> {
  const answers: Answer<J>[] = [];
  const queue = jobs.entries();
  const take = async (judge: (job: J) => Promise<Judged | Outcome>): Promise<void> => {
    for (const [place, job] of queue) {
      const given = (await judge(job)) as Answer<J>;
      answers[place] = given;
      done(job, given);
    }
  };
  const dear = jobs.length >= WORTH_THREADS || jobs.some((job) => !('job' in job) && job.folder !== null);
  const threads = dear ? Math.min(jobs.length, availableParallelism()) : 1;
  if (threads === 1) await take(answer);
  else {
    // Of all threads begun from here on: a thread would rather grow than look what it needs no more. It takes no longer so.
    setFlagsFromString('--optimize-for-size');
    await Promise.all(
      Array.from({ length: threads }, async () => {
        const worker = new Worker(new URL('./judgeThread.mjs', import.meta.url), { resourceLimits: { maxYoungGenerationSizeMb: 12 } });
        await take((job) => onThread(worker, job)).finally(() => worker.terminate());
      }),
    );
  }
  return answers;
}

const onThread = (worker: Worker, job: Job | KeepJob): Promise<Judged | Outcome> =>
  new Promise((resolve, reject) => {
    const settle = (fault: Error | null, given?: Judged | Outcome): void => {
      worker.removeAllListeners('message').removeAllListeners('error');
      if (given) resolve(given);
      else reject(fault);
    };
    worker.once('message', (given: Judged | Outcome) => settle(null, given));
    worker.once('error', (fault) => settle(fault instanceof Error ? fault : new Error(String(fault))));
    worker.postMessage(job);
  });
