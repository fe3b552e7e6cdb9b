import type { Page } from '@playwright/test';
import { type LineUp, load, review, type Verdict } from '../../engine/index.ts';
import { manyRuns } from '../engine/manyRuns.ts';
import { readExample } from '../engine/sizing/readExample.ts';
import { command, expect, lay, THREE_RUNS, test } from './desk.ts';
import { partOf } from './page.ts';

/** What a screen reader hears: the tree of the page, the outline held to the document, and where the focus is. */

const EXAMPLES = [
  'heron-weir-pumps',
  'fennel-lane-capping',
  'quillback-hall-air',
  'vantage-cleanroom-air',
  'basalt-ridge-crusher',
] as const;

/** By run, each part once: its tag, its kind, and the worst that is said of it. */
function outlineOf(lineUp: LineUp): readonly string[] {
  const { runs, findings } = review(lineUp);
  const parts = new Map([...lineUp.elements, ...lineUp.cables].map((part) => [part.id, part]));
  const worst = new Map<string, Verdict>();
  for (const { subject, verdict } of findings) if (!worst.has(subject.id)) worst.set(subject.id, verdict);
  return [...new Set([...runs.flatMap(({ path }) => path), ...parts.keys()])].map((id) =>
    [parts.get(id)?.tag, parts.get(id)?.kind, worst.get(id)?.replaceAll('-', ' ')].filter(Boolean).join(' '),
  );
}
const heard = (page: Page): Promise<readonly string[]> =>
  page
    .locator('.outlined')
    .evaluateAll((all) => all.map((each) => [...each.children].flatMap(({ textContent }) => textContent?.trim() || []).join(' ')));
const openOutline = (page: Page) => page.getByText(/^\d+ parts?, \d+ cables?$/).click();

/** All that is drawn, as it goes to the clipboard. */
async function copied(page: Page): Promise<LineUp> {
  await page.keyboard.press('Control+a');
  await page.keyboard.press('Control+c');
  const loaded = load(await page.evaluate(() => navigator.clipboard.readText()));
  await page.keyboard.press('Escape');
  if (!loaded.ok) throw new Error(loaded.what);
  return loaded.lineUp;
}

/** As it is heard in US words, which the parts' kinds are. */
const inUs = (lineUp: LineUp): LineUp => ({ ...lineUp, project: { ...lineUp.project, vocabulary: 'us' } });

test('the outline says what the document holds, of every example and of many runs', async ({ page }) => {
  for (const lineUp of [...EXAMPLES.map(readExample), THREE_RUNS, manyRuns(12)].map(inUs)) {
    await lay(page, lineUp);
    await openOutline(page);
    await expect.poll(() => heard(page)).toEqual(outlineOf(lineUp));
  }
});

test('it keeps step with whatever is done on the sheet', async ({ page }) => {
  const STEPS = [
    ['DS-2', 'Take out and rejoin the cable'],
    ['M-1', 'One more like this'],
    ['M-2', 'Undo'],
    ['M-3', 'Delete'],
    ['VFD-1', 'Tidy the layout'],
    ['VFD-1', 'Undo'],
    ['VFD-1', 'Redo'],
  ] as const;
  for (const [tag, step] of STEPS) {
    await page.keyboard.press('f');
    await partOf(page, tag).click();
    await command(page, step);
    await page.keyboard.press('Escape');
    await page.keyboard.press('Escape');
    const now = await copied(page);
    if ((await page.locator('.outlined').count()) === 0) await openOutline(page);
    await expect.poll(() => heard(page)).toEqual(outlineOf(now));
  }
});

test('the page as a tree of names', async ({ page }) => {
  await lay(page, readExample('heron-weir-pumps'));
  await expect(page.getByTestId('saved')).toHaveText(/ in this browser/);
  await expect(page.getByRole('main')).toMatchAriaSnapshot({ name: 'heron-weir-pumps.aria.yml' });
});

/** How much the ring stands out, by the very pixels: those that it changes, and their least contrast with what was there. */
async function ringOf(
  page: Page,
  focus: () => Promise<void>,
  blur: () => Promise<void>,
  around: () => Promise<{ x: number; y: number; width: number; height: number }>,
) {
  await blur();
  const clip = await around();
  const before = (await page.screenshot({ clip })).toString('base64');
  await focus();
  const after = (await page.screenshot({ clip })).toString('base64');
  await blur();
  return page.evaluate(
    async ([a, b]) => {
      const pixels = async (text: string) => {
        const image = await createImageBitmap(new Blob([Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0))]));
        const canvas = new OffscreenCanvas(image.width, image.height);
        const context = canvas.getContext('2d');
        context?.drawImage(image, 0, 0);
        return context?.getImageData(0, 0, image.width, image.height).data ?? new Uint8ClampedArray();
      };
      const [was, is] = [await pixels(a as string), await pixels(b as string)];
      const light = (data: Uint8ClampedArray, i: number): number =>
        [0.2126, 0.7152, 0.0722].reduce((sum, share, k) => {
          const c = (data[i + k] ?? 0) / 255;
          return sum + share * (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4);
        }, 0);
      let strong = 0;
      for (let i = 0; i < was.length; i += 4) {
        const [low, high] = [light(was, i), light(is, i)].sort((one, two) => one - two) as [number, number];
        if ((high + 0.05) / (low + 0.05) >= 3) strong++;
      }
      return strong;
    },
    [before, after],
  );
}

for (const colorScheme of ['light', 'dark'] as const)
  test(`a ring of 2 px and 3:1 stands round what has the focus, ${colorScheme}`, async ({ page }) => {
    await page.emulateMedia({ colorScheme });
    await lay(page, readExample('heron-weir-pumps'));
    const box = async (selector: string) => {
      const found = await page.locator(selector).first().boundingBox();
      if (!found) throw new Error(selector);
      return found;
    };
    const blur = () => page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
    for (const selector of ['.react-flow__node', '.tray button', '.finding', '.tools button:not(:disabled)', '.reader select']) {
      const at = await box(selector);
      const around = async () => ({ x: Math.max(0, at.x - 6), y: Math.max(0, at.y - 6), width: at.width + 12, height: at.height + 12 });
      const focus = async () => {
        // A ring is for those who came by keys.
        await page.keyboard.press('Tab');
        await page.locator(selector).first().focus();
      };
      const strong = await ringOf(page, focus, blur, around);
      // Two pixels all round, corners rounded off.
      expect([selector, strong >= 0.8 * 2 * 2 * (at.width + at.height)]).toEqual([selector, true]);
    }
  });
