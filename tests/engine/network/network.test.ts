import { describe, expect, it } from 'vitest';
import type { Cable, Element } from '../../../engine/index.ts';
import { buildNetwork, nodeOf, otherEnd } from '../../../engine/network/network.ts';
import { bareCable as cable, barePart as part } from '../bareParts.ts';

/** What is connected, worked out by hand: every node once, the source first, and each with what feeds it. */

const built = (elements: readonly Element[], cables: readonly Cable[]) => {
  const { zones, runs, faults } = buildNetwork({ elements: [...elements], cables: [...cables] });
  return {
    zones: zones.map(({ kind, source, feed, steps }) => ({
      of: `${kind} ${source.id}`,
      fed: feed && `${feed.zone.source.id} ${feed.step}`,
      // The node, the step that feeds it, and through what.
      steps: steps.map(({ node, index, parent, via, element }, i) => {
        expect([index, node.split(':')[0]]).toEqual([i, element.id]);
        const through = via === null ? 'source' : via.kind === 'element' ? 'itself' : `${via.cable.id} ${via.nearEnd}`;
        return `${node} < ${parent} by ${through}`;
      }),
    })),
    runs: runs.map(({ motor, drive, steps }) => [
      motor.id,
      drive?.id ?? null,
      steps.map(({ zone, step }) => `${zone.source.id}/${step.node}`),
    ]),
    faults: faults.map(({ kind, part: at, other }) => [kind, at?.id ?? null, other?.id ?? null]),
  };
};

const S = part('supply', 's');
const D = part('drive', 'd');
const M = part('motor', 'm');
const Q = part('disconnect', 'q');
const J = part('junction', 'j');
const T = part('transformer', 't');

describe('nodes', () => {
  it('a supply, bus, junction and motor are one, any other part has two, its line side where none is named', () => {
    expect((['supply', 'bus', 'junction', 'motor'] as const).map((kind) => nodeOf(part(kind, 'x'), 'load'))).toEqual(['x', 'x', 'x', 'x']);
    expect([nodeOf(Q, 'load'), nodeOf(Q, 'line'), nodeOf(Q, undefined), nodeOf(D, 'load')]).toEqual([
      'q:load',
      'q:line',
      'q:line',
      'd:load',
    ]);
    expect([otherEnd('from'), otherEnd('to')]).toEqual(['to', 'from']);
  });
});

