import type { Worker } from '@playwright/test';
import { type LineUp, save, setAside } from '../../engine/index.ts';
import { readExample } from '../engine/sizing/readExample.ts';
import { command, expect, lay, test } from './desk.ts';
import { choose, tally } from './page.ts';

/** Other ways to build it, held aside: set aside, compared, taken back, and a file laid beside them. */

const PUMPS = readExample('heron-weir-pumps');
const [CABLE] = PUMPS.cables.filter(({ kind }) => kind === 'cable');
const TAG = CABLE?.tag ?? '';
const OTHER = 'aluminium';
const inAluminium: LineUp = {
  ...PUMPS,
  cables: PUMPS.cables.map((each) => (each.tag === TAG ? { ...each, conductor: { ...each.conductor, metal: OTHER } } : each)),
};

test('what is set aside stays as it was; the comparison tells what differs in the document and in the verdicts', async ({ page }) => {
  await lay(page, PUMPS);
  await command(page, 'Set this aside as a variant');
  await command(page, TAG);
  await choose(page, 'Conductor metal', OTHER);
  await command(page, 'Compare variants…');
  const dialog = page.getByRole('dialog', { name: 'Variants' });
  const table = dialog.getByRole('table', { name: 'Variants side by side' });
  await expect(table.getByRole('columnheader')).toHaveText(['Present', 'Variant 1']);
  const metal = table.getByRole('row').filter({ has: page.getByRole('rowheader', { name: 'Conductor metal', exact: true }) });
  await expect(metal.getByRole('cell')).toHaveText(['aluminium', 'copper']);
  // Of the document this one value differs, and nothing else.
  await expect(table.getByRole('row').filter({ hasText: /^Conductor metal|^Length|^Conductor size/ })).toHaveCount(1 + 1);
  await expect(table.getByRole('row').filter({ hasText: 'Against the present one' })).toContainText(/\d+ (better|worse)/);
  // The same size in aluminium carries less; the numbers stand beside the words.
  await expect(table.getByRole('row').filter({ hasText: `ampacity ${TAG}` })).toHaveText(/fail.*A, limit .*A.*pass.*A, limit .*A/i);
  await dialog.getByRole('button', { name: 'Close' }).click();
});

test('an edit judges no variant anew: one that was judged once is remembered', async ({ page }) => {
  await lay(page, setAside(inAluminium, 'as it was', PUMPS));
  const helpers: string[] = [];
  const heard = (worker: Worker) => worker.url().includes('sizingWorker') && helpers.push(worker.url());
  page.on('worker', heard);
  const dialog = page.getByRole('dialog', { name: 'Variants' });
  const look = async (metal: string) => {
    await command(page, 'Compare variants…');
    await expect(dialog.getByRole('row').filter({ hasText: /^Fail/ })).toHaveCount(1);
    await expect(dialog.getByRole('row').filter({ hasText: /^Conductor metal/ })).toHaveCount(metal === 'copper' ? 0 : 1);
    await dialog.getByRole('button', { name: 'Close' }).click();
  };
  await look(OTHER);
  expect(helpers).toHaveLength(1);
  await command(page, TAG);
  await choose(page, 'Conductor metal', 'copper');
  await look('copper');
  await page.getByRole('button', { name: 'Undo' }).click();
  await look(OTHER);
  expect(helpers).toHaveLength(1);
  page.off('worker', heard);
});

test('a swap is one step, and puts what was present in the variant’s place', async ({ page }) => {
  await lay(page, setAside(inAluminium, 'as it was', PUMPS));
  const present = await tally(page).textContent();
  await command(page, 'Compare variants…');
  const dialog = page.getByRole('dialog', { name: 'Variants' });
  await dialog.getByRole('button', { name: 'Swap with the present one: as it was' }).click();
  await expect(dialog.getByLabel('Name of Before “as it was”')).toBeVisible();
  await dialog.getByRole('button', { name: 'Close' }).click();
  await command(page, TAG);
  await expect(page.getByLabel('Conductor metal', { exact: true })).toHaveValue('copper');
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect(tally(page)).toHaveText(present ?? '');
  await expect(page.getByLabel('Conductor metal', { exact: true })).toHaveValue(OTHER);
  await expect(page.getByRole('button', { name: 'Undo' })).toBeDisabled();
});

test('a variant is renamed and deleted, one step each', async ({ page }) => {
  await lay(page, setAside(setAside(PUMPS, 'first'), 'second'));
  await command(page, 'Compare variants…');
  const dialog = page.getByRole('dialog', { name: 'Variants' });
  const name = dialog.getByLabel('Name of first');
  await name.fill('with aluminium');
  await name.press('Enter');
  await expect(dialog.getByLabel('Name of with aluminium')).toHaveValue('with aluminium');
  await expect(dialog.getByRole('columnheader')).toHaveText(['Present', 'with aluminium', 'second']);
  await dialog.getByRole('button', { name: 'Delete second' }).click();
  await expect(dialog.getByRole('columnheader')).toHaveText(['Present', 'with aluminium']);
  await dialog.getByRole('button', { name: 'Close' }).click();
  for (let step = 0; step < 2; step++) await page.getByRole('button', { name: 'Undo' }).click();
  await expect(page.getByRole('button', { name: 'Undo' })).toBeDisabled();
  await command(page, 'Compare variants…');
  await expect(dialog.getByRole('columnheader')).toHaveText(['Present', 'first', 'second']);
  await dialog.getByRole('button', { name: 'Close' }).click();
});

test('a file is compared without being kept, kept when asked, and one that cannot be read says why', async ({ page }) => {
  await lay(page, PUMPS);
  await command(page, 'Compare variants…');
  const dialog = page.getByRole('dialog', { name: 'Variants' });
  const give = (name: string, text: string) =>
    dialog.getByLabel('Compare with a file').setInputFiles({ name, mimeType: 'application/json', buffer: Buffer.from(text) });
  await give('torn.json', save(inAluminium).slice(0, 200));
  await expect(dialog.getByRole('status').filter({ hasText: 'torn.json' })).toBeVisible();
  await give('aluminium.json', save(inAluminium));
  await expect(dialog.getByRole('columnheader')).toHaveText(['Present', 'aluminium']);
  await expect(dialog.getByRole('status').filter({ hasText: 'torn.json' })).toHaveCount(0);
  await dialog.getByRole('button', { name: 'Put it away' }).click();
  await expect(dialog.getByRole('columnheader')).toHaveCount(0);
  await give('aluminium.json', save(inAluminium));
  await dialog.getByRole('button', { name: 'Keep it as a variant' }).click();
  await expect(dialog.getByLabel('Name of aluminium')).toBeVisible();
  await dialog.getByRole('button', { name: 'Close' }).click();
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect(page.getByRole('button', { name: 'Undo' })).toBeDisabled();
});
