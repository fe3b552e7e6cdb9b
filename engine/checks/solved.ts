import type { Finding, Verdict } from './finding.ts';

/** The whole answer of the engine for one line-up. */

export type ShieldState = 'continuous' | 'broken' | 'open' | 'none';

export interface SolvedElement {
  readonly id: string;
  readonly tag: string;
  /** Line to line at its line side (load side for a supply), null when it is not fed or not known. */
  readonly voltage_V: number | null;
  /** Three-phase symmetrical, conductors cold; null behind a drive and where it is not known. */
  readonly faultCurrent_A: number | null;
  readonly faultPeak_A: number | null;
}

export interface SolvedCable {
  readonly id: string;
  readonly tag: string;
  readonly side: 'input' | 'output' | 'unfed';
  readonly current_A: number | null;
  readonly resistance_ohm: number | null;
  readonly reactance_ohm: number | null;
  readonly drop_V: number | null;
  readonly drop_pct: number | null;
  readonly ampacity_A: number | null;
  readonly ampacityFactors: readonly { readonly name: string; readonly value: number }[];
  /** Whether a shield, armour or metal raceway runs along this cable, and whether it is whole on it. */
  readonly shield: 'shield' | 'raceway' | 'none' | 'unknown';
}

/** One place where the way of the shield is interrupted, or where it is not known whether it is. */
export interface ShieldBreak {
  readonly state: 'broken' | 'open';
  /** The box, or null when the break is on a cable itself (an unshielded piece). */
  readonly elementId: string | null;
  /** The ends that stop here. */
  readonly ends: readonly { readonly cableId: string; readonly end: 'from' | 'to' }[];
}

export interface SolvedRun {
  readonly motorId: string;
  readonly motorTag: string;
  readonly driveId: string | null;
  /** Ids from source to motor: elements and cables in turn. */
  readonly path: readonly string[];
  readonly terminalVoltage_pct: number | null;
  /** D.c. bus of the drive at nominal supply, unloaded. */
  readonly bus_V: number | null;
  /** At the motor after one edge, line to line, at nominal supply, and between what it lies. */
  readonly peak_V: number | null;
  readonly peakLow_V: number | null;
  readonly peakHigh_V: number | null;
  /** 10 to 90 % of that peak. */
  readonly riseAtMotor_s: number | null;
  readonly ring_Hz: number | null;
  /** Until the ring has fallen to a tenth. */
  readonly ringOut_s: number | null;
  readonly criticalLength_m: number | null;
  readonly leadLength_m: number | null;
  readonly shield: ShieldState;
  readonly breaks: readonly ShieldBreak[];
  readonly verdict: Verdict;
}

export interface Review {
  readonly verdict: Verdict;
  readonly counts: Readonly<Record<Verdict, number>>;
  /** Worst first; ties by tag, then check. */
  readonly findings: readonly Finding[];
  readonly elements: readonly SolvedElement[];
  readonly cables: readonly SolvedCable[];
  readonly runs: readonly SolvedRun[];
  /** How many results this review computed anew, for the counters in tests and the benchmark. */
  readonly recomputed: number;
}
