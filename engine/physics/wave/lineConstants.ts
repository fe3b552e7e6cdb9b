/**
 * What a wave meets in a motor cable, by construction and dimensions, in SI units per metre of one phase.
 *
 *   differential mode   Zd = sqrt(Ld / Cd)   v = 1 / sqrt(Ld Cd)     (what stands between two terminals of the motor)
 *   common mode         Z0 = sqrt(L0 / C0)   of one phase; all three together Z0 / 3
 *
 * Trefoil in a round shield by the image method (C. R. Paul, Analysis of Multiconductor Transmission Lines, from memory); touching
 * conductors by the two-wire line. A two-dimensional field solution of typical cross-sections gives what these leave out: the nearness
 * of round conductors and of the pipe, as a factor by size, and the common mode.
 */

export type Polymer = 'pvc' | 'xlpe' | 'epr' | 'hepr';
export type LineBuild = 'loose' | 'multicore' | 'shielded' | 'armoured';

export interface LineInput {
  readonly build: LineBuild;
  /** Null: not known. The slowest wave of all is taken. */
  readonly polymer: Polymer | null;
  readonly conductorDiameter_m: number;
  /** Insulation of one conductor, a nylon cover included. */
  readonly wall_m: number;
  /** In parallel: each set is a line of its own on the same terminals. */
  readonly sets: number;
  readonly entered?: EnteredConstants;
}

/** From the cable maker's data sheet; each overrides what is worked out here. */
export interface EnteredConstants {
  /** Line to line. */
  readonly impedance_ohm?: number | undefined;
  readonly velocity_mPerS?: number | undefined;
  readonly toShield_FPerM?: number | undefined;
  readonly betweenCores_FPerM?: number | undefined;
}

export interface LineConstants {
  /** All sets together, line to line: 2 Zd. */
  readonly impedanceLL_ohm: number;
  readonly lowestLL_ohm: number;
  readonly highestLL_ohm: number;
  /** One phase of one set, common mode. */
  readonly common_ohm: number;
  /** The wave as it usually is, and the slow end of its band: the slower, the shorter the critical length. */
  readonly velocity_mPerS: number;
  readonly slowest_mPerS: number;
  /** One phase of one set, to shield or pipe, and between any two phases. */
  readonly toShield_FPerM: number;
  readonly betweenCores_FPerM: number;
  /** Skin-effect resistance of one conductor of one set: R = skin × sqrt(f). */
  readonly skin_ohmPerMRootHz: number;
  /** Loss factor of the insulation at 0.1 to 10 MHz. */
  readonly lossFactor: number;
  readonly source: string;
}

const MU0_OVER_2PI = 2e-7;
const E0 = 8.8541878e-12;
const SLOWEST_mPerS = 150e6;

interface Material {
  /** At 0.1 to 10 MHz, never that at 50 Hz. */
  readonly permittivity: number;
  readonly lossFactor: number;
  readonly velocity_mPerS: number;
}
/** Velocity: usual for the material, band 150 to 220 m/µs (common practice). Loss factor and permittivity: material tables; PVC at these frequencies from memory. */
const MATERIALS: Readonly<Record<Polymer, Material>> = {
  pvc: { permittivity: 4, lossFactor: 0.06, velocity_mPerS: 170e6 },
  xlpe: { permittivity: 2.4, lossFactor: 0.001, velocity_mPerS: 190e6 },
  epr: { permittivity: 3, lossFactor: 0.01, velocity_mPerS: 190e6 },
  hepr: { permittivity: 3, lossFactor: 0.01, velocity_mPerS: 190e6 },
};

/** Conductor diameters of the solved cross-sections: 12 AWG, 4 AWG, 500 kcmil. */
const DIAMETERS_M = [2.32e-3, 5.89e-3, 20.65e-3] as const;
/** Field solution over the plain formula at those sizes, and common-mode impedance of one phase; a build solved at one size has it for all. */
const SOLVED: Readonly<Record<LineBuild, { readonly nearness: readonly number[]; readonly common_ohm: readonly number[] }>> = {
  loose: { nearness: [0.885, 0.845, 0.79], common_ohm: [137, 108, 88] },
  multicore: { nearness: [1, 1, 1], common_ohm: [197, 197, 197] },
  shielded: { nearness: [0.98, 0.93, 0.84], common_ohm: [51.4, 43.7, 30.4] },
  armoured: { nearness: [0.98, 0.93, 0.84], common_ohm: [51.4, 43.7, 30.4] },
};

