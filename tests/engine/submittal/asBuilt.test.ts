import { readFileSync } from 'node:fs';
import { unzipSync } from 'fflate';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { describe, expect, it } from 'vitest';
import { type Cable, type LineUp, load, review, save } from '../../../engine/index.ts';
import { asBuiltOf, withoutAsBuilt } from '../../../engine/lineup/asBuilt.ts';
import { AS_BUILT, valueAt, withValueAt } from '../../../engine/lineup/fields.ts';
import { asBuiltRows, asBuiltTables } from '../../../engine/submittal/asBuilt.ts';
import { write } from '../../../engine/submittal/formats.ts';
import { submittalPdf } from '../../../engine/submittal/pdf.ts';
import { EVERY_SHEET, sectionsOf, usualSheets } from '../../../engine/submittal/sections.ts';
import { readExample } from '../sizing/readExample.ts';

/** What was found on site stands beside the design, judged by the engine, and nothing passes that nobody recorded. */

const font = (name: string) => new Uint8Array(readFileSync(new URL(`../../../public/fonts/${name}`, import.meta.url)));
const fonts = { regular: font('sans-400.woff'), semibold: font('sans-600.woff') };
const bare = readExample('heron-weir-pumps');
const design = review(bare);

type Values = Readonly<Record<string, unknown>>;
const record = (lineUp: LineUp, values: (tag: string, kind: string) => Values): LineUp => {
  const on = <T extends LineUp['cables'][number] | LineUp['elements'][number]>(part: T): T =>
    Object.entries(values(part.tag, part.kind)).reduce((now, [path, value]) => withValueAt(now, `asBuilt.${path}`, value), part);
  return { ...lineUp, cables: lineUp.cables.map(on), elements: lineUp.elements.map(on) };
};
/** Everything that is asked, just as it was designed. */
function asDesigned(lineUp: LineUp): LineUp {
  const same = <T extends LineUp['cables'][number] | LineUp['elements'][number]>(part: T): T =>
    part.kind === 'cable' || part.kind === 'motor'
      ? AS_BUILT[part.kind].asked.reduce((now, path) => withValueAt(now, `asBuilt.${path}`, valueAt(part, path) ?? 'none'), part)
      : part;
  return { ...lineUp, cables: lineUp.cables.map(same), elements: lineUp.elements.map(same) };
}
const tagOf = bare.cables.find((each) => each.kind === 'cable' && (each.length_m ?? 0) > 10)?.tag ?? '';
const cable = (lineUp: LineUp): Cable => lineUp.cables.find((each) => each.tag === tagOf) as Cable;

describe('the line-up as built', () => {
  it('has what was recorded in the place of what was designed, and is judged as if it were drawn so', () => {
    const length_m = (cable(bare).lengthMost_m ?? cable(bare).length_m ?? 0) * 20;
    const recorded = record(bare, (tag) => (tag === tagOf ? { length_m } : {}));
    expect(review(recorded).findings).toEqual(design.findings);
    const drawn: LineUp = {
      ...bare,
      cables: bare.cables.map((each) =>
        each.tag === tagOf
          ? {
              ...each,
              length_m,
              lengthMost_m: undefined,
              lengthOrigin: 'measured',
              provenance: { ...each.provenance, length_m: { origin: 'measured' } },
            }
          : each,
      ),
    };
    const [built, asDrawn] = [review(asBuiltOf(recorded)), review(drawn)];
    expect(built.findings).toEqual(asDrawn.findings);
    expect(built.findings).not.toEqual(design.findings);
  });
  it('loses what hung on a designed value that was not kept, and keeps it where it was', () => {
    const walled: LineUp = {
      ...bare,
      cables: bare.cables.map((each) => ({ ...each, insulation: { ...each.insulation, wall_mm: 1.14, wetRated: true, voltage_V: 600 } })),
    };
    const was = cable(walled).insulation;
    const found = (type: string) =>
      cable(asBuiltOf(record(walled, (tag) => (tag === tagOf ? { 'insulation.type': type } : {})))).insulation;
    expect(found(was.type ?? '')).toEqual(was);
    expect(found('THHN')).toEqual({ type: 'THHN' });
    const raceway = cable(asBuiltOf(record(bare, (tag) => (tag === tagOf ? { 'installation.raceway': 'ladder' } : {})))).installation;
    expect(raceway.raceway).toBe('ladder');
    for (const path of ['racewaySize', 'loadedConductors', 'moisture', 'ambient_C', 'sharedWith']) expect(raceway).not.toHaveProperty(path);
  });
  it('leaves nothing behind, of the value or of how it was typed', () => {
    const recorded = record(bare, (_, kind) => (kind === 'cable' ? { length_m: 3 } : {}));
    const typed = { ...cable(recorded), provenance: { 'asBuilt.length_m': { typed: '3 m' } } };
    expect(withoutAsBuilt(typed)).toEqual({ ...cable(bare), provenance: {} });
    expect(cable(asBuiltOf({ ...recorded, cables: [typed] })).provenance).toEqual({ length_m: { typed: '3 m', origin: 'measured' } });
  });
});

