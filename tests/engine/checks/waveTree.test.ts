import { describe, expect, it } from 'vitest';
import { hopsTo, makersWord, type WaveTree, waveTree } from '../../../engine/checks/waveTree.ts';
import type { Cable } from '../../../engine/lineup/cable.ts';
import type { Element } from '../../../engine/lineup/elements.ts';
import { buildNetwork } from '../../../engine/network/network.ts';
import { barePart, bareCable as loose } from '../bareParts.ts';

/** What waves run through, of small networks drawn by hand: lines between numbered points, what stands ahead of point 0, what is at the ends. */

const line = (id: string, from: string, to: string, more: Partial<Cable> = {}): Cable => ({
  ...loose(id, from, to),
  length_m: 10,
  ...more,
});
const link = (id: string, from: string, to: string): Cable => ({ ...loose(id, from, to), kind: 'link' });
const filter = (id: string, role: string, more: object = {}): Element => barePart('filter', id, { role, ...more });

/** All behind the drive 'd'. */
function treeOf(parts: readonly Element[], cables: readonly Cable[]): WaveTree {
  const elements = [barePart('supply', 's'), barePart('drive', 'd'), ...parts];
  const zone = buildNetwork({ elements, cables: [link('in', 's', 'd:line'), ...cables] }).zones[1];
  if (!zone) throw new Error('no zone');
  return waveTree(zone.steps);
}
const [m, n, j] = [barePart('motor', 'm'), barePart('motor', 'n'), barePart('junction', 'j')];
/** 'a 0 1': cable a from point 0 to point 1. */
const drawn = (tree: WaveTree): readonly string[] => [
  ...tree.hops.map(({ cable, from, to }) => `${cable.id} ${from} ${to}`),
  ...tree.motors.map(({ motor, node }) => `motor ${motor.id} at ${node}`),
  ...tree.terminators.map((each) => `terminator ${each.filter.id} at ${each.node}`),
];
const ahead = ({ atDrive, unmodelled }: WaveTree) => [atDrive?.id ?? null, unmodelled?.id ?? null];

describe('lines and points', () => {
  it('one cable, one motor', () => {
    const tree = treeOf([m], [line('a', 'd:load', 'm')]);
    expect([drawn(tree), ahead(tree)]).toEqual([
      ['a 0 1', 'motor m at 1'],
      [null, null],
    ]);
  });
  it('a tee: each branch from where it leaves', () => {
    const tree = treeOf([j, m, n], [line('a', 'd:load', 'j'), line('b', 'j', 'm'), line('c', 'j', 'n')]);
    expect(drawn(tree)).toEqual(['a 0 1', 'b 1 2', 'c 1 3', 'motor m at 2', 'motor n at 3']);
    expect(hopsTo(tree, 'n').map(({ cable }) => cable.id)).toEqual(['a', 'c']);
    expect(hopsTo(tree, 'm').map(({ cable }) => cable.id)).toEqual(['a', 'b']);
    expect(hopsTo(tree, 'nobody')).toEqual([]);
  });
  it('a switch, a link and a cable without length are points; one of no known length is a line', () => {
    const q = barePart('disconnect', 'q');
    const tree = treeOf(
      [q, j, m],
      [line('a', 'd:load', 'q:line'), link('k', 'q:load', 'j'), line('b', 'j', 'm', { length_m: undefined as never })],
    );
    expect(drawn(tree)).toEqual(['a 0 1', 'b 1 2', 'motor m at 2']);
    expect(drawn(treeOf([j, m], [line('a', 'd:load', 'j', { length_m: 0 }), line('b', 'j', 'm')]))).toEqual(['b 0 1', 'motor m at 1']);
    expect(drawn(treeOf([j, m], [line('a', 'd:load', 'j', { length_m: 0, lengthMost_m: 5 }), line('b', 'j', 'm')]))).toEqual([
      'a 0 1',
      'b 1 2',
      'motor m at 2',
    ]);
    const straight = treeOf([m], [link('k', 'd:load', 'm')]);
    expect([drawn(straight), hopsTo(straight, 'm')]).toEqual([['motor m at 0'], []]);
  });
  it('a way that is cut is followed as far as it goes', () => {
    const tree = treeOf([m], [line('a', 'd:load', 'm')]);
    expect(hopsTo({ ...tree, hops: [] }, 'm')).toEqual([]);
  });
  it('a terminator stands once, where its line side is', () => {
    const t = filter('t', 'terminator');
    const tree = treeOf([t, m], [line('a', 'd:load', 't:line'), link('k', 't:load', 'm')]);
    expect([drawn(tree), ahead(tree)]).toEqual([
      ['a 0 1', 'motor m at 1', 'terminator t at 1'],
      [null, null],
    ]);
    const u = filter('u', 'terminator');
    const ways = [line('a', 'd:load', 't:line'), link('k', 't:load', 'm'), line('b', 'd:load', 'u:line'), link('l', 'u:load', 'n')];
    expect(drawn(treeOf([t, u, m, n], ways)).slice(-2)).toEqual(['terminator t at 1', 'terminator u at 2']);
    // Only a filter is one.
    expect(treeOf([barePart('contactor', 'q', { role: 'terminator' })], [line('a', 'd:load', 'q:line')]).terminators).toEqual([]);
  });
});

