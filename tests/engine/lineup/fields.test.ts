import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { ELEMENT_KINDS, FIELDS, formatQuantity, parseQuantity, type Quantity } from '../../../engine/index.ts';
import { namedOf } from '../../../engine/lineup/fields.ts';

/** Every value that a document may hold can be seen and changed: each leaf of the schema has a row among the fields, and each row its leaf. */

interface Shape {
  readonly type?: string;
  readonly const?: unknown;
  readonly enum?: readonly string[];
  readonly properties?: Readonly<Record<string, Shape>>;
  readonly items?: Shape;
  readonly oneOf?: readonly Shape[];
}
const schema = JSON.parse(readFileSync(new URL('../../../public/schema/line-up.schema.json', import.meta.url), 'utf8')) as Shape;
const shapeOf = (kind: string): Shape => {
  if (kind === 'cable') return schema.properties?.['cables']?.items ?? {};
  return schema.properties?.['elements']?.items?.oneOf?.find((each) => each.properties?.['kind']?.const === kind) ?? {};
};

function leaves(shape: Shape, path = ''): readonly (readonly [string, Shape])[] {
  return Object.entries(shape.properties ?? {}).flatMap(([key, inner]) => {
    const here = path === '' ? key : `${path}.${key}`;
    return inner.properties ? leaves(inner, here) : [[here, inner] as const];
  });
}

/** What is edited otherwise than by a row of its own. */
const ELSEWHERE = new Set([
  'id', // given once
  'tag', // first row of every part
  'kind',
  'provenance', // written with each value
  'from.element', // by connecting
  'from.port',
  'to.element',
  'to.port',
  'auxiliary', // lists, with rows for each entry
  'installation.sharedWith',
  'manual.allowedEarthing',
  'manual.emcLengths',
  'peakCurve',
]);

describe.each([...ELEMENT_KINDS, 'cable'] as const)('fields of a %s', (kind) => {
  const known = new Map(leaves(shapeOf(kind)));
  it('every leaf of the schema has a row', () => {
    const rows = new Set(FIELDS[kind].map((field) => field.path));
    expect([...known.keys()].filter((path) => !rows.has(path) && !ELSEWHERE.has(path))).toEqual([]);
  });
  it('every row has its leaf, of the same choices', () => {
    for (const field of FIELDS[kind]) {
      const leaf = known.get(field.path);
      expect([field.path, leaf !== undefined]).toEqual([field.path, true]);
      if (field.kind === 'choice') expect([field.path, field.choices]).toEqual([field.path, leaf?.enum]);
      if (field.kind === 'yesno') expect([field.path, leaf?.type]).toEqual([field.path, 'boolean']);
    }
  });
  it('every row says who knows it', () => {
    for (const field of FIELDS[kind]) expect([field.path, field.ask.length > 3]).toEqual([field.path, true]);
  });
});

describe('units', () => {
  const cases: readonly (readonly [Quantity, number])[] = [
    ['length', 64.008],
    ['smallLength', 0.381],
    ['distance', 254],
    ['power', 44_741.9922949],
    ['apparentPower', 1_000_000],
    ['voltage', 480],
    ['current', 72],
    ['frequency', 4000],
    ['temperature', 40],
    ['time', 0.15e-6],
    ['percent', 5.75],
    ['resistance', 0.0125],
    ['area', 6],
    ['soil', 2.5],
    ['number', 0.86],
  ];
  it.each(cases.flatMap(([quantity, value]) => (['us', 'metric'] as const).map((units) => [quantity, units, value] as const)))(
    'a %s shown in %s units reads back as the same value',
    (quantity, units, value) => {
      const parsed = parseQuantity(formatQuantity(value, quantity, units), quantity, units);
      expect(parsed.ok).toBe(true);
      // Shown with a few figures: within half of the last one.
      if (parsed.ok) expect(Math.abs(Number(parsed.value) / value - 1)).toBeLessThan(0.01);
    },
  );
  it.each([
    ['0,5', 'number', 0.5],
    ['0,5 m', 'length', 0.5],
    ['120 ft', 'length', 36.576],
    ["120'", 'length', 36.576],
    ['35 mm2', 'size', '35 mm2'],
    ['2 AWG', 'size', '2 AWG'],
    ['#2 awg', 'size', '2 AWG'],
    ['500 MCM', 'size', '500 kcmil'],
    ['-13 °F', 'temperature', -25],
  ] as const)('%s', (typed, quantity, value) => expect(parseQuantity(typed, quantity, 'us')).toEqual({ ok: true, value }));
  it.each([
    ['1,250', 'length'],
    ['twelve', 'length'],
    ['12 parsecs', 'length'],
    ['', 'length'],
    ['1.2.3', 'number'],
    ['35', 'size'],
    ['5 K', 'temperature'],
    ['7 AWGS', 'size'],
  ] as const)('%j is asked about, not guessed', (typed, quantity) => {
    const parsed = parseQuantity(typed, quantity, 'us');
    expect(parsed.ok).toBe(false);
    if (!parsed.ok) expect(parsed.what.length).toBeGreaterThan(10);
  });
});

