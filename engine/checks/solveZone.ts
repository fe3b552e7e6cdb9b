import { conductorSize } from '../catalog/conductors.ts';
import type { Cable } from '../lineup/cable.ts';
import type { Element } from '../lineup/elements.ts';
import type { Basis } from '../lineup/project.ts';
import type { Zone } from '../network/network.ts';
import { add, type Complex, complex, magnitude, scale, ZERO } from '../physics/complex.ts';
import { conductorImpedance } from '../physics/conductorImpedance.ts';
import { type Branch, type Load, powerFlow } from '../physics/powerFlow.ts';
import type { Assumption } from './finding.ts';

/**
 * Voltages, currents and fault levels of one zone. The input side is solved with every drive at its rated input current,
 * the case its feeder must be sized for (NEC 430.122(A)); the output side with every motor at its nameplate current and
 * frequency, from what the drive can still make of its own input voltage.
 */

export interface StepResult {
  /** Line to line; null when something that decides it is not known. */
  readonly voltage_V: number | null;
  readonly current_A: number | null;
  readonly drop_V: number | null;
  readonly resistance_ohm: number | null;
  readonly reactance_ohm: number | null;
  readonly faultCurrent_A: number | null;
  /** Nominal voltage at this place, from the source through the transformers. */
  readonly nominal_V: number | null;
  readonly assumptions: readonly Assumption[];
}

/** Copper or aluminium at 25 °C over the same at 75 °C, NEC Chapter 9 Table 8 note 2. */
const COLD = { copper: 1 + 0.00323 * (25 - 75), aluminium: 1 + 0.0033 * (25 - 75) } as const;

export function surroundOf(cable: Cable): 'steel' | 'aluminium' | 'nonmetallic' {
  switch (cable.installation.raceway) {
    case 'steel-conduit':
    case 'flexible-metal':
    case undefined:
      return cable.installation.raceway === undefined && cable.construction !== 'singles' && cable.construction !== undefined
        ? cable.construction === 'corrugated-armour'
          ? 'aluminium'
          : 'nonmetallic'
        : 'steel';
    case 'aluminium-conduit':
      return 'aluminium';
    default:
      return cable.construction === 'corrugated-armour'
        ? 'aluminium'
        : cable.construction === 'interlocked-armour'
          ? 'steel'
          : 'nonmetallic';
  }
}

/** The length a check must use: the long end of a range. */
export const worstLength_m = (cable: Cable): number | null =>
  cable.kind === 'link' ? 0 : cable.length_m === undefined ? null : Math.max(cable.length_m, cable.lengthMost_m ?? 0);

/** Whole-cable impedance of one phase, sets in parallel, or null when size, metal or length is missing. */
export function cableImpedance(cable: Cable, frequency_Hz: number, basis: Basis): { z: Complex; cold: Complex; source: string } | null {
  const length_m = worstLength_m(cable);
  if (length_m === null) return null;
  if (length_m === 0) return { z: ZERO, cold: ZERO, source: '' };
  const { size, metal, build, sets } = cable.conductor;
  if (size === undefined || metal === undefined || !conductorSize(size)) return null;
  const temperature_C = basis === 'us' ? 75 : (cable.insulation.temperature_C ?? (cable.insulation.type === 'PVC' ? 70 : 90));
  const perMetre = conductorImpedance({ size, metal, build, temperature_C, frequency_Hz, surround: surroundOf(cable) });
  if (!perMetre) return null;
  const factor = length_m / (sets ?? 1);
  const z = complex(perMetre.resistance_ohmPerM * factor, perMetre.reactance_ohmPerM * factor);
  return { z, cold: complex(z.re * COLD[metal], z.im), source: `${perMetre.source}, at ${temperature_C} °C` };
}

interface Impedance {
  readonly z: Complex;
  readonly cold: Complex;
  readonly ratio: number;
  readonly known: boolean;
  readonly assumptions: readonly Assumption[];
}

const nothing: Impedance = { z: ZERO, cold: ZERO, ratio: 1, known: true, assumptions: [] };
const unknown: Impedance = { ...nothing, known: false };

