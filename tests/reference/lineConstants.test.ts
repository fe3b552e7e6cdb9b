import { describe, expect, it } from 'vitest';
import {
  type LineBuild,
  lineConstants,
  motorSurgeImpedance_ohm,
  shieldedInductance_HPerM,
  windingCapacitance_F,
} from '../../engine/physics/wave/lineConstants.ts';
import { expectClose } from './expectClose.ts';

/** Constants from dimensions against a two-dimensional field solution of whole cross-sections. */

const mil = 25.4e-6;
const line = (build: LineBuild, polymer: 'pvc' | 'xlpe', diameter_mm: number, wall_mil: number, more = {}) => {
  const found = lineConstants({ build, polymer, conductorDiameter_m: diameter_mm / 1000, wall_m: wall_mil * mil, sets: 1, ...more });
  if (!found) throw new Error('no line');
  return found;
};

describe('against the field solution', () => {
  it('trefoil in a round shield: 153.5 nH/m by the plain formula, 150.3 solved', () => {
    expectClose(shieldedInductance_HPerM(1.18, 2.24, 4.48) * 1e9, 153.5, { relative: 0.002 }, 'worked example');
    expectClose(shieldedInductance_HPerM(1.18, 2.24, 4.48) * 1e9, 150.3, { relative: 0.03 }, 'field solution');
  });
  /** Zd of one phase as solved, loose conductors touching each other on the wall of the pipe. */
  it.each([
    ['loose', 'pvc', 2.32, 19, 28.5],
    ['loose', 'xlpe', 2.32, 30, 41.8],
    ['loose', 'pvc', 5.89, 46, 27],
    ['loose', 'xlpe', 20.65, 65, 20.1],
    ['loose', 'pvc', 20.65, 69, 17.4],
  ] as const)('%s %s, %d mm, %d mil: the low end is that of touching conductors, %d Ω', (build, polymer, mm, wall, solved) =>
    // The wave is taken at a usual speed of the material, not at that of each cross-section.
    expectClose(line(build, polymer, mm, wall).lowestLL_ohm / 2, solved, { relative: 0.17 }, 'field solution'),
  );
  it.each([
    ['multicore', 'pvc', 2.32, 19, 34.9],
    ['shielded', 'xlpe', 2.32, 30, 28.5],
    ['shielded', 'xlpe', 5.89, 45, 22.3],
    ['armoured', 'xlpe', 20.65, 65, 13.7],
  ] as const)('%s %s, %d mm, %d mil: %d Ω', (build, polymer, mm, wall, solved) =>
    expectClose(line(build, polymer, mm, wall).impedanceLL_ohm / 2, solved, { relative: 0.08 }, 'field solution'),
  );
  it('small loose wire measures 80 to 100 Ω line to line; spread 1.5 times apart 72 to 86 Ω a phase', () => {
    const { impedanceLL_ohm, highestLL_ohm } = line('loose', 'pvc', 2.32, 19);
    expect(impedanceLL_ohm).toBeGreaterThan(80);
    expect(impedanceLL_ohm).toBeLessThan(100);
    expect(highestLL_ohm / 2).toBeGreaterThan(72);
    expect(highestLL_ohm / 2).toBeLessThan(86);
  });
  it.each([
    ['shielded', 2.32, 30, 102.6],
    ['shielded', 5.89, 45, 109.4],
    ['armoured', 20.65, 65, 153.4],
  ] as const)('%s, %d mm, %d mil: %d pF/m to the shield', (build, mm, wall, pF) =>
    expectClose(line(build, 'xlpe', mm, wall).toShield_FPerM * 1e12, pF, { relative: 0.15 }, 'field solution; 15 % on the common mode'),
  );
  it('a typical low-capacitance motor cable lies under 250 pF/m from a core to all else (a drive maker’s manual)', () => {
    const { toShield_FPerM, betweenCores_FPerM } = line('shielded', 'xlpe', 2.32, 30);
    expect((toShield_FPerM + 2 * betweenCores_FPerM) * 1e12).toBeLessThan(250);
    expectClose((toShield_FPerM + 2 * betweenCores_FPerM) * 1e12, 158, { relative: 0.05 }, 'field solution, 12 AWG');
  });
});

