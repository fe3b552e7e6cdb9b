import type { Page } from '@playwright/test';
import { save } from '../../engine/index.ts';
import { lay, THREE_RUNS } from './desk.ts';
import { expect, test, type } from './page.ts';

/** Files on disk: written whole or not at all, read back, and never over what somebody else wrote. The browser's own file system stands in for the disk. */

interface Disk {
  /** What the system's dialogs answer: a name, or why there is none. */
  answer: string;
  asked: number;
  handles: Record<string, FileSystemFileHandle>;
}

test.beforeEach(async ({ page }) => {
  await page.addInitScript(() => {
    const disk: Disk = { answer: 'mine.json', asked: 0, handles: {} };
    const choose = async () => {
      disk.asked++;
      if (disk.answer.endsWith('Error')) throw new DOMException('as the test wants it', disk.answer);
      const folder = await navigator.storage.getDirectory();
      // One object a file, so that a test can make it fail.
      disk.handles[disk.answer] ??= await folder.getFileHandle(disk.answer, { create: true });
      return disk.handles[disk.answer];
    };
    Object.assign(window, { disk, showSaveFilePicker: choose, showOpenFilePicker: async () => [await choose()] });
  });
  await page.reload();
  await lay(page, THREE_RUNS);
});

const onDisk = (page: Page, name: string): Promise<string> =>
  page.evaluate(async (file) => {
    const folder = await navigator.storage.getDirectory();
    return (await (await folder.getFileHandle(file, { create: true })).getFile()).text();
  }, name);
const writeElsewhere = (page: Page, name: string, text: string): Promise<void> =>
  page.evaluate(
    async ([file, words]) => {
      const folder = await navigator.storage.getDirectory();
      const writable = await (await folder.getFileHandle(file, { create: true })).createWritable();
      await writable.write(words);
      await writable.close();
    },
    [name, text] as const,
  );
const answer = (page: Page, next: string): Promise<void> =>
  page.evaluate((words) => {
    (window as unknown as { disk: Disk }).disk.answer = words;
  }, next);
const asked = (page: Page): Promise<number> => page.evaluate(() => (window as unknown as { disk: Disk }).disk.asked);
const sign = (page: Page) => page.getByTestId('saved');
const reason = (page: Page) => page.getByRole('status', { name: 'Reason' });
const titled = (title: string): string => save({ ...THREE_RUNS, project: { ...THREE_RUNS.project, title } });

/** The next writing of this file fails in this way. */
const spoil = (page: Page, name: string, how: 'denied' | 'full' | 'half'): Promise<void> =>
  page.evaluate(
    ([file, way]) => {
      const handle = (window as unknown as { disk: Disk }).disk.handles[file];
      if (!handle) throw new Error(`no ${file}`);
      const { createWritable } = handle;
      Object.defineProperty(handle, 'createWritable', {
        configurable: true,
        value: async () => {
          Reflect.deleteProperty(handle, 'createWritable');
          if (way === 'denied') throw new DOMException('as the test wants it', 'NotAllowedError');
          const real = await createWritable.call(handle);
          const write = async (text: string) => {
            await real.write(text.slice(0, 100));
            if (way === 'full') throw new DOMException('the disk is full', 'QuotaExceededError');
          };
          const abort = async () => {
            Object.assign(window, { aborted: true });
            await real.abort();
          };
          return { write, close: () => real.close(), abort };
        },
      });
    },
    [name, how] as const,
  );

test('a file is asked for once, then written again to the same', async ({ page }) => {
  await page.keyboard.press('Control+s');
  await expect(sign(page)).toHaveText('saved to file');
  expect(await onDisk(page, 'mine.json')).toBe(save(THREE_RUNS));
  await type(page, 'Title', 'Later');
  await page.keyboard.press('Control+s');
  await expect(sign(page)).toHaveText('saved to file');
  expect(await onDisk(page, 'mine.json')).toBe(titled('Later'));
  expect(await asked(page)).toBe(1);
  await answer(page, 'other.json');
  await type(page, 'Title', 'Latest');
  await page.keyboard.press('Control+Shift+s');
  await expect.poll(() => onDisk(page, 'other.json')).toBe(titled('Latest'));
  expect(await onDisk(page, 'mine.json')).toBe(titled('Later'));
});

