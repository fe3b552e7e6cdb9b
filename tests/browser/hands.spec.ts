import { choose, dragPart, expect, partOf, tally, test, type } from './page.ts';

/** The ways of the hand: by click alone, by keyboard, and what goes back in one step. */

test('by clicks alone: part and sheet, port and port, part and cable', async ({ page }) => {
  await page.getByRole('button', { name: 'Blank sheet' }).click();
  const tray = page.getByRole('navigation', { name: 'Parts' });
  const place = async (name: string, y: number) => {
    await tray.getByRole('button', { name, exact: true }).click();
    await expect(tray.getByRole('button', { name, exact: true })).toHaveAttribute('aria-pressed', 'true');
    await page.getByTestId('sheet').click({ position: { x: 300, y } });
    await expect(tray.getByRole('button', { name, exact: true })).toHaveAttribute('aria-pressed', 'false');
  };
  await place('Drive', 100);
  await place('Motor', 500);
  for (const port of ['VFD-1, load side', 'M-1, line side']) await page.getByLabel(port, { exact: true }).click({ force: true });
  await expect(page.locator('.react-flow__edge')).toHaveCount(1);
  await expect(page.getByRole('heading', { name: 'W-1' })).toBeVisible();
  await type(page, 'Conductor size', '2 AWG');
  await choose(page, 'Shield landing, end', 'full');
  await place('Disconnect', 330);
  await expect(page.locator('.react-flow__edge')).toHaveCount(2);
  // Both halves keep what is known of the cable; how the shield is landed at the new ends is not.
  await page.getByRole('button', { name: 'All findings' }).click();
  await page.getByText('3 parts, 2 cables').click();
  await page.getByRole('button', { name: 'W-1A cable' }).click();
  await expect(page.getByLabel('Conductor size', { exact: true })).toHaveValue('2 AWG');
  await expect(page.getByLabel('Shield landing, end', { exact: true })).toHaveValue('');
  await page.getByRole('button', { name: 'All findings' }).click();
  await page.getByText('3 parts, 2 cables').click();
  await page.getByRole('button', { name: 'W-1B cable' }).click();
  await expect(page.getByLabel('Conductor size', { exact: true })).toHaveValue('2 AWG');
  await expect(page.getByLabel('Shield landing, end', { exact: true })).toHaveValue('full');
});

test('by keyboard: A and Enter build a run; arrows nudge as one step; Delete and Ctrl Z', async ({ page }) => {
  await page.getByRole('button', { name: 'Blank sheet' }).click();
  await expect(page.getByRole('navigation', { name: 'Parts' })).toBeVisible();
  await page.keyboard.press('a');
  await page.keyboard.press('Enter');
  for (const name of ['Drive', 'Motor']) {
    await page.getByRole('navigation', { name: 'Parts' }).getByRole('button', { name, exact: true }).focus();
    await page.keyboard.press('Enter');
  }
  await expect(page.locator('.react-flow__node')).toHaveCount(3);
  await expect(page.locator('.react-flow__edge')).toHaveCount(2);
  const motor = partOf(page, 'M-1');
  await page.getByRole('button', { name: 'Fit' }).click();
  await page.keyboard.press('Escape');
  await expect(motor).not.toHaveClass(/selected/);
  await motor.focus();
  await page.keyboard.press('Enter');
  await expect(motor).toHaveClass(/selected/);
  const at = async () => (await motor.boundingBox())?.x ?? 0;
  const before = await at();
  for (let i = 0; i < 4; i++) await page.keyboard.press('ArrowRight');
  const zoom = Number((await page.getByRole('button', { name: 'show at full size' }).textContent())?.replace(/\D/g, '')) / 100;
  // Four steps of 2.5 mm at 3.78 px a millimetre.
  await expect.poll(async () => Math.abs((await at()) - before - 4 * 2.5 * 3.78 * zoom)).toBeLessThan(2);
  await page.keyboard.press('Control+z');
  await expect.poll(async () => Math.abs((await at()) - before)).toBeLessThan(1);
  await page.keyboard.press('Control+a');
  await page.keyboard.press('Delete');
  await expect(page.getByText('An empty sheet')).toBeVisible();
  await page.keyboard.press('Control+z');
  await expect(page.locator('.react-flow__edge')).toHaveCount(2);
});

test('a drag is one step; several are chosen with Ctrl; letters do nothing while a field is typed in', async ({ page }) => {
  await page.getByRole('button', { name: 'Blank sheet' }).click();
  await dragPart(page, 'Drive', 300, 100);
  await dragPart(page, 'Motor', 300, 500);
  const motor = partOf(page, 'M-1');
  const before = await motor.boundingBox();
  if (!before) throw new Error('no motor');
  await page.mouse.move(before.x + before.width / 2, before.y + before.height / 2);
  await page.mouse.down();
  await page.mouse.move(before.x + 200, before.y, { steps: 8 });
  await page.mouse.up();
  await expect.poll(async () => (await motor.boundingBox())?.x).toBeGreaterThan(before.x + 100);
  await page.keyboard.press('Control+z');
  await expect.poll(async () => (await motor.boundingBox())?.x).toBeCloseTo(before.x, 0);
  await motor.click();
  await partOf(page, 'VFD-1').click({ modifiers: ['Control'] });
  await expect(page.getByText('2 parts selected')).toBeVisible();
  await motor.click();
  const note = page.getByLabel('Note', { exact: true });
  await note.fill('');
  await note.pressSequentially('a.,');
  await note.press('Backspace');
  await note.press('Enter');
  await expect(page.locator('.react-flow__node')).toHaveCount(2);
  await expect(note).toHaveValue('a.');
  // Nothing is half typed any more: undo is the line-up's.
  await page.keyboard.press('Control+z');
  await expect(note).toHaveValue('');
});

test('a value without meaning never enters the document; limits and title block can be set', async ({ page }) => {
  await page.getByText('Alder Mill fan').click();
  await page.getByText('Title block and limits').click();
  await type(page, 'Drop in a motor lead', '0.01 %');
  await expect(tally(page)).toContainText('1 fail');
  await page.locator('.finding').first().click();
  await expect(page.getByText(/^project: /)).toBeVisible();
  await page.keyboard.press('Control+z');
  await expect(tally(page)).toContainText('0 fail');
  await partOf(page, 'M-1').click();
  const voltage = page.getByLabel('Rated voltage', { exact: true });
  const was = await voltage.inputValue();
  await voltage.fill('0');
  await voltage.press('Enter');
  await expect(page.getByText('It must be above 0')).toContainText(`${was} stays in force`);
  await voltage.press('Escape');
  await expect(voltage).toHaveValue(was);
});
