import { describe, expect, it } from 'vitest';
import type { CableScope, RunScope } from '../../../engine/checks/check.ts';
import { protectiveEarth, shieldAdequacy, symmetry } from '../../../engine/checks/groundChecks.ts';
import type { Cable } from '../../../engine/lineup/cable.ts';
import type { ElementOf } from '../../../engine/lineup/elements.ts';
import { expectClose } from '../../reference/expectClose.ts';
import { CABLE, cableScope, DRIVE, MOTOR, runScope } from './scopes.ts';
import { fields, labels, only } from './told.ts';

/**
 * The grounding conductor at the edges of NEC 250.122 and of IEC 60364-5-54 Table 54.2 with IEC 61800-5-1; the quality of the shield and the
 * symmetry of the grounds by the guides that the checks cite. Areas of AWG from NEC Chapter 9 Table 8: 8 AWG 8.367, 2 AWG 33.62 mm².
 */

const without = <T extends object, K extends keyof T>(of: T, ...keys: readonly K[]): Omit<T, K> =>
  Object.fromEntries(Object.entries(of).filter(([key]) => !keys.includes(key as K))) as Omit<T, K>;

const LANDED = { groundsLanded: 1 } as const;
const GROUNDED: Cable = {
  ...CABLE,
  from: { ...CABLE.from, ...LANDED },
  to: { ...CABLE.to, ...LANDED },
  grounds: { count: 1, size: '8 AWG', metal: 'copper' },
  insulation: { type: 'XHHW-2' },
  installation: { raceway: 'steel-conduit', ambient_C: 30, loadedConductors: 3, moisture: 'dry' },
};
/** 1.25 × 88 A = 110 A: 2 AWG carries 115 A, 3 AWG 100 A (Table 310.16, 75 °C), so that no phase was made larger. */
const FULL: ElementOf<'drive'> = { ...DRIVE, inputCurrent_A: 88 };
/** Of so many grounds, all landed. */
const grounds = (count: number, size = '8 AWG', metal: 'copper' | 'aluminium' = 'copper'): Partial<Cable> => ({
  grounds: { count, size, metal },
  from: { groundsLanded: count },
  to: { groundsLanded: count },
});
const BREAKER: ElementOf<'disconnect'> = { id: 'q1', kind: 'disconnect', tag: 'Q', tripCurrent_A: 100 };
const earth = (cable: Partial<Cable> = {}, more: Partial<CableScope> = {}) =>
  only(
    protectiveEarth.scope === 'cable'
      ? protectiveEarth.judge(cableScope({ cable: { ...GROUNDED, ...cable }, guard: BREAKER, drives: [FULL], ...more }))
      : [],
  );

