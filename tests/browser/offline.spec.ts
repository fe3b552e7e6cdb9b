import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, truncateSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from '@playwright/test';
import { build } from 'vite';
import { command } from './desk.ts';
import { test as base, expect } from './guard.ts';
import { partOf, type } from './page.ts';
import { type Site, serve } from './site.ts';

/** The program without a net, and how one version follows another. */

type Version = 'first' | 'second' | 'off';
interface Shared {
  /** Where each version is built. */
  readonly built: Readonly<Record<Version, string>>;
}

async function buildInto(folder: string, version: Version): Promise<string> {
  const outDir = join(folder, version);
  const before = { NODE_ENV: process.env['NODE_ENV'], VITE_OFFLINE: process.env['VITE_OFFLINE'] };
  Object.assign(process.env, { NODE_ENV: 'production', VITE_OFFLINE: version === 'off' ? 'off' : 'on' });
  // A word in every script gives every script another name, as a new version of a library would.
  const marking = { name: 'marking', renderChunk: (code: string) => `${code}\nglobalThis.builtAs = '${version}';` };
  await build({ logLevel: 'silent', plugins: [marking], build: { outDir } });
  for (const [name, value] of Object.entries(before))
    if (value === undefined) delete process.env[name];
    else process.env[name] = value;
  return outDir;
}

const test = base.extend<{ site: Site }, Shared>({
  built: [
    // biome-ignore lint/correctness/noEmptyPattern: the runner wants the fixtures it is given in braces
    async ({}, use) => {
      const folder = mkdtempSync(join(tmpdir(), 'copperline-versions-'));
      await use({
        first: await buildInto(folder, 'first'),
        second: await buildInto(folder, 'second'),
        off: await buildInto(folder, 'off'),
      });
      rmSync(folder, { recursive: true });
    },
    { scope: 'worker', timeout: 60_000 },
  ],
  site: async ({ built }, use) => {
    const site = await serve(built.first);
    await use(site);
    await site.stop();
  },
  baseURL: ({ site }, use) => use(site.address),
  serviceWorkers: 'allow',
});

const kept = (page: Page) => page.evaluate(() => navigator.serviceWorker.ready.then(() => caches.keys()));
const start = async (page: Page): Promise<void> => {
  await page.goto('');
  await page.getByRole('button', { name: 'Blank sheet' }).waitFor();
  await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
};
const look = (page: Page) => page.evaluate(async () => void (await (await navigator.serviceWorker.getRegistration())?.update()));
const scriptOf = (page: Page) => page.locator('script[type="module"]').getAttribute('src');
const notice = (page: Page) => page.getByRole('status', { name: 'Version' });
const issue = async (page: Page): Promise<Buffer> => {
  const waiting = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Issue package' }).click();
  return readFileSync(await (await waiting).path());
};

test('a newer version waits until it is asked for, keeps the work, and leaves no old tab without its parts', async ({
  page,
  context,
  site,
  built,
}) => {
  test.setTimeout(90_000);
  await start(page);
  const first = await scriptOf(page);
  await page.getByText('Heron Weir pumps').click();
  await page.keyboard.press('Escape');
  await type(page, 'Title', 'Across versions');
  await expect(page.getByTestId('saved')).toHaveText(/ in this browser/);
  const other = await context.newPage();
  await other.goto('');
  // It shows what the first tab has open, and goes on to something of its own.
  await other.getByRole('button', { name: 'Copperline' }).click();
  await other.getByRole('button', { name: 'Blank sheet' }).click();
  await type(other, 'Title', 'Beside');

  site.moveTo(built.second);
  await look(page);
  await expect(notice(page)).toContainText('A newer version is ready.');
  // Until it is asked for, nothing changes: parts that were not fetched yet still come.
  await command(page, 'Revisions');
  await expect(page.getByRole('dialog', { name: 'Revisions and comments' })).toBeVisible();
  await page.keyboard.press('Escape');
  expect(await kept(page)).toHaveLength(2);

  await page.getByRole('button', { name: 'Update now' }).click();
  await expect.poll(() => scriptOf(page).catch(() => first)).not.toBe(first);
  await expect(page.getByLabel('Title', { exact: true })).toHaveValue('Across versions');
  await expect(partOf(page, 'P-2')).toBeVisible();
  await expect(notice(page)).toBeEmpty();

  // The other tab goes on as it is, until it is asked as well.
  await expect(notice(other)).toContainText('Another tab went over to a newer version.');
  expect(await scriptOf(other)).toBe(first);
  await command(other, 'Export');
  await expect(other.getByRole('dialog', { name: 'Sheets and forms' })).toBeVisible();
  await other.keyboard.press('Escape');
  await other.getByRole('button', { name: 'Update now' }).click();
  await expect.poll(() => scriptOf(other).catch(() => first)).not.toBe(first);
  await expect(other.getByLabel('Title', { exact: true })).toHaveValue('Beside');
  await other.close();

  await site.stop();
  const reopened = await context.newPage();
  await page.close();
  await reopened.goto('');
  await expect(reopened.getByLabel('Title', { exact: true })).toHaveValue(/Across versions|Beside/);
  // With nobody left who runs it, the first version is forgotten.
  await expect.poll(() => kept(reopened)).toHaveLength(1);
  expect((await issue(reopened)).subarray(0, 5).toString()).toBe('%PDF-');
});

