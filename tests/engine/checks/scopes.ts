import type { CableScope, DriveScope, ElementScope, RunScope } from '../../../engine/checks/check.ts';
import type { CaseResult, StepResult } from '../../../engine/checks/solveZone.ts';
import { newLineUp } from '../../../engine/index.ts';
import type { Cable } from '../../../engine/lineup/cable.ts';
import type { ElementOf } from '../../../engine/lineup/elements.ts';

/** What one check is told, made up by hand: so that it can be asked at its very limit, whatever was solved to get there. */

export const CABLE: Cable = {
  id: 'c1',
  tag: 'W',
  kind: 'cable',
  from: { element: 'e1', port: 'load' },
  to: { element: 'e2', port: 'line' },
  conductor: { size: '2 AWG', metal: 'copper', sets: 1 },
  insulation: {},
  grounds: {},
  auxiliary: [],
  installation: { raceway: 'steel-conduit' },
  construction: 'singles',
  length_m: 60,
};
export const DRIVE: ElementOf<'drive'> = {
  id: 'e1',
  kind: 'drive',
  tag: 'D',
  ratedVoltage_V: 480,
  inputCurrent_A: 72,
  inputPowerFactor: 0.95,
  outputRatio_pct: 95,
};
export const MOTOR: ElementOf<'motor'> = {
  id: 'e2',
  kind: 'motor',
  tag: 'M',
  ratedVoltage_V: 460,
  ratedCurrent_A: 75,
  ratedFrequency_Hz: 60,
  powerFactor: 0.86,
};

export const SUPPLY: ElementOf<'supply'> = { id: 'e0', kind: 'supply', tag: 'S', voltage_V: 480, faultCurrent_A: 20_000 };

/** A transformer between a place and what it feeds, and what is drawn at the place for an ampere behind it: power passes. */
export const between = (primary_V: number, secondary_V: number) => ({
  between: [{ id: 't', kind: 'transformer', tag: 'T', primaryVoltage_V: primary_V, secondaryVoltage_V: secondary_V }] as const,
  drivesSeen: [secondary_V / primary_V],
  motorsSeen: [secondary_V / primary_V],
});

const none: CaseResult = { voltage_V: null, current_A: null, drop_V: null };
export const step = (more: Partial<StepResult> = {}): StepResult => ({
  voltage_V: 480,
  current_A: 72,
  drop_V: 0,
  cases: { rated: none, 'low line': none, 'high line': none, overload: none },
  resistance_ohm: null,
  reactance_ohm: null,
  faultCurrent_A: null,
  networkFault_A: null,
  feeding: [],
  path_ohm: null,
  leastPath_ohm: null,
  coldPath_ohm: null,
  faultPeak_A: null,
  gain: 1,
  collapsed: false,
  nominal_V: 480,
  says: [],
  assumptions: [],
  ...more,
});
/** Voltages of the cases, the others as they are. */
export const cases = (volts: Partial<Record<keyof StepResult['cases'], number>>): StepResult['cases'] => {
  const of = (name: keyof StepResult['cases']): CaseResult => ({ ...none, voltage_V: volts[name] ?? null });
  return { rated: of('rated'), 'low line': of('low line'), 'high line': of('high line'), overload: of('overload') };
};

const { project } = newLineUp('us');

export const cableScope = (more: Partial<CableScope> = {}): CableScope => ({
  project,
  basis: 'us',
  cable: CABLE,
  side: 'input',
  fromElement: MOTOR,
  toElement: DRIVE,
  landedFrom: [],
  landedTo: [],
  flow: step(),
  arrivesAt: [],
  arrivals: [],
  arrivalParts: [],
  ahead: [],
  lostAhead_pct: [],
  unmadeBehind: [],
  undrawn: [],
  drives: [DRIVE],
  motors: [MOTOR],
  drivesSeen: [1],
  motorsSeen: [1],
  between: [],
  direct: [],
  drive: null,
  nominal_V: 480,
  voltageFrom: SUPPLY,
  source: SUPPLY,
  filterAhead: false,
  guard: null,
  unsorted: null,
  bypassed: [],
  bypassedSeen: [],
  // A way around leads around the one drive there is.
  bypassedDrives: [DRIVE.id, DRIVE.id],
  together: [],
  togetherFed: [],
  ...more,
});

/** A drive on 480 V behind its supply, with nothing between. */
export const driveScope = (more: Partial<DriveScope> = {}): DriveScope => ({
  project: cableScope().project,
  basis: 'us',
  drive: DRIVE,
  feed: step(),
  earthing: undefined,
  earthingPart: SUPPLY,
  filters: [],
  motors: [MOTOR],
  motorsSeen: [1],
  between: [],
  transformer: null,
  supply: SUPPLY,
  reactors: [],
  ahead: [],
  ...more,
});

export const elementScope = (more: Partial<ElementScope> = {}): ElementScope => ({
  project,
  basis: 'us',
  element: DRIVE,
  side: 'input',
  flow: step(),
  atSource: false,
  drives: [DRIVE],
  motors: [MOTOR],
  drivesSeen: [1],
  motorsSeen: [1],
  between: [],
  direct: [],
  drive: null,
  nominal_V: 480,
  voltageFrom: SUPPLY,
  seriesBoxes: [],
  ahead: [],
  bypassed: [],
  bypassedSeen: [],
  // A way around leads around the one drive there is.
  bypassedDrives: [DRIVE.id, DRIVE.id],
  bypassLeg: [],
  bypassParts: [],
  ...more,
});

export const runScope = (more: Partial<RunScope> = {}): Omit<RunScope, 'tree' | 'shield'> => ({
  project,
  basis: 'us',
  drive: DRIVE,
  motor: MOTOR,
  cables: [CABLE],
  boxes: [],
  disconnects: [],
  start: step({ voltage_V: 460 }),
  terminal: step({ voltage_V: 460 }),
  nominal_V: 480,
  voltageFrom: SUPPLY,
  inputKnown: true,
  ahead: [SUPPLY],
  lostAhead_pct: [],
  undrawnAhead: [],
  driven: [MOTOR],
  assumptions: [],
  ...more,
});