describe('a grounding conductor', () => {
  it('is not asked inside one enclosure', () => expect(earth({ kind: 'link' }).verdict).toBe('not-applicable'));
  it('of a size that is in no table is open, and so is the phase conductor of one; a shield is not measured against such a size', () => {
    const strange = [
      earth({ ...grounds(1, '7 AWG'), grounds: { count: 1, size: '7 AWG', metal: 'copper' } }),
      earth({ conductor: { ...CABLE.conductor, size: '7 AWG' } }),
      earth({ conductor: { ...CABLE.conductor, size: '7 AWG' } }, { basis: 'iec' }),
      only(
        shieldAdequacy.scope === 'cable'
          ? shieldAdequacy.judge(
              cableScope({
                cable: {
                  ...CABLE,
                  construction: 'foil-and-braid',
                  shieldCoverage_pct: 90,
                  shieldArea_mm2: 10,
                  phasesScreened: false,
                  conductor: { ...CABLE.conductor, size: '7 AWG' },
                },
                side: 'output',
              }),
            )
          : [],
      ),
    ];
    for (const each of strange) {
      expect([each.verdict, each.text]).toEqual(['open', 'Cannot be judged: 7 AWG is not a size of the tables.']);
      expect(each.remedies).toEqual(['Write a size that the tables have, such as 2 AWG or 35 mm2.']);
    }
  });
  it('landed at neither end is broken, landed in part is a caution; the worse end is told, the start of two alike', () => {
    const at = (start: number | undefined, end: number | undefined, count = 3) =>
      earth({
        grounds: { count, size: '8 AWG', metal: 'copper' },
        from: start === undefined ? {} : { groundsLanded: start },
        to: end === undefined ? {} : { groundsLanded: end },
      });
    expect([at(0, 3), at(2, 3), at(1, 0)].map((each) => [each.verdict, each.phrase])).toEqual([
      ['fail', 'grounding conductor not landed'],
      ['caution', 'grounds not all landed'],
      ['fail', 'grounding conductor not landed'],
    ]);
    expect(at(0, 0).text).toBe('Of 3 grounding conductors in W 0 are landed at its start: the way to ground is broken there.');
    expect(at(2, 1).text).toContain('1 is landed at its end: what is left is unsymmetrical and may be too small.');
    expect(labels(at(0, 1))).toHaveLength(3);
    expect(at(0, 1).remedies).toHaveLength(1);
    // One end that is known to be bare decides; what is landed where nothing is said is asked.
    expect([at(undefined, 0).verdict, at(undefined, 3).verdict, at(3, undefined).verdict]).toEqual(['fail', 'open', 'open']);
    expect([fields(at(undefined, 3)), fields(at(3, undefined))]).toEqual([['W: from.groundsLanded'], ['W: to.groundsLanded']]);
    // More than there are, or none that could be: no end is left open.
    expect([at(4, 3).verdict, at(0, 0, 0).phrase]).toEqual(['pass', 'metal raceway as ground']);
    expect(earth({ grounds: { size: '8 AWG', metal: 'copper' }, from: { groundsLanded: 0 } }).verdict).toBe('open');
  });
});

