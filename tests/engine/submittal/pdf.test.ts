import { readFileSync } from 'node:fs';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { describe, expect, it } from 'vitest';
import { review } from '../../../engine/index.ts';
import { numbered } from '../../../engine/submittal/findingTables.ts';
import type { Step } from '../../../engine/submittal/formats.ts';
import { submittalPdf } from '../../../engine/submittal/pdf.ts';
import { EVERY_SHEET } from '../../../engine/submittal/sections.ts';
import { threeRuns } from '../drawing/threeRuns.ts';
import { manyRuns } from '../manyRuns.ts';

const font = (name: string) => new Uint8Array(readFileSync(new URL(`../../../public/fonts/${name}`, import.meta.url)));
const fonts = { regular: font('sans-400.woff'), semibold: font('sans-600.woff') };
const options = { fonts, date: '2026-11-25', sheets: EVERY_SHEET } as const;

interface Read {
  readonly pages: readonly string[];
  readonly sizes: readonly (readonly [number, number])[];
  readonly smallest_pt: number;
  readonly title: unknown;
  readonly outline: readonly string[];
}

/** Without white space, since a table breaks a sentence over lines; NFKC, since two micro signs share one glyph. */
const bare = (text: string): string => text.normalize('NFKC').replace(/\s+/gu, '');

async function read(bytes: Uint8Array): Promise<Read> {
  const document = await getDocument({ data: bytes.slice(), useSystemFonts: false, verbosity: 0 }).promise;
  const pages: string[] = [];
  const sizes: [number, number][] = [];
  let smallest_pt = Infinity;
  for (let n = 1; n <= document.numPages; n++) {
    const page = await document.getPage(n);
    const { width, height } = page.getViewport({ scale: 1 });
    sizes.push([width, height]);
    const content = await page.getTextContent();
    let text = '';
    for (const item of content.items) {
      if (!('str' in item)) continue;
      text += item.str;
      if (item.str.trim() !== '') smallest_pt = Math.min(smallest_pt, Math.hypot(Number(item.transform[0]), Number(item.transform[1])));
    }
    pages.push(bare(text));
  }
  const { info } = await document.getMetadata();
  const outline = ((await document.getOutline()) ?? []).map((each) => each.title);
  await document.destroy();
  return { pages, sizes, smallest_pt, title: (info as Record<string, unknown>).Title, outline };
}

