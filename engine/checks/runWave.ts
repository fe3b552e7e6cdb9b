import type { Cable } from '../lineup/cable.ts';
import type { ElementOf } from '../lineup/elements.ts';
import type { Basis } from '../lineup/project.ts';
import { fixed } from '../lineup/roundTo.ts';
import {
  atEveryFineness,
  type Finenesses,
  type Line,
  riseTime_s,
  type Shunt,
  settledWave,
  type Watched,
  type WaveNetwork,
} from '../physics/wave/characteristics.ts';
import { edgePeak } from '../physics/wave/edgePeak.ts';
import { criticalLength_m, edgeSamples, type LatticeInput, latticePeak_V, latticeWave } from '../physics/wave/latticePeak.ts';
import { motorSurgeImpedance_ohm, SURGE_IMPEDANCE_BAND } from '../physics/wave/lineConstants.ts';
import { reactorPeakPerUnit } from '../physics/wave/reactorPeak.ts';
import { byValue } from './byValue.ts';
import { type CableLine, cableLine } from './cableLine.ts';
import { leastLength_m, worstLength_m } from './cableModel.ts';
import { lacks } from './check.ts';
import type { Assumption, Confidence, Missing } from './finding.ts';
import { hopsTo, type WaveTree } from './waveTree.ts';

/** The wave at one motor after one edge of its drive: closed form where one cable leads to one motor, travelling waves for all else. */

export interface Wave {
  readonly motor: ElementOf<'motor'>;
  readonly bus_V: number;
  readonly length_m: number;
  readonly critical_m: number;
  readonly low_V: number;
  readonly central_V: number;
  readonly high_V: number;
  readonly confidence: Confidence;
  /** 10 to 90 % of the peak, at the motor; within 40 %. */
  readonly rise_s: number | null;
  readonly reflection: number;
  /** Of the plain line; a ring behind a coil is slower. */
  readonly ring_Hz: number;
  /** Until the ring has fallen to a tenth. */
  readonly ringOut_s: number;
  /** [seconds after the edge leaves the drive, volts at the motor]; for pictures only. */
  readonly samples: () => readonly (readonly [number, number])[];
  /** What the closed form was fed with; null where travelling waves were solved. */
  readonly plain: LatticeInput | null;
  readonly assumptions: readonly Assumption[];
  readonly working: readonly string[];
}

/** Why there is no wave: nothing between drive and motor, or what is not known or out of reach. */
export type NoWave = { readonly none: 'no cable' } | { readonly none: 'length' | 'dimensions' | 'reach'; readonly cable: Cable };

export interface WaveCase {
  readonly bus_V: number;
  /** 10 to 90 %, at the drive. */
  readonly rise_s: number;
  readonly basis: Basis;
}

export const LARGE_W = 200_000;
const SAMPLES = 240;
const LINE_SPREAD = { small: 0.08, large: 0.15 } as const;

export type Waves = readonly [Wave, ...Wave[]];

const solvedBefore = new WeakMap<WaveTree, Map<string, Waves | NoWave>>();

/**
 * At every length that may be the worst for someone: the long end first, then, of a range of lengths, the short end and what lies between at
 * the critical length, where a single line rings highest. Remembered with the tree, which is the same object while nothing behind the drive
 * has changed.
 */
export function wavesAt(tree: WaveTree, motor: ElementOf<'motor'>, at: WaveCase): Waves | NoWave {
  const known = solvedBefore.get(tree) ?? new Map<string, Waves | NoWave>();
  solvedBefore.set(tree, known);
  const key = `${motor.id}/${at.bus_V}/${at.rise_s}/${at.basis}`;
  const held = known.get(key);
  if (held) return held;
  const waves = solve(tree, motor, at);
  known.set(key, waves);
  return waves;
}

/** Of those the one with the highest peak. */
export function waveAt(tree: WaveTree, motor: ElementOf<'motor'>, at: WaveCase): Wave | NoWave {
  const waves = wavesAt(tree, motor, at);
  return 'none' in waves ? waves : waves.reduce((most, each) => (each.central_V > most.central_V ? each : most));
}