describe('a grounding conductor by NEC 250.122', () => {
  it('of 8 AWG copper behind 100 A passes, and shows from what', () => {
    const found = earth();
    expect([found.verdict, found.value, found.unit, found.quantity, found.phrase, found.authority]).toEqual([
      'pass',
      8.367,
      'mm²',
      'area of the grounding conductors',
      'ground 8.4 of 8.4 mm²',
      'code',
    ]);
    expect([found.limit, found.margin_pct, found.remedies, found.assumptions]).toEqual([8.367, 0, [], []]);
    expect(found.text).toBe('W has 8.4 mm² of grounding conductor; behind Q at 100 A 8 AWG is asked (8.4 mm²).');
    expect(found.source).toContain('250.122');
    expect(labels(found)).toEqual([
      'Number of grounding conductors in W',
      'Grounding conductor size of W',
      'Grounding conductor metal of W',
      'Conductor size of W',
      'Conductor metal of W',
      'Grounds landed at the start of W',
      'Grounds landed at the end of W',
      'Sets in parallel of W',
      'Trip rating of Q',
      'grounding conductor',
      // What is asked of the phases, and what the next smaller ones would carry (250.122(B)).
      'Rated input current of D',
      'Insulation type of W',
      'Hottest ambient of W',
      'Loaded conductors together with W',
      'Whether it is dry, damp or wet around W',
    ]);
    expect(found.working).toEqual(['1 × 8 AWG = 8.37 mm²']);
  });
  it('too small fails; two count together, which is said; sets count each', () => {
    const small = earth(grounds(1, '10 AWG'));
    expect([small.verdict, small.remedies.length]).toEqual(['fail', 2]);
    // 10 AWG has 5.261 mm².
    expectClose(small.margin_pct ?? 0, (100 * (5.261 - 8.367)) / 8.367, { relative: 1e-9 }, 'short by hand');
    const two = earth(grounds(2, '10 AWG'));
    expect([two.verdict, two.working, two.assumptions.map((each) => each.value)]).toEqual([
      'pass',
      ['2 × 10 AWG = 10.52 mm²'],
      ['count together'],
    ]);
    expect(two.assumptions).toEqual([{ what: 'grounding conductors', value: 'count together', source: 'NEC 250.122(F), from memory' }]);
    const sets = earth({ conductor: { ...CABLE.conductor, sets: 2 } });
    expect([sets.working, sets.limit, sets.value]).toEqual([['1 × 8 AWG × 2 sets = 16.73 mm²'], 2 * 8.367, 2 * 8.367]);
    expect(sets.text).toContain('8 AWG in each of 2 sets is asked');
    // Without them nobody knows whether the phases are larger than they need be, unless the ground is as large.
    expect(fields(earth({ conductor: without(CABLE.conductor, 'sets') }))).toEqual(['W: conductor.sets']);
    expect(earth({ conductor: without(CABLE.conductor, 'sets'), ...grounds(1, '2 AWG') }).limit).toBe(8.367);
  });
  it('is never asked to be larger than a phase of its own metal', () => {
    const phase = (metal: 'copper' | 'aluminium') => earth({ conductor: { size: '10 AWG', metal, sets: 1 }, ...grounds(1, '10 AWG') });
    expect([phase('copper').verdict, phase('aluminium').verdict]).toEqual(['pass', 'fail']);
  });
  it('may be a steel conduit or a corrugated sheath, listed for it (250.118); a shield alone is none', () => {
    const none = (construction: Cable['construction'], raceway: Cable['installation']['raceway']) =>
      earth({ ...(construction ? { construction } : {}), installation: raceway ? { raceway } : {}, grounds: { count: 0 } });
    const [steel, sheath] = [none('singles', 'steel-conduit'), none('corrugated-armour', 'tray')];
    expect([steel, sheath].map((each) => [each.verdict, each.phrase, each.remedies.length])).toEqual([
      ['note', 'metal raceway as ground', 1],
      ['note', 'metal raceway as ground', 1],
    ]);
    expect([steel.text.includes('its metal conduit may'), sheath.text.includes('its sheath, where listed for it, may')]).toEqual([
      true,
      true,
    ]);
    // Rigid aluminium conduit is one too; flexible conduit is none at these currents.
    expect([none('singles', 'aluminium-conduit').verdict, none('singles', 'flexible-metal').verdict]).toEqual(['note', 'fail']);
    expect(labels(steel)).toEqual(['Number of grounding conductors in W', 'What W is laid in', 'Construction of W']);
    expect([none('copper-tape', 'tray').text, none('multicore', 'tray').text]).toEqual([
      'W has no grounding conductor; a shield alone does not count as one.',
      'W has no grounding conductor.',
    ]);
    const bare = none('multicore', 'tray');
    expect([bare.verdict, bare.phrase, bare.remedies.length, labels(bare).length]).toEqual(['fail', 'no grounding conductor', 2, 3]);
    expect(fields(none('singles', undefined))).toEqual(['W: installation.raceway']);
    const unbuilt = only(
      protectiveEarth.scope === 'cable'
        ? protectiveEarth.judge(
            cableScope({
              cable: { ...(without(CABLE, 'construction') as Cable), installation: { raceway: 'tray' }, grounds: { count: 0 } },
              guard: BREAKER,
            }),
          )
        : [],
    );
    expect([unbuilt.verdict, ...fields(unbuilt)]).toEqual(['open', 'W: construction']);
  });
  it('is open without a device ahead, its rating, or a row of the table for it', () => {
    const alone = earth({}, { guard: null });
    expect([alone.verdict, alone.phrase, alone.missing, alone.remedies]).toEqual([
      'open',
      'device ahead?',
      [],
      ['Draw the device ahead and give its rating.'],
    ]);
    expect(alone.text).toContain('no breaker or fuse is drawn ahead of W');
    expect(fields(earth({}, { guard: without(BREAKER, 'tripCurrent_A') as typeof BREAKER }))).toEqual(['Q: tripCurrent_A']);
    const beyond = earth({}, { guard: { ...BREAKER, tripCurrent_A: 6001 } });
    expect([beyond.verdict, beyond.text]).toEqual(['open', 'Cannot be judged: the table ends below 6001 A, or has no copper row for it.']);
  });
  it('is open while a value of it is not known, and says which', () => {
    for (const key of ['count', 'size', 'metal'] as const)
      expect([
        earth({ grounds: without(GROUNDED.grounds, key) }).verdict,
        ...fields(earth({ grounds: without(GROUNDED.grounds, key) })),
      ]).toEqual(['open', `W: grounds.${key}`]);
    for (const key of ['size', 'metal'] as const)
      expect(fields(earth({ conductor: without(CABLE.conductor, key) }))).toEqual([`W: conductor.${key}`]);
    expect([earth(grounds(1, '7 kcmil')).verdict, earth({ conductor: { ...CABLE.conductor, size: '7 kcmil' } }).verdict]).toEqual([
      'open',
      'open',
    ]);
  });
});

