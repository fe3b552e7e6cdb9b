import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Browser, chromium, type Page } from '@playwright/test';
import { build, preview } from 'vite';
import { save, tidyPositions } from '../../engine/index.ts';
import { manyRuns } from '../engine/manyRuns.ts';
import { findBrowser } from '../findBrowser.ts';
import { inMs, median, type Row, times } from './row.ts';

/**
 * How quickly the editor answers a hand, beside a bare page of the canvas library with as many boxes: in turns, in one run, so that what
 * else the machine does falls on both.
 */

const TURNS = 7;

interface Site {
  readonly elements: number;
  readonly runs: number;
  /** Of the worst event. */
  readonly budget_ms: number;
}
const SITES: readonly Site[] = [
  { elements: 101, runs: 33, budget_ms: 48 },
  { elements: 1001, runs: 333, budget_ms: 96 },
];

/** What listens to an event, until the browser may go on to paint: of the longest of a turn. */
const HANDLER_ms = 8;
const HANDLER = `at most ${HANDLER_ms} ms in the median`;

/** What the browser itself says of every event of 16 ms or more, and of every task of more than 50 ms. */
async function watch(page: Page): Promise<void> {
  await page.addInitScript(() => {
    const seen = { events: [] as number[], handlers: [] as number[], tasks: [] as number[] };
    Object.assign(window, { seen });
    new PerformanceObserver((list) => {
      for (const each of list.getEntries() as PerformanceEventTiming[]) {
        seen.events.push(each.duration);
        seen.handlers.push(each.processingEnd - each.processingStart);
      }
    }).observe({
      type: 'event',
      durationThreshold: 16,
      buffered: true,
    } as PerformanceObserverInit);
    new PerformanceObserver((list) => seen.tasks.push(...list.getEntries().map((each) => each.duration))).observe({
      type: 'longtask',
      buffered: true,
    });
  });
}
interface Seen {
  readonly events: readonly number[];
  /** Of the same events: how long what listens to them took. */
  readonly handlers: readonly number[];
  readonly tasks: readonly number[];
}
/** Until the page has painted and has nothing more to do. A page behind another paints nothing, so it is brought to the front; and none waits for ever. */
async function settle(page: Page): Promise<void> {
  await page.bringToFront();
  await page.evaluate(
    () =>
      new Promise((done) => {
        setTimeout(done, 3000);
        requestAnimationFrame(() => requestIdleCallback(() => requestAnimationFrame(done), { timeout: 1000 }));
      }),
  );
}
/** What came before does not count: a page that comes to the front, what was looked up in it. */
async function forget(page: Page): Promise<void> {
  await settle(page);
  await page.waitForTimeout(200);
  await page.evaluate(() => {
    const { seen } = window as unknown as { seen: { events: number[]; handlers: number[]; tasks: number[] } };
    for (const list of Object.values(seen)) list.length = 0;
  });
}
async function worst(page: Page): Promise<{ readonly event: number; readonly handler: number; readonly task: number }> {
  await settle(page);
  // Entries arrive after the frame that they speak of.
  await page.waitForTimeout(200);
  const { events, handlers, tasks } = await page.evaluate(() => (window as unknown as { seen: Seen }).seen);
  return { event: Math.max(0, ...events), handler: Math.max(0, ...handlers), task: Math.max(0, ...tasks) };
}

const middleOf = async (page: Page, selector: string): Promise<{ readonly x: number; readonly y: number }> => {
  const box = await page.locator(selector).first().boundingBox();
  if (!box) throw new Error(`nothing is at ${selector}`);
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
};

/** The gestures of drawing: zoom in on a place, pan, drag a part, choose parts. */
async function gestures(page: Page, node: string): Promise<void> {
  const at = await middleOf(page, node);
  await page.mouse.move(at.x, at.y);
  for (let i = 0; i < 8; i++) await page.mouse.wheel(0, -240);
  await settle(page);
  for (let i = 0; i < 8; i++) await page.mouse.wheel(0, 240);
  await settle(page);
  const again = await middleOf(page, node);
  await page.mouse.move(again.x, again.y);
  await page.mouse.down();
  for (let i = 1; i <= 30; i++) await page.mouse.move(again.x + i, again.y + i);
  await page.mouse.up();
  await settle(page);
  // What was dragged is chosen, and its ports may lie over it: it is chosen again from none.
  await page.keyboard.press('Escape');
  await settle(page);
  await page.mouse.click(again.x + 30, again.y + 30);
  await settle(page);
  await page.keyboard.press('Escape');
}

