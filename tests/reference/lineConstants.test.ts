import { describe, expect, it } from 'vitest';
import { type LineBuild, lineConstants, shieldedInductance_HPerM } from '../../engine/physics/wave/lineConstants.ts';
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