/** What a wave that could not be solved lacks. */
export function lackingIn(none: NoWave): readonly Missing[] {
  if (none.none === 'no cable') return [];
  return [lacks(none.cable, none.none === 'dimensions' ? 'insulation.wall_mm' : 'length_m')];
}

export const isWave = (wave: Wave | NoWave): wave is Wave => !('none' in wave);

function solve(tree: WaveTree, motor: ElementOf<'motor'>, at: WaveCase): Waves | NoWave {
  const way = hopsTo(tree, motor.id);
  if (way.length === 0) return { none: 'no cable' };
  for (const { cable } of tree.hops) {
    if (worstLength_m(cable) === null) return { none: 'length', cable };
    if (!cableLine(cable, at.basis)) return { none: 'dimensions', cable };
  }
  /** At a share of every range of lengths. */
  const solveRange = (share: number): Wave | NoWave =>
    solveAt(tree, motor, at, (cable) => {
      const [least_m, most_m] = [leastLength_m(cable), worstLength_m(cable) ?? 0];
      return most_m - (1 - share) * (most_m - least_m);
    });
  const long = solveRange(1);
  if (!isWave(long) || !tree.hops.some(({ cable }) => cable.lengthMost_m !== undefined)) return isWave(long) ? [long] : long;
  // A range that begins at nothing has no wave there, but a hundredth of it on it has.
  const begin = tree.hops.some(({ cable }) => cable.lengthMost_m !== undefined && leastLength_m(cable) === 0) ? 0.01 : 0;
  const short = solveRange(begin);
  if (!isWave(short)) return short;
  const share = begin + ((1 - begin) * (long.critical_m - short.length_m)) / (long.length_m - short.length_m);
  const between = share > begin && share < 1 ? solveRange(share) : null;
  return [long, short, ...(between && isWave(between) ? [between] : [])];
}

interface Piece {
  readonly from: number;
  readonly to: number;
  readonly length_m: number;
  readonly line: CableLine;
  readonly cable: Cable;
}

