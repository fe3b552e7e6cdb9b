import { manyRuns } from '../engine/manyRuns.ts';
import { command, corner, drag, expect, lay, middle, test, zoom } from './desk.ts';
import { partOf } from './page.ts';

/** What is seen: conventions 1 to 13. */

test('1 the wheel zooms at the pointer', async ({ page }) => {
  const at = await middle(page, 'M-1');
  const before = await zoom(page);
  await page.mouse.move(at.x, at.y);
  await page.mouse.wheel(0, -120);
  await expect.poll(() => zoom(page)).toBeGreaterThan(before);
  const now = await middle(page, 'M-1');
  expect(Math.hypot(now.x - at.x, now.y - at.y)).toBeLessThan(2);
});

test('2 a pinch zooms', async ({ page }) => {
  const at = await middle(page, 'VFD-2');
  const before = await zoom(page);
  await page.mouse.move(at.x, at.y);
  // A pinch on a trackpad reaches a page as a wheel with Ctrl.
  await page.keyboard.down('Control');
  await page.mouse.wheel(0, -12);
  await page.keyboard.up('Control');
  await expect.poll(() => zoom(page)).toBeGreaterThan(before);
});

test('3 the space bar and a drag move the sheet', async ({ page }) => {
  const [before, at] = [await middle(page, 'M-1'), await corner(page)];
  await page.mouse.move(at.x, at.y);
  await page.keyboard.down('Space');
  await drag(page, at, { x: at.x + 80, y: at.y + 40 });
  await page.keyboard.up('Space');
  await expect.poll(async () => (await middle(page, 'M-1')).x - before.x).toBeGreaterThan(70);
});

test('4 the middle button and a drag move the sheet', async ({ page }) => {
  const [before, at] = [await middle(page, 'M-1'), await corner(page)];
  await drag(page, at, { x: at.x + 80, y: at.y + 40 }, 'middle');
  await expect.poll(async () => (await middle(page, 'M-1')).x - before.x).toBeGreaterThan(70);
});

test('5 two fingers on a trackpad move the sheet and do not zoom', async ({ page }) => {
  const [before, at, size] = [await middle(page, 'M-1'), await corner(page), await zoom(page)];
  await page.mouse.move(at.x, at.y);
  await page.mouse.wheel(30, 20);
  await expect.poll(async () => before.x - (await middle(page, 'M-1')).x).toBeCloseTo(30, 0);
  await expect.poll(async () => before.y - (await middle(page, 'M-1')).y).toBeCloseTo(20, 0);
  expect(await zoom(page)).toBe(size);
});

test('6 F fits all that is drawn', async ({ page }) => {
  const at = await corner(page);
  await drag(page, at, { x: at.x + 700, y: at.y + 700 }, 'middle');
  await page.keyboard.press('f');
  const sheet = await page.getByTestId('sheet').boundingBox();
  for (const tag of ['UTIL', 'M-1', 'M-3']) {
    const { x, y } = await middle(page, tag);
    expect(sheet && x > sheet.x && y > sheet.y && x < sheet.x + sheet.width && y < sheet.y + sheet.height).toBe(true);
  }
});

test('7 Shift F fits what is chosen', async ({ page }) => {
  const before = await zoom(page);
  await partOf(page, 'M-3').click();
  await page.keyboard.press('Shift+F');
  await expect.poll(() => zoom(page)).toBeGreaterThan(before);
  const sheet = await page.getByTestId('sheet').boundingBox();
  expect((await middle(page, 'M-3')).x).toBeCloseTo((sheet?.x ?? 0) + (sheet?.width ?? 0) / 2, -1);
});

test('8 0 shows it at full size', async ({ page }) => {
  await page.keyboard.press('0');
  await expect.poll(() => zoom(page)).toBe(100);
});

test('9 zoom ends at its limits, and is read out', async ({ page }) => {
  for (let i = 0; i < 32; i++) await page.keyboard.press('-');
  await expect.poll(() => zoom(page)).toBe(2);
  for (let i = 0; i < 36; i++) await page.keyboard.press('+');
  await expect.poll(() => zoom(page)).toBe(400);
});

