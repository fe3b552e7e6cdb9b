import { describe, expect, it } from 'vitest';
import { type Cable, type Element, type LineUp, newLineUp } from '../../../engine/index.ts';
import { illegal, type PortAt } from '../../../engine/lineup/joins.ts';
import { remove } from '../../../engine/lineup/remove.ts';
import { halvesOf, takeOut } from '../../../engine/lineup/takeOut.ts';
import { bareCable, barePart as part } from '../bareParts.ts';

/** Where a cable may land, what goes with a part, and one cable made of two: asked value by value. */

const PARTS: readonly Element[] = [
  part('supply', 's'),
  part('supply', 't'),
  part('bus', 'b'),
  part('disconnect', 'q'),
  part('drive', 'd'),
  part('drive', 'e'),
  part('motor', 'm'),
  part('motor', 'n'),
];
const lineUpOf = (cables: readonly Cable[], more: Partial<LineUp> = {}): LineUp => ({
  ...newLineUp(),
  elements: [...PARTS],
  cables: [...cables],
  ...more,
});
const [first, second] = [bareCable('a', 'b', 'q:line'), bareCable('z', 'q:load', 'd:line')];

describe('a cable may not join', () => {
  const at = (place: string): PortAt => {
    const [element = '', port = 'line'] = place.split(':');
    return { element, port: port as PortAt['port'] };
  };
  const why = (from: string, to: string) => illegal(lineUpOf([]), at(from), at(to));
  it.each([
    ['b', 'b', /two different parts/],
    ['b', 'gone', /is gone/],
    ['gone', 'b', /is gone/],
    ['s', 't', /Two supplies/],
    ['m', 'n', /not from another motor/],
    ['s', 'd:load', /Mains on the output/],
    ['d:load', 's', /Mains on the output/],
    ['d:load', 'e:line', /behind another drive/],
    ['e:line', 'd:load', /behind another drive/],
    ['d:load', 'e:load', /behind another drive/],
  ] as const)('%s to %s', (from, to, reason) => expect(why(from, to)).toMatch(reason));
  it.each([
    ['s', 'b'],
    ['s', 'd:line'],
    ['s', 'm'],
    ['m', 's'],
    ['d:load', 'm'],
    ['m', 'd:load'],
    ['d:load', 'b'],
    ['d:line', 'e:line'],
    ['q:load', 'd:line'],
    ['b:load', 's'],
  ])('but may %s to %s', (from, to) => expect(why(from, to)).toBeNull());
});

describe('what is removed', () => {
  const noted = lineUpOf([first, second, bareCable('l', 'b', '')], {
    positions: { b: { x_mm: 0, y_mm: 0 }, q: { x_mm: 0, y_mm: 9 } },
    labels: { a: { dx_mm: 1, dy_mm: 1 }, d: { dx_mm: 2, dy_mm: 2 } },
    notes: [{ id: 'n1', says: 'x', parts: ['q', 'a', 'd'] }],
  });
  it('is a part with what lands on it at either end, its place, its label and what points to it', () => {
    const left = remove(noted, ['q']);
    expect(left.elements.map(({ id }) => id).join('')).toBe('stbdemn');
    expect(left.cables.map(({ id }) => id)).toEqual(['l']);
    expect([left.positions, left.labels, left.notes]).toEqual([
      { b: { x_mm: 0, y_mm: 0 } },
      { d: { dx_mm: 2, dy_mm: 2 } },
      [{ id: 'n1', says: 'x', parts: ['d'] }],
    ]);
  });
  it('may be a cable alone, a free end too, and nothing leaves the document as it is', () => {
    expect(remove(noted, ['l']).cables.map(({ id }) => id)).toEqual(['a', 'z']);
    expect(remove(noted, ['l']).elements.length).toBe(PARTS.length);
    expect(remove(noted, ['none'])).toBe(noted);
    expect(remove(noted, [])).toBe(noted);
  });
});

