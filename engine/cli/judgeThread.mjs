import { parentPort } from 'node:worker_threads';
import { register } from 'tsx/esm/api';

/** A thread that judges one file after another. It begins as plain script, since a thread learns to read TypeScript only here. */

register();
await import('./named.ts');
const { answer } = await import('./judgeFiles.ts');

parentPort.on('message', async (job) => parentPort.postMessage(await answer(job)));
