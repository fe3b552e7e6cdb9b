import type { CDPSession, Page } from '@playwright/test';
import { corner, lay, middle, THREE_RUNS } from './desk.ts';
import { test as base, expect, partOf } from './page.ts';
import { counted, watchRenders } from './renders.ts';

/** How much work a gesture costs, in counts. First that the counters count at all. */

const test = base.extend({
  page: async ({ page }, use) => {
    await watchRenders(page);
    await page.reload();
    await page.getByRole('button', { name: 'Blank sheet' }).waitFor();
    await lay(page, THREE_RUNS);
    await use(page);
  },
});

/** How often the engine judged, told by the browser's own count of calls: a name that only the reviewer's result has marks its function. */
async function judged(page: Page, act: () => Promise<void>): Promise<number> {
  const session: CDPSession = await page.context().newCDPSession(page);
  await session.send('Profiler.enable');
  await session.send('Debugger.enable');
  await session.send('Profiler.startPreciseCoverage', { callCount: true, detailed: true });
  await act();
  const { result } = await session.send('Profiler.takePreciseCoverage');
  let calls = 0;
  for (const { scriptId, url, functions } of result) {
    if (!url.includes('/assets/')) continue;
    const { scriptSource } = await session.send('Debugger.getScriptSource', { scriptId });
    const at = scriptSource.indexOf('recomputed:');
    if (at < 0) continue;
    // The innermost function round that place.
    const [inner] = functions
      .flatMap((each) => each.ranges.slice(0, 1))
      .filter((range) => range.startOffset <= at && at < range.endOffset)
      .sort((a, b) => a.endOffset - a.startOffset - (b.endOffset - b.startOffset));
    calls += inner?.count ?? 0;
  }
  await session.detach();
  return calls;
}

test('one field edit judges once, and takes at most two commits', async ({ page }) => {
  await partOf(page, 'M-1').click();
  const field = page.getByLabel('Nameplate current', { exact: true });
  // At the first edit of all the browser is asked for its word to keep the work, and what it says is told.
  await field.fill('70');
  await field.press('Enter');
  await expect(page.getByTestId('saved')).toHaveText(/ in this browser/);
  await field.fill('71');
  let counts = { commits: 0, painted: 0 };
  const calls = await judged(page, async () => {
    counts = await counted(page, () => field.press('Enter'));
  });
  expect(calls).toBe(1);
  // What hangs on the current of the motor, on the sheet and beside it; not the hundred pieces of the drawing.
  expect(counts.painted).toBeGreaterThan(0);
  expect(counts.painted).toBeLessThan(20);
  expect(counts.commits).toBeGreaterThan(0);
  // Two for the edit; one more when the browser has kept it and the sign says so.
  expect(counts.commits).toBeLessThanOrEqual(2 + 1);
});

test('dragging a part renders that part alone, paints nothing and never judges', async ({ page }) => {
  const at = await middle(page, 'M-2');
  await page.mouse.move(at.x, at.y);
  await page.mouse.down();
  await page.mouse.move(at.x + 2, at.y);
  let counts: Awaited<ReturnType<typeof counted>> | null = null;
  const calls = await judged(page, async () => {
    counts = await counted(page, async () => {
      await page.mouse.move(at.x + 60, at.y - 60, { steps: 10 });
    });
  });
  expect(calls).toBe(0);
  const { boxes, painted, commits } = counts ?? { boxes: {}, painted: -1, commits: 0 };
  expect(commits).toBeGreaterThan(0);
  expect(Object.keys(boxes)).toEqual(['M-2']);
  expect(painted).toBe(0);
  await page.mouse.up();
});

test('moving and zooming the sheet renders no part, paints nothing and never judges', async ({ page }) => {
  const at = await corner(page);
  await page.mouse.move(at.x, at.y);
  let counts: Awaited<ReturnType<typeof counted>> | null = null;
  const calls = await judged(page, async () => {
    counts = await counted(page, async () => {
      for (let i = 0; i < 5; i++) await page.mouse.wheel(0, -120);
      for (let i = 0; i < 5; i++) await page.mouse.wheel(20, 15);
    });
  });
  expect(calls).toBe(0);
  const { boxes, painted, commits } = counts ?? { boxes: { none: 0 }, painted: -1, commits: 0 };
  expect(commits).toBeGreaterThan(0);
  expect(boxes).toEqual({});
  expect(painted).toBe(0);
});
