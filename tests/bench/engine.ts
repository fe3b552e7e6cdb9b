import { fork, spawnSync } from 'node:child_process';
import { rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createReviewer, review } from '../../engine/index.ts';
import { manyRuns, withLongerLead } from '../engine/manyRuns.ts';
import { inMs, inTurns, median, type Row, times } from './row.ts';

/** What a review costs: in a fresh process, from 1 to 1,000 runs, after one edit; and the command line whole. */

const RUNS = [1, 10, 100, 1000];

export async function rows(): Promise<readonly Row[]> {
  return [...(await cold()), ...(await byRuns()), ...(await growth()), ...commandLine()];
}

const HERE = new URL(import.meta.url);
/** The first review of a process, before anything has been compiled twice. */
async function cold(): Promise<readonly Row[]> {
  const seen: number[] = [];
  for (let turn = 0; turn < 7; turn++)
    seen.push(
      await new Promise((resolve, reject) => {
        const child = fork(HERE, ['first review']);
        child.once('message', (ms) => resolve(Number(ms)));
        child.once('error', reject);
      }),
    );
  const warm = await inTurns({ review: () => review(manyRuns(1)) });
  return [
    {
      what: 'first review of a process, 1 run',
      figure: inMs(median(seen)),
      yardstick: `${inMs(warm.review)} once warm`,
      ratio: times(median(seen), warm.review),
    },
  ];
}
if (process.argv[2] === 'first review') {
  const site = manyRuns(1);
  const from = performance.now();
  review(site);
  process.send?.(performance.now() - from);
}

async function byRuns(): Promise<readonly Row[]> {
  const found: Row[] = [];
  for (const runs of RUNS) {
    const site = manyRuns(runs);
    const reviewer = createReviewer();
    reviewer.review(site);
    let length_m = 40;
    const ms = await inTurns({
      whole: () => createReviewer().review(site),
      edit: () => {
        length_m += 0.001;
        return reviewer.review(withLongerLead(site, length_m));
      },
    });
    const name = `${runs} ${runs === 1 ? 'run' : 'runs'}, ${site.elements.length} elements`;
    found.push(
      { what: `full review, ${name}`, figure: inMs(ms.whole), yardstick: `${inMs(ms.whole / runs)} a run` },
      { what: `one lead edited, ${name}`, figure: inMs(ms.edit), yardstick: `${inMs(ms.whole)} in full`, ratio: times(ms.edit, ms.whole) },
    );
  }
  return found;
}

/** At the size that is budgeted: in full, with leads that are all of other lengths, and after one edit, as the page asks for it. */
async function growth(): Promise<readonly Row[]> {
  const [small, large] = [manyRuns(33), manyRuns(333)];
  const unlike = { ...large, cables: large.cables.map((cable, i) => ({ ...cable, length_m: (cable.length_m ?? 0) + 0.01 * i })) };
  const reviewer = createReviewer();
  reviewer.review(large);
  let length_m = 40;
  const ms = await inTurns(
    {
      small: () => createReviewer().review(small),
      large: () => createReviewer().review(large),
      unlike: () => createReviewer().review(unlike),
      edit: () => {
        length_m += 0.001;
        return reviewer.review(withLongerLead(large, length_m));
      },
    },
    15,
  );
  return [
    { what: 'full review, 1,001 elements', figure: inMs(ms.large), budget: 'at most 30 ms', met: ms.large <= 30 },
    { what: 'full review, 1,001 elements, no two cables of one length', figure: inMs(ms.unlike) },
    { what: 'one lead edited, 1,001 elements', figure: inMs(ms.edit), budget: 'at most 30 ms', met: ms.edit <= 30 },
    {
      what: 'growth from 101 to 1,001 elements',
      figure: inMs(ms.large),
      yardstick: `${inMs(ms.small)} with 101`,
      ratio: times(ms.large, ms.small),
      budget: 'at most 13 times',
      met: ms.large / ms.small <= 13,
    },
  ];
}

/** Started as a user starts it, beside a process that does nothing. */
function commandLine(): readonly Row[] {
  const root = join(import.meta.dirname, '../..');
  const pdf = join(tmpdir(), `copperline-bench-${process.pid}.pdf`);
  const seen = { nothing: [] as number[], check: [] as number[], pdf: [] as number[] };
  const timed = (list: number[], ...args: readonly string[]): void => {
    const from = performance.now();
    spawnSync(process.execPath, args, { cwd: root, stdio: 'ignore' });
    list.push(performance.now() - from);
  };
  const check = ['--import', 'tsx', 'engine/cli/main.ts', 'examples/heron-weir-pumps.json'];
  for (let turn = 0; turn < 7; turn++) {
    timed(seen.nothing, '-e', '0');
    timed(seen.check, ...check);
    timed(seen.pdf, ...check, '--pdf', pdf);
  }
  rmSync(pdf, { force: true });
  const nothing = median(seen.nothing);
  const row = (what: string, list: readonly number[], budget_s: number): Row => ({
    what,
    figure: inMs(median(list)),
    yardstick: `${inMs(nothing)} for a process that does nothing`,
    ratio: times(median(list), nothing),
    budget: `at most ${budget_s} s`,
    met: median(list) <= 1000 * budget_s,
  });
  return [row('command line, one file', seen.check, 0.6), row('command line, one file and its PDF', seen.pdf, 2)];
}