describe('the sheet of it', () => {
  it('is in the usual set where anything was recorded, and nowhere else', () => {
    expect(usualSheets(bare, design)).not.toContain('built');
    expect(asBuiltTables(bare, design)).toEqual([]);
    const recorded = record(bare, (tag) => (tag === tagOf ? { length_m: 1 } : {}));
    expect(usualSheets(recorded, design)).toContain('built');
  });
  it('never lets pass what nobody recorded', () => {
    const recorded = record(bare, (tag) => (tag === tagOf ? { length_m: cable(bare).length_m } : {}));
    for (const { built, values } of asBuiltRows(recorded, design)) {
      expect(['PASS', 'NOTE', 'N/A']).not.toContain(built);
      expect(values.some((each) => each.built === 'not recorded')).toBe(true);
    }
    const table = asBuiltTables(recorded, design)[1];
    for (const row of table?.rows ?? []) expect(row[3]).not.toBe('PASS');
  });
  it('says of what was built as designed what is said of the design', () => {
    const known = readExample('alder-mill-fan');
    const answer = review(known);
    const recorded = asDesigned(known);
    const whole = (['cable', 'motor'] as const).every((kind) =>
      [...recorded.cables, ...recorded.elements].every(
        (each) => each.kind !== kind || AS_BUILT[kind].asked.every((path) => valueAt(each, path) !== undefined),
      ),
    );
    expect(whole).toBe(true);
    for (const { design: said, built, values } of asBuiltRows(recorded, answer)) {
      expect(built).toBe(said);
      for (const each of values) expect(each.difference).toBe('none');
    }
    expect(asBuiltTables(recorded, answer)[1]?.rows).toEqual([]);
  });
  it('tells by how much a length differs, from the most of a range', () => {
    const metric: LineUp = { ...bare, project: { ...bare.project, units: 'metric' } };
    const ranged: LineUp = { ...metric, cables: metric.cables.map((each) => ({ ...each, length_m: 80, lengthMost_m: 100 })) };
    const of = (length_m: number) =>
      asBuiltRows(
        record(ranged, (_, kind) => (kind === 'cable' ? { length_m } : {})),
        review(ranged),
      )[0]?.values[0];
    expect(of(110)).toEqual({
      label: 'Length, one way',
      design: '80\u00a0m to 100\u00a0m',
      built: '110\u00a0m',
      difference: '+10\u00a0m, +10.0 %',
    });
    expect(of(75)?.difference).toBe('−25\u00a0m, −25.0 %');
    expect(of(100)?.difference).toBe('none');
  });
  it('goes out in the set, the report, the tables and the workbook', async () => {
    const recorded = record(bare, (tag, kind) => (tag === tagOf ? { length_m: 217.3 } : kind === 'motor' ? { ratedCurrent_A: 61.7 } : {}));
    const answer = review(recorded);
    const facts = { lineUp: recorded, review: answer, date: '2026-11-25', fonts: async () => fonts };
    const text = (bytes: Uint8Array | undefined) => new TextDecoder().decode(bytes);
    const csv = (await write('csv', facts)).find(({ ending }) => ending === '.as-built.csv');
    const length = asBuiltRows(recorded, answer).find(({ tag }) => tag === tagOf)?.values[0];
    expect(text(csv?.bytes)).toContain(`${length?.built},`);
    expect(text(csv?.bytes)).toContain('not recorded');
    const [html] = await write('html', facts);
    expect(text(html?.bytes)).toContain('Verdicts that differ as built');
    const [xlsx] = await write('xlsx', facts);
    expect(Object.values(unzipSync(xlsx?.bytes ?? new Uint8Array())).some((part) => text(part).includes(length?.built ?? '?'))).toBe(true);
    const pdf = submittalPdf(recorded, answer, { fonts, date: '2026-11-25', sheets: EVERY_SHEET });
    const document = await getDocument({ data: pdf.slice(), useSystemFonts: false, verbosity: 0 }).promise;
    let all = '';
    for (let n = 1; n <= document.numPages; n++)
      for (const item of (await (await document.getPage(n)).getTextContent()).items) if ('str' in item) all += item.str;
    await document.destroy();
    for (const each of ['Design and as built', length?.built, length?.difference, 'not recorded', '61.7 A'])
      expect(all.replace(/\s+/g, '')).toContain(each?.replace(/\s+/g, ''));
  });
  it('leaves room in the form for what is not recorded, and prints what is', () => {
    const recorded = record(bare, (tag) => (tag === tagOf ? { length_m: 217.3 } : {}));
    const rows = sectionsOf(recorded, design, { sheets: ['commissioning'], wide: true, date: '2026-11-26' }).flatMap(({ blocks }) =>
      blocks.flatMap((each) => (each.t === 'table' ? each.rows : [])),
    );
    const asked = rows.filter(([what]) => what?.startsWith(`${tagOf} as laid`));
    expect(asked.length).toBeGreaterThanOrEqual(AS_BUILT.cable.asked.length);
    expect(asked.filter((row) => row[2] !== '').map((row) => row[0])).toEqual(
      asked.filter(([what]) => what?.includes('length, one way')).map((row) => row[0]),
    );
  });
});

it('comes through saving and opening', () => {
  const recorded = record(bare, (_, kind) =>
    kind === 'cable' ? { length_m: 3, 'from.landing': 'pigtail', 'from.pigtailLength_mm': 50 } : {},
  );
  const again = load(save(recorded));
  expect(again.ok && save(again.lineUp)).toBe(save(recorded));
});
