import { describe, expect, it } from 'vitest';
import { applyFix, changed } from '../../../engine/checks/applyFix.ts';
import type { Fix } from '../../../engine/checks/finding.ts';
import { newLineUp } from '../../../engine/index.ts';
import type { Cable } from '../../../engine/lineup/cable.ts';
import type { LineUp } from '../../../engine/lineup/lineUp.ts';
import { barePart, bareCable as loose } from '../bareParts.ts';

/** The document with a fix made, seen part by part: s ── f ── d ── w ── m, drawn at 0, 100, 200 mm. */

const CABLE: Cable = {
  ...loose('w', 'd:load', 'm'),
  conductor: { size: '2 AWG', metal: 'copper', sets: 1 },
  length_m: 60,
  provenance: { length_m: { origin: 'measured' } },
};
const SITE: LineUp = {
  ...newLineUp('us'),
  elements: [barePart('supply', 's'), barePart('drive', 'd', { ratedVoltage_V: 480, frontEnd: 'diode' }), barePart('motor', 'm')],
  cables: [loose('f', 's', 'd:line'), CABLE],
  positions: { s: { x_mm: 0, y_mm: 0 }, d: { x_mm: 0, y_mm: 100 }, m: { x_mm: 40, y_mm: 200 } },
};
const fixed = (fix: Partial<Fix>, site = SITE): LineUp => applyFix(site, { label: 'x', edits: [], ...fix });
const element = ({ elements }: LineUp, id: string) => elements.find((each) => each.id === id);
const cable = ({ cables }: LineUp, id: string) => cables.find((each) => each.id === id);
/** 'd:load → m': what each cable joins. */
const ways = ({ cables }: LineUp): readonly string[] =>
  cables.map(({ id, kind, from, to }) => `${kind} ${id}: ${from.element}:${from.port} → ${to.element}:${to.port}`);

describe('a value', () => {
  it('is set or taken out in the part that is named, and in no other', () => {
    const found = fixed({
      edits: [
        { id: 'd', path: 'ratedVoltage_V', value: 690 },
        { id: 'd', path: 'frontEnd', value: null },
        { id: 'w', path: 'conductor.size', value: '1 AWG' },
        { id: 'gone', path: 'tag', value: 'x' },
      ],
    });
    expect(element(found, 'd')).toEqual(barePart('drive', 'd', { ratedVoltage_V: 690 }));
    expect(cable(found, 'w')?.conductor).toEqual({ size: '1 AWG', metal: 'copper', sets: 1 });
    expect([element(found, 'm') === element(SITE, 'm'), cable(found, 'f') === cable(SITE, 'f')]).toEqual([true, true]);
  });
  it('no longer comes from where the old one came', () => {
    const told = { ...CABLE, provenance: { length_m: { origin: 'measured' as const }, 'conductor.size': { origin: 'manual' as const } } };
    expect(changed(told, [{ id: 'w', path: 'length_m', value: 50 }])).toEqual({
      ...told,
      length_m: 50,
      provenance: { 'conductor.size': { origin: 'manual' } },
    });
    expect(changed(told, [])).toBe(told);
    expect('provenance' in changed(loose('f', 's', 'd:line'), [{ id: 'f', path: 'length_m', value: 50 }])).toBe(false);
  });
});

describe('a part that goes', () => {
  const q = barePart('disconnect', 'q');
  const with_: LineUp = {
    ...SITE,
    elements: [...SITE.elements, q],
    cables: [
      loose('f', 's', 'd:line'),
      { ...CABLE, to: { element: 'q', port: 'line' } },
      { ...CABLE, id: 'v', tag: 'v', from: { element: 'q', port: 'load' } },
    ],
  };
  it('is removed with what lands on it', () => {
    const found = fixed({ removes: ['m'] });
    expect([found.elements.map(({ id }) => id), ways(found)]).toEqual([['s', 'd'], ['cable f: s:undefined → d:line']]);
  });
  it('is taken out of its line, which becomes one; and one that is in none stays', () => {
    const found = fixed({ takesOut: ['q'], edits: [{ id: 'w', path: 'length_m', value: 7 }] }, with_);
    expect([element(found, 'q'), ways(found).length, ways(found)[1]]).toEqual([undefined, 2, 'cable w: d:load → m:undefined']);
    // Changed after it is whole.
    expect(cable(found, 'w')?.length_m).toBe(7);
    expect(fixed({ takesOut: ['m', 'nobody'] })).toEqual(SITE);
  });
});