function solveAt(tree: WaveTree, motor: ElementOf<'motor'>, at: WaveCase, lengthOf: (cable: Cable) => number): Wave | NoWave {
  const pieces = tree.hops.flatMap(({ cable, from, to }): readonly Piece[] => {
    const line = cableLine(cable, at.basis);
    return line ? [{ cable, from, to, line, length_m: lengthOf(cable) }] : [];
  });
  const toMotor = hopsTo(tree, motor.id);
  const way = pieces.filter((piece) => toMotor.some((hop) => hop.to === piece.to));
  const length_m = way.reduce((sum, piece) => sum + piece.length_m, 0);
  const last = way.at(-1)?.line;
  // The slow end of the band: the shorter critical length, the higher peak.
  const slowest_mPerS = Math.min(...way.map((piece) => piece.line.slowest_mPerS));
  const motor_ohm = surgeOf(motor);
  const impedance = last?.impedanceLL_ohm ?? 1;
  const reflection = (motor_ohm - impedance) / (motor_ohm + impedance);
  const critical_m = criticalLength_m(slowest_mPerS, at.rise_s);
  const delay_s = way.reduce((sum, piece) => sum + piece.length_m / piece.line.slowest_mPerS, 0);
  const ring_Hz = delay_s > 0 ? 1 / (4 * delay_s) : 0;
  const left = roundTripLeft(way, ring_Hz) * Math.abs(reflection);
  const shared = {
    motor,
    bus_V: at.bus_V,
    length_m,
    critical_m,
    reflection,
    ring_Hz,
    ringOut_s: left < 1 ? (2 * delay_s * Math.LN10) / -Math.log(left) : 0,
  };
  const working = [
    `lc = 1.25 × tr × v / 2 = 1.25 × ${fixed(at.rise_s * 1e6, 3)} µs × ${fixed(slowest_mPerS / 1e6, 0)} m/µs / 2 = ${fixed(critical_m, 1)} m; length ${fixed(length_m, 1)} m`,
    `Γ = (${fixed(motor_ohm, 0)} − ${fixed(impedance, 0)}) / (${fixed(motor_ohm, 0)} + ${fixed(impedance, 0)}) = ${fixed(reflection, 3)}`,
    `ring 1 / (4 td) = ${fixed(ring_Hz / 1000, 0)} kHz, to a tenth in ${fixed(shared.ringOut_s * 1e6, 1)} µs`,
  ];
  const assumptions: readonly Assumption[] = [
    ...(way.every((piece) => piece.cable.wave?.velocity_mPerS !== undefined)
      ? []
      : [
          {
            what: 'speed of the wave',
            value: `${fixed(slowest_mPerS / 1e6, 0)} m/µs`,
            source: 'slow end of the usual band (common practice)',
          },
        ]),
    ...way
      .filter((piece) => piece.cable.wave?.impedance_ohm === undefined)
      .map((piece) => ({
        what: `surge impedance of ${piece.cable.tag}, line to line`,
        value: `${fixed(piece.line.impedanceLL_ohm, 0)} Ω (${fixed(piece.line.lowestLL_ohm, 0)} to ${fixed(piece.line.highestLL_ohm, 0)})`,
        source: piece.line.source,
      })),
    ...(motor.surgeImpedance_ohm === undefined
      ? [
          {
            what: `surge impedance of ${motor.tag}`,
            value: `${fixed(motor_ohm, 0)} Ω (${fixed(motor_ohm / SURGE_IMPEDANCE_BAND, 0)} to ${fixed(motor_ohm * SURGE_IMPEDANCE_BAND, 0)})`,
            source: 'fit to a joint trade working group’s figures (from memory), within a factor 1.6',
          },
        ]
      : []),
  ];
  const uniform = way.every((piece) => piece.line.impedanceLL_ohm === impedance && piece.line.slowest_mPerS === slowest_mPerS);
  const large = (motor.ratedPower_W ?? 0) > LARGE_W;
  if (tree.motors.length === 1 && !tree.atDrive && tree.terminators.length === 0 && uniform && pieces.length === way.length) {
    const resistance = way.reduce((sum, { line, length_m: l }) => sum + line.resistance_ohmPerM * l, 0) / Math.max(length_m, 1e-9);
    const plain: LatticeInput = {
      bus_V: at.bus_V,
      ramp_s: 1.25 * at.rise_s,
      length_m,
      velocity_mPerS: slowest_mPerS,
      impedanceLL_ohm: impedance,
      motor_ohm,
      resistance_ohmPerM: resistance,
      skin_ohmPerMRootHz: last ? last.skin_ohmPerMRootHz / last.sets : 0,
    };
    const { low_V, central_V, high_V, from, rise_s } = solvePlain(plain, large);
    return {
      ...shared,
      low_V,
      central_V,
      high_V,
      confidence: length_m >= 1.5 * critical_m ? 'good' : 'fair',
      rise_s,
      samples: () => edgeSamples(plain, SAMPLES),
      plain,
      assumptions,
      working: [
        ...working,
        `one edge: ${fixed(central_V, 1)} V (${from.central}); at least ${fixed(low_V, 1)} V (${from.low}), at most ${fixed(high_V, 1)} V (${from.high})`,
      ],
    };
  }
  return byTravellingWaves(tree, pieces, way, at, { shared, assumptions, working, large });
}

/** Every motor on one drive is at an end of the same network: it is solved once for all of them, and kept as long as the tree. */
function solvedOnce(tree: WaveTree, network: WaveNetwork): Finenesses {
  const known = networks.get(tree) ?? new Map<string, Finenesses>();
  networks.set(tree, known);
  const key = JSON.stringify(network);
  const solved = known.get(key) ?? atEveryFineness(network);
  // Of a single motor nothing is asked twice: the wave itself is kept.
  if (tree.motors.length > 1) known.set(key, solved);
  return solved;
}
const networks = new WeakMap<WaveTree, Map<string, Finenesses>>();

