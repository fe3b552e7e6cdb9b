import { writeFileSync } from 'node:fs';
import { save } from '../../engine/index.ts';
import { manyRuns } from '../engine/manyRuns.ts';
import { test as base, expect } from './guard.ts';
import { DIST, FOLDER, serve } from './site.ts';

/** The built site in a folder of a plain web server. */

const test = base.extend<{ site: string }>({
  // biome-ignore lint/correctness/noEmptyPattern: the runner wants the fixtures it is given in braces
  site: async ({}, use) => {
    const { address, stop } = await serve(DIST);
    await use(address);
    await stop();
  },
  baseURL: ({ site }, use) => use(site),
});

test('it starts, opens an example and writes a package, from a folder', async ({ page, site }) => {
  const faults: string[] = [];
  page.on('response', (response) => response.status() >= 400 && faults.push(response.url()));
  page.on('pageerror', (fault) => faults.push(fault.message));
  await page.goto(site);
  await page.getByText('Heron Weir pumps').click();
  await expect(page.getByText('Heron Weir pumps is not ready to issue')).toBeVisible();
  expect(await page.evaluate(() => document.fonts.check('16px "Copperline Sans"'))).toBe(true);
  const waiting = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Issue package' }).click();
  expect((await waiting).suggestedFilename()).toMatch(/\.pdf$/);
  expect(faults).toEqual([]);
});

test('the thread that judges a large line-up starts in that folder too', async ({ page, site }, info) => {
  await page.addInitScript(() => Reflect.deleteProperty(window, 'showOpenFilePicker'));
  await page.goto(site);
  const file = info.outputPath('runs.json');
  writeFileSync(file, save(manyRuns(12)));
  const [choosing, starting] = [page.waitForEvent('filechooser'), page.waitForEvent('worker')];
  await page.getByRole('button', { name: 'Open a file…' }).click();
  await (await choosing).setFiles(file);
  expect((await starting).url()).toContain(FOLDER);
  await expect(page.getByRole('heading', { name: '12 runs is not ready to issue' })).toBeVisible();
});
