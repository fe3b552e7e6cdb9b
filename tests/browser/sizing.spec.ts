import { expect, test } from './desk.ts';
import { tally } from './page.ts';

/** What would help, told of other documents than the open one and taken in one step. */

test('a finding that fails says what would help and what else that moves; applying is one step', async ({ page }) => {
  const before = await tally(page).textContent();
  await page.locator('.finding').filter({ hasText: 'DS-2' }).first().click();
  await page.getByText('What would help').click();
  const bond = page
    .getByRole('list', { name: 'What would help' })
    .getByRole('listitem')
    .filter({ hasText: 'Bond the shields through DS-2' })
    .first();
  await bond.getByText(/^\d+ better, 0 worse, .*\d+ unchanged$/).click();
  await expect(bond.getByRole('list', { name: 'Better', exact: true })).toContainText('fail → ');
  await bond.getByRole('button', { name: 'Apply: Bond the shields through DS-2' }).click();
  await expect(tally(page)).not.toHaveText(before ?? '');
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect(tally(page)).toHaveText(before ?? '');
  await expect(page.getByRole('button', { name: 'Undo' })).toBeDisabled();
});
