import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { build } from 'vite';
import { buildId } from '../../engine/cli/buildId.ts';
import type { LineUp } from '../../engine/index.ts';
import { load } from '../../engine/index.ts';
import { randomLineUp } from '../second/randomLineUp.ts';
import { expect, test } from './guard.ts';
import { printed } from './printed.ts';

/** What is printed in a browser is, to the byte, what Node prints: other engines of JavaScript may differ in the last bit of a sine, never in a figure that is shown. */

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url));
const EXAMPLES = here('../../examples/');
const RANDOM = 200;

const examples = readdirSync(EXAMPLES)
  .filter((name) => name.endsWith('.json'))
  .map((name): readonly [string, LineUp] => {
    const loaded = load(readFileSync(`${EXAMPLES}${name}`, 'utf8'));
    if (!loaded.ok) throw new Error(`${name} does not open`);
    return [name, loaded.lineUp];
  });
const random = Array.from({ length: RANDOM }, (_, i): readonly [string, LineUp] => [`seed ${i}`, randomLineUp(i)]);

test('the report is the same in Chromium as in Node, and prints no number that is none', async ({ page }) => {
  test.setTimeout(180_000);
  const made = await build({
    configFile: false,
    logLevel: 'silent',
    define: { 'globalThis.COPPERLINE_BUILD': JSON.stringify(buildId()) },
    build: { write: false, minify: false, lib: { entry: here('./printed.ts'), formats: ['iife'], name: 'Printed', fileName: 'printed' } },
  });
  const [output] = Array.isArray(made) ? made : [made];
  const chunk = output && 'output' in output ? output.output[0] : undefined;
  await page.addScriptTag({ content: chunk?.code ?? '' });
  for (const [name, lineUp] of [...examples, ...random]) {
    const there = await page.evaluate(
      (given) => (globalThis as unknown as { Printed: { printed: (lineUp: unknown) => string } }).Printed.printed(given),
      lineUp,
    );
    const ours = printed(lineUp);
    // As one word: a difference of a whole report would be pages.
    expect(there === ours ? 'alike' : firstDifference(there, ours), name).toBe('alike');
    expect(/\b(NaN|undefined|Infinity)\b/.exec(ours)?.[0] ?? 'none', name).toBe('none');
  }
});

function firstDifference(a: string, b: string): string {
  let at = 0;
  while (at < a.length && a[at] === b[at]) at++;
  return `…${a.slice(at - 60, at + 60)}… is, in Node, …${b.slice(at - 60, at + 60)}…`;
}
