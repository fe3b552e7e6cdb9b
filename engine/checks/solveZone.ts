import type { Element, ElementOf } from '../lineup/elements.ts';
import type { Basis, Project } from '../lineup/project.ts';
import type { Step, Zone } from '../network/network.ts';
import { add, type Complex, complex, magnitude, scale, ZERO } from '../physics/complex.ts';
import { faultCurrent_A, peakFaultCurrent_A, sourceImpedance, transformerCorrection } from '../physics/faultCurrent.ts';
import { type Branch, type FlowResult, type Load, powerFlow } from '../physics/powerFlow.ts';
import type { Amperes, Ohms, Volts } from '../physics/units.ts';
import { loadTemperature_C } from './cableAmpacity.ts';
import { cableImpedance, ratedTemperature_C } from './cableModel.ts';
import type { Assumption, CaseName } from './finding.ts';

/**
 * Voltages, currents and fault levels of one zone. The input side is solved with every drive at its rated input current,
 * the case its feeder must be sized for (NEC 430.122(A)); the output side with every motor at its nameplate current and
 * frequency, from what the drive can still make of its own input voltage.
 */

/** The cases every zone is solved in. */
export type SolvedCase = Exclude<CaseName, 'bypass'>;

/** Line to line; null when something that decides it is not known. */
export interface CaseResult {
  readonly voltage_V: Volts | null;
  readonly current_A: Amperes | null;
  readonly drop_V: Volts | null;
}

/** The first three are those of the rated case. */
export interface StepResult extends CaseResult {
  readonly cases: Readonly<Record<SolvedCase, CaseResult>>;
  readonly resistance_ohm: Ohms | null;
  readonly reactance_ohm: Ohms | null;
  /** Three-phase symmetrical, conductors cold; null where it is not known, and behind a drive, whose bridge passes none. */
  readonly faultCurrent_A: Amperes | null;
  /** How much of it comes from the source, and what feeds the rest: motors that run without a drive, where the project counts them. */
  readonly networkFault_A: Amperes | null;
  readonly feeding: readonly ElementOf<'motor'>[];
  /** From the source to here, one phase: at the temperature of the solution; with cables at the least that they can be, cold; and the same as faults are reckoned, with the factors of IEC 60909-0. */
  readonly path_ohm: Complex | null;
  readonly leastPath_ohm: Complex | null;
  readonly coldPath_ohm: Complex | null;
  /** Greatest instantaneous value of that current (IEC 60909-0), null as above. */
  readonly faultPeak_A: Amperes | null;
  /** Voltage here over voltage at the start of the zone, without load: what transformers and their taps make of it. */
  readonly gain: number;
  /** Everything is known, and yet the load cannot be carried: the voltage collapses. */
  readonly collapsed: boolean;
  /** Nominal voltage at this place, from the source through the transformers. */
  readonly nominal_V: Volts | null;
  /** How resistance and reactance came about. */
  readonly says: readonly string[];
  /** What was assumed of all from the source to here. */
  readonly assumptions: readonly Assumption[];
}

interface Impedance {
  readonly z: Complex;
  readonly least: Complex;
  readonly cold: Complex;
  readonly known: boolean;
  readonly says: readonly string[];
  readonly assumptions: readonly Assumption[];
}

const nothing: Impedance = { z: ZERO, least: ZERO, cold: ZERO, known: true, says: [], assumptions: [] };
const unknown: Impedance = { ...nothing, known: false };

/** What one step does to the voltage, before over behind: a transformer at its tap. Null where its voltages are not known. */
function turnsOf({ element, via }: Step): number | null {
  if (via?.kind !== 'element' || element.kind !== 'transformer') return 1;
  const { primaryVoltage_V, secondaryVoltage_V, tap_pct = 0 } = element;
  return primaryVoltage_V && secondaryVoltage_V ? (primaryVoltage_V / secondaryVoltage_V) * (1 + tap_pct / 100) : null;
}