function elementImpedance(element: Element, nominal_V: number | null, current_A: number | null): Impedance {
  switch (element.kind) {
    case 'transformer': {
      const { primaryVoltage_V, secondaryVoltage_V, impedance_pct, ratedPower_VA, xOverR } = element;
      const ratio =
        primaryVoltage_V && secondaryVoltage_V ? (primaryVoltage_V / secondaryVoltage_V) * (1 + (element.tap_pct ?? 0) / 100) : 1;
      if (!secondaryVoltage_V || !primaryVoltage_V || !impedance_pct || !ratedPower_VA) return { ...unknown, ratio };
      const z = ((impedance_pct / 100) * secondaryVoltage_V ** 2) / ratedPower_VA;
      const xr = xOverR ?? 5;
      const assumptions =
        xOverR === undefined ? [{ what: `X/R of ${element.tag}`, value: '5', source: 'common practice, from memory' }] : [];
      const r = z / Math.hypot(1, xr);
      return { z: complex(r, r * xr), cold: complex(r, r * xr), ratio, known: true, assumptions };
    }
    case 'reactor': {
      const base_V = element.ratedVoltage_V ?? nominal_V;
      const base_A = element.ratedCurrent_A ?? current_A;
      if (element.impedance_pct === undefined || !base_V || !base_A) return unknown;
      const z = complex(element.resistance_ohm ?? 0, ((element.impedance_pct / 100) * base_V) / Math.sqrt(3) / base_A);
      const assumptions =
        element.ratedCurrent_A === undefined
          ? [
              {
                what: `rated current of ${element.tag}`,
                value: `${Math.round(base_A)} A`,
                source: 'common practice: that of the drive it serves',
              },
            ]
          : [];
      return { ...nothing, z, cold: z, assumptions };
    }
    case 'filter': {
      // An EMC filter in a feeder drops next to nothing; the others drop what their maker says, else the high end of what is usual.
      if (element.role === 'terminator') return nothing;
      const usual = element.role === 'emc-input' ? 0.5 : element.role === 'dvdt' ? 1.5 : element.role === 'sine' ? 9 : null;
      const drop_pct = element.drop_pct ?? usual;
      const base_V = element.ratedVoltage_V ?? nominal_V;
      const base_A = element.ratedCurrent_A ?? current_A;
      if (drop_pct === null || !base_V || !base_A) return unknown;
      const size = ((drop_pct / 100) * base_V) / Math.sqrt(3) / base_A;
      const z = complex(size * 0.85, size * Math.sqrt(1 - 0.85 ** 2));
      const assumptions =
        element.drop_pct === undefined
          ? [
              {
                what: `drop in ${element.tag}`,
                value: `${drop_pct} %`,
                source: 'common practice, high end; one maker states up to 9 % for a sine filter',
              },
            ]
          : [];
      return { ...nothing, z, cold: z, assumptions };
    }
    default:
      return nothing;
  }
}

const faultOf = (nominal_V: number | null, z: Complex | null): number | null => {
  if (nominal_V === null || z === null) return null;
  const size = magnitude(z);
  return size > 0 ? nominal_V / Math.sqrt(3) / size : null;
};

export interface ZoneResult {
  readonly steps: readonly StepResult[];
  readonly converged: boolean;
}

/**
 * @param available_V line to line at the start of the zone: the supply's nominal voltage, or what the drive can make; null when not known
 * @param frequency_Hz of the supply, or the motors' rated frequency
 */
