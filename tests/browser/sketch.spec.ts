import { choose, connect, dragPart, expect, KEPT, tally, test, type } from './page.ts';

test('from an empty sheet: draw a line-up by hand, see it fail, mend it, see it go quiet', async ({ page }) => {
  await page.getByRole('button', { name: 'Blank sheet' }).click();
  await expect(page.getByText('An empty sheet')).toBeVisible();
  await dragPart(page, 'Supply', 300, 60);
  await dragPart(page, 'Drive', 300, 260);
  await dragPart(page, 'Motor', 300, 520);
  await connect(page, 'S-1', 'VFD-1');
  await connect(page, 'VFD-1', 'M-1');
  // The new lead is selected: it carries a cable too small for its motor.
  await type(page, 'Conductor size', '14 AWG');
  await choose(page, 'Conductor metal', 'copper');
  await type(page, 'Length, one way', '210 ft');
  await choose(page, 'Insulation type', 'XHHW-2');
  await choose(page, 'Around it', 'damp');
  await type(page, 'Hottest ambient', '30 °C');
  await type(page, 'Loaded conductors together', '3');
  await page
    .locator('.react-flow__node')
    .filter({ has: page.locator('[data-part="M-1"]') })
    .click();
  await type(page, 'Rated power', '60 hp');
  await type(page, 'Rated voltage', '460 V');
  await type(page, 'Nameplate current', '75');
  await choose(page, 'Terminals marked for', 'copper-aluminium');
  await type(page, 'Terminal temperature', '75 °C');
  await page
    .locator('.react-flow__node')
    .filter({ has: page.locator('[data-part="VFD-1"]') })
    .click();
  await type(page, 'Terminal temperature', '75 °C');
  await page.keyboard.press('Tab');
  await page.getByRole('button', { name: 'All findings' }).click();
  const failing = page.locator('[data-finding="lead-ampacity/cable/c5"]');
  await expect(failing).toContainText('fail');
  await expect(failing).toContainText('96.3 A are needed');
  await expect(tally(page)).toContainText('1 fail');

  await failing.click();
  await page.getByRole('button', { name: 'Go to the field' }).click();
  await type(page, 'Conductor size', '2 AWG');
  await page.getByRole('button', { name: 'All findings' }).click();
  await expect(tally(page)).toContainText('0 fail');

  // Everything can be taken back to the empty sheet, and a reload loses nothing.
  await expect(page.getByTestId('saved')).toHaveText(KEPT);
  await page.reload();
  await expect(page.locator('.react-flow__node')).toHaveCount(3);
});

test('undo takes everything back, redo brings it again', async ({ page }) => {
  await page.getByRole('button', { name: 'Blank sheet' }).click();
  await dragPart(page, 'Supply', 300, 60);
  await dragPart(page, 'Motor', 300, 420);
  await connect(page, 'S-1', 'M-1');
  await expect(page.locator('.react-flow__edge')).toHaveCount(1);
  for (let i = 0; i < 3; i++) await page.keyboard.press('Control+z');
  await expect(page.getByText('An empty sheet')).toBeVisible();
  for (let i = 0; i < 3; i++) await page.keyboard.press('Control+y');
  await expect(page.locator('.react-flow__edge')).toHaveCount(1);
});

test('an illegal connection is explained and changes nothing; a bad entry leaves the old value in force', async ({ page }) => {
  await page.getByRole('button', { name: 'Blank sheet' }).click();
  await dragPart(page, 'Drive', 300, 60);
  await dragPart(page, 'Drive', 300, 360);
  await connect(page, 'VFD-1', 'VFD-2');
  await expect(page.getByText('A drive may not stand behind another drive.')).toBeVisible();
  await expect(page.locator('.react-flow__edge')).toHaveCount(0);
  await page.locator('.react-flow__node').first().click();
  await type(page, 'Rated input current', '72 A');
  await type(page, 'Rated input current', '72 furlongs');
  await expect(page.getByText('is not a unit of this field')).toBeVisible();
  await expect(page.getByLabel('Rated input current', { exact: true })).toHaveValue('72 furlongs');
});
