import DxfParser from 'dxf-parser';
import { strFromU8, unzipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { type LineUp, oneLine, review, startFromFive } from '../../../engine/index.ts';
import { harmless } from '../../../engine/lineup/cellGuard.ts';
import { csvOf } from '../../../engine/submittal/csv.ts';
import { dxfOf, pieces } from '../../../engine/submittal/dxf.ts';
import { numbered } from '../../../engine/submittal/findingTables.ts';
import { write } from '../../../engine/submittal/formats.ts';
import { htmlOf } from '../../../engine/submittal/html.ts';
import { type Schedule, schedulesOf } from '../../../engine/submittal/schedules.ts';
import { EVERY_SHEET, type SheetKind } from '../../../engine/submittal/sections.ts';
import { xlsxOf } from '../../../engine/submittal/xlsx.ts';
import { threeRuns } from '../drawing/threeRuns.ts';
import { manyRuns } from '../manyRuns.ts';

const lineUp = threeRuns();
const answer = review(lineUp);
const facts = {
  lineUp,
  review: answer,
  date: '2026-11-25',
  fonts: () => Promise.reject(new Error('no font is needed here')),
};
/** The first cable with this as its tag and as its note. */
const hostile = (text: string): LineUp => {
  const first = lineUp.cables.find((each) => each.kind === 'cable');
  return { ...lineUp, cables: lineUp.cables.map((each) => (each === first ? { ...each, tag: text, note: text } : each)) };
};
const HOSTILE = [
  '=HYPERLINK("http://x")',
  '+1+1',
  '-2+3',
  '@SUM(A1)',
  '\t=1',
  '\r=1',
  '＝1+1',
  '－1',
  'a "quoted", part\nof two lines',
  '<script>alert(1)</script>&amp;',
  ']]>',
  'nul\u0000 esc\u001b lone \ud800',
];

/** A reader of RFC 4180 written for this test. */
function readCsv(text: string): string[][] {
  const rows: string[][] = [];
  let row: string[] = [];
  let cell = '';
  let quoted = false;
  for (let i = 0; i < text.length; i++) {
    const c = text[i] ?? '';
    if (quoted) {
      if (c !== '"') cell += c;
      else if (text[i + 1] === '"') {
        cell += '"';
        i++;
      } else quoted = false;
    } else if (c === '"') quoted = true;
    else if (c === ',') {
      row.push(cell);
      cell = '';
    } else if (c === '\r' && text[i + 1] === '\n') {
      rows.push([...row, cell]);
      row = [];
      cell = '';
      i++;
    } else cell += c;
  }
  return rows;
}

interface ReadCell {
  readonly type: 'number' | 'text';
  readonly value: string;
}
const unescaped = (text: string): string =>
  text.replaceAll('&lt;', '<').replaceAll('&gt;', '>').replaceAll('&quot;', '"').replaceAll('&amp;', '&');
/** Cells of a sheet by place, 'B2'. */
function readSheet(xml: string): ReadonlyMap<string, ReadCell> {
  const cells = new Map<string, ReadCell>();
  for (const [, place = '', rest = '', inner = ''] of xml.matchAll(/<c r="([A-Z]+\d+)"([^>]*)>(.*?)<\/c>/gs)) {
    if (rest.includes('inlineStr')) cells.set(place, { type: 'text', value: unescaped(/<t [^>]*>(.*)<\/t>/s.exec(inner)?.[1] ?? '') });
    else cells.set(place, { type: 'number', value: /<v>(.*)<\/v>/.exec(inner)?.[1] ?? '' });
  }
  return cells;
}
const letters = (i: number): string => (i < 26 ? '' : letters(Math.floor(i / 26) - 1)) + String.fromCharCode(65 + (i % 26));

const schedules = schedulesOf(lineUp, answer);
const cables = schedules.find((each) => each.slug === 'cables') as Schedule;

describe('schedules', () => {
  it('hold every cable, part, motor and open item, each once, with the unit in the head', () => {
    const tags = (slug: string) => schedules.find((each) => each.slug === slug)?.rows.map((row) => row[0]);
    expect(tags('cables')).toEqual(lineUp.cables.filter((each) => each.kind === 'cable').map((each) => each.tag));
    expect(tags('equipment')).toEqual(lineUp.elements.map((each) => each.tag));
    expect(tags('motors')).toEqual(['M-1', 'M-2', 'M-3']);
    expect(cables.heads).toContain('Length, one way, ft');
    expect(cables.rows[0]?.[cables.heads.indexOf('Length, one way, ft')]).toBe(140);
    expect(cables.rows.at(-1)?.[cables.heads.indexOf('Length, one way, ft')]).toBeNull();
  });
});

describe('CSV', () => {
  it('read back, equals the schedules', () => {
    for (const each of schedules) {
      const bytes = csvOf(each);
      expect([...bytes.subarray(0, 3)]).toEqual([0xef, 0xbb, 0xbf]);
      const [heads, ...rows] = readCsv(strFromU8(bytes));
      expect(heads).toEqual(each.heads.map(harmless));
      expect(rows).toEqual(
        each.rows.map((row) => row.map((cell) => (cell === null ? '' : typeof cell === 'number' ? `${cell}` : harmless(cell)))),
      );
    }
  });
  it.each(HOSTILE)('text that looks like a formula is none: %j', (text) => {
    const own = hostile(text);
    const [, ...rows] = readCsv(strFromU8(csvOf(schedulesOf(own, review(own))[0] as Schedule)));
    const note = rows[0]?.at(-1) ?? '';
    expect(note).not.toMatch(/^[=+\-@\t\r＝＋－＠]/u);
    expect(note.replace(/^'/, '')).toBe(text.replace('\ud800', '\ufffd'));
  });
  it('a number below zero stays a number', () => {
    expect(strFromU8(csvOf({ slug: 'x', title: 'x', heads: ['a'], rows: [[-5]] }))).toContain('\r\n-5\r\n');
  });
});

describe('workbook', () => {
  it('unzipped, holds each schedule: numbers as numbers, text as text, nothing as a formula', () => {
    const files = unzipSync(xlsxOf(schedules));
    schedules.forEach((each, i) => {
      const xml = strFromU8(files[`xl/worksheets/sheet${i + 1}.xml`] as Uint8Array);
      expect(xml).not.toContain('<f>');
      const cells = readSheet(xml);
      each.rows.forEach((row, r) => {
        row.forEach((cell, c) => {
          const read = cells.get(`${letters(c)}${r + 2}`);
          if (cell === null) expect(read).toBeUndefined();
          else
            expect(read).toEqual({
              type: typeof cell === 'number' ? 'number' : 'text',
              value: typeof cell === 'number' ? `${cell}` : harmless(cell),
            });
        });
      });
    });
  });
  it('gives the same bytes twice', () => {
    expect(Buffer.from(xlsxOf(schedules)).equals(Buffer.from(xlsxOf(schedulesOf(threeRuns(), review(threeRuns())))))).toBe(true);
  });
  it.each(HOSTILE)('is well-formed whatever a text says: %j', (text) => {
    const own = hostile(text);
    const xml = strFromU8(unzipSync(xlsxOf(schedulesOf(own, review(own))))['xl/worksheets/sheet1.xml'] as Uint8Array);
    expect(xml).not.toMatch(/[\u0000-\u0008\u000b\u000c\u000e-\u001f]|<script/);
    expect(readSheet(xml).size).toBe(readSheet(strFromU8(unzipSync(xlsxOf(schedules))['xl/worksheets/sheet1.xml'] as Uint8Array)).size + 1);
  });
});

const drawing = oneLine(lineUp, answer, { callouts: numbered(answer) });
const count = (list: readonly string[]): Readonly<Record<string, number>> => {
  const counts: Record<string, number> = {};
  for (const each of list) counts[each] = (counts[each] ?? 0) + 1;
  return counts;
};

interface ReadEntity {
  readonly type: string;
  readonly layer: string;
  readonly text?: string;
  readonly center?: { readonly x: number; readonly y: number };
  readonly radius?: number;
  readonly startPoint?: { readonly x: number; readonly y: number };
  readonly vertices?: readonly { readonly x: number; readonly y: number }[];
}
const readDxf = (bytes: Uint8Array) =>
  new DxfParser().parseSync(strFromU8(bytes)) as unknown as { readonly entities: readonly ReadEntity[] };

describe('DXF', () => {
  const { entities } = readDxf(dxfOf(drawing));
  it('holds every item of the drawing, arcs as arcs and text as text', () => {
    const expected = drawing.items.flatMap((item) => {
      if (item.t === 'text') return ['TEXT'];
      if (item.t === 'circle') return ['CIRCLE'];
      if (item.t === 'rect') return ['LWPOLYLINE'];
      const strokes = item.t === 'line' ? [{ t: 'stroke' as const, points: item.points }] : pieces(item.d);
      return strokes.map((each) => (each.t === 'arc' ? 'ARC' : each.points.length === 2 ? 'LINE' : 'LWPOLYLINE'));
    });
    expect(count(entities.map((each) => each.type))).toEqual(count(expected));
    expect(entities.filter((each) => each.type === 'ARC').length).toBe(
      lineUp.elements.filter((each) => each.kind === 'disconnect' && each.device === 'breaker').length,
    );
    expect(entities.flatMap((each) => each.text ?? []).sort()).toEqual(
      // Plain spaces: the fonts of drawing programs have no other.
      drawing.items.flatMap((item) => (item.t === 'text' ? [item.text.replaceAll('\u00a0', ' ')] : [])).sort(),
    );
  });
  it('spans what the drawing spans', () => {
    const xs: number[] = [];
    const ys: number[] = [];
    for (const each of entities) {
      if (each.type === 'TEXT') continue;
      const r = each.type === 'CIRCLE' ? (each.radius ?? 0) : 0;
      for (const p of [...(each.vertices ?? []), ...(each.type === 'CIRCLE' && each.center ? [each.center] : [])]) {
        xs.push(p.x - r, p.x + r);
        ys.push(-p.y - r, -p.y + r);
      }
    }
    const spans = drawing.items.filter(
      (item) => item.t !== 'text' && !(item.t === 'path' && pieces(item.d).some((each) => each.t === 'arc')),
    );
    const wanted = spans.flatMap((item): readonly (readonly [number, number])[] => {
      if (item.t === 'circle')
        return [
          [item.x - item.r, item.y - item.r],
          [item.x + item.r, item.y + item.r],
        ];
      if (item.t === 'rect')
        return [
          [item.x, item.y],
          [item.x + item.w, item.y + item.h],
        ];
      return item.t === 'line'
        ? item.points
        : item.t === 'path'
          ? pieces(item.d).flatMap((each) => (each.t === 'stroke' ? each.points : []))
          : [];
    });
    expect(Math.min(...xs)).toBeCloseTo(Math.min(...wanted.map(([x]) => x)), 6);
    expect(Math.max(...xs)).toBeCloseTo(Math.max(...wanted.map(([x]) => x)), 6);
    expect(Math.min(...ys)).toBeCloseTo(Math.min(...wanted.map(([, y]) => y)), 6);
    expect(Math.max(...ys)).toBeCloseTo(Math.max(...wanted.map(([, y]) => y)), 6);
  });
  it('puts parts, cables, labels and verdicts on layers of their own', () => {
    expect(new Set(entities.map((each) => each.layer))).toEqual(new Set(['CABLES', 'FAIL', 'LABELS', 'OPEN', 'PARTS']));
  });
  it('an arc comes back with centre, radius and ends', () => {
    const arcs = pieces([
      ['M', 1.5, 0],
      ['C', 1.5, 0.8284, 0.8284, 1.5, 0, 1.5],
      ['C', -0.8284, 1.5, -1.5, 0.8284, -1.5, 0],
    ]);
    expect(arcs.length).toBe(1);
    expect(arcs[0]).toMatchObject({ t: 'arc', from: 0 });
  });
  it.each(HOSTILE)('is read whatever a tag says: %j', (text) => {
    const own = hostile(text);
    const read = readDxf(dxfOf(oneLine(own, review(own))));
    expect(read.entities.length).toBe(readDxf(dxfOf(oneLine(lineUp, answer))).entities.length);
  });
});

describe('HTML', () => {
  const report = (own: LineUp): string => strFromU8(htmlOf(own, review(own), { date: '2026-11-25', sheets: EVERY_SHEET }));
  const elements = (text: string) => count([...text.matchAll(/<\/?([a-z][a-z0-9]*)[ >]/g)].map(([whole]) => whole.replace(/ $/, '>')));
  it.each(HOSTILE)('text stays text, whatever it says: %j', (text) => {
    // A tag's width moves nothing but its own place, so the same elements must come out as of a harmless one.
    expect(elements(report(hostile(text)))).toEqual(elements(report(hostile('harmless'))));
  });
  it('gives the same bytes twice, without script and without an address', () => {
    const text = report(lineUp);
    expect(text).toBe(report(threeRuns()));
    expect(text).not.toMatch(/<script|javascript:|https?:(?!\/\/www\.w3\.org\/2000\/svg)/);
  });
});

describe('the unknown values nearest to turning a verdict', () => {
  const shows = async (own: LineUp, sheets: readonly SheetKind[]): Promise<boolean> => {
    const [report] = await write('html', { ...facts, lineUp: own, review: review(own), sheets });
    return strFromU8(report?.bytes ?? new Uint8Array()).includes('nearest to turning a verdict');
  };
  const five = startFromFive({ power_W: 45_000, voltage_V: 480, length_m: 64, place: 'damp', basis: 'us' });
  it('stand beside the open items, where the line-up is small enough to look for them', async () => {
    expect(await shows(five, ['open'])).toBe(true);
    expect(await shows(five, ['legend'])).toBe(false);
    expect(await shows(manyRuns(8), ['open'])).toBe(false);
  });
});

describe('SVG', () => {
  it('holds every item and every text of the drawing, and nothing that runs or loads', async () => {
    const [svg] = await write('svg', facts);
    const text = strFromU8(svg?.bytes as Uint8Array);
    const named = count([...text.matchAll(/<([a-z]+)/g)].map(([, name = '']) => name));
    const kinds = { line: 'path', path: 'path', circle: 'circle', rect: 'rect', text: 'text' } as const;
    expect(named).toEqual({ svg: 1, ...count(drawing.items.map((item) => kinds[item.t])) });
    for (const item of drawing.items) if (item.t === 'text') expect(unescaped(text)).toContain(`>${item.text}<`);
    expect(text).not.toMatch(/<script|<style|<image|<a |href|foreignObject/);
    const [x, y, w, h] = (/viewBox="([^"]*)"/.exec(text)?.[1] ?? '').split(' ').map(Number);
    [drawing.x_mm, drawing.y_mm, drawing.width_mm, drawing.height_mm].forEach((each, i) => {
      expect([x, y, w, h][i]).toBeCloseTo(each, 1);
    });
  });
});
