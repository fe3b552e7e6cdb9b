import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { type LineUp, load, review } from '../../../engine/index.ts';
import { manyRuns } from '../manyRuns.ts';

/** Every number can be opened: what it was made from, where each value comes from, and the steps to it. */

const FOLDER = join(import.meta.dirname, '../../../examples');
const SITES: readonly (readonly [string, LineUp])[] = [
  ...readdirSync(FOLDER).map((name) => {
    const loaded = load(readFileSync(join(FOLDER, name), 'utf8'));
    if (!loaded.ok) throw new Error(loaded.what);
    return [name, loaded.lineUp] as const;
  }),
  ['three runs', manyRuns(3)] as const,
];

describe.each(SITES)('%s', (_name, lineUp) => {
  it.each(['us', 'iec'] as const)('every verdict of the %s basis names its inputs, every number its working', (basis) => {
    const bare: string[] = [];
    for (const each of review({ ...lineUp, project: { ...lineUp.project, basis } }).findings) {
      const judged = ['pass', 'fail', 'caution', 'note'].includes(each.verdict);
      if ((judged || each.value !== null) && each.check !== 'topology' && each.inputs.length === 0) bare.push(`${each.id}: no inputs`);
      if (each.value !== null && each.working.length === 0) bare.push(`${each.id}: no working`);
      if (each.source === '') bare.push(`${each.id}: no source`);
    }
    expect(bare).toEqual([]);
  });

  it('a table value names its table, an open finding says what or why', () => {
    for (const each of review(lineUp).findings) {
      for (const input of each.inputs) if (input.origin === 'looked up') expect(input.source).toMatch(/NEC|IEC|IEEE|NEMA/);
      if (each.verdict === 'open') expect([each.id, each.missing.length > 0 || each.text.length > 25]).toEqual([each.id, true]);
    }
  });
});
