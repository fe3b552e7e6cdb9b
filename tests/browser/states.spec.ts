import { readFileSync } from 'node:fs';
import { save } from '../../engine/index.ts';
import { command, lay, THREE_RUNS } from './desk.ts';
import { expect, KEPT, partOf, test, type } from './page.ts';

/** Earlier states of the open line-up: listed, looked at, put back in one step, saved as files. */

test('an earlier state is looked at, put back as one step, and undone', async ({ page }) => {
  await lay(page, THREE_RUNS);
  await partOf(page, 'M-1').click();
  const power = page.getByLabel('Rated power', { exact: true });
  const before = await power.inputValue();
  await type(page, 'Rated power', '50 hp');
  await expect(page.getByTestId('saved')).toHaveText(KEPT);
  await partOf(page, 'M-1').click();
  await page.keyboard.press('Delete');
  await expect(partOf(page, 'M-1')).toHaveCount(0);
  await command(page, 'Earlier states');
  const dialog = page.getByRole('dialog', { name: 'Earlier states' });
  const rows = dialog.getByRole('list', { name: 'States, the newest first' }).getByRole('listitem');
  await expect(rows.first()).toContainText('as it is now');
  await rows
    .nth(1)
    .getByRole('button', { name: /^Look at/ })
    .click();
  await expect(dialog.getByRole('img', { name: /^One-line of/ })).toBeVisible();
  await expect(dialog).toContainText('M-1 removed');
  await rows
    .nth(1)
    .getByRole('button', { name: /^Put back/ })
    .click();
  await expect(dialog).toHaveCount(0);
  await partOf(page, 'M-1').click();
  await expect(power).toHaveValue('50 hp');
  expect(before).not.toBe('50 hp');
  await page.keyboard.press('Control+z');
  await expect(partOf(page, 'M-1')).toHaveCount(0);
});

test('an earlier state goes out as a file, and from the first page earlier states are one step away', async ({ page }) => {
  await page.addInitScript(() => {
    for (const name of ['showSaveFilePicker', 'showOpenFilePicker']) Reflect.deleteProperty(window, name);
  });
  await page.reload();
  await lay(page, THREE_RUNS);
  await expect(page.getByTestId('saved')).toHaveText(KEPT);
  await type(page, 'Title', 'Later');
  await expect(page.getByTestId('saved')).toHaveText(KEPT);
  await page.getByRole('button', { name: 'Copperline' }).click();
  await page.getByRole('button', { name: 'Blank sheet' }).click();
  await page.getByRole('button', { name: 'Copperline' }).click();
  await page.getByRole('button', { name: 'Earlier states of Later' }).click();
  const first = page.getByRole('button', { name: /^Save as a file/ }).last();
  const saving = page.waitForEvent('download');
  await first.click();
  expect(readFileSync(await (await saving).path(), 'utf8')).toBe(save(THREE_RUNS));
});
