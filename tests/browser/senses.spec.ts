import type { Page } from '@playwright/test';
import { expect, partOf, test } from './page.ts';

/** For eyes, hands and screens of other kinds: forced colours, less movement, no hues, coarse pointers, a window of 320 by 256. */

/**
 * Of everything that is seen and can be pressed or filled in: what is smaller than that, by name. A port may be 24 px high in any case:
 * more would cover the part under it, which must be taken hold of too, and cables are joined by name as well.
 */
const tooSmall = (page: Page, wanted: number): Promise<readonly string[]> =>
  page.evaluate((wanted) => {
    const controls = [...document.querySelectorAll<HTMLElement>('button, select, input, summary, [role="button"]')];
    return controls.flatMap((each) => {
      const own = each.getBoundingClientRect();
      // The room for the hand is drawn round a port, and for a finger round the bridge of a gap.
      const zoom = Number(document.querySelector<HTMLElement>('.sheet')?.style.getPropertyValue('--zoom') || 1);
      const port = each.classList.contains('react-flow__handle');
      const round = port || each.classList.contains('bond') ? getComputedStyle(each, '::after') : null;
      const scale = port ? zoom : own.width / each.offsetWidth;
      const box =
        round && round.content !== 'none'
          ? { width: scale * Number.parseFloat(round.width), height: scale * Number.parseFloat(round.height) }
          : own;
      const seen = each.checkVisibility({ opacityProperty: false, visibilityProperty: true }) && box.width > 0 && box.height > 0;
      const least = port ? 24 : wanted;
      // Half a pixel is lost where the browser rounds.
      if (!seen || each.closest('[inert]') || (box.height >= least - 0.5 && box.width >= least - 0.5)) return [];
      return [
        `${each.getAttribute('aria-label') ?? each.textContent ?? each.tagName}: ${Math.round(box.width)} × ${Math.round(box.height)}`,
      ];
    });
  }, wanted);

test('forced colours: lines of the drawing, marks and charts take the colours of the system', async ({ page }) => {
  await page.emulateMedia({ forcedColors: 'active' });
  const text = await page.evaluate(() => {
    const probe = document.body.appendChild(document.createElement('span'));
    probe.style.color = 'CanvasText';
    const { color } = getComputedStyle(probe);
    probe.remove();
    return color;
  });
  const strokes = (scope: string) =>
    page
      .locator(`${scope} :is(polyline, path, circle, rect)`)
      .evaluateAll((shapes) => [
        ...new Set(
          shapes
            .map((each) => getComputedStyle(each))
            .flatMap(({ stroke, strokeWidth }) => (stroke === 'none' || strokeWidth === '0px' ? [] : [stroke])),
        ),
      ]);
  await expect(page.locator('.examples svg').nth(6)).toBeVisible();
  expect(await strokes('.examples svg')).toEqual([text]);
  await page.getByText('Heron Weir pumps').click();
  await partOf(page, 'P-2').waitFor();
  expect(await strokes('.drawing')).toEqual([text]);
  expect(await strokes('.tray svg')).toEqual([text]);
  // What takes hold of a cable is for the hand alone, and a mark is not filled with the ink of its cross.
  expect(await strokes('.sheet .react-flow__edges')).not.toContain(text);
  expect(
    await page
      .locator('.badge path')
      .first()
      .evaluate((shape) => getComputedStyle(shape).fill),
  ).not.toBe(text);
  expect(await strokes('.badge')).toEqual([text]);
  await page.keyboard.press('u');
  await page.getByRole('img', { name: 'The run of P-2, unrolled' }).waitFor();
  expect(await strokes('.strip .chart')).toEqual([text]);
});

test('less movement: nothing changes slowly', async ({ page }) => {
  await page.emulateMedia({ reducedMotion: 'reduce' });
  await page.getByText('Heron Weir pumps').click();
  await partOf(page, 'P-2').waitFor();
  const slow = await page.locator('body *').evaluateAll((all) =>
    all.flatMap((each) => {
      const { animationName, transitionDuration } = getComputedStyle(each);
      return animationName === 'none' && transitionDuration.split(', ').every((time) => time === '0s') ? [] : [each.className];
    }),
  );
  expect(slow).toEqual([]);
});

