import { command, expect, lay, selected, THREE_RUNS, test } from './desk.ts';
import { partOf, type } from './page.ts';

/** How things are found and learnt: conventions 44 to 50. */

test('44 Ctrl K does anything by name', async ({ page }) => {
  await page.keyboard.press('Control+k');
  const list = page.getByRole('dialog', { name: 'Find a tag, or do something' });
  await list.getByRole('combobox').fill('everything choose');
  await expect(list.getByRole('option')).toHaveText([/^Choose everything.*Ctrl A$/]);
  await page.keyboard.press('Enter');
  expect((await selected(page)).length).toBe(THREE_RUNS.elements.length);
  await command(page, 'VFD-3');
  expect(await selected(page)).toEqual(['VFD-3']);
});

test('a list that is asked for before the browser has told that the last one is closed stays', async ({ page }) => {
  await page.keyboard.press('Control+k');
  const list = page.getByRole('dialog', { name: 'Find a tag, or do something' });
  await expect(list).toBeVisible();
  // A dialog closes at once, and says so in a task of its own: faster than any hand, and as slow as a busy page.
  await list.evaluate((dialog: HTMLDialogElement) => {
    dialog.close();
    dialog.ownerDocument.body.dispatchEvent(new KeyboardEvent('keydown', { key: 'k', ctrlKey: true, bubbles: true }));
  });
  await page.evaluate(() => new Promise((done) => setTimeout(done, 100)));
  await expect(list).toBeVisible();
  await page.keyboard.press('Escape');
  await expect(list).toHaveCount(0);
});

test('45 ? shows all keys, and a key that is shown is a key that works', async ({ page }) => {
  await page.keyboard.press('?');
  const keys = page.getByRole('dialog', { name: 'All keys' });
  for (const words of ['Draw', 'Edit', 'Select', 'Arrange', 'View', 'File', 'By hand'])
    await expect(keys.getByRole('heading', { name: words, exact: true })).toBeVisible();
  await expect(keys.getByText('Grid dots on or off')).toBeVisible();
  // For those who speak to their machine, single letters can be switched off.
  const letters = keys.getByRole('checkbox', { name: 'Keys that are a single letter or sign' });
  await letters.uncheck();
  await page.keyboard.press('Escape');
  await expect(keys).toBeHidden();
  const grid = page.locator('.react-flow__background');
  await page.keyboard.press('g');
  await expect(grid).toHaveCount(1);
  await command(page, 'All keys');
  await letters.check();
  await page.keyboard.press('Escape');
  await expect(keys).toBeHidden();
  await page.keyboard.press('g');
  await expect(grid).toHaveCount(0);
  await page.keyboard.press('g');
});

test('46 Ctrl F finds a part by tag, kind or note', async ({ page }) => {
  await partOf(page, 'M-2').click();
  await type(page, 'Note', 'by the weir');
  await page.keyboard.press('Control+f');
  await page.keyboard.type('motor weir');
  await page.keyboard.press('Enter');
  expect(await selected(page)).toEqual(['M-2']);
});

test('47 what has a key says so when pointed at', async ({ page }) => {
  await expect(page.getByRole('button', { name: 'Fit', exact: true })).toHaveAttribute('title', 'Fit all (F)');
  await expect(page.getByRole('button', { name: 'Save', exact: true })).toHaveAttribute('title', 'Save to a file (Ctrl S)');
});

test('48 an empty sheet says three ways to begin', async ({ page }) => {
  await lay(page, { ...THREE_RUNS, elements: [], cables: [], positions: {} });
  for (const words of ['Drag a part here', 'Press A and then Enter', 'go back to the start and say it in five numbers'])
    await expect(page.getByText(words)).toBeVisible();
});

test('49 an example can be opened and broken; the next time it is whole again', async ({ page }) => {
  const open = async () => {
    await page.getByRole('button', { name: 'Copperline' }).click();
    await page.locator('.examples').getByText('Alder Mill fan').click();
  };
  await open();
  await partOf(page, 'M-1').click();
  await page.keyboard.press('Delete');
  await expect(partOf(page, 'M-1')).toHaveCount(0);
  await open();
  await expect(partOf(page, 'M-1')).toHaveCount(1);
});

