import { expect, test } from './page.ts';

/** A phone on site: a run read from source to motor with what is found on the way, and how each end of a cable is prepared. */

test.use({ hasTouch: true, isMobile: true, viewport: { width: 390, height: 844 } });

test('a run is walked part by part, and each cable has its field sheet', async ({ page }) => {
  await page.getByText('Heron Weir pumps').tap();
  await page.getByRole('button', { name: 'Walk a run' }).tap();
  const walk = page.getByRole('list', { name: 'Run of P-2' });
  await expect(walk.locator('> li button.quiet')).toHaveText([
    'UTIL',
    'T-1',
    'MSB',
    'CB-2',
    'F-2',
    'LR-2',
    'VFD-2',
    'W-2A',
    'DS-2',
    'W-2B',
    'P-2',
  ]);
  const box = walk.locator('> li').filter({ has: page.getByRole('button', { name: 'DS-2', exact: true }) });
  await expect(box).toContainText('Shield stops at DS-2');
  const lead = walk.locator('> li').filter({ has: page.getByRole('button', { name: 'W-2A', exact: true }) });
  await expect(lead).toContainText('Start: landed all round in its gland. End: cut back, not landed.');

  await page.getByRole('button', { name: 'Field sheets' }).tap();
  await page.getByLabel('Field sheet of').selectOption('W-2B');
  await expect(page.getByRole('heading', { name: 'Cable W-2B: DS-2 to P-2' })).toBeVisible();
  await expect(page.getByRole('img', { name: /^At P-2: landed all round/ })).toBeVisible();
  await expect(page.getByRole('table', { name: 'Mind' })).toContainText('Lock out');
  expect(await page.evaluate(() => document.documentElement.scrollWidth <= window.innerWidth)).toBe(true);
});

test('anything is found and done by touch', async ({ page }) => {
  await page.getByText('Heron Weir pumps').tap();
  await page.getByRole('button', { name: 'Find', exact: true }).tap();
  await page.getByRole('combobox', { name: 'Find a tag, or do something' }).fill('Run strip');
  await page.getByRole('dialog').getByRole('option').first().tap();
  await expect(page.getByRole('img', { name: 'The run of P-2, unrolled' })).toBeVisible();
});

test('findings are read one after another', async ({ page }) => {
  await page.getByText('Heron Weir pumps').tap();
  await page.locator('.finding').first().tap();
  const title = page.locator('.reader h1');
  await expect(title).toHaveText('Shield continuity');
  await page.getByRole('button', { name: 'Next' }).tap();
  await expect(title).toHaveText('Shield landing');
  await page.getByRole('button', { name: 'Before' }).tap();
  await expect(title).toHaveText('Shield continuity');
  // In reach of the thumb, however far has been read.
  for (const y of [0, 200, 100_000]) {
    await page.locator('.reader').evaluate((reader, top) => reader.scrollTo(0, top), y);
    for (const name of ['Back', 'Before', 'Next']) {
      const box = await page.getByRole('button', { name, exact: true }).boundingBox();
      expect(box?.height).toBeGreaterThanOrEqual(44);
      expect(844 - (box?.y ?? 0)).toBeLessThan(60);
    }
  }
});

test('the head takes two rows, and what it has no room for stands in its menu', async ({ page }) => {
  await page.getByText('Heron Weir pumps').tap();
  const head = page.locator('.head');
  await head.waitFor();
  for (const [width, height] of [
    [390, 844],
    [360, 640],
    [320, 256],
  ] as const) {
    await page.setViewportSize({ width, height });
    const controls = await head.locator('> :is(button, input):visible').evaluateAll((all) =>
      all.map((each) => {
        const { left, right, top, height } = each.getBoundingClientRect();
        return { left, right, top, height };
      }),
    );
    expect(controls.length).toBe(5);
    expect(new Set(controls.map(({ top }) => Math.round(top))).size).toBe(2);
    for (const each of controls) {
      expect(each.height).toBeGreaterThanOrEqual(44);
      expect(each.left).toBeGreaterThanOrEqual(0);
      expect(each.right).toBeLessThanOrEqual(width);
    }
    expect((await head.boundingBox())?.height).toBeLessThan(110);
  }
  await page.setViewportSize({ width: 390, height: 844 });
  await expect(head.getByRole('status', { name: 'Verdicts' })).toHaveText(/^\s*3 fail 2 open 2 caution \d+ note \d+ pass$/);
  for (const each of await head.locator('.tally svg').all()) await expect(each).toBeVisible();
  await page.getByTestId('saved').getByRole('button').tap();
  const why = page.locator('#saved-why');
  await expect(why).toContainText('in this browser');
  expect((await why.boundingBox())?.x).toBeGreaterThanOrEqual(0);
  await page.getByRole('heading', { level: 1 }).tap();
  await expect(why).toBeHidden();
  const menu = page.locator('#head-menu');
  await expect(menu).toBeHidden();
  await page.getByRole('button', { name: 'Menu' }).tap();
  for (const name of ['Open…', 'Save', 'Export…'])
    expect((await menu.getByRole('button', { name }).boundingBox())?.height).toBeGreaterThanOrEqual(44);
  await menu.getByLabel('Units').selectOption('metric');
  await expect(menu).toBeVisible();
  await menu.getByRole('button', { name: 'Export…' }).tap();
  await expect(menu).toBeHidden();
  await expect(page.getByRole('dialog')).toHaveAccessibleName('Sheets and forms');
});

test('a blank sheet says that nothing is drawn here, and its head takes two rows too', async ({ page }) => {
  await page.getByRole('button', { name: 'Blank sheet' }).tap();
  await expect(page.getByText('A screen as small as this draws nothing.')).toBeVisible();
  const tops = await page.locator('.head .tally button').evaluateAll((all) => all.map((each) => each.getBoundingClientRect().top));
  expect(tops).toHaveLength(5);
  expect(new Set(tops).size).toBe(1);
  expect((await page.locator('.head').boundingBox())?.height).toBeLessThan(110);
});

test('a run is walked from finding to finding', async ({ page }) => {
  await page.getByText('Heron Weir pumps').tap();
  await page.getByRole('button', { name: 'Walk a run' }).tap();
  const found = page.getByRole('list', { name: 'Run of P-2' }).locator('.finding');
  await found.first().waitFor();
  const count = await found.count();
  await expect(page.getByText(`${count} findings on this run`)).toBeVisible();
  // By its place: told to tap a button that sticks to the foot, the browser first scrolls to where it would stand by itself.
  const press = async (name: string): Promise<void> => {
    const box = await page.getByRole('button', { name, exact: true }).boundingBox();
    expect(box?.height).toBeGreaterThanOrEqual(44);
    expect(844 - (box?.y ?? 0)).toBeLessThan(60);
    await page.touchscreen.tap((box?.x ?? 0) + 20, (box?.y ?? 0) + 22);
  };
  for (let i = 0; i <= count; i += 1) {
    await press('Next');
    await expect(found.nth(i % count)).toBeFocused();
    await expect(found.nth(i % count)).toBeInViewport({ ratio: 1 });
  }
  await press('Before');
  await expect(found.last()).toBeFocused();
  // Whoever has scrolled on goes on from what is in sight.
  await page.locator('.reader').evaluate((reader) => reader.scrollTo(0, 0));
  await press('Next');
  await expect(found.first()).toBeFocused();
});
