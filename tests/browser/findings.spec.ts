import { expect, test } from './desk.ts';
import { partOf, tally } from './page.ts';

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

test('a count in the head lists its findings alone, from wherever the reader is, and pressed again all of them', async ({ page }) => {
  const fails = tally(page).getByRole('button', { name: /^\d+ fail$/ });
  const count = Number((await fails.textContent())?.match(/\d+/)?.[0]);
  await partOf(page, 'DS-1').click();
  await expect(page.locator('.reader .values')).not.toHaveCount(0);
  await expect(fails).toHaveAttribute('aria-pressed', 'false');
  await fails.click();
  await expect(fails).toHaveAttribute('aria-pressed', 'true');
  await expect(page.getByLabel('Of verdict')).toHaveValue('fail');
  await expect(page.locator('.reader .finding')).toHaveCount(count);
  for (const each of await page.locator('.reader .finding').all()) await expect(each.locator('.word')).toHaveText('fail');
  // One of them is read: the count is the way back to all of its kind.
  await page.locator('.reader .finding').first().click();
  await expect(fails).toHaveAttribute('aria-pressed', 'false');
  await fails.press('Enter');
  await expect(page.locator('.reader .finding')).toHaveCount(count);
  await page.getByRole('button', { name: 'Walk a run' }).click();
  await fails.press('Enter');
  await expect(page.locator('.reader .finding')).toHaveCount(count);
  await tally(page)
    .getByRole('button', { name: /caution$/ })
    .click();
  await expect(fails).toHaveAttribute('aria-pressed', 'false');
  await fails.click();
  await fails.click();
  await expect(fails).toHaveAttribute('aria-pressed', 'false');
  await expect(page.getByLabel('Of verdict')).toHaveValue('');
  await expect(page.locator('.reader')).toContainText('pass');
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