/** Log-linear between the solved sizes, held outside. */
function bySize(diameter_m: number, values: readonly number[]): number {
  const at = Math.log(Math.min(Math.max(diameter_m, DIAMETERS_M[0]), DIAMETERS_M[2]));
  const [a, b, c] = DIAMETERS_M.map(Math.log) as [number, number, number];
  const [small = 0, middle = 0, large = 0] = values;
  return at <= b ? small + ((middle - small) * (at - a)) / (b - a) : middle + ((large - middle) * (at - b)) / (c - b);
}

/** Differential inductance of a trefoil in a round shield, H/m: r conductor radius, a distance of the centres from the axis, R shield inside. */
export function shieldedInductance_HPerM(r: number, a: number, R: number): number {
  const self = Math.log((R ** 2 - a ** 2) / (r * R));
  const mutual = 0.5 * Math.log((R ** 4 + a ** 2 * R ** 2 + a ** 4) / (3 * a ** 2 * R ** 2));
  return MU0_OVER_2PI * (self - mutual);
}

/** Lay, tapes and filler between cores and shield: the shield's inside over the circle around the cores. */
const SHIELD_CLEARANCE = 1.07;
/** How far loose conductors may lie apart in a pipe, centre to centre, in touching distances. */
const LOOSE_APART = 1.5;

/** Zd of one set at its lowest, usual and highest. */
function differential_ohm(input: LineInput, material: Material | null): readonly [number, number, number] {
  const r = input.conductorDiameter_m / 2;
  const core = r + input.wall_m;
  const nearness = bySize(input.conductorDiameter_m, SOLVED[input.build].nearness);
  const velocity = material?.velocity_mPerS ?? MATERIALS.pvc.velocity_mPerS;
  if (input.build === 'shielded' || input.build === 'armoured') {
    const a = (2 * core) / Math.sqrt(3);
    const usual = velocity * nearness * shieldedInductance_HPerM(r, a, SHIELD_CLEARANCE * (a + core));
    return [0.85 * usual, usual, 1.15 * usual];
  }
  if (input.build === 'multicore') {
    const usual = velocity * MU0_OVER_2PI * Math.log((2 * core) / r);
    return [0.85 * usual, usual, 1.15 * usual];
  }
  const touching = velocity * nearness * MU0_OVER_2PI * Math.acosh(core / r);
  // Apart, most of the field is in air. Series of insulation and air: holds from 2.5 radii of the insulated wire upwards.
  const between = LOOSE_APART * 2 * core;
  const inductance = MU0_OVER_2PI * Math.acosh(between / (2 * r));
  const capacitance =
    (2 * Math.PI * E0) / (Math.log(core / r) / (material?.permittivity ?? MATERIALS.pvc.permittivity) + Math.log(between / core));
  const apart = Math.sqrt(inductance / capacitance);
  return [touching, Math.sqrt(touching * apart), apart];
}

/** Thinner is no insulation of a cable. */
const LEAST_WALL_M = 0.1e-3;
/** What an impedance of one set, line to line, may be: beyond it the dimensions are not those of a cable. */
const IMPEDANCES_OHM = [2, 1000] as const;

