import { command, corner, drag, expect, lay, middle, selected, THREE_RUNS, tags, test } from './desk.ts';
import { cableOf, choose, dragPart, partOf, tally, type } from './page.ts';

/** What is changed: conventions 21 to 43. */

const port = (page: Parameters<typeof middle>[0], label: string) => page.getByLabel(label, { exact: true });
const portAt = async (page: Parameters<typeof middle>[0], label: string) => {
  const box = await port(page, label).boundingBox();
  if (!box) throw new Error(`no ${label}`);
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
};
const undone = async (page: Parameters<typeof middle>[0]) => {
  await page.keyboard.press('Control+z');
  await expect(page.getByRole('button', { name: 'Undo' })).toBeDisabled();
};
const ALL = THREE_RUNS.elements.length;

test('21 Ctrl Z takes back, Ctrl Y and Ctrl Shift Z bring again', async ({ page }) => {
  await partOf(page, 'M-1').click();
  await page.keyboard.press('Delete');
  expect(await tags(page)).not.toContain('M-1');
  for (const again of ['Control+y', 'Control+Shift+Z']) {
    await page.keyboard.press('Control+z');
    await expect(partOf(page, 'M-1')).toHaveCount(1);
    await page.keyboard.press(again);
    await expect(partOf(page, 'M-1')).toHaveCount(0);
  }
});

test('22 copy, cut and paste, also into another document', async ({ page }) => {
  await partOf(page, 'VFD-2').click();
  await partOf(page, 'DS-2').click({ modifiers: ['Shift'] });
  await page.keyboard.press('Control+c');
  await lay(page, { ...THREE_RUNS, elements: [], cables: [], positions: {} });
  await page.keyboard.press('Control+v');
  expect(await tags(page)).toEqual(['DS-2', 'VFD-2']);
  await expect(page.locator('.react-flow__edge')).toHaveCount(1);
  await page.keyboard.press('Control+x');
  await expect(page.locator('.react-flow__node')).toHaveCount(0);
  await page.keyboard.press('Control+v');
  expect(await tags(page)).toEqual(['DS-2', 'VFD-2']);
  for (let i = 0; i < 3; i++) await page.keyboard.press('Control+z');
  await expect(page.getByRole('button', { name: 'Undo' })).toBeDisabled();
});

test('23 a paste lies at the pointer, and steps aside when it is repeated', async ({ page }) => {
  await partOf(page, 'DS-1').click();
  await page.keyboard.press('Control+c');
  const at = await corner(page);
  await page.mouse.move(at.x + 40, at.y + 300);
  await page.keyboard.press('Control+v');
  await page.keyboard.press('Control+v');
  const [first, second] = [await middle(page, 'DS-4'), await middle(page, 'DS-5')];
  expect(Math.hypot(first.x - at.x - 40, first.y - at.y - 300)).toBeLessThan(60);
  expect(second.x - first.x).toBeGreaterThan(10);
});

test('24 Ctrl D makes one more, fed from the same place', async ({ page }) => {
  const cables = await page.locator('.react-flow__edge').count();
  for (const tag of ['CB-3', 'VFD-3', 'DS-3', 'M-3']) await partOf(page, tag).click({ modifiers: ['Shift'] });
  await page.keyboard.press('Control+d');
  await expect(page.locator('.react-flow__node')).toHaveCount(ALL + 4);
  await expect(page.locator('.react-flow__edge')).toHaveCount(cables + 4);
  expect(await selected(page)).toEqual(['CB-4', 'DS-4', 'M-4', 'VFD-4']);
  await undone(page);
});

test('24 a whole line-up eleven times more, renumbered, in one step', async ({ page }) => {
  for (const tag of ['CB-3', 'VFD-3', 'DS-3', 'M-3']) await partOf(page, tag).click({ modifiers: ['Shift'] });
  await page.keyboard.press('m');
  await page.keyboard.type('11');
  await page.keyboard.press('Enter');
  await expect(page.locator('.react-flow__node')).toHaveCount(ALL + 44);
  const all = await tags(page);
  expect(new Set(all).size).toBe(all.length);
  expect(all).toContain('M-14');
  await undone(page);
});

test('25 Delete and Backspace both delete', async ({ page }) => {
  for (const [key, tag] of [
    ['Delete', 'M-1'],
    ['Backspace', 'M-2'],
  ] as const) {
    await partOf(page, tag).click();
    await page.keyboard.press(key);
    await expect(partOf(page, tag)).toHaveCount(0);
  }
});

