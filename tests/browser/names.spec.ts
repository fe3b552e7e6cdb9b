import { command, expect, tags, test } from './desk.ts';
import { choose, partOf, type } from './page.ts';

/** How parts are named, and what stands in which enclosure. */

test('the project says how its parts are named, and all are renumbered in one step', async ({ page }) => {
  const before = await tags(page);
  await page.getByText('Title block and limits').click();
  await choose(page, 'Between letters and number', 'none');
  await type(page, 'Figures', '2');
  await type(page, 'Letters of a motor', 'P');
  await page.getByRole('button', { name: 'Renumber all parts' }).click();
  const now = await tags(page);
  for (const tag of ['P01', 'P02', 'P03', 'VFD02', 'DS06']) expect(now).toContain(tag);
  await page.getByRole('button', { name: 'Undo' }).click();
  expect(await tags(page)).toEqual(before);
});

test('parts that share an enclosure stand within one line that carries its name', async ({ page }) => {
  const drawing = page.getByRole('img', { name: 'One-line diagram' });
  const lines = drawing.locator('polyline[stroke-dasharray="6 1.2 0.5 1.2"]');
  await expect(lines).toHaveCount(0);
  await partOf(page, 'CB-1').click();
  await partOf(page, 'VFD-1').click({ modifiers: ['Shift'] });
  await type(page, 'Enclosure', 'Panel 7');
  await expect(lines).toHaveCount(1);
  await expect(drawing).toContainText('Panel 7');
  await command(page, 'Undo');
  await expect(lines).toHaveCount(0);
});
