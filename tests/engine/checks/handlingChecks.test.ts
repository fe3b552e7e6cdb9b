import { describe, expect, it } from 'vitest';
import { exceeds } from '../../../engine/checks/check.ts';
import { existingCable, insulationTemperature } from '../../../engine/checks/handlingChecks.ts';
import type { Cable } from '../../../engine/lineup/cable.ts';
import { CABLE, cableScope } from './scopes.ts';
import { fields, only } from './told.ts';

/** PVC stiffens below −10 °C (NEC 310.10 informational note); NEC 310.10(D) for sunlight; an existing cable by common practice. */

type Laid = Cable['installation'];

describe('cold, sun and movement', () => {
  const of = (installation: Laid, insulation: Cable['insulation'] = { type: 'PVC' }, more: Partial<Cable> = {}) =>
    only(
      insulationTemperature.scope === 'cable'
        ? insulationTemperature.judge(cableScope({ cable: { ...CABLE, installation, insulation, ...more } }))
        : [],
    );
  const STILL: Laid = { ambientLeast_C: 0, flexing: false, sunlight: false };
  it('of PVC ends at −10 °C, of cross-linked and rubber types at −40 °C', () => {
    const at = (ambientLeast_C: number, type: NonNullable<Cable['insulation']['type']>) =>
      of({ ...STILL, ambientLeast_C }, { type }).verdict;
    expect([at(-10, 'PVC'), at(-10.1, 'PVC'), at(-40, 'XLPE'), at(-40.1, 'XLPE')]).toEqual(['pass', 'caution', 'pass', 'caution']);
    expect([at(-40, 'EPR'), at(-40.1, 'EPR'), at(-40, 'HEPR'), at(-40.1, 'HEPR')]).toEqual(['pass', 'caution', 'pass', 'caution']);
    expect([exceeds(-10, -10), exceeds(-9.9, -10), exceeds(-10.1, -10), exceeds(0, 0)]).toEqual([false, true, false, false]);
  });
  it('whose coldest is above the ambient it carries its current at is not known: the two contradict each other', () => {
    const found = of({ ...STILL, ambientLeast_C: 20, ambient_C: -20 });
    expect([found.verdict, found.phrase]).toEqual(['open', 'least above most']);
    expect([of({ ...STILL, ambient_C: 0 }).verdict, of({ ...STILL, ambient_C: 30 }).verdict]).toEqual(['pass', 'pass']);
  });
  it('shows from what, and what to do of one that is too cold', () => {
    const [warm, cold] = [of(STILL), of({ ...STILL, ambientLeast_C: -20 }, { temperatureLeast_C: -15 })];
    expect([warm, cold].map((each) => [each.verdict, each.phrase, each.value, each.limit, each.unit, each.quantity, each.working])).toEqual(
      [
        ['pass', 'warm enough', 0, -10, '°C', 'coldest place', ['0.0 °C against −10 °C']],
        ['caution', '−20 °C is too cold', -20, -15, '°C', 'coldest place', ['−20.0 °C against −15 °C']],
      ],
    );
    expect([warm.text, cold.text]).toEqual([
      'W lies at 0 °C or warmer and is good to −10 °C.',
      'W lies where it may be −20 °C; its insulation is good to −15 °C.',
    ]);
    expect(of({ ...STILL, ambientLeast_C: -20 }).text).toContain('; PVC is good to');
    expect([cold.remedies.length, cold.inputs.length, warm.inputs.length, warm.authority]).toEqual([2, 4, 4, 'guide']);
    // What its maker says stands over what its letters say.
    expect(of({ ...STILL, ambientLeast_C: -20 }, { type: 'PVC', temperatureLeast_C: -25 }).verdict).toBe('pass');
  });
  it('in the sun is rated for it', () => {
    const sun = (sunlightRated?: boolean) =>
      of({ ...STILL, sunlight: true }, { type: 'PVC', ...(sunlightRated === undefined ? {} : { sunlightRated }) });
    expect([sun(true), sun(false), sun()].map((each) => each.verdict)).toEqual(['pass', 'fail', 'open']);
    const found = sun(false);
    expect([found.authority, found.source, found.phrase, found.remedies.length, found.inputs.length]).toEqual([
      'code',
      'NEC 310.10(D)',
      'not for sunlight',
      1,
      5,
    ]);
    expect(fields(sun())).toEqual(['W: insulation.sunlightRated']);
    expect(of(STILL, { type: 'PVC', sunlightRated: false }).verdict).toBe('pass');
  });
  it('that moves is of fine strands', () => {
    const moves = (build?: Cable['conductor']['build']) =>
      of({ ...STILL, flexing: true }, { type: 'PVC' }, { conductor: build ? { build } : {} });
    expect([moves('flexible'), moves('stranded'), moves('solid'), moves()].map((each) => each.verdict)).toEqual([
      'pass',
      'fail',
      'fail',
      'open',
    ]);
    const found = moves('stranded');
    expect([found.authority, found.phrase, found.remedies.length, found.inputs.length, fields(moves())]).toEqual([
      'physics',
      'fixed cable that moves',
      1,
      5,
      ['W: conductor.build'],
    ]);
    expect(found.text).toBe('W moves in use and has stranded conductors, which break.');
    expect(of(STILL, { type: 'PVC' }, { conductor: { build: 'solid' } }).verdict).toBe('pass');
  });
  it('is open while a value is not known, and says which', () => {
    expect(fields(of({}, {}))).toEqual([
      'W: insulation.type',
      'W: installation.ambientLeast_C',
      'W: installation.flexing',
      'W: installation.sunlight',
    ]);
    for (const key of ['ambientLeast_C', 'flexing', 'sunlight'] as const) {
      const { [key]: _, ...laid } = STILL;
      expect([of(laid).verdict, ...fields(of(laid))]).toEqual(['open', `W: installation.${key}`]);
    }
    expect([of(STILL, {}).verdict, ...fields(of(STILL, {}))]).toEqual(['open', 'W: insulation.type']);
    expect(of(STILL, { temperatureLeast_C: -5 }).verdict).toBe('pass');
  });
  it('that is too cold stays open while what might fail it is not known, and a known failure is told first', () => {
    const cold: Laid = { ambientLeast_C: -30, flexing: false, sunlight: true };
    expect([of(cold).verdict, of(cold, { type: 'PVC', sunlightRated: true }).verdict]).toEqual(['open', 'caution']);
    expect(of({ ambientLeast_C: -30, sunlight: false }).verdict).toBe('open');
    expect(of({ ...cold, flexing: true }, { type: 'PVC', sunlightRated: false }, { conductor: {} }).verdict).toBe('fail');
  });
  it('is not asked inside one enclosure', () => expect(of(STILL, {}, { kind: 'link' }).verdict).toBe('not-applicable'));
});

