import { gzipSync } from 'node:zlib';
import { build, type Rolldown } from 'vite';
import { describe, expect, it, vi } from 'vitest';

/** How much script a browser must fetch. Counted in compressed bytes of a real build. */

const BUDGET_START_kB = 220;
// The start page is what the budget is about; the sheet comes after it, with the wave solver and its pictures.
const BUDGET_SHEET_kB = 300;

const built = async (): Promise<readonly Rolldown.OutputChunk[]> => {
  // Under a test runner React would come in its larger development form.
  vi.stubEnv('NODE_ENV', 'production');
  const result = (await build({ logLevel: 'silent', build: { write: false } })) as Rolldown.RolldownOutput | Rolldown.RolldownOutput[];
  vi.unstubAllEnvs();
  const outputs = Array.isArray(result) ? result : [result];
  return outputs.flatMap((each) => each.output).filter((each) => each.type === 'chunk');
};

const reached = (chunks: readonly Rolldown.OutputChunk[], from: readonly string[]): ReadonlySet<string> => {
  const seen = new Set<string>();
  const visit = (name: string): void => {
    if (seen.has(name)) return;
    seen.add(name);
    for (const next of chunks.find((each) => each.fileName === name)?.imports ?? []) visit(next);
  };
  from.forEach(visit);
  return seen;
};

describe('what is fetched', async () => {
  const chunks = await built();
  const entry = chunks.find((each) => each.isEntry)?.fileName ?? '';
  const sheet = chunks.find((each) => each.name === 'Workspace')?.fileName ?? '';
  const weigh = (names: ReadonlySet<string>): number =>
    [...names].reduce((sum, name) => sum + gzipSync(chunks.find((each) => each.fileName === name)?.code ?? '').length / 1000, 0);
  const start = weigh(reached(chunks, [entry]));
  const both = weigh(reached(chunks, [entry, sheet]));

  it(`before the first page is there: at most ${BUDGET_START_kB} kB`, () => {
    expect(entry).not.toBe('');
    expect(start).toBeLessThanOrEqual(BUDGET_START_kB);
  });
  it(`with the sheet: at most ${BUDGET_SHEET_kB} kB, and the PDF writer is not in it`, () => {
    expect(sheet).not.toBe('');
    expect(both).toBeLessThanOrEqual(BUDGET_SHEET_kB);
    const all = reached(chunks, [entry, sheet]);
    expect([...all].some((name) => chunks.find((each) => each.fileName === name)?.moduleIds.some((id) => id.includes('jspdf')))).toBe(
      false,
    );
  });
  it('says how much that is', () => console.info(`start ${start.toFixed(1)} kB, with the sheet ${both.toFixed(1)} kB, compressed`));
});
