import { command, expect, test } from './desk.ts';
import { partOf } from './page.ts';

/** What stands beside the parts: labels put elsewhere, notes, grounding conductors. */

const drawing = 'One-line diagram';

test('a label is chosen by a click, moved by a drag in one step, by keys, and put back', async ({ page }) => {
  const label = page.getByRole('img', { name: drawing }).getByText('VFD-2', { exact: true });
  const before = await label.boundingBox();
  if (!before) throw new Error('no label');
  const at = { x: before.x + 10, y: before.y + before.height / 2 };
  await page.mouse.click(at.x, at.y);
  await expect(page.getByRole('heading', { name: 'VFD-2' })).toBeVisible();
  await page.mouse.move(at.x, at.y);
  await page.mouse.down();
  await page.mouse.move(at.x + 60, at.y + 30, { steps: 4 });
  await page.mouse.up();
  const moved = await label.boundingBox();
  expect(moved?.x).toBeCloseTo(before.x + 60, -1);
  expect(moved?.y).toBeCloseTo(before.y + 30, -1);
  await expect(page.getByRole('button', { name: 'Undo' })).toHaveAttribute('title', /Move label/);
  await page.keyboard.press('Control+ArrowLeft');
  await page.keyboard.press('Control+ArrowLeft');
  await expect.poll(async () => (await label.boundingBox())?.x ?? 0).toBeLessThan((moved?.x ?? 0) - 5);
  await command(page, 'Put its label back');
  await expect.poll(async () => (await label.boundingBox())?.x).toBeCloseTo(before.x, 0);
  for (let i = 0; i < 3; i++) await page.keyboard.press('Control+z');
  await expect(page.getByRole('button', { name: 'Undo' })).toBeDisabled();
});

test('notes are written, tied to what is chosen, numbered anew when one moves', async ({ page }) => {
  await partOf(page, 'M-1').click();
  await page.keyboard.press('o');
  const dialog = page.getByRole('dialog', { name: 'Notes' });
  await dialog.getByLabel('New note').fill('Copper tails in the box.');
  await dialog.getByRole('button', { name: 'Add note' }).click();
  await expect(dialog).toContainText('For M-1');
  await dialog.getByLabel('New note').fill('Lengths by others.');
  await dialog.getByRole('button', { name: 'Add note' }).click();
  await dialog.getByRole('button', { name: 'Note 2 up' }).click();
  await expect(dialog.getByRole('textbox', { name: 'Note 1' })).toHaveValue('Lengths by others.');
  await dialog.getByRole('button', { name: 'For all' }).first().click();
  await dialog.getByRole('button', { name: 'Close' }).click();
  await expect(page.getByRole('img', { name: drawing }).getByText('2', { exact: true })).toHaveCount(1);
  await expect(page.getByRole('button', { name: 'Undo' })).toHaveAttribute('title', /Tie a note/);
});

test('P shows the grounding conductors, and hides them', async ({ page }) => {
  const long = page.locator('.drawing polyline[stroke-dasharray="4 1.2"]');
  await expect(long).toHaveCount(0);
  await page.keyboard.press('p');
  await expect(long).not.toHaveCount(0);
  await page.keyboard.press('p');
  await expect(long).toHaveCount(0);
});
