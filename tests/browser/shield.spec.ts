import { dragPart, expect, test } from './page.ts';

test('a plastic disconnect dropped into a shielded lead breaks the shield; a bond closes it', async ({ page }) => {
  await page.getByText('Alder Mill fan').click();
  await expect(page.getByText('Alder Mill fan is ready')).toBeVisible();
  const ids = () => page.locator('.react-flow__edge').evaluateAll((edges) => edges.map((edge) => edge.getAttribute('data-id') ?? ''));
  const before = await ids();
  const sheet = await page.getByTestId('sheet').boundingBox();
  const lead = await page.locator('.react-flow__edge[data-id="c6"] path').first().boundingBox();
  if (!sheet || !lead) throw new Error('no lead');
  await dragPart(page, 'Disconnect', lead.x + lead.width / 2 - sheet.x, lead.y + lead.height / 2 - sheet.y);
  await expect(page.getByRole('heading', { name: 'DS-1' })).toBeVisible();
  await page.getByLabel('Box', { exact: true }).selectOption('plastic');
  await page.getByRole('button', { name: 'All findings' }).click();
  const finding = page.locator('[data-finding^="shield-continuity/element/"]').filter({ hasText: 'fail' });
  await expect(finding).toHaveCount(1);
  await expect(finding).toContainText('DS-1');
  await expect(page.getByRole('img', { name: 'One-line diagram' })).toContainText('shield gap');
  await page.getByRole('button', { name: 'Bond through DS-1' }).click();
  await expect(page.getByRole('img', { name: 'One-line diagram' })).not.toContainText('shield gap');
  await expect(finding).toHaveCount(0);
  // The box has its bar, and both inner ends are clamped; the outer ends are as they were.
  await page.getByText(/^\d+ parts, \d+ cables$/).click();
  await page.getByRole('button', { name: 'DS-1 disconnect' }).click();
  await expect(page.getByLabel('Bond bar', { exact: true })).toHaveValue('yes');
  // The new part made the run longer than the view.
  await page.getByRole('button', { name: 'Fit', exact: true }).click();
  const added = (await ids()).find((id) => !before.includes(id)) ?? '';
  for (const [cable, end] of [
    ['c6', 'end'],
    [added, 'start'],
  ] as const) {
    const half = await page.locator(`.react-flow__edge[data-id="${cable}"] path`).first().boundingBox();
    if (!half) throw new Error(`no ${cable}`);
    await page.mouse.click(half.x + half.width / 2, half.y + half.height / 2);
    await expect(page.getByLabel(`Shield landing, ${end}`, { exact: true })).toHaveValue('clamp');
  }
  await page.keyboard.press('Control+z');
  await expect(page.getByRole('img', { name: 'One-line diagram' })).toContainText('shield gap');
});

test('the button at a gap is in sight when all is fitted, at the left of a wide drawing too', async ({ page }) => {
  await page.getByText('Heron Weir pumps').click();
  await page.getByRole('button', { name: 'Bond through DS-2' }).waitFor();
  for (const tag of ['CB-2', 'LR-2', 'VFD-2', 'DS-2', 'P-2'])
    await page
      .locator('.react-flow__node')
      .filter({ has: page.locator(`[data-part="${tag}"]`) })
      .click({ modifiers: ['Shift'] });
  for (const words of ['Several more like this', '2', 'Tidy the layout']) {
    if (words !== '2') await page.keyboard.press('Control+k');
    await page.keyboard.type(words);
    await page.keyboard.press('Enter');
  }
  await page.getByRole('button', { name: 'Fit', exact: true }).click();
  await expect(page.getByRole('button', { name: /^Bond through/ })).toHaveCount(3);
  const sheet = await page.getByTestId('sheet').boundingBox();
  const button = await page.getByRole('button', { name: 'Bond through DS-2' }).boundingBox();
  expect(button?.x).toBeGreaterThan(sheet?.x ?? Number.NaN);
});

test('the button at a gap and the offer to rejoin lie over nothing that is said or drawn', async ({ page }) => {
  await page.setViewportSize({ width: 1024, height: 768 });
  await page.getByText('Heron Weir pumps').click();
  const bond = page.getByRole('button', { name: 'Bond through DS-2' });
  await bond.waitFor();
  const under = (selector: string, what: string) =>
    page.evaluate(
      ([over, drawn]) => {
        const box = document.querySelector(over ?? '')?.getBoundingClientRect();
        if (!box) return ['nothing lies over it'];
        return [...document.querySelectorAll(drawn ?? '')].flatMap((each) => {
          const { left, right, top, bottom } = each.getBoundingClientRect();
          return left < box.right && right > box.left && top < box.bottom && bottom > box.top ? [each.textContent ?? 'a part'] : [];
        });
      },
      [selector, what],
    );
  for (const zoomed of [100, 83, 66, 53, 43]) {
    const shown = page.getByRole('button', { name: 'show at full size' });
    while (Number((await shown.textContent())?.replace(/\D/g, '')) > zoomed) await page.keyboard.press('-');
    await expect.poll(() => under('.bond', '.sheet .words text')).toEqual([]);
  }
  await page.keyboard.press('f');
  await page
    .locator('.react-flow__node')
    .filter({ has: page.locator('[data-part="DS-2"]') })
    .click();
  await page.keyboard.press('Delete');
  await expect(page.getByRole('button', { name: 'Rejoin as W-2' })).toBeVisible();
  expect(await under('.offer', '.sheet .words text, .react-flow__node')).toEqual([]);
});
