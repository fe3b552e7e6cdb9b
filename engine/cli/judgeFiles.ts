import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import { type Job, type Judged, judgeFile } from './judgeFile.ts';

/** Several files, each on the next free thread; the answers in the order of the files. What goes wrong with one leaves the others alone. */

export async function judgeFiles(jobs: readonly Job[], done: (job: Job, judged: Judged) => void): Promise<readonly Judged[]> {
  const judged: Judged[] = [];
  const queue = jobs.entries();
  const take = async (judge: (job: Job) => Promise<Judged>): Promise<void> => {
    for (const [place, job] of queue) {
      const answer = await judge(job);
      judged[place] = answer;
      done(job, answer);
    }
  };
  // A thread costs a start of its own: one file, or files without a package, are judged here.
  const threads = jobs.some((job) => job.folder !== null) ? Math.min(jobs.length, availableParallelism()) : 1;
  if (threads === 1) await take(judgeFile);
  else
    await Promise.all(
      Array.from({ length: threads }, async () => {
        const worker = new Worker(new URL('./judgeThread.mjs', import.meta.url));
        await take((job) => onThread(worker, job)).finally(() => worker.terminate());
      }),
    );
  return judged;
}

const onThread = (worker: Worker, job: Job): Promise<Judged> =>
  new Promise((resolve, reject) => {
    const settle = (fault: Error | null, answer?: Judged): void => {
      worker.removeAllListeners('message').removeAllListeners('error');
      if (answer) resolve(answer);
      else reject(fault);
    };
    worker.once('message', (answer: Judged) => settle(null, answer));
    worker.once('error', (fault) => settle(fault instanceof Error ? fault : new Error(String(fault))));
    worker.postMessage(job);
  });
