import { spawnSync } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** The independent judge of circuits and waves: a general-purpose simulator from Debian's packages. */

export const hasNgspice = spawnSync('ngspice', ['--version']).status === 0;
if (!hasNgspice)
  console.warn(
    '\n*** SKIPPED: ngspice is not on this machine, so nothing here is held against a circuit simulator. Install the package ngspice. ***\n',
  );

/** Runs a deck and returns its printed measures, by lower-case name. */
export function simulate(deck: string): ReadonlyMap<string, number> {
  const file = join(mkdtempSync(join(tmpdir(), 'copperline-')), 'deck.cir');
  writeFileSync(file, deck);
  const { stdout } = spawnSync('ngspice', ['-b', file], { encoding: 'utf8', timeout: 60_000 });
  const found = new Map<string, number>();
  for (const line of stdout.split('\n')) {
    const match = /^\s*([\w()#.]+)\s*=\s*([-+\d.e]+)/i.exec(line);
    if (match?.[1] && match[2]) found.set(match[1].toLowerCase(), Number(match[2]));
  }
  return found;
}