describe('a line-up as trees', () => {
  it('is two: from the supply to the drive, from the drive to the motor', () => {
    const cables = [cable('c1', 's', 'q:line'), cable('c2', 'q:load', 'd:line'), cable('c3', 'd:load', 'm')];
    expect(built([S, Q, D, M], cables)).toEqual({
      zones: [
        {
          of: 'input s',
          fed: null,
          steps: ['s < -1 by source', 'q:line < 0 by c1 from', 'q:load < 1 by itself', 'd:line < 2 by c2 from'],
        },
        { of: 'output d', fed: 's 3', steps: ['d:load < -1 by source', 'm < 0 by c3 from'] },
      ],
      runs: [['m', 'd', ['s/s', 's/q:line', 's/q:load', 's/d:line', 'd/d:load', 'd/m']]],
      faults: [],
    });
  });

  it('is the same whichever end of a cable was drawn first, and whichever side of a switch is fed', () => {
    const turned = [cable('c1', 'q:load', 's'), cable('c2', 'd:line', 'q:line'), cable('c3', 'm', 'd:load')];
    expect(built([S, Q, D, M], turned).zones).toEqual([
      {
        of: 'input s',
        fed: null,
        steps: ['s < -1 by source', 'q:load < 0 by c1 to', 'q:line < 1 by itself', 'd:line < 2 by c2 to'],
      },
      { of: 'output d', fed: 's 3', steps: ['d:load < -1 by source', 'm < 0 by c3 to'] },
    ]);
  });

  it('has a run for each motor, without a drive too, in the order in which they are reached', () => {
    const M2 = part('motor', 'm2');
    const cables = [cable('c1', 's', 'j'), cable('c2', 'j', 'm2'), cable('c3', 'j', 'm')];
    expect(built([S, J, M, M2], cables).runs).toEqual([
      ['m2', null, ['s/s', 's/j', 's/m2']],
      ['m', null, ['s/s', 's/j', 's/m']],
    ]);
  });

  it('goes on through what is closed, and ends at what stands open', () => {
    const cables = [cable('c1', 's', 'k:line'), cable('c2', 'k:load', 'm')];
    const beyond = (kind: Element['kind'], more: object) => built([S, part(kind, 'k', more), M], cables).runs.length;
    expect([
      beyond('disconnect', {}),
      beyond('disconnect', { state: 'open' }),
      beyond('contactor', {}),
      beyond('contactor', { state: 'open' }),
      beyond('contactor', { role: 'bypass' }),
      beyond('contactor', { role: 'bypass', state: 'open' }),
      beyond('contactor', { role: 'bypass', state: 'closed' }),
      beyond('contactor', { role: 'output' }),
      // Only a switch stands open.
      beyond('transformer', { state: 'open' }),
      beyond('reactor', {}),
    ]).toEqual([1, 0, 1, 0, 0, 0, 1, 1, 1, 1]);
  });

  it('of an open switch the far side is not reached, and the part is no island', () => {
    const open = built([S, part('disconnect', 'k', { state: 'open' }), M], [cable('c1', 's', 'k:line'), cable('c2', 'k:load', 'm')]);
    expect(open.faults).toEqual([['unfed-motor', 'm', null]]);
  });
});

