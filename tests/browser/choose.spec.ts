import { command, corner, drag, expect, middle, selected, THREE_RUNS, test } from './desk.ts';
import { cableOf, partOf } from './page.ts';

/** What is chosen: conventions 14 to 20. */

test('14 a click chooses', async ({ page }) => {
  await partOf(page, 'M-1').click();
  expect(await selected(page)).toEqual(['M-1']);
  await partOf(page, 'M-2').click();
  expect(await selected(page)).toEqual(['M-2']);
});

test('15 Shift and Ctrl add by a click', async ({ page }) => {
  await partOf(page, 'M-1').click();
  await partOf(page, 'M-2').click({ modifiers: ['Shift'] });
  await partOf(page, 'M-3').click({ modifiers: ['Control'] });
  expect(await selected(page)).toEqual(['M-1', 'M-2', 'M-3']);
  await expect(page.getByRole('heading', { name: '3 parts selected' })).toBeVisible();
});

test('16 a frame chooses what it touches', async ({ page }) => {
  const [a, b] = [await middle(page, 'M-1'), await middle(page, 'M-2')];
  await drag(page, { x: a.x - 60, y: a.y - 12 }, { x: b.x + 40, y: b.y + 10 });
  expect(await selected(page)).toEqual(['M-1', 'M-2']);
  // What was framed is moved and chosen as if by clicks.
  await partOf(page, 'M-2').click();
  expect(await selected(page)).toEqual(['M-2']);
});

test('17 Ctrl A chooses everything', async ({ page }) => {
  await page.keyboard.press('Control+a');
  expect((await selected(page)).length).toBe(await page.locator('.react-flow__node').count());
  await expect(page.locator('.react-flow__edge.selected')).toHaveCount(await page.locator('.react-flow__edge').count());
  // Not a wall of names, and none that nobody gave.
  await expect(page.getByText('A value that is typed here is given to all of them.')).toHaveText(
    /^(?:[A-Z][A-Z\d-]*, ){16}and \d+ more\. /,
  );
});

test('18 Escape lets go one level at a time', async ({ page }) => {
  await partOf(page, 'DS-2').click();
  await page.locator('.finding').first().click();
  await page.getByRole('navigation', { name: 'Parts' }).getByRole('button', { name: 'Motor' }).click();
  await page.keyboard.press('Escape');
  await expect(page.getByTestId('sheet')).toHaveAttribute('data-waiting', 'false');
  await expect(page.locator('.finding')).toHaveCount(0);
  await page.keyboard.press('Escape');
  await expect(page.getByRole('heading', { name: 'DS-2', exact: true })).toBeVisible();
  await page.keyboard.press('Escape');
  expect(await selected(page)).toEqual([]);
});

test('19 Tab goes from part to part, arrows along the cables', async ({ page }) => {
  const focused = () =>
    page.evaluate(() => {
      const held = document.activeElement;
      return held?.querySelector('[data-part]')?.getAttribute('data-part') ?? held?.getAttribute('aria-label');
    });
  // One stop of Tab for the whole sheet: in at the part last held, out to what stands behind it.
  await partOf(page, 'UTIL').focus();
  await page.keyboard.press('Tab');
  expect(await page.evaluate(() => document.activeElement?.closest('.react-flow__node, .react-flow__edge'))).toBeNull();
  await page.keyboard.press('Shift+Tab');
  expect(await focused()).toBe('UTIL');
  expect(await page.locator('.sheet :is(.react-flow__node, .react-flow__edge)[tabindex="0"]').count()).toBe(1);
  await page.keyboard.press('End');
  expect(await focused()).toBe(THREE_RUNS.elements.at(-1)?.tag);
  await page.keyboard.press('Home');
  expect(await focused()).toBe(THREE_RUNS.elements[0]?.tag);
  await partOf(page, 'VFD-1').focus();
  await page.keyboard.press('ArrowDown');
  expect(await focused()).toMatch(/^cable W-1A; from VFD-1 to DS-1; .*ft/);
  await page.keyboard.press('ArrowDown');
  expect(await focused()).toBe('DS-1');
  await page.keyboard.press('ArrowUp');
  await page.keyboard.press('ArrowUp');
  expect(await focused()).toBe('VFD-1');
  await page.keyboard.press('ArrowRight');
  expect(await focused()).toBe('VFD-2');
  expect(await selected(page)).toEqual([]);
  // A ring round parts and cables alike, which the canvas library takes away.
  for (const each of [partOf(page, 'VFD-2'), cableOf(page, 'W-1A')]) {
    await each.focus();
    // Two pixels at least, of what the zoom leaves of it.
    expect(await each.evaluate((part) => Number.parseFloat(getComputedStyle(part).outlineWidth))).toBeGreaterThanOrEqual(2);
    await expect(each).toHaveCSS('outline-style', 'solid');
  }
  await partOf(page, 'VFD-2').focus();
  await expect(page.getByText('Arrows go along the cables.')).toBeVisible();
  await page.keyboard.press('Space');
  expect(await selected(page)).toEqual(['VFD-2']);
  await expect(page.getByText('Arrows move it.')).toBeVisible();
  const chosen = partOf(page, 'VFD-2');
  await expect(chosen).toHaveAccessibleName(/^drive VFD-2; 60 hp 77 A; /);
  await expect(chosen).toHaveAccessibleDescription(/Escape goes back/);
  await page.keyboard.press('Escape');
  await page.keyboard.press('ArrowLeft');
  expect(await focused()).toBe('VFD-1');
});

test('19 a letter is about the part that the keys have travelled to, not about what was chosen before elsewhere', async ({ page }) => {
  await partOf(page, 'VFD-1').click();
  await cableOf(page, 'W-1B').focus();
  await page.keyboard.press('i');
  await page.getByRole('combobox', { name: 'Which part goes into the cable?' }).fill('contactor');
  await page.keyboard.press('Enter');
  await expect(partOf(page, 'K-1')).toHaveCount(1);
  await expect(cableOf(page, 'W-1B')).toHaveAttribute('aria-label', /to K-1;/);
  await page.keyboard.press('Control+z');
  await partOf(page, 'VFD-1').click();
  await partOf(page, 'M-1').focus();
  await page.keyboard.press('c');
  await expect(page.getByRole('dialog')).toBeVisible();
  expect(await selected(page)).toEqual(['M-1']);
  await page.keyboard.press('Escape');
});

test('20 all of a kind, and all that is connected', async ({ page }) => {
  await partOf(page, 'M-1').click();
  await page.keyboard.press('k');
  expect(await selected(page)).toEqual(['M-1', 'M-2', 'M-3']);
  await page.keyboard.press('Escape');
  await partOf(page, 'M-3').click();
  await command(page, 'all that is connected');
  expect((await selected(page)).length).toBe(await page.locator('.react-flow__node').count());
  const at = await corner(page);
  await page.mouse.click(at.x, at.y);
  expect(await selected(page)).toEqual([]);
});