describe('a grounding conductor by IEC', () => {
  /** A drive that leaks no more than 3.5 mA, so that Table 54.2 alone counts. */
  const DRY: ElementOf<'drive'> = { ...DRIVE, leakageCurrent_A: 0.0035 };
  const WET: ElementOf<'drive'> = { ...DRIVE, leakageCurrent_A: 0.0036 };
  const LINE: Cable = { ...CABLE, conductor: { size: '16 mm2', metal: 'copper', sets: 1 } };
  const pe = (cable: Partial<Cable>, drive: ElementOf<'drive'> = DRY, more: Partial<CableScope> = {}) =>
    earth({ ...LINE, ...cable }, { basis: 'iec', drives: [drive], ...more });
  it('beside 16 mm² has 16 mm², and shows from what', () => {
    const found = pe(grounds(1, '16 mm2'));
    expect([found.verdict, found.authority, found.value, found.limit, found.unit, found.quantity, found.phrase]).toEqual([
      'pass',
      'standard',
      16,
      16,
      'mm²',
      'area of the grounding conductors',
      'PE 16.0 of 16.0 mm²',
    ]);
    expect(found.text).toBe('W has 16.0 mm² of grounding conductor; 16.0 mm² are asked.');
    expect([found.margin_pct, found.remedies, found.assumptions]).toEqual([0, [], []]);
    expect(labels(found)).toEqual([
      'Number of grounding conductors in W',
      'Grounding conductor size of W',
      'Grounding conductor metal of W',
      'Conductor size of W',
      'Conductor metal of W',
      'Grounds landed at the start of W',
      'Grounds landed at the end of W',
      'Sets in parallel of W',
    ]);
    expect(found.working[0]).toMatch(/^line conductor 16\.0 mm²: grounding conductor 16\.0 mm² \(.*[^4]\)$/);
    expect(found.source).toContain('54.2');
    const small = pe(grounds(1, '10 mm2'));
    expect([small.verdict, small.remedies.length]).toEqual(['fail', 2]);
    expectClose(small.margin_pct ?? 0, -37.5, { relative: 1e-12 }, '6 of 16');
  });
  it('is none at all: fails by its area of nothing, open only for the line conductor', () => {
    const found = pe({ grounds: { count: 0 } });
    expect([found.verdict, found.value, found.limit, found.missing]).toEqual(['fail', 0, 16, []]);
    expect(found.text).toBe('W has 0.0 mm² of grounding conductor; 16.0 mm² are asked.');
    expect(
      pe({ grounds: { count: 0 }, construction: 'copper-tape', shieldArea_mm2: 50, from: { landing: 'full' }, to: { landing: 'full' } })
        .text,
    ).toContain('(a shield alone does not count as one)');
    // Of no metal it counts as copper: 10 mm² where more than 3.5 mA may flow.
    expect(pe({ grounds: { count: 0 }, conductor: { size: '4 mm2', metal: 'copper', sets: 1 } }, WET).limit).toBe(10);
    expect(fields(pe({ grounds: { count: 0 }, conductor: { sets: 1 } }))).toEqual(['W: conductor.size', 'W: conductor.metal']);
    // Aluminium beside copper is asked of an aluminium conductor that is there.
    expect(pe({ grounds: { count: 0, metal: 'aluminium' } }).limit).toBe(16);
  });
  it('is open while a value is not known, and says which', () => {
    const given = grounds(1, '16 mm2');
    for (const key of ['count', 'size', 'metal'] as const) {
      const found = pe({ ...given, grounds: without({ ...given.grounds }, key) });
      expect([found.verdict, ...fields(found)]).toEqual(['open', `W: grounds.${key}`]);
    }
    for (const key of ['size', 'metal'] as const)
      expect(fields(pe({ ...given, conductor: without(LINE.conductor, key) }))).toEqual([`W: conductor.${key}`]);
    expect(fields(pe({ ...given, from: {}, to: {} }))).toEqual(['W: from.groundsLanded', 'W: to.groundsLanded']);
    expect([pe(grounds(1, '7 mm2')).verdict, pe({ ...given, conductor: { ...LINE.conductor, size: '7 mm2' } }).verdict]).toEqual([
      'open',
      'open',
    ]);
  });
  it('counts a shield held all round at both ends beside it, of each set', () => {
    const held = (more: Partial<Cable>) =>
      pe({
        ...grounds(1, '10 mm2'),
        construction: 'copper-tape',
        shieldArea_mm2: 6,
        from: { groundsLanded: 1, landing: 'full' },
        to: { groundsLanded: 1, landing: 'clamp' },
        ...more,
      });
    expect([held({}).verdict, held({}).value]).toEqual(['pass', 16]);
    expect(held({}).text).toContain('16.0 mm² of grounding conductor (its shield counted); 16.0 mm² are asked.');
    expect(labels(held({}))).toContain('Shield cross-section of W');
    expect(held({ conductor: { ...LINE.conductor, sets: 2 } }).value).toBe(32);
    expect(held({ conductor: without(LINE.conductor, 'sets') }).value).toBe(16);
    expect(held({ to: { groundsLanded: 1, landing: 'pigtail' } }).value).toBe(10);
    expect(held({ to: { groundsLanded: 1, landing: 'pigtail' } }).text).toBe('W has 10.0 mm² of grounding conductor; 16.0 mm² are asked.');
    expect(held({ construction: 'multicore' }).value).toBe(10);
    const { shieldArea_mm2: _, ...unmeasured } = {
      ...LINE,
      ...grounds(1, '16 mm2'),
      construction: 'copper-tape' as const,
      shieldArea_mm2: 1,
    };
    expect(earth(unmeasured, { basis: 'iec', drives: [DRY] }).value).toBe(16);
  });
  it('of sets in parallel is asked beside each', () => {
    const two = pe({ ...grounds(1, '16 mm2'), conductor: { ...LINE.conductor, sets: 2 } });
    expect([two.value, two.limit, two.verdict]).toEqual([32, 32, 'pass']);
    expect(pe({ ...grounds(1, '16 mm2'), conductor: without(LINE.conductor, 'sets') }).limit).toBe(16);
  });
  it('of aluminium beside copper is 143 / 94 of it, and says so', () => {
    const found = pe(grounds(1, '25 mm2', 'aluminium'));
    expectClose(found.limit ?? 0, (16 * 143) / 94, { relative: 1e-12 }, 'k1 / k2');
    expect(found.working[0]).toContain(', × 143 / 94 for aluminium beside copper)');
    expect(pe({ ...grounds(1, '16 mm2', 'aluminium'), conductor: { ...LINE.conductor, metal: 'aluminium' } }).limit).toBe(16);
  });
  it('where more than 3.5 mA may flow is 10 mm² of copper, 16 of aluminium, or twice of full size', () => {
    const thin = { conductor: { size: '4 mm2', metal: 'copper', sets: 1 } } as const;
    const of = (drive: ElementOf<'drive'>, ...ground: Parameters<typeof grounds>) => pe({ ...thin, ...grounds(...ground) }, drive);
    expect([of(DRY, 1, '4 mm2').verdict, of(WET, 1, '4 mm2').verdict, of(WET, 1, '10 mm2').verdict]).toEqual(['pass', 'fail', 'pass']);
    expect(of(WET, 1, '4 mm2').text).toContain('10.0 mm² are asked because more than 3.5 mA may flow to ground.');
    expect(of(DRY, 1, '4 mm2').text).toContain('4.0 mm² are asked.');
    expect([of(WET, 1, '10 mm2', 'aluminium').verdict, of(WET, 1, '16 mm2', 'aluminium').verdict]).toEqual(['fail', 'pass']);
    // Two of full size are a second path; two that have it only together, or one that is thick enough for two, are not.
    expect([of(WET, 2, '4 mm2').verdict, of(WET, 2, '4 mm2').limit]).toEqual(['pass', 4]);
    expect([of(WET, 2, '2.5 mm2').limit, of(WET, 1, '16 mm2').limit, of(WET, 3, '4 mm2').limit]).toEqual([10, 10, 4]);
    // A figure that is not given is taken as more, and said, of that drive alone.
    const silent: ElementOf<'drive'> = { ...DRIVE, tag: 'S' };
    const found = pe({ ...thin, ...grounds(1, '4 mm2') }, DRY, { drives: [silent, WET, DRY] });
    expect([found.limit, found.assumptions]).toEqual([
      10,
      [{ what: 'current of S to ground', value: 'over 3.5 mA', source: 'worst case: not given' }],
    ]);
    // Behind a drive that drive decides.
    expect([
      pe({ ...thin, ...grounds(1, '4 mm2') }, DRY, { drive: WET }).limit,
      pe({ ...thin, ...grounds(1, '4 mm2') }, WET, { drive: DRY }).limit,
    ]).toEqual([10, 4]);
  });
});

