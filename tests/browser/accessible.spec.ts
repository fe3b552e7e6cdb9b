import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from '@playwright/test';
import axe from 'axe-core';
import { addComment, freeze, load, review } from '../../engine/index.ts';
import { htmlOf } from '../../engine/submittal/html.ts';
import { EVERY_SHEET } from '../../engine/submittal/sections.ts';
import { command, lay, THREE_RUNS } from './desk.ts';
import { expect, test } from './page.ts';

/** What axe leaves to a person, by rule, and what was decided on it. A rule that is not here fails. */
const DECIDED: Readonly<Record<string, string>> = {
  'color-contrast':
    'axe cannot see through SVG, gradients and what overlaps; every pair of tokens is held to 4.5:1 in tests/editor/tokens.test.ts',
  'th-has-data-cells': 'a table of one column: its one heading stands over all its cells',
};

interface Found {
  readonly id: string;
  readonly nodes: readonly { readonly target: unknown }[];
}

/** What is wrong in this state, by rule and place; and what axe is not sure of and nobody decided on. */
async function faultsOf(page: Page): Promise<readonly string[]> {
  // What is chosen is fetched first: until then there is no heading.
  await page.locator('h1').first().waitFor();
  await page.evaluate(axe.source);
  const { violations, incomplete } = await page.evaluate(() =>
    (window as unknown as { axe: { run: () => Promise<{ violations: Found[]; incomplete: Found[] }> } }).axe.run(),
  );
  return [...violations, ...incomplete.filter(({ id }) => DECIDED[id] === undefined)].map(
    ({ id, nodes }) => `${id}: ${JSON.stringify(nodes.map((node) => node.target))}`,
  );
}

/** Looks at one state after another, each by its name, and tells all that is wrong at once. */
function looker(page: Page) {
  const names: string[] = [];
  const faults: string[] = [];
  return {
    names,
    faults,
    look: async (name: string): Promise<void> => {
      names.push(name);
      for (const each of await faultsOf(page)) faults.push(`${name}: ${each}`);
    },
  };
}

const fold = (page: Page, title: string | RegExp) => page.getByText(title).first().click();

for (const colorScheme of ['light', 'dark'] as const) {
  test(`nothing for axe to find in any of the named states, ${colorScheme}`, async ({ page }) => {
    // Many states, and each is read whole.
    test.setTimeout(120_000);
    await page.emulateMedia({ colorScheme });
    const { look, names, faults } = looker(page);
    await look('first page');
    await page.getByRole('textbox', { name: 'Length' }).fill('far');
    await expect(page.getByRole('textbox', { name: 'Length' })).toHaveAttribute('aria-invalid', 'true');
    await look('first page, an entry that has no meaning');
    await page.getByRole('button', { name: 'Blank sheet' }).click();
    await look('empty sheet');
    await page.keyboard.press('a');
    await page.getByRole('dialog').waitFor();
    await look('parts to add');
    await page.keyboard.press('Escape');
    await expect(page.getByRole('dialog')).toHaveCount(0);
    await page.locator('.page').evaluate((target) => {
      const dataTransfer = new DataTransfer();
      dataTransfer.items.add(new File(['{"format":"copperline",'], 'broken.json'));
      target.dispatchEvent(new DragEvent('drop', { dataTransfer, bubbles: true, cancelable: true }));
    });
    await page.getByRole('dialog').waitFor();
    await look('file refused');
    await page.getByRole('button', { name: 'Close', exact: true }).click();
    await page.getByRole('button', { name: 'Copperline', exact: true }).click();
    await page.getByText('Fennel Lane capping line').click();
    await look('line-up with findings');
    await page.locator('.finding').first().click();
    await look('one finding');
    await fold(page, 'Show working');
    await look('one finding with its working');
    await page.getByRole('button', { name: 'Go to the field' }).click();
    await look('field of a finding');
    await page.keyboard.press('Escape');
    await page.keyboard.press('Escape');
    await page.locator('[data-finding^="motor-peak-voltage"]').first().click();
    await page.getByRole('heading', { name: 'The wave' }).waitFor();
    await look('wave');
    await page.keyboard.press('Escape');
    for (const order of ['run', 'check', 'authority']) {
      await page.getByLabel('Order').selectOption(order);
      await look(`findings by ${order}`);
    }
    await page.getByLabel('Order').selectOption('none');
    await page.getByLabel('Of verdict').selectOption('fail');
    await look('fails only');
    await page.getByLabel('Of verdict').selectOption('');
    if (await page.getByText('What could not be judged').count()) {
      await fold(page, 'What could not be judged');
      await look('questions to send');
    }
    await page.getByRole('button', { name: 'Checks and sources' }).click();
    await page.getByRole('dialog').waitFor();
    await look('checks and sources');
    await page.keyboard.press('Escape');
    await page.getByRole('button', { name: 'Export…' }).click();
    await page.getByRole('dialog').waitFor();
    await look('export');
    await page.getByRole('button', { name: 'Close', exact: true }).click();
    await page.getByText(/^\d+ parts, \d+ cables$/).click();
    await page.getByText('Title block and limits').click();
    await look('outline and title block');
    await page.getByRole('button', { name: 'W-1 cable' }).click();
    await page.getByRole('button', { name: 'Add cores' }).click();
    await look('fields of a cable');
    await page.keyboard.press('F2');
    await look('name being changed');
    await page.keyboard.press('Escape');
    await page.keyboard.press('Escape');
    await page.keyboard.press('Control+k');
    await look('find or do anything');
    await page.keyboard.press('Escape');
    await page.getByRole('button', { name: 'More…' }).click();
    await look('menu');
    await page.keyboard.press('Escape');
    await page.getByTestId('sheet').click({ position: { x: 8, y: 8 } });
    await page.keyboard.press('Control+a');
    await look('everything chosen');
    await page.keyboard.press('?');
    await expect(page.getByRole('dialog', { name: 'All keys' })).toBeVisible();
    await look('all keys');
    await page.keyboard.press('Escape');
    await page.keyboard.press('l');
    await page.getByRole('button', { name: 'Paste from a spreadsheet…' }).click();
    await page.getByLabel('Rows from a spreadsheet').fill('W-1\tfar');
    await look('table with pasted rubbish');
    await page.getByRole('button', { name: 'Back to the sheet' }).click();
    await page.keyboard.press('u');
    await page.getByText('The run as a table').click();
    await look('run strip');
    for (const [width, height] of [
      [1024, 768],
      [768, 1024],
      [390, 844],
      [320, 256],
    ] as const) {
      await page.setViewportSize({ width, height });
      await look(`${width} by ${height}`);
    }
    expect(faults).toEqual([]);
    expect(new Set(names).size).toBeGreaterThanOrEqual(25);
  });

  test(`nothing for axe to find in what is told of other sizes, ${colorScheme}`, async ({ page }) => {
    test.setTimeout(90_000);
    await page.emulateMedia({ colorScheme });
    const { look, faults } = looker(page);
    await lay(page, THREE_RUNS);
    await page.locator('.finding').first().click();
    await page.getByText('What would help').click();
    await page
      .getByText(/\d+ better, \d+ worse/)
      .first()
      .click();
    await look('what would help');
    await command(page, 'W-1A');
    await page.getByText('How long may it be?').click();
    await page.getByRole('table', { name: 'Lengths at which verdicts turn' }).waitFor();
    await look('how long');
    await page.getByRole('button', { name: 'Size ladder' }).click();
    await page.getByRole('button', { name: 'Take 1/0 AWG' }).waitFor();
    await look('size ladder');
    await page.keyboard.press('Escape');
    await command(page, 'least copper');
    await page.getByRole('button', { name: 'Find them' }).click();
    await page.getByRole('table', { name: 'Least sizes' }).waitFor();
    await look('least copper');
    await page.keyboard.press('Escape');
    await command(page, 'Earlier states');
    await page
      .getByRole('button', { name: /^Look at/ })
      .first()
      .click();
    await look('earlier states');
    await page.getByRole('button', { name: 'Close', exact: true }).click();
    await command(page, 'Revisions and comments');
    const revisions = page.getByRole('dialog', { name: 'Revisions and comments' });
    await revisions.getByRole('button', { name: /^Issue revision/ }).click();
    await revisions.getByText('What changed since').click();
    await revisions.getByLabel('New comment').fill('Why?');
    await revisions.getByRole('button', { name: 'Add comment' }).click();
    await revisions.getByText('Why?').click();
    await look('revisions and comments');
    await page.keyboard.press('Escape');
    await command(page, 'Set this aside as a variant');
    await command(page, 'Compare variants…');
    await page.getByRole('table', { name: 'Variants side by side' }).waitFor();
    await look('variants');
    // A file that is dropped on the window takes its own place, and what was open over the other is gone.
    await lay(page, { ...THREE_RUNS, project: { ...THREE_RUNS.project, title: 'Other runs' } });
    await expect(page.getByRole('dialog')).toHaveCount(0);
    expect(faults).toEqual([]);
  });
}

