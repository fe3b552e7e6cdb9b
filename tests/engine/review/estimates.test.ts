import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { load, review } from '../../../engine/index.ts';

const folder = join(import.meta.dirname, '../../../examples');
const EXAMPLES = readdirSync(folder).filter((each) => each.endsWith('.json'));

it.each(EXAMPLES)('in %s an estimate says between what it lies, or that nobody knows', (name) => {
  const loaded = load(readFileSync(join(folder, name), 'utf8'));
  if (!loaded.ok) throw new Error(loaded.what);
  const estimates = review(loaded.lineUp).findings.filter(({ authority, value }) => authority === 'estimate' && value !== null);
  expect(estimates.length).toBeGreaterThan(2);
  for (const { id, band, working } of estimates)
    expect([id, band !== null || working.some((line) => /^between |, no band known: /.test(line))]).toEqual([id, true]);
});
