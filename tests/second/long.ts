import { fork } from 'node:child_process';
import { availableParallelism } from 'node:os';
import { compareFrom, FIXED_SEED } from './compare.ts';

/**
 * The second reckoning on many line-ups, on every core: `npm run second -- [SEED [CASES]]`, otherwise 100,000 of the fixed seed and as
 * many of a fresh one, in portions of a thousand. Where it is is told as it goes, so that a run that was stopped goes on from that seed.
 */

const CASES = 100_000;
const PORTION = 1000;
/** Portions. */
const TOLD_EACH = 5;
type Told = ReturnType<typeof compareFrom>;

if (process.send) process.on('message', (seed: number) => process.send?.(compareFrom(seed, PORTION)));
else {
  const [seed, cases = CASES] = process.argv.slice(2).map(Number);
  if (![seed ?? 0, cases].every(Number.isSafeInteger)) throw new Error('SEED and CASES are whole numbers: npm run second -- 20261126 5000');
  const agree = seed === undefined ? (await tryFrom(FIXED_SEED, CASES)) && (await tryFrom(freshSeed(), CASES)) : await tryFrom(seed, cases);
  process.exit(agree ? 0 : 1);
}

function freshSeed(): number {
  return Math.floor(Math.random() * 2 ** 31);
}

async function tryFrom(seed: number, cases: number): Promise<boolean> {
  const begun = performance.now();
  const queue = Array.from({ length: Math.ceil(cases / PORTION) }, (_, i) => seed + i * PORTION).entries();
  const done: boolean[] = [];
  let [agreed, compared] = [0, 0];
  const take = async (): Promise<void> => {
    const child = fork(new URL(import.meta.url), []);
    for (const [place, own] of queue) {
      const told = await new Promise<Told>((resolve, reject) => {
        child
          .once('message', (answer: Told) => resolve(answer))
          .once('exit', (code) => reject(new Error(`seed ${own}: it ended with ${code}`)));
        child.send(own);
      }).finally(() => child.removeAllListeners());
      // A generator gone dull would compare nothing.
      const dull = told.found.length === 0 && told.compared <= 10 * PORTION;
      for (const each of dull ? [`seed ${own}: only ${told.compared} figures in ${PORTION} line-ups`] : told.found) console.log(each);
      done[place] = told.found.length === 0 && !dull;
      compared += told.compared;
      const before = agreed;
      while (done[agreed]) agreed++;
      if (Math.floor(agreed / TOLD_EACH) > Math.floor(before / TOLD_EACH)) tell();
    }
    child.kill();
  };
  const tell = () =>
    console.log(
      `seed ${seed}: ${agreed * PORTION} line-ups agree, ${compared} figures, ${Math.round((performance.now() - begun) / 1000)} s; goes on from ${seed + agreed * PORTION}`,
    );
  await Promise.all(Array.from({ length: availableParallelism() }, take));
  if (agreed % TOLD_EACH > 0) tell();
  return done.every(Boolean);
}
