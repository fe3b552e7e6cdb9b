import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from '@playwright/test';
import axe from 'axe-core';
import { load, review } from '../../engine/index.ts';
import { htmlOf } from '../../engine/submittal/html.ts';
import { EVERY_SHEET } from '../../engine/submittal/sections.ts';
import { command, lay, THREE_RUNS } from './desk.ts';
import { expect, test } from './page.ts';

const violations = async (page: Page): Promise<readonly string[]> => {
  // What is chosen is fetched first: until then there is no heading.
  await page.locator('h1').first().waitFor();
  await page.evaluate(axe.source);
  return page.evaluate(async () => {
    const { violations } = await (
      window as unknown as { axe: { run: () => Promise<{ violations: { id: string; nodes: { target: unknown }[] }[] }> } }
    ).axe.run();
    return violations.map(({ id, nodes }) => `${id}: ${JSON.stringify(nodes.map((node) => node.target))}`);
  });
};

for (const colorScheme of ['light', 'dark'] as const) {
  test(`nothing for axe to find, ${colorScheme}`, async ({ page }) => {
    // Many states, and each is read whole.
    test.slow();
    await page.emulateMedia({ colorScheme });
    expect(await violations(page)).toEqual([]);
    await page.getByText('Fennel Lane capping line').click();
    expect(await violations(page)).toEqual([]);
    await page.locator('.finding').first().click();
    expect(await violations(page)).toEqual([]);
    await page.getByRole('button', { name: 'Go to the field' }).click();
    expect(await violations(page)).toEqual([]);
    await page.getByRole('button', { name: 'Export…' }).click();
    await page.getByRole('dialog').waitFor();
    expect(await violations(page)).toEqual([]);
    await page.getByRole('button', { name: 'Close', exact: true }).click();
    await page.getByRole('button', { name: 'All findings' }).click();
    await page.getByText(/^\d+ parts, \d+ cables$/).click();
    await page.getByText('Title block and limits').click();
    expect(await violations(page)).toEqual([]);
    await page.getByRole('button', { name: 'W-1 cable' }).click();
    await page.getByRole('button', { name: 'Add cores' }).click();
    expect(await violations(page)).toEqual([]);
    await page.keyboard.press('Escape');
    await page.keyboard.press('Control+k');
    expect(await violations(page)).toEqual([]);
    await page.keyboard.press('Escape');
    await page.getByRole('button', { name: 'More…' }).click();
    expect(await violations(page)).toEqual([]);
    await page.keyboard.press('Escape');
    await page.getByTestId('sheet').click({ position: { x: 8, y: 8 } });
    await page.keyboard.press('Control+a');
    expect(await violations(page)).toEqual([]);
    await page.keyboard.press('?');
    await expect(page.getByRole('dialog', { name: 'All keys' })).toBeVisible();
    expect(await violations(page)).toEqual([]);
    await page.keyboard.press('Escape');
    await page.keyboard.press('l');
    await page.getByRole('button', { name: 'Paste from a spreadsheet…' }).click();
    await page.getByLabel('Rows from a spreadsheet').fill('W-1\tfar');
    expect(await violations(page)).toEqual([]);
    await page.getByRole('button', { name: 'Back to the sheet' }).click();
    await page.keyboard.press('u');
    await page.getByText('The run as a table').click();
    expect(await violations(page)).toEqual([]);
  });

  test(`nothing for axe to find in what is told of other sizes, ${colorScheme}`, async ({ page }) => {
    await page.emulateMedia({ colorScheme });
    await lay(page, THREE_RUNS);
    await page.locator('.finding').first().click();
    await page.getByText('What would help').click();
    await page
      .getByText(/\d+ better, \d+ worse/)
      .first()
      .click();
    expect(await violations(page)).toEqual([]);
    await command(page, 'W-1A');
    await page.getByText('How long may it be?').click();
    await page.getByRole('table', { name: 'Lengths at which verdicts turn' }).waitFor();
    expect(await violations(page)).toEqual([]);
    await page.getByRole('button', { name: 'Size ladder' }).click();
    await page.getByRole('button', { name: 'Take 1/0 AWG' }).waitFor();
    expect(await violations(page)).toEqual([]);
    await page.keyboard.press('Escape');
    await command(page, 'least copper');
    await page.getByRole('button', { name: 'Find them' }).click();
    await page.getByRole('table', { name: 'Least sizes' }).waitFor();
    expect(await violations(page)).toEqual([]);
  });
}

test('nothing for axe to find in the report, which tells of every finding without script', async ({ page, browser }) => {
  const loaded = load(readFileSync(join(import.meta.dirname, '../../examples/fennel-lane-capping.json'), 'utf8'));
  if (!loaded.ok) throw new Error(loaded.what);
  const answer = review(loaded.lineUp);
  const report = Buffer.from(htmlOf(loaded.lineUp, answer, { date: '2026-11-25', sheets: EVERY_SHEET })).toString();
  // axe is a script: the page that it looks at is let run one, the report itself is not.
  await page.setContent(report.replace(/<meta http-equiv="Content-Security-Policy"[^>]*>/, ''));
  expect(await violations(page)).toEqual([]);
  const still = await (await browser.newContext({ javaScriptEnabled: false })).newPage();
  await still.setContent(report);
  const said = ((await still.locator('main').textContent()) ?? '').replaceAll(/\s+/g, ' ');
  for (const each of answer.findings) expect(said).toContain(each.text.replaceAll(/\s+/g, ' '));
  expect(await still.locator('th:not([scope])').count()).toBe(0);
  await still.close();
});

test('on a phone everything can be read and reached, and nothing is wider than the screen', async ({ page }) => {
  await page.setViewportSize({ width: 390, height: 844 });
  const fits = () => page.evaluate(() => document.documentElement.scrollWidth <= window.innerWidth);
  expect(await fits()).toBe(true);
  await page.getByText('Fennel Lane capping line').click();
  expect(await fits()).toBe(true);
  expect(await violations(page)).toEqual([]);
  await page.locator('.finding').first().click();
  expect(await fits()).toBe(true);
  await page.getByRole('button', { name: 'Back' }).click();
  await page.getByText(/^\d+ parts, \d+ cables$/).click();
  await page.getByRole('button', { name: 'W-1 cable' }).click();
  await expect(page.getByLabel('Conductor size', { exact: true })).toHaveValue(/^10\sAWG$/);
  expect(await fits()).toBe(true);
  expect(await violations(page)).toEqual([]);
});
