import type { Page } from '@playwright/test';
import { type TextPath, textFields, withTexts } from '../hostile/document.ts';
import { HOSTILE } from '../hostile/strings.ts';
import { command, expect, lay, test } from './desk.ts';

/** Hostile texts on the live page: each in every text field that is shown, in one line-up after another. */

const FIELDS = [...textFields()];
/** Each turn every field gets another text; over these all texts have stood in many fields. */
const TURNS = Array.from({ length: 4 }, (_, i) => Math.floor((i * HOSTILE.length) / 4));
const textsOf = (textOf: (i: number) => string): ReadonlyMap<TextPath, string> =>
  new Map(FIELDS.map(([path, most], i) => [path, textOf(i).slice(0, most) || 'a']));

/** What the page is made of: elements with the names of their attributes. */
const made = (page: Page) =>
  page.evaluate(() => [
    ...new Set([...document.querySelectorAll('*')].map((each) => `${each.tagName} ${each.getAttributeNames().sort().join(' ')}`)),
  ]);

async function seen(page: Page, texts: ReadonlyMap<TextPath, string>): Promise<ReadonlySet<string>> {
  const names = new Set<string>();
  const look = async () => {
    for (const name of await made(page)) names.add(name);
  };
  await lay(page, withTexts(texts));
  await look();
  for (const tab of ['Walk a run', 'Field sheets', 'Findings']) {
    await page.getByRole('button', { name: tab, exact: true }).click();
    await look();
  }
  for (const [open, title] of [
    ['Revisions', 'Revisions and comments'],
    ['Notes', 'Notes'],
  ] as const) {
    await command(page, open);
    await page.getByRole('dialog', { name: title }).first().waitFor();
    await look();
    await page.keyboard.press('Escape');
  }
  await page.keyboard.press('Control+a');
  await look();
  await page.keyboard.press('Escape');
  return names;
}

test('no text becomes anything but text', async ({ page }) => {
  test.setTimeout(90_000);
  const usual = await seen(
    page,
    textsOf((i) => `Zq${i}`),
  );
  for (const turn of TURNS) {
    const texts = textsOf((i) => HOSTILE[(i + turn) % HOSTILE.length] ?? '');
    const names = await seen(page, texts);
    // Which parts stand open depends on what is wrong with them; none of these ever does.
    const strange = [...names].filter(
      (name) =>
        !usual.has(name) &&
        /^(SCRIPT|IFRAME|OBJECT|EMBED|IMG|LINK|META|BASE|FORM|VIDEO|AUDIO|STYLE|TEMPLATE|MATH|MARQUEE|A) | on\w+/i.test(name),
    );
    expect(strange, `turn ${turn}`).toEqual([]);
    expect(await page.evaluate(() => 'ran' in globalThis || 'ran' in Object.prototype)).toBe(false);
  }
});