/** So near that a click meets a part and not the ports round it. */
async function nearer(page: Page, node: string): Promise<void> {
  await page.bringToFront();
  const at = await middleOf(page, node);
  await page.mouse.move(at.x, at.y);
  for (let i = 0; i < 12; i++) await page.mouse.wheel(0, -240);
  await settle(page);
}

/** A connection begun by a click on a port, and let go. */
async function begun(page: Page, node: string): Promise<number> {
  const at = await middleOf(page, `${node} .react-flow__handle`);
  await forget(page);
  await page.mouse.click(at.x, at.y);
  await page.keyboard.press('Escape');
  return (await worst(page)).event;
}

async function timed(page: Page, nodes: number, open: () => Promise<unknown>): Promise<number> {
  // A page that comes to the front is painted: that is not part of its start.
  await settle(page);
  const from = Date.now();
  await open();
  await page.waitForFunction((count) => document.querySelectorAll('.react-flow__node').length >= count, nodes, { polling: 'raf' });
  return Date.now() - from;
}

async function ours(browser: Browser, address: string, site: Site) {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
  const page = await context.newPage();
  await watch(page);
  await page.goto(address);
  await page.getByRole('button', { name: 'Blank sheet' }).waitFor();
  const runs = manyRuns(site.runs);
  await page.locator('.page').evaluate(
    (target, text) => {
      const dataTransfer = new DataTransfer();
      dataTransfer.items.add(new File([text], 'site.json', { type: 'application/json' }));
      target.dispatchEvent(new DragEvent('drop', { dataTransfer, bubbles: true, cancelable: true }));
    },
    save({ ...runs, positions: tidyPositions(runs) }),
  );
  await page.waitForFunction((count) => document.querySelectorAll('.react-flow__node').length >= count, site.elements);
  await page.waitForTimeout(3000);
  return { context, page };
}

async function bare(browser: Browser, address: string, site: Site) {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
  const page = await context.newPage();
  await watch(page);
  await page.goto(`${address}?runs=${site.runs}`);
  await page.waitForFunction((count) => document.querySelectorAll('.react-flow__node').length >= count, site.elements);
  return { context, page };
}

