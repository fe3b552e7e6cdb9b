import { execFileSync, spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { getDocument, type PDFDocumentProxy } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { afterAll, describe, expect, it } from 'vitest';
import { type LineUp, load, type Review, review, type SheetSize, save, sayOf } from '../../../engine/index.ts';
import { figure } from '../../../engine/submittal/content.ts';
import { matrix } from '../../../engine/submittal/matrix.ts';
import { openItems } from '../../../engine/submittal/openTables.ts';
import { submittalPdf } from '../../../engine/submittal/pdf.ts';
import { schedulesOf } from '../../../engine/submittal/schedules.ts';
import { EVERY_SHEET, SHEET_KINDS, type SheetKind, usualSheets } from '../../../engine/submittal/sections.ts';
import { SHEETS, STRIP_mm } from '../../../engine/submittal/sheet.ts';

/** The set of sheets as a reader finds it: all that is known is in it, nothing overlaps, and what leads somewhere leads there. */

const font = (name: string) => new Uint8Array(readFileSync(new URL(`../../../public/fonts/${name}`, import.meta.url)));
const fonts = { regular: font('sans-400.woff'), semibold: font('sans-600.woff') };

const example = (name: string): LineUp => {
  const loaded = load(readFileSync(new URL(`../../../examples/${name}.json`, import.meta.url), 'utf8'));
  if (!loaded.ok) throw new Error(loaded.what);
  return loaded.lineUp;
};
const made = (lineUp: LineUp, answer: Review, sheetSize: SheetSize, sheets: readonly SheetKind[] = EVERY_SHEET): Uint8Array =>
  submittalPdf(lineUp, answer, { fonts, date: '2026-11-25', sheetSize, sheets });
const opened = (bytes: Uint8Array): Promise<PDFDocumentProxy> =>
  getDocument({ data: bytes.slice(), useSystemFonts: false, verbosity: 0 }).promise;

interface Said {
  readonly text: string;
  readonly x: number;
  readonly y: number;
  readonly w: number;
  readonly h: number;
  readonly font: string;
}
/** Texts of a sheet in millimetres from its upper left corner: the box of capitals, without room for descenders. */
async function textsOf(document: PDFDocumentProxy, number: number): Promise<readonly Said[]> {
  const page = await document.getPage(number);
  const { height } = page.getViewport({ scale: 1 });
  const mm = 25.4 / 72;
  return (await page.getTextContent()).items.flatMap((item) => {
    if (!('str' in item) || item.str.trim() === '') return [];
    const size = Math.hypot(Number(item.transform[0]), Number(item.transform[1]));
    const [x, y] = [Number(item.transform[4]), Number(item.transform[5])];
    return [
      { text: item.str, x: x * mm, y: (height - y - 0.66 * size) * mm, w: item.width * mm, h: 0.66 * size * mm, font: item.fontName },
    ];
  });
}
async function paperOf(document: PDFDocumentProxy, number: number): Promise<{ readonly w: number; readonly h: number }> {
  const { width, height } = (await document.getPage(number)).getViewport({ scale: 1 });
  return { w: (width * 25.4) / 72, h: (height * 25.4) / 72 };
}
const bare = (text: string): string => text.normalize('NFKC').replace(/\s+/gu, '');
const overlap = (a: Said, b: Said): boolean =>
  a.x + 0.2 < b.x + b.w && b.x + 0.2 < a.x + a.w && a.y + 0.1 < b.y + b.h && b.y + 0.1 < a.y + a.h;

const EXAMPLES = readdirSync(new URL('../../../examples/', import.meta.url)).map((file) => file.replace('.json', ''));
const BORDER = 12.7;

describe.each([
  ['heron-weir-pumps', 'ANSI-B', 1],
  ['heron-weir-pumps', 'A4', 1],
  ['fennel-lane-capping', 'A3', 1],
  ['fennel-lane-capping', 'ANSI-D', 2],
  ['fennel-lane-capping', 'ANSI-A', 1],
  ['quillback-hall-air', 'ANSI-A', 1],
  ['alder-mill-fan', 'A3', 1],
  ['basalt-ridge-crusher', 'ANSI-B', 1],
  ['basalt-ridge-crusher', 'A1', 2],
  ['heron-weir-pumps', 'ANSI-D', 2],
  ['frostmere-cold-store', 'ANSI-B', 1],
  ['vantage-cleanroom-air', 'A3', 1],
] as const)('%s on %s, its one-line %f times as large', async (name, size, times) => {
  const lineUp = example(name);
  const say = sayOf(lineUp);
  const answer = review(lineUp);
  const document = await opened(made(lineUp, answer, size));
  const sheets = await Promise.all(Array.from({ length: document.numPages }, (_, i) => textsOf(document, i + 1)));
  // Field sheets and forms are on office paper.
  const papers = await Promise.all(sheets.map(async (_, i) => paperOf(document, i + 1)));
  const pages = sheets.map((texts) => bare(texts.map((each) => each.text).join('')));
  afterAll(() => document.destroy());

  it('says every tag, every finding and every number of the schedules', () => {
    const all = pages.join('');
    for (const part of lineUp.elements) expect(all).toContain(bare(part.tag));
    for (const cable of lineUp.cables) if (cable.kind === 'cable') expect(all).toContain(bare(cable.tag));
    expect(answer.findings.filter((each) => !all.includes(bare(each.text))).map((each) => each.text)).toEqual([]);
    const lost = schedulesOf(lineUp, answer)
      .filter((each) => each.slug === 'motors' || each.slug === 'drives')
      .flatMap((each) => each.rows.flatMap((row) => row.filter((cell) => cell !== null)))
      .filter((cell) => !all.includes(bare(typeof cell === 'number' ? figure(cell) : cell)));
    expect(lost).toEqual([]);
    for (const each of answer.findings) for (const step of each.working) expect(all).toContain(bare(step));
  });

  it('no text is set smaller than can be read: capitals of 2.5 mm', () => {
    for (const texts of sheets) for (const each of texts) expect(each.h).toBeGreaterThan(2.49);
  });
  it('a large sheet has a one-line that is read at half its size, with its links on its tags', async () => {
    const at = sheets.findIndex((texts, i) => i > 0 && texts.some((each) => each.text === say('One-line')));
    const said = sheets[at]?.find(({ text }) => lineUp.elements.some((each) => each.tag === text));
    if (!said) throw new Error('no tag on the one-line');
    expect(said.h / 2.5).toBeCloseTo(times, 1);
    const mm = 25.4 / 72;
    const height = papers[at]?.h ?? 0;
    const links = (await (await document.getPage(at + 1)).getAnnotations()).map(({ rect }) => rect.map((each: number) => each * mm));
    const [x, y] = [said.x + said.w / 2, height - said.y - said.h / 2];
    expect(links.some(([left, low, right, high]) => left < x && x < right && low < y && y < high)).toBe(true);
  });
  it('no text leaves its border or stands on another', () => {
    const wrong: string[] = [];
    sheets.forEach((texts, i) => {
      const { w = 0, h = 0 } = papers[i] ?? {};
      for (const a of texts) {
        // Letters and numbers of the zones stand outside the border.
        const margin = /^[A-Z\d]{1,2}$/.test(a.text) ? 0 : BORDER;
        if (a.x < margin || a.y < margin || a.x + a.w > w - margin || a.y + a.h > h - margin)
          wrong.push(`sheet ${i + 1}: “${a.text}” leaves it`);
        for (const b of texts) if (a !== b && a.x <= b.x && overlap(a, b)) wrong.push(`sheet ${i + 1}: “${a.text}” on “${b.text}”`);
      }
    });
    expect(wrong).toEqual([]);
  });

  it('no head stands at the foot of a sheet without what it is the head of', () => {
    // Heads are set in the heavy face alone, and most words in the other.
    const fonts = sheets.flat().map(({ font }) => font);
    const [usual] = [...new Set(fonts)].sort(
      (a, b) => fonts.filter((each) => each === b).length - fonts.filter((each) => each === a).length,
    );
    const wrong = sheets.flatMap((texts, i) => {
      const foot = (papers[i]?.h ?? 0) - BORDER - STRIP_mm;
      // Cover and one-line are set by hand round a title block.
      if (pages[i]?.includes(bare('Approved by'))) return [];
      const body = texts.filter((each) => each.y + each.h < foot && each.x > BORDER && each.y > BORDER);
      const last = Math.max(...body.map(({ y, h }) => y + h));
      const line = body.filter(({ y, h }) => last - y - h < 1);
      return line.some(({ font }) => font === usual) ? [] : [`sheet ${i + 1}: ${line.map(({ text }) => text).join(' ')}`];
    });
    expect(wrong).toEqual([]);
  });

  it('the check matrix stands on one sheet, where one can hold it', async () => {
    const [own] = matrix(answer, SHEETS[size].w > 300);
    const outline = (await document.getOutline()) ?? [];
    const dest = outline.find((each) => each.title === SHEET_KINDS.matrix)?.dest;
    const at = await document.getPageIndex((Array.isArray(dest) ? dest[0] : null) as Parameters<PDFDocumentProxy['getPageIndex']>[0]);
    const on = own?.rows.map(([check = '']) => pages[at]?.includes(bare(say(check)))) ?? [];
    if (SHEETS[size].w > 300) expect(on).toEqual(on.map(() => true));
  });

  it('bookmarks lead to the sheets where their titles stand, and so does the list on the cover', async () => {
    const outline = (await document.getOutline()) ?? [];
    // None of them holds a variant, or anything that was recorded on site.
    const kinds = EVERY_SHEET.filter((each) => each !== 'variants' && each !== 'built').map((each) => say(SHEET_KINDS[each]));
    expect(outline.map((each) => each.title)).toEqual(kinds);
    const pageOf = async (dest: unknown): Promise<number> =>
      document.getPageIndex((Array.isArray(dest) ? dest[0] : null) as Parameters<PDFDocumentProxy['getPageIndex']>[0]);
    const flat = outline.flatMap((each) => [each, ...(each.items as typeof outline)]);
    expect(flat.length).toBeGreaterThan(kinds.length + 10);
    for (const { title, dest } of flat) {
      const at = await pageOf(dest);
      // At the head of it or above, where readers stop.
      expect((Number(dest?.[3]) * 25.4) / 72).toBeGreaterThan((papers[at]?.h ?? 0) - 0.1);
      expect(pages[at]).toContain(bare(title));
      if (kinds.includes(title)) expect(pages[0]).toContain(bare(`${at + 1}${title}`));
    }
    expect(await document.getPageLabels()).toEqual(pages.map((_, i) => `${i + 1}`));
  });

  it('a tag on the one-line leads to its calculation', async () => {
    const sheet = pages.findIndex(
      (text) => text.includes(bare('Document type')) && text.includes(bare(say(SHEET_KINDS.oneline))) && !text.includes(bare('SHA-256')),
    );
    const links = (await (await document.getPage(sheet + 1)).getAnnotations()).filter((each) => each.subtype === 'Link');
    // The first of several sheets may hold no more than one branch.
    expect(links.length).toBeGreaterThanOrEqual(3);
    for (const link of links) {
      const at = await document.getPageIndex(link.dest[0]);
      expect(pages[at]).toContain(bare('Calculation of'));
    }
  });

  it('names on its cover the hash of the very file that is saved', () => {
    expect(pages[0]).toContain(createHash('sha256').update(save(lineUp)).digest('hex'));
  });
});

describe('what is left blank in the title block', () => {
  const lineUp = example('heron-weir-pumps');
  const blanks = (project: LineUp['project']) =>
    openItems({ ...lineUp, project }, review(lineUp)).rows.filter(([ask]) => ask === 'project');
  it('stands among the open items, by name, and what is filled in does not', () => {
    expect(blanks(lineUp.project).map((row) => row[1])).toEqual(['Owner, Created by, Checked by, Approved by']);
    expect(blanks({ ...lineUp.project, owner: 'O', createdBy: 'C', checkedBy: 'D', approvedBy: 'A' })).toEqual([]);
  });
});

describe('choice of sheets', () => {
  const lineUp = example('heron-weir-pumps');
  const answer = review(lineUp);
  it.each(EXAMPLES)('%s: one field sheet a cable, on the smallest paper and on that of every office', async (name) => {
    const own = example(name);
    for (const [size, office] of [
      ['A4', 'A4'],
      ['ANSI-A', 'ANSI-A'],
      ['A1', 'A4'],
      ['ANSI-D', 'ANSI-A'],
    ] as const) {
      const document = await opened(made(own, review(own), size, ['field']));
      expect(document.numPages).toBe(own.cables.filter((each) => each.kind === 'cable').length);
      for (let i = 1; i <= document.numPages; i++) {
        const { w, h } = await paperOf(document, i);
        expect([w, h].map((each) => Math.round(each * 10) / 10)).toEqual([SHEETS[office].w, SHEETS[office].h]);
      }
      await document.destroy();
    }
  });
  it('nobody asked: with calculations, without forms and without a matrix of one run', () => {
    expect(usualSheets(lineUp, answer)).not.toContain('matrix');
    expect(usualSheets(lineUp, answer)).toContain('calculations');
    const capping = example('fennel-lane-capping');
    expect(usualSheets(capping, review(capping))).toContain('matrix');
    for (const each of ['field', 'commissioning', 'revisions', 'variants', 'built'] as const)
      expect(usualSheets(lineUp, answer)).not.toContain(each);
  });
  it('without the calculations, what passes stands among the findings', async () => {
    const document = await opened(made(lineUp, answer, 'A3', ['findings']));
    const texts = await Promise.all(Array.from({ length: document.numPages }, (_, i) => textsOf(document, i + 1)));
    const all = bare(
      texts
        .flat()
        .map((each) => each.text)
        .join(''),
    );
    expect(answer.findings.filter((each) => !all.includes(bare(each.text)))).toEqual([]);
    await document.destroy();
  });
});

const hasQpdf = spawnSync('qpdf', ['--version']).status === 0;
if (!hasQpdf)
  console.warn(
    '\n*** SKIPPED: qpdf is not on this machine, so nothing but readers looks at the build of the files. Install the package qpdf. ***\n',
  );

describe.skipIf(!hasQpdf)('the build of the file', () => {
  const folder = mkdtempSync(join(tmpdir(), 'copperline-'));
  afterAll(() => rmSync(folder, { recursive: true }));
  it.each(EXAMPLES)('of %s is sound, names its language, and holds nothing that runs, starts or hides', (name) => {
    const lineUp = example(name);
    const file = join(folder, `${name}.pdf`);
    writeFileSync(file, made(lineUp, review(lineUp), 'A3'));
    expect(execFileSync('qpdf', ['--check', file], { encoding: 'utf8' })).toContain('No syntax or stream encoding errors found');
    const json = execFileSync('qpdf', ['--json=2', '--json-key=qpdf', file], { encoding: 'utf8', maxBuffer: 1e9 });
    // A number may end in its point in the one format and not in the other.
    const { qpdf } = JSON.parse(json.replaceAll(/(\d)\.(?=[\s,\]])/g, '$1'));
    const keys = new Set<string>();
    const collect = (value: unknown): void => {
      if (typeof value === 'string') keys.add(value);
      else if (Array.isArray(value)) value.forEach(collect);
      else if (value && typeof value === 'object')
        for (const [key, own] of Object.entries(value)) {
          keys.add(key);
          collect(own);
        }
    };
    collect(qpdf);
    for (const each of ['/JavaScript', '/JS', '/Launch', '/EmbeddedFile', '/EmbeddedFiles', '/AA', '/URI', '/SubmitForm', '/AcroForm'])
      expect(keys).not.toContain(each);
    expect(keys).toContain('/Lang');
    expect(keys).toContain('u:en');
  });
});