describe('an existing cable', () => {
  const of = (installation: Laid, more: Partial<Cable> = {}) =>
    only(existingCable.scope === 'cable' ? existingCable.judge(cableScope({ cable: { ...CABLE, installation, ...more } })) : []);
  it('is noted once it is tested, and open before', () => {
    const [tested, untested, unsaid] = [
      of({ existing: true, tested: true }),
      of({ existing: true, tested: false }),
      of({ existing: true }),
    ];
    expect([tested, untested, unsaid].map((each) => [each.verdict, each.phrase, each.missing.length])).toEqual([
      ['note', 'existing, tested', 0],
      ['open', 'existing, not tested', 0],
      ['open', 'existing, not tested', 1],
    ]);
    expect([untested.text, unsaid.text, ...fields(unsaid)]).toEqual([
      'W is an existing cable that was not tested.',
      'W is an existing cable; whether it was identified and tested is not known.',
      'W: installation.tested',
    ]);
    expect([tested.inputs.length, untested.inputs.length, untested.remedies.length]).toEqual([2, 2, 3]);
    expect(of({ existing: true, tested: true }, { insulation: { type: 'PVC' } }).inputs).toHaveLength(3);
  });
  it('is not asked of a new one or inside one enclosure, and open where nobody said', () => {
    expect([of({ existing: false }).text, of({}, { kind: 'link' }).verdict]).toEqual(['A new cable.', 'not-applicable']);
    expect([of({ existing: false }).verdict, of({}).verdict, ...fields(of({}))]).toEqual([
      'not-applicable',
      'open',
      'W: installation.existing',
    ]);
  });
});
