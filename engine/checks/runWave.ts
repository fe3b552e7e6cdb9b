import { conductorSize } from '../catalog/conductors.ts';
import { insulationFacts } from '../catalog/insulation.ts';
import type { Cable } from '../lineup/cable.ts';
import { fixed } from '../lineup/roundTo.ts';
import { conductorImpedance } from '../physics/conductorImpedance.ts';
import { criticalLength_m, type LatticeInput, linearRulePeak_V, peakUpTo_V } from '../physics/wave/latticePeak.ts';
import { lineConstants, motorSurgeImpedance_ohm } from '../physics/wave/lineConstants.ts';
import { surroundOf, worstLength_m } from './cableModel.ts';
import type { RunScope } from './check.ts';
import type { Assumption } from './finding.ts';

/** The wave of one run, as the physics wants it. */

/** Length of the way from drive to motor, the long end of a range; null when a cable's is missing. */
export function leadLength_m(cables: readonly Cable[]): number | null {
  let sum = 0;
  for (const cable of cables) {
    const length = worstLength_m(cable);
    if (length === null) return null;
    sum += length;
  }
  return sum;
}

export interface Wave {
  readonly input: LatticeInput;
  readonly critical_m: number;
  readonly high_V: number;
  readonly central_V: number;
  /** 10 to 90 % at the motor, where it was solved for. */
  readonly atMotor_s?: number | null;
  /** The solved waveform at the motor, where it was solved for: [seconds, volts]. */
  readonly samples?: readonly (readonly [number, number])[];
  readonly assumptions: readonly Assumption[];
  readonly working: readonly string[];
}

/** The wave of this run at a bus voltage, with the cable of the largest length standing for the way. */
export function waveOf({ cables, motor, basis }: Pick<RunScope, 'cables' | 'motor' | 'basis'>, bus_V: number, rise_s: number): Wave | null {
  const length_m = leadLength_m(cables);
  const longest = [...cables].sort((a, b) => (worstLength_m(b) ?? 0) - (worstLength_m(a) ?? 0) || (a.id < b.id ? -1 : 1))[0];
  if (length_m === null || !longest) return null;
  const size = longest.conductor.size === undefined ? null : conductorSize(longest.conductor.size);
  const polymer = insulationFacts(longest.insulation.type)?.polymer ?? null;
  const line = lineConstants({ construction: longest.construction, polymer, area_mm2: size?.area_mm2 ?? 3.31 });
  const { metal, build } = longest.conductor;
  const resistance =
    size && metal
      ? conductorImpedance({
          size: size.name,
          metal,
          build,
          temperature_C: basis === 'us' ? 75 : 20,
          frequency_Hz: 60,
          surround: surroundOf(longest),
        })
      : null;
  const motor_ohm = motor.ratedPower_W === undefined ? 5000 : motorSurgeImpedance_ohm(motor.ratedPower_W);
  // The slow end of the band: the shorter critical length, the higher peak.
  const input: LatticeInput = {
    bus_V,
    ramp_s: 1.25 * rise_s,
    length_m,
    velocity_mPerS: line.slowest_mPerS,
    impedanceLL_ohm: line.impedanceLL_ohm,
    motor_ohm,
    resistance_ohmPerM: resistance?.resistance_ohmPerM ?? 0,
    skin_ohmPerMRootHz: size ? line.skin_ohmPerMRootHz : 0,
  };
  const critical_m = criticalLength_m(line.slowest_mPerS, rise_s);
  const reflection = (motor_ohm - line.impedanceLL_ohm) / (motor_ohm + line.impedanceLL_ohm);
  return {
    input,
    critical_m,
    central_V: Math.max(bus_V, peakUpTo_V(input)),
    high_V: linearRulePeak_V(input, critical_m),
    assumptions: [
      {
        what: 'speed of the wave',
        value: `${fixed(line.slowest_mPerS / 1e6, 0)} m/µs`,
        source: 'slow end of the usual band (common practice)',
      },
      { what: 'surge impedance of the cable, line to line', value: `${fixed(line.impedanceLL_ohm, 0)} Ω`, source: line.source },
      {
        what: `surge impedance of ${motor.tag}`,
        value: `${fixed(motor_ohm, 0)} Ω`,
        source: 'fit to a joint trade working group’s figures (from memory), within a factor 1.6',
      },
    ],
    working: [
      `lc = 1.25 × tr × v / 2 = ${fixed(critical_m, 1)} m; length ${fixed(length_m, 1)} m`,
      `Γ = (${fixed(motor_ohm, 0)} − ${fixed(line.impedanceLL_ohm, 0)}) / (${fixed(motor_ohm, 0)} + ${fixed(line.impedanceLL_ohm, 0)}) = ${fixed(reflection, 3)}`,
    ],
  };
}

/** Unloaded six-pulse bridge: the crest of the line voltage. */
export const busVoltage_V = (line_V: number): number => Math.SQRT2 * line_V;