/** @returns null when the dimensions give no line: no diameter, a wall under 0.1 mm, or an impedance out of reach */
export function lineConstants(input: LineInput): LineConstants | null {
  const { conductorDiameter_m, wall_m, sets, entered = {} } = input;
  if (!(conductorDiameter_m > 0) || !(wall_m >= LEAST_WALL_M) || !(sets >= 1)) return null;
  const material = input.polymer === null ? null : MATERIALS[input.polymer];
  const velocity_mPerS = entered.velocity_mPerS ?? material?.velocity_mPerS ?? SLOWEST_mPerS;
  const common_ohm =
    entered.toShield_FPerM !== undefined
      ? 1 / (velocity_mPerS * entered.toShield_FPerM)
      : bySize(conductorDiameter_m, SOLVED[input.build].common_ohm);
  const toShield_FPerM = entered.toShield_FPerM ?? 1 / (velocity_mPerS * common_ohm);
  // Capacitances, if both are known, give the impedance: Cd = Cg + 3 Cm, Zd = 1 / (v Cd).
  const fromSheet =
    entered.impedance_ohm ??
    (entered.toShield_FPerM !== undefined && entered.betweenCores_FPerM !== undefined
      ? 2 / (velocity_mPerS * (entered.toShield_FPerM + 3 * entered.betweenCores_FPerM))
      : undefined);
  const worked = differential_ohm(input, material);
  const [low, usual, high] = fromSheet === undefined ? worked : [fromSheet / 2, fromSheet / 2, fromSheet / 2];
  if (!(2 * low >= IMPEDANCES_OHM[0] && 2 * high <= IMPEDANCES_OHM[1])) return null;
  const betweenCores_FPerM = entered.betweenCores_FPerM ?? Math.max(0, 1 / (velocity_mPerS * usual) - toShield_FPerM) / 3;
  return {
    impedanceLL_ohm: (2 * usual) / sets,
    lowestLL_ohm: (2 * low) / sets,
    highestLL_ohm: (2 * high) / sets,
    common_ohm,
    velocity_mPerS,
    slowest_mPerS: entered.velocity_mPerS ?? SLOWEST_mPerS,
    toShield_FPerM,
    betweenCores_FPerM,
    // Rs1 of copper at 20 °C over the circumference, times 1.8 for nearness and stranding (from memory).
    skin_ohmPerMRootHz: (2.61e-7 * 1.8) / (Math.PI * conductorDiameter_m),
    lossFactor: (material ?? MATERIALS.xlpe).lossFactor,
    source:
      fromSheet === undefined
        ? `dimensions, ${NAMES[input.build]}, with a field solution of typical cross-sections`
        : 'entered from the cable maker’s data sheet',
  };
}

const NAMES: Readonly<Record<LineBuild, string>> = {
  loose: 'loose conductors, geometric mean of touching and 1.5 times apart',
  multicore: 'unshielded cable',
  shielded: 'cores in a shield',
  armoured: 'cores in a metal sheath',
};

/** Motor surge impedance line to line: min(5000, 7600 / sqrt(kW)) ohm, fitted to a joint trade working group's figures (from memory), within a factor 1.6. */
export const motorSurgeImpedance_ohm = (power_W: number): number => Math.min(5000, 7600 / Math.sqrt(power_W / 1000));
export const SURGE_IMPEDANCE_BAND = 1.6;

/** Capacitance of a motor's winding to its frame, farad, by power of a four-pole motor (form of a published fit, coefficients from memory): within a factor of 2 to 3. */
const WINDING: readonly (readonly [number, number])[] = [
  [1.5, 0.63],
  [4, 0.84],
  [7.5, 1.23],
  [15, 2.1],
  [22, 2.96],
  [30, 4],
  [45, 5.58],
  [55, 7.45],
  [90, 10.1],
  [160, 13.7],
  [250, 18.6],
  [450, 25],
];
export function windingCapacitance_F(power_W: number): number {
  const kW = power_W / 1000;
  const i = WINDING.findIndex(([at]) => at >= kW);
  const [x1, y1] = WINDING[i < 0 ? WINDING.length - 1 : i] ?? [1, 1];
  const [x0, y0] = WINDING[Math.max(0, (i < 0 ? WINDING.length : i) - 1)] ?? [x1, y1];
  if (x0 === x1 || i < 0) return y1 * 1e-9;
  return y0 * (y1 / y0) ** (Math.log(kW / x0) / Math.log(x1 / x0)) * 1e-9;
}