test('26 Alt and a drag copy', async ({ page }) => {
  const [at, clear] = [await middle(page, 'M-1'), await corner(page)];
  await page.keyboard.down('Alt');
  await drag(page, at, { x: clear.x + 60, y: at.y });
  await page.keyboard.up('Alt');
  await expect(page.locator('.react-flow__node')).toHaveCount(ALL + 1);
  expect((await middle(page, 'M-1')).x).toBeCloseTo(at.x, 0);
  expect((await middle(page, 'M-4')).x).toBeLessThan(at.x - 20);
  await undone(page);
});

test('27 arrows nudge, with Shift further, in one step', async ({ page }) => {
  const before = await middle(page, 'M-1');
  await partOf(page, 'M-1').click();
  await page.keyboard.press('ArrowRight');
  await expect.poll(async () => (await middle(page, 'M-1')).x).toBeGreaterThan(before.x + 1);
  const step = (await middle(page, 'M-1')).x - before.x;
  await page.keyboard.press('Shift+ArrowRight');
  await expect.poll(async () => (await middle(page, 'M-1')).x - before.x).toBeCloseTo(5 * step, 0);
  await undone(page);
});

test('28 a dragged part comes to rest in line with a neighbour, and a line shows with which', async ({ page }) => {
  const [drive, motor] = [await middle(page, 'VFD-1'), await middle(page, 'M-1')];
  await page.mouse.move(motor.x, motor.y);
  await page.mouse.down();
  // A hand begins a drag with a small step.
  await page.mouse.move(motor.x + 2, motor.y);
  await page.mouse.move(motor.x + 90, motor.y - 30, { steps: 4 });
  await page.mouse.move(motor.x + 6, motor.y - 30, { steps: 4 });
  await expect(page.locator('.guide')).not.toHaveCount(0);
  await page.mouse.up();
  await expect(page.locator('.guide')).toHaveCount(0);
  expect((await middle(page, 'M-1')).x).toBeCloseTo(drive.x, 0);
});

for (const [side, near] of [
  ['left edges', 'x'],
  ['on one axis', 'x'],
  ['right edges', 'x'],
  ['tops', 'y'],
  ['middles', 'y'],
  ['bottoms', 'y'],
] as const)
  test(`29 align ${side}`, async ({ page }) => {
    await partOf(page, 'VFD-1').click();
    await partOf(page, 'M-2').click({ modifiers: ['Shift'] });
    await command(page, `Align ${side}`);
    const boxes = [await partOf(page, 'VFD-1').boundingBox(), await partOf(page, 'M-2').boundingBox()];
    const [a, b] = boxes.map((box) => {
      if (!box) throw new Error('no box');
      const [from, size] = near === 'x' ? [box.x, box.width] : [box.y, box.height];
      return /left|tops/.test(side) ? from : /right|bottoms/.test(side) ? from + size : from + size / 2;
    });
    expect(a).toBeCloseTo(b ?? Number.NaN, 0);
    await undone(page);
  });

for (const [words, way] of [
  ['across', 'x'],
  ['down', 'y'],
] as const)
  test(`30 space evenly ${words}`, async ({ page }) => {
    for (const tag of ['M-1', 'VFD-2', 'CB-3']) await partOf(page, tag).click({ modifiers: ['Shift'] });
    await page.keyboard.press('Shift+ArrowRight');
    await command(page, `Space evenly ${words}`);
    const at = (
      await page.locator('.react-flow__node.selected').evaluateAll(
        (nodes, axis) =>
          nodes.map((node) => {
            const matrix = new DOMMatrix(getComputedStyle(node).transform);
            // The top port, which is what is spaced: the box begins a constant above it, and its middle is the axis.
            return axis === 'x' ? matrix.e + (node as HTMLElement).offsetWidth / 2 : matrix.f;
          }),
        way,
      )
    ).sort((a, b) => a - b);
    expect(at).toHaveLength(3);
    // The box of a motor and that of a breaker reach differently to the sides of their axes.
    expect(Math.abs((at[1] ?? 0) - ((at[0] ?? 0) + (at[2] ?? 0)) / 2)).toBeLessThan(way === 'x' ? 8 : 1);
  });