describe('a new part', () => {
  const insert = (more: Partial<NonNullable<Fix['inserts']>[number]> = {}, site = SITE) =>
    fixed({ inserts: [{ kind: 'reactor', values: { impedance_pct: 3 }, cable: 'w', end: 'from', port: 'load', ...more }] }, site);
  it('at the drive: what it stood on leads to it by a link, and the cable goes on from its load side', () => {
    const found = insert();
    const added = found.elements.at(-1);
    expect([added?.kind, added && 'impedance_pct' in added && added.impedance_pct, added?.provenance]).toEqual([
      'reactor',
      3,
      { impedance_pct: { origin: 'assumed' } },
    ]);
    const id = added?.id ?? '';
    const joint = found.cables.at(-1);
    expect(ways(found)).toEqual([
      'cable f: s:undefined → d:line',
      `cable w: ${id}:load → m:undefined`,
      `link ${joint?.id}: d:load → ${id}:line`,
    ]);
    expect([joint?.conductor, joint?.installation, joint?.provenance]).toEqual([{}, {}, {}]);
    expect([found.positions[id], cable(found, 'w')?.length_m]).toEqual([{ x_mm: 20, y_mm: 150 }, 60]);
    expect(SITE.elements.some((each) => each.id === id)).toBe(false);
  });
  it('at the motor: the cable ends on its line side, and a link leads on', () => {
    const found = insert({ end: 'to', port: 'line', kind: 'filter', values: {} });
    const id = found.elements.at(-1)?.id ?? '';
    expect(ways(found).slice(1)).toEqual([`cable w: d:load → ${id}:line`, `link ${found.cables.at(-1)?.id}: ${id}:load → m:line`]);
  });
  it('joined by a short piece of the same cable, with values of its own that are assumed', () => {
    const landed = {
      ...SITE,
      cables: [loose('f', 's', 'd:line'), { ...CABLE, from: { element: 'd', port: 'load' as const, landing: 'clamp' as const } }],
    };
    const found = insert({ tail: { length_m: 2, 'conductor.sets': null } }, landed);
    const [joint, id] = [found.cables.at(-1), found.elements.at(-1)?.id ?? ''];
    expect(joint).toMatchObject({ kind: 'cable', length_m: 2, conductor: { size: '2 AWG', metal: 'copper' } });
    expect([joint?.conductor.sets, joint?.provenance]).toEqual([undefined, { length_m: { origin: 'assumed' } }]);
    expect([joint?.from, joint?.to]).toEqual([
      { element: 'd', port: 'load', landing: 'clamp' },
      // As the whole was: so it is proposed.
      { element: id, port: 'line', landing: 'clamp' },
    ]);
    expect([joint?.id === 'w', joint?.tag === 'w', cable(found, 'w')?.length_m]).toEqual([false, false, 60]);
    // The end that was landed stays so, on the new part.
    expect(cable(found, 'w')?.from).toEqual({ element: id, port: 'load', landing: 'clamp' });
  });
  it('leaves nothing recorded of a cable that now ends elsewhere, nor of a piece that nobody has seen', () => {
    const seen = { ...CABLE, asBuilt: { length_m: 61 } };
    const found = insert(
      { tail: { length_m: 2 } },
      { ...SITE, cables: [{ ...loose('f', 's', 'd:line'), asBuilt: { length_m: 5 } }, seen] },
    );
    expect(found.cables.map(({ asBuilt }) => asBuilt)).toEqual([{ length_m: 5 }, undefined, undefined]);
  });
  it('into a cable that is not there or leads nowhere goes nowhere', () => {
    expect(insert({ cable: 'nobody' })).toEqual(SITE);
    const open = { ...SITE, cables: [loose('f', 's', 'd:line'), { ...CABLE, to: {} }] };
    expect(insert({ end: 'to', port: 'line' }, open)).toEqual(open);
    // The end that lands is enough, and where it then stands nobody knows.
    const found = insert({}, open);
    expect([found.elements.length, found.positions]).toEqual([4, SITE.positions]);
  });
  it('several follow one another, each with an id of its own', () => {
    const one = { kind: 'reactor', values: {}, cable: 'w', end: 'from', port: 'load' } as const;
    const found = fixed({ inserts: [one, { ...one, kind: 'filter' }] });
    expect([
      new Set([...found.elements, ...found.cables].map(({ id }) => id)).size,
      found.elements.slice(3).map(({ kind }) => kind),
    ]).toEqual([9, ['reactor', 'filter']]);
  });
});

describe('a part that is moved', () => {
  const x = barePart('reactor', 'x', { impedance_pct: 3, enclosure: 'E', provenance: { enclosure: { origin: 'measured' } } });
  const ahead: LineUp = {
    ...SITE,
    elements: [...SITE.elements, x],
    cables: [loose('a', 's', 'x:line'), loose('f', 'x:load', 'd:line'), CABLE],
    positions: { ...SITE.positions, x: { x_mm: 0, y_mm: 50 } },
  };
  const move = (more: object = {}, site = ahead) =>
    fixed({ moves: [{ id: 'x', beside: 'd', port: 'load', asks: ['enclosure'], ...more }] }, site);
  it('leaves its line and stands beside the other, without what held of its old place', () => {
    const found = move();
    expect(element(found, 'x')).toEqual({ ...barePart('reactor', 'x', { impedance_pct: 3 }), provenance: {} });
    expect(ways(found).map((way) => way.replace(/^link \S+:/, 'link'))).toEqual([
      'cable a: s:undefined → d:line',
      'cable w: x:load → m:undefined',
      'link d:load → x:line',
    ]);
    expect(found.positions.x).toEqual({ x_mm: 20, y_mm: 150 });
  });
  it('on the line side too, where the cable ends', () => {
    const behind: LineUp = {
      ...SITE,
      elements: [...SITE.elements, x],
      cables: [loose('f', 's', 'd:line'), loose('a', 'd:load', 'x:line'), loose('w', 'x:load', 'm')],
    };
    expect(ways(move({ port: 'line' }, behind)).map((way) => way.replace(/^link \S+:/, 'link'))).toEqual([
      'cable f: s:undefined → x:line',
      'cable a: d:load → m:undefined',
      'link x:load → d:line',
    ]);
  });
  it('stays where it is not there, in no line, or where no one cable lands where it is to stand', () => {
    expect(move({ id: 'nobody' })).toEqual(ahead);
    expect(move({ id: 'm' })).toEqual(ahead);
    expect(move({ beside: 'nobody' })).toEqual(ahead);
    const two = { ...ahead, cables: [...ahead.cables, loose('v', 'd:load', '')] };
    expect(move({}, two)).toEqual(two);
    const bare = { ...ahead, cables: ahead.cables.slice(0, 2) };
    expect(move({}, bare)).toEqual(bare);
  });
});