test('10 G shows and hides the grid', async ({ page }) => {
  const grid = page.locator('.react-flow__background');
  await expect(grid).toHaveCount(1);
  await page.keyboard.press('g');
  await expect(grid).toHaveCount(0);
  await page.keyboard.press('g');
  await expect(grid).toHaveCount(1);
});

test('11 a large line-up has a map', async ({ page }) => {
  const map = page.locator('.react-flow__minimap');
  await expect(map).toHaveCount(0);
  await lay(page, manyRuns(20));
  await expect(map).toHaveCount(1);
  await page.keyboard.press('n');
  await expect(map).toHaveCount(0);
  await page.keyboard.press('n');
  await expect(map).toHaveCount(1);
});

test('12 light, dark, or as the system', async ({ page }) => {
  const theme = () => page.evaluate(() => document.documentElement.dataset['theme']);
  await page.emulateMedia({ colorScheme: 'dark' });
  await expect.poll(theme).toBe('dark');
  await command(page, 'Light, dark');
  expect(await theme()).toBe('light');
  await command(page, 'Light, dark');
  expect(await theme()).toBe('dark');
  await command(page, 'Light, dark');
  await page.emulateMedia({ colorScheme: 'light' });
  await expect.poll(theme).toBe('light');
});

test('13 H hides the panels and brings them again', async ({ page }) => {
  await page.keyboard.press('h');
  await expect(page.getByRole('navigation', { name: 'Parts' })).toHaveCount(0);
  await expect(page.getByRole('complementary', { name: 'Review' })).toHaveCount(0);
  await page.keyboard.press('h');
  await expect(page.getByRole('navigation', { name: 'Parts' })).toBeVisible();
});

test('what is said beside the parts stays large enough to read: smaller on the screen it is less', async ({ page }) => {
  const words = page.locator('.sheet .words text');
  const telling = () =>
    words.evaluateAll((all) =>
      all.map((each) => {
        const text = each as SVGTextElement;
        const scale = text.getScreenCTM()?.a ?? 0;
        const { x, y, width } = text.getBoundingClientRect();
        const size = scale * Number.parseFloat(getComputedStyle(text).fontSize);
        return { says: (text.textContent ?? '').replaceAll(/\s/g, ' '), size, x, y, width };
      }),
    );
  const at = async (least: number) => {
    await page.keyboard.press('0');
    while ((await zoom(page)) > least) await page.keyboard.press('-');
    // Words follow the zoom frame by frame.
    for (let before = ''; ; ) {
      await page.waitForTimeout(100);
      const now = await telling();
      if (JSON.stringify(now) === before) return now;
      before = JSON.stringify(now);
    }
  };
  const said = (all: Awaited<ReturnType<typeof telling>>) => all.map(({ says }) => says);
  const full = await at(100);
  expect(said(full)).toEqual(expect.arrayContaining(['W-1A', '2 AWG Cu XHHW-2', '195 ft, shielded', 'laid in what?']));
  const small = await at(72);
  expect(said(small)).toEqual(expect.arrayContaining(['W-1A', '2 AWG', '195 ft', 'laid in what?']));
  const smaller = await at(59);
  expect(said(smaller)).toEqual(expect.arrayContaining(['W-1A', 'open']));
  expect(said(smaller)).not.toContain('2 AWG');
  for (const { says, size } of [...full, ...small, ...smaller]) expect(size, says).toBeGreaterThanOrEqual(11.9);
});

test('tools that are higher for a finger, or stand in two rows, cover nothing of what is fitted', async ({ browser, baseURL }) => {
  for (const [hasTouch, width] of [
    [true, 1024],
    [true, 840],
    [false, 840],
  ] as const) {
    const context = await browser.newContext({ ...(baseURL && { baseURL }), hasTouch, viewport: { width, height: 768 } });
    const page = await context.newPage();
    await page.goto('/');
    await page.getByText('Heron Weir pumps').click();
    await page.locator('.react-flow__node').first().waitFor();
    await page.keyboard.press('f');
    const reach = () =>
      page.evaluate(() => {
        const foot = document.querySelector('.tools')?.getBoundingClientRect().top ?? Number.NaN;
        const ends = [...document.querySelectorAll('.react-flow__node')].map((part) => part.getBoundingClientRect().bottom);
        return foot - Math.max(...ends);
      });
    await expect.poll(reach).toBeGreaterThan(0);
    await context.close();
  }
});
