import { describe, expect, it } from 'vitest';
import { type CableLine, cableLine } from '../../../engine/checks/cableLine.ts';
import type { Cable } from '../../../engine/lineup/cable.ts';
import { type LineBuild, lineConstants } from '../../../engine/physics/wave/lineConstants.ts';
import { expectClose } from '../../reference/expectClose.ts';
import { CABLE } from './scopes.ts';

/**
 * What of a cable of the document goes into the constants of its line, typed here by hand: 12 AWG is 2.32 mm thick and 3.31 mm² (NEC Chapter
 * 9 Table 8), 15 mil of PVC with 4 mil of nylon over it in THHN, 30 mil in XHHW-2 (NEC Table 310.4(1), UL 83). That the constants are those
 * of a line, tests/reference holds against a field solution.
 */

const MIL = 25.4e-6;
const KFT = 304.8;
const PLAIN: Cable = {
  ...CABLE,
  conductor: { size: '12 AWG', metal: 'copper', sets: 1 },
  insulation: { type: 'XHHW-2' },
};
const of = (more: Partial<Cable> = {}, basis: 'us' | 'iec' = 'us'): CableLine => {
  const found = cableLine({ ...PLAIN, ...more }, basis);
  if (!found) throw new Error('no line');
  return found;
};
const hand = (more: Partial<Parameters<typeof lineConstants>[0]> = {}) =>
  lineConstants({ build: 'loose', polymer: 'xlpe', conductorDiameter_m: 2.32e-3, wall_m: 30 * MIL, sets: 1, ...more });
const expectLine = (found: CableLine, line: ReturnType<typeof hand>): void => {
  if (!line) throw new Error('no line');
  for (const [name, value] of Object.entries(line)) {
    const ours = found[name as keyof CableLine];
    if (typeof value === 'number' && typeof ours === 'number') expectClose(ours, value, { relative: 1e-9 }, name);
    else expect([name, ours]).toEqual([name, value]);
  }
};

describe('a cable of known dimensions', () => {
  it.each([
    ['singles', 'loose'],
    ['multicore', 'multicore'],
    ['foil-and-braid', 'shielded'],
    ['copper-tape', 'shielded'],
    ['corrugated-armour', 'armoured'],
    ['interlocked-armour', 'shielded'],
  ] satisfies (readonly [Cable['construction'], LineBuild])[])('%s is a line that is %s', (construction, build) =>
    expectLine(of({ construction }), hand({ build })),
  );
  it('has the wall of its type with the nylon on it, or one that is entered', () => {
    expectLine(of({ insulation: { type: 'THHN' } }), hand({ polymer: 'pvc', wall_m: 19 * MIL }));
    expectLine(of({ insulation: { type: 'THHN', wall_mm: 1 } }), hand({ polymer: 'pvc', wall_m: 1e-3 + 4 * MIL }));
    // 2 AWG: 7.42 mm, 40 mil and 6 mil.
    const thick = { conductor: { size: '2 AWG', metal: 'copper' as const, sets: 1 }, insulation: { type: 'THHN' as const } };
    expectLine(of(thick), hand({ polymer: 'pvc', conductorDiameter_m: 7.42e-3, wall_m: 46 * MIL }));
    expectLine(of({ insulation: { wall_mm: 1 } }), hand({ polymer: null, wall_m: 1e-3 }));
  });
  it('in parallel sets has as many lines side by side', () => {
    const found = of({ conductor: { ...PLAIN.conductor, sets: 3 } });
    expectLine(found, hand({ sets: 3 }));
    expect([of().sets, found.sets]).toEqual([1, 3]);
  });
  it('has what its data sheet says', () => {
    const wave = { impedance_ohm: 77, velocity_mPerS: 160e6, toShield_FPerM: 8e-11, betweenCores_FPerM: 2e-11 };
    expectLine(of({ wave }), hand({ entered: wave }));
    for (const [name, value] of Object.entries(wave)) expectLine(of({ wave: { [name]: value } }), hand({ entered: { [name]: value } }));
  });
  it('that are not those of a cable gives none', () =>
    expect(cableLine({ ...PLAIN, insulation: { type: 'XHHW-2', wall_mm: 0.01 } }, 'us')).toBeNull());
});

