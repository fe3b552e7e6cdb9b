import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { setValue } from '../../editor/store/edits.ts';
import {
  type Cable,
  ELEMENT_KINDS,
  type Element,
  FIELDS,
  type Finding,
  type LineUp,
  lineUpSchema,
  load,
  newLineUp,
  PORTS,
  review,
} from '../../engine/index.ts';

/** Laws that hold for every line-up, whatever is drawn and whatever is missing. */

const FOLDER = join(import.meta.dirname, '../../examples');
const EXAMPLES = readdirSync(FOLDER).map((name) => {
  const loaded = load(readFileSync(join(FOLDER, name), 'utf8'));
  if (!loaded.ok) throw new Error(`${name}: ${loaded.what}`);
  return [name, loaded.lineUp] as const;
});
const SEED = { seed: 20261125 };

const number = fc.oneof(fc.constantFrom(0.001, 0.5, 1, 10, 75, 90, 100, 480), fc.double({ min: 1e-6, max: 1e6, noNaN: true }));
const valueFor = (field: (typeof FIELDS)['cable'][number]): fc.Arbitrary<unknown> =>
  field.kind === 'choice'
    ? fc.constantFrom(...(field.choices ?? []))
    : field.kind === 'yesno'
      ? fc.boolean()
      : field.kind === 'count'
        ? fc.integer({ min: 1, max: 8 })
        : field.kind === 'text'
          ? fc.string({ maxLength: 8 })
          : field.quantity === 'size'
            ? fc.constantFrom('14 AWG', '2 AWG', '500 kcmil', '16 mm2', '18 AWG', '999 kcmil')
            : number;

const anyLineUp: fc.Arbitrary<LineUp> = fc.array(fc.constantFrom(...ELEMENT_KINDS), { minLength: 1, maxLength: 8 }).chain((kinds) => {
  const elements = kinds.map((kind, i): Element => ({ id: `e${i}`, tag: `E${i}`, kind }));
  const end = fc.option(
    fc.nat(kinds.length - 1).chain((i) => fc.constantFrom(...PORTS[kinds[i] ?? 'bus']).map((port) => ({ element: `e${i}`, port }))),
    { nil: {}, freq: 8 },
  );
  const cables = fc.array(fc.record({ from: end, to: end, kind: fc.constantFrom('cable' as const, 'link' as const) }), { maxLength: 9 });
  const fill = fc.array(fc.tuple(fc.nat(50), fc.nat(200)), { maxLength: 60 });
  return fc
    .tuple(cables, fill, fc.constantFrom('us' as const, 'iec' as const), fc.infiniteStream(fc.nat(1e6)))
    .chain(([list, picks, basis]) => {
      const drawn: LineUp = {
        ...newLineUp(basis),
        elements,
        cables: list.map(
          (each, i): Cable => ({
            id: `c${i}`,
            tag: `C${i}`,
            ...each,
            conductor: {},
            insulation: {},
            grounds: {},
            auxiliary: [],
            installation: {},
          }),
        ),
      };
      const parts = [...drawn.elements, ...drawn.cables];
      const chosen = picks.flatMap(([p, f]) => {
        const part = parts[p % parts.length];
        const fields = part ? FIELDS[part.kind === 'cable' || part.kind === 'link' ? 'cable' : part.kind] : [];
        const field = fields[f % fields.length];
        return part && field ? [{ id: part.id, field }] : [];
      });
      return fc.tuple(...chosen.map(({ field }) => valueFor(field))).map((values) =>
        chosen.reduce((before, { id, field }, i) => {
          const after = setValue(before, id, field.path, values[i]);
          return lineUpSchema.safeParse(after).success ? after : before;
        }, drawn),
      );
    });
});

const notFinite = (value: unknown, path = ''): string | null => {
  if (typeof value === 'number') return Number.isFinite(value) ? null : `${path} is ${value}`;
  if (typeof value !== 'object' || value === null) return null;
  for (const [key, inner] of Object.entries(value)) {
    const found = notFinite(inner, `${path}/${key}`);
    if (found) return found;
  }
  return null;
};

