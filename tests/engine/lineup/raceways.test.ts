import { describe, expect, it } from 'vitest';
import type { Cable } from '../../../engine/lineup/cable.ts';
import { besideIn, laidOut, raceways } from '../../../engine/lineup/raceways.ts';
import { bareCable } from '../bareParts.ts';

const laid = (id: string, sharedWith?: string[]): Cable => ({ ...bareCable(id, 's', 'b'), installation: sharedWith ? { sharedWith } : {} });
const ids = (cables: readonly Cable[] = []): string => cables.map(({ id }) => id).join(' ');

describe('one raceway', () => {
  it('holds all that are reached from name to name, whoever says it, in the order of the document', () => {
    const cables = [laid('a', ['b']), laid('b'), laid('c', ['b']), laid('d', []), laid('e', ['f', 'e']), laid('f')];
    const found = raceways(cables);
    expect(cables.map(({ id }) => ids(found.get(id)))).toEqual(['a b c', 'a b c', 'a b c', 'd', 'e f', 'e f']);
    expect(cables.map((cable) => ids(besideIn(cables, cable)))).toEqual(['b c', 'a c', 'a b', '', 'f', 'e']);
    expect(found.get('a')).toBe(found.get('c'));
  });
  it('is one list for all that lie in it: a chain of thousands costs no more than its names', () => {
    const chain = Array.from({ length: 5000 }, (_, i) => laid(`c${i}`, [`c${i + 1}`]));
    const found = raceways(chain);
    expect([new Set(chain.map(({ id }) => found.get(id))).size, found.get('c0')?.length]).toEqual([1, 5000]);
  });
});

describe('laid out of a raceway', () => {
  const left = (cables: readonly Cable[], ...leaving: string[]) =>
    laidOut(cables, new Set(leaving)).map(({ installation }) => installation.sharedWith?.join(' '));
  it('a cable is named by nobody, and beside what it lies now is asked anew', () => {
    expect(left([laid('a', ['b', 'c']), laid('b', ['a']), laid('c', ['b'])], 'a')).toEqual([undefined, 'c', 'b']);
    expect(left([laid('a', []), laid('b', ['a'])], 'a')).toEqual(['', '']);
  });
  it('those that stay are in one still, though only the one that left joined them', () => {
    const hub = [laid('a', ['b', 'c', 'd']), laid('b'), laid('c', ['d']), laid('d')];
    expect(left(hub, 'a')).toEqual([undefined, 'c d', 'd', undefined]);
    expect(left([laid('a', ['h']), laid('b', ['h']), laid('h'), laid('x', ['y']), laid('y')], 'h')).toEqual([
      'b',
      '',
      undefined,
      'y',
      undefined,
    ]);
  });
  it('what is in no raceway with it stays the same object', () => {
    const cables = [laid('a', ['b']), laid('b'), laid('c', ['d']), laid('d')];
    expect(laidOut(cables, new Set(['a'])).map((each, i) => each === cables[i])).toEqual([false, true, true, true]);
    // Whoever says it there: that the second names the first is left as it is.
    expect(left([laid('a', ['b']), laid('b'), laid('c'), laid('d', ['c'])], 'a')).toEqual([undefined, undefined, undefined, 'c']);
  });
});