describe('what softens the wave', () => {
  const between = (part: Element) => treeOf([part, m], [link('k', 'd:load', `${part.id}:line`), line('a', `${part.id}:load`, 'm')]);
  it('right at the drive stands ahead of point 0, where it is a reactor, a dV/dt or a sine filter', () => {
    const found = [barePart('reactor', 'x'), filter('x', 'dvdt'), filter('x', 'sine')].map(between);
    expect(found.map(ahead)).toEqual([
      ['x', null],
      ['x', null],
      ['x', null],
    ]);
    expect(found.map(drawn)).toEqual(found.map(() => ['a 0 1', 'motor m at 1']));
  });
  it('is not modelled where it is a transformer, or a filter of another kind or none', () => {
    for (const part of [barePart('transformer', 'x', { role: 'sine' }), filter('x', 'emc-input'), barePart('filter', 'x')])
      expect([part, ahead(between(part))]).toEqual([part, [null, 'x']]);
    // Whatever else is called by a role, only a filter has one.
    expect(ahead(between(barePart('contactor', 'x', { role: 'sine' })))).toEqual([null, null]);
  });
  it('is not modelled behind a length of cable, nor the second of two', () => {
    const x = barePart('reactor', 'x');
    expect(ahead(treeOf([x, m], [line('a', 'd:load', 'x:line'), line('b', 'x:load', 'm')]))).toEqual([null, 'x']);
    const y = filter('y', 'sine');
    const both = treeOf([x, y, m], [link('k', 'd:load', 'x:line'), link('l', 'x:load', 'y:line'), line('b', 'y:load', 'm')]);
    expect(ahead(both)).toEqual(['x', 'y']);
    // The first of those that are not is the one told.
    const [t, u] = [barePart('transformer', 't'), barePart('transformer', 'u')];
    const two = treeOf([t, u, m], [link('k', 'd:load', 't:line'), link('l', 't:load', 'u:line'), line('b', 'u:load', 'm')]);
    expect(ahead(two)).toEqual([null, 't']);
  });
  it('does nothing for a cable, or a motor, that starts ahead of it', () => {
    const x = barePart('reactor', 'x');
    const soft = [link('k', 'd:load', 'x:line'), line('a', 'x:load', 'm')];
    expect(ahead(treeOf([x, m, n], [...soft, line('b', 'd:load', 'n')]))).toEqual(['x', 'x']);
    expect(ahead(treeOf([x, m, n], [...soft, link('b', 'd:load', 'n')]))).toEqual(['x', 'x']);
    expect(ahead(treeOf([x, m, j], [...soft, line('b', 'd:load', 'j')]))).toEqual(['x', 'x']);
    // On its own terminals too, on the side of the drive.
    expect(ahead(treeOf([x, m, n], [...soft, line('b', 'x:line', 'n')]))).toEqual(['x', 'x']);
    // All that hangs behind it is softened, however deep.
    const deep = [link('k', 'd:load', 'x:line'), link('o', 'x:load', 'j'), link('a', 'j', 'm'), line('b', 'j', 'n')];
    expect(ahead(treeOf([x, j, m, n], deep))).toEqual(['x', null]);
    // What is not modelled is told before that.
    const t = barePart('transformer', 't');
    const mixed = [...soft, link('b', 'd:load', 't:line'), line('c', 't:load', 'n')];
    expect(ahead(treeOf([x, t, m, n], mixed))).toEqual(['x', 't']);
  });
});