test('31 F2, Enter and a double click rename in place', async ({ page }) => {
  const rename = async (begin: () => Promise<void>, from: string, to: string) => {
    await begin();
    const field = page.getByRole('textbox', { name: `Tag of ${from}` });
    await field.fill(to);
    await field.press('Enter');
    await expect(partOf(page, to)).toHaveCount(1);
  };
  await partOf(page, 'M-1').click();
  await rename(() => page.keyboard.press('F2'), 'M-1', 'P-1');
  await rename(() => page.keyboard.press('Enter'), 'P-1', 'P-2');
  await rename(() => partOf(page, 'M-2').dblclick(), 'M-2', 'P-3');
});

test('32 Escape leaves a name as it was, Enter takes it', async ({ page }) => {
  await partOf(page, 'M-1').click();
  await page.keyboard.press('F2');
  await page.keyboard.type('Other');
  await page.keyboard.press('Escape');
  await expect(partOf(page, 'M-1')).toHaveCount(1);
  await expect(page.getByRole('button', { name: 'Undo' })).toBeDisabled();
  await page.keyboard.press('F2');
  await page.keyboard.type('Other');
  await page.keyboard.press('Enter');
  await expect(partOf(page, 'Other')).toHaveCount(1);
});

test('33 a part dropped on a cable splits it: both halves keep their data, the new ends ask', async ({ page }) => {
  const cables = await page.locator('.react-flow__edge').count();
  const [from, to, sheet] = [await middle(page, 'VFD-1'), await middle(page, 'DS-1'), await page.getByTestId('sheet').boundingBox()];
  await dragPart(page, 'Contactor', from.x - (sheet?.x ?? 0), (from.y + to.y) / 2 + 6 - (sheet?.y ?? 0));
  await expect(page.locator('.react-flow__edge')).toHaveCount(cables + 1);
  for (const [label, end, landing] of [
    ['W-1A', 'end', ''],
    ['W-1C', 'start', ''],
    ['W-1A', 'start', 'full'],
    ['W-1C', 'end', 'full'],
  ] as const) {
    await cableOf(page, label).focus();
    await page.keyboard.press('Enter');
    await expect(page.getByLabel(`Shield landing, ${end}`, { exact: true })).toHaveValue(landing);
    await expect(page.getByLabel('Conductor size', { exact: true })).toHaveValue(/^2\sAWG$/);
  }
});

test('33 a part dropped on a cable stands below what feeds it, and what it pushes down stays in sight', async ({ page }) => {
  const [from, sheet] = [await middle(page, 'DS-1'), await page.getByTestId('sheet').boundingBox()];
  if (!sheet) throw new Error('no sheet');
  // The motor at the very foot, and the part let go where its cable begins.
  const motor = await middle(page, 'M-1');
  await page.mouse.move(from.x - 80, from.y);
  await page.mouse.wheel(0, motor.y - (sheet.y + sheet.height - 90));
  const box = await partOf(page, 'DS-1').boundingBox();
  await dragPart(page, 'Contactor', from.x - sheet.x, (box?.y ?? 0) + (box?.height ?? 0) + 4 - sheet.y);
  await expect(partOf(page, 'K-1')).toHaveCount(1);
  const [put, above, below] = [await middle(page, 'K-1'), await middle(page, 'DS-1'), await partOf(page, 'M-1').boundingBox()];
  expect(put.y - above.y).toBeGreaterThan(box?.height ?? 0);
  expect((below?.y ?? 0) + (below?.height ?? 0)).toBeLessThan(sheet.y + sheet.height - 40);
  await undone(page);
});

test('33 a part dragged over a cable says what would become of it there', async ({ page }) => {
  const [from, to, corner] = [await middle(page, 'VFD-1'), await middle(page, 'DS-1'), await page.getByTestId('sheet').boundingBox()];
  for (const [kind, said] of [
    ['Contactor', 'into W-1A'],
    ['Motor', 'off W-1A, by a junction'],
    ['Supply', 'beside W-1A, not joined'],
  ] as const) {
    const part = await page.getByRole('navigation', { name: 'Parts' }).getByRole('button', { name: kind, exact: true }).boundingBox();
    await page.mouse.move((part?.x ?? 0) + 30, (part?.y ?? 0) + 20);
    await page.mouse.down();
    await page.mouse.move(from.x, (from.y + to.y) / 2 + 6, { steps: 5 });
    await expect(page.locator('.ghost')).toContainText(said);
    await page.mouse.move((corner?.x ?? 0) + 8, (corner?.y ?? 0) + 8, { steps: 5 });
    await expect(page.locator('.ghost')).not.toContainText('W-1A');
    await page.mouse.move((part?.x ?? 0) + 30, (part?.y ?? 0) + 20);
    await page.mouse.up();
  }
  await expect(page.getByRole('button', { name: 'Undo' })).toBeDisabled();
});

