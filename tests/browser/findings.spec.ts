import { expect, test } from './desk.ts';

/** The list of findings: headings, sieve, keys, and the questions that go to others. */

test('findings stand under headings, pass a sieve, and the choice is kept', async ({ page }) => {
  await page.getByLabel('Order').selectOption('run');
  await expect(page.getByRole('heading', { name: 'Run of M-2' })).toBeVisible();
  await page.getByLabel('Of verdict').selectOption('fail');
  const list = page.locator('.reader .finding');
  await expect(list.first()).toBeVisible();
  for (const each of await list.all()) await expect(each.locator('.word')).toHaveText('fail');
  await page.getByLabel('Words in a finding').fill('DS-2');
  await expect(page.getByRole('heading', { name: 'Run of M-2' })).toBeVisible();
  await expect(page.getByRole('heading', { name: 'Run of M-1' })).toHaveCount(0);
  expect(await page.evaluate(() => localStorage.getItem('copperline.findings'))).toBe('{"grouping":"run","verdict":"fail"}');
  await page.getByLabel('Words in a finding').fill('');
  await page.getByLabel('Order').selectOption('none');
  await page.getByLabel('Of verdict').selectOption('');
});

test('keys alone lead from the list to a finding and on to its field', async ({ page }) => {
  await page.getByLabel('Of verdict').selectOption('open');
  await page.getByLabel('Words in a finding').focus();
  await page.keyboard.press('ArrowDown');
  const list = page.locator('.reader .finding');
  await expect(list.nth(0)).toBeFocused();
  await page.keyboard.press('ArrowDown');
  await expect(list.nth(1)).toBeFocused();
  await page.keyboard.press('End');
  await expect(list.last()).toBeFocused();
  await page.keyboard.press('Home');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('button', { name: 'Go to the field' })).toBeVisible();
  await page.getByRole('button', { name: 'Go to the field' }).press('Enter');
  await expect(page.locator('.field :focus')).toBeVisible();
  await page.getByRole('button', { name: 'All findings' }).click();
  await page.getByLabel('Of verdict').selectOption('');
});

test('what could not be judged goes as text to those who know it', async ({ page }) => {
  await page.getByText('What could not be judged, and who knows').click();
  await expect(page.getByRole('heading', { name: 'Ask: installer' })).toBeVisible();
  await page.getByRole('button', { name: 'Copy as text' }).click();
  await expect(page.getByText('Copied.')).toBeVisible();
  const text = await page.evaluate(() => navigator.clipboard.readText());
  expect(text).toContain('To ask: installer');
  expect(text).toMatch(/- Length, one way: .*W-3A/);
  await page.locator('.questions').getByRole('button', { name: 'W-3A' }).first().click();
  await expect(page.locator('.field :focus')).toBeVisible();
});
