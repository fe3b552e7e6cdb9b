import type { Page } from '@playwright/test';
import { dragPart, expect, tally, test } from './page.ts';

/** Someone who has never seen it, without a manual: a judged line-up of their own, a break of the shield seen and mended, the drawing handed over. */

const MOST_ACTIONS = 25;

test('ninety seconds: five numbers, a judged line-up, a shield that breaks and is mended, the package', async ({ page }) => {
  const actions: string[] = [];
  const act = async (what: string, does: () => Promise<unknown>): Promise<void> => {
    actions.push(what);
    await does();
  };
  const fill = (label: string, text: string) =>
    act(`${label}: ${text}`, () => page.getByRole('textbox', { name: label, exact: true }).fill(text));
  const press = (name: string) => act(name, () => page.getByRole('button', { name, exact: true }).click());

  // The first page answers while it is typed.
  await fill('Power', '75 hp');
  await fill('Voltage', '480 V');
  await fill('Length', '60 m');
  await act('wet', () => page.getByLabel('Place').selectOption('wet'));
  await expect(page.getByText('Provisional')).toBeVisible();
  await expect(page.locator('.answer')).toContainText(/[1-9]\d* open/);
  await press('Draw this');
  await expect(page.locator('.react-flow__node')).toHaveCount(6);
  await expect(tally(page)).toContainText('open');
  // The first question waits for its answer.
  await expect(page.locator('.values input:focus, .values select:focus')).toHaveCount(1);

  // What the worst of it says, and how to answer it, is one click away.
  await act('the first finding', () => page.locator('[data-finding]').first().click());
  await expect(page.getByRole('complementary')).toContainText(/Ask:|Remedies|What would help/i);

  // A plastic box into the lead.
  const lead = await leadOf(page);
  await act('a disconnect into the lead', () => dragPart(page, 'Disconnect', lead.x, lead.y));
  await act('plastic', () => page.getByLabel('Box', { exact: true }).selectOption('plastic'));
  const drawing = page.getByRole('img', { name: 'One-line diagram' });
  await expect(drawing).toContainText('shield gap');
  await expect(tally(page)).toContainText(/[1-9]\d* fail/);
  await press('Bond through DS-1');
  await expect(drawing).not.toContainText('shield gap');

  const waiting = page.waitForEvent('download');
  await press('Issue package');
  expect((await waiting).suggestedFilename()).toMatch(/\.pdf$/);
  expect(actions.length).toBeLessThanOrEqual(MOST_ACTIONS);
});

test('Enter in a blank of the sentence draws it', async ({ page }) => {
  const length = page.getByRole('textbox', { name: 'Length' });
  await length.fill('300 feet or so');
  await length.press('Enter');
  await expect(page.getByRole('button', { name: 'Draw this' })).toBeDisabled();
  await length.fill('300 ft');
  await length.press('Enter');
  await expect(page.locator('.react-flow__node')).toHaveCount(6);
});

test('each blank that cannot be is marked and told of, and nothing below moves meanwhile', async ({ page }) => {
  const blank = (name: string) => page.getByRole('textbox', { name, exact: true });
  const below = page.getByText('Or open one and break it');
  await expect(page.locator('.answer svg.chart')).toBeVisible();
  const stood = await below.boundingBox();
  await blank('Power').fill('banana');
  await blank('Voltage').fill('0');
  await blank('Length').fill('-5 ft');
  const answer = page.locator('.answer');
  for (const name of ['Power', 'Voltage', 'Length']) {
    await expect(blank(name)).toHaveAttribute('aria-invalid', 'true');
    await expect(answer).toContainText(`The ${name.toLowerCase()}`);
  }
  await expect(answer).toContainText('The power: “banana” does not begin with a number');
  await expect(answer).toContainText('The voltage lies above zero and below 1000 V');
  expect((await below.boundingBox())?.y).toBeCloseTo(stood?.y ?? 0, -1);
  // Nor is anything cut off on a phone.
  await page.setViewportSize({ width: 390, height: 844 });
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(390);
  const told = await answer.getByText('does not begin with a number').boundingBox();
  expect((told?.x ?? 0) + (told?.width ?? Number.NaN)).toBeLessThan(390);
  await blank('Length').fill('0');
  await expect(blank('Length')).toHaveAttribute('aria-invalid', 'false');
});

async function leadOf(page: Page): Promise<{ readonly x: number; readonly y: number }> {
  const sheet = await page.getByTestId('sheet').boundingBox();
  const lead = await page.locator('.react-flow__edge[data-id="c4"] path').first().boundingBox();
  if (!sheet || !lead) throw new Error('no lead on the sheet');
  return { x: lead.x + lead.width / 2 - sheet.x, y: lead.y + lead.height / 2 - sheet.y };
}
