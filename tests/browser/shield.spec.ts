import { dragPart, expect, test } from './page.ts';

test('a plastic disconnect dropped into a shielded lead breaks the shield; a bond closes it', async ({ page }) => {
  await page.getByText('Alder Mill fan').click();
  await expect(page.getByText('Alder Mill fan is ready')).toBeVisible();
  const sheet = await page.getByTestId('sheet').boundingBox();
  const lead = await page.locator('.react-flow__edge[data-id="c6"] path').first().boundingBox();
  if (!sheet || !lead) throw new Error('no lead');
  await dragPart(page, 'Disconnect', lead.x + lead.width / 2 - sheet.x, lead.y + lead.height / 2 - sheet.y);
  await expect(page.getByRole('heading', { name: 'DS-1' })).toBeVisible();
  await page.getByLabel('Box', { exact: true }).selectOption('plastic');
  await page.getByRole('button', { name: 'All findings' }).click();
  const finding = page.locator('[data-finding^="shield-continuity/element/"]').filter({ hasText: 'fail' });
  await expect(finding).toHaveCount(1);
  await expect(finding).toContainText('DS-1');
  await expect(page.getByRole('img', { name: 'One-line diagram' })).toContainText('shield gap');
  await page.getByRole('button', { name: 'Bond through DS-1' }).click();
  await expect(page.getByRole('img', { name: 'One-line diagram' })).not.toContainText('shield gap');
  await expect(finding).toHaveCount(0);
  await page.keyboard.press('Control+z');
  await expect(page.getByRole('img', { name: 'One-line diagram' })).toContainText('shield gap');
});