describe('a part in a line', () => {
  const halves = (...cables: readonly Cable[]) => {
    const found = halvesOf(lineUpOf(cables), 'q');
    return found && `${found.element.id} ${found.first.id} ${found.second.id}`;
  };
  it('has two cables, that may be joined without it', () => {
    expect(halves(first, second)).toBe('q a z');
    expect(halves(bareCable('y', 's', 't'), second, first)).toBe('q z a');
  });
  it.each([
    ['one cable', [first]],
    ['none', []],
    ['three', [first, second, bareCable('y', 'q:load', 'm')]],
    ['a free end', [first, bareCable('z', 'q:load', '')]],
    ['a free end ahead', [bareCable('a', '', 'q:line'), second]],
    ['a cable that comes back to it', [first, bareCable('z', 'q:load', 'q:line')]],
    ['the same part on both sides', [first, bareCable('z', 'q:load', 'b')]],
    ['two supplies', [bareCable('a', 's', 'q:line'), bareCable('z', 'q:load', 't')]],
  ] as const)('not with %s', (_what, cables) => {
    expect(halves(...cables)).toBeNull();
    expect(takeOut(lineUpOf(cables), 'q')).toBeNull();
  });
  it('lands on the usual side where none is said: ahead of a part on its load, behind it on its line side', () => {
    // From the output of one drive to the input of another, which a drive may not feed.
    expect(halves(bareCable('a', 'd', 'q:line'), bareCable('z', 'q:load', 'e'))).toBeNull();
    expect(halves(bareCable('a', 'd:line', 'q:line'), bareCable('z', 'q:load', 'e:line'))).toBe('q a z');
  });
  it('that is not there has none', () => expect(halvesOf(lineUpOf([first, second]), 'gone')).toBeNull());
});

