import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type CDPSession, chromium, type Page } from '@playwright/test';
import { build, preview } from 'vite';
import { findBrowser } from '../findBrowser.ts';
import type { Row } from './row.ts';

/**
 * What is left behind when a line-up is opened, edited, exported and closed again, fifty times, after the browser has been made to collect;
 * and what the steps that can be taken back hold.
 */

const CYCLES = Number(process.env['CYCLES'] ?? 50);
/** Caches of the browser and of the program fill in the first of them. */
const WARM = Math.min(10, Math.floor(CYCLES / 5));

/**
 * The browser's compilers make machine code of whatever runs often, more of it for minutes: 0.8 MB between the tenth cycle and the
 * thirtieth, and snapshots of both hold nothing else that is new. That is theirs, not left behind by the program: they are told to rest.
 */
const NO_MACHINE_CODE = '--js-flags=--no-opt --no-maglev --no-sparkplug --no-flush-bytecode';

interface Held {
  readonly nodes: number;
  readonly listeners: number;
  readonly heap: number;
}

async function held(session: CDPSession): Promise<Held> {
  for (let i = 0; i < 3; i++) await session.send('HeapProfiler.collectGarbage');
  const { metrics } = await session.send('Performance.getMetrics');
  const of = (name: string): number => metrics.find((each) => each.name === name)?.value ?? Number.NaN;
  return { nodes: of('Nodes'), listeners: of('JSEventListeners'), heap: of('JSHeapUsedSize') };
}

/** The sample with a motor chosen; its field for the current. */
async function opened(page: Page) {
  await page.getByRole('button', { name: /^Heron Weir pumps/ }).click();
  await page.locator('.react-flow__node').first().waitFor();
  const part = await page.locator('.react-flow__node:has([data-part="P-2"])').boundingBox();
  if (!part) throw new Error('no P-2 on the sheet');
  await page.mouse.click(part.x + part.width / 2, part.y + part.height / 2);
  return page.getByLabel('Nameplate current', { exact: true });
}

/** As many as are kept. */
const STEPS = 1000;
const WARM_STEPS = 20;

/** Before and after the steps that fill what can be taken back. */
async function steps(page: Page, session: CDPSession): Promise<readonly [Held, Held]> {
  const field = await opened(page);
  await field.focus();
  const enter = async (from: number, to: number): Promise<void> => {
    for (let i = from; i < to; i++) {
      await page.keyboard.press('Control+A');
      await page.keyboard.type(`${60 + i / 100}`);
      await page.keyboard.press('Enter');
    }
    await page.evaluate(() => new Promise((done) => setTimeout(done, 2000)));
  };
  await enter(0, WARM_STEPS);
  const before = await held(session);
  await enter(WARM_STEPS, STEPS);
  return [before, await held(session)];
}

async function cycle(page: Page): Promise<void> {
  const field = await opened(page);
  await field.fill('71');
  await field.press('Enter');
  const waiting = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Issue package' }).click();
  await (await waiting).delete();
  await page.keyboard.press('Control+k');
  await page.getByRole('combobox', { name: 'Find a tag, or do something' }).fill('To the start page');
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: 'Blank sheet' }).waitFor();
  await page.evaluate(() => new Promise((done) => requestIdleCallback(() => setTimeout(done, 300), { timeout: 1000 })));
}

export async function rows(): Promise<readonly Row[]> {
  const executablePath = findBrowser();
  if (!executablePath) throw new Error('no browser');
  const root = join(import.meta.dirname, '../..');
  const outDir = mkdtempSync(join(tmpdir(), 'copperline-bench-'));
  await build({ root, logLevel: 'silent', build: { outDir, emptyOutDir: true } });
  const server = await preview({ root, logLevel: 'silent', build: { outDir }, preview: { port: 4193, strictPort: true } });
  const browser = await chromium.launch({ executablePath, args: ['--no-sandbox', '--disable-gpu', NO_MACHINE_CODE] });
  try {
    const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
    await page.goto('http://localhost:4193/');
    const session = await page.context().newCDPSession(page);
    await session.send('Performance.enable');
    let before: Held | null = null;
    for (let i = 0; i < CYCLES; i++) {
      if (i === WARM) before = await held(session);
      await cycle(page);
    }
    const after = await held(session);
    if (!before) throw new Error('too few cycles');
    const [few, many] = await steps(page, session);
    const kept_MB = (many.heap - few.heap) / 1e6;
    const grown = (100 * (after.heap - before.heap)) / before.heap;
    const count = (what: string, now: number, then: number): Row => ({
      what: `${what} after ${CYCLES} times open, edit, export, close`,
      figure: `${now}`,
      yardstick: `${then} after ${WARM}`,
      ratio: `${now - then >= 0 ? '+' : ''}${now - then}`,
      budget: 'as many',
      met: now <= then,
    });
    return [
      count('nodes of the page', after.nodes, before.nodes),
      count('listeners', after.listeners, before.listeners),
      {
        what: `heap, no machine code in it, after ${CYCLES} times open, edit, export, close`,
        figure: `${(after.heap / 1e6).toFixed(2)} MB`,
        yardstick: `${(before.heap / 1e6).toFixed(2)} MB after ${WARM}`,
        ratio: `${grown >= 0 ? '+' : ''}${grown.toFixed(1)} %`,
        budget: 'at most +2 %',
        met: grown <= 2,
      },
      {
        what: `heap of ${STEPS - WARM_STEPS} more steps that can be taken back, ${STEPS} in all`,
        figure: `${kept_MB.toFixed(2)} MB`,
        budget: 'at most 5 MB',
        met: kept_MB <= 5,
      },
    ];
  } finally {
    await browser.close();
    await server.close();
    rmSync(outDir, { recursive: true });
  }
}
