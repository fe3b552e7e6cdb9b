import { readFileSync } from 'node:fs';
import type { Download, Page } from '@playwright/test';
import { insertInto, placeAfter, setValue } from '../../editor/store/edits.ts';
import { type LineUp, newLineUp, routeCable, save, tidyPositions } from '../../engine/index.ts';
import { expect, partOf, test } from './page.ts';

/** The same line-up drawn by keyboard alone, by clicks alone and by taps alone: the files are the same to the byte. */

function wanted(): LineUp {
  let lineUp = newLineUp();
  let last: string | undefined;
  for (const kind of ['supply', 'drive', 'motor'] as const) ({ lineUp, id: last } = placeAfter(lineUp, kind, last));
  lineUp = setValue(lineUp, last ?? '', 'tag', 'P-1');
  const lead = lineUp.cables.at(-1);
  if (!lead) throw new Error('no lead');
  lineUp = setValue(lineUp, lead.id, 'conductor.size', '2 AWG', '2 AWG');
  const points = routeCable(lineUp, lineUp.positions, lead, 'us');
  const made = insertInto(lineUp, lead.id, 'disconnect', { x_mm: points[0]?.[0] ?? 0, y_mm: 0 });
  if (!made) throw new Error('not inserted');
  return { ...made.lineUp, positions: tidyPositions(made.lineUp) };
}

test.beforeEach(async ({ page }) => {
  // Without the browser's own file window a file is downloaded.
  await page.addInitScript(() => {
    for (const name of ['showSaveFilePicker', 'showOpenFilePicker']) Reflect.deleteProperty(window, name);
  });
  await page.reload();
});
const isWanted = async (saving: Promise<Download>) => expect(readFileSync(await (await saving).path(), 'utf8')).toBe(save(wanted()));

test('by keyboard alone', async ({ page }) => {
  const press = async (...keys: string[]) => {
    for (const key of keys) await page.keyboard.press(key);
  };
  const say = async (text: string) => {
    await page.keyboard.type(text);
    await press('Enter');
  };
  await page.getByRole('button', { name: 'Blank sheet' }).focus();
  await press('Enter');
  await expect(page.getByText('An empty sheet')).toBeVisible();
  for (const kind of ['supply', 'drive', 'motor']) {
    await press('a');
    await say(kind);
  }
  await press('F2');
  await say('P-1');
  // While a part is chosen arrows nudge it; let go, they travel along the cables.
  await press('Escape', 'ArrowUp', 'Enter', 'e');
  const field = page.getByLabel('Conductor size', { exact: true });
  for (let i = 0; i < 40 && !(await field.evaluate((input) => input === document.activeElement)); i++) await press('Tab');
  await say('2 AWG');
  for (const words of ['Insert a part', 'disconnect', 'Tidy']) {
    if (words !== 'disconnect') await press('Control+k');
    await say(words);
  }
  const saving = page.waitForEvent('download');
  await press('Control+s');
  await isWanted(saving);
});

/** By a pointer that never drags. */
async function byPointing(page: Page, point: (target: ReturnType<Page['locator']>) => Promise<void>): Promise<void> {
  const button = (name: string) => page.getByRole('button', { name, exact: true });
  const choose = (kind: string) => point(page.getByRole('listbox', { name: 'Choices' }).getByRole('option', { name: kind, exact: true }));
  const doing = async (name: string) => {
    await point(button('More…'));
    await point(page.getByRole('menuitem', { name }));
  };
  await point(button('Blank sheet'));
  await doing('Add a part…');
  await choose('supply');
  await point(button('Add after S-1'));
  await choose('drive');
  await point(button('Add after VFD-1'));
  await choose('motor');
  await doing('Rename');
  await page.keyboard.insertText('P-1');
  await page.keyboard.press('Enter');
  await expect(partOf(page, 'P-1')).toHaveCount(1);
  await point(button('All findings'));
  await point(page.getByText('3 parts, 2 cables'));
  await point(page.getByRole('button', { name: 'W-2 cable' }));
  await point(page.getByLabel('Conductor size', { exact: true }));
  await page.keyboard.insertText('2 AWG');
  await page.keyboard.press('Enter');
  await doing('Insert a part here…');
  await choose('disconnect');
  await point(button('Tidy'));
  const saving = page.waitForEvent('download');
  await point(button('Save'));
  await isWanted(saving);
}

