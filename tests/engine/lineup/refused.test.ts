import { describe, expect, it } from 'vitest';
import { type Cable, type LineUp, load, newLineUp, save } from '../../../engine/index.ts';
import { jsonFault } from '../../../engine/lineup/jsonFault.ts';
import { bareCable, barePart as part } from '../bareParts.ts';

/** What a file is refused for, word by word: where, what, and how to mend it. */

const site: LineUp = {
  ...newLineUp(),
  elements: [part('supply', 's'), part('motor', 'm')],
  cables: [bareCable('w', 's', 'm')],
};
const refusal = (text: string, file = 'site.json') => {
  const loaded = load(text, file);
  return loaded.ok ? null : loaded;
};
const withParts = (change: object): string => JSON.stringify({ ...site, ...change });
const cable = (more: object): string => withParts({ cables: [{ ...site.cables[0], ...more }] });
const project = (more: object): string => withParts({ project: { ...site.project, ...more } });

describe('where a text stops being JSON', () => {
  const fault = (text: string) => {
    const found = jsonFault(text);
    return found && `${found.at} ${found.expected}`;
  };
  it.each([
    ['', '0 a value'],
    ['  ', '2 a value'],
    ['x', '0 a value'],
    ['-', '0 a value'],
    ['.5', '0 a value'],
    ['tru', '0 a value'],
    ["'a'", '0 a value'],
    ['1 2', '2 the end of the text'],
    ['truefalse', '4 the end of the text'],
    ['01', '1 the end of the text'],
    ['1.', '1 the end of the text'],
    ['1e', '1 the end of the text'],
    ['{} x', '3 the end of the text'],
    ['[1 2]', '3 a comma or ]'],
    ['[1}', '2 a comma or ]'],
    ['{"a":1]', '6 a comma or }'],
    ['{"a":1 "b":2}', '7 a comma or }'],
    ['[1,]', '3 a value'],
    ['[,1]', '1 a value'],
    ['[', '1 a value'],
    ['{', '1 a name in double quotes'],
    ['{a:1}', '1 a name in double quotes'],
    ['{"a":1,}', '7 a name in double quotes'],
    ['{1:2}', '1 a name in double quotes'],
    ['{"a" 1}', '5 a colon'],
    ['{"a"', '4 a colon'],
    ['{"a":}', '5 a value'],
    ['{"a":1', '6 a comma or }'],
    ['[1', '2 a comma or ]'],
    ['[[1]', '4 a comma or ]'],
    ['"abc', '4 the closing quote'],
    ['"a\nb"', '2 the closing quote'],
    ['"a\tb"', '2 the closing quote'],
    ['{"a\nb":1}', '3 the closing quote'],
    ['{"ab', '4 the closing quote'],
    ['"a\\qb"', '2 an escape such as \\n'],
    ['"a\\u12g4 and more"', '2 an escape such as \\n'],
    ['"a b\\q"', '4 an escape such as \\n'],
    ['"ab\\n\\x"', '5 an escape such as \\n'],
    ['{"a":"\\q"}', '6 an escape such as \\n'],
    ['{"a":"\\u1"}', '6 an escape such as \\n'],
    ['["\\u12"', '2 an escape such as \\n'],
    ['["\\', '3 the rest of it'],
    ['["\\u', '4 the rest of it'],
    ['["\\u12a', '7 the rest of it'],
    ['["\\u12ab', '8 the closing quote'],
  ])('%s', (text, told) => {
    expect(fault(text)).toBe(told);
    expect(() => JSON.parse(text)).toThrow();
  });
  it.each([
    'null',
    ' true ',
    '-0',
    '-1.25e+10',
    '10E-2',
    '1E5',
    '""',
    '"a\\"b\\\\\\/\\b\\f\\n\\r\\t\\u00e9"',
    '[]',
    '{}',
    '[ ]',
    '{ }',
    '[[],{},[{}]]',
    '{"a":[1,{"b":null}],"c":"d"}\r\n',
    ' {\t"a" : 1 , "b" : [ 1 , 2 ] } ',
    '"\u007f\u2028"',
  ])('nowhere in %s', (text) => {
    expect(fault(text)).toBeNull();
    expect(() => JSON.parse(text)).not.toThrow();
  });
});

