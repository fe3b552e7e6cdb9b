import { readExample } from '../engine/sizing/readExample.ts';
import { command, expect, lay, test } from './desk.ts';
import { tally } from './page.ts';

/** What would help, told of other documents than the open one and taken in one step. */

test('a finding that fails says what would help and what else that moves; applying is one step', async ({ page }) => {
  const before = await tally(page).textContent();
  await page.locator('.finding').filter({ hasText: 'DS-2' }).first().click();
  await page.getByText('What would help').click();
  const bond = page
    .getByRole('list', { name: 'What would help' })
    .getByRole('listitem')
    .filter({ hasText: 'Bond the shields through DS-2' })
    .first();
  await expect(bond.getByText(/^\d+ better, 0 worse, .*\d+ unchanged$/)).toBeVisible();
  await expect(bond.getByRole('list', { name: 'Better', exact: true })).toContainText('fail → ');
  await bond.getByRole('button', { name: 'Apply: Bond the shields through DS-2' }).click();
  await expect(tally(page)).not.toHaveText(before ?? '');
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect(tally(page)).toHaveText(before ?? '');
  await expect(page.getByRole('button', { name: 'Undo' })).toBeDisabled();
});

test('a change is tried on the sheet before anything is stored, by keyboard too; Escape puts it back', async ({ page }) => {
  const before = (await tally(page).textContent()) ?? '';
  const parts = await page.locator('.react-flow__node').count();
  await page.locator('.finding').filter({ hasText: 'DS-2' }).first().click();
  await page.getByText('What would help').click();
  const list = page.getByRole('list', { name: 'What would help' });
  const change = 'Move DS-2 into the cabinet of VFD-2, and the cable to the motor in one piece';
  const tried = page.getByRole('status', { name: 'Tried' });
  await list.getByRole('button', { name: `Try it on the sheet: ${change}` }).focus();
  await page.keyboard.press('Enter');
  await expect(tried).toContainText(`Tried, not stored: ${change}`);
  await expect(tally(page)).not.toHaveText(before);
  await expect(page.locator('.react-flow__edge[data-id]').filter({ hasText: 'W-2B' })).toHaveCount(0);
  await expect(page.getByRole('button', { name: 'Undo' })).toBeDisabled();
  // Nothing else can be done to a line-up that is not the one that is stored.
  await page.getByLabel('Basis').selectOption('iec');
  await expect(page.getByRole('status', { name: 'Reason' })).toContainText('only being tried');
  await expect(page.getByLabel('Basis')).toHaveValue('us');

  await list.getByRole('button', { name: `Put back: ${change}` }).focus();
  await page.keyboard.press('Escape');
  await expect(tried).toHaveCount(0);
  await expect(tally(page)).toHaveText(before);
  await expect(list).toBeVisible();
  await expect(list.getByRole('button', { name: `Try it on the sheet: ${change}` })).toBeFocused();
  await expect(page.locator('.react-flow__node')).toHaveCount(parts);

  await page.keyboard.press('Enter');
  await tried.getByRole('button', { name: 'Apply' }).click();
  await expect(tried).toHaveCount(0);
  await expect(tally(page)).not.toHaveText(before);
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect(tally(page)).toHaveText(before);
  await expect(page.getByRole('button', { name: 'Undo' })).toBeDisabled();
});

test('what a change betters stands there with its number, before and after, and the limit', async ({ page }) => {
  const lineUp = readExample('heron-weir-pumps');
  await lay(page, {
    ...lineUp,
    cables: lineUp.cables.map((each) => (each.tag === 'F-2' ? { ...each, conductor: { ...each.conductor, metal: 'aluminium' } } : each)),
  });
  await page.locator('.finding').filter({ hasText: 'Feeder ampacity' }).first().click();
  await page.getByText('What would help').click();
  const better = page.getByRole('list', { name: 'What would help' }).getByRole('list', { name: 'Better', exact: true }).first();
  // 3 AWG in aluminium carries 75 A at 75 °C (NEC table 310.16), and 1.25 times the 72 A of the drive are asked.
  await expect(better).toContainText(/Feeder ampacity.*75\.0\sA → [\d.]+\sA, limit 90\.0\sA/);
});

test('a cable shows every size against every check, and the length at which each turns; a size is taken in one step', async ({ page }) => {
  await command(page, 'W-1A');
  await page.getByText('How long may it be?').click();
  await expect(page.getByRole('table', { name: 'Lengths at which verdicts turn' })).toContainText(/\d\sft.*(caution|fail)/);
  await page.getByRole('button', { name: 'Size ladder' }).click();
  const ladder = page.getByRole('dialog', { name: 'Size ladder of W-1A' });
  await expect(ladder.getByRole('row').filter({ hasText: 'as drawn' })).toContainText('2 AWG');
  await expect(ladder.getByRole('columnheader', { name: 'Voltage at the motor' })).toBeVisible();
  await ladder.getByRole('button', { name: 'Take 1/0 AWG' }).click();
  await expect(page.getByLabel('Conductor size', { exact: true })).toHaveValue(/^1\/0\sAWG$/);
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect(page.getByLabel('Conductor size', { exact: true })).toHaveValue(/^2\sAWG$/);
});

test('the least copper is found with one cable kept, and taken in one step', async ({ page }) => {
  await lay(page, readExample('fennel-lane-capping'));
  await command(page, 'least copper');
  const dialog = page.getByRole('dialog', { name: 'Least copper' });
  await dialog.getByRole('checkbox', { name: 'W-1A' }).check();
  await dialog.getByRole('button', { name: 'Find them' }).click();
  const row = (tag: string) => dialog.getByRole('row').filter({ has: page.getByRole('rowheader', { name: tag, exact: true }) });
  await expect(row('W-1A')).toContainText('keeps its size');
  await expect(dialog.getByText(/^\d.* of conductor now, .* combinations were judged/)).toBeVisible();
  await expect(dialog.getByText(/^No size of .*W-1D passes: below stands what is in the way/)).toBeVisible();
  await expect(dialog.getByText(/Next conductor size up/)).toHaveCount(0);
  await dialog.getByRole('button', { name: 'Take these sizes' }).click();
  await expect(dialog).toHaveCount(0);
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect(page.getByRole('button', { name: 'Undo' })).toBeDisabled();
});

test('the unknown values that matter are told with where verdicts turn and who knows them', async ({ page }) => {
  const lineUp = readExample('fennel-lane-capping');
  // Nobody has said how fast the drive switches: the peaks at the motors rest on what is usual.
  await lay(page, {
    ...lineUp,
    elements: lineUp.elements.map((each) => (each.kind === 'drive' ? { ...each, riseTime_s: undefined } : each)),
  });
  await page.getByText('Which unknown matters').click();
  const rise = page
    .getByRole('list', { name: 'Unknown values that matter' })
    .getByRole('listitem')
    .filter({ hasText: 'not given' })
    .first();
  await expect(rise).toContainText(/Ask: .*→.* at /);
  // The nearest as pictures above the list, the same order, told in words to those who do not see them.
  const pictures = page.getByRole('img', { name: /: taken as .*Ask: / });
  const listed = page.getByRole('list', { name: 'Unknown values that matter' }).getByRole('listitem').locator('b');
  await expect(pictures).toHaveCount(Math.min(3, await listed.count()));
  for (const [i, label] of (await listed.allTextContents()).slice(0, 3).entries())
    await expect(pictures.nth(i)).toHaveAccessibleName(new RegExp(`^${label}, `));
  await rise.getByRole('button', { name: /^Go to / }).click();
  await expect(page.locator('.values')).toBeVisible();
});
