import { describe, expect, it } from 'vitest';
import type { CableScope, DriveScope } from '../../../engine/checks/check.ts';
import type { Finding } from '../../../engine/checks/finding.ts';
import { inputShield, supplyEarthing } from '../../../engine/checks/supplyChecks.ts';
import type { Cable } from '../../../engine/lineup/cable.ts';
import type { Earthing, Element, ElementOf } from '../../../engine/lineup/elements.ts';
import { CABLE, cableScope, DRIVE, driveScope } from './scopes.ts';
import { fields, only } from './told.ts';

/** The shield of a feeder and the grounding of a supply, by the drive's manual and the makers' published ones: no filter to ground on IT. */

type Drive = ElementOf<'drive'>;
const FILTER: ElementOf<'filter'> = { id: 'f1', kind: 'filter', tag: 'Z', role: 'emc-input' };

describe('a shield on the input', () => {
  const BARE: Cable = { ...CABLE, construction: 'multicore', installation: { raceway: 'tray' } };
  const SHIELDED: Cable = { ...BARE, construction: 'copper-tape' };
  const UNKNOWN: Cable = { ...BARE, installation: {} };
  const read = (inputShieldRequired?: boolean, tag = 'D'): Drive => ({
    ...DRIVE,
    tag,
    manual: inputShieldRequired === undefined ? {} : { inputShieldRequired, page: '9' },
  });
  const { emcCategory: _, ...project } = cableScope().project;
  const judge = (cable: Cable, drives: readonly Drive[], more: Partial<CableScope> = {}) =>
    inputShield.scope === 'cable' ? inputShield.judge(cableScope({ project, cable, drives, ...more })) : [];
  const of = (...given: Parameters<typeof judge>) => only(judge(...given));
  const behindFilter = { filterAhead: true } as const;
  it('is asked by a manual: without one it fails, in a pipe it passes', () => {
    const [bare, piped] = [of(BARE, [read(true)]), of(CABLE, [read(true)])];
    expect([bare, piped].map((each) => [each.verdict, each.authority, each.phrase, each.remedies.length, each.inputs.length])).toEqual([
      ['fail', 'manual', 'input not shielded', 1, 2],
      ['pass', 'manual', 'input shielded', 0, 2],
    ]);
    expect([bare.source, bare.text, piped.text]).toEqual([
      'the manual of D, page 9; it overrides the screening rules',
      'W has neither shield nor metal raceway; the drive’s manual asks for one.',
      'W has a shield or a metal raceway.',
    ]);
    // One of several that asks is enough, and it alone is cited.
    const two = of(BARE, [read(false, 'A'), read(true, 'B'), read(true, 'C')]);
    expect([two.verdict, two.source.match(/the manual of [A-C]/g)]).toEqual(['fail', ['the manual of B', 'the manual of C']]);
    expect(two.source).toContain('rules; the');
  });
  it('is advised between a filter and its drive, at either end', () => {
    for (const ends of [
      { fromElement: FILTER, toElement: DRIVE },
      { fromElement: DRIVE, toElement: FILTER },
    ]) {
      const found = of(BARE, [read(false)], { ...behindFilter, ...ends });
      expect([found.verdict, found.authority, found.source]).toEqual(['caution', 'guide', inputShield.source]);
      expect(found.text).toBe('W has neither shield nor metal raceway between filter and drive.');
    }
    expect(of(SHIELDED, [read(false)], behindFilter).verdict).toBe('pass');
    const asked = (emcCategory: 'none' | 'C2') => of(BARE, [read(false)], { ...behindFilter, project: { ...project, emcCategory } }).text;
    expect([asked('C2').includes(' (category C2 asked).'), asked('none').includes('category')]).toEqual([true, false]);
    expect(of(BARE, [read(false)], { ...behindFilter, fromElement: FILTER, toElement: FILTER }).verdict).toBe('not-applicable');
  });
  it('is not asked else, and open while a manual was not read or the build is not known', () => {
    expect([of(BARE, [read(false)]).verdict, of(SHIELDED, [read()]).verdict, of(CABLE, [read()]).verdict]).toEqual([
      'not-applicable',
      'not-applicable',
      'not-applicable',
    ]);
    for (const found of [of(BARE, [read(false, 'A'), read()]), of(UNKNOWN, [read()]), of(BARE, [read()], behindFilter), of(BARE, [DRIVE])])
      expect([found.verdict, ...fields(found)]).toEqual(['open', 'D: manual.inputShieldRequired']);
    const unknown = of(UNKNOWN, [read(true)]);
    expect([unknown.verdict, ...fields(unknown)]).toEqual(['open', 'W: installation.raceway']);
    const { construction: __, ...unbuilt } = BARE;
    expect(fields(of(unbuilt as Cable, [read(true)]))).toEqual(['W: construction']);
    expect(of(BARE, [read(true, 'A'), read()]).verdict).toBe('fail');
    expect([judge(BARE, [read(true)], { side: 'output' }), of({ ...BARE, kind: 'link' }, [read(true)]).verdict]).toEqual([
      [],
      'not-applicable',
    ]);
  });
});

