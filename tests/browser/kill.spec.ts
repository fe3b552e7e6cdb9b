import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { type Browser, chromium, type Page } from '@playwright/test';
import { expect, originOf, test, watch } from './guard.ts';

/** The whole browser is ended in the midst of work, again and again: what its sign called kept is there when it is opened again. */

const ROUNDS = Number(process.env['KILLS'] ?? 20);

test.use({ permissions: [] });
test.setTimeout(20_000 + ROUNDS * 10_000);

interface Running {
  readonly process: ChildProcess;
  readonly browser: Browser;
  readonly page: Page;
  readonly faults: readonly string[];
}

/** A browser of its own with this profile, in a group of processes of its own, so that all of it can be ended at one stroke. */
async function launch(profile: string, address: string, path: string): Promise<Running> {
  const port = join(profile, 'DevToolsActivePort');
  for (const left of [port, ...['Lock', 'Cookie', 'Socket'].map((name) => join(profile, `Singleton${name}`))])
    rmSync(left, { force: true });
  const flags = ['--headless=new', '--no-sandbox', '--disable-gpu', '--no-first-run', '--disable-background-networking', '--disable-sync'];
  const started = spawn(path, [...flags, '--remote-debugging-port=0', `--user-data-dir=${profile}`, 'about:blank'], {
    detached: true,
    stdio: 'ignore',
  });
  await expect.poll(() => existsSync(port) && readFileSync(port, 'utf8').includes('\n'), { timeout: 20_000, intervals: [50] }).toBe(true);
  const browser = await chromium.connectOverCDP(`http://127.0.0.1:${readFileSync(port, 'utf8').split('\n')[0]}`);
  const [context] = browser.contexts();
  if (!context) throw new Error('the browser has no window');
  const faults = await watch(context, originOf(address));
  const page = context.pages()[0] ?? (await context.newPage());
  await page.goto(address);
  return { process: started, browser, page, faults };
}

async function kill({ process: started, browser }: Running): Promise<void> {
  const over = new Promise((resolve) => started.once('exit', resolve));
  if (started.pid !== undefined) process.kill(-started.pid, 'SIGKILL');
  await over;
  await browser.close().catch(() => undefined);
}

/** Edits every 50 ms, counting on, and gives the number that the sign called kept, as soon as it is so high. */
const editUntilKept = (page: Page, from: number, enough: number): Promise<number> =>
  page.evaluate(
    ([first, least]) =>
      new Promise<number>((resolve) => {
        let number = first;
        setInterval(() => {
          const title = document.querySelector<HTMLInputElement>('input[aria-label="Title"]');
          if (!title) return;
          title.value = `${++number}`;
          title.dispatchEvent(new FocusEvent('focusout', { bubbles: true }));
        }, 50);
        const sign = document.querySelector('[data-testid="saved"]');
        const look = () => / in this browser/.test(sign?.textContent ?? '') && number >= least && resolve(number);
        if (sign) new MutationObserver(look).observe(sign, { subtree: true, childList: true, characterData: true });
      }),
    [from, enough] as const,
  );

test(`${ROUNDS} times the browser is ended while someone works, and nothing that was called kept is lost`, async ({ baseURL }, info) => {
  const profile = info.outputPath('profile');
  const path = info.project.use.launchOptions?.executablePath ?? 'chromium';
  const lost: string[] = [];
  let acknowledged = 0;
  for (let round = 0; round <= ROUNDS; round++) {
    const running = await launch(profile, baseURL ?? '', path);
    try {
      const { page } = running;
      const title = page.getByLabel('Title', { exact: true });
      if (round === 0) await page.getByRole('button', { name: 'Blank sheet' }).click();
      await expect(title).toBeVisible();
      const found = Number(await title.inputValue());
      if (round > 0 && !(found >= acknowledged)) lost.push(`round ${round}: ${acknowledged} was called kept, ${found} is there`);
      const from = Math.max(acknowledged, found || 0);
      expect(running.faults).toEqual([]);
      if (round < ROUNDS) acknowledged = await editUntilKept(page, from, from + 1 + (round % 7));
    } finally {
      await kill(running);
    }
  }
  expect(lost).toEqual([]);
  expect(acknowledged).toBeGreaterThanOrEqual(ROUNDS);
});
