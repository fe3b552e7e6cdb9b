import { describe, expect, it } from 'vitest';
import { methodMisfit } from '../../../engine/checks/methodFits.ts';
import type { Cable } from '../../../engine/lineup/cable.ts';
import { CABLE } from './scopes.ts';

/**
 * The pictures of IEC 60364-5-52 Table B.52.1, as far as they are kept here: B1 and B2 in a conduit on a wall, C on the wall itself, D1 in a
 * duct in the ground, D2 in the ground itself, E and F in free air, to which B1, B2 and C stay within what it allows. From memory.
 */

type Place = Cable['installation'];
const METHODS = ['B1', 'B2', 'C', 'D1', 'D2', 'E', 'F'] as const;
const laid = (method: Place['method'], raceway: Place['raceway'], construction: Cable['construction']): Cable => {
  const { construction: _, ...bare } = CABLE;
  return {
    ...bare,
    ...(construction ? { construction } : {}),
    installation: { ...(method ? { method } : {}), ...(raceway ? { raceway } : {}) },
  };
};
const fitting = (raceway: Place['raceway'], construction: Cable['construction']) =>
  METHODS.filter((method) => methodMisfit(laid(method, raceway, construction)) === null).join(' ');

describe('a reference method', () => {
  it.each([
    ['steel-conduit', 'B1 B2 D1'],
    ['aluminium-conduit', 'B1 B2 D1'],
    ['plastic-conduit', 'B1 B2 D1'],
    ['flexible-metal', 'B1 B2 D1'],
    ['buried-duct', 'D1'],
    ['direct-buried', 'D2'],
    ['tray', 'B1 B2 C E F'],
    ['ladder', 'B1 B2 C E F'],
    ['none', 'B1 B2 C E F'],
    [undefined, 'B1 B2 C D1 D2 E F'],
  ] as const)('of single conductors in %s may be %s', (raceway, methods) => expect(fitting(raceway, 'singles')).toBe(methods));
  it('B1 and F are of single conductors alone; of what is not known to be a cable nothing is said', () => {
    expect([fitting('tray', 'multicore'), fitting('steel-conduit', 'foil-and-braid')]).toEqual(['B2 C E', 'B2 D1']);
    expect([fitting('tray', undefined), fitting('steel-conduit', undefined)]).toEqual(['B1 B2 C E F', 'B1 B2 D1']);
  });
  it('that is not entered contradicts nothing, and one that does is named with what it contradicts', () => {
    expect(methodMisfit(laid(undefined, 'buried-duct', 'multicore'))).toBeNull();
    expect(methodMisfit(laid('C', 'buried-duct', 'singles'))).toMatch(/^W has method C, which is not that of /);
    expect(methodMisfit(laid('B1', 'steel-conduit', 'multicore'))).toMatch(/^W has method B1, which is not that of /);
  });
});