describe('submittal', () => {
  const lineUp = threeRuns();
  const answer = review(lineUp);

  it('says every finding and shows every tag', async () => {
    const { pages } = await read(submittalPdf(lineUp, answer, options));
    const all = pages.join('');
    const cut = answer.findings.filter((each) => !all.includes(bare(each.text)));
    expect(cut.map((each) => each.text)).toEqual([]);
    const drawn = (await read(submittalPdf(lineUp, answer, { ...options, sheets: ['oneline'] }))).pages.join('');
    for (const part of lineUp.elements) expect(drawn).toContain(bare(part.tag));
    for (const cable of lineUp.cables.filter((each) => each.kind === 'cable')) expect(drawn).toContain(bare(cable.tag));
    expect(numbered(answer).size).toBeGreaterThan(3);
  });

  it('carries project, number, revision, sheet of sheets and maker on every sheet', async () => {
    const { pages, title, outline, smallest_pt } = await read(submittalPdf(lineUp, answer, options));
    pages.forEach((page, index) => {
      for (const text of [lineUp.project.title, 'E-1', 'Revision', 'Copperline 0.1.0', `${index + 1} of ${pages.length}`])
        expect(page).toContain(bare(text));
    });
    expect(title).toBe(lineUp.project.title);
    expect(outline).toContain('Cable schedule');
    // 2.5 mm capitals: 3.8 mm of this face.
    expect(smallest_pt).toBeGreaterThan((3.79 * 72) / 25.4);
    for (const subject of [
      'Arc flash',
      'Coordination',
      'Hazardous areas',
      'Fire pumps',
      'Functional safety',
      'Medium voltage',
      'Seismic',
      'Insulation test',
    ])
      expect(pages.join('')).toContain(bare(subject));
  });

  it('loses no character: signs are kept, and what the face lacks becomes a box', async () => {
    const odd = { ...lineUp, project: { ...lineUp.project, title: 'Ω µ ° ² ≤ ≥ √ − 電 😀 end' } };
    const { pages } = await read(submittalPdf(odd, answer, options));
    expect(pages[0]).toContain(bare('Ω µ ° ² ≤ ≥ √ − □ □ end'));
  });

  it('says how far it is: every section before it is set, and the end', () => {
    const steps: Step[] = [];
    submittalPdf(lineUp, answer, { ...options, sheets: ['cover', 'oneline', 'cables'], onStep: (step) => steps.push(step) });
    expect(steps.map((each) => each.what)).toEqual(['Cover', 'One-line', 'Cable schedule', 'one file of all sheets']);
    expect(steps.map((each) => [each.done, each.of])).toEqual([0, 1, 2, 3].map((done) => [done, 4]));
  });

  it('gives the same bytes twice', () => {
    expect(
      Buffer.from(submittalPdf(threeRuns(), review(threeRuns()), options)).equals(Buffer.from(submittalPdf(lineUp, answer, options))),
    ).toBe(true);
  });

  it.each([
    ['A3', 420, 297],
    ['ANSI-D', 863.6, 558.8],
    ['A4', 210, 297],
  ] as const)('takes %s', async (sheetSize, w, h) => {
    const { sizes, pages } = await read(submittalPdf(lineUp, answer, { ...options, sheetSize }));
    // What is taken to the place of work is on paper that every office has.
    const office = sheetSize === 'ANSI-D' ? [215.9, 279.4] : [210, 297];
    const onSite = pages.findIndex((page) => page.startsWith(bare('Commissioning form')));
    expect(onSite).toBeGreaterThan(10);
    for (const [width, height] of sizes.slice(onSite))
      expect([width, height].map((pt) => Math.round((pt / 72) * 254) / 10)).toEqual(office);
    for (const [width, height] of sizes.slice(0, onSite)) {
      expect(width).toBeCloseTo((w * 72) / 25.4, 0);
      expect(height).toBeCloseTo((h * 72) / 25.4, 0);
    }
    for (const part of lineUp.elements) expect(pages.join('')).toContain(bare(part.tag));
  });

  it('prints the limits of the project and the checks it switches off before the findings, and the reason in both', async () => {
    const project = {
      ...lineUp.project,
      limits: { leadDrop_pct: 2 },
      checks: { harmonics: { off: true, reason: 'a study of the site is at hand' } },
    };
    const own = { ...lineUp, project };
    const { pages } = await read(submittalPdf(own, review(own), options));
    const all = pages.join('');
    expect(all).toContain(bare('Limits of this project: drop in a motor lead 2 %.'));
    expect(all).toContain(bare('Switched off for this project: harmonics (a study of the site is at hand).'));
    expect(all).toContain(bare('Harmonics, screen'));
  });

  it('where the one-line is cut, both sheets name where it goes on', async () => {
    const site = manyRuns(9);
    const { pages } = await read(submittalPdf(site, review(site), { ...options, sheetSize: 'ANSI-B', sheets: ['oneline'] }));
    expect(pages[0]).toContain(bare('A: B-1 goes on at sheet 2'));
    expect(pages[1]).toContain(bare('A: B-1 comes from sheet 1'));
    expect(pages[1]).toContain(bare('B: B-1 goes on at sheet 3'));
  });

  it('explains the marks that are on it', async () => {
    const { pages } = await read(submittalPdf(lineUp, answer, { ...options, sheets: ['legend'] }));
    expect(pages[0]).toContain(bare('number in the table of findings'));
  });

  it('a title too long for its cell is made smaller, then shortened with a sign that it is', async () => {
    const long = { ...lineUp, project: { ...lineUp.project, title: 'Long title '.repeat(30).trim() } };
    const { pages, smallest_pt } = await read(submittalPdf(long, review(long), options));
    expect(pages[0]).toContain(bare('…'));
    expect(smallest_pt).toBeGreaterThan(10.7);
  });
});
