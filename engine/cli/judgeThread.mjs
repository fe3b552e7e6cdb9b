import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { parentPort } from 'node:worker_threads';
import { register } from 'tsx/esm/api';

/** A thread that judges one file after another. It begins as plain script, since a thread learns to read TypeScript only here. */

register();
await import('./named.ts');
const { answer } = await import('./judgeFiles.ts');

// Nothing of a file is kept after it, but a thread would rather grow than look: with many files that is hundreds of megabytes.
setFlagsFromString('--expose-gc');
const tidy = runInNewContext('gc');

parentPort.on('message', async (job) => {
  parentPort.postMessage(await answer(job));
  tidy();
});
