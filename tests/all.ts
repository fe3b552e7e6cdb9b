import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { findBrowser, installPackages } from './findBrowser.ts';

/** What `npm test` runs: every stage, even after one has failed. The last line says how many passed and failed. */

let passed = 0;
let failed = 0;
const folder = mkdtempSync(join(tmpdir(), 'copperline-'));

function stage(title: string, command: string, args: readonly string[], env: NodeJS.ProcessEnv = {}): boolean {
  console.log(`\n── ${title}`);
  const ok = spawnSync(command, args, { stdio: 'inherit', env: { ...process.env, ...env } }).status === 0;
  if (!ok) console.log(`── ${title}: failed`);
  return ok;
}

function alone(title: string, command: string, args: readonly string[]): boolean {
  const ok = stage(title, command, args);
  if (ok) passed++;
  else failed++;
  return ok;
}

function count(file: string, ok: boolean, read: (report: Record<string, unknown>) => readonly [number, number]): void {
  const [good, bad] = existsSync(file) ? read(JSON.parse(readFileSync(file, 'utf8'))) : [0, 1];
  passed += good;
  failed += bad + (ok || bad > 0 ? 0 : 1);
}

const has = (command: string, flag: string): boolean => spawnSync(command, [flag]).error === undefined;
if (process.env['CI']) {
  const wanted = [
    ...(has('ngspice', '--version') ? [] : ['ngspice']),
    ...(has('pdftotext', '-v') ? [] : ['poppler-utils']),
    ...(has('qpdf', '--version') ? [] : ['qpdf']),
  ];
  if (wanted.length > 0) installPackages(wanted);
}

alone('types', 'npx', ['tsc', '--build', '--force']);
alone('lint and format', 'npx', ['biome', 'check', '--error-on-warnings', '.']);
alone('unused code', 'npx', ['knip']);

const unit = join(folder, 'unit.json');
const unitOk = stage('unit, reference and property tests', 'npx', [
  'vitest',
  'run',
  '--reporter=default',
  '--reporter=json',
  `--outputFile.json=${unit}`,
]);
count(unit, unitOk, (report) => [Number(report['numPassedTests']), Number(report['numFailedTests'])]);

if (alone('build', 'npx', ['vite', 'build'])) {
  const browser = findBrowser();
  if (browser) {
    const file = join(folder, 'browser.json');
    const ok = stage('browser tests', 'npx', ['playwright', 'test', '--reporter=line,json'], {
      CHROMIUM_PATH: browser,
      PLAYWRIGHT_JSON_OUTPUT_NAME: file,
    });
    count(file, ok, (report) => {
      const stats = report['stats'] as Record<string, number>;
      return [stats['expected'] ?? 0, (stats['unexpected'] ?? 0) + (stats['flaky'] ?? 0)];
    });
  } else failed++;
}

console.log(`\n${passed} passed, ${failed} failed`);
process.exit(failed === 0 ? 0 : 1);
