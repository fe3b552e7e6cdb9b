import { fileURLToPath } from 'node:url';
import type { Page } from '@playwright/test';
import { build } from 'vite';
import { buildId } from '../../engine/cli/buildId.ts';
import type { LineUp } from '../../engine/index.ts';
import { acceptedReports, asFile, difference } from '../golden/golden.ts';
import { PROJECTS } from '../golden/projects.ts';
import { randomLineUp } from '../second/randomLineUp.ts';
import { expect, test } from './guard.ts';
import { printed } from './printed.ts';

/** What is printed in a browser is, to the byte, what Node prints: other engines of JavaScript may differ in the last bit of a sine, never in a figure that is shown. */

const RANDOM = 200;
const random = Array.from({ length: RANDOM }, (_, i): readonly [string, LineUp] => [`seed ${i}`, randomLineUp(i)]);

type Printed = typeof import('./printed.ts');

/** The engine on an empty page, by the name of Printed. */
async function withEngine(page: Page): Promise<void> {
  const made = await build({
    configFile: false,
    logLevel: 'silent',
    define: { 'globalThis.COPPERLINE_BUILD': JSON.stringify(buildId()) },
    build: {
      write: false,
      minify: false,
      lib: { entry: fileURLToPath(new URL('./printed.ts', import.meta.url)), formats: ['iife'], name: 'Printed', fileName: 'printed' },
    },
  });
  const [output] = Array.isArray(made) ? made : [made];
  const chunk = output && 'output' in output ? output.output[0] : undefined;
  await page.addScriptTag({ content: chunk?.code ?? '' });
}

test('the report is the same in Chromium as in Node, and prints no number that is none', async ({ page }) => {
  test.setTimeout(180_000);
  await withEngine(page);
  for (const [name, lineUp] of [...PROJECTS, ...random]) {
    const there = await page.evaluate((given) => (globalThis as unknown as { Printed: Printed }).Printed.printed(given), lineUp);
    const ours = printed(lineUp);
    // As one word: a difference of a whole report would be pages.
    expect(there === ours ? 'alike' : firstDifference(there, ours), name).toBe('alike');
    expect(/\b(NaN|undefined|Infinity)\b/.exec(ours)?.[0] ?? 'none', name).toBe('none');
  }
});

test('text and JSON of every golden project are, in Chromium, what was accepted', async ({ page }) => {
  test.setTimeout(60_000);
  await withEngine(page);
  for (const [name, lineUp] of PROJECTS) {
    const there = await page.evaluate(
      ([called, given]) => (globalThis as unknown as { Printed: Printed }).Printed.reported(called, given),
      [name, lineUp] as const,
    );
    const told = difference(name, acceptedReports(name), asFile(there));
    if (told !== null) throw new Error(`Chromium says otherwise than what was accepted.\n${told}`);
  }
});

function firstDifference(a: string, b: string): string {
  let at = 0;
  while (at < a.length && a[at] === b[at]) at++;
  return `…${a.slice(at - 60, at + 60)}… is, in Node, …${b.slice(at - 60, at + 60)}…`;
}
