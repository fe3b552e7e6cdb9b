import { describe, expect, it } from 'vitest';
import { type Cable, type Element, type LineUp, newLineUp } from '../../../engine/index.ts';
import { buildNetwork } from '../../../engine/network/network.ts';
import { groundRules } from '../../../engine/review/groundRules.ts';
import {
  ahead,
  disconnectsAhead,
  earthingAt,
  filtersAhead,
  loadsBelow,
  NOTHING_BELOW,
  upstream,
  voltageFrom,
} from '../../../engine/review/upstream.ts';
import { bareCable, barePart as part } from '../bareParts.ts';

/** What stands ahead of a place and what hangs below it, by hand on one drawing: a transformer, a panel with two drives and a motor of its own. */

const cable = (from: string, to: string): Cable => bareCable(`${from}-${to}`, from, to);
const parts = [
  part('supply', 's', { earthing: 'it' }),
  part('transformer', 't', { secondaryEarthing: 'solid-wye', primaryVoltage_V: 4160, secondaryVoltage_V: 480 }),
  part('bus', 'b'),
  part('filter', 'f'),
  part('drive', 'd1'),
  part('filter', 'g'),
  part('transformer', 'u', { primaryVoltage_V: 480, secondaryVoltage_V: 2300 }),
  part('junction', 'j'),
  part('motor', 'm1'),
  part('motor', 'm2'),
  part('drive', 'd2'),
  part('motor', 'm3'),
  part('motor', 'm4'),
];
const { zones } = buildNetwork({
  elements: parts,
  cables: [
    cable('s', 't:line'),
    cable('t:load', 'b'),
    cable('b', 'f:line'),
    cable('f:load', 'd1:line'),
    cable('d1:load', 'g:line'),
    cable('g:load', 'u:line'),
    cable('u:load', 'j'),
    cable('j', 'm1'),
    cable('j', 'm2'),
    cable('b', 'd2:line'),
    cable('d2:load', 'm3'),
    cable('b', 'm4'),
  ],
});
const at = (node: string) => {
  const zone = zones.find(({ steps }) => steps.some((step) => step.node === node));
  const step = zone?.steps.find((each) => each.node === node);
  if (!zone || !step) throw new Error(`no ${node}`);
  return { zone, step };
};
const ids = (of: readonly Element[]) => of.map(({ id }) => id);

describe('ahead of a place', () => {
  it('stand the steps to the source of its zone, itself first', () => {
    const { zone, step } = at('f:load');
    expect([...upstream(zone, step)].map(({ node }) => node)).toEqual(['f:load', 'f:line', 'b', 't:load', 't:line', 's']);
    const source = at('d1:load');
    expect([...upstream(source.zone, source.step)].map(({ node }) => node)).toEqual(['d1:load']);
  });
  it('is the earthing of the nearest transformer, else of the supply; behind a drive nobody says it', () => {
    const earthing = (node: string) => {
      const { zone, step } = at(node);
      const found = earthingAt(zone, step);
      return [found.earthing, found.part.id];
    };
    expect([earthing('b'), earthing('s')]).toEqual([
      ['solid-wye', 't'],
      ['it', 's'],
    ]);
    expect([earthing('m3'), earthing('m1')]).toEqual([
      [undefined, 'd2'],
      [undefined, 'u'],
    ]);
  });
  it('is what makes its voltage: a transformer once it is passed, by way of the drive too, or the supply', () => {
    const from = (node: string) => {
      const { zone, step } = at(node);
      return voltageFrom(zone, step).id;
    };
    expect(['s', 't:line', 't:load', 'b', 'd2:load', 'm3', 'g:load', 'u:line', 'm1'].map(from)).toEqual([
      's',
      's',
      't',
      't',
      't',
      't',
      't',
      't',
      'u',
    ]);
  });
  it('are filters of its own zone, and parts of a kind to the supply, each once, nearest first', () => {
    const motor = at('m1');
    expect(ids(filtersAhead(motor.zone, motor.step))).toEqual(['g']);
    expect(ids(ahead(motor.zone, motor.step, 'filter'))).toEqual(['g', 'f']);
    expect(ids(ahead(motor.zone, motor.step, 'transformer'))).toEqual(['u', 't']);
    expect(ids(ahead(motor.zone, motor.step, 'drive'))).toEqual(['d1']);
    expect(ids(ahead(motor.zone, motor.step, 'reactor'))).toEqual([]);
  });
});

