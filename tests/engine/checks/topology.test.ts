import { describe, expect, it } from 'vitest';
import { topology } from '../../../engine/checks/topology.ts';
import { type Cable, type Element, type LineUp, newLineUp, review, VERDICTS } from '../../../engine/index.ts';
import type { FaultKind } from '../../../engine/network/network.ts';
import { bareCable, barePart } from '../bareParts.ts';
import { only } from './told.ts';

/** Drawings that are no tree: each says so at the part, and the rest is judged. */

const cable = (id: string, from: string | null, to: string | null): Cable => ({
  ...bareCable(id, from ?? '', to ?? ''),
  tag: id.toUpperCase(),
});
const drawn = (elements: readonly Element[], cables: readonly Cable[]): LineUp => ({
  ...newLineUp(),
  elements: [...elements],
  cables: [...cables],
});
const part = (kind: Element['kind'], id: string, more: object = {}): Element => barePart(kind, id, { tag: id.toUpperCase(), ...more });
const faults = (lineUp: LineUp) =>
  review(lineUp)
    .findings.filter((each) => each.check === 'topology')
    .map((each) => [each.id.split('/')[1], each.subject.tag, each.verdict]);

const S = part('supply', 's');
const B = part('bus', 'b');
const D = part('drive', 'd');
const M = part('motor', 'm');

describe('what a fault is told as', () => {
  const told = (kind: FaultKind, at: Element | Cable | null, other: Element | Cable | null) =>
    only(topology.scope === 'fault' ? topology.judge({ kind, part: at, other }) : []);
  const W = cable('w', 's', 'b');
  it.each([
    ['loop', 'fail', 'closes a loop', 'W closes a loop at B: a one-line is judged as a tree from source to motor.'],
    ['two-sources', 'fail', 'two sources meet', 'W joins two sources at B.'],
    ['fed-backwards', 'fail', 'mains on drive output', 'W brings a source to the output of a drive (at B): mains there destroys it.'],
    [
      'drive-behind-drive',
      'fail',
      'drive behind a drive',
      'W is fed from the output of B: a drive’s input does not live on another drive’s pulses.',
    ],
    ['turned-round', 'open', 'fed from its load side', 'W is fed from its load side by B: neither it nor what is behind it is judged.'],
    ['unfed-motor', 'open', 'not fed', 'W is not connected to a source.'],
    ['island', 'open', 'not connected', 'W is not connected to a source and is not judged.'],
    ['cable-to-nowhere', 'open', 'leads nowhere', 'W has an end that lands on nothing.'],
  ] as const)('%s', (kind, verdict, phrase, text) => {
    const found = told(kind, W, B);
    expect([found.id, found.verdict, found.phrase, found.text]).toEqual([`topology/${kind}/w`, verdict, phrase, text]);
    expect([found.subject, found.runs, found.remedies.length]).toEqual([{ kind: 'cable', id: 'w', tag: 'W' }, [], 1]);
    expect(told(kind, { ...W, kind: 'link' }, B).subject.kind).toBe('cable');
    expect(told(kind, M, null).subject).toEqual({ kind: 'element', id: 'm', tag: 'M' });
    expect(told(kind, M, null).text).toBe(
      text
        .replace('W', 'M')
        .replace('(at B)', '(at )')
        .replace(/(at|of|by) B([:.])/, '$1 $2'),
    );
  });
  it('of the whole line-up where there is no source', () => {
    const found = told('no-source', null, null);
    expect([found.id, found.verdict, found.phrase, found.text, found.subject]).toEqual([
      'topology/no-source/',
      'open',
      'no source',
      'Nothing is fed: the line-up has no supply.',
      { kind: 'lineup', id: '', tag: 'line-up' },
    ]);
    expect(told('island', null, null).text).toBe(' is not connected to a source and is not judged.');
  });
});

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