export function solveZone(zone: Zone, available_V: number | null, basis: Basis): ZoneResult {
  const { steps, source } = zone;
  const motors = steps.map((step) => step.element).filter((element) => element.kind === 'motor');
  const start_V = available_V ?? (zone.kind === 'output' ? Math.max(0, ...motors.map((motor) => motor.ratedVoltage_V ?? 0)) || null : null);
  const frequency_Hz = (source.kind === 'supply' ? source.frequency_Hz : motors[0]?.ratedFrequency_Hz) ?? (basis === 'us' ? 60 : 50);

  const nominal: (number | null)[] = [];
  for (const step of steps) {
    const before = step.parent < 0 ? start_V : (nominal[step.parent] ?? null);
    const transformer = step.via?.kind === 'element' && step.element.kind === 'transformer' ? step.element : null;
    nominal.push(transformer ? (transformer.secondaryVoltage_V ?? null) : before);
  }

  const loads: Load[] = [];
  const drawn: (number | null)[] = steps.map(() => 0);
  for (const step of steps) {
    const { element } = step;
    const rated = nominal[step.index] ?? null;
    const isDrive = element.kind === 'drive' && step.parent >= 0;
    if (!isDrive && element.kind !== 'motor') continue;
    const current = element.kind === 'motor' ? element.ratedCurrent_A : element.kind === 'drive' ? element.inputCurrent_A : undefined;
    const voltage = element.kind === 'motor' ? element.ratedVoltage_V : element.kind === 'drive' ? (element.ratedVoltage_V ?? rated) : null;
    if (current === undefined || !voltage) {
      drawn[step.index] = null;
      continue;
    }
    drawn[step.index] = current;
    loads.push({
      node: step.index + 1,
      kind: zone.kind === 'output' ? 'regulated' : 'power',
      ratedVoltage_V: voltage,
      ratedCurrent_A: current,
      powerFactor: (element.kind === 'motor' ? element.powerFactor : element.kind === 'drive' ? element.inputPowerFactor : null) ?? null,
    });
  }
  // A current that is not known makes every branch above it unknown.
  const below = [...drawn];
  for (let i = steps.length - 1; i > 0; i--) {
    const parent = steps[i]?.parent ?? -1;
    const [own, sum] = [below[i], below[parent]];
    if (parent >= 0) below[parent] = own === null || sum === null || own === undefined || sum === undefined ? null : own + sum;
  }

  const branches: Branch[] = [];
  const impedances: Impedance[] = steps.map((step) => {
    if (step.via === null) {
      if (source.kind !== 'supply' || !source.faultCurrent_A || !start_V) return nothing;
      const size = start_V / Math.sqrt(3) / source.faultCurrent_A;
      const xr = source.xOverR ?? 10;
      const r = size / Math.hypot(1, xr);
      const z = complex(r, r * xr);
      return { ...nothing, z, cold: z };
    }
    if (step.via.kind === 'element') return elementImpedance(step.element, nominal[step.index] ?? null, below[step.index] ?? null);
    const z = cableImpedance(step.via.cable, frequency_Hz, basis);
    return z ? { ...nothing, z: z.z, cold: z.cold } : unknown;
  });
  steps.forEach((step, i) => {
    const impedance = impedances[i] ?? nothing;
    branches.push({ from: step.parent + 1, to: step.index + 1, impedance_ohm: impedance.z, ratio: impedance.ratio });
  });

  const flow = start_V === null ? null : powerFlow(start_V, steps.length + 1, branches, loads);
  const voltageKnown: boolean[] = [];
  const cold: (Complex | null)[] = [];
  const results: StepResult[] = [];
  for (const step of steps) {
    const i = step.index;
    const impedance = impedances[i] ?? nothing;
    const parentKnown = step.parent < 0 ? start_V !== null : (voltageKnown[step.parent] ?? false);
    const currentKnown = below[i] !== null;
    voltageKnown.push(parentKnown && impedance.known && (currentKnown || magnitude(impedance.z) === 0));
    const parentCold = step.parent < 0 ? ZERO : (cold[step.parent] ?? null);
    cold.push(parentCold && impedance.known ? add(scale(parentCold, 1 / impedance.ratio ** 2), impedance.cold) : null);
    const here = flow?.voltages_V[i + 1] ?? ZERO;
    const above = flow?.voltages_V[step.parent + 1] ?? ZERO;
    const carried = flow?.converged === true;
    results.push({
      voltage_V: carried && voltageKnown[i] ? magnitude(here) * Math.sqrt(3) : null,
      current_A: carried && currentKnown ? magnitude(flow?.currents_A[i + 1] ?? ZERO) : null,
      drop_V:
        carried && currentKnown && impedance.known ? (magnitude(scale(above, 1 / impedance.ratio)) - magnitude(here)) * Math.sqrt(3) : null,
      resistance_ohm: impedance.known ? impedance.z.re : null,
      reactance_ohm: impedance.known ? impedance.z.im : null,
      faultCurrent_A: zone.kind === 'input' ? faultOf(nominal[i] ?? null, cold[i] ?? null) : null,
      nominal_V: nominal[i] ?? null,
      assumptions: impedance.assumptions,
    });
  }
  return { steps: results, converged: flow === null || flow.converged };
}