describe('the resistance of one conductor', () => {
  it('is that at 75 °C by NEC, 2.0 Ω per 1000 ft, and at 20 °C by IEC; of all sets together', () => {
    expectClose(of().resistance_ohmPerM, 2 / KFT, { relative: 1e-12 }, 'Table 9');
    expectClose(of({ conductor: { ...PLAIN.conductor, sets: 2 } }).resistance_ohmPerM, 1 / KFT, { relative: 1e-12 }, 'two sets');
    // Class 2 and class 5 of 25 mm²; what 60 Hz adds to such a wire is less than a hundredth.
    const metric = (build?: 'flexible') =>
      of({ conductor: { size: '25 mm2', metal: 'copper', sets: 1, build }, insulation: { type: 'XLPE' } }, 'iec').resistance_ohmPerM;
    expectClose(metric(), 0.727e-3, { relative: 0.01 }, 'IEC 60228 class 2');
    expectClose(metric('flexible'), 0.78e-3, { relative: 0.01 }, 'IEC 60228 class 5');
    const warm = of({ conductor: { size: '25 mm2', metal: 'copper', sets: 1 }, insulation: { type: 'XLPE' } }).resistance_ohmPerM;
    expectClose(warm, 0.727e-3 * (1 + 0.00393 * 55), { relative: 0.01 }, 'IEC 60287-1-1 at 75 °C');
  });
  it('in what it is laid: 3/0 AWG copper has 0.079 Ω per 1000 ft in steel, 0.077 in PVC', () => {
    const laid = (raceway: 'steel-conduit' | 'plastic-conduit') =>
      of({ conductor: { size: '3/0 AWG', metal: 'copper', sets: 1 }, installation: { raceway } }).resistance_ohmPerM * KFT;
    expectClose(laid('steel-conduit'), 0.079, { relative: 1e-12 }, 'Table 9');
    expectClose(laid('plastic-conduit'), 0.077, { relative: 1e-12 }, 'Table 9');
  });
  it('is none where the metal is not known: no loss', () => {
    const found = of({ conductor: { size: '12 AWG', sets: 1 } });
    expect(found.resistance_ohmPerM).toBe(0);
    expectLine(found, hand());
  });
});

describe('a cable of which too little is known', () => {
  const WORST = {
    impedanceLL_ohm: 23,
    lowestLL_ohm: 23,
    highestLL_ohm: 23,
    velocity_mPerS: 150e6,
    slowest_mPerS: 150e6,
    betweenCores_FPerM: 0,
    skin_ohmPerMRootHz: 0,
    lossFactor: 0,
    source: 'worst of all makes: construction, size, wall or sets are not known',
  };
  it('is the worst of all makes: 23 Ω line to line, 30 Ω in common mode, slow and without loss', () => {
    for (const more of [
      { construction: undefined as never },
      { conductor: { metal: 'copper' as const, sets: 1 } },
      { conductor: { size: '7 AWG', metal: 'copper' as const, sets: 1 } },
      { conductor: { size: '12 AWG', metal: 'copper' as const } },
      { insulation: {} },
    ] satisfies Partial<Cable>[]) {
      const found = of(more);
      expect(found).toMatchObject(WORST);
      expectClose(found.common_ohm, 30, { relative: 1e-12 }, 'typed');
      expectClose(found.toShield_FPerM, 1 / (150e6 * 30), { relative: 1e-12 }, 'C = 1 / (v Z)');
      expect(found.sets).toBe(1);
    }
  });
  it('but for what its data sheet says', () => {
    const blank = { insulation: {}, conductor: { ...PLAIN.conductor, sets: 2 } };
    const found = of({ ...blank, wave: { impedance_ohm: 80, velocity_mPerS: 200e6, toShield_FPerM: 1e-10, betweenCores_FPerM: 3e-11 } });
    expect(found).toMatchObject({
      impedanceLL_ohm: 40,
      lowestLL_ohm: 40,
      highestLL_ohm: 40,
      velocity_mPerS: 200e6,
      slowest_mPerS: 200e6,
      toShield_FPerM: 1e-10,
      betweenCores_FPerM: 3e-11,
    });
    expectClose(found.common_ohm, 1 / (200e6 * 1e-10), { relative: 1e-12 }, 'Z = 1 / (v C)');
    expect(of(blank).impedanceLL_ohm).toBe(11.5);
  });
});