const hasPoppler = spawnSync('pdftotext', ['-v']).status === 0;
if (!hasPoppler)
  console.warn(
    '\n*** SKIPPED: pdftotext and pdftoppm are not on this machine, so no second reader looks at the sheets. Install the package poppler-utils. ***\n',
  );

describe.skipIf(!hasPoppler)('a second reader', () => {
  const folder = mkdtempSync(join(tmpdir(), 'copperline-'));
  afterAll(() => rmSync(folder, { recursive: true }));
  it.each(EXAMPLES)('finds every font of %s embedded, with letters that can be copied', (name) => {
    const lineUp = example(name);
    const file = join(folder, `${name}.pdf`);
    writeFileSync(file, made(lineUp, review(lineUp), 'A3'));
    const [, rule = '', ...fonts] = execFileSync('pdffonts', [file], { encoding: 'utf8' }).trimEnd().split('\n');
    // emb, sub and uni, under their rules.
    const at = [...rule.matchAll(/-+/g)].map((match) => match.index);
    expect(fonts.length).toBe(2);
    for (const line of fonts) expect([line.slice(at[3], at[4]).trim(), line.slice(at[5], at[6]).trim()]).toEqual(['yes', 'yes']);
    expect(execFileSync('pdfinfo', [file], { encoding: 'utf8' })).toContain(lineUp.project.title);
  });
  it('finds every finding, and ink on every sheet without colour', () => {
    const lineUp = example('heron-weir-pumps');
    const answer = review(lineUp);
    const file = join(folder, 'set.pdf');
    writeFileSync(file, made(lineUp, answer, 'ANSI-B'));
    // In the order in which it was written: a cell's lines follow one another.
    const text = bare(execFileSync('pdftotext', ['-raw', file, '-'], { encoding: 'utf8', maxBuffer: 1e8 }));
    for (const each of answer.findings) expect(text).toContain(bare(each.text));
    execFileSync('pdftoppm', ['-r', '20', '-gray', file, join(folder, 'sheet')]);
    const pages = Number(/Pages:\s+(\d+)/.exec(execFileSync('pdfinfo', [file], { encoding: 'utf8' }))?.[1]);
    for (let i = 1; i <= pages; i++) {
      const picture = readFileSync(join(folder, `sheet-${`${i}`.padStart(`${pages}`.length, '0')}.pgm`));
      const dark = picture.subarray(-picture.length + 20).reduce((sum, grey) => sum + (grey < 160 ? 1 : 0), 0);
      expect(dark).toBeGreaterThan(200);
    }
  });
});
