import { describe, expect, it } from 'vitest';
import type { CableScope } from '../../../engine/checks/check.ts';
import { separation, sharedRaceway, spareConductors } from '../../../engine/checks/routingChecks.ts';
import type { Cable } from '../../../engine/lineup/cable.ts';
import { expectClose } from '../../reference/expectClose.ts';
import { CABLE, cableScope, DRIVE } from './scopes.ts';
import { fields, only } from './told.ts';

/** Distances and company by the makers' guides that the checks cite: 500, 300 and 200 mm, 3 in between steel; NEC 300.3(C). */

type Laid = Cable['installation'];

describe('the distance to other cables', () => {
  const of = (installation: Laid, side: 'input' | 'output' = 'output', more: Partial<Cable> = {}) =>
    only(
      separation.scope === 'cable'
        ? separation.judge(
            cableScope({
              cable: { ...CABLE, installation: { raceway: 'tray', divider: false, ...installation }, ...more },
              side,
              project: { ...cableScope().project, units: 'metric' },
            }),
          )
        : [],
    );
  const at = (toControl_mm: number, toPower_mm: number, side: 'input' | 'output', raceway: Laid['raceway'] = 'tray') =>
    of({ toControl_mm, toPower_mm, raceway }, side).verdict;
  it('of a motor cable is 500 mm to control and 300 mm to power; of a supply 200 mm to control', () => {
    expect([at(500, 300, 'output'), at(499, 300, 'output'), at(500, 299, 'output')]).toEqual(['pass', 'caution', 'caution']);
    expect([at(200, 0, 'input'), at(199, 0, 'input')]).toEqual(['pass', 'caution']);
  });
  it('of steel conduit is 3 in, 76 mm', () => {
    expect([at(76, 76, 'output', 'steel-conduit'), at(75, 76, 'output', 'steel-conduit'), at(76, 75, 'output', 'steel-conduit')]).toEqual([
      'pass',
      'caution',
      'caution',
    ]);
    expect([at(76, 0, 'input', 'steel-conduit'), at(75, 0, 'input', 'steel-conduit')]).toEqual(['pass', 'caution']);
  });
  it('shows what is too near, the worse of two, and what to do', () => {
    const found = of({ toControl_mm: 250, toPower_mm: 400, parallel_m: 20 });
    expect([found.verdict, found.value, found.limit, found.unit, found.quantity, found.phrase]).toEqual([
      'caution',
      250,
      500,
      'mm',
      'distance',
      'too near to other cables',
    ]);
    expectClose(found.margin_pct ?? 0, -50, { relative: 1e-12 }, 'half of it');
    expect([found.working, found.remedies.length, found.inputs.length]).toEqual([['250 mm from control cables (500 asked)'], 3, 5]);
    expect(found.text.replaceAll('\u00a0', ' ')).toBe('W lies 250 mm from control cables (500 asked), side by side for 20 m.');
    const pair = (toControl_mm: number, toPower_mm: number) => {
      const { value, limit } = of({ toControl_mm, toPower_mm });
      return [value, limit];
    };
    // A number stands beside the limit that is its own.
    expect([pair(450, 350), pair(600, 250), pair(450, 100), pair(100, 250)]).toEqual([
      [450, 500],
      [250, 300],
      [100, 300],
      [100, 500],
    ]);
    expect(of({ toControl_mm: 450, toPower_mm: 100 }).text).toBe(
      'W lies 100 mm from other power (300 asked) and 450 mm from control cables (500 asked).',
    );
    expect([of({ toPower_mm: 100 }).limit, of({ toControl_mm: 100 }).limit]).toEqual([300, 500]);
  });
  it('behind a metal divider is a note, and open while nobody said whether there is one', () => {
    const note = of({ toControl_mm: 100, toPower_mm: 400, divider: true });
    expect([note.verdict, note.phrase, note.remedies]).toEqual(['note', 'near, with a divider', []]);
    expect(note.text).toBe('W lies 100 mm from control cables (500 asked); a metal divider stands between.');
    const { cable } = cableScope();
    const open = only(
      separation.scope === 'cable'
        ? separation.judge(cableScope({ cable: { ...cable, installation: { toControl_mm: 100 } }, side: 'output' }))
        : [],
    );
    expect([open.verdict, ...fields(open), open.inputs.length]).toEqual(['open', 'W: installation.divider', 1]);
    expect(open.text).toContain('W lies 100 mm from control cables (500 asked); whether');
  });
  it('far enough says how far; while one is not known it is open, and says which', () => {
    expect(of({ toControl_mm: 500, toPower_mm: 300 }).text).toBe('W lies at least 500 mm from control cables and 300 mm from other power.');
    const supply = of({ toControl_mm: 200 }, 'input');
    expect([supply.verdict, supply.phrase, supply.text, supply.inputs.length]).toEqual([
      'pass',
      'far enough',
      'W lies at least 200 mm from control cables.',
      3,
    ]);
    const open = of({});
    expect([open.verdict, ...fields(open), open.inputs.length]).toEqual([
      'open',
      'W: installation.toControl_mm',
      'W: installation.toPower_mm',
      2,
    ]);
    expect(fields(of({}, 'input'))).toEqual(['W: installation.toControl_mm']);
  });
  it('is not asked where nothing runs beside it, nor inside one enclosure', () => {
    expect([of({ parallel_m: 0, toControl_mm: 1 }).text, of({}, 'output', { kind: 'link' }).verdict]).toEqual([
      'Nothing runs beside it.',
      'not-applicable',
    ]);
    expect(of({ parallel_m: 0 }).verdict).toBe('not-applicable');
  });
});

