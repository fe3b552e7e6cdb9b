import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { FIELDS, formatQuantity, isTooNew, load, parseQuantity, save } from '../../engine/index.ts';

const FOLDER = join(import.meta.dirname, '../../examples');
const EXAMPLES = readdirSync(FOLDER).map((name) => [name, readFileSync(join(FOLDER, name), 'utf8')] as const);
const good = EXAMPLES[0]?.[1] ?? '';
const altered = (change: (document: Record<string, never>) => void): string => {
  const document = JSON.parse(good);
  change(document);
  return JSON.stringify(document);
};
const any = (value: unknown) => value as Record<string, Record<string, unknown>[]>;

describe('opening a file', () => {
  it.each(EXAMPLES)('%s opens and comes back the same, byte for byte', (_name, text) => {
    const loaded = load(text);
    expect(loaded.ok && save(loaded.lineUp)).toBe(text);
  });

  it('keeps fields it does not know, at every level', () => {
    const loaded = load(altered((d) => Object.assign(any(d)['elements']?.[0] ?? {}, { colourOfLid: 'green' })));
    expect(loaded.ok && save(loaded.lineUp)).toContain('colourOfLid');
  });

  it.each([
    ['empty', '', /empty/],
    ['not JSON', 'hello', /no line-up: it begins with "hello"/],
    ['truncated', good.slice(0, 900), /too early|not JSON/],
    ['an array', '[]', /does not hold a line-up/],
    ['another format', '{"format":"x","version":1}', /says "x"/],
    ['a newer version', '{"format":"copperline","version":99}', /newer program/],
    [
      'a wrong type',
      altered((d) => Object.assign(any(d)['cables']?.[1] ?? {}, { length_m: 'long' })),
      /number is expected, it says "long"/,
    ],
    ['an absurd number', altered((d) => Object.assign(any(d)['cables']?.[1] ?? {}, { length_m: 1e300 })), /too large to be meant/],
    ['a negative length', altered((d) => Object.assign(any(d)['cables']?.[1] ?? {}, { length_m: -3 })), /at least 0/],
    [
      'a number too large to hold, in a field that is not known',
      altered((d) => Object.assign(any(d)['elements']?.[0] ?? {}, { colourOfLid: [1, '@huge@'] })).replace('"@huge@"', '1e999'),
      /too large to hold/,
    ],
    [
      'a power of ten lost',
      altered((d) => Object.assign(any(d)['elements']?.[0] ?? {}, { faultCurrent_A: 5e-324 })),
      /says 5e-324; so near to nothing is no quantity/,
    ],
    ['an id that every table already holds', good.replaceAll('"e1"', '"constructor"'), /says "constructor"; this word cannot be an id/],
    ['a side that a part has not', good.replace(/"from":\s*\{[^}]*\}/, '"from":{"element":"e1","port":"line"}'), /has no line side/],
    ['an unknown kind', altered((d) => Object.assign(any(d)['elements']?.[0] ?? {}, { kind: 'teapot' })), /says/],
    ['a duplicate id', altered((d) => Object.assign(any(d)['elements']?.[1] ?? {}, { id: 'e1' })), /also that of/],
    ['a dangling end', altered((d) => Object.assign(any(d)['cables']?.[1] ?? {}, { to: { element: 'gone' } })), /no element has that id/],
    ['deep nesting', '['.repeat(100_000), /nested/],
    ['ten megabytes', ' '.repeat(11 * 1024 * 1024), /MB/],
  ] as const)('refuses %s with place, reason and mend', (_what, text, reason) => {
    const loaded = load(text, 'site.json');
    expect(loaded.ok).toBe(false);
    if (loaded.ok) return;
    expect(loaded.what).toMatch(reason);
    expect(loaded.where).toContain('site.json');
    expect(loaded.mend.length).toBeGreaterThan(10);
  });

  const newer = (change: object): string => altered((d) => Object.assign(d, { laterField: { deep: [1] } }, change));

  it('of a newer program that lets this version read it is opened, told of, and keeps what is not known, its version too', () => {
    const text = newer({ version: 7, minReader: 1 });
    const loaded = load(text);
    expect(loaded.ok && loaded.notes.join()).toMatch(/newer program/);
    expect(loaded.ok && isTooNew(loaded.lineUp)).toBe(false);
    expect(loaded.ok && JSON.parse(save(loaded.lineUp))).toEqual(JSON.parse(text));
  });

  it.each([
    ['that says nothing of others', { version: 7 }],
    ['that shuts this version out', { version: 7, minReader: 2 }],
    ['in an old form that shuts this version out', { version: 1, minReader: 2 }],
  ])('of a newer program %s is opened only to be looked at, and comes back the same', (_what, change) => {
    const text = newer(change);
    expect(load(text).ok).toBe(false);
    const loaded = load(text, 'site.json', { tooNew: true });
    expect(loaded.ok && isTooNew(loaded.lineUp)).toBe(true);
    expect(loaded.ok && loaded.notes.join()).toMatch(/only that may change it/);
    expect(loaded.ok && JSON.parse(save(loaded.lineUp))).toEqual(JSON.parse(text));
  });

  it('of a newer program that cannot be read at all says so, and not that it is damaged', () => {
    const loaded = load(newer({ version: 7, cables: 'elsewhere' }), 'site.json', { tooNew: true });
    expect(!loaded.ok && loaded.what).toMatch(/newer program/);
  });

  const refusal = (text: string) => {
    const loaded = load(text, 'site.json');
    return loaded.ok ? null : loaded;
  };
  const withField = (json: string) =>
    altered((d) => Object.assign(any(d)['project'] ?? {}, { own: '@here@' })).replace('"@here@"', () => json);

  it('tells brackets that nest from those that stand side by side, or in a text', () => {
    const nested = (deep: number, open = '[', close = ']') => withField(`${open.repeat(deep)}1${close.repeat(deep)}`);
    // The whole and its project are two levels.
    expect([refusal(nested(62)), refusal(nested(62, '{"a":', '}'))]).toEqual([null, null]);
    expect(refusal(nested(63))?.what).toContain('more than 64 deep');
    expect(refusal(nested(63, '{"a":', '}'))?.what).toContain('more than 64 deep');
    expect(refusal(withField(`[${Array(200).fill('[],{}').join()}]`))).toBeNull();
    for (const text of ['[', '{', '\\"[', '\\\\', '\\\\\\"{', ']', '}'])
      expect([text, refusal(withField(JSON.stringify(text.repeat(200))))]).toEqual([text, null]);
    expect(refusal(withField(`["\\\\", ${'['.repeat(62)}1${']'.repeat(62)}]`))?.what).toContain('deep');
    expect(refusal(`{"a":\n [${'['.repeat(70)}`)?.where).toBe('site.json, line 2, column 65');
  });

  it('names line and column of what is not JSON, and the part and field of what does not fit', () => {
    expect(refusal('{\n  "format": x')?.where).toBe('site.json, line 2, column 13');
    expect(refusal('[\nx')?.where).toBe('site.json, line 2, column 1');
    expect(refusal('{"format":"copperline",\n\n')?.where).toBe('site.json, line 3, column 1');
    const field = (value: unknown) => refusal(altered((d) => Object.assign(any(d)['cables']?.[3] ?? {}, { tag: 'F-1', length_m: value })));
    expect(field('long')?.where).toBe('site.json, cables[3] "F-1", length_m');
    expect(field('x'.repeat(500))?.what.length).toBeLessThan(120);
    expect(refusal(withField('[0, {"a": 1e999}]'))?.where).toBe('site.json, project, own[1], a');
    expect(refusal(altered((d) => Object.assign(d, { project: undefined })))?.what).toBe(
      'a group of named values is expected, it says nothing',
    );
    expect(refusal(altered((d) => Object.assign(d, { elements: null })))?.what).toBe('a list is expected, it says null');
  });

  it('leaves an end free that names no element, and lets a side be not said', () => {
    const end = (to: object) => refusal(altered((d) => Object.assign(any(d)['cables']?.[1] ?? {}, { to })));
    expect([end({}), end({ element: 'e1' }), end({ port: 'line' })]).toEqual([null, null, null]);
    expect(end({ element: 'e1', port: 'line' })?.mend).toBe('Land it on the load side.');
    expect(end({ element: 'e2', port: 'side' })?.what).toContain('one of line, load is expected');
  });

  it('does not let a file reach the prototypes', () => {
    load('{"__proto__":{"polluted":1},"format":"copperline","version":1}');
    expect(({} as Record<string, unknown>)['polluted']).toBeUndefined();
  });
});

