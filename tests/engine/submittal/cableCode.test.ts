import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import jsqr from 'jsqr';
import { afterAll, describe, expect, it } from 'vitest';
import { type LineUp, load, review } from '../../../engine/index.ts';
import { cableCode, MODULE_mm } from '../../../engine/submittal/cableCode.ts';
import { htmlOf } from '../../../engine/submittal/html.ts';
import { issuedHash } from '../../../engine/submittal/issuedText.ts';
import { submittalPdf } from '../../../engine/submittal/pdf.ts';

/** The code on each field sheet, read by a decoder that shares nothing with what made it, from the picture that a printer would get. */

const font = (name: string) => new Uint8Array(readFileSync(new URL(`../../../public/fonts/${name}`, import.meta.url)));
const fonts = { regular: font('sans-400.woff'), semibold: font('sans-600.woff') };
const EXAMPLES = readdirSync(new URL('../../../examples/', import.meta.url));
const example = (name: string): LineUp => {
  const loaded = load(readFileSync(new URL(`../../../examples/${name}`, import.meta.url), 'utf8'));
  if (!loaded.ok) throw new Error(loaded.what);
  return loaded.lineUp;
};
// CommonJS, whose default is the decoder or holds it, by who loads it.
const decode = ('default' in jsqr ? jsqr.default : jsqr) as unknown as typeof import('jsqr').default;

interface Grey {
  readonly width: number;
  readonly height: number;
  readonly at: (x: number, y: number) => number;
}
function readPgm(path: string): Grey {
  const bytes = readFileSync(path);
  const head = /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(bytes.subarray(0, 40).toString('latin1'));
  if (!head) throw new Error(`${path} is no grey picture`);
  const [width, height] = [Number(head[1]), Number(head[2])];
  return { width, height, at: (x, y) => bytes[head[0].length + y * width + x] ?? 255 };
}
function decoded({ width, height, at }: Grey): string | undefined {
  const rgba = new Uint8ClampedArray(width * height * 4);
  for (let y = 0; y < height; y++) for (let x = 0; x < width; x++) rgba.fill(at(x, y), 4 * (y * width + x), 4 * (y * width + x) + 3);
  return decode(rgba, width, height)?.data;
}

const hasPoppler = spawnSync('pdftoppm', ['-v']).status === 0;
if (!hasPoppler)
  console.warn('\n*** SKIPPED: pdftoppm is not on this machine, so no code is read from paper. Install poppler-utils. ***\n');

describe.skipIf(!hasPoppler)('the code of a cable', () => {
  const folder = mkdtempSync(join(tmpdir(), 'copperline-'));
  afterAll(() => rmSync(folder, { recursive: true }));
  /** As a printer of 200 dots to the inch has it. */
  const sheets = (lineUp: LineUp, name: string): readonly Grey[] => {
    const file = join(folder, `${name}.pdf`);
    writeFileSync(file, submittalPdf(lineUp, review(lineUp), { fonts, date: '2026-11-25', sheets: ['field'] }));
    execFileSync('pdftoppm', ['-r', '200', '-gray', file, join(folder, name)]);
    return readdirSync(folder)
      .filter((each) => each.startsWith(`${name}-`) && each.endsWith('.pgm'))
      .sort()
      .map((each) => readPgm(join(folder, each)));
  };

  it.each(EXAMPLES)('says on every sheet of %s what the cable is, how it is landed, and of which line-up', (name) => {
    const lineUp = example(name);
    const tags = new Map(lineUp.elements.map((each) => [each.id, each.tag]));
    const cables = lineUp.cables.filter((each) => each.kind === 'cable');
    const said = sheets(lineUp, name.replace('.json', '')).map(decoded);
    expect(said).toHaveLength(cables.length);
    cables.forEach((cable, i) => {
      const lines = said[i]?.split('\n') ?? [];
      const [from, to] = [tags.get(cable.from.element ?? ''), tags.get(cable.to.element ?? '')];
      expect(lines.slice(0, 2)).toEqual([`Cable ${cable.tag}`, `From ${from} to ${to}`]);
      const all = said[i] ?? '';
      expect(all).toContain(`of 3 x ${cable.conductor.size ?? 'size not known'}, ${cable.conductor.metal ?? 'metal not known'}`);
      expect(all).toContain(cable.insulation.type ?? 'type not known');
      expect(all).toMatch(/^Construction: \S/m);
      expect(all).toContain(`Length, one way: ${cable.provenance?.length_m?.typed ?? (cable.length_m === undefined ? 'not known' : '')}`);
      for (const place of [from, to]) expect(all).toMatch(new RegExp(`^At ${place}: \\S`, 'm'));
      expect(lines.at(-1)).toBe(`Line-up ${issuedHash(lineUp)}`);
      // Letters that every reader of codes knows, and nothing that a phone would open.
      expect(all).toMatch(/^[\n\x20-\x7e]*$/);
      expect(all).not.toMatch(/:\/\/|^\w+:\S/);
    });
  });

  it('comes through names that are long, foreign or hostile, shortened with a sign', () => {
    const lineUp = example('heron-weir-pumps.json');
    const [cable] = lineUp.cables.filter((each) => each.kind === 'cable');
    if (!cable) throw new Error('no cable');
    const odd = `\u001b[31m\ud800電纜 ${'x'.repeat(150)}`;
    const own = { ...lineUp, cables: [{ ...cable, tag: odd }] };
    const [said] = sheets(own, 'odd').map(decoded);
    expect(said).toMatch(/^Cable \[31m\ufffd電纜 x{40,}\.\.\.\n/u);
    expect(said?.endsWith(issuedHash(own))).toBe(true);
  });

  it('has squares of at least 0.4 mm, and four of them blank all round', () => {
    expect(MODULE_mm).toBeGreaterThanOrEqual(0.4);
    const { items, w } = cableCode('Cable W-1');
    const squares = items.find((each) => each.t === 'path');
    const points = squares?.t === 'path' ? squares.d.flatMap((each) => (each[0] === 'C' ? [] : [each[1], each[2]])) : [];
    expect(Math.min(...points)).toBe(4 * MODULE_mm);
    expect(Math.max(...points)).toBeCloseTo(w - 4 * MODULE_mm, 9);
  });

  it('stands in the report too, with its text for those who do not see it', () => {
    const lineUp = example('heron-weir-pumps.json');
    const page = new TextDecoder().decode(htmlOf(lineUp, review(lineUp), { date: '2026-11-25', sheets: ['field'] }));
    expect(page.match(/A code that holds plain text, no address: Cable /g)).toHaveLength(3);
  });
});