describe('from a data sheet', () => {
  it('what is entered overrides what is worked out: impedance, speed, capacitances', () => {
    const entered = line('loose', 'pvc', 2.32, 19, { entered: { impedance_ohm: 66, velocity_mPerS: 160e6 } });
    expect([entered.lowestLL_ohm, entered.impedanceLL_ohm, entered.highestLL_ohm, entered.slowest_mPerS]).toEqual([66, 66, 66, 160e6]);
    // Zd = 1 / (v (Cg + 3 Cm)), Z0 = 1 / (v Cg).
    const sheet = line('shielded', 'xlpe', 2.32, 30, {
      entered: { velocity_mPerS: 190e6, toShield_FPerM: 103e-12, betweenCores_FPerM: 27.5e-12 },
    });
    expectClose(sheet.impedanceLL_ohm / 2, 28.4, { relative: 0.01 }, 'worked example: 28.5 Ω');
    expectClose(sheet.common_ohm, 51.1, { relative: 0.01 }, 'worked example: 51.4 Ω');
  });
  it('sets share the impedance', () =>
    expect(line('shielded', 'xlpe', 2.32, 30, { sets: 2 }).impedanceLL_ohm).toBeCloseTo(
      line('shielded', 'xlpe', 2.32, 30).impedanceLL_ohm / 2,
      9,
    ));
  it('dimensions that give no line give none', () => {
    expect(lineConstants({ build: 'loose', polymer: 'pvc', conductorDiameter_m: 0, wall_m: 1e-3, sets: 1 })).toBeNull();
    expect(lineConstants({ build: 'loose', polymer: 'pvc', conductorDiameter_m: 2e-3, wall_m: 1e-12, sets: 1 })).toBeNull();
    expect(lineConstants({ build: 'shielded', polymer: 'pvc', conductorDiameter_m: 1e-12, wall_m: 1, sets: 1 })).toBeNull();
  });
});

describe('closed forms, worked by hand', () => {
  const bare = (more: Partial<Parameters<typeof lineConstants>[0]> = {}) =>
    lineConstants({ build: 'loose', polymer: 'pvc', conductorDiameter_m: 2e-3, wall_m: 1e-3, sets: 1, ...more });
  it('two thin wires: unshielded cable of four radii over the insulation, 34 Ω × ln 8, and 15 % on both sides', () => {
    const found = bare({ build: 'multicore', wall_m: 3e-3 });
    expectClose((found?.impedanceLL_ohm ?? 0) / 2, 34 * Math.log(8), { relative: 1e-9 }, 'v µ0 / 2π ln(D / r)');
    expectClose((found?.lowestLL_ohm ?? 0) / 2, 34 * 0.85 * Math.log(8), { relative: 1e-9 }, '− 15 %');
    expectClose((found?.highestLL_ohm ?? 0) / 2, 34 * 1.15 * Math.log(8), { relative: 1e-9 }, '+ 15 %');
  });
  // D = 6 mm, r = 1 mm, insulated 2 mm: L = 0.2 µH/m × arcosh 3 = 0.35255; C = 55.6325 / (ln 2 / εr + ln 3) pF/m.
  it.each([
    ['xlpe', 2.4, 93.767],
    ['epr', 3, 91.794],
    ['hepr', 3, 91.794],
    ['pvc', 4, 89.778],
    [null, 4, 89.778],
  ] as const)('loose and apart in %s, of permittivity %d: %d Ω', (polymer, _, ohm) =>
    expectClose((bare({ polymer })?.highestLL_ohm ?? 0) / 2, ohm, { relative: 3e-4 }, 'sqrt(L / C)'),
  );
  it('skin effect of 12 AWG: 1.8 × 0.261 µΩ √f over 7.289 mm of circumference', () =>
    expectClose(line('loose', 'pvc', 2.32, 19).skin_ohmPerMRootHz, 6.4458e-5, { relative: 1e-4 }, 'Rs / π d'));
  it('common mode as solved at three sizes, and half way between them in the logarithm the mean', () => {
    const ohms = (build: LineBuild) =>
      [1, 2.32, Math.sqrt(2.32 * 5.89), 5.89, Math.sqrt(5.89 * 20.65), 20.65, 30].map((mm) => line(build, 'xlpe', mm, 65).common_ohm);
    for (const [build, solved] of [
      ['shielded', [51.4, 51.4, 47.55, 43.7, 37.05, 30.4, 30.4]],
      ['armoured', [51.4, 51.4, 47.55, 43.7, 37.05, 30.4, 30.4]],
      ['loose', [137, 137, 122.5, 108, 98, 88, 88]],
      ['multicore', [197, 197, 197, 197, 197, 197, 197]],
    ] as const)
      for (const [i, ohm] of ohms(build).entries()) expectClose(ohm, solved[i] ?? 0, { relative: 1e-9 }, `${build}, field solution`);
  });
  it('speed and loss by the material, the slowest speed and the least loss where it is not known', () =>
    expect(
      (['pvc', 'xlpe', 'epr', 'hepr', null] as const).map((polymer) => [bare({ polymer })?.velocity_mPerS, bare({ polymer })?.lossFactor]),
    ).toEqual([
      [170e6, 0.06],
      [190e6, 0.001],
      [190e6, 0.01],
      [190e6, 0.01],
      [150e6, 0.001],
    ]));
});