describe('a shared raceway', () => {
  const SHIELDED: Cable = { ...CABLE, construction: 'copper-tape', installation: { raceway: 'tray', sharedWith: ['c2'] } };
  const BARE: Cable = { ...SHIELDED, construction: 'multicore' };
  const named = (tag: string, cable: Cable): Cable => ({ ...cable, id: tag, tag });
  /** Beside others, each with what feeds it. */
  const of = (cable: Cable, beside: readonly (readonly [Cable, string])[], more: Partial<CableScope> = {}) =>
    only(
      sharedRaceway.scope === 'cable'
        ? sharedRaceway.judge(
            cableScope({
              cable,
              side: 'output',
              drive: DRIVE,
              together: beside.map(([each]) => each),
              togetherFed: beside.map(([, fed]) => fed),
              ...more,
            }),
          )
        : [],
    );
  it('of its own, or with its like, passes', () => {
    const [alone, alike] = [of({ ...BARE, installation: { sharedWith: [] } }, []), of(BARE, [[named('X', BARE), 'e1']])];
    expect([alone, alike].map((each) => [each.verdict, each.phrase, each.remedies])).toEqual([
      ['pass', 'a raceway of its own', []],
      ['pass', 'shared with its like', []],
    ]);
    expect([alone.text, alike.text, alike.inputs.length]).toEqual([
      'W shares its raceway with no other cable.',
      'W shares its raceway with X, which may lie together.',
      3,
    ]);
    expect(of(BARE, [[named('X', BARE), 'input']], { side: 'input', drive: null }).verdict).toBe('pass');
  });
  it('of a supply beside an output is a caution, seen from either', () => {
    const [out, feed] = [
      of(SHIELDED, [[named('X', SHIELDED), 'input']]),
      of(SHIELDED, [[named('X', SHIELDED), 'd9']], { side: 'input', drive: null }),
    ];
    expect([out, feed].map((each) => [each.verdict, each.phrase, each.remedies.length])).toEqual([
      ['caution', 'input and output together', 1],
      ['caution', 'input and output together', 1],
    ]);
    expect([out.text, feed.text]).toEqual([
      'W shares its raceway with X: a supply beside a drive’s output.',
      'W shares its raceway with X: a drive’s output beside a supply.',
    ]);
    // What nothing feeds disturbs nobody.
    expect(of(SHIELDED, [[named('X', SHIELDED), 'unfed']]).verdict).toBe('pass');
    expect(of(SHIELDED, [[named('X', SHIELDED), 'unfed']], { side: 'input', drive: null }).verdict).toBe('pass');
  });
  it('of several drives’ outputs is a caution to three and fails beyond, unless they are shielded', () => {
    const beside = (cable: Cable, ...drives: readonly string[]) => drives.map((id, i) => [named(`X${i}`, cable), id] as const);
    const [three, four] = [of(BARE, beside(BARE, 'd2', 'd3')), of(BARE, beside(BARE, 'd2', 'd3', 'd4'))];
    expect([three, four].map((each) => [each.verdict, each.phrase])).toEqual([
      ['caution', '3 outputs in one raceway'],
      ['fail', '4 outputs in one raceway'],
    ]);
    expect([of(BARE, beside(BARE, 'd2')).verdict, of(SHIELDED, beside(SHIELDED, 'd2', 'd3', 'd4')).verdict]).toEqual(['caution', 'pass']);
    // Of one drive they are one output, and what is not fed is none.
    expect([of(BARE, beside(BARE, 'd2', 'd2', 'e1')).phrase, of(BARE, beside(BARE, 'e1', 'unfed', 'unfed')).verdict]).toEqual([
      '2 outputs in one raceway',
      'pass',
    ]);
    expect(of(BARE, beside(BARE, 'd2', 'd3', 'd4', 'input')).verdict).toBe('fail');
    expect(of(BARE, beside(BARE, 'd2', 'd3', 'input')).phrase).toBe('input and output together');
    expect(of(SHIELDED, [...beside(SHIELDED, 'd2', 'd3'), ...beside(BARE, 'd4')]).verdict).toBe('pass');
    // As the rule says: one cable without a shield passes, the second does not.
    expect(sharedRaceway.rule).toContain(
      'at most one cable is without a shield: more are a caution, and with more than three outputs a failure',
    );
    expect(of(BARE, beside(SHIELDED, 'd2')).verdict).toBe('pass');
    const second = of(BARE, [...beside(SHIELDED, 'd2'), ...beside(BARE, 'd3')]);
    expect([
      second.verdict,
      second.text.includes('3 drives’ outputs share the raceway of W, and more than one cable has no shield'),
    ]).toEqual(['caution', true]);
  });
  it('with control cores that have no shield is a caution; a brake is no control', () => {
    const cores = (use: 'control' | 'brake', screened?: boolean) =>
      of({ ...SHIELDED, auxiliary: [{ use, ...(screened === undefined ? {} : { screened }) }] }, []);
    expect([cores('control', false), cores('control'), cores('control', true), cores('brake', false)].map((each) => each.verdict)).toEqual([
      'caution',
      'caution',
      'pass',
      'pass',
    ]);
    expect(cores('control').phrase).toBe('control wires beside power');
  });
  it('is open while nobody said what lies in it, or how that is built', () => {
    const { sharedWith: _, ...unsaid } = SHIELDED.installation;
    const open = of({ ...SHIELDED, installation: unsaid }, []);
    expect([open.verdict, ...fields(open)]).toEqual(['open', 'W: installation.sharedWith']);
    expect(of({ ...SHIELDED, installation: unsaid }, [[named('X', SHIELDED), 'e1']]).verdict).toBe('pass');
    const { construction: __, ...unbuilt } = named('X', SHIELDED);
    const built = of(SHIELDED, [
      [unbuilt as Cable, 'd2'],
      [named('Y', SHIELDED), 'd2'],
    ]);
    expect([built.verdict, ...fields(built)]).toEqual(['open', 'X: construction']);
    expect(of(SHIELDED, [[unbuilt as Cable, 'e1']]).verdict).toBe('pass');
  });
  it('is not asked inside one enclosure', () => expect(of({ ...SHIELDED, kind: 'link' }, []).verdict).toBe('not-applicable'));
});

