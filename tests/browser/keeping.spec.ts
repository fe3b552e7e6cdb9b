import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { dragPart, expect, KEPT, partOf, test, type } from './page.ts';

/** Nothing is lost: the browser keeps the work, files carry it, and another line-up does not wipe it out. */

test('the sign is true: what it calls saved is there after a reload', async ({ page }) => {
  await page.getByRole('button', { name: 'Blank sheet' }).click();
  await dragPart(page, 'Motor', 300, 200);
  await type(page, 'Rated power', '60 hp');
  await expect(page.getByTestId('saved')).toHaveText(KEPT);
  await page.reload();
  await partOf(page, 'M-1').click();
  await expect(page.getByLabel('Rated power', { exact: true })).toHaveValue('60 hp');
});

test('an edit just before leaving is kept too', async ({ page }) => {
  await page.getByRole('button', { name: 'Blank sheet' }).click();
  await dragPart(page, 'Motor', 300, 200);
  await expect(page.locator('.react-flow__node')).toHaveCount(1);
  await page.reload();
  await expect(page.locator('.react-flow__node')).toHaveCount(1);
});

test('what stands in a field when the page is left is taken, as by going on to the next field', async ({ page }) => {
  await page.getByRole('button', { name: 'Blank sheet' }).click();
  await dragPart(page, 'Motor', 300, 200);
  await page.getByLabel('Rated power', { exact: true }).fill('75 hp');
  await page.reload();
  await partOf(page, 'M-1').click();
  await expect(page.getByLabel('Rated power', { exact: true })).toHaveValue('75 hp');
  await page.getByLabel('Rated power', { exact: true }).fill('much');
  await page.reload();
  await partOf(page, 'M-1').click();
  await expect(page.getByLabel('Rated power', { exact: true })).toHaveValue('75 hp');
});

test('an edit just before leaving is kept where the store is busy, and its write would be rolled back with the page', async ({ page }) => {
  await page.getByRole('button', { name: 'Blank sheet' }).click();
  await dragPart(page, 'Motor', 300, 200);
  await expect(page.getByTestId('saved')).toHaveText(KEPT);
  await page.evaluate(
    () =>
      new Promise<void>((begun) => {
        const opening = indexedDB.open('copperline');
        opening.onsuccess = () => {
          const store = opening.result.transaction('states', 'readwrite').objectStore('states');
          const again = (): void => {
            begun();
            store.count().onsuccess = again;
          };
          again();
        };
      }),
  );
  await dragPart(page, 'Motor', 300, 400);
  await expect(page.locator('.react-flow__node')).toHaveCount(2);
  await page.reload();
  await expect(page.locator('.react-flow__node')).toHaveCount(2);
  // What was brought back has its place among the others: nothing is left over to be brought back again.
  expect(await page.evaluate(() => Object.keys(localStorage).filter((key) => key.includes('left')))).toEqual([]);
});

test('the start page does not close the line-up, and one that gave way to another can be taken up again', async ({ page }) => {
  await page.getByRole('button', { name: 'Blank sheet' }).click();
  await type(page, 'Title', 'Reed pumps');
  await dragPart(page, 'Motor', 300, 200);
  await page.getByRole('button', { name: 'Copperline' }).click();
  await page.getByRole('button', { name: 'Go on with Reed pumps' }).click();
  await expect(page.locator('.react-flow__node')).toHaveCount(1);
  await page.getByRole('button', { name: 'Copperline' }).click();
  await page.getByText('Alder Mill fan').click();
  await page.getByRole('button', { name: 'Copperline' }).click();
  await page.getByRole('button', { name: 'Take up Reed pumps again' }).click();
  await expect(page.locator('.react-flow__node')).toHaveCount(1);
});

test('a line-up goes out as a file and comes back the same', async ({ page }) => {
  // Without the browser's own file window a file is downloaded, and chosen by an ordinary file field.
  await page.addInitScript(() => {
    for (const name of ['showSaveFilePicker', 'showOpenFilePicker']) Reflect.deleteProperty(window, name);
  });
  await page.reload();
  await page.getByText('Heron Weir pumps').click();
  await expect(page.getByTestId('sheet')).toBeVisible();
  const saving = page.waitForEvent('download');
  await page.keyboard.press('Control+s');
  const file = await (await saving).path();
  expect(readFileSync(file, 'utf8')).toBe(readFileSync(join(import.meta.dirname, '../../examples/heron-weir-pumps.json'), 'utf8'));
  await expect(page.getByTestId('saved')).toHaveText('saved to file');
  await type(page, 'Title', 'Other pumps');
  const choosing = page.waitForEvent('filechooser');
  // By the button: a browser without a window may take Ctrl O for a shortcut of its own.
  await page.getByRole('button', { name: 'Open…' }).click();
  await (await choosing).setFiles(file);
  await expect(page.getByLabel('Title', { exact: true })).toHaveValue('Heron Weir pumps');
});
