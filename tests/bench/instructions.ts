import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'vite';
import type { Row } from './row.ts';

/**
 * How many instructions a review takes, counted by callgrind: the count of one program repeats to a few parts in ten thousand on whatever machine runs the
 * same Node, so that a change of the engine shows where times only waver. Without the compilers, which decide by the clock what to compile.
 */

const RUNS = 10;
const ALLOWED_pct = 2;
const WHAT = `instructions of one review of ${RUNS} runs, interpreted`;

export async function rows(): Promise<readonly Row[]> {
  const folder = mkdtempSync(join(tmpdir(), 'copperline-bench-'));
  try {
    await build({
      root: join(import.meta.dirname, '../..'),
      configFile: false,
      logLevel: 'silent',
      build: { ssr: join(import.meta.dirname, 'oneReview.ts'), outDir: folder, copyPublicDir: false },
      ssr: { noExternal: true },
    });
    const program = join(folder, 'oneReview.js');
    const review = counted(program, RUNS) - counted(program, 0);
    const before = recorded();
    const change_pct = before === null ? null : 100 * (review / 1e6 / before - 1);
    return [
      {
        what: WHAT,
        figure: inMillions(review / 1e6),
        ...(before !== null &&
          change_pct !== null && {
            yardstick: `${inMillions(before)} when last written down`,
            ratio: `${change_pct >= 0 ? '+' : '−'}${Math.abs(change_pct).toFixed(2)} %`,
            budget: `more by ${ALLOWED_pct} % at most, else the change says why`,
            met: change_pct <= ALLOWED_pct,
          }),
      },
    ];
  } finally {
    rmSync(folder, { recursive: true });
  }
}

const inMillions = (millions: number): string => `${millions.toFixed(2)} million`;

function counted(program: string, runs: number): number {
  const { error, stderr } = spawnSync(
    'valgrind',
    [
      ...['--tool=callgrind', '--callgrind-out-file=/dev/null'],
      ...[process.execPath, '--jitless', '--predictable', '--single-threaded', '--hash-seed=1', program, `${runs}`],
    ],
    { encoding: 'utf8' },
  );
  if (error) throw new Error('valgrind is not here: instructions are counted by it (Debian: apt-get install valgrind)');
  const told = /Collected : (\d+)/.exec(stderr)?.[1];
  if (told === undefined) throw new Error(`valgrind counted nothing: ${stderr.slice(-500)}`);
  return Number(told);
}

/** In millions, from the table; null at the first time. */
function recorded(): number | null {
  const row = readFileSync(new URL('README.md', import.meta.url), 'utf8')
    .split('\n')
    .find((line) => line.includes(WHAT));
  const told = row && /([\d.]+) million/.exec(row)?.[1];
  return told ? Number(told) : null;
}