describe('spare conductors', () => {
  const judge = (spares: Laid['spares'], side: 'input' | 'output' = 'output', more: Partial<Cable> = {}) =>
    spareConductors.scope === 'cable'
      ? spareConductors.judge(cableScope({ cable: { ...CABLE, installation: spares ? { spares } : {}, ...more }, side }))
      : [];
  it('are grounded at both ends', () => {
    const [open, grounded] = [only(judge('left-open')), only(judge('grounded-both-ends'))];
    expect([open, grounded].map((each) => [each.verdict, each.phrase, each.remedies.length, each.inputs.length])).toEqual([
      ['note', 'spares left open', 1, 1],
      ['pass', 'spares grounded', 0, 1],
    ]);
    expect([open.text, grounded.text]).toEqual([
      'The spare conductors in W are left open: they carry a voltage while the drive runs.',
      'The spare conductors in W are grounded at both ends.',
    ]);
  });
  it('are asked where nobody said, and only behind a drive', () => {
    expect([only(judge(undefined)).verdict, ...fields(only(judge(undefined)))]).toEqual(['open', 'W: installation.spares']);
    expect([only(judge('none')).text, only(judge('left-open', 'output', { kind: 'link' })).verdict]).toEqual([
      'No spare conductors.',
      'not-applicable',
    ]);
    expect([judge('left-open', 'input'), only(judge('none')).verdict]).toEqual([[], 'not-applicable']);
  });
});
