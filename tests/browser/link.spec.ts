import { command } from './desk.ts';
import { dragPart, expect, test, type } from './page.ts';

/** A line-up travels in an address; what is open stays until someone says otherwise. */

test('a copied link opens the line-up, beside what is open', async ({ page, context, browser }) => {
  await context.grantPermissions(['clipboard-read', 'clipboard-write']);
  await page.getByText('Heron Weir pumps').click();
  await page.keyboard.press('Escape');
  await command(page, 'Copy a link');
  await expect(page.getByText('A link that holds this line-up is on the clipboard.')).toBeVisible();
  const link = await page.evaluate(() => navigator.clipboard.readText());
  await page.getByRole('button', { name: 'Copperline' }).click();
  await page.getByRole('button', { name: 'Blank sheet' }).click();
  await type(page, 'Title', 'My own work');
  await dragPart(page, 'Motor', 300, 200);
  await expect(page.getByTestId('saved')).toHaveText(/ in this browser/);

  const asked: string[] = [];
  page.on('request', (request) => asked.push(request.url()));
  const offer = page.getByText('The link holds a line-up: Heron Weir pumps.');
  // As if it were pasted into the address of this tab.
  await page.evaluate((at) => location.assign(at), link);
  await expect(offer).toBeVisible();
  await expect(page.locator('.react-flow__node')).toHaveCount(1);
  await page.getByRole('button', { name: 'Leave it' }).click();
  await expect(offer).toBeHidden();
  // And as if the page were opened with it.
  await page.evaluate((at) => history.replaceState(null, '', at), link);
  await page.reload();
  await expect(offer).toBeVisible();
  await expect(page.locator('.react-flow__node')).toHaveCount(1);
  expect(page.url()).not.toContain('#');
  await page.getByRole('button', { name: 'Open it' }).click();
  await expect(page.getByText('Heron Weir pumps is not ready to issue')).toBeVisible();
  await page.getByRole('button', { name: 'Copperline' }).click();
  await page.getByRole('button', { name: 'Take up My own work again' }).click();
  await expect(page.locator('.react-flow__node')).toHaveCount(1);
  expect(asked.filter((each) => each.includes('lineup='))).toEqual([]);

  // Where nothing is open it opens at once; one that was cut off says so.
  const fresh = await browser.newContext();
  const other = await fresh.newPage();
  await other.goto(link);
  await expect(other.getByText('Heron Weir pumps is not ready to issue')).toBeVisible();
  await fresh.close();
  await page.evaluate((at) => location.assign(at.slice(0, -200)), link);
  await expect(page.getByText('The link was cut off or changed on its way.')).toBeVisible();
});
