import type { Page } from '@playwright/test';
import { dragPart, expect, test, type } from './page.ts';

/** What might be lost: a second tab, work that was damaged, a file that is named while work goes on, a browser that fails once. */

const sign = (page: Page) => page.getByTestId('saved');
const begin = async (page: Page, title: string): Promise<void> => {
  await page.getByRole('button', { name: 'Blank sheet' }).click();
  await type(page, 'Title', title);
  await dragPart(page, 'Motor', 300, 200);
  await expect(sign(page)).toHaveText('saved in this browser');
};
/** Writes straight into what the browser keeps. */
const spoil = (page: Page): Promise<void> =>
  page.evaluate(
    () =>
      new Promise<void>((done) => {
        const opening = indexedDB.open('copperline');
        opening.onsuccess = () => {
          const transaction = opening.result.transaction('lineUps', 'readwrite');
          transaction.objectStore('lineUps').put('{"format":"copperline","ver', 'current');
          transaction.oncomplete = () => done();
        };
      }),
  );

/** What this browser would open next time. */
const openedNext = (page: Page): Promise<string> =>
  page.evaluate(
    () =>
      new Promise<string>((done) => {
        const opening = indexedDB.open('copperline');
        opening.onsuccess = () => {
          const asked = opening.result.transaction('lineUps').objectStore('lineUps').get('current');
          asked.onsuccess = () => {
            opening.result.close();
            done(String(asked.result));
          };
        };
      }),
  );

test('a second tab overwrites nothing, says so, and has the place when the first is closed', async ({ page, context }) => {
  await begin(page, 'Upper shed');
  const second = await context.newPage();
  await second.goto('/');
  await expect(second.getByText('Copperline is open in another tab.')).toBeVisible();
  await begin(second, 'Lower shed');
  // The first leaves: what it had open can be taken up again, and the second has its place from now on.
  await page.close();
  await expect.poll(() => openedNext(second)).toContain('Lower shed');
  await second.reload();
  await expect(second.getByLabel('Title', { exact: true })).toHaveValue('Lower shed');
  await second.getByRole('button', { name: 'Copperline' }).click();
  await second.getByRole('button', { name: 'Take up Upper shed again' }).click();
  await expect(second.locator('.react-flow__node')).toHaveCount(1);
});

test('work that cannot be read is told of, and kept to be saved as it is', async ({ page }) => {
  // Without the browser's own file window a file is downloaded.
  await page.addInitScript(() => {
    for (const name of ['showSaveFilePicker', 'showOpenFilePicker']) Reflect.deleteProperty(window, name);
  });
  await begin(page, 'Damaged');
  await spoil(page);
  await page.reload();
  await expect(page.getByRole('dialog')).toContainText('cut off');
  await page.getByRole('button', { name: 'Close' }).click();
  await begin(page, 'Next');
  await page.getByRole('button', { name: 'Copperline' }).click();
  const saving = page.waitForEvent('download');
  await page.getByRole('button', { name: /^Save to a file what cannot be read/ }).click();
  expect((await saving).suggestedFilename()).toBe('not-readable.json');
});

test('what is drawn while the system asks for a name is not called saved to file', async ({ page }) => {
  await page.addInitScript(() => {
    const waiting = new Promise<void>((resolve) => Object.assign(window, { letName: () => resolve() }));
    const showSaveFilePicker = async () => {
      await waiting;
      const folder = await navigator.storage.getDirectory();
      return folder.getFileHandle('shed.json', { create: true });
    };
    Object.assign(window, { showSaveFilePicker });
  });
  await page.reload();
  await begin(page, 'Shed');
  await page.keyboard.press('Control+s');
  await dragPart(page, 'Motor', 300, 400);
  await page.evaluate(() => (window as unknown as { letName: () => void }).letName());
  const written = () =>
    page.evaluate(async () => {
      const folder = await navigator.storage.getDirectory();
      return (await (await folder.getFileHandle('shed.json', { create: true })).getFile()).text();
    });
  await expect.poll(async () => (await written()).match(/"kind": "motor"/g)?.length).toBe(1);
  await expect(sign(page)).toHaveText('saved in this browser');
});

test('a browser that fails once is asked again', async ({ page }) => {
  await begin(page, 'Shed');
  await page.evaluate(() => {
    const { put } = IDBObjectStore.prototype;
    IDBObjectStore.prototype.put = () => {
      IDBObjectStore.prototype.put = put;
      throw new DOMException('no room', 'QuotaExceededError');
    };
  });
  await dragPart(page, 'Motor', 300, 400);
  await expect(sign(page)).toHaveText('not saved');
  await expect(sign(page)).toHaveText('saved in this browser');
});