describe('the quality of a shield', () => {
  const SHIELD: Cable = {
    ...CABLE,
    construction: 'copper-tape',
    installation: { raceway: 'tray' },
    phasesScreened: false,
    shieldArea_mm2: 5,
  };
  const shield = (cable: Partial<Cable>, side: 'input' | 'output' = 'output') =>
    shieldAdequacy.scope === 'cable' ? shieldAdequacy.judge(cableScope({ cable: { ...SHIELD, ...cable }, side })) : [];
  const of = (cable: Partial<Cable>) => only(shield(cable));
  const lacking = (...keys: readonly (keyof Cable)[]) =>
    only(
      shieldAdequacy.scope === 'cable'
        ? shieldAdequacy.judge(cableScope({ cable: without(SHIELD, ...keys) as Cable, side: 'output' }))
        : [],
    );
  it('is not asked of a feeder, inside one enclosure, or where there is none', () => {
    expect(shield({}, 'input')).toEqual([]);
    expect([of({ kind: 'link' }).verdict, of({ construction: 'multicore' }).text, of(CABLE).text]).toEqual([
      'not-applicable',
      'It has no shield.',
      'Its metal raceway is the shield.',
    ]);
    expect([of({ construction: 'multicore' }).verdict, of({ kind: 'link' }).text]).toEqual([
      'not-applicable',
      'A connection inside one enclosure.',
    ]);
    const unknown = of({ construction: 'multicore', installation: {} });
    expect([unknown.verdict, ...fields(unknown)]).toEqual(['open', 'W: installation.raceway']);
    expect(fields(lacking('construction'))).toEqual(['W: construction']);
  });
  it('is good with a tenth of the phase’s area: 3.362 mm² beside 2 AWG', () => {
    const [enough, little] = [of({ shieldArea_mm2: 3.362 }), of({ shieldArea_mm2: 3.361 })];
    expect([enough, little].map((each) => [each.verdict, each.phrase])).toEqual([
      ['pass', 'good shield'],
      ['caution', 'shield too thin'],
    ]);
    expect([little.quantity, little.value, little.unit, little.authority, little.remedies.length]).toEqual([
      'area of the shield',
      3.361,
      'mm²',
      'guide',
      1,
    ]);
    expectClose(little.limit ?? 0, 3.362, { relative: 1e-9 }, 'a tenth of 33.62');
    expectClose(little.margin_pct ?? 0, (100 * (3.361 - 3.362)) / 3.362, { relative: 1e-6 }, 'by hand');
    expect([enough.remedies, labels(enough)]).toEqual([
      [],
      ['Construction of W', 'Shield cross-section of W', 'Whether each phase of W is shielded by itself', 'Conductor size of W'],
    ]);
  });
  it('around each phase by itself fails by the manual', () => {
    const found = of({ phasesScreened: true });
    expect([found.verdict, found.authority, found.phrase]).toEqual(['fail', 'manual', 'each phase shielded singly']);
  });
  it('of braid covers 85 %', () => {
    const braid = (shieldCoverage_pct: number) => of({ construction: 'foil-and-braid', shieldCoverage_pct });
    expect([braid(85).verdict, braid(84.9).verdict]).toEqual(['pass', 'caution']);
    const found = braid(68);
    expect([found.authority, found.quantity, found.value, found.limit, found.unit, found.phrase]).toEqual([
      'practice',
      'coverage',
      68,
      85,
      '%',
      'braid covers 68 %',
    ]);
    expectClose(found.margin_pct ?? 0, -20, { relative: 1e-12 }, '17 of 85');
    expect([labels(found).includes('Shield coverage of W'), found.text]).toEqual([true, 'The braid of W covers 68 %; 85 % is usual.']);
    const unsaid = of({ construction: 'foil-and-braid' });
    expect([unsaid.verdict, ...fields(unsaid)]).toEqual(['open', 'W: shieldCoverage_pct']);
    // Of tape it is not asked.
    expect(of({ shieldCoverage_pct: 10 }).verdict).toBe('pass');
  });
  it('of corrugated armour is thick enough by itself', () => {
    expect(of({ construction: 'corrugated-armour', shieldArea_mm2: 0.1 }).verdict).toBe('pass');
  });
  it('of interlocked armour serves to 30 m', () => {
    const armour = (length_m: number, more: Partial<Cable> = {}) => of({ construction: 'interlocked-armour', length_m, ...more });
    expect([armour(30).verdict, armour(30.01).verdict]).toEqual(['pass', 'caution']);
    const found = armour(40);
    expect([found.quantity, found.value, found.limit, found.unit, found.phrase]).toEqual([
      'length',
      40,
      30,
      'm',
      'interlocked armour, long',
    ]);
    expect(armour(30).phrase).toBe('interlocked armour, short');
    const endless = only(
      shieldAdequacy.scope === 'cable'
        ? shieldAdequacy.judge(
            cableScope({
              cable: { ...without(SHIELD, 'length_m', 'phasesScreened'), construction: 'interlocked-armour' } as Cable,
              side: 'output',
            }),
          )
        : [],
    );
    expect([endless.verdict, ...fields(endless)]).toEqual(['open', 'W: phasesScreened', 'W: length_m']);
    const unsaid = { ...without(SHIELD, 'phasesScreened'), construction: 'interlocked-armour', length_m: 10 } as Cable;
    const open = only(shieldAdequacy.scope === 'cable' ? shieldAdequacy.judge(cableScope({ cable: unsaid, side: 'output' })) : []);
    expect([open.verdict, ...fields(open)]).toEqual(['open', 'W: phasesScreened']);
  });
  it('is open while a value is not known, and says which', () => {
    for (const key of ['phasesScreened', 'shieldArea_mm2'] as const)
      expect([lacking(key).verdict, ...fields(lacking(key))]).toEqual(['open', `W: ${key}`]);
    expect(fields(of({ conductor: {} }))).toEqual(['W: conductor.size']);
    expect(fields(lacking('phasesScreened', 'shieldArea_mm2'))).toEqual(['W: phasesScreened', 'W: shieldArea_mm2']);
    // A thin one is a caution, whatever else is not known.
    const thin = { ...without(SHIELD, 'phasesScreened'), shieldArea_mm2: 1 } as Cable;
    expect(only(shieldAdequacy.scope === 'cable' ? shieldAdequacy.judge(cableScope({ cable: thin, side: 'output' })) : []).verdict).toBe(
      'caution',
    );
  });
});