test('33 a motor dropped on a cable is fed from a junction in it, a supply is left beside it, and each says why', async ({ page }) => {
  const reason = page.getByRole('status', { name: 'Reason' });
  const [from, to, sheet] = [await middle(page, 'VFD-1'), await middle(page, 'DS-1'), await page.getByTestId('sheet').boundingBox()];
  const [x, y] = [from.x - (sheet?.x ?? 0), (from.y + to.y) / 2 + 6 - (sheet?.y ?? 0)];
  const cables = await page.locator('.react-flow__edge').count();
  await dragPart(page, 'Motor', x, y);
  expect(await selected(page)).toEqual(['M-4']);
  await expect(partOf(page, 'JB-1')).toHaveCount(1);
  await expect(page.locator('.react-flow__edge')).toHaveCount(cables + 2);
  await expect(reason).toContainText('A motor ends its run: a junction in the cable feeds it now.');
  await undone(page);
  await dragPart(page, 'Supply', x, y);
  await expect(page.locator('.react-flow__node')).toHaveCount(ALL + 1);
  await expect(page.locator('.react-flow__edge')).toHaveCount(cables);
  await expect(reason).toContainText('A supply begins a run');
  await undone(page);
  // The same by keys.
  await cableOf(page, 'W-1A').focus();
  await page.keyboard.press('Enter');
  await page.keyboard.press('i');
  await page.keyboard.type('motor');
  await expect(page.getByRole('option', { selected: true }).filter({ hasText: 'by a junction' })).toBeVisible();
  await page.keyboard.press('Enter');
  await expect(partOf(page, 'M-4')).toHaveCount(1);
  await expect(partOf(page, 'JB-1')).toHaveCount(1);
  await undone(page);
});

test('34 deleting a part in a line offers to rejoin; what the halves shared is kept, the rest is asked', async ({ page }) => {
  await partOf(page, 'DS-1').click();
  await page.keyboard.press('Delete');
  const offer = page.getByRole('status', { name: 'Offer' });
  await offer.getByRole('button', { name: 'Rejoin as W-1' }).click();
  await expect(offer).toHaveCount(0);
  await expect(page.getByRole('heading', { name: 'W-1', exact: true })).toBeVisible();
  await expect(page.getByLabel('Conductor size', { exact: true })).toHaveValue(/^2\sAWG$/);
  await expect(page.getByLabel('Length, one way', { exact: true })).toHaveValue(/^21\d/);
  await expect(page.getByLabel('Shield landing, end', { exact: true })).toHaveValue('full');
  for (let i = 0; i < 2; i++) await page.keyboard.press('Control+z');
  await expect(partOf(page, 'DS-1')).toHaveCount(1);
  await expect(page.getByRole('button', { name: 'Undo' })).toBeDisabled();
});

test('35 a part is dragged out of the tray', async ({ page }) => {
  await dragPart(page, 'Motor', 60, 200);
  await expect(partOf(page, 'M-4')).toHaveCount(1);
});

test('36 a part is placed by a click in the tray and a click on the sheet', async ({ page }) => {
  await page.getByRole('navigation', { name: 'Parts' }).getByRole('button', { name: 'Motor' }).click();
  const at = await corner(page);
  await page.mouse.click(at.x + 40, at.y + 240);
  await expect(partOf(page, 'M-4')).toHaveCount(1);
});

test('37 the handle below a part adds what may follow it', async ({ page }) => {
  await partOf(page, 'VFD-1').click();
  await page.getByRole('button', { name: 'Add after VFD-1' }).click();
  const choices = page.getByRole('listbox', { name: 'Choices' });
  await expect(choices.getByRole('option', { name: /^drive/ })).toContainText('A drive may not stand behind another drive.');
  await expect(choices.getByRole('option', { name: /^drive/ })).toHaveAttribute('aria-disabled', 'true');
  await choices.getByRole('option', { name: 'motor' }).click();
  await expect(partOf(page, 'M-4')).toHaveCount(1);
  await undone(page);
});

