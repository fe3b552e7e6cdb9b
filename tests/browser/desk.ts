import type { Page } from '@playwright/test';
import { type LineUp, save, tidyPositions } from '../../engine/index.ts';
import { threeRuns } from '../engine/drawing/threeRuns.ts';
import { test as base, expect, originOf, watch } from './guard.ts';
import { partOf } from './page.ts';

/** One page for all tests of a file: each lays its own line-up on it, as a hand does that drops a file on the window. */

const runs = threeRuns();
export const THREE_RUNS: LineUp = { ...runs, positions: tidyPositions(runs) };

interface Shared {
  readonly desk: { readonly page: Page; readonly faults: string[] };
}

export const test = base.extend<object, Shared>({
  desk: [
    async ({ browser }, use, { project }) => {
      const { baseURL, viewport } = project.use;
      const context = await browser.newContext({
        ...(baseURL && { baseURL }),
        viewport: viewport ?? null,
        permissions: ['clipboard-read', 'clipboard-write'],
      });
      const faults = await watch(context, originOf(baseURL));
      const page = await context.newPage();
      await page.goto('/');
      await page.getByRole('button', { name: 'Blank sheet' }).waitFor();
      await page.waitForLoadState('networkidle');
      await use({ page, faults });
      await context.close();
    },
    { scope: 'worker' },
  ],
  page: async ({ desk }, use) => {
    await lay(desk.page, THREE_RUNS);
    await use(desk.page);
    expect(desk.faults.splice(0)).toEqual([]);
  },
});
export { expect };

/** Opens a line-up by dropping its file on the window. */
export async function lay(page: Page, lineUp: LineUp): Promise<void> {
  // What lies there already may look just the same: a hand that does not wait for its own would have the page changed under it.
  await page.locator('main').evaluate((main) => main.setAttribute('data-before', ''));
  await page.locator('.page').evaluate((target, text) => {
    const dataTransfer = new DataTransfer();
    dataTransfer.items.add(new File([text], 'laid.json', { type: 'application/json' }));
    target.dispatchEvent(new DragEvent('drop', { dataTransfer, bubbles: true, cancelable: true }));
  }, save(lineUp));
  await expect(page.locator('main[data-before]')).toHaveCount(0);
  await expect(page.locator('.react-flow__node')).toHaveCount(lineUp.elements.length);
  await expect(page.getByRole('button', { name: 'Undo' })).toBeDisabled();
}

export interface Spot {
  readonly x: number;
  readonly y: number;
}
export async function middle(page: Page, tag: string): Promise<Spot> {
  const box = await partOf(page, tag).boundingBox();
  if (!box) throw new Error(`no ${tag} on the sheet`);
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
}
/** A place of the sheet where nothing is drawn. */
export async function corner(page: Page): Promise<Spot> {
  const box = await page.getByTestId('sheet').boundingBox();
  if (!box) throw new Error('no sheet');
  return { x: box.x + 12, y: box.y + 12 };
}
export async function drag(page: Page, from: Spot, to: Spot, button: 'left' | 'middle' = 'left'): Promise<void> {
  await page.mouse.move(from.x, from.y);
  await page.mouse.down({ button });
  await page.mouse.move((from.x + to.x) / 2, (from.y + to.y) / 2, { steps: 3 });
  await page.mouse.move(to.x, to.y, { steps: 3 });
  await page.mouse.up({ button });
}
export const zoom = async (page: Page): Promise<number> =>
  Number((await page.getByRole('button', { name: 'show at full size' }).textContent())?.replace(/\D/g, ''));

export const selected = (page: Page): Promise<readonly string[]> =>
  page
    .locator('.react-flow__node.selected [data-part]')
    .evaluateAll((parts) => parts.map((part) => part.getAttribute('data-part') ?? '').sort());
export const tags = (page: Page): Promise<readonly string[]> =>
  page.locator('[data-part]').evaluateAll((parts) => parts.map((part) => part.getAttribute('data-part') ?? '').sort());
/** Runs a command by its name, as anyone may who does not know its key. */
export async function command(page: Page, name: string): Promise<void> {
  await page.keyboard.press('Control+k');
  await page.getByRole('combobox', { name: 'Find a tag, or do something' }).fill(name);
  await page.keyboard.press('Enter');
  await expect(page.getByRole('combobox', { name: 'Find a tag, or do something' })).toHaveCount(0);
}