/** Copies a version and spoils one of its late parts. */
function spoiled(version: string, spoil: (file: string) => void): string {
  const folder = `${version}-spoiled`;
  rmSync(folder, { recursive: true, force: true });
  cpSync(version, folder, { recursive: true });
  const late = readdirSync(join(folder, 'assets')).find((name) => name.startsWith('RevisionsDialog-') && name.endsWith('.js'));
  if (!late) throw new Error('no late part to spoil');
  spoil(join(folder, 'assets', late));
  return folder;
}
const installing = (page: Page) =>
  page.evaluate(async () => {
    const registration = await navigator.serviceWorker.getRegistration();
    return [registration?.installing?.state ?? null, registration?.waiting?.state ?? null, registration?.active?.state ?? null];
  });

for (const [how, spoil] of [
  ['with a part missing', rmSync],
  ['with a part cut off', (file: string) => truncateSync(file, 100)],
] as const)
  test(`a newer version that lies on the server ${how} changes nothing, and comes once it is whole`, async ({ page, site, built }) => {
    await start(page);
    const first = await scriptOf(page);
    site.moveTo(spoiled(built.second, spoil));
    await look(page);
    await expect.poll(() => installing(page)).toEqual([null, null, 'activated']);
    await page.reload();
    expect(await scriptOf(page)).toBe(first);
    await page.getByText('Heron Weir pumps').click();
    await expect(page.getByText('Heron Weir pumps is not ready to issue')).toBeVisible();
    await command(page, 'Revisions');
    await expect(page.getByRole('dialog', { name: 'Revisions and comments' })).toBeVisible();
    await page.keyboard.press('Escape');
    await expect(notice(page)).toBeEmpty();

    site.moveTo(built.second);
    await look(page);
    await page.getByRole('button', { name: 'Update now' }).click();
    await expect.poll(() => scriptOf(page).catch(() => first)).not.toBe(first);
    await expect(partOf(page, 'P-2')).toBeVisible();
  });

test('after one visit it starts, judges and writes the package with the server stopped, and can be installed', async ({ page, site }) => {
  await start(page);
  const session = await page.context().newCDPSession(page);
  const { installabilityErrors } = await session.send('Page.getInstallabilityErrors');
  // A browser under test keeps nothing for good, and says so.
  expect(installabilityErrors.filter(({ errorId }) => errorId !== 'in-incognito')).toEqual([]);
  await site.stop();
  await page.reload();
  await page.getByText('Heron Weir pumps').click();
  await expect(page.getByText('Heron Weir pumps is not ready to issue')).toBeVisible();
  expect((await issue(page)).subarray(0, 5).toString()).toBe('%PDF-');
});

test('what is kept can be taken away from the server', async ({ page, site, built }) => {
  await start(page);
  site.moveTo(built.off);
  await look(page);
  await expect
    .poll(() => page.evaluate(async () => [await caches.keys(), await navigator.serviceWorker.getRegistrations()]))
    .toEqual([[], []]);
  await page.reload();
  await page.getByRole('button', { name: 'Blank sheet' }).waitFor();
  expect(await page.evaluate(() => navigator.serviceWorker.controller)).toBe(null);
});
