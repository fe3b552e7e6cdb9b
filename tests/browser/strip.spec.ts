import { expect, middle, selected, test, zoom } from './desk.ts';
import { partOf } from './page.ts';

/** The run strip: what is chosen in it is chosen on the sheet, and the other way round. */

test('a run is unrolled, chosen from and into the sheet, and tells itself as a table', async ({ page }) => {
  await page.keyboard.press('u');
  const strip = page.getByRole('region', { name: 'Run strip' });
  await expect(strip).toBeVisible();
  await page.keyboard.press('f');
  const motor = await middle(page, 'M-2');
  await page.mouse.click(motor.x, motor.y);
  await expect(strip.getByRole('img', { name: 'The run of M-2, unrolled' })).toBeVisible();
  await expect(strip.getByRole('button', { name: 'M-2 on the strip' })).toHaveAttribute('aria-pressed', 'true');
  await strip.getByRole('button', { name: 'DS-2 on the strip' }).click();
  expect(await selected(page)).toEqual(['DS-2']);
  // What all runs share leaves the one that is looked at.
  await strip.getByRole('button', { name: 'MSB on the strip' }).click();
  await expect(strip.getByRole('img', { name: 'The run of M-2, unrolled' })).toBeVisible();
  await page.keyboard.press('ArrowRight');
  await expect(strip.locator('.place:focus')).toHaveCount(1);
  await strip.getByText('The run as a table').click();
  const row = strip.getByRole('row').filter({ has: page.getByRole('rowheader', { name: 'DS-2' }) });
  await expect(row).toContainText('broken here');
  await expect(row).toContainText('fail: ');
  await strip.locator('.pin').last().click();
  await expect(page.getByRole('heading', { name: 'Why it matters' })).toBeVisible();
  await strip.getByRole('combobox').selectOption({ label: 'M-3' });
  await expect(strip.getByRole('img', { name: 'The run of M-3, unrolled' })).toBeVisible();
  await strip.getByRole('button', { name: 'Put the strip away' }).click();
  await expect(strip).toHaveCount(0);
});

test('a high window has the strip from the start, and what was said of it is kept', async ({ page }) => {
  const strip = page.getByRole('region', { name: 'Run strip' });
  await page.evaluate(() => localStorage.removeItem('copperline.strip'));
  await page.setViewportSize({ width: 1600, height: 1080 });
  await page.reload();
  await expect(strip.getByRole('img', { name: /unrolled$/ })).toBeVisible();
  await strip.getByRole('button', { name: 'Put the strip away' }).click();
  await page.reload();
  await page.locator('.react-flow__node').first().waitFor();
  await expect(strip).toHaveCount(0);
  await page.setViewportSize({ width: 1440, height: 900 });
});

test('what is chosen stays in sight when the strip opens over it, and Fit knows the sheet as it then is', async ({ page }) => {
  const strip = page.getByRole('region', { name: 'Run strip' });
  await page.keyboard.press('f');
  const motor = await middle(page, 'M-2');
  await page.mouse.click(motor.x, motor.y);
  const before = await zoom(page);
  await page.keyboard.press('u');
  await expect(strip).toBeVisible();
  const seen = async () => {
    const [part, over] = [await partOf(page, 'M-2').boundingBox(), await strip.boundingBox()];
    return part && over ? over.y - (part.y + part.height) : Number.NaN;
  };
  await expect.poll(seen).toBeGreaterThan(40);
  expect(await zoom(page)).toBe(before);
  await strip.getByRole('button', { name: 'Put the strip away' }).click();
  await expect(strip).toHaveCount(0);
  // Opened and fitted in one breath, before anything has told the sheet that it is smaller.
  const clear = await page.evaluate(async () => {
    const press = (key: string) => document.body.dispatchEvent(new KeyboardEvent('keydown', { key, bubbles: true }));
    press('u');
    await Promise.resolve();
    press('f');
    await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
    const foot = document.querySelector('.strip')?.getBoundingClientRect().top ?? Number.NaN;
    return [...document.querySelectorAll('.react-flow__node')].every((part) => part.getBoundingClientRect().bottom < foot);
  });
  expect(clear).toBe(true);
  await page.keyboard.press('u');
});

test('in a low window the strip takes no part of the run out of sight, and the sheet goes along with who walks the strip', async ({
  page,
}) => {
  const strip = page.getByRole('region', { name: 'Run strip' });
  await page.setViewportSize({ width: 1024, height: 768 });
  await page.keyboard.press('f');
  const [before, stood] = [await zoom(page), await middle(page, 'M-2')];
  const hidden = () =>
    page.evaluate(() => {
      const foot = document.querySelector('.tools')?.getBoundingClientRect().top ?? Number.NaN;
      return [...document.querySelectorAll('.react-flow__node')].filter((part) => !(part.getBoundingClientRect().bottom < foot)).length;
    });
  await page.keyboard.press('u');
  await expect(strip.getByRole('img', { name: /unrolled$/ })).toBeVisible();
  await expect.poll(hidden).toBe(0);
  // Put away, it gives back what it took.
  await page.keyboard.press('u');
  await expect.poll(() => middle(page, 'M-2')).toEqual(stood);
  expect(await zoom(page)).toBe(before);
  // Who has gone to a place of their own stays there.
  await page.keyboard.press('0');
  await expect.poll(() => zoom(page)).toBe(100);
  await page.keyboard.press('u');
  await expect(strip.getByRole('img', { name: /unrolled$/ })).toBeVisible();
  const inSight = async (tag: string) => {
    const [part, sheet] = [await partOf(page, tag).boundingBox(), await page.getByTestId('sheet').boundingBox()];
    return part && sheet ? part.y >= sheet.y && part.y + part.height <= sheet.y + sheet.height : false;
  };
  await strip.getByRole('button', { name: 'UTIL on the strip' }).click();
  await expect.poll(() => inSight('UTIL')).toBe(true);
  await strip.getByRole('combobox').selectOption({ label: 'M-2' });
  await expect.poll(() => inSight('M-2')).toBe(true);
  await strip.getByRole('button', { name: 'M-2 on the strip' }).focus();
  for (
    let i = 0;
    i < 12 && !(await strip.getByRole('button', { name: 'UTIL on the strip' }).evaluate((each) => each.matches(':focus')));
    i++
  )
    await page.keyboard.press('ArrowLeft');
  await expect.poll(() => inSight('UTIL')).toBe(true);
  expect(await zoom(page)).toBe(100);
  await page.keyboard.press('u');
  await page.setViewportSize({ width: 1440, height: 900 });
});
