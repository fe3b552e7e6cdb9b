import type { Page } from '@playwright/test';
import { save } from '../../engine/index.ts';
import { THREE_RUNS } from './desk.ts';
import { dragPart, expect, KEPT, test, type } from './page.ts';

/** What might be lost: a second tab, work that was damaged, a file that is named while work goes on, a browser that fails once. */

const sign = (page: Page) => page.getByTestId('saved');
const begin = async (page: Page, title: string): Promise<void> => {
  await page.getByRole('button', { name: 'Blank sheet' }).click();
  await type(page, 'Title', title);
  await dragPart(page, 'Motor', 300, 200);
  await expect(sign(page)).toHaveText(KEPT);
};
/** Cuts off the newest states that the browser keeps. */
const spoil = (page: Page, states: number): Promise<void> =>
  page.evaluate(
    (count) =>
      new Promise<void>((done) => {
        const opening = indexedDB.open('copperline');
        opening.onsuccess = () => {
          const transaction = opening.result.transaction('states', 'readwrite');
          const store = transaction.objectStore('states');
          let left = count;
          store.openCursor(null, 'prev').onsuccess = ({ target }) => {
            const cursor = (target as IDBRequest<IDBCursorWithValue | null>).result;
            if (!cursor || left-- === 0) return;
            store.put({ ...cursor.value, text: '{"format":"copperline","ver' }, cursor.key);
            cursor.continue();
          };
          transaction.oncomplete = () => {
            opening.result.close();
            done();
          };
        };
      }),
    states,
  );

test('a second tab follows the first, edits only after it took over, and then the first follows', async ({ page, context }) => {
  await begin(page, 'Upper shed');
  const second = await context.newPage();
  await second.goto('/');
  await expect(sign(second)).toHaveText('read-only in this tab');
  await dragPart(second, 'Motor', 300, 400);
  await expect(second.getByRole('status', { name: 'Reason' })).toContainText('Another tab edits this line-up');
  await expect(second.locator('.react-flow__node')).toHaveCount(1);
  await dragPart(page, 'Motor', 300, 400);
  await expect(second.locator('.react-flow__node')).toHaveCount(2);
  await second.getByRole('button', { name: 'Take over' }).click();
  await expect(sign(second)).toHaveText(KEPT);
  await expect(sign(page)).toHaveText('read-only in this tab');
  await dragPart(second, 'Motor', 300, 500);
  await expect(page.locator('.react-flow__node')).toHaveCount(3);
  // An edit that is not kept yet goes along when the first takes it back.
  await type(second, 'Title', 'Lower shed');
  await page.getByRole('button', { name: 'Take over' }).click();
  await expect(page.getByLabel('Title', { exact: true })).toHaveValue('Lower shed');
  await expect(sign(page)).toHaveText(KEPT);
});

test('a tab that follows edits on when the other is closed', async ({ page, context }) => {
  await begin(page, 'Upper shed');
  const second = await context.newPage();
  await second.goto('/');
  await expect(sign(second)).toHaveText('read-only in this tab');
  await page.close();
  await expect(sign(second)).toHaveText(KEPT);
  await type(second, 'Title', 'Lower shed');
  await expect(sign(second)).toHaveText(KEPT);
  await second.reload();
  await expect(second.getByLabel('Title', { exact: true })).toHaveValue('Lower shed');
});

test('two tabs with a document each overwrite nothing', async ({ page, context }) => {
  await begin(page, 'Upper shed');
  const second = await context.newPage();
  await second.goto('/');
  await expect(sign(second)).toHaveText('read-only in this tab');
  await second.getByRole('button', { name: 'Copperline' }).click();
  await begin(second, 'Lower shed');
  await page.close();
  await second.reload();
  await expect(second.getByLabel('Title', { exact: true })).toHaveValue('Lower shed');
  await second.getByRole('button', { name: 'Copperline' }).click();
  await second.getByRole('button', { name: 'Take up Upper shed again' }).click();
  await expect(second.locator('.react-flow__node')).toHaveCount(1);
  await expect(sign(second)).toHaveText(KEPT);
});

test('a damaged state is skipped for the one before it, and that is told', async ({ page }) => {
  await begin(page, 'Shed');
  await dragPart(page, 'Motor', 300, 400);
  await expect(sign(page)).toHaveText(KEPT);
  await spoil(page, 1);
  await page.reload();
  await expect(page.getByRole('status', { name: 'Reason' })).toContainText('The latest state kept in this browser cannot be read');
  await expect(page.locator('.react-flow__node')).toHaveCount(1);
});

test('what an earlier program kept is there in this one', async ({ page }) => {
  const text = save(THREE_RUNS);
  // A page of the same origin without the program, which would hold on to the store.
  await page.route('**/bare', (route) => route.fulfill({ contentType: 'text/html', body: '<link rel="icon" href="data:,">' }));
  await page.goto('/bare');
  await page.evaluate(
    (kept) =>
      new Promise<void>((done) => {
        indexedDB.deleteDatabase('copperline').onsuccess = () => {
          const opening = indexedDB.open('copperline', 1);
          opening.onupgradeneeded = () => opening.result.createObjectStore('lineUps');
          opening.onsuccess = () => {
            const transaction = opening.result.transaction('lineUps', 'readwrite');
            transaction.objectStore('lineUps').put(kept, 'current');
            transaction.oncomplete = () => {
              opening.result.close();
              done();
            };
          };
        };
      }),
    text,
  );
  await page.goto('/');
  await expect(page.getByLabel('Title', { exact: true })).toHaveValue(THREE_RUNS.project.title);
});

test('work that cannot be read is told of, and kept to be saved as it is', async ({ page }) => {
  // Without the browser's own file window a file is downloaded.
  await page.addInitScript(() => {
    for (const name of ['showSaveFilePicker', 'showOpenFilePicker']) Reflect.deleteProperty(window, name);
  });
  await begin(page, 'Damaged');
  await spoil(page, 99);
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
  await expect(sign(page)).toHaveText(KEPT);
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
  await expect(sign(page)).toHaveText(KEPT);
});