describe('the grounding of the supply', () => {
  const SUPPLY: ElementOf<'supply'> = { id: 's1', kind: 'supply', tag: 'S' };
  const of = (earthing: Earthing | undefined, drive: Partial<Drive> = {}, more: Partial<DriveScope> = {}): Finding => {
    const scope = driveScope({
      drive: { ...DRIVE, ...drive },
      earthing,
      earthingPart: { ...SUPPLY, ...(earthing ? { earthing } : {}) },
      supply: SUPPLY,
      ...more,
    });
    return only(supplyEarthing.scope === 'drive' ? supplyEarthing.judge(scope) : []);
  };
  const CLEAR = { builtInFilter: false, filterJumpers: 'out' } as const;
  it.each([
    ['solid-wye', 'solidly grounded wye'],
    ['tn', 'TN'],
    ['tt', 'TT'],
  ] as const)('%s passes, whatever hangs on it', (earthing, words) => {
    const found = of(earthing, {}, { filters: [FILTER] });
    expect([found.verdict, found.phrase, found.text, found.inputs.length]).toEqual(['pass', words, `The supply of D is ${words}.`, 1]);
  });
  it.each([
    ['corner-grounded', 'corner-grounded'],
    ['midpoint-grounded', 'mid-point-grounded'],
    ['resistance-grounded', 'resistance-grounded'],
    ['ungrounded', 'not grounded (IT)'],
  ] as const)('%s is a note where nothing to ground is connected', (earthing, words) => {
    const found = of(earthing, CLEAR);
    expect([found.verdict, found.phrase, found.remedies, found.inputs.length]).toEqual(['note', `${words} supply`, [], 3]);
    expect(found.text).toBe(`The supply of D is ${words}; nothing to ground is connected in it.`);
  });
  it('that the manual does not allow fails, a solid one too', () => {
    const found = of('tn', { ...CLEAR, manual: { allowedEarthing: ['solid-wye', 'corner-grounded'] } });
    expect([found.verdict, found.authority, found.phrase, found.remedies.length, found.inputs.length]).toEqual([
      'fail',
      'manual',
      'TN supply',
      3,
      4,
    ]);
    expect([found.source.startsWith('the manual of D'), found.text]).toEqual([
      true,
      'The supply of D is TN; its manual allows solidly grounded wye, corner-grounded.',
    ]);
  });
  it('that is none fails with a filter to ground: one apart, or one inside with its jumpers in', () => {
    const [apart, inside] = [
      of('ungrounded', CLEAR, { filters: [FILTER] }),
      of('ungrounded', { builtInFilter: true, filterJumpers: 'in' }),
    ];
    expect([apart, inside].map((each) => [each.verdict, each.authority, each.phrase, each.remedies.length])).toEqual([
      ['fail', 'physics', 'filter on ungrounded supply', 3],
      ['fail', 'physics', 'filter on ungrounded supply', 3],
    ]);
    expect(apart.inputs).toHaveLength(3);
    expect(of('ungrounded', {}, { filters: [FILTER] }).verdict).toBe('fail');
    // A permission of the manual does not change what the filter stands at.
    expect(of('ungrounded', { ...CLEAR, manual: { allowedEarthing: ['ungrounded'] } }, { filters: [FILTER] }).verdict).toBe('fail');
    expect(of('corner-grounded', CLEAR, { filters: [FILTER] }).verdict).toBe('caution');
    expect(of('ungrounded', { builtInFilter: false, filterJumpers: 'in' }).verdict).toBe('caution');
    expect(of('ungrounded', { builtInFilter: true, filterJumpers: 'out' }).verdict).toBe('caution');
  });
  it('that is not solid is a caution with anything to ground, a note where the manual allows it', () => {
    const jumpered = { builtInFilter: false, filterJumpers: 'in' } as const;
    const [plain, allowed] = [
      of('corner-grounded', jumpered),
      of('corner-grounded', { ...jumpered, manual: { allowedEarthing: ['corner-grounded'] } }),
    ];
    expect([plain, allowed].map((each) => [each.verdict, each.phrase, each.remedies.length])).toEqual([
      ['caution', 'corner-grounded supply', 3],
      ['note', 'corner-grounded supply', 3],
    ]);
    expect([plain.text.includes('no permission'), allowed.text.includes('; its manual allows it.'), plain.inputs.length]).toEqual([
      true,
      true,
      3,
    ]);
    expect(of('corner-grounded', { builtInFilter: true, filterJumpers: 'out' }).verdict).toBe('caution');
  });
  it('is open while it, or what hangs on it, is not known, and says which', () => {
    expect([of(undefined).verdict, ...fields(of(undefined))]).toEqual(['open', 'S: earthing']);
    const transformer: Element = { id: 't1', kind: 'transformer', tag: 'T' };
    expect(fields(of(undefined, {}, { earthingPart: transformer }))).toEqual(['T: secondaryEarthing']);
    expect([of('corner-grounded').verdict, ...fields(of('corner-grounded'))]).toEqual(['open', 'D: builtInFilter', 'D: filterJumpers']);
    expect(fields(of('corner-grounded', {}, { filters: [FILTER] }))).toEqual(['D: filterJumpers']);
    expect(fields(of('ungrounded', { builtInFilter: true }))).toEqual(['D: filterJumpers']);
    expect(fields(of('ungrounded', { filterJumpers: 'in' }))).toEqual(['D: builtInFilter']);
    const low = of('corner-grounded', CLEAR, { earthingPart: { ...transformer, secondaryEarthing: 'corner-grounded' } as Element });
    expect(low.inputs[0]?.what).toContain('of T');
  });
});