test('37 a cable let go at nothing asks what follows', async ({ page }) => {
  const [from, clear] = [await portAt(page, 'VFD-1, load side'), await corner(page)];
  await drag(page, from, { x: clear.x + 40, y: from.y + 60 });
  await page.getByRole('listbox', { name: 'Choices' }).getByRole('option', { name: 'junction' }).click();
  await expect(partOf(page, 'JB-1')).toHaveCount(1);
  await undone(page);
});

test('38 while a cable is drawn, what is illegal says why beside the pointer, and changes nothing', async ({ page }) => {
  const cables = await page.locator('.react-flow__edge').count();
  const [from, to] = [await portAt(page, 'VFD-1, load side'), await middle(page, 'VFD-2')];
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  await page.mouse.move((from.x + to.x) / 2, from.y + 20, { steps: 4 });
  const says = page.getByRole('status', { name: 'Connection' });
  await expect(says).toHaveText('Let go here to choose what follows');
  await page.mouse.move(to.x, to.y, { steps: 4 });
  await expect(says).toHaveText('A drive may not stand behind another drive.');
  const box = await says.boundingBox();
  expect(Math.hypot((box?.x ?? 0) - to.x, (box?.y ?? 0) - to.y)).toBeLessThan(40);
  await page.mouse.up();
  await expect(says).toHaveCount(0);
  await expect(page.locator('.react-flow__edge')).toHaveCount(cables);
});

test('39 an end is landed elsewhere, by drag and by name', async ({ page }) => {
  await cableOf(page, 'W-3B').focus();
  await page.keyboard.press('Enter');
  await page.keyboard.press('d');
  await page.keyboard.type('M-2');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('button', { name: 'Undo' })).toHaveAttribute('title', /Land elsewhere/);
  await undone(page);
  const [from, to] = [await portAt(page, 'M-3, line side'), await portAt(page, 'M-2, line side')];
  const anchor = cableOf(page, 'W-3B').locator('.react-flow__edgeupdater-target');
  const box = await anchor.boundingBox();
  expect(box).not.toBeNull();
  await drag(page, { x: from.x, y: (box?.y ?? from.y) + 1 }, to);
  await expect(page.getByRole('button', { name: 'Undo' })).toHaveAttribute('title', /Land elsewhere/);
});

test('40 several are edited at once, and differing values show as mixed', async ({ page }) => {
  await partOf(page, 'DS-1').click();
  await partOf(page, 'DS-2').click({ modifiers: ['Shift'] });
  const box = page.getByLabel('Box', { exact: true });
  await expect(box.locator('option:checked')).toHaveText('mixed');
  await choose(page, 'Box', 'metal');
  await expect(box).toHaveValue('metal');
  await undone(page);
  await expect(box.locator('option:checked')).toHaveText('mixed');
});

test('41 the values of one are given to another of its kind', async ({ page }) => {
  await partOf(page, 'M-1').click();
  await type(page, 'Rated power', '40 hp');
  await page.locator('.react-flow__pane').click({ position: { x: 10, y: 10 } });
  await partOf(page, 'M-1').click();
  await page.keyboard.press('Shift+C');
  await partOf(page, 'M-2').click();
  await page.keyboard.press('Shift+V');
  await expect(page.getByLabel('Rated power', { exact: true })).toHaveValue('40 hp');
  await expect(page.getByLabel('Tag', { exact: true })).toHaveValue('M-2');
});

test('42 the menu of a part, by the right button and by the menu key', async ({ page }) => {
  const menu = page.getByRole('menu', { name: 'What can be done' });
  await partOf(page, 'M-1').click({ button: 'right' });
  await expect(menu).toBeVisible();
  expect(await selected(page)).toEqual(['M-1']);
  await page.keyboard.press('Escape');
  await expect(menu).toHaveCount(0);
  await page.keyboard.press('Shift+F10');
  await expect(menu).toBeVisible();
  await menu.getByRole('menuitem', { name: 'Delete' }).click();
  await expect(partOf(page, 'M-1')).toHaveCount(0);
});

test('43 tidy is one step', async ({ page }) => {
  const before = await middle(page, 'M-1');
  await drag(page, before, { x: before.x + 70, y: before.y - 30 });
  await page.keyboard.press('t');
  await expect.poll(async () => (await middle(page, 'M-1')).x).toBeCloseTo(before.x, 0);
  await page.keyboard.press('Control+z');
  await expect.poll(async () => (await middle(page, 'M-1')).x).toBeGreaterThan(before.x + 40);
  await undone(page);
  await expect(tally(page)).toBeVisible();
});
