import type { Page } from '@playwright/test';
import { test as base, expect } from './guard.ts';

/** The program's first page, ready for a hand. */
export const test = base.extend({
  page: async ({ page }, use) => {
    await page.goto('/');
    await page.getByRole('button', { name: 'Blank sheet' }).waitFor();
    // The sheet is fetched behind the start page: a hand as fast as a test's would be ahead of it.
    await page.waitForLoadState('networkidle');
    await use(page);
  },
});
export { expect };

/** What the sign says of work that is kept: whether the browser also gives its word not to clear it is the browser's affair. */
export const KEPT = /^(saved in this browser|kept in this browser only)$/;

export const tally = (page: Page) => page.getByRole('status', { name: 'Verdicts' });

/** Drags a part out of the tray to a place on the sheet, measured from the sheet's corner. */
export async function dragPart(page: Page, name: string, x: number, y: number): Promise<void> {
  const from = await page.getByRole('navigation', { name: 'Parts' }).getByRole('button', { name, exact: true }).boundingBox();
  const sheet = await page.getByTestId('sheet').boundingBox();
  if (!from || !sheet) throw new Error(`no ${name} in the tray, or no sheet`);
  await page.mouse.move(from.x + 30, from.y + 20);
  await page.mouse.down();
  await page.mouse.move(sheet.x + x, sheet.y + y, { steps: 5 });
  await page.mouse.up();
}

export async function connect(page: Page, from: string, to: string): Promise<void> {
  const spot = async (label: string) => {
    const box = await page.getByLabel(label, { exact: true }).boundingBox();
    if (!box) throw new Error(`no ${label}`);
    return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
  };
  const [a, b] = [await spot(`${from}, load side`), await spot(`${to}, line side`)];
  await page.mouse.move(a.x, a.y);
  await page.mouse.down();
  await page.mouse.move((a.x + b.x) / 2, (a.y + b.y) / 2, { steps: 4 });
  await page.mouse.move(b.x, b.y, { steps: 4 });
  await page.mouse.up();
}

export async function type(page: Page, label: string, text: string): Promise<void> {
  const field = page.getByLabel(label, { exact: true });
  await field.fill(text);
  await field.press('Enter');
}
export const choose = (page: Page, label: string, value: string) => page.getByLabel(label, { exact: true }).selectOption(value);

/** A part on the sheet, by its tag. */
export const partOf = (page: Page, tag: string) => page.locator('.react-flow__node').filter({ has: page.locator(`[data-part="${tag}"]`) });

/** A cable on the sheet, by its tag. */
export const cableOf = (page: Page, tag: string) => page.locator(`.react-flow__edge[aria-label^="cable ${tag};"]`);