describe('what is no tree', () => {
  const cases: readonly (readonly [string, readonly Element[], readonly Cable[], unknown])[] = [
    ['a cable back to where it left', [S, J], [cable('c1', 's', 'j'), cable('c2', 'j', 'j')], [['loop', 'c2', 'j']]],
    ['two cables to one place', [S, J], [cable('c1', 's', 'j'), cable('c2', 'j', 's')], [['loop', 'c2', 'j']]],
    ['a switch that closes a ring', [S, Q], [cable('c1', 's', 'q:line'), cable('c2', 's', 'q:load')], [['loop', 'q', 'q']]],
    ['a free end', [S], [cable('c1', 's', '')], [['cable-to-nowhere', 'c1', 's']]],
    ['a free end, drawn the other way', [S], [cable('c1', '', 's')], [['cable-to-nowhere', 'c1', 's']]],
    ['no end at all', [S], [cable('c1', '', '')], [['cable-to-nowhere', 'c1', null]]],
    ['an end at a part that is gone', [S], [cable('c1', 's', 'gone')], [['cable-to-nowhere', 'c1', 's']]],
    ['one supply on another', [S, part('supply', 's2')], [cable('c1', 's', 's2')], [['two-sources', 's2', 's']]],
    ['two supplies that meet', [S, part('supply', 's2'), J], [cable('c1', 's', 'j'), cable('c2', 's2', 'j')], [['two-sources', 's2', 's']]],
    [
      'a supply behind a drive',
      [S, D, part('supply', 's2')],
      [cable('c1', 's', 'd:line'), cable('c2', 'd:load', 's2')],
      [['fed-backwards', 's2', 'd']],
    ],
    [
      'a drive fed at its output alone',
      [S, D],
      [cable('c1', 's', 'd:load')],
      [
        ['fed-backwards', 'd', 'c1'],
        ['island', 'd', null],
      ],
    ],
    [
      'a drive behind a drive',
      [S, D, part('drive', 'd2')],
      [cable('c1', 's', 'd:line'), cable('c2', 'd:load', 'd2:line')],
      [
        ['drive-behind-drive', 'd2', 'd'],
        ['island', 'd2', null],
      ],
    ],
    [
      'two drives on one motor',
      [S, D, part('drive', 'd2'), M],
      [cable('c1', 's', 'd:line'), cable('c2', 's', 'd2:line'), cable('c3', 'd:load', 'm'), cable('c4', 'd2:load', 'm')],
      [['fed-backwards', 'd2', 'c4']],
    ],
    [
      'a cable back to where it left, where nothing is fed',
      [S, J],
      [cable('c1', 'j', 'j')],
      [
        ['loop', 'c1', 'j'],
        ['island', 'j', null],
      ],
    ],
    ['an open switch that is fed at its load side', [S, part('disconnect', 'k', { state: 'open' })], [cable('c1', 's', 'k:load')], []],
    [
      'a transformer that is fed at its load side: what is behind it is not followed',
      [S, T, M],
      [cable('c1', 's', 't:load'), cable('c2', 's', 't:load'), cable('c3', 't:line', 'm')],
      [
        ['turned-round', 't', 'c1'],
        ['island', 't', null],
        ['unfed-motor', 'm', null],
      ],
    ],
    [
      'one that is fed so behind a drive',
      [S, D, T, M],
      [cable('c1', 's', 'd:line'), cable('c2', 'd:load', 't:load'), cable('c3', 't:line', 'm')],
      [
        ['turned-round', 't', 'c2'],
        ['island', 't', null],
        ['unfed-motor', 'm', null],
      ],
    ],
    [
      'a second transformer on a bus, with nothing on its line side',
      [S, T, part('transformer', 't2'), J, Q],
      [
        cable('c1', 's', 't:line'),
        cable('c2', 't:load', 'j'),
        cable('c3', 's', 'q:line'),
        cable('c4', 'q:load', 'k'),
        cable('c5', 'k', 't2:line'),
        cable('c6', 't2:load', 'j'),
      ],
      [
        ['cable-to-nowhere', 'c4', 'q'],
        ['cable-to-nowhere', 'c5', 't2'],
        ['turned-round', 't2', 'c6'],
        ['island', 't2', null],
      ],
    ],
    [
      'two transformers on one bus: a loop, though the bus is reached before the second',
      [S, T, part('transformer', 't2'), J, Q, part('junction', 'k')],
      [
        cable('c1', 's', 't:line'),
        cable('c2', 't:load', 'j'),
        cable('c3', 's', 'q:line'),
        cable('c4', 'q:load', 'k'),
        cable('c5', 'k', 't2:line'),
        cable('c6', 't2:load', 'j'),
      ],
      [['loop', 'c6', 't2']],
    ],
    ['a motor alone', [S, M], [], [['unfed-motor', 'm', null]]],
    ['a part alone', [S, Q], [], [['island', 'q', null]]],
    [
      'nothing that feeds',
      [J],
      [],
      [
        ['no-source', null, null],
        ['island', 'j', null],
      ],
    ],
    ['nothing at all', [], [], []],
  ];
  it.each(cases)('%s', (_what, elements, cables, expected) => expect(built(elements, cables).faults).toEqual(expected));
  it('mains that come in behind a drive are found from either side', () => {
    // From the supply the motor is reached first; the drive comes to it afterwards.
    const cables = [cable('c1', 's', 'd:line'), cable('c2', 's', 'm'), cable('c3', 'd:load', 'm')];
    expect(built([S, D, M], cables).faults).toEqual([['fed-backwards', 'd', 'c3']]);
  });
  it('a drive that is fed twice is one loop, and has one output', () => {
    const cables = [cable('c1', 's', 'd:line'), cable('c2', 's', 'j'), cable('c3', 'j', 'd:line'), cable('c4', 'd:load', 'm')];
    const { zones, faults } = built([S, J, D, M], cables);
    expect([zones.map(({ of }) => of), faults]).toEqual([['input s', 'output d'], [['loop', 'c3', 'j']]]);
  });
});