test('without hues: each verdict has a word and a shape of its own, and each cable that fails its pattern', async ({ page }) => {
  await page.getByText('Heron Weir pumps').click();
  await partOf(page, 'P-2').waitFor();
  const shapes = await page
    .locator('.tally > button')
    .evaluateAll((all) =>
      all.map((each) => [
        each.textContent?.replaceAll(/[\d\s]/g, ''),
        [...each.querySelectorAll('svg *')]
          .map((shape) => `${shape.tagName} ${shape.getAttribute('d') ?? shape.getAttribute('points') ?? shape.getAttribute('r') ?? ''}`)
          .join(),
      ]),
    );
  expect(new Set(shapes.map(([word]) => word)).size).toBe(5);
  expect(new Set(shapes.map(([, shape]) => shape)).size).toBe(5);
});

test('as other eyes see it: the marks of the verdicts differ without colour, and with each colour that eyes may lack', async ({ page }) => {
  await page.getByText('Heron Weir pumps').click();
  await partOf(page, 'P-2').waitFor();
  const session = await page.context().newCDPSession(page);
  const marks = page.locator('.tally .badge');
  await expect(marks).toHaveCount(5);
  for (const type of ['achromatopsia', 'deuteranopia', 'protanopia', 'tritanopia'] as const) {
    await session.send('Emulation.setEmulatedVisionDeficiency', { type });
    const seen = new Set<string>();
    for (const mark of await marks.all()) seen.add((await mark.screenshot()).toString('base64'));
    expect([type, seen.size]).toEqual([type, 5]);
  }
});

test('what edits did to the verdicts is told once, after the hand has come to rest', async ({ page }) => {
  await page.getByText('Heron Weir pumps').click();
  await partOf(page, 'P-2').waitFor();
  const news = page.getByRole('status', { name: 'What the edit changed' });
  await expect(news).toHaveText('');
  await news.evaluate((element) => {
    const told: string[] = [];
    new MutationObserver(() => told.push(element.textContent ?? '')).observe(element, {
      childList: true,
      characterData: true,
      subtree: true,
    });
    Object.assign(window, { told });
  });
  await page.getByRole('button', { name: 'Bond through DS-2' }).click();
  for (const key of ['Control+z', 'Control+y', 'Control+z', 'Control+y']) await page.keyboard.press(key);
  await expect(news).toHaveText('3 fail no more. 0 fail in all.');
  expect(await page.evaluate(() => (window as unknown as { told: string[] }).told)).toEqual(['3 fail no more. 0 fail in all.']);
});

test('targets: 24 px at every zoom, ports too', async ({ page }) => {
  expect(await tooSmall(page, 24)).toEqual([]);
  await page.getByText('Heron Weir pumps').click();
  await partOf(page, 'P-2').waitFor();
  await partOf(page, 'DS-2').click();
  // From where only what is chosen has ports, by way of full size, to the greatest.
  for (const zoom of ['-', '0', '+']) {
    for (let i = 0; i < (zoom === '0' ? 1 : 20); i++) await page.keyboard.press(zoom);
    await expect.poll(() => tooSmall(page, 24)).toEqual([]);
  }
});

test.describe('with a finger', () => {
  test.use({ hasTouch: true, isMobile: true, viewport: { width: 820, height: 1180 } });
  test('targets: 44 px', async ({ page }) => {
    await expect.poll(() => tooSmall(page, 44)).toEqual([]);
    await page.getByText('Heron Weir pumps').click();
    await partOf(page, 'P-2').waitFor();
    await expect.poll(() => tooSmall(page, 44)).toEqual([]);
    await page.locator('.finding').first().tap();
    await expect.poll(() => tooSmall(page, 44)).toEqual([]);
    await page.getByRole('button', { name: 'Go to the field' }).tap();
    await expect.poll(() => tooSmall(page, 44)).toEqual([]);
  });
});

test('at 320 by 256 nothing is wider than the window but the drawing itself', async ({ page }) => {
  await page.setViewportSize({ width: 320, height: 256 });
  const wide = () => page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
  expect(await wide()).toBeLessThanOrEqual(0);
  await page.getByText('Heron Weir pumps').click();
  await page.locator('.finding').first().waitFor();
  expect(await wide()).toBeLessThanOrEqual(0);
  await page.locator('.finding').first().click();
  expect(await wide()).toBeLessThanOrEqual(0);
  await page.getByRole('button', { name: 'Go to the field' }).click();
  expect(await wide()).toBeLessThanOrEqual(0);
});
