import { spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { cpus, loadavg, totalmem } from 'node:os';
import { fileURLToPath } from 'node:url';
import type { Row } from './row.ts';

/** `npm run bench` measures everything, `npm run bench -- waves memory` some of it: what is measured is printed and written into README.md. */

const PARTS = {
  engine: () => import('./engine.ts'),
  instructions: () => import('./instructions.ts'),
  waves: () => import('./waves.ts'),
  copper: () => import('./copper.ts'),
  package: () => import('./package.ts'),
  folder: () => import('./folder.ts'),
  weights: () => import('./weights.ts'),
  editor: () => import('./editor.ts'),
  memory: () => import('./memory.ts'),
} satisfies Record<string, () => Promise<{ rows: () => Promise<readonly Row[]> }>>;
type Part = keyof typeof PARTS;
const isPart = (name: string): name is Part => Object.hasOwn(PARTS, name);

const README = new URL('README.md', import.meta.url);

async function measure(part: Part): Promise<void> {
  const { rows } = await PARTS[part]();
  const before = loadavg()[0] ?? 0;
  const found = await rows();
  const cell = (text: string | undefined): string => text ?? '';
  const lines = found.map(({ what, figure, yardstick, ratio, budget, met }) =>
    [what, figure, yardstick, ratio, budget, met === undefined ? '' : met ? 'met' : '**not met**'].map(cell),
  );
  const heads = ['what', 'figure', 'yardstick', 'ratio', 'budget', ''];
  const machine = `${new Date().toISOString().slice(0, 10)}, ${cpus().length} processors (${cpus()[0]?.model.trim() || 'of a kind not told'}), ${(totalmem() / 2 ** 30).toFixed(0)} GB, ${process.platform}, Node ${process.versions.node}. Work waiting for a processor before and after, a minute's mean: ${before.toFixed(1)} and ${(loadavg()[0] ?? 0).toFixed(1)}.`;
  // In columns, as the formatter of the project wants them.
  const widths = heads.map((_, at) => Math.max(3, ...[heads, ...lines].map((cells) => cells[at]?.length ?? 0)));
  const table = [heads, widths.map((width) => '-'.repeat(width)), ...lines]
    .map((cells) => `| ${cells.map((text, at) => text.padEnd(widths[at] ?? 0)).join(' | ')} |`)
    .join('\n');
  const text = `${machine}\n\n${table}`;
  console.log(`\n${part}: ${text}`);
  const readme = readFileSync(README, 'utf8');
  const [open, close] = [`<!-- ${part} -->`, `<!-- /${part} -->`];
  const [from, to] = [readme.indexOf(open), readme.indexOf(close)];
  if (from < 0 || to < from) throw new Error(`README.md has no place for ${part}`);
  writeFileSync(README, `${readme.slice(0, from + open.length)}\n${text}\n${readme.slice(to)}`);
}

const asked = process.argv.slice(2);
const unknown = asked.filter((name) => !isPart(name));
if (unknown.length > 0) {
  console.error(`${unknown.join(', ')}: not measured here. There is ${Object.keys(PARTS).join(', ')}.`);
  process.exitCode = 2;
} else if (asked.length === 1) await measure(asked[0] as Part);
// Each in a process of its own, so that none pays for what another left behind.
else
  for (const part of asked.length > 0 ? asked : Object.keys(PARTS)) {
    const { status } = spawnSync(process.execPath, ['--import', 'tsx', fileURLToPath(import.meta.url), part], { stdio: 'inherit' });
    if (status !== 0) {
      console.error(`${part}: not measured`);
      process.exitCode = 1;
    }
  }
