import { readFileSync } from 'node:fs';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { type LineUp, load, save } from '../../engine/index.ts';
import { command, expect, lay, middle, THREE_RUNS, test } from './desk.ts';
import { type } from './page.ts';

/** Issues are frozen and compared, comments answered and closed; each is one step that can be taken back. */

const DATED: LineUp = { ...THREE_RUNS, project: { ...THREE_RUNS.project, revision: 'A' } };

test('a revision is issued, and what changed since is told, listed and handed over', async ({ page }) => {
  await lay(page, DATED);
  await command(page, 'Revisions and comments');
  const dialog = page.getByRole('dialog', { name: 'Revisions and comments' });
  await dialog.getByLabel('Date of issue').fill('');
  await expect(dialog.getByRole('button', { name: 'Issue revision A' })).toBeDisabled();
  await dialog.getByLabel('Date of issue').fill('2026-11-20');
  await dialog.getByLabel('What it is for').fill('For approval');
  await dialog.getByLabel('By', { exact: true }).fill('A. N. Other');
  await dialog.getByRole('button', { name: 'Issue revision A' }).click();
  const issued = dialog.getByRole('list', { name: 'Issued' }).getByRole('listitem', { name: 'Revision A' });
  await expect(issued).toContainText('2026-11-20, by A. N. Other');
  await expect(issued).toContainText('For approval');
  await expect(dialog.getByRole('button', { name: 'Issue revision B' })).toBeEnabled();
  await issued.getByText('What changed since').click();
  await expect(issued).toContainText('Nothing.');
  await dialog.getByRole('button', { name: 'Close', exact: true }).click();

  const { tag } = THREE_RUNS.elements.find((each) => each.kind === 'motor') ?? { tag: '' };
  const { x, y } = await middle(page, tag);
  await page.mouse.click(x, y);
  await type(page, 'Rated power', '61 hp');
  await command(page, 'Revisions and comments');
  await issued.getByText('What changed since').click();
  await expect(issued).toContainText(`${tag} Rated power`);
  await dialog.getByRole('button', { name: 'Close', exact: true }).click();
  await command(page, 'Notes on the drawing');
  const notes = page.getByRole('dialog', { name: 'Notes' });
  await notes.getByRole('textbox').last().fill('Torque terminals');
  await notes.getByRole('button', { name: /^Add/ }).click();
  await notes.getByRole('button', { name: 'Close', exact: true }).click();
  await command(page, 'Revisions and comments');
  await issued.getByText('What changed since').click();
  await expect(issued).toContainText('note 1 new: Says –, now Torque terminals');

  const download = async (name: string) => {
    const waiting = page.waitForEvent('download');
    await issued.getByRole('button', { name }).click();
    const file = await waiting;
    return readFileSync(await file.path());
  };
  const own = load((await download('As a line-up of its own')).toString('utf8'));
  expect(own.ok && save(own.lineUp)).toBe(save(DATED));
  const pdf = await getDocument({ data: new Uint8Array(await download('Its package')) }).promise;
  const cover = (await (await pdf.getPage(1)).getTextContent()).items.map((item) => ('str' in item ? item.str : '')).join(' ');
  expect(cover).toContain('revision A');

  await dialog.getByRole('button', { name: 'Take out revision A' }).click();
  await expect(issued).toHaveCount(0);
  await dialog.getByRole('button', { name: 'Close', exact: true }).click();
  for (let step = 0; step < 4; step++) await page.getByRole('button', { name: 'Undo' }).click();
  await expect(page.getByRole('button', { name: 'Undo' })).toBeDisabled();
});

test('a comment is added for what is chosen, answered, closed, opened again and deleted', async ({ page }) => {
  const { tag } = THREE_RUNS.elements.find((each) => each.kind === 'motor') ?? { tag: '' };
  const { x, y } = await middle(page, tag);
  await page.mouse.click(x, y);
  await command(page, 'Revisions and comments');
  const dialog = page.getByRole('dialog', { name: 'Revisions and comments' });
  await dialog.getByLabel('New comment').fill('Is it an inverter-duty winding?');
  await dialog.getByLabel('From').fill('Reviewer');
  await dialog.getByRole('button', { name: 'Add comment' }).click();
  const comment = dialog.getByRole('listitem', { name: 'Comment 1' });
  await expect(dialog.getByRole('heading', { name: 'Comments: 1, 1 of them open' })).toBeVisible();
  await comment.getByText('Is it an inverter-duty').first().click();
  await expect(comment).toContainText(`Tied to ${tag}`);
  await comment.getByLabel('Reply').fill('Yes, see the data sheet.');
  await comment.getByLabel('Closed on').fill('2026-11-21');
  await comment.getByRole('button', { name: 'Close comment 1' }).click();
  await expect(dialog.getByRole('heading', { name: 'Comments: 1, 0 of them open' })).toBeVisible();
  await comment.getByRole('button', { name: 'Untie' }).click();
  await expect(comment).toContainText('Tied to no part');
  await comment.getByRole('button', { name: `Tie to ${tag}` }).click();
  await comment.getByRole('button', { name: 'Open again' }).click();
  await expect(dialog.getByRole('heading', { name: 'Comments: 1, 1 of them open' })).toBeVisible();
  // A reply that is half typed when the panel is closed is kept.
  await comment.getByLabel('Reply').fill('Yes, as the data sheet says.');
  await page.keyboard.press('Escape');
  await expect(dialog).toHaveCount(0);
  await command(page, 'Revisions and comments');
  await comment.getByText('Is it an inverter-duty').first().click();
  await expect(comment.getByLabel('Reply')).toHaveValue('Yes, as the data sheet says.');
  await comment.getByRole('button', { name: 'Delete comment 1' }).click();
  await expect(comment).toHaveCount(0);
  await dialog.getByRole('button', { name: 'Close', exact: true }).click();
  // Deleted, answered, opened, tied, untied, closed, answered, added.
  for (let i = 0; i < 8; i++) await page.getByRole('button', { name: 'Undo' }).click();
  await expect(page.getByRole('button', { name: 'Undo' })).toBeDisabled();
});