describe('a text that is no line-up', () => {
  it('is opened with a mark of its order of bytes ahead of it', () => {
    const loaded = load(`\ufeff${save(site)}`);
    expect(loaded.ok && save(loaded.lineUp)).toBe(save(site));
    expect(loaded.ok && loaded.notes).toEqual([]);
  });
  it('is empty, or too large', () => {
    expect([refusal('')?.what, refusal(' \n\t')?.what, refusal(' '.repeat(10 * 1024 * 1024))?.what]).toEqual(Array(3).fill('it is empty'));
    expect(refusal('')).toMatchObject({ where: 'site.json', mend: 'Open another file, or an earlier copy of this one.' });
    expect(refusal(' '.repeat(10 * 1024 * 1024 + 1))?.what).toMatch(/^it holds 10\.0 MB/);
    expect(refusal(' '.repeat(12.5 * 1024 * 1024))?.what).toMatch(/^it holds 12\.5 MB, more than the 10 MB/);
  });
  it('is damaged at a place, or cut off', () => {
    expect(refusal('{"format" "copperline", "version": 1}')).toEqual({
      ok: false,
      where: 'site.json, line 1, column 11',
      what: 'it is not JSON from here on: a colon is expected, it says "\\"copperline\\", \\"versi"',
      mend: 'Mend the text at this place, or open an earlier copy.',
    });
    for (const text of ['{"format": "copperline"', '{"format": "copperline",  \n ', '{"format": "copper', '{"format": "copper\\u12'])
      expect([text, refusal(text)?.what, refusal(text)?.mend]).toEqual([
        text,
        'the text ends too early: the file was cut off',
        'Copy the file again, or open an earlier copy.',
      ]);
    expect(refusal('{"a":"\\q"}')?.what).toContain('an escape such as');
    expect(refusal('  {"format": x}  ')?.what).toContain('a value is expected, it says "x}  "');
  });
  it('is another kind of file altogether', () => {
    for (const text of ['PK\u0003\u0004 rows of a workbook', ' Tag,Size', '<svg/>'])
      expect(refusal(text)).toEqual({
        ok: false,
        where: 'site.json',
        what: expect.stringMatching(/^it is no line-up: it begins with "(PK|Tag,Size|<svg)/),
        mend: 'Open a file that this program saved: its name ends in .json.',
      });
  });
  it.each(['null', '3', '"text"', 'true', '[]', '[{}]'])('is %s alone', (text) =>
    expect(refusal(text)).toEqual({
      ok: false,
      where: 'site.json',
      what: 'it does not hold a line-up',
      mend: 'Open a file written by this program.',
    }),
  );
  it('says another format, or none', () => {
    const of = (text: string) => [refusal(text)?.where, refusal(text)?.what];
    expect(of('{}')).toEqual(['site.json, format', 'it says nothing where a line-up says "copperline"']);
    expect(of(withParts({ format: 'copper' }))).toEqual(['site.json, format', 'it says "copper" where a line-up says "copperline"']);
  });
  it.each([
    [undefined, 'nothing'],
    ['1', '"1"'],
    [1.5, '1.5'],
    [0, '0'],
    [-1, '-1'],
    [null, 'null'],
    [true, 'true'],
    [[1], '[1]'],
  ])('says %s for its version', (version, said) =>
    expect(refusal(withParts({ version }))).toEqual({
      ok: false,
      where: 'site.json, version',
      what: `it says ${said} where a whole number from 1 is expected`,
      mend: 'Open an earlier copy of the file.',
    }),
  );
  it('is of a newer program, which says so, or not as a number', () => {
    expect(refusal(withParts({ version: 9 }))?.what).toBe('it was written by a newer program (version 9; this one reads up to 1)');
    expect(refusal(withParts({ version: 9, minReader: '1' }))?.what).toContain('newer program');
    expect(refusal(withParts({ minReader: '1' }))?.where).toBe('site.json, minReader');
    const later = load(withParts({ version: 9, minReader: 1 }));
    expect(later.ok && later.notes.length).toBe(1);
    const shut = load(withParts({ minReader: 2 }), 'x', { tooNew: true });
    expect(shut.ok && shut.notes.map((each) => each.includes('only that may change it'))).toEqual([true]);
  });
  it('takes no name that every object has from birth', () => {
    for (const name of ['__proto__', 'constructor', 'prototype']) {
      const text = project({}).replace('"title"', `"${name}":{"polluted":1},"own":2,"title"`);
      const loaded = load(text);
      expect([name, loaded.ok && Object.hasOwn(loaded.lineUp.project, name)]).toEqual([name, false]);
      expect(loaded.ok && (loaded.lineUp.project as Record<string, unknown>)['own']).toBe(2);
    }
  });
  it('is told of without what drives a terminal, and not at length', () => {
    expect(refusal('', 'a\u001b[31m\u202eb.json')?.where).toBe('a[31mb.json');
    expect(refusal('', 'x'.repeat(400))?.where.length).toBe(300);
  });
});

describe('a value that does not fit', () => {
  const told = (text: string) => {
    const { where, what, mend } = refusal(text) ?? {};
    return { where: where?.replace('site.json, ', ''), what, mend };
  };
  it.each([
    ['a number', cable({ length_m: '3' }), 'cables[0] "w", length_m', 'a number is expected, it says "3"'],
    ['a whole number', cable({ conductor: { sets: 1.5 } }), 'cables[0] "w", conductor, sets', 'a whole number is expected, it says 1.5'],
    ['a text', project({ title: 3 }), 'project, title', 'a text is expected, it says 3'],
    ['yes or no', project({ showGrounds: 'yes' }), 'project, showGrounds', 'true or false is expected, it says "yes"'],
    ['a list', cable({ auxiliary: {} }), 'cables[0] "w", auxiliary', 'a list is expected, it says {}'],
    ['a group', cable({ grounds: 3 }), 'cables[0] "w", grounds', 'a group of named values is expected, it says 3'],
    ['a record', withParts({ positions: 3 }), 'positions', 'a group of named values is expected, it says 3'],
    ['the least', cable({ length_m: -1 }), 'cables[0] "w", length_m', 'it says -1; at least 0 is expected'],
    ['more than', project({ limits: { motorPeak_V: 0 } }), 'project, limits, motorPeak_V', 'it says 0; more than 0 is expected'],
    ['the most', project({ altitude_m: 6001 }), 'project, altitude_m', 'it says 6001; at most 6000 is expected'],
    [
      'more than can be meant',
      cable({ length_m: 1e12 }),
      'cables[0] "w", length_m',
      'it says 1000000000000, which is too large to be meant',
    ],
    [
      'less than the nearest of its limits',
      withParts({ elements: [part('supply', 's'), part('drive', 'm', { riseTime_s: 1e13 })] }),
      'elements[1] "m", riseTime_s',
      'it says 10000000000000; less than 1 is expected',
    ],
    ['a long text', project({ title: 'x'.repeat(10_001) }), 'project, title', 'it says too much; at most 10000 is expected'],
    [
      'a long list',
      withParts({ variants: Array(21).fill({ id: 'v', name: '', design: site }) }),
      'variants',
      'it says too much; at most 20 is expected',
    ],
    ['one of a list', project({ basis: 'uk' }), 'project, basis', 'it says "uk"; one of us, iec is expected'],
    [
      'a kind',
      withParts({ elements: [{ ...site.elements[0], kind: 'lamp' }] }),
      'elements[0] "s", kind',
      /^it says .*; the kind of part is not one of this format$/,
    ],
    ['a size', cable({ conductor: { size: '2AWG' } }), 'cables[0] "w", conductor, size', /^it says "2AWG"; a size reads like '2 AWG'/],
    ['an id', cable({ id: 'a b' }), 'cables[0] "w", id', /^it says "a b"; an id is 1 to 64 letters/],
    ['a name', withParts({ positions: { 'a b': { x_mm: 0, y_mm: 0 } } }), 'positions, a b', 'the name "a b" does not fit here'],
  ] as const)('%s', (_what, text, where, what) => {
    expect(told(text).where).toBe(where);
    if (typeof what === 'string') expect(told(text).what).toBe(what);
    else expect(told(text).what).toMatch(what);
    expect(told(text).mend).toMatch(/^Correct the value at this place/);
  });
  it('is a number too large to hold, wherever it stands', () => {
    const huge = (text: string) => told(text.replace('"@"', '1e999'));
    expect(huge(project({ own: '@' }))).toEqual({
      where: 'project, own',
      what: 'it says a number too large to hold, which could not be saved again',
      mend: 'Correct the number at this place, or take it out.',
    });
    expect(huge(withParts({ own: [[1, null, { a: '@' }]] })).where).toBe('own[0][2], a');
  });
});

describe('parts that do not hang together', () => {
  const kept = { ...site, cables: [bareCable('w', 's', 'gone')] };
  const { format: _format, version: _version, ...design } = kept;
  it('in the line-up, in a variant, in an issue: the place is named', () => {
    const missing = 'it lands on "gone", and no element has that id';
    expect(refusal(withParts({ cables: kept.cables }))).toMatchObject({ where: 'site.json, cable "w", to', what: missing });
    expect(refusal(withParts({ variants: [{ id: 'v1', name: 'B', design }] }))).toMatchObject({
      where: 'site.json, variant "B", cable "w", to',
      what: missing,
    });
    expect(refusal(withParts({ issues: [{ id: 'i1', revision: 'C', date: '', design }] }))).toMatchObject({
      where: 'site.json, issue "C", cable "w", to',
      what: missing,
    });
  });
  it('more cables in one raceway than can be judged beside each other, though each names few', () => {
    const chain = (count: number) =>
      withParts({
        cables: Array.from({ length: count }, (_, i) => ({ ...bareCable(`w${i}`, 's', ''), installation: { sharedWith: [`w${i + 1}`] } })),
      });
    expect(refusal(chain(1002))).toMatchObject({
      where: 'site.json, cable "w0"',
      what: '1001 others lie in its raceway; at most 1000 are expected',
      mend: 'Take names out of sharedWith.',
    });
    expect(refusal(chain(1001))).toBeNull();
  });
  it('of one id, or on a side that a part has not', () => {
    expect(refusal(withParts({ cables: [bareCable('m', 's', '')] }))).toMatchObject({
      where: 'site.json, "m"',
      what: 'its id "m" is also that of "m"',
    });
    expect(refusal(withParts({ cables: [{ ...bareCable('w', 's', ''), to: { element: 'm', port: 'load' } } as Cable] }))).toMatchObject({
      where: 'site.json, cable "w", to',
      what: 'a motor has no load side',
      mend: 'Land it on the line side.',
    });
  });
});