describe('disconnects ahead of a place', () => {
  it('are those of its own circuit, the drive’s supply included, and none beyond a transformer (NEC 240.21(C))', () => {
    const site = buildNetwork({
      elements: [
        part('supply', 's'),
        part('disconnect', 'q'),
        part('transformer', 't'),
        part('disconnect', 'r'),
        part('drive', 'd'),
        part('disconnect', 'o'),
        part('motor', 'm'),
      ],
      cables: [
        cable('s', 'q:line'),
        cable('q:load', 't:line'),
        cable('t:load', 'r:line'),
        cable('r:load', 'd:line'),
        cable('d:load', 'o:line'),
        cable('o:load', 'm'),
      ],
    });
    const found = (node: string) => {
      const zone = site.zones.find(({ steps }) => steps.some((each) => each.node === node));
      const step = zone?.steps.find((each) => each.node === node);
      return zone && step ? ids(disconnectsAhead(zone, step)) : [];
    };
    expect([found('m'), found('r:line'), found('t:load'), found('t:line'), found('s')]).toEqual([['o', 'r'], ['r'], [], ['q'], []]);
  });
});

describe('below a place', () => {
  const outputs = new Map(zones.filter(({ kind }) => kind === 'output').map((zone) => [zone.source.id, zone]));
  const below = (node: string) => {
    const { zone, step } = at(node);
    const found = loadsBelow(zone, outputs)[step.index];
    return [ids(found?.drives ?? []), ids(found?.motors ?? [])];
  };
  it('hang its drives with the motors behind them, and motors without a drive', () => {
    expect(below('s')).toEqual(below('b'));
    expect(below('b').map((list) => [...(list ?? [])].sort())).toEqual([
      ['d1', 'd2'],
      ['m1', 'm2', 'm3', 'm4'],
    ]);
    expect([below('f:line'), below('d2:line'), below('m4')]).toEqual([
      [['d1'], ['m1', 'm2']],
      [['d2'], ['m3']],
      [[], ['m4']],
    ]);
  });
  it('in a zone behind a drive hang motors, not the drive itself', () => {
    expect([below('d1:load'), below('m2')]).toEqual([
      [[], ['m1', 'm2']],
      [[], ['m2']],
    ]);
  });
  it('draws more ahead of a transformer that steps up, less ahead of one that steps down: power passes', () => {
    const seen = (node: string) => {
      const { zone, step } = at(node);
      const found = loadsBelow(zone, outputs)[step.index] ?? NOTHING_BELOW;
      return [ids(found.drives), found.drivesSeen, ids(found.motors), found.motorsSeen, ids(found.between)];
    };
    const [down, up] = [480 / 4160, 2300 / 480];
    expect(seen('d1:load')).toEqual([[], [], ['m1', 'm2'], [up, up], ['u']]);
    expect(seen('u:load')).toEqual([[], [], ['m1', 'm2'], [1, 1], []]);
    // At a drive stands what its own motors draw of it; further ahead the drives alone are asked.
    expect(seen('d1:line')).toEqual([['d1'], [1], ['m1', 'm2'], [up, up], ['u']]);
    expect(seen('f:line')).toEqual([['d1'], [1], ['m1', 'm2'], [up, up], []]);
    expect(seen('t:line')).toEqual([['d2', 'd1'], [down, down], ['m3', 'm4', 'm1', 'm2'], [down, down, up * down, up * down], ['t']]);
    expect(seen('t:load').slice(1, 2)).toEqual([[1, 1]]);
  });
  it('hangs a drive that is cabled to the supply itself', () => {
    const site = buildNetwork({ elements: [parts[0], parts[4]].flatMap((each) => each ?? []), cables: [cable('s', 'd1:line')] });
    const [input] = site.zones;
    if (!input) throw new Error('no zone');
    expect(loadsBelow(input, new Map()).map(({ drives }) => ids(drives))).toEqual([['d1'], ['d1']]);
    expect(NOTHING_BELOW).toEqual({ drives: [], motors: [], drivesSeen: [], motorsSeen: [], between: [] });
  });
  it('hangs nothing behind a drive whose output is not known', () => {
    const { zone, step } = at('b');
    expect(ids(loadsBelow(zone, new Map())[step.index]?.motors ?? [])).toEqual(['m4']);
  });
});

describe('what the reader must know first', () => {
  const rules = (project: Partial<LineUp['project']>) => groundRules({ ...newLineUp(), project: { ...newLineUp().project, ...project } });
  it('is nothing where the project sets no limit and asks every check', () => {
    expect(rules({ limits: {}, checks: {} })).toBe('');
    expect(rules({ limits: {}, checks: { 'lead-drop': { off: false } } })).toBe('');
  });
  it('are its limits, and the checks that it leaves out with the reason', () => {
    expect(rules({ limits: { feederDrop_pct: 2, leadDrop_pct: 4, motorPeak_V: 1300 }, checks: {} })).toBe(
      'Limits of this project: drop in a feeder 2 %, drop in a motor lead 4 %, peak at a motor 1300 V.',
    );
    expect(
      rules({
        limits: { leadDrop_pct: 4 },
        checks: { 'conduit-fill': { off: true, reason: ' tray ' }, moisture: { off: true, reason: ' ' } },
      }),
    ).toBe(
      'Limits of this project: drop in a motor lead 4 %. Switched off for this project: conduit-fill (tray), moisture (no reason given).',
    );
  });
});