interface Known {
  readonly shared: Pick<Wave, 'motor' | 'bus_V' | 'length_m' | 'critical_m' | 'reflection' | 'ring_Hz' | 'ringOut_s'>;
  readonly assumptions: readonly Assumption[];
  readonly working: readonly string[];
  readonly large: boolean;
}

function byTravellingWaves(tree: WaveTree, pieces: readonly Piece[], way: readonly Piece[], at: WaveCase, known: Known): Wave | NoWave {
  const { shared, large } = known;
  const { motor } = shared;
  const coil = coilOf(tree, at.basis, motor);
  const delays = new Map<number, number>();
  for (const piece of pieces) delays.set(piece.to, (delays.get(piece.from) ?? 0) + piece.length_m / piece.line.slowest_mPerS);
  const longest_s = Math.max(...delays.values(), 1e-9);
  const capacitance_F =
    pieces.reduce((sum, { line, length_m }) => sum + length_m / line.slowest_mPerS / line.impedanceLL_ohm, 0) + (coil?.shunt_F ?? 0);
  const ring_s = coil ? 2 * Math.PI * Math.sqrt(coil.inductance_H * capacitance_F) : 4 * longest_s;
  // One resistance must stand for skin effect. Of a slow ring it is that at its frequency; of a front that which has taken as much of it by
  // the end of its first plateau, two transits on, as k / (π sqrt(2 td)) does behind true skin effect.
  const skinAt_Hz = coil ? 1 / ring_s : 2 / (Math.PI ** 2 * ring_s);
  const lines: readonly Line[] = pieces.map(({ from, to, length_m, line }) => ({
    from,
    to,
    impedance_ohm: line.impedanceLL_ohm,
    delay_s: length_m / line.slowest_mPerS,
    // Both conductors.
    resistance_ohm: 2 * length_m * (line.resistance_ohmPerM + (line.skin_ohmPerMRootHz / line.sets) * Math.sqrt(skinAt_Hz)),
  }));
  const shunts: readonly Shunt[] = [
    ...tree.motors.map((each) => ({ node: each.node, resistance_ohm: surgeOf(each.motor) })),
    // Line to line: twice the resistance of a star's leg, half its capacitance.
    ...tree.terminators.map(({ filter, node }) => ({
      node,
      resistance_ohm: 2 * (filter.resistance_ohm ?? 0),
      capacitance_F: (filter.capacitance_F ?? 0) / 2,
    })),
    ...(coil?.shunt_F ? [{ node: 0, resistance_ohm: coil.shunt_ohm, capacitance_F: coil.shunt_F }] : []),
  ];
  const ramp_s = 1.25 * at.rise_s;
  const network: WaveNetwork = {
    lines,
    shunts,
    source: [
      [0, 0],
      [ramp_s, at.bus_V],
    ],
    ...(coil ? { inductance_H: coil.inductance_H, across_ohm: coil.across_ohm, edge_s: Math.max(ramp_s, ring_s / 4) } : {}),
    watch: tree.motors.map((each) => each.node),
    // The first crest behind a coil lies half a ring after the edge; on a tee the highest may be that of a later turn.
    until_s: coil ? 0.75 * ring_s + 6 * longest_s + ramp_s : 10 * longest_s + 2 * ramp_s,
  };
  const seen = settledWave(
    solvedOnce(tree, network),
    // By its id: the tree outlives a motor that was made anew and says the same.
    tree.motors.findIndex((each) => each.motor.id === motor.id),
  );
  const longest = [...pieces].sort((a, b) => b.length_m - a.length_m)[0];
  // Lengths that no one step fits: a network cut short would look better than it is.
  if (!seen || seen.truncated || !longest) return longest ? { none: 'reach', cable: longest.cable } : { none: 'no cable' };
  const central_V = Math.max(at.bus_V, seen.peak_V);
  const spread = large || tree.motors.length > 1 ? LINE_SPREAD.large : LINE_SPREAD.small;
  const [low, high] = coil?.band(capacitance_F, surgeOf(motor)) ?? [1 - spread, 1 + spread];
  const rise_s = riseTime_s(seen, seen.peak_V);
  const lossy = way.map(({ cable, line }) => `${cable.tag} ${fixed(line.impedanceLL_ohm, 0)} Ω`).join(', ');
  return {
    ...shared,
    low_V: Math.max(at.bus_V, central_V * low),
    central_V,
    high_V: central_V * high,
    confidence: coil ? 'rough' : 'fair',
    rise_s,
    ...(coil ? { ring_Hz: 1 / ring_s } : {}),
    samples: () => sampled(seen),
    plain: null,
    assumptions: [...known.assumptions, ...(coil?.assumptions ?? [])],
    working: [
      ...known.working,
      ...(coil?.working ?? []),
      `travelling waves on ${lossy}${tree.motors.length > 1 ? `, with ${tree.motors.length - 1} other motor${tree.motors.length > 2 ? 's' : ''} on the drive` : ''}${tree.terminators.length > 0 ? ', terminator at the end' : ''}: ${fixed(central_V, 1)} V, 10 to 90 % in ${rise_s === null ? '?' : fixed(rise_s * 1e6, 2)} µs; solved to ${fixed(100 * seen.error, 2)} %`,
    ],
  };
}