const USUAL_DROP = 'common practice, high end; one maker states up to 9 % for a sine filter';

/** What the per cent of a reactor or filter are of: its own rating, else the voltage of its place and the current of what it serves. */
function baseOf(
  { tag, ratedVoltage_V, ratedCurrent_A }: ElementOf<'reactor' | 'filter'>,
  nominal_V: number | null,
  current_A: number | null,
) {
  const [volts, amperes] = [ratedVoltage_V ?? nominal_V, ratedCurrent_A ?? current_A];
  if (!volts || !amperes) return null;
  const taken = (what: string, value: string, from: string): Assumption => ({
    what: `${what} of ${tag}`,
    value,
    source: `common practice: ${from}`,
  });
  const assumptions = [
    ...(ratedVoltage_V === undefined ? [taken('rated voltage', `${Math.round(volts)} V`, 'that of its place')] : []),
    ...(ratedCurrent_A === undefined ? [taken('rated current', `${Math.round(amperes)} A`, 'that of the drive it serves')] : []),
  ];
  return { volts, amperes, assumptions };
}

function elementImpedance(element: Element, nominal_V: number | null, current_A: number | null, basis: Basis): Impedance {
  switch (element.kind) {
    case 'transformer': {
      const { primaryVoltage_V, secondaryVoltage_V, impedance_pct, ratedPower_VA, xOverR } = element;
      if (!secondaryVoltage_V || !primaryVoltage_V || !impedance_pct || !ratedPower_VA) return unknown;
      const z = ((impedance_pct / 100) * secondaryVoltage_V ** 2) / ratedPower_VA;
      const xr = xOverR ?? 5;
      const assumptions =
        xOverR === undefined ? [{ what: `X/R of ${element.tag}`, value: '5', source: 'common practice, from memory' }] : [];
      const r = z / Math.hypot(1, xr);
      const own = complex(r, r * xr);
      const corrected = basis === 'iec' ? scale(own, transformerCorrection(((impedance_pct / 100) * xr) / Math.hypot(1, xr))) : own;
      const says = [
        `Z = ${impedance_pct} % × ${secondaryVoltage_V}² / ${Math.round(ratedPower_VA / 1000)} kVA = ${Number((1000 * z).toPrecision(5))} mΩ, X/R ${xr}`,
      ];
      return { ...nothing, z: own, least: own, cold: corrected, says, assumptions };
    }
    case 'reactor': {
      const base = baseOf(element, nominal_V, current_A);
      if (element.impedance_pct === undefined || !base) return unknown;
      const z = complex(element.resistance_ohm ?? 0, ((element.impedance_pct / 100) * base.volts) / Math.sqrt(3) / base.amperes);
      return { ...nothing, z, least: z, cold: z, assumptions: base.assumptions };
    }
    case 'filter': {
      // An EMC filter in a feeder drops next to nothing; the others drop what their maker says, else the high end of what is usual.
      if (element.role === 'terminator') return nothing;
      const usual = element.role === 'emc-input' ? 0.5 : element.role === 'dvdt' ? 1.5 : element.role === 'sine' ? 9 : null;
      const drop_pct = element.drop_pct ?? usual;
      const base = baseOf(element, nominal_V, current_A);
      if (drop_pct === null || !base) return unknown;
      const size = ((drop_pct / 100) * base.volts) / Math.sqrt(3) / base.amperes;
      const z = complex(size * 0.85, size * Math.sqrt(1 - 0.85 ** 2));
      const drop = { what: `drop in ${element.tag}`, value: `${drop_pct} %`, source: USUAL_DROP };
      return { ...nothing, z, least: z, cold: z, assumptions: [...(element.drop_pct === undefined ? [drop] : []), ...base.assumptions] };
    }
    default:
      return nothing;
  }
}

export interface ZoneResult {
  readonly steps: readonly StepResult[];
  readonly converged: boolean;
}

export type SolveOptions = Pick<Project, 'basis' | 'conductorTemperature' | 'motorContribution'>;

