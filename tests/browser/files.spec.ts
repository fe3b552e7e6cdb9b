import { readFileSync, writeFileSync } from 'node:fs';
import { save } from '../../engine/index.ts';
import { command, lay, THREE_RUNS } from './desk.ts';
import { dragPart, expect, KEPT, partOf, test, type } from './page.ts';

/** What comes in and goes out: conventions 51 to 57. */

test.use({ permissions: ['clipboard-read', 'clipboard-write'] });
test.beforeEach(async ({ page }) => {
  // Without the browser's own file window a file is downloaded, and chosen by an ordinary file field. Printing is counted.
  await page.addInitScript(() => {
    for (const name of ['showSaveFilePicker', 'showOpenFilePicker']) Reflect.deleteProperty(window, name);
    const seen = { printed: 0 };
    Object.assign(window, { seen, print: () => seen.printed++ });
  });
  await page.reload();
  await page.getByRole('button', { name: 'Blank sheet' }).waitFor();
  await lay(page, THREE_RUNS);
});

test('51 Ctrl S saves the line-up to a file, also from within a field', async ({ page }) => {
  await page.getByLabel('Title', { exact: true }).focus();
  const saving = page.waitForEvent('download');
  await page.keyboard.press('Control+s');
  expect(readFileSync(await (await saving).path(), 'utf8')).toBe(save(THREE_RUNS));
  await expect(page.getByTestId('saved')).toHaveText('saved to file');
});

test('52 a file is opened by command, and by dropping it on the window', async ({ page }, info) => {
  const file = info.outputPath('other.json');
  writeFileSync(file, save({ ...THREE_RUNS, project: { ...THREE_RUNS.project, title: 'Other runs' } }));
  const choosing = page.waitForEvent('filechooser');
  // By name: a browser without a window may take Ctrl O for a shortcut of its own.
  await command(page, 'Open a file');
  await (await choosing).setFiles(file);
  await expect(page.getByLabel('Title', { exact: true })).toHaveValue('Other runs');
  await lay(page, THREE_RUNS);
  await expect(page.getByLabel('Title', { exact: true })).toHaveValue(THREE_RUNS.project.title);
});

test('53 the sign of what is saved has four states, each true', async ({ page }) => {
  const sign = page.getByTestId('saved');
  await expect(sign).toHaveText(/ in this browser/);
  await sign.evaluate((element) => {
    const said: string[] = [];
    new MutationObserver(() => said.push(element.textContent ?? '')).observe(element, {
      subtree: true,
      childList: true,
      characterData: true,
    });
    Object.assign(window, { said });
  });
  await dragPart(page, 'Motor', 60, 200);
  await expect(sign).toHaveText(KEPT);
  expect(await page.evaluate(() => (window as unknown as { said: string[] }).said)).toContain('saving…');
  const saving = page.waitForEvent('download');
  await page.keyboard.press('Control+s');
  await saving;
  await expect(sign).toHaveText('saved to file');
  await page.evaluate(() => {
    IDBObjectStore.prototype.put = () => {
      throw new DOMException('no room', 'QuotaExceededError');
    };
  });
  await dragPart(page, 'Motor', 60, 300);
  await expect(sign).toHaveText('not saved');
});

test('54 what gave way to another can be taken up again, the newest first', async ({ page }) => {
  await type(page, 'Title', 'First');
  await expect(page.getByTestId('saved')).toHaveText(KEPT);
  await lay(page, THREE_RUNS);
  await type(page, 'Title', 'Second');
  await lay(page, THREE_RUNS);
  await page.getByRole('button', { name: 'Copperline' }).click();
  const again = page.getByRole('button', { name: /^Take up .* again/ });
  await expect(again).toHaveText([/^Take up Second again/, /^Take up First again/]);
  await again.last().click();
  await expect(page.getByLabel('Title', { exact: true })).toHaveValue('First');
});

test('55 the drawing is copied as SVG and as PNG', async ({ page }) => {
  await command(page, 'drawing as SVG');
  await expect(page.getByText('The drawing is on the clipboard as SVG.')).toBeVisible();
  expect(await page.evaluate(() => navigator.clipboard.readText())).toMatch(/^<svg [^>]*>.*>VFD-2<.*<\/svg>$/s);
  await command(page, 'drawing as PNG');
  await expect(page.getByText('The drawing is on the clipboard as PNG.')).toBeVisible();
  const size = await page.evaluate(async () => {
    const [item] = await navigator.clipboard.read();
    const blob = await item?.getType('image/png');
    return blob ? (await createImageBitmap(blob)).width : 0;
  });
  expect(size).toBeGreaterThan(1000);
});

test('56 the drawing is printed on one page above its title block', async ({ page }) => {
  await command(page, 'Print');
  const printed = () => page.evaluate(() => (window as unknown as { seen: { printed: number } }).seen.printed);
  await expect.poll(printed).toBe(1);
  await page.emulateMedia({ media: 'print' });
  const drawing = page.getByRole('img', { name: `One-line diagram of ${THREE_RUNS.project.title}` });
  await expect(drawing).toBeVisible();
  await expect(page.getByRole('banner')).toBeHidden();
  await expect(page.locator('.paper')).toContainText(THREE_RUNS.project.number ?? '');
  await page.emulateMedia({ media: 'screen' });
  await page.evaluate(() => window.dispatchEvent(new Event('afterprint')));
  await expect(page.locator('.paper')).toHaveCount(0);
});

test('57 leaving asks once when the file is behind the work, and not otherwise', async ({ page }) => {
  const asked: string[] = [];
  page.on('dialog', (dialog) => {
    asked.push(dialog.type());
    void dialog.accept();
  });
  await page.reload();
  expect(asked).toEqual([]);
  await lay(page, THREE_RUNS);
  await partOf(page, 'M-1').click();
  await type(page, 'Rated power', '50 hp');
  await page.reload();
  expect(asked).toEqual(['beforeunload']);
  await expect(partOf(page, 'M-1')).toHaveCount(1);
});
