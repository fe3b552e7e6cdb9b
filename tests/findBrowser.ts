import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';

/** A Chromium for the browser tests: one that is there, else one from the system's packages, else null with what to do printed. */

const NAMES = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable', 'chrome'];

const onPath = (): string | null => {
  const own = process.env['CHROMIUM_PATH'];
  if (own && existsSync(own)) return own;
  for (const folder of (process.env['PATH'] ?? '').split(delimiter)) {
    for (const name of NAMES) if (existsSync(join(folder, name))) return join(folder, name);
  }
  return null;
};

export function findBrowser(): string | null {
  const found = onPath();
  if (found) return found;
  installPackages(['chromium']);
  const installed = onPath();
  if (!installed)
    console.error(
      'No Chromium was found and none could be installed. Install one (Debian: apt-get install chromium) or set CHROMIUM_PATH, then run npm test again.',
    );
  return installed;
}

/** With Debian's package manager, as root; elsewhere nothing happens. */
export function installPackages(names: readonly string[]): void {
  if (process.getuid?.() !== 0 || spawnSync('apt-get', ['--version']).status !== 0) return;
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  console.log(`Installing ${names.join(', ')} …`);
  spawnSync('apt-get', ['update', '-qq'], { stdio: 'inherit', env });
  spawnSync('apt-get', ['install', '-y', '-qq', ...names], { stdio: ['ignore', 'ignore', 'inherit'], env });
}
