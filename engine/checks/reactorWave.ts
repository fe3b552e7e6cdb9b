import type { ElementOf } from '../lineup/elements.ts';
import { fixed } from '../lineup/roundTo.ts';
import { riseTime_s, travellingWaves } from '../physics/wave/characteristics.ts';
import { worstLength_m } from './cableModel.ts';
import type { RunScope } from './check.ts';
import { type Wave, waveOf } from './runWave.ts';

/** The wave at a motor behind a reactor that stands at its drive, solved by travelling waves. */

type Scope = Pick<RunScope, 'cables' | 'boxes' | 'motor' | 'basis'>;

/** The one reactor right behind the drive, where it is all that softens the wave; else null. */
export function reactorAtDrive({ cables, boxes }: Scope): ElementOf<'reactor'> | null {
  const softening = boxes.filter((box) => box.kind === 'reactor' || box.kind === 'filter' || box.kind === 'transformer');
  const [first] = boxes;
  const [lead] = cables;
  return softening.length === 1 && first?.kind === 'reactor' && lead && worstLength_m(lead) === 0 ? first : null;
}

/** Core loss across the reactor, line to line: 5 kΩ at 7.5 kW (as simulated), less for larger ones; known within a factor of three at best. */
const coreLoss_ohm = (power_W: number): number => 5000 * (7500 / Math.max(power_W, 100)) ** 0.7;
const LOSS_BAND = 3;
const SAMPLES = 240;

export function behindReactor(scope: Scope, reactor: ElementOf<'reactor'>, bus_V: number, rise_s: number): Wave | null {
  const { impedance_pct, ratedVoltage_V, ratedCurrent_A } = reactor;
  const plain = waveOf(scope, bus_V, rise_s);
  if (!plain || plain.input.length_m <= 0 || !impedance_pct || !ratedVoltage_V || !ratedCurrent_A) return null;
  const frequency_Hz = scope.basis === 'us' ? 60 : 50;
  const inductance_H = (2 * (impedance_pct / 100) * ratedVoltage_V) / Math.sqrt(3) / ratedCurrent_A / (2 * Math.PI * frequency_Hz);
  const { impedanceLL_ohm, length_m, velocity_mPerS, motor_ohm, resistance_ohmPerM, ramp_s } = plain.input;
  const delay_s = length_m / velocity_mPerS;
  const ring_s = 2 * Math.PI * Math.sqrt((inductance_H * delay_s) / impedanceLL_ohm);
  const across_ohm = coreLoss_ohm(scope.motor.ratedPower_W ?? 0);
  const solve = (ohm: number) =>
    travellingWaves({
      lines: [{ from: 0, to: 1, impedance_ohm: impedanceLL_ohm, delay_s, resistance_ohm: 2 * resistance_ohmPerM * length_m }],
      shunts: [{ node: 1, resistance_ohm: motor_ohm }],
      source: [
        [0, 0],
        [ramp_s, bus_V],
      ],
      inductance_H,
      across_ohm: ohm,
      watch: 1,
      // The first crest lies half a ring after the edge.
      until_s: 0.75 * ring_s + 6 * delay_s + ramp_s,
    });
  const [central, high] = [solve(across_ohm), solve(LOSS_BAND * across_ohm)];
  if (!central || !high) return null;
  const rise = riseTime_s(central, bus_V);
  return {
    ...plain,
    central_V: Math.max(bus_V, central.peak_V),
    high_V: Math.max(bus_V, central.peak_V, high.peak_V),
    atMotor_s: rise,
    samples: Array.from({ length: SAMPLES + 1 }, (_, i) => {
      const at = Math.round((i / SAMPLES) * (central.voltage_V.length - 1));
      return [at * central.step_s, central.voltage_V[at] ?? 0] as const;
    }),
    working: [
      ...plain.working,
      `2 L = 2 × ${impedance_pct} % × ${fixed(ratedVoltage_V, 0)} V / (√3 × ${fixed(ratedCurrent_A, 1)} A) / (2π × ${frequency_Hz} Hz) = ${fixed(1000 * inductance_H, 3)} mH`,
      `travelling waves, reactor with ${fixed(across_ohm, 0)} Ω across it: ${fixed(central.peak_V, 1)} V, 10 to 90 % in ${rise === null ? '?' : fixed(rise * 1e6, 2)} µs; with ${fixed(LOSS_BAND * across_ohm, 0)} Ω ${fixed(high.peak_V, 1)} V`,
    ],
    assumptions: [
      ...plain.assumptions,
      {
        what: `core loss of ${reactor.tag}, as a resistance across it`,
        value: `${fixed(across_ohm, 0)} Ω`,
        source: 'from memory, within a factor of three; whether a reactor lowers the peak or only the slope depends on it',
      },
    ],
  };
}