describe('units at the door', () => {
  it.each([
    ['210 ft', 'length', 'us', 64.008],
    ['64 m', 'length', 'us', 64],
    ['64,5 m', 'length', 'metric', 64.5],
    ['60 hp', 'power', 'us', 44741.9922949],
    ['45 kW', 'power', 'us', 45000],
    ['15 mil', 'smallLength', 'us', 0.381],
    ['104', 'temperature', 'us', 40],
    ['40 °C', 'temperature', 'us', 40],
    ['0.15 µs', 'time', 'us', 0.15e-6],
    ['150 ns', 'time', 'us', 150e-9],
    ['4 kHz', 'frequency', 'us', 4000],
    ['20.9 kA', 'current', 'us', 20900],
    ['2 AWG', 'size', 'us', '2 AWG'],
    ['1/0', 'size', 'us', '1/0 AWG'],
    ['35 mm²', 'size', 'us', '35 mm2'],
    ['35', 'size', 'metric', '35 mm2'],
  ] as const)('%s', (typed, quantity, units, value) => {
    const parsed = parseQuantity(typed, quantity, units);
    expect(parsed.ok && parsed.value).toEqual(value);
  });

  it('asks where it would have to guess', () => {
    expect(parseQuantity('1,234 ft', 'length', 'us').ok).toBe(false);
    expect(parseQuantity('35', 'size', 'us').ok).toBe(false);
    expect(parseQuantity('3 stones', 'length', 'us').ok).toBe(false);
  });

  it('shows what it reads', () => expect(formatQuantity(64.008, 'length', 'us')).toBe('210\u00a0ft'));
  it('names every field once', () => {
    for (const list of Object.values(FIELDS)) expect(new Set(list.map((field) => field.path)).size).toBe(list.length);
  });
});
