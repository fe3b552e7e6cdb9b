import { describe, expect, it } from 'vitest';
import { type Cable, type Element, type LineUp, newLineUp, review, VERDICTS } from '../../../engine/index.ts';

/** Drawings that are no tree: each says so at the part, and the rest is judged. */

const cable = (id: string, from: string | null, to: string | null): Cable => {
  const end = (at: string | null) => {
    if (at === null) return {};
    const [element = '', port] = at.split(':');
    return { element, ...(port === 'line' || port === 'load' ? { port } : {}) } as Cable['from'];
  };
  return {
    id,
    tag: id.toUpperCase(),
    kind: 'cable',
    from: end(from),
    to: end(to),
    conductor: {},
    insulation: {},
    grounds: {},
    auxiliary: [],
    installation: {},
  };
};
const drawn = (elements: readonly Element[], cables: readonly Cable[]): LineUp => ({
  ...newLineUp(),
  elements: [...elements],
  cables: [...cables],
});
const part = <K extends Element['kind']>(kind: K, id: string, more: object = {}): Element =>
  ({ kind, id, tag: id.toUpperCase(), ...more }) as Element;
const faults = (lineUp: LineUp) =>
  review(lineUp)
    .findings.filter((each) => each.check === 'topology')
    .map((each) => [each.id.split('/')[1], each.subject.tag, each.verdict]);

const S = part('supply', 's');
const B = part('bus', 'b');
const D = part('drive', 'd');
const M = part('motor', 'm');

describe('faults of the drawing', () => {
  it('a tree has none', () =>
    expect(faults(drawn([S, B, D, M], [cable('c1', 's', 'b'), cable('c2', 'b', 'd:line'), cable('c3', 'd:load', 'm')]))).toEqual([]));

  it('a loop is one finding, at a cable of the loop: the one that meets what was reached another way', () => {
    const J = part('junction', 'j');
    // From the source both the bus and the junction are reached first; the cable between them closes the loop.
    expect(faults(drawn([S, B, J], [cable('c1', 's', 'b'), cable('c2', 'b', 'j'), cable('c3', 'j', 's')]))).toEqual([
      ['loop', 'C2', 'fail'],
    ]);
  });

  it('two cables between the same two parts are a loop: sets in parallel are one cable', () =>
    expect(faults(drawn([S, B], [cable('c1', 's', 'b'), cable('c2', 's', 'b')]))).toEqual([['loop', 'C2', 'fail']]));

  it('two sources that meet', () =>
    expect(faults(drawn([S, part('supply', 's2'), B], [cable('c1', 's', 'b'), cable('c2', 's2', 'b')])).map(([kind]) => kind)).toContain(
      'two-sources',
    ));

  it('mains on the output of a drive', () =>
    expect(
      faults(drawn([S, D], [cable('c1', 's', 'd:line'), cable('c2', 's', 'd:load')])).map(([kind, , verdict]) => [kind, verdict]),
    ).toContainEqual(['fed-backwards', 'fail']));

  it('a drive behind a drive', () =>
    expect(faults(drawn([S, D, part('drive', 'd2')], [cable('c1', 's', 'd:line'), cable('c2', 'd:load', 'd2:line')]))).toContainEqual([
      'drive-behind-drive',
      'D2',
      'fail',
    ]));

  it('a motor without a source, an island, a cable to nowhere, no source at all', () => {
    expect(faults(drawn([S, M], []))).toContainEqual(['unfed-motor', 'M', 'open']);
    expect(faults(drawn([S, B, part('bus', 'b2')], [cable('c1', 's', 'b')]))).toContainEqual(['island', 'B2', 'open']);
    expect(faults(drawn([S, B], [cable('c1', 's', 'b'), cable('c2', 'b', null)]))).toContainEqual(['cable-to-nowhere', 'C2', 'open']);
    expect(faults(drawn([B, M], [cable('c1', 'b', 'm')])).map(([kind]) => kind)).toContain('no-source');
  });

  it('a way around a drive stands open unless it is drawn closed', () => {
    const K = (state?: 'closed') => part('contactor', 'k', { role: 'bypass', ...(state ? { state } : {}) });
    const site = (k: Element) =>
      drawn([S, D, M, k], [cable('c1', 's', 'd:line'), cable('c2', 'd:load', 'm'), cable('c3', 's', 'k:line'), cable('c4', 'k:load', 'm')]);
    expect(faults(site(K()))).toEqual([]);
    expect(faults(site(K('closed'))).map(([kind]) => kind)).toContain('fed-backwards');
  });

  it('the rest is judged all the same', () => {
    const site = drawn(
      [S, B, D, M],
      [cable('c1', 's', 'b'), cable('c2', 'b', 'd:line'), cable('c3', 'd:load', 'm'), cable('c4', 'b', null)],
    );
    const { findings, verdict } = review(site);
    expect(findings.some((each) => each.check === 'lead-ampacity')).toBe(true);
    expect(VERDICTS.indexOf(verdict)).toBeLessThanOrEqual(1);
  });
});
