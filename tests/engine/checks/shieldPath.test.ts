import { describe, expect, it } from 'vitest';
import { carrierOf, traceShield } from '../../../engine/checks/shieldPath.ts';
import type { Cable } from '../../../engine/lineup/cable.ts';
import type { Element, ElementOf } from '../../../engine/lineup/elements.ts';
import { CABLE, DRIVE, MOTOR } from './scopes.ts';

/** The way of the shield, traced by hand: it is whole where every end is landed and every box joins two landed shields. */

type Landing = Cable['from']['landing'];
const shielded = (id: string, from: Landing = 'full', to: Landing = 'full'): Cable => ({
  ...CABLE,
  id,
  tag: id,
  construction: 'copper-tape',
  installation: { raceway: 'tray' },
  from: { landing: from },
  to: { landing: to },
});
const unlanded = { from: {}, to: {}, construction: 'multicore' } as const;
const bare = (id: string): Cable => ({ ...shielded(id), ...unlanded });
const unknown = (id: string): Cable => ({ ...bare(id), installation: {} });
const link = (id: string): Cable => ({ ...bare(id), kind: 'link' });
const box = (id: string, more: Partial<ElementOf<'junction'>> = {}): Element => ({ id, kind: 'junction', tag: id, ...more });
const METAL = { box: 'metal' } as const;
/** Cables and the boxes between them; each drawn from the drive on, unless turned about. */
const trace = (cables: readonly Cable[], boxes: readonly Element[] = [], turned: readonly string[] = []) =>
  traceShield(
    DRIVE,
    cables.map((cable, i) => ({ cable, nearEnd: turned.includes(cable.id) ? 'to' : 'from', far: boxes[i] ?? MOTOR })),
  );
/** What breaks it: state, where, and which ends. */
const said = (...way: Parameters<typeof trace>) =>
  trace(...way).breaks.map(({ state, elementId, ends }) => [
    state,
    elementId,
    ends.map(({ cableId, end }) => `${cableId}.${end}`).join(' '),
  ]);

describe('what carries the return current', () => {
  const of = (construction: Cable['construction'], raceway: Cable['installation']['raceway']) =>
    carrierOf({ ...CABLE, construction, installation: { raceway } } as Cable);
  it('is a shield or an armour, in whatever it lies', () => {
    for (const construction of ['foil-and-braid', 'copper-tape', 'corrugated-armour', 'interlocked-armour'] as const)
      expect([of(construction, 'plastic-conduit'), of(construction, undefined)]).toEqual(['shield', 'shield']);
  });
  it('is else a metal raceway, whatever lies in it', () => {
    for (const raceway of ['steel-conduit', 'aluminium-conduit', 'flexible-metal'] as const)
      expect([of('singles', raceway), of(undefined, raceway)]).toEqual(['raceway', 'raceway']);
  });
  it('is none in tray, plastic, or free; and not known while build or raceway is not', () => {
    for (const raceway of ['tray', 'ladder', 'plastic-conduit', 'buried-duct', 'none'] as const)
      expect(of('multicore', raceway)).toBe('none');
    expect([of(undefined, 'tray'), of('singles', undefined), of(undefined, undefined)]).toEqual(['unknown', 'unknown', 'unknown']);
  });
  it('is the enclosure for what is connected inside one', () => expect(carrierOf(link('L'))).toBe('raceway'));
});