test('nothing for axe to find in the report, which tells of every finding without script', async ({ page, browser }) => {
  // Some twenty sheets, read whole.
  test.setTimeout(90_000);
  const loaded = load(readFileSync(join(import.meta.dirname, '../../examples/fennel-lane-capping.json'), 'utf8'));
  if (!loaded.ok) throw new Error(loaded.what);
  const issued = freeze(loaded.lineUp, { date: '2026-11-25' });
  const lineUp = addComment({ ...issued, cables: issued.cables.map((each) => ({ ...each, note: 'new' })) }, { says: 'Why?' });
  const answer = review(lineUp);
  const report = Buffer.from(htmlOf(lineUp, answer, { date: '2026-11-25', sheets: EVERY_SHEET })).toString();
  // axe is a script: the page that it looks at is let run one, the report itself is not.
  await page.goto('about:blank');
  await page.setContent(report.replace(/<meta http-equiv="Content-Security-Policy"[^>]*>/, ''));
  expect(await faultsOf(page)).toEqual([]);
  const still = await (await browser.newContext({ javaScriptEnabled: false })).newPage();
  await still.setContent(report);
  const said = ((await still.locator('main').textContent()) ?? '').replaceAll(/\s+/g, ' ');
  for (const each of answer.findings) expect(said).toContain(each.text.replaceAll(/\s+/g, ' '));
  expect(await still.locator('th:not([scope])').count()).toBe(0);
  await still.close();
});

test('on a phone everything can be read and reached, and nothing is wider than the screen', async ({ page }) => {
  await page.setViewportSize({ width: 390, height: 844 });
  const fits = () => page.evaluate(() => document.documentElement.scrollWidth <= window.innerWidth);
  expect(await fits()).toBe(true);
  await page.getByText('Fennel Lane capping line').click();
  expect(await fits()).toBe(true);
  expect(await faultsOf(page)).toEqual([]);
  await page.locator('.finding').first().click();
  expect(await fits()).toBe(true);
  await page.getByRole('button', { name: 'Back' }).click();
  await page.getByText(/^\d+ parts, \d+ cables$/).click();
  await page.getByRole('button', { name: 'W-1 cable' }).click();
  await expect(page.getByLabel('Conductor size', { exact: true })).toHaveValue(/^10\sAWG$/);
  expect(await fits()).toBe(true);
  expect(await faultsOf(page)).toEqual([]);
});