test('50 each field says its unit, its range, what it means and who knows', async ({ page }) => {
  await partOf(page, 'M-1').click();
  const field = page.getByLabel('Efficiency', { exact: true });
  await field.focus();
  await expect(field).toHaveAccessibleDescription(/In %\. Above 0.%\. At most 100.%.*Ask: /);
  await expect(page.getByText(/^In %\. Above 0/)).toBeVisible();
  const fields = page.locator('.values .field:has(input)');
  for (const words of await fields.locator('input').evaluateAll((all) => all.map((each) => each.getAttribute('aria-describedby'))))
    expect(words).toBeTruthy();
});

test('50 what a field says of itself covers no other, cut nowhere, in every window', async ({ page }) => {
  for (const [width, height] of [
    [1440, 900],
    [1024, 768],
    [390, 844],
    [320, 256],
  ] as const) {
    await page.setViewportSize({ width, height });
    for (const tag of ['W-1A', 'VFD-1']) {
      await command(page, tag);
      await page.getByRole('group', { name: `Values of ${tag}` }).waitFor();
      const faults = await page.locator('.values .field:has(.help)').evaluateAll((fields) =>
        fields.flatMap((field) => {
          const [control, help] = [field.querySelector<HTMLElement>('input, select'), field.querySelector('.help')];
          control?.focus();
          control?.scrollIntoView({ block: 'nearest' });
          const box = help?.getBoundingClientRect();
          if (!help || !box || box.height === 0) return [`${control?.id}: not shown`];
          const shown = field.closest('.reader')?.getBoundingClientRect();
          // What is scrolled away behind the edge of the panel is not seen there.
          const seen = (shown?.bottom ?? 0) - Number.parseFloat(getComputedStyle(field.closest('.reader') ?? field).borderBottomWidth);
          const covered = [...document.querySelectorAll('.reader :is(label, input, select, h2, button)')].filter((each) => {
            const { left, right, top, bottom } = each.getBoundingClientRect();
            return left < box.right && right > box.left && top < box.bottom && Math.min(bottom, seen) > box.top + 1;
          });
          return [
            ...covered.map((each) => `${help.textContent} covers ${each.textContent}`),
            ...(help.scrollHeight > help.clientHeight + 2 ? [`${help.textContent} is cut`] : []),
            ...(box.bottom > window.innerHeight + 1 ? [`${help.textContent} is out of sight`] : []),
          ];
        }),
      );
      expect(faults, `${tag} at ${width} by ${height}`).toEqual([]);
    }
  }
  await page.setViewportSize({ width: 1440, height: 900 });
});

test('the size of a raceway is chosen from those of its kind, and one that is not listed is kept and not judged', async ({ page }) => {
  await command(page, 'W-1A');
  const size = page.getByLabel('Raceway size', { exact: true });
  const offered = () => size.evaluate((input: HTMLInputElement) => [...(input.list?.options ?? [])].map(({ value }) => value));
  await page.getByLabel('Laid in', { exact: true }).selectOption('tray');
  expect(await offered()).toEqual([]);
  await page.getByLabel('Laid in', { exact: true }).selectOption('plastic-conduit');
  await expect.poll(offered).toEqual(expect.arrayContaining(['1/2', '1 1/4', '1 1/4 PVC40', '1 1/4 PVC80']));
  expect((await offered()).filter((each) => each.includes('EMT'))).toEqual([]);
  // As a browser tells of a choice from its list: the whole entry at once.
  await size.evaluate((input: HTMLInputElement) => {
    Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value')?.set?.call(input, '4 PVC40');
    input.dispatchEvent(new InputEvent('input', { bubbles: true, inputType: 'insertReplacementText' }));
  });
  await expect(size).toHaveAttribute('data-clean', 'true');
  await expect(size).toHaveValue('4 PVC40');
  await type(page, 'Raceway size', '53');
  await expect(size).toHaveValue('53');
  await page.locator('.reader summary').filter({ hasText: 'cannot be judged yet' }).click();
  const fill = page.locator('.finding').filter({ hasText: 'Raceway fill and glands' });
  await expect(fill.filter({ hasText: '“53” is not a trade size of plastic conduit' })).toContainText('open');
});
