import { writeFileSync } from 'node:fs';
import { type LineUp, review, save } from '../../engine/index.ts';
import { manyRuns } from '../engine/manyRuns.ts';
import { choose, expect, tally, test, type } from './page.ts';

/** A line-up so large that it is judged on another thread: what is shown meanwhile, and that the right answer comes. */

const SITE = manyRuns(200);
const words = (project: Partial<LineUp['project']>): string => {
  const { counts } = review({ ...SITE, project: { ...SITE.project, ...project } });
  return `${counts.fail} fail ${counts.open} open ${counts.caution} caution ${counts.note} note ${counts.pass} pass`;
};

const WORKING = '… … … … … working…';

test('several hundred runs: the sheet is there before the verdict, and an old verdict is never shown as current', async ({
  page,
}, info) => {
  // Drawing so many parts takes a small machine seconds.
  test.slow();
  // What is asked of the worker is held back until it is let go: so what shows meanwhile is seen without a clock.
  await page.addInitScript(() => {
    for (const name of ['showSaveFilePicker', 'showOpenFilePicker']) Reflect.deleteProperty(window, name);
    const { prototype } = window.Worker;
    const post = prototype.postMessage;
    const held: (() => void)[] = [];
    prototype.postMessage = function (this: Worker, message: unknown) {
      held.push(() => post.call(this, message));
    };
    Object.assign(window, { letGo: () => held.splice(0).map((send) => send()).length });
  });
  const letGo = () => expect.poll(() => page.evaluate(() => (window as unknown as { letGo: () => number }).letGo())).toBe(1);
  await page.reload();
  const file = info.outputPath('runs.json');
  writeFileSync(file, save(SITE));
  const choosing = page.waitForEvent('filechooser');
  await page.getByRole('button', { name: 'Open a file…' }).click();
  await (await choosing).setFiles(file);

  await expect(page.locator('.react-flow__node')).toHaveCount(SITE.elements.length);
  await expect(tally(page)).toHaveText(WORKING);
  await expect(page.getByRole('heading', { name: '200 runs is being judged…' })).toBeVisible();

  // The sheet takes edits meanwhile. The answer for the document before the edit is not shown.
  await type(page, 'Title', 'Long shed');
  await letGo();
  await letGo();
  await expect(tally(page)).toHaveText(words({ title: 'Long shed' }));
  await expect(page.locator('.app')).not.toHaveClass(/stale/);
  await expect(page.getByRole('heading', { name: 'Long shed is not ready to issue' })).toBeVisible();

  await choose(page, 'Basis', 'iec');
  await expect(page.locator('.app')).toHaveClass(/stale/);
  await expect(tally(page)).toHaveText(WORKING);
  await letGo();
  await expect(tally(page)).toHaveText(words({ title: 'Long shed', basis: 'iec' }));
  await expect(page.locator('.app')).not.toHaveClass(/stale/);
});
