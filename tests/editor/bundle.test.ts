import { gzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { builtFiles, chunksOf, kept, reached } from './builtFiles.ts';

/** How much script a browser must fetch. Counted in compressed bytes of a real build. */

const BUDGET_START_kB = 220;
// The start page is what the budget is about; the sheet comes after it, with the wave solver and its pictures.
const BUDGET_SHEET_kB = 300;
const BUDGET_KEPT_kB = 800;
/** What runs on threads of its own. */
const THREADS = ['packageWorker', 'reviewWorker', 'sizingWorker'] as const;

describe('what is fetched', async () => {
  const files = await builtFiles();
  const chunks = chunksOf(files);
  const entry = chunks.find((each) => each.isEntry && each.name === 'index')?.fileName ?? '';
  const page = chunks.find((each) => each.name === 'page')?.fileName ?? '';
  const first = chunks.find((each) => each.name === 'Start')?.fileName ?? '';
  const sheet = chunks.find((each) => each.name === 'Workspace')?.fileName ?? '';
  const weigh = (names: ReadonlySet<string>): number =>
    [...names].reduce((sum, name) => sum + gzipSync(chunks.find((each) => each.fileName === name)?.code ?? '').length / 1000, 0);
  const start = weigh(reached(chunks, [entry, page, first]));
  const both = weigh(reached(chunks, [entry, page, sheet]));

  it(`before the first page is there: at most ${BUDGET_START_kB} kB`, () => {
    expect(entry).not.toBe('');
    expect(page).not.toBe('');
    expect(first).not.toBe('');
    expect(start).toBeLessThanOrEqual(BUDGET_START_kB);
  });
  it(`with the sheet: at most ${BUDGET_SHEET_kB} kB, and the PDF writer is not in it`, () => {
    expect(sheet).not.toBe('');
    expect(both).toBeLessThanOrEqual(BUDGET_SHEET_kB);
    const all = reached(chunks, [entry, page, sheet]);
    expect([...all].some((name) => chunks.find((each) => each.fileName === name)?.moduleIds.some((id) => id.includes('jspdf')))).toBe(
      false,
    );
  });
  it(`in all, fonts and icons too, for work without a net: at most ${BUDGET_KEPT_kB} kB`, () => {
    const all = kept(files);
    expect(all.length).toBeGreaterThan(80);
    expect(all.reduce((sum, each) => sum + gzipSync(each).length / 1000, 0)).toBeLessThanOrEqual(BUDGET_KEPT_kB);
  });
  it('holds nothing twice: threads share the parts of the page', () => {
    expect(chunks.filter((each) => each.isEntry).map((each) => each.name)).toEqual(expect.arrayContaining([...THREADS]));
    expect(files.filter((each) => each.type === 'asset' && each.fileName.endsWith('.js'))).toEqual([]);
    const modules = chunks.flatMap((each) => each.moduleIds);
    expect(modules.length).toBe(new Set(modules).size);
  });
  it.each(THREADS)('to a %s nothing that wants a page', (name) => {
    const entry = chunks.find((each) => each.name === name)?.fileName ?? '';
    expect(entry).not.toBe('');
    const modules = [...reached(chunks, [entry], 'late too')].flatMap(
      (file) => chunks.find((each) => each.fileName === file)?.moduleIds ?? [],
    );
    expect(modules.length).toBeGreaterThan(50);
    expect(modules.filter((id) => /preload-helper|node_modules\/react|\.tsx$|\.css$/.test(id))).toEqual([]);
  });
  it('says how much that is', () => console.info(`start ${start.toFixed(1)} kB, with the sheet ${both.toFixed(1)} kB, compressed`));
});