describe('laws for every line-up', () => {
  it('whatever passes the schema is reviewed: no exception, no NaN, no infinity', () => {
    fc.assert(
      fc.property(anyLineUp, (lineUp) => {
        const result = review(lineUp);
        expect(notFinite(result)).toBeNull();
        expect(['pass', 'note', 'caution']).not.toContain(result.runs.length === 0 ? result.verdict : 'open');
      }),
      { ...SEED, numRuns: 1500 },
    );
  });

  it('renaming and reordering change no verdict and no number', () => {
    for (const [, lineUp] of EXAMPLES) {
      const facts = (each: LineUp) => new Map(review(each).findings.map((f) => [f.id, [f.verdict, f.value, f.limit] as const]));
      const before = facts(lineUp);
      const turned: LineUp = {
        ...lineUp,
        elements: [...lineUp.elements].reverse().map((e) => ({ ...e, tag: `x${e.tag}` })),
        cables: [...lineUp.cables].reverse().map((c) => ({ ...c, tag: `y${c.tag}` })),
      };
      for (const [id, [verdict, value, limit]] of facts(turned)) {
        const [was, number, bound] = before.get(id) ?? [];
        expect([id, verdict]).toEqual([id, was]);
        if (value !== null) expect(Math.abs(value - (number ?? Number.NaN))).toBeLessThanOrEqual(1e-9 * Math.abs(value));
        expect(limit).toEqual(bound);
      }
    }
  });

  it('a longer cable never lowers its drop', () => {
    fc.assert(
      fc.property(fc.constantFrom(...EXAMPLES), fc.nat(20), fc.double({ min: 1.01, max: 3, noNaN: true }), ([, lineUp], pick, factor) => {
        const cable = lineUp.cables.filter((each) => each.length_m !== undefined)[pick % 5];
        if (!cable?.length_m) return;
        const drop = (each: LineUp) => review(each).cables.find((c) => c.id === cable.id)?.drop_V ?? 0;
        expect(drop(setValue(lineUp, cable.id, 'length_m', cable.length_m * factor))).toBeGreaterThanOrEqual(drop(lineUp));
      }),
      { ...SEED, numRuns: 200 },
    );
  });
});

/** From greenest; what cannot be judged is no greener than a fail. */
const RANK: Readonly<Record<Finding['verdict'], number>> = {
  'not-applicable': 0,
  'out-of-scope': 0,
  pass: 0,
  note: 1,
  caution: 2,
  open: 3,
  fail: 3,
};
/** Values that a published table or the drawing itself stands behind: without them another stated rule holds. */
const SPOKEN_FOR = new Set([
  'insulation.wall_mm',
  'insulation.voltage_V',
  'insulation.temperature_C',
  'insulation.wetRated',
  'lengthMost_m',
  'conductor.build',
  'state',
  'role',
  'device',
  'note',
  'enclosure',
  'lengthOrigin',
  'manual.page',
  'brakingBus_V',
]);

describe('taking a value away', () => {
  it.each(EXAMPLES)('%s: no single deletion turns a verdict greener', (_name, lineUp) => {
    const before = review(lineUp).findings;
    const wrong: string[] = [];
    for (const part of [...lineUp.elements, ...lineUp.cables]) {
      const fields = FIELDS[part.kind === 'cable' || part.kind === 'link' ? 'cable' : part.kind];
      for (const { path } of fields) {
        if (SPOKEN_FOR.has(path)) continue;
        const without = setValue(lineUp, part.id, path, undefined);
        const after = review(without).findings;
        for (const was of before) {
          const same = after.filter(
            (each) =>
              each.check === was.check &&
              each.subject.id === was.subject.id &&
              (each.subject.kind !== 'end' || each.subject.end === was.subject.end),
          );
          if (same.length === 0) continue;
          const now = Math.max(...same.map((each) => RANK[each.verdict]));
          if (now < RANK[was.verdict])
            wrong.push(`${was.id} was ${was.verdict}, is ${same.map((each) => each.verdict).join()} without ${path} of ${part.tag}`);
        }
      }
    }
    expect(wrong).toEqual([]);
  });
});
