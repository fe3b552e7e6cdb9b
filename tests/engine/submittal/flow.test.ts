import { readFileSync } from 'node:fs';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { describe, expect, it } from 'vitest';
import { table } from '../../../engine/submittal/content.ts';
import { Flow } from '../../../engine/submittal/flow.ts';

/** Where tables break: each sheet is read by itself, and nothing stands alone. */

const font = (name: string) => new Uint8Array(readFileSync(new URL(`../../../public/fonts/${name}`, import.meta.url)));
const fonts = { regular: font('SourceSans3_400Regular.ttf'), semibold: font('SourceSans3_600SemiBold.ttf') };

/** Numbers of the rows on each sheet. */
async function rowsOn(rows: number, w: number, folds: boolean): Promise<readonly (readonly number[])[]> {
  const flow = new Flow(fonts, w, 297);
  const columns = [
    { head: 'Row', w: 30 },
    { head: 'What', grow: 1 },
  ] as const;
  const own = Array.from({ length: rows }, (_, i) => [`n${i + 1}`, i % 7 === 3 ? 'two\nlines' : 'one']);
  flow.section({ slug: 'a', title: 'Long', blocks: [table({ title: 'Long', columns, rows: own, empty: '', folds })] });
  const document = await getDocument({ data: new Uint8Array(flow.pen.doc.output('arraybuffer')), verbosity: 0 }).promise;
  const found: (readonly number[])[] = [];
  for (let i = 1; i <= document.numPages; i++) {
    const { items } = await (await document.getPage(i)).getTextContent();
    found.push(
      items.flatMap((item) => ('str' in item && /^n\d+$/.test(item.str) ? [Number(item.str.slice(1))] : [])).sort((a, b) => a - b),
    );
  }
  await document.destroy();
  expect(found).toHaveLength(flow.sheets.length);
  return found;
}
const from = (first: number, last: number): readonly number[] => Array.from({ length: last - first + 1 }, (_, i) => first + i);

describe('a table that is longer than a sheet', () => {
  it.each([
    [420, true],
    [594, true],
    [210, true],
    [420, false],
  ] as const)('of %d mm, folded: %s, holds on each sheet the rows that follow those of the one before', async (w, folds) => {
    const sheets = await rowsOn(300, w, folds);
    expect(sheets.length).toBeGreaterThan(1);
    let next = 1;
    for (const rows of sheets) {
      expect(rows).toEqual(from(next, next + rows.length - 1));
      next += rows.length;
    }
    expect(next).toBe(301);
  });
  it('leaves no row alone on the last of them', async () => {
    for (let rows = 30; rows < 60; rows++) expect((await rowsOn(rows, 420, false)).at(-1)?.length).toBeGreaterThan(1);
  });
});