/** Line voltage of the cases, of nominal, where the supply does not say: ANSI C84.1 Range A, from memory; IEC 60038. */
export const USUAL_LINE_PCT = { us: { least: 95, most: 105 }, iec: { least: 90, most: 110 } } as const;

/** What a motor that runs without a drive feeds into a fault, of its rated current: IEEE 141, low voltage, from memory. */
export const MOTOR_CONTRIBUTION = 4;

/**
 * @param available_V line to line at the start of the zone, by case: the supply's voltage, or what the drive can make; null when not known
 */
export function solveZone(zone: Zone, available_V: Readonly<Record<SolvedCase, number | null>>, options: SolveOptions): ZoneResult {
  const { steps, source } = zone;
  const { basis } = options;
  const motors = steps.map((step) => step.element).filter((element) => element.kind === 'motor');

  const turns = steps.map(turnsOf);
  const gains: number[] = [];
  for (const step of steps) gains.push((gains[step.parent] ?? 1) / (turns[step.index] ?? 1));
  // Without a known input the drive is taken to make what its motors want.
  const wanted = steps.flatMap(({ element, index }) =>
    element.kind === 'motor' && element.ratedVoltage_V ? [element.ratedVoltage_V / (gains[index] ?? 1)] : [],
  );
  const start_V = available_V.rated ?? (zone.kind === 'output' ? Math.max(0, ...wanted) || null : null);
  const frequency_Hz = (source.kind === 'supply' ? source.frequency_Hz : motors[0]?.ratedFrequency_Hz) ?? (basis === 'us' ? 60 : 50);
  const nominal: (number | null)[] = [];
  for (const step of steps) {
    const before = step.parent < 0 ? start_V : (nominal[step.parent] ?? null);
    const transformer = step.via?.kind === 'element' && step.element.kind === 'transformer' ? step.element : null;
    nominal.push(transformer ? (transformer.secondaryVoltage_V ?? null) : before);
  }

  const loads: Load[] = [];
  const overloads: Load[] = [];
  const drawn: (number | null)[] = steps.map(() => 0);
  for (const step of steps) {
    const { element } = step;
    const rated = nominal[step.index] ?? null;
    const drive = element.kind === 'drive' && step.parent >= 0 ? element : null;
    const motor = element.kind === 'motor' ? element : null;
    if (!drive && !motor) continue;
    const current = motor ? motor.ratedCurrent_A : drive?.inputCurrent_A;
    const voltage = motor ? motor.ratedVoltage_V : (drive?.ratedVoltage_V ?? rated);
    if (current === undefined || !voltage) {
      drawn[step.index] = null;
      continue;
    }
    drawn[step.index] = current;
    const load: Load = {
      node: step.index + 1,
      kind: zone.kind === 'output' ? 'regulated' : 'power',
      ratedVoltage_V: voltage,
      ratedCurrent_A: current,
      powerFactor: motor?.powerFactor ?? drive?.inputPowerFactor ?? null,
    };
    loads.push(load);
    const overload_pct = drive ? drive.overload_pct : zone.source.kind === 'drive' ? zone.source.overload_pct : undefined;
    overloads.push({ ...load, ratedCurrent_A: (current * Math.max(100, overload_pct ?? 100)) / 100 });
  }
  // A load that takes the worst angle takes it for all that is ahead of it together, source included.
  const angleUnknown = steps.map(() => false);
  for (const load of loads) if (load.powerFactor === null) angleUnknown[load.node - 1] = true;
  for (const { index, parent } of steps.toReversed()) if (angleUnknown[index] && parent >= 0) angleUnknown[parent] = true;
  const below = addedUp(steps, turns, drawn);
  const feeding = options.motorContribution && zone.kind === 'input' ? motors : [];
  const fed = steps.map(({ element }) => (element.kind === 'motor' && feeding.includes(element) ? (element.ratedCurrent_A ?? null) : 0));
  const [running_A = null] = addedUp(steps, turns, fed);

  const impedances: Impedance[] = steps.map((step) => {
    if (step.via === null) {
      if (source.kind !== 'supply' || !source.faultCurrent_A || !start_V) return nothing;
      const xr = source.xOverR ?? 10;
      const z = sourceImpedance(start_V, source.faultCurrent_A, xr, 'us');
      const cold = sourceImpedance(start_V, source.faultCurrent_A, xr, basis);
      const says = [`Z = ${start_V} V / (√3 × ${source.faultCurrent_A} A) = ${Number((1000 * magnitude(z)).toPrecision(5))} mΩ, X/R ${xr}`];
      const assumptions =
        source.xOverR === undefined ? [{ what: `X/R of ${source.tag}`, value: '10', source: 'common practice, from memory' }] : [];
      return { ...nothing, z, least: z, cold, says, assumptions };
    }
    if (step.via.kind === 'element') return elementImpedance(step.element, nominal[step.index] ?? null, below[step.index] ?? null, basis);
    const { cable } = step.via;
    const current = below[step.index];
    const byLoad =
      options.conductorTemperature === 'by-load' && typeof current === 'number' ? loadTemperature_C(cable, basis, current) : null;
    const made = cableImpedance(cable, frequency_Hz, basis, byLoad ?? ratedTemperature_C(cable, basis));
    if (!made) return unknown;
    const says =
      byLoad === null
        ? made.says
        : [
            `T = Ta + (Tm − Ta) (I / Iz)² = ${Number(byLoad.toPrecision(4))} °C at ${Number((current ?? 0).toPrecision(5))} A`,
            ...made.says,
          ];
    return { ...nothing, ...made, least: made.cold, says };
  });
  const branches = steps.map((step, i): Branch => {
    const { z } = impedances[i] ?? nothing;
    return { from: step.parent + 1, to: step.index + 1, impedance_ohm: z, ratio: turns[i] ?? 1 };
  });

  const flowOf = (volts: number | null, demand: readonly Load[]): FlowResult | null =>
    volts === null ? null : powerFlow(volts, steps.length + 1, branches, demand);
  const rated = flowOf(start_V, loads);
  const overloaded = overloads.some((load, i) => load.ratedCurrent_A !== loads[i]?.ratedCurrent_A);
  const flows: Readonly<Record<SolvedCase, FlowResult | null>> = {
    rated,
    'low line': flowOf(available_V['low line'], loads),
    'high line': flowOf(available_V['high line'], loads),
    overload: overloaded ? flowOf(available_V.overload ?? start_V, overloads) : rated,
  };

  /** Sizes of the load currents behind each step, added up without their angles. */
  const currentSums = (flow: FlowResult): readonly (number | null)[] => {
    const sizes = steps.map(() => 0);
    for (const load of loads) sizes[load.node - 1] = magnitude(flow.currents_A[load.node] ?? ZERO);
    return addedUp(steps, turns, sizes);
  };
  const sumsOf = new Map(Object.values(flows).map((flow) => [flow, flow && angleUnknown.includes(true) ? currentSums(flow) : []]));

  const collapsed = rated !== null && !rated.converged && !drawn.includes(null) && impedances.every((each) => each.known);
  const voltageKnown: boolean[] = [];
  const cold: (Complex | null)[] = [];
  const warm: (Complex | null)[] = [];
  const least: (Complex | null)[] = [];
  const results: StepResult[] = [];
  for (const step of steps) {
    const i = step.index;
    const impedance = impedances[i] ?? nothing;
    const assumed = results[step.parent]?.assumptions ?? [];
    const ratio = turns[i] ?? 1;
    const currentKnown = below[i] !== null;
    voltageKnown.push((voltageKnown[step.parent] ?? true) && impedance.known && (currentKnown || magnitude(impedance.z) === 0));
    const pathOf = (path: readonly (Complex | null)[], own: Complex): Complex | null => {
      const ahead = step.parent < 0 ? ZERO : (path[step.parent] ?? null);
      return ahead && impedance.known ? add(scale(ahead, 1 / ratio ** 2), own) : null;
    };
    cold.push(pathOf(cold, impedance.cold));
    warm.push(pathOf(warm, impedance.z));
    least.push(pathOf(least, impedance.least));
    const caseOf = (flow: FlowResult | null): CaseResult => {
      if (flow?.converged !== true) return NO_CASE;
      const here = flow.voltages_V[i + 1] ?? ZERO;
      const above = flow.voltages_V[step.parent + 1] ?? ZERO;
      // What one branch loses of its own is then bounded by |Z| times its currents added up, whatever their angles.
      const lost_V =
        Math.sqrt(3) *
        (angleUnknown[i] ? magnitude(impedance.z) * (sumsOf.get(flow)?.[i] ?? 0) : magnitude(scale(above, 1 / ratio)) - magnitude(here));
      return {
        voltage_V: voltageKnown[i] ? magnitude(here) * Math.sqrt(3) : null,
        current_A: currentKnown ? magnitude(flow.currents_A[i + 1] ?? ZERO) : null,
        drop_V: currentKnown && impedance.known ? lost_V : null,
      };
    };
    const cases = {
      rated: caseOf(flows.rated),
      'low line': caseOf(flows['low line']),
      'high line': caseOf(flows['high line']),
      overload: caseOf(flows.overload),
    };
    const [volts, path] = [nominal[i] ?? null, cold[i] ?? null];
    const fault = zone.kind === 'input' && volts !== null && path !== null ? faultCurrent_A(volts, path, basis) : null;
    const total_A = fault === null || running_A === null ? null : fault + (MOTOR_CONTRIBUTION * running_A) / (gains[i] ?? 1);
    results.push({
      ...cases.rated,
      cases,
      resistance_ohm: impedance.known ? impedance.z.re : null,
      reactance_ohm: impedance.known ? impedance.z.im : null,
      faultCurrent_A: total_A,
      networkFault_A: fault,
      feeding,
      path_ohm: warm[i] ?? null,
      leastPath_ohm: least[i] ?? null,
      coldPath_ohm: path,
      faultPeak_A: total_A === null || path === null ? null : peakFaultCurrent_A(total_A, path),
      gain: gains[i] ?? 1,
      collapsed,
      nominal_V: volts,
      says: impedance.says,
      assumptions: impedance.assumptions.length > 0 ? [...assumed, ...impedance.assumptions] : assumed,
    });
  }
  return { steps: results, converged: rated === null || rated.converged };
}