describe('what is entered in part, and how far it may go', () => {
  const of = (entered = {}, sets = 1) =>
    lineConstants({ build: 'shielded', polymer: 'xlpe', conductorDiameter_m: 2.32e-3, wall_m: 0.762e-3, sets, entered });
  it('one capacitance leaves the impedance as worked out, and says so', () => {
    const [plain, toShield, between] = [of(), of({ toShield_FPerM: 100e-12 }), of({ betweenCores_FPerM: 20e-12 })];
    expect([toShield?.impedanceLL_ohm, between?.impedanceLL_ohm]).toEqual([plain?.impedanceLL_ohm, plain?.impedanceLL_ohm]);
    expectClose(toShield?.common_ohm ?? 0, 1 / (190e6 * 100e-12), { relative: 1e-9 }, '1 / (v Cg)');
    expect([plain?.source.startsWith('dimensions'), of({ impedance_ohm: 60 })?.source.startsWith('entered')]).toEqual([true, true]);
    expect(plain?.source).toContain('cores in a shield');
  });
  it('from 2 to 1000 Ω, sets sharing all three', () => {
    expect([1.99, 2, 1000, 1001].map((impedance_ohm) => of({ impedance_ohm })?.impedanceLL_ohm ?? null)).toEqual([null, 2, 1000, null]);
    expect([of({ impedance_ohm: 60 }, 3)?.lowestLL_ohm, of({ impedance_ohm: 60 }, 3)?.highestLL_ohm]).toEqual([20, 20]);
    expect(of({}, 0.5)).toBeNull();
  });
  it('a wall of a tenth of a millimetre is one, a thinner one is none', () => {
    const walled = (wall_m: number) => lineConstants({ build: 'loose', polymer: 'pvc', conductorDiameter_m: 2e-3, wall_m, sets: 1 });
    expect([walled(0.1e-3) === null, walled(0.09e-3)]).toEqual([false, null]);
  });
  it('a motor of 90 and of 355 kW: 800 and 400 Ω, of 1 kW 5000 Ω (joint trade technical report, from memory)', () => {
    for (const [kW, ohm] of [
      [90, 800],
      [355, 400],
      [1, 5000],
    ] as const)
      expectClose(motorSurgeImpedance_ohm(1000 * kW), ohm, { relative: 0.01 }, 'report');
  });
});

describe('winding to frame', () => {
  /** 0.00024 H² − 0.039 H + 2.2 nF by shaft height (form of a published fit, coefficients from memory), of the usual four-pole power. */
  it.each([
    [1.5, 90],
    [4, 112],
    [7.5, 132],
    [15, 160],
    [22, 180],
    [30, 200],
    [45, 225],
    [55, 250],
    [90, 280],
    [160, 315],
    [250, 355],
    [450, 400],
  ])('%d kW, shaft height %d mm', (kW, H) =>
    expectClose(windingCapacitance_F(kW * 1000) * 1e9, 0.00024 * H ** 2 - 0.039 * H + 2.2, { absolute: 0.03 }, 'fit'),
  );
  it('between them straight in logarithms, outside them the last', () => {
    expectClose(windingCapacitance_F(1000 * Math.sqrt(1.5 * 4)) * 1e9, Math.sqrt(0.63 * 0.84), { relative: 1e-6 }, 'geometric mean');
    expectClose(windingCapacitance_F(1000 * Math.sqrt(250 * 450)) * 1e9, Math.sqrt(18.6 * 25), { relative: 1e-6 }, 'geometric mean');
    expectClose(windingCapacitance_F(100) * 1e9, 0.63, { relative: 1e-6 }, 'least');
    expectClose(windingCapacitance_F(2e6) * 1e9, 25, { relative: 1e-6 }, 'most');
  });
});
