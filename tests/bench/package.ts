import { fork } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { review } from '../../engine/index.ts';
import { write } from '../../engine/submittal/formats.ts';
import { EVERY_SHEET } from '../../engine/submittal/sections.ts';
import { manyRuns } from '../engine/manyRuns.ts';

/** How long a set of every kind of sheet takes, and the most memory that it asks for, each in a process of its own. Reported, never asserted. */

const SITES = [1, 10, 50] as const;

interface Measured {
  readonly cables: number;
  readonly seconds: number;
  readonly bytes: number;
  readonly most_MB: number;
}

async function measured(runs: number): Promise<Measured> {
  const lineUp = manyRuns(runs);
  const font = (name: string) => new Uint8Array(readFileSync(new URL(`../../public/fonts/${name}.ttf`, import.meta.url)));
  const fonts = async () => ({ regular: font('SourceSans3_400Regular'), semibold: font('SourceSans3_600SemiBold') });
  const from = performance.now();
  const [set] = await write('pdf', { lineUp, review: review(lineUp), date: '2026-11-25', fonts, sheets: EVERY_SHEET });
  return {
    cables: lineUp.cables.filter((each) => each.kind === 'cable').length,
    seconds: (performance.now() - from) / 1000,
    bytes: set?.bytes.length ?? 0,
    most_MB: process.resourceUsage().maxRSS / 1024,
  };
}

const runs = process.argv[2];
if (runs) process.send?.(await measured(Number(runs)));
else
  for (const site of SITES) {
    const child = fork(new URL(import.meta.url), [`${site}`]);
    const { cables, seconds, bytes, most_MB } = await new Promise<Measured>((resolve, reject) => {
      child.once('message', (answer) => resolve(answer as Measured));
      child.once('exit', () => reject(new Error('the process ended without an answer')));
    });
    console.log(
      `${cables} cables, every kind of sheet: ${seconds.toFixed(1)} s, ${(bytes / 1e6).toFixed(1)} MB written, ${most_MB.toFixed(0)} MB of memory at most`,
    );
  }