test('to give up in the dialog of the system changes nothing', async ({ page }) => {
  await type(page, 'Title', 'Later');
  await answer(page, 'AbortError');
  await page.keyboard.press('Control+s');
  await expect.poll(() => asked(page)).toBe(1);
  await expect(sign(page)).not.toHaveText('saved to file');
  await expect(reason(page)).not.toContainText('written');
});

for (const [how, words] of [
  ['denied', 'The browser may not write mine.json'],
  ['full', 'mine.json could not be written: the disk is full'],
] as const)
  test(`what cannot be written is told, and the file stays as it was: ${how}`, async ({ page }) => {
    await page.keyboard.press('Control+s');
    await expect(sign(page)).toHaveText('saved to file');
    await type(page, 'Title', 'Later');
    await spoil(page, 'mine.json', how);
    await page.keyboard.press('Control+s');
    await expect(reason(page)).toContainText(words);
    await expect(sign(page)).not.toHaveText('saved to file');
    expect(await onDisk(page, 'mine.json')).toBe(save(THREE_RUNS));
    expect(await page.evaluate(() => 'aborted' in window)).toBe(how === 'full');
    await page.keyboard.press('Control+s');
    await expect(sign(page)).toHaveText('saved to file');
  });

test('what was called written and is not is found out by reading it back', async ({ page }) => {
  await page.keyboard.press('Control+s');
  await expect(sign(page)).toHaveText('saved to file');
  await type(page, 'Title', 'Later');
  await spoil(page, 'mine.json', 'half');
  await page.keyboard.press('Control+s');
  await expect(reason(page)).toContainText('what stands in it now is not what was written');
  await expect(sign(page)).not.toHaveText('saved to file');
});

for (const whose of ['mine in a new file', 'mine', 'theirs'] as const)
  test(`a file that was changed on disk is asked about: ${whose}`, async ({ page }) => {
    await writeElsewhere(page, 'mine.json', titled('As opened'));
    await page.getByRole('button', { name: 'Open…' }).click();
    const title = page.getByLabel('Title', { exact: true });
    await expect(title).toHaveValue('As opened');
    await type(page, 'Title', 'Mine');
    // As long as it was, so that its size tells nothing.
    const theirs = titled('By others');
    await writeElsewhere(page, 'mine.json', theirs);
    await page.keyboard.press('Control+s');
    const dialog = page.getByRole('dialog', { name: 'The file was changed' });
    await expect(dialog).toContainText('mine.json was changed elsewhere');
    expect(await onDisk(page, 'mine.json')).toBe(theirs);
    if (whose === 'mine in a new file') {
      await answer(page, 'new.json');
      await dialog.getByRole('button', { name: 'Keep mine in a new file' }).click();
      await expect(sign(page)).toHaveText('saved to file');
      expect([await onDisk(page, 'mine.json'), await onDisk(page, 'new.json')]).toEqual([theirs, titled('Mine')]);
    } else if (whose === 'mine') {
      await dialog.getByRole('button', { name: 'Overwrite it with mine' }).click();
      await expect(sign(page)).toHaveText('saved to file');
      expect(await onDisk(page, 'mine.json')).toBe(titled('Mine'));
    } else {
      await dialog.getByRole('button', { name: 'Open theirs' }).click();
      await expect(title).toHaveValue('By others');
      expect(await onDisk(page, 'mine.json')).toBe(theirs);
      await page.getByRole('button', { name: 'Copperline', exact: true }).click();
      await page.getByRole('button', { name: 'Take up Mine again' }).click();
      await expect(title).toHaveValue('Mine');
    }
    await expect(dialog).toHaveCount(0);
  });
