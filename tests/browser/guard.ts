import { type BrowserContext, test as base, expect } from '@playwright/test';

/** What no page of this program does: throw, complain, break its own content policy, or ask anything of another origin. */

const OWN = /^(data:|blob:|about:)/;
// The browser's own PDF reader is made of pages of its own.
const BROWSERS = /^(chrome|chrome-extension):/;

/** What the test runner itself says of the service worker that it does not let in. */
const BLOCKED = 'Service Worker registration blocked by Playwright';

/** Collects the faults of every page of a context, from before its first script on. */
export async function watch(context: BrowserContext, origin: string): Promise<string[]> {
  const faults: string[] = [];
  context.on('weberror', (fault) => faults.push(fault.error().message));
  context.on(
    'console',
    (message) => ['error', 'warning'].includes(message.type()) && message.text() !== BLOCKED && faults.push(message.text()),
  );
  context.on('request', (request) => {
    const address = request.url();
    if (!OWN.test(address) && !BROWSERS.test(address) && new URL(address).origin !== origin) faults.push(`asked ${address}`);
  });
  await context.exposeBinding('policyBroken', (_, what: string) => faults.push(what));
  await context.addInitScript(() =>
    document.addEventListener('securitypolicyviolation', ({ effectiveDirective, blockedURI, sourceFile, lineNumber }) =>
      (window as unknown as { policyBroken: (what: string) => void }).policyBroken(
        `broke ${effectiveDirective} with ${blockedURI} at ${sourceFile}:${lineNumber}`,
      ),
    ),
  );
  return faults;
}

export const originOf = (baseURL: string | undefined): string => new URL(baseURL ?? 'http://localhost').origin;

/** Any fault on any page of its context fails the test. */
export const test = base.extend({
  context: async ({ context, baseURL }, use) => {
    const faults = await watch(context, originOf(baseURL));
    await use(context);
    expect(faults).toEqual([]);
  },
});
export { expect };