/** Currents of each step and all behind it, as sizes, seen on its own side of transformers; null where one is not known. */
function addedUp(steps: readonly Step[], turns: readonly (number | null)[], drawn: readonly (number | null)[]): readonly (number | null)[] {
  const sums = [...drawn];
  for (let index = steps.length - 1; index >= 0; index--) {
    const parent = steps[index]?.parent ?? -1;
    const own = sums[index] ?? null;
    // Nothing is nothing through any transformer.
    if (parent < 0 || own === 0) continue;
    const sum = sums[parent] ?? null;
    const ratio = turns[index] ?? null;
    sums[parent] = own === null || sum === null || ratio === null ? null : sum + own / ratio;
  }
  return sums;
}

const NO_CASE: CaseResult = { voltage_V: null, current_A: null, drop_V: null };

/** Of a part that no source feeds. */
export const NO_FLOW: StepResult = {
  ...NO_CASE,
  cases: { rated: NO_CASE, 'low line': NO_CASE, 'high line': NO_CASE, overload: NO_CASE },
  resistance_ohm: null,
  reactance_ohm: null,
  faultCurrent_A: null,
  networkFault_A: null,
  feeding: [],
  faultPeak_A: null,
  path_ohm: null,
  leastPath_ohm: null,
  coldPath_ohm: null,
  gain: 1,
  collapsed: false,
  nominal_V: null,
  says: [],
  assumptions: [],
};
