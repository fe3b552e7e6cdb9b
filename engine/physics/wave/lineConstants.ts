/**
 * Surge impedance and velocity of a motor cable by construction, line to line, with the band they may lie in.
 * Central figures from a two-dimensional field solution of typical cross-sections, loose conductors at the geometric mean of touching and
 * 1.5 diameters apart (after R. J. Kerkman, D. Leggate, G. L. Skibinski, IEEE Trans. Ind. Appl. 33(3), 1997, from memory).
 */

export interface LineConstants {
  readonly impedanceLL_ohm: number;
  /** Common mode, one phase. */
  readonly common_ohm: number;
  readonly velocity_mPerS: number;
  /** Slowest velocity of the band: the shortest critical length. */
  readonly slowest_mPerS: number;
  /** Skin-effect resistance, ohm per metre and root hertz, one conductor. */
  readonly skin_ohmPerMRootHz: number;
  readonly source: string;
}

/** Line-to-line impedance at 3, 21 and 250 mm2 (12 AWG, 4 AWG, 500 kcmil); log-linear between, held outside. */
const IMPEDANCE: Readonly<Record<string, readonly [number, number, number]>> = {
  'loose pvc': [80, 76, 50],
  'loose xlpe': [118, 105, 57],
  'multicore pvc': [70, 60, 40],
  'multicore xlpe': [84, 70, 45],
  shielded: [61, 45, 32],
  armoured: [61, 45, 27],
};
/** Common-mode impedance of one phase at the same sizes; where only one size was solved it stands for all. */
const COMMON: Readonly<Record<string, readonly [number, number, number]>> = {
  'loose pvc': [137, 108, 87],
  'loose xlpe': [136, 108, 89],
  'multicore pvc': [197, 197, 197],
  'multicore xlpe': [197, 197, 197],
  shielded: [51, 44, 30],
  armoured: [51, 44, 30],
};
const AREAS = [3.31, 21.15, 253.4] as const;

export function lineConstants(input: {
  readonly construction: string | undefined;
  readonly polymer: 'pvc' | 'xlpe' | 'epr' | 'hepr' | null;
  readonly area_mm2: number;
}): LineConstants {
  const plastic = input.polymer === 'pvc' ? 'pvc' : 'xlpe';
  const kind =
    input.construction === 'singles' || input.construction === undefined
      ? `loose ${plastic}`
      : input.construction === 'multicore'
        ? `multicore ${plastic}`
        : input.construction === 'corrugated-armour'
          ? 'armoured'
          : 'shielded';
  const at = Math.log(Math.min(Math.max(input.area_mm2, AREAS[0]), AREAS[2]));
  const [a, b, c] = [Math.log(AREAS[0]), Math.log(AREAS[1]), Math.log(AREAS[2])];
  const between = ([small, middle, large]: readonly [number, number, number]): number =>
    at <= b ? small + ((middle - small) * (at - a)) / (b - a) : middle + ((large - middle) * (at - b)) / (c - b);
  const velocity_mPerS = input.polymer === null ? 150e6 : plastic === 'pvc' ? 170e6 : 190e6;
  const diameter_m = Math.sqrt((4 * input.area_mm2) / Math.PI) * 1e-3;
  // Rs1 of copper at 20 °C over the circumference, times 1.8 for proximity and stranding (from memory).
  const skin_ohmPerMRootHz = (2.61e-7 * 1.8) / (Math.PI * diameter_m);
  return {
    impedanceLL_ohm: between(IMPEDANCE[kind] ?? [80, 70, 45]),
    common_ohm: between(COMMON[kind] ?? [137, 108, 87]),
    velocity_mPerS,
    slowest_mPerS: 150e6,
    skin_ohmPerMRootHz,
    source: `field solution of a typical ${kind} cross-section; speed 150 to 220 m/µs (common practice)`,
  };
}

/** Motor surge impedance line to line: min(5000, 7600 / sqrt(kW)) ohm, fitted to a joint trade working group's figures (from memory), within a factor 1.6. */
export const motorSurgeImpedance_ohm = (power_W: number): number => Math.min(5000, 7600 / Math.sqrt(power_W / 1000));
