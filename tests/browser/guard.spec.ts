import { expect, originOf, test, watch } from './guard.ts';

/** The guard of all other tests, seen to notice. */

test('a page that breaks its policy, complains, throws or asks elsewhere is noticed', async ({ browser, baseURL }) => {
  const context = await browser.newContext();
  const faults = await watch(context, originOf(baseURL));
  const page = await context.newPage();
  await page.goto(baseURL ?? '');
  await page.getByRole('button', { name: 'Blank sheet' }).waitFor();
  expect(faults).toEqual([]);
  const noticed = async (act: () => unknown, word: string) => {
    await page.evaluate(act);
    await expect.poll(() => faults.splice(0).join('\n')).toContain(word);
  };
  await noticed(() => console.error('a complaint'), 'a complaint');
  await noticed(() => setTimeout(() => Promise.reject(new Error('a rejection'))), 'a rejection');
  await noticed(() => setTimeout(() => Object.assign(document.createElement('script'), { text: '1' })), 'broke require-trusted-types-for');
  await noticed(() => document.body.setAttribute('style', 'color: red'), 'broke style-src-attr');
  await noticed(() => setTimeout(() => new Function('return 1')), 'broke ');
  await noticed(() => setTimeout(() => new Worker('elsewhere.js')), 'broke require-trusted-types-for');
  await noticed(
    () => setTimeout(() => document.body.insertAdjacentHTML('beforeend', '<b>text as markup</b>')),
    'broke require-trusted-types-for',
  );
  await noticed(() => void fetch('http://127.0.0.1:9/').catch(() => undefined), 'broke connect-src');
  // What the policy stops is never asked; a page without one asks.
  await page.goto('about:blank');
  await noticed(() => fetch('http://127.0.0.1:9/').catch(() => undefined), 'asked http://127.0.0.1:9/');
  await context.close();
});

test('the page carries its policy in itself and as a header', async ({ page }) => {
  const header = (await page.goto('/'))?.headers()['content-security-policy'] ?? '';
  const inPage = await page.locator('meta[http-equiv="Content-Security-Policy"]').getAttribute('content');
  expect(header).not.toContain('unsafe');
  expect(inPage).toBe(header.replace(" frame-ancestors 'none';", ''));
});
