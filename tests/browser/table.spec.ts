import { expect, test } from './desk.ts';
import { partOf } from './page.ts';

/** The table: cells, rows chosen together, rows pasted. */

test('a cell is typed in, bad text stays in it, and the sheet has the value', async ({ page }) => {
  await page.keyboard.press('l');
  const length = page.getByLabel('Length, one way, W-1A', { exact: true });
  await length.fill('far away');
  await length.press('Enter');
  await expect(length).toHaveValue('far away');
  await expect(page.locator('.tables [role="alert"]')).toBeVisible();
  await expect(page.getByRole('button', { name: 'Undo' })).toBeDisabled();
  await length.fill('120 ft');
  await length.press('Enter');
  await expect(page.locator('.tables [role="alert"]')).toHaveCount(0);
  await page.getByRole('button', { name: 'Back to the sheet' }).click();
  await expect(page.getByText(/120 ft/).first()).toBeVisible();
  await page.keyboard.press('Control+z');
  await expect(page.getByRole('button', { name: 'Undo' })).toBeDisabled();
});

test('rows are sorted, chosen, and changed together in one step', async ({ page }) => {
  await page.keyboard.press('l');
  await page.getByRole('button', { name: 'Motors 3' }).click();
  const table = page.getByRole('table', { name: 'Motors' });
  const tags = () => table.locator('tbody th').allTextContents();
  await table.getByRole('button', { name: 'Tag', exact: true }).click();
  expect(await tags()).toEqual(['M-1', 'M-2', 'M-3']);
  await table.getByRole('button', { name: 'Tag', exact: true }).click();
  expect(await tags()).toEqual(['M-3', 'M-2', 'M-1']);
  await page.getByLabel('Choose all rows').check();
  await page.getByLabel('Value to set').selectOption('efficiency_pct');
  const value = page.getByLabel('Efficiency, of all rows chosen');
  await value.fill('94 %');
  await value.press('Enter');
  for (const tag of ['M-1', 'M-2', 'M-3']) await expect(page.getByLabel(`Efficiency, ${tag}`)).toHaveValue('94 %');
  await page.getByRole('button', { name: 'Back to the sheet' }).click();
  await page.keyboard.press('Control+z');
  await expect(page.getByRole('button', { name: 'Undo' })).toBeDisabled();
});

test('the keys go to the table with it, and back to where they were on the sheet', async ({ page }) => {
  await partOf(page, 'DS-1').focus();
  await page.keyboard.press('l');
  await expect(page.getByRole('region', { name: 'Table', exact: true })).toBeFocused();
  await page.keyboard.press('Tab');
  await page.keyboard.press('Escape');
  await expect(partOf(page, 'DS-1')).toBeFocused();
});

test('rows are pasted: nothing is taken until the wrong ones are left out on purpose', async ({ page }) => {
  await page.keyboard.press('l');
  await page.getByRole('button', { name: 'Paste from a spreadsheet…' }).click();
  await page.evaluate(() => navigator.clipboard.writeText('Tag\tLength, one way\tConductor metal\nW-3A\t90 ft\tcopper\nW-3B\tfar\tgold\n'));
  await page.keyboard.press('Control+v');
  const pasted = page.getByRole('table', { name: 'What was pasted' });
  await expect(pasted.locator('.bad')).toHaveCount(2);
  const take = page.getByRole('button', { name: 'Take 2 values' });
  await expect(take).toBeDisabled();
  await page.getByLabel('Leave out what is wrong').check();
  await take.click();
  await expect(page.getByLabel('Length, one way, W-3A', { exact: true })).toHaveValue('90 ft');
  await page.getByRole('button', { name: 'Back to the sheet' }).click();
  await page.keyboard.press('Control+z');
  await expect(page.getByRole('button', { name: 'Undo' })).toBeDisabled();
});

test('rows that are pasted on the sheet open the table that holds them, with the rows in its box', async ({ page }) => {
  await page.evaluate(() => navigator.clipboard.writeText('Tag\tRated power\nM-2\t61 hp\n'));
  await page.keyboard.press('Control+v');
  await expect(page.getByRole('button', { name: /^Motors/ })).toHaveAttribute('aria-pressed', 'true');
  await page.getByRole('button', { name: 'Take 1 value' }).click();
  await expect(page.getByLabel('Rated power, M-2', { exact: true })).toHaveValue('61 hp');
  await expect(page.locator('.pasting')).toHaveCount(0);
  await page.getByRole('button', { name: 'Back to the sheet' }).click();
  // The next time it opens without them.
  await page.keyboard.press('l');
  await expect(page.getByRole('button', { name: 'Paste from a spreadsheet…' })).toBeVisible();
  await page.keyboard.press('l');
  await page.evaluate(() => navigator.clipboard.writeText('no rows at all'));
  await page.keyboard.press('Control+v');
  const reason = page.getByRole('status', { name: 'Reason' });
  await expect(reason).toContainText('or rows of a spreadsheet');
  // What is done next puts the notice away.
  await page.keyboard.press('l');
  await expect(reason).toBeEmpty();
  await page.keyboard.press('l');
  await page.keyboard.press('Control+z');
});
