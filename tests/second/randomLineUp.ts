import type { LineUp } from '../../engine/index.ts';
import { LineUpBuilder } from '../engine/lineUpBuilder.ts';
import { AMPACITY_US, MOTOR_CURRENT_US, SIZES_IEC } from './tables.ts';

/** Line-ups of one to six cables, every value drawn from a seed, with a liking for edges of tables, limits, least, most and missing. */

/** A 32-bit generator (mulberry32): the same numbers from the same seed everywhere. */
export function randomFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

export function randomLineUp(seed: number): LineUp {
  const random = randomFrom(seed);
  const real = (least: number, most: number): number => least + (most - least) * random();
  const one = <T>(...from: readonly T[]): T => from[Math.floor(random() * from.length)] as T;
  const chance = (share: number): boolean => random() < share;
  /** Now and then nothing at all. */
  const maybe = <T>(value: T): T | undefined => (chance(missing) ? undefined : value);
  /** On an edge as often as between. */
  const near = (edges: readonly number[], least: number, most: number): number => {
    if (chance(0.5)) return real(least, most);
    const edge = one(...edges);
    return one(edge, edge * (1 + 1e-12), edge * (1 - 1e-12), edge * 1.02, edge * 0.98);
  };
  // Of a generator of its own: what is drawn from the first stays what it was.
  const apart = randomFrom(~seed);
  const missing = chance(0.3) ? 0.06 : 0;
  const basis = one('us' as const, 'iec' as const);
  const volts = basis === 'us' ? one(208, 240, 480, 600) : one(230, 400, 500, 690);
  const hertz = one(50, 60);
  const limits = {
    feederDrop_pct: chance(0.2) ? near([0.5, 1, 2, 3, 5], 0.2, 6) : undefined,
    leadDrop_pct: chance(0.2) ? near([1, 2, 3], 0.2, 6) : undefined,
  };
  const terminals = () => ({
    box: 'metal' as const,
    terminalMetal: 'copper-aluminium' as const,
    terminalTemperature_C: maybe(one(60, 75, 75, 90)),
  });

  const usSizes = Object.keys(AMPACITY_US).filter((size) => size !== '18 AWG' && size !== '16 AWG');
  const hp = one(...MOTOR_CURRENT_US)[0] ?? 1;
  const power_W = one(
    hp * 745.6998715822702,
    hp * 745.6998715822702 * one(0.98, 1.02, 1.04, 0.96),
    near([1000, 5500, 75_000], 400, 300_000),
  );
  const motor_V = basis === 'us' ? one(...(MOTOR_V_US[volts] ?? [volts])) : one(volts, volts * 0.95);
  const motor_A = power_W / (ROOT3 * motor_V * 0.8);
  const cable = (tag: string, amperes: number) => {
    const wanted = amperes * one(0.6, 1, 1.3, 1.3, 2, 4);
    const size =
      basis === 'us'
        ? (usSizes.find((each) => (AMPACITY_US[each]?.[1] ?? 0) >= wanted) ?? '500 kcmil')
        : `${SIZES_IEC.find((each) => 6 * each ** 0.75 >= wanted) ?? 240} mm2`;
    const raceway = one('steel-conduit' as const, 'aluminium-conduit' as const, 'plastic-conduit' as const, 'tray' as const);
    return {
      tag,
      conductor: {
        size: maybe(size),
        metal: maybe(one('copper' as const, 'copper' as const, 'aluminium' as const)),
        sets: one(1, 1, 1, 2, 3),
      },
      insulation: {
        type: maybe(
          basis === 'us'
            ? one(
                'THHN' as const,
                'THWN' as const,
                'THWN-2' as const,
                'TW' as const,
                'THW' as const,
                'XHHW' as const,
                'XHHW-2' as const,
                'RHW-2' as const,
                'MTW' as const,
              )
            : one('PVC' as const, 'XLPE' as const, 'EPR' as const),
        ),
        concentricity_pct: 90,
        // Often more than the letters allow.
        temperature_C: apart() < 0.15 ? ([60, 75, 90, 105] as const)[Math.floor(4 * apart())] : undefined,
      },
      construction: one('singles' as const, 'multicore' as const, 'foil-and-braid' as const),
      grounds: { count: 1, size, metal: 'copper' as const },
      length_m: maybe(near([1, 10, 100], 0.5, one(20, 100, 300))),
      installation: {
        raceway,
        method: maybe(one('B1' as const, 'B2' as const, 'C' as const, 'E' as const, 'F' as const, 'D1' as const, 'D2' as const)),
        ambient_C: maybe(near([10, 11, 30, 31, 35, 40, 41, 45, 50, 55, 60], -10, 70)),
        loadedConductors: maybe(one(3, 3, 4, 6, 7, 9, 10, 20, 21, 30, 31, 40, 41, 100)),
        groupedCircuits: maybe(one(1, 1, 2, 3, 6, 9, 10, 12, 13, 20, 21)),
        soil_KmPerW: chance(0.5) ? near([0.5, 1, 2.5, 3], 0.4, 3.2) : undefined,
        moisture: maybe(one('dry' as const, 'damp' as const, 'wet' as const)),
      },
      wave: chance(0.5)
        ? {
            impedance_ohm: real(30, 120),
            velocity_mPerS: real(120e6, 220e6),
            toShield_FPerM: real(30e-12, 200e-12),
            betweenCores_FPerM: real(20e-12, 80e-12),
          }
        : undefined,
      from: { landing: 'full' as const },
      to: { landing: 'full' as const },
    };
  };

  const builder = new LineUpBuilder({ title: `seed ${seed}`, basis, limits: limits as LineUp['project']['limits'] }).part('supply', {
    tag: 'S',
    voltage_V: maybe(volts),
    frequency_Hz: hertz,
    faultCurrent_A: chance(0.1) ? undefined : near([1000, 10_000, 50_000], 2000, 80_000),
    xOverR: chance(0.1) ? undefined : near([0, 1, 10], 0.1, 20),
    earthing: 'solid-wye',
  } as never);
  const drives = one(1, 1, 1, 2, 3);
  // Now and then a motor beside the drives, straight from the supply.
  const beside = chance(0.25);
  if (drives > 1 || beside) builder.cable(cable('F', motor_A * drives) as never).part('bus', { tag: 'B', ...terminals() } as never);
  for (let i = 1; i <= drives; i++) {
    const own_A = motor_A * (i === 1 ? 1 : real(0.3, 1));
    // Waves on branching leads are slow to solve, and not what is compared here.
    const motors = drives === 1 && chance(0.08) ? one(2, 3) : 1;
    if (drives > 1 || beside) builder.from('B');
    builder.cable(cable(`F${i}`, own_A) as never).part('drive', {
      tag: `D${i}`,
      ratedVoltage_V: maybe(one(volts, volts, volts * 0.9)),
      inputCurrent_A: maybe(own_A * one(1, 0.95, 1.2)),
      outputCurrent_A: maybe(own_A * motors * one(1, 1.1, 1.5)),
      inputPowerFactor: maybe(near([1, 0.9], 0.6, 1) > 1 ? 1 : real(0.6, 1)),
      outputRatio_pct: chance(0.2) ? real(90, 100) : undefined,
      overload_pct: one(110, 150, undefined),
      carrier_Hz: one(2000, 4000, 16_000),
      riseTime_s: maybe(near([0.1e-6, 2e-6], 0.05e-6, 1e-6)),
      frontEnd: maybe(one('diode' as const, 'active' as const)),
      pulseLeast_s: maybe(1e-4),
      ...terminals(),
    } as never);
    if (motors > 1) builder.cable(cable(`T${i}`, own_A * motors) as never).part('junction', { tag: `J${i}`, ...terminals() } as never);
    for (let k = 1; k <= motors; k++) {
      if (motors > 1) builder.from(`J${i}`);
      builder.cable(cable(`W${i}${k}`, own_A) as never).part('motor', {
        tag: `M${i}${k}`,
        ratedPower_W: maybe(power_W * (i === 1 ? 1 : own_A / motor_A)),
        ratedVoltage_V: maybe(motor_V),
        ratedFrequency_Hz: hertz,
        ratedCurrent_A: maybe(own_A),
        powerFactor: maybe(real(0.6, 0.95)),
        surgeImpedance_ohm: chance(0.5) ? real(200, 5000) : undefined,
        insulation: one('mg1-part-30' as const, 'mg1-part-31' as const),
        ...terminals(),
      } as never);
    }
  }
  if (beside) {
    builder
      .from('B')
      .cable(cable('P', motor_A) as never)
      .part('motor', {
        tag: 'MP',
        ratedPower_W: maybe(power_W),
        ratedVoltage_V: maybe(motor_V),
        ratedFrequency_Hz: hertz,
        ratedCurrent_A: maybe(motor_A),
        powerFactor: maybe(real(0.6, 0.95)),
        ...terminals(),
      } as never);
  }
  return builder.build();
}
const ROOT3 = Math.sqrt(3);
/** Nameplates that stand on these systems, some between the columns of NEC Table 430.250. */
const MOTOR_V_US: Readonly<Record<number, readonly number[]>> = {
  208: [200, 208],
  240: [220, 230, 240],
  480: [400, 440, 460, 480],
  600: [550, 575, 600],
};