test('by clicks alone', async ({ page }) => {
  await byPointing(page, (target) => target.click());
});

test('a chosen part goes to the next click, and several are chosen click by click', async ({ page }) => {
  await page.getByText('Heron Weir pumps').click();
  await partOf(page, 'P-2').click();
  const before = await partOf(page, 'P-2').boundingBox();
  await page.getByRole('button', { name: 'Move', exact: true }).click();
  await page.getByTestId('sheet').click({ position: { x: 80, y: 500 } });
  await expect.poll(async () => (await partOf(page, 'P-2').boundingBox())?.x).toBeLessThan((before?.x ?? 0) - 100);
  await page.getByRole('button', { name: 'Several' }).click();
  await partOf(page, 'VFD-2').click();
  await partOf(page, 'CB-2').click();
  await expect(page.getByRole('heading', { name: '3 parts selected' })).toBeVisible();
  await page.getByRole('button', { name: 'Several' }).click();
});

test.describe('with a finger', () => {
  test.use({ hasTouch: true, isMobile: true, viewport: { width: 1180, height: 820 } });

  test('by taps alone', async ({ page }) => {
    await byPointing(page, (target) => target.tap());
  });

  test('a resting finger asks for the menu of a part; a second finger leaves a part where it was', async ({ page }) => {
    await page.getByText('Heron Weir pumps').tap();
    const box = await partOf(page, 'CB-2').boundingBox();
    if (!box) throw new Error('no CB-2');
    const at = { x: box.x + box.width / 2, y: box.y + box.height / 2 };
    const session = await page.context().newCDPSession(page);
    const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', ...points: { x: number; y: number }[]) =>
      session.send('Input.dispatchTouchEvent', { type, touchPoints: points.map((point, id) => ({ ...point, id })) });
    await touch('touchStart', at);
    await expect(page.getByRole('menu', { name: 'What can be done' })).toBeVisible();
    await touch('touchEnd');
    await page.keyboard.press('Escape');
    await touch('touchStart', at);
    for (const step of [4, 30, 90]) await touch('touchMove', { x: at.x - step, y: at.y });
    await expect.poll(async () => (await partOf(page, 'CB-2').boundingBox())?.x).toBeLessThan(box.x - 40);
    await touch('touchStart', { x: at.x - 90, y: at.y }, { x: at.x - 160, y: at.y + 60 });
    await expect.poll(async () => (await partOf(page, 'CB-2').boundingBox())?.x).toBeCloseTo(box.x, 0);
    await touch('touchMove', { x: at.x - 120, y: at.y }, { x: at.x - 160, y: at.y + 60 });
    await touch('touchEnd');
    await expect.poll(async () => (await partOf(page, 'CB-2').boundingBox())?.x).toBeCloseTo(box.x, 0);
    await expect(page.getByRole('button', { name: 'Undo' })).toBeDisabled();
  });

  test('one finger moves the sheet, two zoom it', async ({ page }) => {
    await page.getByText('Heron Weir pumps').tap();
    const at = async (tag: string) => {
      const box = await partOf(page, tag).boundingBox();
      if (!box) throw new Error(`no ${tag}`);
      return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
    };
    const size = async () => Number((await page.getByRole('button', { name: 'show at full size' }).textContent())?.replace(/\D/g, ''));
    const session = await page.context().newCDPSession(page);
    const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', ...points: { x: number; y: number }[]) =>
      session.send('Input.dispatchTouchEvent', { type, touchPoints: points.map((point, id) => ({ ...point, id })) });
    const sheet = await page.getByTestId('sheet').boundingBox();
    const clear = { x: (sheet?.x ?? 0) + 60, y: (sheet?.y ?? 0) + 200 };
    const before = await at('VFD-2');
    await touch('touchStart', clear);
    for (const step of [10, 30, 60]) await touch('touchMove', { x: clear.x + step, y: clear.y });
    await touch('touchEnd');
    await expect.poll(async () => (await at('VFD-2')).x - before.x).toBeGreaterThan(40);
    const zoom = await size();
    const other = { x: clear.x + 100, y: clear.y };
    await touch('touchStart', clear, other);
    for (const step of [20, 60, 120]) await touch('touchMove', clear, { x: other.x + step, y: other.y });
    await touch('touchEnd');
    await expect.poll(size).toBeGreaterThan(zoom);
  });
});