export async function rows(): Promise<readonly Row[]> {
  const found: Row[] = [];
  const executablePath = findBrowser();
  if (!executablePath) throw new Error('no browser');
  const folder = mkdtempSync(join(tmpdir(), 'copperline-bench-'));
  const root = join(import.meta.dirname, '../..');
  const outs = { ours: join(folder, 'ours'), bare: join(folder, 'bare') };
  await build({ root, logLevel: 'silent', build: { outDir: outs.ours, emptyOutDir: true } });
  await build({
    root: join(import.meta.dirname, 'bare'),
    configFile: false,
    logLevel: 'silent',
    build: { outDir: outs.bare, emptyOutDir: true },
  });
  const servers = await Promise.all([
    preview({ root, logLevel: 'silent', build: { outDir: outs.ours }, preview: { port: 4391 } }),
    preview({
      root: join(import.meta.dirname, 'bare'),
      configFile: false,
      logLevel: 'silent',
      build: { outDir: outs.bare },
      preview: { port: 4392 },
    }),
  ]);
  const [oursAt = '', bareAt = ''] = servers.map(({ resolvedUrls }) => resolvedUrls?.local[0]);
  const browser = await chromium.launch({ executablePath, args: ['--no-sandbox', '--disable-gpu'] });
  try {
    for (const site of SITES) {
      const a = await ours(browser, oursAt, site);
      const b = await bare(browser, bareAt, site);
      // In the middle of the sheet, where fitting leaves it in sight.
      const motor = `M-${Math.ceil(site.runs / 2)}`;
      const [ourMotor, bareMotor] = [`.react-flow__node:has([data-part="${motor}"])`, `.react-flow__node[data-id="${motor}"]`];
      const starts = { ours: [] as number[], bare: [] as number[] };
      for (let turn = 0; turn < TURNS; turn++) {
        starts.ours.push(await timed(a.page, site.elements, () => a.page.reload()));
        starts.bare.push(await timed(b.page, site.elements, () => b.page.reload()));
      }
      const events = { ours: [] as number[], bare: [] as number[] };
      const handlers = { ours: [] as number[], bare: [] as number[] };
      const tasks: number[] = [];
      const edits: number[] = [];
      const entered: number[] = [];
      await a.page.waitForTimeout(2000);
      for (let turn = 0; turn < TURNS; turn++) {
        await forget(a.page);
        await gestures(a.page, ourMotor);
        const seen = await worst(a.page);
        events.ours.push(seen.event);
        handlers.ours.push(seen.handler);
        tasks.push(seen.task);
        await forget(b.page);
        await gestures(b.page, bareMotor);
        const beside = await worst(b.page);
        events.bare.push(beside.event);
        handlers.bare.push(beside.handler);
      }
      await nearer(a.page, ourMotor);
      await nearer(b.page, bareMotor);
      const ports = { ours: [] as number[], bare: [] as number[] };
      for (let turn = 0; turn < TURNS; turn++) {
        ports.ours.push(await begun(a.page, ourMotor));
        ports.bare.push(await begun(b.page, bareMotor));
      }
      await a.page.bringToFront();
      const part = await middleOf(a.page, ourMotor);
      await a.page.mouse.click(part.x, part.y);
      await a.page.getByLabel('Nameplate current', { exact: true }).focus();
      for (let turn = 0; turn < TURNS; turn++) {
        await forget(a.page);
        // By keys alone: what looks a field up takes as long as what is measured.
        await a.page.keyboard.press('Control+A');
        await a.page.keyboard.type(`${70 + turn}`);
        await a.page.keyboard.press('Enter');
        const seen = await worst(a.page);
        edits.push(seen.event);
        entered.push(seen.handler);
        tasks.push(seen.task);
      }
      const worstOf = (list: readonly number[]): string => `${inMs(median(list))}, at worst ${inMs(Math.max(...list))}`;
      const start = median(starts.ours) / median(starts.bare);
      found.push(
        {
          what: `start, from reload to the last of ${site.elements} parts`,
          figure: inMs(median(starts.ours)),
          yardstick: `${inMs(median(starts.bare))} for the bare page`,
          ratio: times(median(starts.ours), median(starts.bare)),
          budget: 'at most 1.3 times',
          met: start <= 1.3,
        },
        {
          what: `longest event while zooming, dragging, choosing, ${site.elements} elements`,
          figure: worstOf(events.ours),
          yardstick: `${worstOf(events.bare)} for the bare page`,
          // Below 16 ms nothing is told, so a ratio of nothing says nothing.
          ...(median(events.bare) > 0 ? { ratio: times(median(events.ours), median(events.bare)) } : {}),
          budget: `at worst ${site.budget_ms} ms`,
          met: Math.max(...events.ours) <= site.budget_ms,
        },
        {
          what: `longest handler of those events, ${site.elements} elements`,
          figure: worstOf(handlers.ours),
          yardstick: `${worstOf(handlers.bare)} for the bare page`,
          budget: HANDLER,
          met: median(handlers.ours) <= HANDLER_ms,
        },
        {
          what: `longest event of a connection begun at a port, ${site.elements} elements`,
          figure: worstOf(ports.ours),
          yardstick: `${worstOf(ports.bare)} for the bare page`,
          ...(median(ports.bare) > 0 ? { ratio: times(median(ports.ours), median(ports.bare)) } : {}),
          budget: `at worst ${site.budget_ms} ms`,
          met: Math.max(...ports.ours) <= site.budget_ms,
        },
        {
          what: `longest event of one field edited, ${site.elements} elements`,
          figure: worstOf(edits),
          budget: `at worst ${site.budget_ms} ms`,
          met: Math.max(...edits) <= site.budget_ms,
        },
        {
          what: `longest handler of one field edited, ${site.elements} elements`,
          figure: worstOf(entered),
          budget: HANDLER,
          met: median(entered) <= HANDLER_ms,
        },
        {
          what: `longest task (none counts below 50 ms), ${site.elements} elements`,
          figure: worstOf(tasks),
          ...(site.elements < 1000 ? { budget: 'none above 50 ms', met: Math.max(...tasks) === 0 } : {}),
        },
      );
      await a.context.close();
      await b.context.close();
    }
  } finally {
    await browser.close();
    await Promise.all(servers.map((each) => each.close()));
    rmSync(folder, { recursive: true });
  }
  return found;
}
