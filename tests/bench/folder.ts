import { spawn } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { save } from '../../engine/index.ts';
import { randomLineUp } from '../second/randomLineUp.ts';
import { inMs, type Row, times } from './row.ts';

/** A folder of thousands judged by the command line, and judged again where all results are there; memory beside that of a tenth as many. */

const MOST = Number(process.env['FILES'] ?? 2000);

interface Measured {
  readonly ms: number;
  /** Most memory that was asked for, by what the kernel says of the process; null where it says nothing. */
  readonly most_MB: number | null;
}

function judged(site: string, kept: string): Promise<Measured> {
  const from = performance.now();
  const root = join(import.meta.dirname, '../..');
  const child = spawn(process.execPath, ['--import', 'tsx', 'engine/cli/main.ts', site, '--out', kept], { cwd: root, stdio: 'ignore' });
  let most_MB: number | null = null;
  const look = setInterval(() => {
    try {
      const found = /VmHWM:\s+(\d+) kB/.exec(readFileSync(`/proc/${child.pid}/status`, 'utf8'))?.[1];
      if (found) most_MB = Number(found) / 1024;
    } catch {
      // Not every system tells.
    }
  }, 100);
  return new Promise((resolve) =>
    child.once('close', () => {
      clearInterval(look);
      resolve({ ms: performance.now() - from, most_MB });
    }),
  );
}

export async function rows(): Promise<readonly Row[]> {
  const folder = mkdtempSync(join(tmpdir(), 'copperline-bench-'));
  try {
    const found: Row[] = [];
    let few: Measured | null = null;
    for (const files of [Math.round(MOST / 10), MOST]) {
      const [site, kept] = [join(folder, `${files}`), join(folder, `${files} kept`)];
      mkdirSync(site);
      for (let i = 0; i < files; i++) writeFileSync(join(site, `line-${i}.json`), save(randomLineUp(i)));
      const whole = await judged(site, kept);
      const again = await judged(site, kept);
      few ??= whole;
      const memory = whole.most_MB === null ? '' : `, ${whole.most_MB.toFixed(0)} MB of memory at most`;
      found.push(
        {
          what: `${files} files judged, each result kept`,
          figure: `${inMs(whole.ms)}${memory}`,
          yardstick:
            few === whole ? `${inMs(whole.ms / files)} a file` : `${few.most_MB?.toFixed(0) ?? '?'} MB for ${Math.round(MOST / 10)} files`,
          ...(few !== whole && few.most_MB && whole.most_MB ? { ratio: times(whole.most_MB, few.most_MB) } : {}),
        },
        {
          what: `${files} files, all results there already`,
          figure: inMs(again.ms),
          yardstick: `${inMs(whole.ms)} to judge them`,
          ratio: times(again.ms, whole.ms),
        },
      );
    }
    return found;
  } finally {
    rmSync(folder, { recursive: true });
  }
}