describe('one cable of two', () => {
  const rich = (cable: Cable, more: object = {}): Cable => ({
    ...cable,
    conductor: { size: '2 AWG', metal: 'copper', sets: 1 },
    insulation: { type: 'XHHW-2' },
    installation: { raceway: 'tray', ambient_C: 30 },
    ...more,
  });
  const taken = (a: Cable, z: Cable, more: Partial<LineUp> = {}) => {
    const made = takeOut(lineUpOf([a, z], more), 'q');
    if (!made) throw new Error('not taken out');
    return made;
  };
  const ends = ({ cable }: { cable: Cable }) => [cable.from.element, cable.to.element];
  const end = (element: string, landing: string) => ({ element, landing }) as Cable['from'];

  it('runs as the one that leads to the part, whichever stands first', () => {
    expect([ends(taken(first, second)), ends(taken(second, first))]).toEqual([
      ['b', 'd'],
      ['b', 'd'],
    ]);
    expect(taken(second, first).cable.id).toBe('a');
    expect(taken(second, first).lineUp.cables.map(({ id }) => id)).toEqual(['a']);
  });
  it('may be of two that are drawn toward each other, or away', () => {
    const toward = taken({ ...first, from: end('b', 'clamp') }, { ...bareCable('z', '', 'q:load'), from: end('d', 'full') });
    expect([toward.cable.from, toward.cable.to]).toEqual([end('b', 'clamp'), end('d', 'full')]);
    const away = taken({ ...bareCable('a', 'q:line', ''), to: end('b', 'clamp') }, { ...second, to: end('d', 'full') });
    expect(ends(away).sort()).toEqual(['b', 'd']);
    expect([away.cable.from, away.cable.to]).toEqual(expect.arrayContaining([end('b', 'clamp'), end('d', 'full')]));
  });
  it('stands where the first of them stood, the others as they were', () => {
    const others = [bareCable('x', 's', 'b'), bareCable('y', 'e:load', 'm')];
    const made = takeOut(lineUpOf([...others.slice(0, 1), second, ...others.slice(1), first]), 'q');
    expect(made?.lineUp.cables.map(({ id }) => id)).toEqual(['x', 'a', 'y']);
    expect(made?.lineUp.elements.some(({ id }) => id === 'q')).toBe(false);
    const ahead = takeOut(lineUpOf([first, ...others, second]), 'q');
    expect(ahead?.lineUp.cables.map(({ id }) => id)).toEqual(['a', 'x', 'y']);
  });
  it('says what both say, and asks for what they say differently, or one alone', () => {
    const made = taken(
      rich(first, { construction: 'copper-tape', note: 'dry', insulation: { type: 'XHHW-2', wall_mm: 1 } }),
      rich(second, { construction: 'multicore', wave: { impedance_ohm: 80 }, insulation: { type: 'XHHW-2', wall_mm: 2 } }),
    );
    expect(made.cable).toMatchObject({
      conductor: { size: '2 AWG', metal: 'copper', sets: 1 },
      installation: { raceway: 'tray', ambient_C: 30 },
    });
    expect(made.cable.insulation).toEqual({ type: 'XHHW-2' });
    expect([...made.asked].sort()).toEqual(['construction', 'insulation.wall_mm', 'length_m', 'note', 'wave']);
    expect([made.cable.construction, made.cable.note, made.cable.wave]).toEqual([undefined, undefined, undefined]);
    expect(taken({ ...first, length_m: 1 }, { ...second, length_m: 2 }).asked).toEqual([]);
  });
  it('takes lists as one value', () => {
    const sharing = (of: Cable, list: string[]) => rich(of, { installation: { sharedWith: list } });
    expect(taken(sharing(first, ['y']), sharing(second, ['y'])).cable.installation.sharedWith).toEqual(['y']);
    const made = taken(sharing(first, ['y']), sharing(second, ['x']));
    expect([made.cable.installation.sharedWith, made.asked.includes('installation.sharedWith')]).toEqual([undefined, true]);
  });
  it('holds the cores of both, alike ones once', () => {
    const [brake, sensor] = [{ use: 'brake' }, { use: 'thermistor', screened: true }] as const;
    const cores = (a: Cable['auxiliary'], z: Cable['auxiliary']) =>
      taken({ ...first, auxiliary: a }, { ...second, auxiliary: z }).cable.auxiliary;
    expect(cores([brake], [brake, sensor])).toEqual([brake, sensor]);
    expect(cores([brake, sensor], [])).toEqual([brake, sensor]);
    expect(cores([], [sensor])).toEqual([sensor]);
    expect(cores([brake], [sensor])).toEqual([brake, sensor]);
  });
  it('is as long as both, and its range is that of both together', () => {
    const lengths = (a: object, z: object) => {
      const { cable, asked } = taken({ ...first, ...a }, { ...second, ...z });
      return [cable.length_m, cable.lengthMost_m, asked.includes('length_m')];
    };
    expect(lengths({ length_m: 0.1 }, { length_m: 0.2 })).toEqual([0.3, undefined, false]);
    expect(lengths({ length_m: 10, lengthMost_m: 12 }, { length_m: 5 })).toEqual([15, 17, false]);
    expect(lengths({ length_m: 10 }, { length_m: 5, lengthMost_m: 8 })).toEqual([15, 18, false]);
    expect(lengths({ length_m: 10, lengthMost_m: 12 }, { length_m: 5, lengthMost_m: 8 })).toEqual([15, 20, false]);
    expect(lengths({ length_m: 10, lengthMost_m: 12 }, {})).toEqual([undefined, undefined, true]);
    expect(lengths({}, { length_m: 10 })).toEqual([undefined, undefined, true]);
    expect('lengthMost_m' in taken(first, second).cable).toBe(false);
  });
  it('keeps on whose word a value stands where both have it from there, and nobody’s of a value that is gone', () => {
    const word = (of: Cable, provenance: NonNullable<Cable['provenance']>) => rich(of, { provenance });
    const made = taken(
      word(first, {
        'conductor.size': { origin: 'manual', page: '7' },
        'conductor.metal': { origin: 'assumed' },
        'insulation.type': { typed: 'xhhw-2' },
        'installation.method': { origin: 'assumed' },
      }),
      word(second, {
        'conductor.size': { origin: 'manual', page: '7' },
        'conductor.metal': { origin: 'measured' },
        'installation.method': { origin: 'assumed' },
      }),
    );
    expect(made.cable.provenance).toEqual({ 'conductor.size': { origin: 'manual', page: '7' } });
    expect(taken(rich(first), word(second, { 'conductor.size': { origin: 'manual' } })).cable.provenance).toEqual({});
    expect(taken(word(first, { 'conductor.size': { origin: 'manual' } }), rich(second)).cable.provenance).toEqual({});
  });
  it('keeps on whose word its outer ends are landed, by the end that they are now', () => {
    const inner = { 'to.landing': { origin: 'measured' as const } };
    const a: Cable = { ...first, from: end('b', 'clamp'), provenance: { 'from.landing': { origin: 'assumed' }, ...inner } };
    const z: Cable = {
      ...second,
      to: end('d', 'full'),
      provenance: { 'from.landing': { origin: 'measured' }, 'to.landing': { origin: 'manual' } },
    };
    const said = { 'from.landing': { origin: 'assumed' }, 'to.landing': { origin: 'manual' } };
    expect(taken(a, z).cable.provenance).toEqual(said);
    const turned: Cable = {
      ...bareCable('z', '', 'q:load'),
      from: end('d', 'full'),
      provenance: { 'from.landing': { origin: 'manual' }, ...inner },
    };
    expect(taken(a, turned).cable.provenance).toEqual(said);
  });
  it('of a length that one half assumed is assumed; of one that somebody typed nothing is typed', () => {
    type Word = NonNullable<Cable['provenance']>[string];
    const origin = (a: Word | undefined, z: Word | undefined) => {
      const half = (of: Cable, said: Word | undefined): Cable => ({
        ...of,
        length_m: 5,
        ...(said && { provenance: { length_m: said } }),
      });
      return taken(half(first, a), half(second, z)).cable.provenance?.['length_m'];
    };
    expect(origin({ origin: 'assumed' }, { origin: 'measured' })).toEqual({ origin: 'assumed' });
    expect(origin(undefined, { origin: 'assumed' })).toEqual({ origin: 'assumed' });
    expect(origin({ origin: 'measured', typed: '5 m' }, { origin: 'measured', typed: '5 m' })).toEqual({ origin: 'measured' });
    expect(origin({ origin: 'measured' }, { typed: '5 m' })).toBeUndefined();
    expect(origin({ typed: '5 m' }, undefined)).toBeUndefined();
    const unknown = taken(
      { ...first, provenance: { length_m: { origin: 'assumed' } } },
      { ...second, provenance: { length_m: { origin: 'assumed' } } },
    );
    expect(unknown.cable.provenance).toEqual({});
  });
  it('was never looked at on site', () => {
    const built = { asBuilt: { length_m: 9 } };
    expect('asBuilt' in taken({ ...first, ...built }, { ...second, ...built }).cable).toBe(false);
  });
  it('with a link stays as it is, landed on what lies behind the link', () => {
    const link = { ...bareCable('a', 'b', 'q:line'), kind: 'link' as const };
    const cable = rich({ ...second, from: { element: 'q', port: 'load', landing: 'full' } }, { length_m: 30, asBuilt: { length_m: 31 } });
    const made = taken(link, cable, { labels: { a: { dx_mm: 1, dy_mm: 1 }, z: { dx_mm: 2, dy_mm: 2 } } });
    expect(made.lineUp.labels).toEqual({ z: { dx_mm: 2, dy_mm: 2 } });
    const { asBuilt: _asBuilt, ...kept } = cable;
    expect(made.cable).toEqual({ ...kept, from: { element: 'b', port: undefined, landing: 'full' } });
    expect(made.asked).toEqual([]);
    expect(made.lineUp.cables.map(({ id }) => id)).toEqual(['z']);
    const behind = taken(rich(first, { length_m: 30 }), { ...second, kind: 'link' as const });
    expect([behind.cable.id, behind.cable.to, behind.cable.length_m]).toEqual(['a', { element: 'd', port: 'line' }, 30]);
    // A link that is drawn toward the part.
    const turned = taken(rich(first), { ...bareCable('z', 'd:line', 'q:load'), kind: 'link' as const });
    expect(turned.cable.to).toEqual({ element: 'd', port: 'line' });
  });
  it('of two links is one, and no length is asked of it', () => {
    const made = taken({ ...first, kind: 'link' }, { ...second, kind: 'link' });
    expect([made.cable.kind, made.asked, ends(made)]).toEqual(['link', [], ['b', 'd']]);
  });
  it('is what pointed to either: notes, its label, and cables in the same raceway', () => {
    const other = { ...bareCable('y', 's', 'b'), installation: { sharedWith: ['z', 'x'] } };
    const alone = { ...bareCable('x', 's', 'b'), installation: { sharedWith: ['y'] } };
    const site = lineUpOf([other, alone, first, second], {
      notes: [
        { id: 'n1', says: 'x', parts: ['a', 'q', 'z', 'd'] },
        { id: 'n2', says: 'y' },
        { id: 'n3', says: 'z', parts: ['b'] },
        { id: 'n4', says: 'u', parts: ['z'] },
      ],
      labels: { a: { dx_mm: 1, dy_mm: 2 }, z: { dx_mm: 3, dy_mm: 4 }, q: { dx_mm: 5, dy_mm: 6 } },
    });
    const { lineUp } = takeOut(site, 'q') ?? { lineUp: site };
    expect(lineUp.notes).toEqual([
      { id: 'n1', says: 'x', parts: ['a', 'd'] },
      { id: 'n2', says: 'y' },
      { id: 'n3', says: 'z', parts: ['b'] },
      { id: 'n4', says: 'u', parts: ['a'] },
    ]);
    expect(lineUp.labels).toEqual({ a: { dx_mm: 1, dy_mm: 2 } });
    expect(lineUp.cables.map(({ installation }) => installation.sharedWith)).toEqual([['a', 'x'], ['y'], undefined]);
    expect('notes' in taken(first, second).lineUp).toBe(false);
  });
});
