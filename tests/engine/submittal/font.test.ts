import { readdirSync, readFileSync } from 'node:fs';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { describe, expect, it } from 'vitest';
import { FACE, Pen, WRITTEN_AS } from '../../../engine/submittal/pen.ts';
import { unpackedFont } from '../../../engine/submittal/unpackedFont.ts';

/** One file of each weight serves screen and paper: what comes out of it for the PDF is whole. */

const ROOT = new URL('../../../', import.meta.url);
const font = (name: string) => new Uint8Array(readFileSync(new URL(`public/fonts/${name}`, ROOT)));
const NAMES = ['sans-400.woff', 'sans-600.woff'] as const;

/** OpenType specification, "Calculating checksums": the sum of all words of four bytes. */
const sumOf = (view: DataView, at: number, length: number): number => {
  let sum = 0;
  for (let i = at; i < at + length; i += 4) sum = (sum + view.getUint32(i)) >>> 0;
  return sum;
};

describe.each(NAMES)('%s, unpacked', (name) => {
  const plain = unpackedFont(font(name));
  const view = new DataView(plain.buffer);
  const entries = Array.from({ length: view.getUint16(4) }, (_, i) => {
    const at = 12 + 16 * i;
    return {
      tag: String.fromCharCode(...plain.subarray(at, at + 4)),
      sum: view.getUint32(at + 4),
      at: view.getUint32(at + 8),
      length: view.getUint32(at + 12),
    };
  });
  it('has every table with the sum that its maker wrote down', () => {
    expect(entries.map((each) => each.tag)).toEqual(expect.arrayContaining(['cmap', 'glyf', 'head', 'hhea', 'hmtx', 'loca', 'maxp']));
    expect(entries.map((each) => each.tag)).toEqual(entries.map((each) => each.tag).sort());
    for (const { tag, sum, at, length } of entries) {
      const own = sumOf(view, at, Math.ceil(length / 4) * 4);
      // The table that holds the sum of the whole is summed as if that were not there.
      expect(tag === 'head' ? (own - view.getUint32(at + 8)) >>> 0 : own, tag).toBe(sum);
    }
  });
  it('adds up to what the specification says of a whole file', () => expect(sumOf(view, 0, plain.length)).toBe(0xb1b0afba));
});

it('a file that is no font is refused, with where to look', () => {
  expect(() => unpackedFont(new Uint8Array(64))).toThrow('the fonts folder of this program is not whole');
});

it('has every letter that the program itself writes, and those of European languages', () => {
  const [regular, semibold] = NAMES.map(font) as [Uint8Array, Uint8Array];
  const pen = new Pen({ regular, semibold }, 100, 100);
  const source = readdirSync(new URL('engine', ROOT), { recursive: true, encoding: 'utf8' })
    .filter((path) => path.endsWith('.ts'))
    .map((path) => readFileSync(new URL(`engine/${path}`, ROOT), 'utf8'))
    .join('');
  // Sketches in comments are drawn with lines, and cells are guarded against signs in full width.
  const letters = [...new Set(source.replaceAll(/[\s─-╿＋-＠]/gu, ''))].join('');
  expect(letters).toContain('Ω');
  expect(pen.safe(letters)).toBe(letters.normalize('NFC'));
  const foreign = 'ÆØÅæøå ÄÖÜäöüß ÇĞİŞçğış ĄĆĘŁŃÓŚŹŻąćęłńóśźż ČĎĚŇŘŠŤŮŽ ĂÂÎȘȚ ĀĒĢĪĶĻŅŪ ŐŰ ÞÐ ÑÍÚ ΑΒΓΔΩαβγδω БГДЖЩЫЯбгджщыя ІЇЄҐ Ђћџ Ếộữ';
  expect(pen.safe(foreign)).toBe(foreign);
});

it.each(['normal', 'bold'])('two letters of one glyph are written as one of them, in %s', async (style) => {
  const [regular, semibold] = NAMES.map(font) as [Uint8Array, Uint8Array];
  const pen = new Pen({ regular, semibold }, 100, 100);
  pen.doc.setFont(FACE, style);
  const { metadata } = pen.doc.getFont() as unknown as { metadata: { characterToGlyph(code: number): number } };
  const byGlyph = new Map<number, string[]>();
  for (let code = 0x20; code <= 0xffff; code++) {
    const glyph = metadata.characterToGlyph(code);
    if (glyph > 0) byGlyph.set(glyph, [...(byGlyph.get(glyph) ?? []), String.fromCharCode(code)]);
  }
  const twins = [...byGlyph.values()].flatMap(([first, ...others]) => others.map((each) => [each, first]));
  expect(Object.fromEntries(twins)).toEqual(WRITTEN_AS);
});

async function textOf(pen: Pen): Promise<readonly string[]> {
  const document = await getDocument({ data: new Uint8Array(pen.doc.output('arraybuffer')), useSystemFonts: false, verbosity: 0 }).promise;
  const { items } = await (await document.getPage(1)).getTextContent({ disableNormalization: true });
  await document.destroy();
  return items.flatMap((item) => ('str' in item && item.str !== '' ? [item.str] : []));
}

it('one soft hyphen leaves all hyphens to be found', async () => {
  const [regular, semibold] = NAMES.map(font) as [Uint8Array, Uint8Array];
  const pen = new Pen({ regular, semibold }, 100, 100);
  pen.text('IEC 60364-5-54', 10, 10, 3);
  pen.text('soft\u00adly, 5\u00a0V', 10, 20, 3);
  expect(await textOf(pen)).toEqual(['IEC 60364-5-54', 'soft-ly, 5 V']);
});

it('what has room for one line is written in one, whatever lines it has', async () => {
  const [regular, semibold] = NAMES.map(font) as [Uint8Array, Uint8Array];
  const pen = new Pen({ regular, semibold }, 100, 100);
  pen.fitted('  J. Doe\n  and\n\nothers', 10, 10, 80, 4);
  pen.text('M-1\nfan', 10, 20, 4);
  expect(await textOf(pen)).toEqual(['J. Doe and others', 'M-1 fan']);
});
