import { readdirSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readTable, takeTable } from '../../editor/panels/pastedTable.ts';
import type { TableKind } from '../../editor/panels/tableColumns.ts';
import { type LineUp, lineUpSchema, review, save } from '../../engine/index.ts';
import { asItWas, harmless } from '../../engine/lineup/cellGuard.ts';
import { csvOf } from '../../engine/submittal/csv.ts';
import { schedulesOf } from '../../engine/submittal/schedules.ts';
import { readExample } from '../engine/sizing/readExample.ts';

/** Schedules out and in again: whoever exports one, changes nothing and pastes it gets the document that was there, byte for byte. */

const EXAMPLES = readdirSync(new URL('../../examples/', import.meta.url)).map((file) => file.replace('.json', ''));
const INTO: Readonly<Record<string, readonly TableKind[]>> = {
  cables: ['cable'],
  // Its rows say themselves what they are.
  equipment: ['cable', 'motor', 'drive'],
  motors: ['motor'],
  drives: ['drive'],
};
const decode = (bytes: Uint8Array): string => new TextDecoder('utf-8', { ignoreBOM: true }).decode(bytes);
/** What is exported of a document, pasted into another (or the same) wherever it may be. */
const pastes = (out: LineUp, into: LineUp = out) =>
  schedulesOf(out, review(out)).flatMap((schedule) =>
    (INTO[schedule.slug] ?? []).map((kind) => ({ slug: schedule.slug, pasted: readTable(into, kind, decode(csvOf(schedule))) })),
  );

describe.each(EXAMPLES)('the schedules of %s', (name) => {
  const lineUp = readExample(name);
  it.each(['us', 'metric'] as const)('come back in %s units as the same document, with nothing wrong in them', (units) => {
    const document: LineUp = { ...lineUp, project: { ...lineUp.project, units } };
    const all = pastes(document);
    expect(all.length).toBe(Object.values(INTO).flat().length);
    for (const { slug, pasted } of all) {
      const wrong = pasted.rows.flatMap(({ tag, bad, cells }) =>
        cells.flatMap(({ text, entry }) => (bad || (text !== '' && !entry.ok) ? [[slug, tag, bad, text, entry]] : [])),
      );
      expect(wrong).toEqual([]);
      expect([slug, pasted.rows.length > 0]).toEqual([slug, true]);
      expect(save(takeTable(document, pasted))).toBe(save(document));
    }
  });
  it('written in one system and pasted in the other, they change nothing either', () => {
    const as = (units: 'us' | 'metric'): LineUp => ({ ...lineUp, project: { ...lineUp.project, units } });
    for (const { pasted } of pastes(as('us'), as('metric'))) expect(save(takeTable(as('metric'), pasted))).toBe(save(as('metric')));
  });
});

describe('what a hand changes in an exported schedule', () => {
  const lineUp = readExample('heron-weir-pumps');
  it('is taken, and nothing beside it', () => {
    const [cables] = schedulesOf(lineUp, review(lineUp));
    const exported = cables ? decode(csvOf(cables)) : '';
    expect(exported).toContain(',140,');
    const next = takeTable(lineUp, readTable(lineUp, 'cable', exported.replace(',140,', ',143.5,')));
    const [before, after] = [lineUp, next].map((each) => each.cables.find(({ tag }) => tag === 'F-2'));
    expect(after).toMatchObject({ length_m: 43.7388, provenance: { length_m: { origin: 'entered', typed: '143.5 ft' } } });
    expect({ ...after, length_m: 0, provenance: 0 }).toEqual({ ...before, length_m: 0, provenance: 0 });
    expect(next.cables.filter((each, i) => each !== lineUp.cables[i]).length).toBe(1);
  });
  it('reaches every kind of equipment, under the name that its kind has for it', () => {
    const transformer = lineUp.elements.find((each) => each.kind === 'transformer');
    const pasted = readTable(lineUp, 'cable', `Tag\tKind\tRated voltage, V\tTrip rating, A\n${transformer?.tag}\ttransformer\t575\t80\n`);
    expect(pasted.rows[0]?.cells[1]?.entry).toEqual({ ok: false, what: 'A transformer has no such value' });
    expect(takeTable(lineUp, pasted).elements.find(({ id }) => id === transformer?.id)).toMatchObject({ secondaryVoltage_V: 575 });
  });
});

describe('any text', () => {
  it('comes back from behind its guard as it was', () =>
    fc.assert(fc.property(fc.oneof(fc.string(), fc.stringMatching(/^'{0,3}[=+@-].*$/)), (text) => asItWas(harmless(text)) === text)));

  const words = fc.oneof(
    fc.string({ unit: 'grapheme' }),
    fc.stringMatching(/^[ "',\t\r\n=+@-]{0,6}[a-z]?$/),
    fc.constantFrom("'=1+1", '=1+1', '-X1', '+A1', '"', '""', 'a,b', 'a\tb', 'a\r\nb', '’', '\ufeffx'),
  );
  const values = fc.double({ min: 1e-3, max: 1e6, noNaN: true, noDefaultInfinity: true });
  it('and any number in a document comes back through its schedules', () => {
    const lineUp = readExample('heron-weir-pumps');
    const given = fc.record({
      tags: fc.array(words, { minLength: 8, maxLength: 8 }),
      notes: fc.array(words, { minLength: 8, maxLength: 8 }),
      numbers: fc.array(values, { minLength: 6, maxLength: 6 }),
      units: fc.constantFrom('us', 'metric'),
    });
    fc.assert(
      fc.property(given, ({ tags, notes, numbers: [n0 = 1, n1 = 1, n2 = 1, n3 = 1, n4 = 1, n5 = 1], units }) => {
        const document: LineUp = {
          ...lineUp,
          project: { ...lineUp.project, units },
          cables: lineUp.cables.map((each, i) => ({
            ...each,
            tag: tags[i % 8] || each.tag,
            note: notes[i % 8],
            length_m: n0,
            grounds: { ...each.grounds, size: notes[(i + 1) % 8] },
            insulation: { ...each.insulation, voltage_V: n1 },
            installation: { ...each.installation, racewaySize: tags[(i + 1) % 8] },
          })),
          elements: lineUp.elements.map((each, i) => ({
            ...each,
            tag: `${tags[i % 8]}${each.tag}`,
            note: notes[i % 8],
            enclosure: tags[(i + 2) % 8],
            ...(each.kind === 'motor' && { ratedPower_W: n2, ratedVoltage_V: n3, peakLimit_V: n4, ambient_C: n5 % 300 }),
            ...(each.kind === 'drive' && { ratedPower_W: n2, riseTime_s: n3 * 1e-9, carrier_Hz: n4, leakageCurrent_A: (n5 % 90) / 1e4 }),
          })),
        };
        if (!lineUpSchema.safeParse(document).success) return;
        for (const { pasted } of pastes(document)) expect(save(takeTable(document, pasted))).toBe(save(document));
      }),
      { numRuns: 60 },
    );
  });
});