interface Coil {
  /** All line to line. */
  readonly inductance_H: number;
  readonly across_ohm: number;
  readonly shunt_F: number;
  readonly shunt_ohm: number;
  readonly band: (capacitance_F: number, motor_ohm: number) => readonly [number, number];
  readonly assumptions: readonly Assumption[];
  readonly working: readonly string[];
}

/** Core loss across a reactor, line to line: 5 kΩ at 7.5 kW (as simulated), less for larger ones; known within a factor of three at best. */
const coreLoss_ohm = (power_W: number): number => 5000 * (7500 / Math.max(power_W, 100)) ** 0.7;
const LOSS_BAND = 3;

function coilOf({ atDrive }: WaveTree, basis: Basis, motor: ElementOf<'motor'>): Coil | null {
  if (!atDrive) return null;
  if (atDrive.kind === 'filter') {
    const { inductance_H, capacitance_F, resistance_ohm = 0, acrossInductor_ohm } = atDrive;
    if (inductance_H === undefined || capacitance_F === undefined) return null;
    return {
      inductance_H: 2 * inductance_H,
      across_ohm: acrossInductor_ohm === undefined ? Number.POSITIVE_INFINITY : 2 * acrossInductor_ohm,
      shunt_F: capacitance_F / 2,
      shunt_ohm: Math.max(1e-3, 2 * resistance_ohm),
      band: () => [1 - LINE_SPREAD.large, 1 + LINE_SPREAD.large],
      assumptions: [],
      working: [
        `${atDrive.tag}, line to line: 2 L = ${fixed(2e6 * inductance_H, 1)} µH, C / 2 = ${fixed(0.5e9 * capacitance_F, 2)} nF with ${fixed(2 * resistance_ohm, 1)} Ω`,
      ],
    };
  }
  const { impedance_pct, ratedVoltage_V, ratedCurrent_A } = atDrive;
  if (!impedance_pct || !ratedVoltage_V || !ratedCurrent_A) return null;
  const frequency_Hz = basis === 'us' ? 60 : 50;
  const inductance_H = (2 * (impedance_pct / 100) * ratedVoltage_V) / Math.sqrt(3) / ratedCurrent_A / (2 * Math.PI * frequency_Hz);
  const entered = atDrive.coreLoss_ohm;
  const across_ohm = entered ?? coreLoss_ohm(motor.ratedPower_W ?? 0);
  return {
    inductance_H,
    across_ohm,
    shunt_F: 0,
    shunt_ohm: 0,
    band: (capacitance_F, motor_ohm) => {
      if (entered !== undefined) return [1 - LINE_SPREAD.small, 1 + LINE_SPREAD.small];
      const of = (ohm: number): number => reactorPeakPerUnit(inductance_H, capacitance_F, ohm, motor_ohm);
      return [of(across_ohm / LOSS_BAND) / of(across_ohm), of(across_ohm * LOSS_BAND) / of(across_ohm)];
    },
    assumptions:
      entered === undefined
        ? [
            {
              what: `core loss of ${atDrive.tag}, as a resistance across it`,
              value: `${fixed(across_ohm, 0)} Ω (${fixed(across_ohm / LOSS_BAND, 0)} to ${fixed(across_ohm * LOSS_BAND, 0)})`,
              source: 'from memory, within a factor of three; whether a reactor lowers the peak or only the slope depends on it',
            },
          ]
        : [],
    working: [
      `2 L = 2 × ${impedance_pct} % × ${fixed(ratedVoltage_V, 0)} V / (√3 × ${fixed(ratedCurrent_A, 1)} A) / (2π × ${frequency_Hz} Hz) = ${fixed(1000 * inductance_H, 3)} mH, with ${fixed(across_ohm, 0)} Ω across it`,
    ],
  };
}