describe('who knows the peak', () => {
  const tree = (more: Partial<Record<keyof WaveTree, unknown>>): WaveTree =>
    ({
      hops: [],
      motors: [
        { motor: m, node: 1 },
        { motor: n, node: 2 },
      ],
      terminators: [],
      atDrive: null,
      unmodelled: null,
      ...more,
    }) as WaveTree;
  const word = (more: Partial<Record<keyof WaveTree, unknown>>, motor = 'm') => makersWord(tree(more), motor);
  const known = { resistance_ohm: 80, capacitance_F: 1e-8 };
  const full = filter('f', 'dvdt', { inductance_H: 1e-4, capacitance_F: 1e-8 });

  it('nobody is asked where it can be solved', () => {
    expect(word({}, 'nobody')).toBeNull();
    expect([word({}), word({ atDrive: full }), word({ terminators: [{ filter: filter('t', 'terminator', known), node: 1 }] })]).toEqual([
      null,
      null,
      null,
    ]);
    const rated = barePart('reactor', 'x', { impedance_pct: 3, ratedVoltage_V: 480, ratedCurrent_A: 50 });
    expect(word({ atDrive: rated })).toBeNull();
  });
  it('the maker who states it, at the drive, somewhere on the way, or at this very motor', () => {
    const stating = filter('f', 'sine', { motorPeak_V: 900 });
    const stated = { kind: 'stated', filter: stating, peak_V: 900 };
    expect([word({ atDrive: stating }), word({ unmodelled: stating }), word({ terminators: [{ filter: stating, node: 1 }] })]).toEqual([
      stated,
      stated,
      stated,
    ]);
    // At another motor’s end it says nothing of this one.
    expect(word({ terminators: [{ filter: { ...stating, ...known }, node: 1 }] }, 'n')).toBeNull();
    // Only a filter has a maker who states it.
    expect(word({ unmodelled: barePart('transformer', 't', { motorPeak_V: 900 }) })).toEqual({
      kind: 'ask',
      part: barePart('transformer', 't', { motorPeak_V: 900 }),
      fields: [],
    });
  });
  it('else the one whose part cannot be modelled is asked: a filter’s for the peak, of another nothing helps', () => {
    const [odd, step] = [filter('f', 'sine'), barePart('transformer', 't')];
    expect([word({ unmodelled: odd, atDrive: full }), word({ unmodelled: step })]).toEqual([
      { kind: 'ask', part: odd, fields: ['motorPeak_V'] },
      { kind: 'ask', part: step, fields: [] },
    ]);
  });
  it('behind a sine filter only its maker knows; of another so long as its parts are not known', () => {
    const sine = { ...full, role: 'sine' };
    for (const atDrive of [sine, filter('f', 'dvdt', { capacitance_F: 1e-8 }), filter('f', 'dvdt', { inductance_H: 1e-4 })])
      expect(word({ atDrive })).toEqual({ kind: 'ask', part: atDrive, fields: ['motorPeak_V'] });
  });
  it('a reactor is asked for what its inductance is made of, and one of nothing is asked about', () => {
    const bare = barePart('reactor', 'x', { ratedVoltage_V: 480 });
    expect(word({ atDrive: bare })).toEqual({ kind: 'ask', part: bare, fields: ['impedance_pct', 'ratedCurrent_A'] });
    const empty = barePart('reactor', 'x', { impedance_pct: 0, ratedVoltage_V: 480, ratedCurrent_A: 50 });
    expect(word({ atDrive: empty })).toEqual({ kind: 'ask', part: empty, fields: [] });
  });
  it('a terminator of no known parts is asked for, at whichever motor it stands', () => {
    for (const half of [{ resistance_ohm: 80 }, { capacitance_F: 1e-8 }]) {
      const part = filter('t', 'terminator', half);
      for (const node of [1, 2])
        expect(word({ terminators: [{ filter: part, node }] })).toEqual({
          kind: 'ask',
          part,
          fields: ['motorPeak_V', 'resistance_ohm', 'capacitance_F'],
        });
    }
  });
});
