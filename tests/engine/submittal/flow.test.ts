import { readFileSync } from 'node:fs';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { describe, expect, it } from 'vitest';
import { words } from '../../../engine/drawing/displayList.ts';
import { table } from '../../../engine/submittal/content.ts';
import { Flow } from '../../../engine/submittal/flow.ts';

/** Where tables break: each sheet is read by itself, and nothing stands alone. */

const font = (name: string) => new Uint8Array(readFileSync(new URL(`../../../public/fonts/${name}`, import.meta.url)));
const fonts = { regular: font('sans-400.woff'), semibold: font('sans-600.woff') };

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

describe('what asks for little room', () => {
  const read = async (flow: Flow) => {
    const document = await getDocument({ data: new Uint8Array(flow.pen.doc.output('arraybuffer')), verbosity: 0 }).promise;
    const { items } = await (await document.getPage(1)).getTextContent();
    const places = new Map(items.flatMap((item) => ('str' in item ? [[item.str, item.transform as number[]] as const] : [])));
    await document.destroy();
    return (text: string) => ({ x: places.get(text)?.[4] ?? Number.NaN, y: places.get(text)?.[5] ?? Number.NaN });
  };
  it('the sentence of an empty table stands beside its title, on one line', async () => {
    const flow = new Flow(fonts, 420, 297);
    const none = table({ title: 'Nothing', columns: [{ head: 'Row', grow: 1 }], rows: [], empty: 'There is none.' });
    flow.section({ slug: 'a', title: 'All', blocks: [none, { ...none, title: 'More' }] });
    const at = await read(flow);
    expect(at('There is none.').y).toBeCloseTo(at('More').y, 1);
    expect(at('There is none.').x).toBeGreaterThan(at('More').x);
  });
  it('a picture and the one that belongs to it stand in one row', async () => {
    const flow = new Flow(fonts, 420, 297);
    const picture = (text: string, paired: boolean) => ({ items: [words(text, 0, 5)], w: 118, h: 70, says: text, paired });
    const pictures = ['1a', '1b', '2a', '2b'].map((each) => picture(each, each.endsWith('b')));
    flow.section({ slug: 'a', title: 'All', blocks: [{ t: 'pictures', title: 'Pairs', pictures }] });
    const at = await read(flow);
    expect(at('2a').y).toBe(at('2b').y);
    expect(at('2a').y).toBeLessThan(at('1a').y);
  });
});