describe('the way of the shield', () => {
  it('inside one enclosure, or of one landed cable, is whole', () => {
    const whole = { state: 'continuous', breaks: [], bare: [] };
    expect([trace([]), trace([link('L')]), trace([link('L'), link('N')], [box('B')])]).toEqual([whole, whole, whole]);
    expect([trace([shielded('A')]), trace([shielded('A', 'pigtail', 'clamp')])]).toEqual([whole, whole]);
  });
  it('is none where no cable has any, links or not', () => {
    const none = { state: 'none', breaks: [], bare: [] };
    expect([trace([bare('A')]), trace([link('L'), bare('A')], [box('B')]), trace([bare('A'), bare('C')], [box('B')])]).toEqual([
      none,
      none,
      none,
    ]);
  });
  it('stops at the drive or the motor where the outer end is cut back, and is open where nobody said', () => {
    expect(said([shielded('A', 'none')])).toEqual([['broken', 'e1', 'A.from']]);
    expect(said([shielded('A', 'full', 'none')])).toEqual([['broken', 'e2', 'A.to']]);
    expect(said([{ ...shielded('A'), from: {} }])).toEqual([['open', 'e1', 'A.from']]);
    expect(said([{ ...shielded('A'), to: {} }])).toEqual([['open', 'e2', 'A.to']]);
    expect([trace([shielded('A', 'none')]).state, trace([{ ...shielded('A'), to: {} }]).state]).toEqual(['broken', 'open']);
    expect(trace([{ ...shielded('A', 'none'), to: {} }]).state).toBe('broken');
  });
  it('of a cable drawn from the motor on is the same, its ends turned about', () => {
    expect(said([shielded('A', 'none')], [], ['A'])).toEqual([['broken', 'e2', 'A.from']]);
    expect(said([shielded('A', 'full', 'none')], [], ['A'])).toEqual([['broken', 'e1', 'A.to']]);
  });
  it('passes a metal box or a bond bar, stops in plastic, and is open in a box of no known make', () => {
    const through = (more: Partial<ElementOf<'junction'>>) => said([shielded('A'), shielded('C')], [box('B', more)]);
    expect([through(METAL), through({ bondBar: true }), through({ box: 'plastic', bondBar: true })]).toEqual([[], [], []]);
    for (const more of [{ box: 'plastic' }, { box: 'plastic', bondBar: false }] as const)
      expect(through(more)).toEqual([['broken', 'B', 'A.to C.from']]);
    for (const more of [{}, { bondBar: false }]) expect(through(more)).toEqual([['open', 'B', 'A.to C.from']]);
  });
  it('in a box names only the ends that stop, or that nobody spoke of', () => {
    expect(said([shielded('A', 'full', 'none'), shielded('C')], [box('B', METAL)])).toEqual([['broken', 'B', 'A.to']]);
    expect(said([shielded('A'), shielded('C', 'none')], [box('B', { box: 'plastic' })])).toEqual([['broken', 'B', 'C.from']]);
    expect(said([{ ...shielded('A'), to: {} }, shielded('C')], [box('B')])).toEqual([['open', 'B', 'A.to']]);
    expect(said([{ ...shielded('A'), to: {} }, shielded('C', 'none')], [box('B', METAL)])).toEqual([['broken', 'B', 'C.from']]);
  });
  it('asks a box between cable and link what it is made of, but not one between two links', () => {
    expect(said([link('L'), shielded('A')], [box('B')])).toEqual([['open', 'B', 'L.to A.from']]);
    expect(said([link('L'), link('N'), shielded('A')], [box('B'), box('D', METAL)])).toEqual([]);
  });
  it('is broken by what is bare between others, piece by piece, whose box needs no joint', () => {
    const way = trace([shielded('A'), bare('X'), bare('Y'), shielded('C'), bare('Z')], [box('1'), box('2'), box('3'), box('4')]);
    expect(way.state).toBe('broken');
    expect(way.bare.map((piece) => piece.map((cable) => cable.id))).toEqual([['X', 'Y'], ['Z']]);
    expect(way.breaks.map(({ state, elementId, ends }) => [state, elementId, ends.map(({ cableId, end }) => `${cableId}.${end}`)])).toEqual(
      [
        ['broken', null, ['X.from', 'X.to', 'Y.from', 'Y.to']],
        ['broken', null, ['Z.from', 'Z.to']],
      ],
    );
    expect(trace([bare('X'), shielded('A')], [box('1')]).bare.map((piece) => piece.map((cable) => cable.id))).toEqual([['X']]);
    // What ends beside a bare piece must be landed all the same.
    expect(said([shielded('A', 'full', 'none'), bare('X')], [box('1', METAL)])).toEqual([
      ['broken', null, 'X.from X.to'],
      ['broken', '1', 'A.to'],
    ]);
  });
  it('is open at a cable of no known build, and asks no landing of it', () => {
    expect(said([unknown('U')])).toEqual([['open', null, 'U.from']]);
    expect(said([unknown('U')], [], ['U'])).toEqual([['open', null, 'U.to']]);
    expect(said([shielded('A'), unknown('U'), shielded('C')], [box('1'), box('2')])).toEqual([['open', null, 'U.from']]);
    expect(trace([shielded('A'), unknown('U')], [box('1')])).toMatchObject({ state: 'open', bare: [] });
  });
});