describe('symmetry of the grounds, and the bearings', () => {
  const EVEN: Cable = { ...CABLE, grounds: { arrangement: 'symmetrical' } };
  const ONE: Cable = { ...CABLE, tag: 'X', grounds: { arrangement: 'single' } };
  const of = (ratedPower_W: number | undefined, cables: readonly Cable[], bearingProtection?: ElementOf<'motor'>['bearingProtection']) =>
    only(
      symmetry.scope === 'run'
        ? symmetry.judge(
            runScope({
              cables,
              motor: {
                ...MOTOR,
                ...(ratedPower_W === undefined ? {} : { ratedPower_W }),
                ...(bearingProtection ? { bearingProtection } : {}),
              },
            }) as RunScope,
          )
        : [],
    );
  it('is asked above 30 kW', () => {
    expect([of(30_000, [ONE]).verdict, of(30_001, [ONE]).verdict, of(undefined, [ONE]).verdict]).toEqual([
      'not-applicable',
      'caution',
      'open',
    ]);
    expect([of(30_000, [ONE]).text, ...fields(of(undefined, [ONE]))]).toEqual([
      '30.0 kW: below the sizes the guides ask about.',
      'M: ratedPower_W',
    ]);
  });
  it('with one ground to one side is a caution, whose text names the cables', () => {
    const found = of(45_000, [EVEN, ONE]);
    expect([found.verdict, found.phrase, found.remedies.length, found.runs]).toEqual(['caution', 'single ground, large motor', 2, ['M']]);
    expect(found.text).toContain('X to M (45 kW) has one');
    expect(of(45_000, [ONE, { ...ONE, tag: 'Y' }]).text).toContain('X, Y to M (45 kW) have one');
    expect(labels(found)).toEqual(['Rated power of M', 'Grounding arrangement of W', 'Grounding arrangement of X']);
    // What is connected inside one enclosure has no side.
    expect(of(45_000, [{ ...ONE, kind: 'link' }, EVEN]).verdict).toBe('pass');
  });
  it('is open while the arrangement is not known', () => {
    const found = of(45_000, [CABLE, { ...CABLE, kind: 'link' }]);
    expect([found.verdict, ...fields(found)]).toEqual(['open', 'W: grounds.arrangement']);
  });
  it('passes, and from 75 kW on only with its bearings protected', () => {
    const [below, bare, ringed, unsaid] = [
      of(74_999, [EVEN], 'none'),
      of(75_000, [EVEN], 'none'),
      of(75_000, [EVEN], 'shaft-ring'),
      of(75_000, [EVEN]),
    ];
    expect([below, bare, ringed, unsaid].map((each) => each.verdict)).toEqual(['pass', 'caution', 'pass', 'open']);
    expect(bare.text).toContain('M (75 kW) has no insulated bearing, shaft ring or common-mode cores');
    expect([below.text, ringed.text]).toEqual([
      'The grounds to M are symmetrical.',
      'The grounds to M are symmetrical, and its bearings are protected.',
    ]);
    expect([bare.phrase, below.phrase, bare.remedies.length, below.remedies, fields(unsaid)]).toEqual([
      'bearings not protected',
      'symmetrical',
      1,
      [],
      ['M: bearingProtection'],
    ]);
    expect(labels(bare)).toEqual(['Rated power of M', 'Bearing protection of M', 'Grounding arrangement of W']);
    expect(of(45_000, [EVEN]).verdict).toBe('pass');
  });
});
