import type { Page } from '@playwright/test';
import axe from 'axe-core';
import { expect, test } from './page.ts';

const violations = async (page: Page): Promise<readonly string[]> => {
  await page.evaluate(axe.source);
  return page.evaluate(async () => {
    const { violations } = await (
      window as unknown as { axe: { run: () => Promise<{ violations: { id: string; nodes: { target: unknown }[] }[] }> } }
    ).axe.run();
    return violations.map(({ id, nodes }) => `${id}: ${JSON.stringify(nodes.map((node) => node.target))}`);
  });
};

for (const colorScheme of ['light', 'dark'] as const) {
  test(`nothing for axe to find, ${colorScheme}`, async ({ page }) => {
    await page.emulateMedia({ colorScheme });
    expect(await violations(page)).toEqual([]);
    await page.getByText('Fennel Lane capping line').click();
    expect(await violations(page)).toEqual([]);
    await page.locator('.finding').first().click();
    expect(await violations(page)).toEqual([]);
    await page.getByRole('button', { name: 'Go to the field' }).click();
    expect(await violations(page)).toEqual([]);
  });
}
