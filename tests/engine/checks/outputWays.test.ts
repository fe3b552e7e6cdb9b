import { describe, expect, it } from 'vitest';
import { waysBehind } from '../../../engine/checks/outputWays.ts';
import type { Cable } from '../../../engine/lineup/cable.ts';
import type { Element, Port } from '../../../engine/lineup/elements.ts';
import { CABLE, DRIVE, MOTOR } from './scopes.ts';

/** Which parts the current has passed, told way by way: D is the drive, M the motor. */

type End = readonly [element: string, port?: Port];
const cable = (id: string, [from, fromPort]: End, [to, toPort]: End, kind: Cable['kind'] = 'cable'): Cable => ({
  ...CABLE,
  id,
  kind,
  from: { element: from, ...(fromPort ? { port: fromPort } : {}) },
  to: { element: to, ...(toPort ? { port: toPort } : {}) },
});
const reactor: Element = { id: 'l', kind: 'reactor', tag: 'L' };
const filter: Element = { id: 'z', kind: 'filter', tag: 'Z', role: 'sine' };
const ways = (...cables: readonly Cable[]) => waysBehind({ drive: DRIVE, cables, parts: [reactor, filter, MOTOR] });
const tags = (parts: readonly Element[]) => parts.map(({ tag }) => tag).join(' ');
const lead = cable('a', ['e1', 'load'], ['l', 'line']);

describe('what stands between a drive and what hangs on it', () => {
  it('is each part that is left at another side than it was reached at, in their order', () => {
    const between = cable('b', ['l', 'load'], ['z', 'line']);
    const last = cable('c', ['z', 'load'], ['e2', 'line']);
    const { before, ahead } = ways(lead, between, last);
    expect([lead, between, last].map((each) => tags(before(each)))).toEqual(['', 'L', 'L Z']);
    expect([reactor, filter, MOTOR].map((each) => tags(ahead(each)))).toEqual(['', 'L', 'L Z']);
  });
  it('whichever end of a cable lies nearer, and a side that is not named is the line side', () => {
    const turned = [cable('a', ['l'], ['e1', 'load']), cable('b', ['e2', 'line'], ['l', 'load'])];
    const { before, ahead } = ways(...turned);
    expect([turned.map((each) => tags(before(each))), tags(ahead(MOTOR))]).toEqual([['', 'L'], 'L']);
    // A part that is connected the wrong way round is passed from its load side.
    const wrong = [cable('a', ['e1', 'load'], ['l', 'load']), cable('b', ['l'], ['e2'])];
    expect(tags(ways(...wrong).ahead(MOTOR))).toBe('L');
  });
  it('is not what shares terminals with the way on', () => {
    const on = cable('b', ['l'], ['e2', 'line']);
    const { before, ahead } = ways(lead, on);
    expect([tags(before(on)), tags(ahead(MOTOR))]).toEqual(['', '']);
    const unsaid = cable('a', ['e1', 'load'], ['l']);
    expect([on, cable('b', ['l', 'line'], ['e2'])].map((each) => tags(ways(unsaid, each).ahead(MOTOR)))).toEqual(['', '']);
  });
  it('is nothing for what hangs on nothing', () => {
    const { before, ahead } = ways();
    expect([before(lead), ahead(reactor)]).toEqual([[], []]);
  });
});

describe('what an edge enters first', () => {
  const ids = (...cables: readonly Cable[]) => ways(...cables).first.map(({ id }) => id);
  it('are all cables at the terminals of the drive, and none behind them', () =>
    expect(ids(lead, cable('m', ['e1', 'load'], ['e2', 'line']), cable('b', ['l', 'load'], ['z', 'line']))).toEqual(['a', 'm']));
  it('are those behind a connection inside the enclosure, which is none itself', () => {
    const link = cable('k', ['e1', 'load'], ['l', 'line'], 'link');
    const on = cable('n', ['l', 'load'], ['z', 'line'], 'link');
    expect(ids(link, cable('b', ['l', 'load'], ['e2', 'line']))).toEqual(['b']);
    expect(ids(link, on, cable('b', ['z', 'load'], ['e2', 'line']))).toEqual(['b']);
    // A link behind a cable opens no new way.
    expect(ids(lead, on, cable('b', ['z', 'load'], ['e2', 'line']))).toEqual(['a']);
  });
});
