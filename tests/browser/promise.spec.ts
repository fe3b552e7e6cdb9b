import { readFileSync } from 'node:fs';
import type { Page } from '@playwright/test';
import { save } from '../../engine/index.ts';
import { lay, THREE_RUNS } from './desk.ts';
import { expect, partOf, test, type } from './page.ts';

/** What the sign may promise: whether the browser gave its word to keep the work, and whether this program may change a newer one's file. */

const sign = (page: Page) => page.getByTestId('saved');
const reason = (page: Page) => page.getByRole('status', { name: 'Reason' });

for (const granted of [true, false])
  test(`the browser is asked to keep the work at the first edit, not before, and the sign says its answer: ${granted}`, async ({
    page,
  }) => {
    await page.addInitScript((answer) => {
      Object.assign(window, { asked: 0 });
      const persist = async () => {
        (window as unknown as { asked: number }).asked++;
        return answer;
      };
      Object.assign(StorageManager.prototype, { persist, persisted: async () => false });
    }, granted);
    await page.reload();
    const asked = () => page.evaluate(() => (window as unknown as { asked: number }).asked);
    await lay(page, THREE_RUNS);
    await expect(sign(page)).toHaveText('kept in this browser only');
    expect(await asked()).toBe(0);
    await type(page, 'Title', 'First edit');
    await expect(sign(page)).toHaveText(granted ? 'saved in this browser' : 'kept in this browser only');
    if (granted) await expect(reason(page)).toBeEmpty();
    else await expect(reason(page)).toContainText('Save to a file what must last');
    await type(page, 'Title', 'Second edit');
    expect(await asked()).toBe(1);
    await expect(reason(page)).toBeEmpty();
  });

test('what the sign means is read by hover, by key, and anew after each edit', async ({ page }) => {
  await page.setViewportSize({ width: 1024, height: 768 });
  await lay(page, THREE_RUNS);
  const [button, words] = [sign(page).getByRole('button'), page.locator('#saved-why')];
  await expect(button).toHaveText(/^(saved|kept) in this browser( only)?$/);
  await expect(button).toHaveAttribute('title', /in this browser/);
  await expect(words).toBeHidden();
  await button.focus();
  await page.keyboard.press('Enter');
  await expect(words).toBeVisible();
  await expect(words).toHaveText(/^(saved|kept) in this browser.*\. Save to a file what/);
  await page.keyboard.press('Escape');
  await expect(words).toBeHidden();
  await lay(page, later({ version: 3 }));
  await button.click();
  await expect(words).toHaveText('read-only in this program. A newer program wrote this line-up, and only that may change it.');
});

const later = (change: object): typeof THREE_RUNS => ({ ...THREE_RUNS, laterField: { deep: [1, 2] }, ...change });

test('a file of a newer program that this one may change opens with a notice, and can be changed', async ({ page }) => {
  await lay(page, later({ version: 3, minReader: 1 }));
  await expect(reason(page)).toContainText('A newer program wrote this file');
  await type(page, 'Title', 'Changed');
  await page.reload();
  await expect(page.getByLabel('Title', { exact: true })).toHaveValue('Changed');
});

test('a file that only a newer program may change is looked at, and goes out as it came', async ({ page }) => {
  await page.addInitScript(() => {
    for (const name of ['showSaveFilePicker', 'showOpenFilePicker']) Reflect.deleteProperty(window, name);
  });
  await page.reload();
  const file = later({ version: 3 });
  await lay(page, file);
  await expect(reason(page)).toContainText('only that may change it');
  await expect(sign(page)).toHaveText('read-only in this program');
  await partOf(page, 'M-1').click();
  await page.keyboard.press('Delete');
  await expect(reason(page)).toContainText('only that may change it');
  await expect(partOf(page, 'M-1')).toHaveCount(1);
  await page.getByRole('button', { name: 'Issue package' }).click();
  await expect(reason(page)).toContainText('only that may change it');
  // It is there again after a reload, and comes out byte for byte.
  await page.reload();
  await expect(partOf(page, 'M-1')).toHaveCount(1);
  const saving = page.waitForEvent('download');
  await page.keyboard.press('Control+s');
  expect(readFileSync(await (await saving).path(), 'utf8')).toBe(save(file));
});