/** Small where the power is not known: nearly full reflection. */
export const surgeOf = (motor: ElementOf<'motor'>): number =>
  motor.surgeImpedance_ohm ?? (motor.ratedPower_W === undefined ? 5000 : motorSurgeImpedance_ohm(motor.ratedPower_W));

/** What is left of a wave after a way there and back, by skin effect and insulation, at the frequency of the ring. */
function roundTripLeft(way: readonly Piece[], ring_Hz: number): number {
  let nepers = 0;
  for (const { line, length_m } of way) {
    const resistance = line.resistance_ohmPerM + (line.skin_ohmPerMRootHz / line.sets) * Math.sqrt(ring_Hz);
    nepers += 2 * length_m * (resistance / line.impedanceLL_ohm + (Math.PI * ring_Hz * line.lossFactor) / line.slowest_mPerS);
  }
  return Math.exp(-nepers);
}

/** Peak and rise time behind one plain line, remembered by the numbers that decide them: leads that are alike are solved once. */
const solvePlain = byValue((plain: LatticeInput, large: boolean) => ({
  ...edgePeak(plain, large),
  rise_s: riseTime_s(finely(plain), latticePeak_V(plain)),
}));

/** The first front, closely: to read its rise time from. */
function finely(plain: LatticeInput): Watched {
  const delay_s = plain.length_m / plain.velocity_mPerS;
  const count = 200;
  const step_s = (delay_s + 1.5 * plain.ramp_s) / count;
  const wave_V = latticeWave(plain);
  const voltage_V = new Float64Array(count + 1);
  for (let i = 0; i <= count; i++) voltage_V[i] = wave_V(delay_s + i * step_s - plain.ramp_s * 0.01);
  return { step_s, voltage_V, peak_V: 0, at_s: 0, lowest_V: 0 };
}

function sampled({ voltage_V, step_s }: Watched): ReturnType<Wave['samples']> {
  const last = voltage_V.length - 1;
  return Array.from({ length: SAMPLES + 1 }, (_, i) => {
    const at = Math.round((i / SAMPLES) * last);
    return [at * step_s, voltage_V[at] ?? 0] as const;
  });
}

/** Crest of the line voltage: an unloaded six-pulse bridge, raised where an active front end raises it. */
export const busVoltage_V = (line_V: number, drive: ElementOf<'drive'>): number =>
  Math.SQRT2 * line_V * (drive.frontEnd === 'active' ? 1 + (drive.busRaise_pct ?? USUAL_RAISE_PCT) / 100 : 1);
export const USUAL_RAISE_PCT = 10;

/** What that crest takes for granted. */
export function busAssumed({ tag, frontEnd, busRaise_pct }: ElementOf<'drive'>): readonly Assumption[] {
  if (frontEnd === undefined)
    return [
      {
        what: `front end of ${tag}`,
        value: 'diode bridge',
        source: `usual (common practice): an active one would hold the bus ${busRaise_pct ?? USUAL_RAISE_PCT} % higher`,
      },
    ];
  return frontEnd === 'active' && busRaise_pct === undefined
    ? [
        {
          what: `bus of ${tag} above the crest of the line`,
          value: `${USUAL_RAISE_PCT} %`,
          source: 'usual for an active front end (common practice)',
        },
      ]
    : [];
}
