import { expect, tags, test } from './desk.ts';
import { cableOf, choose, partOf, tally, type } from './page.ts';

/** Units and what is typed: conventions 58 to 60. */

test('58 other units show the same values', async ({ page }) => {
  await partOf(page, 'M-1').click();
  const power = page.getByLabel('Rated power', { exact: true });
  const before = await power.inputValue();
  const said = await tally(page).textContent();
  await choose(page, 'Units', 'metric');
  await expect(power).toHaveValue(/kW$/);
  await expect(tally(page)).toHaveText(said ?? '');
  await choose(page, 'Units', 'us');
  await expect(power).toHaveValue(before);
});

test('other words, and the same numbers and verdicts', async ({ page }) => {
  const said = await tally(page).textContent();
  const drawing = page.getByRole('img', { name: 'One-line diagram' });
  const figures = ((await drawing.textContent()) ?? '').match(/\d+(\.\d+)?/g);
  await page.getByText('Title block and limits').click();
  await page.getByLabel('Words', { exact: true }).selectOption('iec');
  const single = page.getByRole('img', { name: 'Single-line diagram' });
  expect(((await single.textContent()) ?? '').match(/\d+(\.\d+)?/g)).toEqual(figures);
  await expect(tally(page)).toHaveText(said ?? '');
  await expect(page.getByRole('navigation', { name: 'Parts' })).toContainText('Isolator');
  await cableOf(page, 'W-1A').focus();
  await page.keyboard.press('Enter');
  await expect(page.getByLabel('Screen landing, start', { exact: true })).toBeVisible();
  await expect(page.getByLabel('Protective conductor size', { exact: true })).toBeVisible();
  await page.keyboard.press('Control+K');
  await page.keyboard.type('protective');
  await expect(page.getByRole('listbox').getByRole('option').first()).toContainText('Protective conductors shown or not');
  await page.keyboard.press('Escape');
  await page.keyboard.press('Control+Z');
  await expect(page.getByLabel('Shield landing, start', { exact: true })).toBeVisible();
});

test('59 a value is taken in any unit, with a point or a comma, and what could be two things is asked', async ({ page }) => {
  await cableOf(page, 'W-1A').focus();
  await page.keyboard.press('Enter');
  for (const [label, typed] of [
    ['Conductor size', '35 mm2'],
    ['Conductor size', '2 AWG'],
    ['Length, one way', '120 ft'],
    ['Length, one way', '36,5 m'],
    ['Length, one way', '36.5 m'],
  ] as const) {
    await type(page, label, typed);
    await expect(page.getByLabel(label, { exact: true })).toHaveAttribute('aria-invalid', 'false');
  }
  await type(page, 'Length, one way', '1,250');
  await expect(page.getByRole('alert')).toContainText('may be 1250 or 1.250');
});

test('60 what has no meaning stays to be mended, says so, and is not reckoned with', async ({ page }) => {
  await partOf(page, 'M-1').click();
  const before = await tally(page).textContent();
  await type(page, 'Nameplate current', '75 furlongs');
  await expect(page.getByRole('alert')).toContainText('stays in force');
  await expect(page.getByLabel('Nameplate current', { exact: true })).toHaveValue('75 furlongs');
  await expect(tally(page)).toHaveText(before ?? '');
  await expect(page.getByRole('button', { name: 'Undo' })).toBeDisabled();
  expect(await tags(page)).toContain('M-1');
});

test('a value that is far from what is usual is taken, and told of in plain words', async ({ page }) => {
  await partOf(page, 'M-1').click();
  const values = page.getByRole('group', { name: 'Values of M-1' });
  await expect(values.getByText(/usually draws/)).toHaveCount(0);
  await type(page, 'Nameplate current', '7.5');
  await expect(values.getByText(/^60\shp at 460\sV usually draws about 77\sA/)).toBeVisible();
  await expect(page.getByLabel('Nameplate current', { exact: true })).toHaveAttribute('aria-invalid', 'false');
  await type(page, 'Smallest conductor', 'rubbish');
  await expect(page.getByRole('alert')).toContainText('stays in force');
});