describe('the name of a value, with its part', () => {
  it('puts the part where it reads well', () => {
    const named = (kind: keyof typeof FIELDS, path: string) => {
      const field = FIELDS[kind].find((each) => each.path === path);
      return field && namedOf(field, 'X-1');
    };
    expect([
      named('cable', 'conductor.size'),
      named('cable', 'length_m'),
      named('cable', 'from.landing'),
      named('cable', 'installation.raceway'),
      named('motor', 'insulation'),
      named('motor', 'switchedAlone'),
      named('disconnect', 'lockable'),
      named('drive', 'manual.lengthShielded_m'),
      named('cable', 'installation.spares'),
      named('cable', 'grounds.count'),
      named('cable', 'from.glandLeast_mm'),
      named('cable', 'asBuilt.from.landing'),
      named('motor', 'asBuilt.insulation'),
      named('reactor', 'coreLoss_ohm'),
      named('drive', 'brakingBus_V'),
      named('drive', 'builtInFilter'),
      named('drive', 'outputRatio_pct'),
      named('drive', 'leakageCurrent_A'),
      named('junction', 'bondBar'),
      named('junction', 'terminalSmallest'),
    ]).toEqual([
      'Conductor size of X-1',
      'Length of X-1, one way',
      'Shield landing at the start of X-1',
      'What X-1 is laid in',
      'What the winding of X-1 is built to',
      'Whether X-1 is switched while others run',
      'Whether X-1 is lockable open',
      'Shielded length in the manual of X-1',
      'How spare conductors in X-1 are left',
      'Number of grounding conductors in X-1',
      'Least diameter that the gland at the start of X-1 takes',
      'Shield landing at the start of X-1, as found on site',
      'What the winding of X-1 is built to, as found on site',
      'Core loss of X-1, as a resistance across it',
      'Bus voltage of X-1 while braking',
      'Whether X-1 has a built-in EMC filter',
      'Highest output voltage of X-1, of its input voltage',
      'Current from X-1 to ground',
      'Whether the box of X-1 has a bond bar',
      'Smallest conductor that the terminals of X-1 take',
    ]);
  });
  const OWN = Object.entries(FIELDS).flatMap(([kind, fields]) => fields.map((field) => ({ kind, field, said: namedOf(field, 'X-1') })));
  it.each(OWN)('$kind $field.path: $said', ({ field, said }) => {
    expect(said.split('X-1')).toHaveLength(2);
    expect(field.label).not.toMatch(/[|=]/);
    // No preposition, and no half of a sentence, stands before 'of'.
    expect(said).not.toMatch(/\b(to|from|in|on|for|with|by|at|it|is|run|open|allowed|together|sight|marked|alike|tested|use) of X-1/);
    expect(said).not.toMatch(/, [^,]* of X-1/);
  });
});

describe('what a value of a part is called', () => {
  it('reads as a phrase: no heading before it, no word left over behind it, no two words of place together', () => {
    const clumsy = [...ELEMENT_KINDS, 'cable' as const].flatMap((kind) =>
      FIELDS[kind]
        .filter(({ path }) => !path.startsWith('asBuilt.'))
        .map((field) => namedOf(field, 'M-1'))
        .filter((named) =>
          /M-1: |, maker$|\b(to|for|with|from|at|in|by) of M-1|M-1 (at motor|allowed|raised|between|marked for)/.test(named),
        ),
    );
    expect(clumsy).toEqual([]);
  });
});
