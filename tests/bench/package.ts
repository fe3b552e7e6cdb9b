import { fork } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { review } from '../../engine/index.ts';
import { write } from '../../engine/submittal/formats.ts';
import { EVERY_SHEET } from '../../engine/submittal/sections.ts';
import { manyRuns } from '../engine/manyRuns.ts';
import type { Row } from './row.ts';

/** How long a set of every kind of sheet takes, and the most memory that it asks for, each in a process of its own. */

const SITES = [1, 10, 50] as const;

interface Measured {
  readonly cables: number;
  readonly seconds: number;
  readonly bytes: number;
  readonly most_MB: number;
}

async function measured(runs: number): Promise<Measured> {
  const lineUp = manyRuns(runs);
  const font = (name: string) => new Uint8Array(readFileSync(new URL(`../../public/fonts/${name}.woff`, import.meta.url)));
  const fonts = async () => ({ regular: font('sans-400'), semibold: font('sans-600') });
  const from = performance.now();
  const [set] = await write('pdf', { lineUp, review: review(lineUp), date: '2026-11-25', fonts, sheets: EVERY_SHEET });
  return {
    cables: lineUp.cables.filter((each) => each.kind === 'cable').length,
    seconds: (performance.now() - from) / 1000,
    bytes: set?.bytes.length ?? 0,
    most_MB: process.resourceUsage().maxRSS / 1024,
  };
}

export async function rows(): Promise<readonly Row[]> {
  const found: Row[] = [];
  let first: Measured | null = null;
  for (const site of SITES) {
    const child = fork(new URL(import.meta.url), ['set of sheets', `${site}`]);
    const here = await new Promise<Measured>((resolve, reject) => {
      child.once('message', (answer) => resolve(answer as Measured));
      child.once('exit', () => reject(new Error('the process ended without an answer')));
    });
    first ??= here;
    found.push({
      what: `every kind of sheet, ${here.cables} cables`,
      figure: `${here.seconds.toFixed(1)} s, ${(here.bytes / 1e6).toFixed(1)} MB written, ${here.most_MB.toFixed(0)} MB of memory at most`,
      yardstick: `${first.seconds.toFixed(1)} s for ${first.cables} cables`,
      ratio: `${(here.seconds / first.seconds).toPrecision(3)} times`,
      ...(here.cables === 100 ? { budget: 'at most 10 s and 400 MB', met: here.seconds <= 10 && here.most_MB <= 400 } : {}),
    });
  }
  return found;
}

if (process.argv[2] === 'set of sheets') process.send?.(await measured(Number(process.argv[3])));
