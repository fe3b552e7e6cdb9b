import { TABLE_310_16, US_AMPACITY } from '../catalog/ampacity.ts';
import { nextRating_A } from '../catalog/deviceRatings.ts';
import { equipmentGround } from '../catalog/groundingConductors.ts';
import { IEC_AMPACITY } from '../catalog/iecAmpacity.ts';
import { IEC_MOTORS, tableCurrent_A, US_MOTORS, WATTS_PER_HP } from '../catalog/motors.ts';
import { USUAL_RISE_S } from '../catalog/riseTimes.ts';
import { cite } from '../catalog/source.ts';
import type { Cable } from '../lineup/cable.ts';
import { newLineUp } from '../lineup/create.ts';
import type { Element } from '../lineup/elements.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import type { Basis } from '../lineup/project.ts';

/**
 * A provisional line-up from five numbers. What decides a first answer and was not said is assumed and marked so; what only a supplier
 * or the installer can say, and no usual value stands for, is left out and asked for.
 */

export interface FiveNumbers {
  readonly power_W: number;
  readonly voltage_V: number;
  readonly length_m: number;
  readonly place: 'dry' | 'damp' | 'wet';
  readonly basis: Basis;
  /** The length as it was typed. */
  readonly typedLength?: string;
}

const assumed = (...fields: string[]) => Object.fromEntries(fields.map((field) => [field, { origin: 'assumed' as const }]));

/** Of a medium-voltage network, where its owner says nothing: IEC 60076-5, Table 2, up to 24 kV (from memory). */
const NETWORK_FAULT_VA = 500e6;
/** A substation's transformer: at least this, and three times the motor in steps of 500 kVA (common practice). */
const transformer_VA = (power_W: number): number => Math.max(1e6, Math.ceil((3 * power_W) / 500e3) * 500e3);

/** How a cable is taken to lie until someone says otherwise. */
const LAID = {
  ambient_C: 30,
  loadedConductors: 3,
  groupedCircuits: 1,
  method: 'E' as const,
  existing: false,
  flexing: false,
};

/** The smallest size, and the fewest sets of at most 500 kcmil or 240 mm², whose table value (75 °C, or method E) is not below the current. */
function sizeFor(current_A: number, basis: Basis): { readonly size: string; readonly sets: number } {
  const metric = IEC_AMPACITY.find((each) => each.metal === 'copper' && each.group === 'xlpe' && each.method === 'E')?.rows ?? [];
  const rows: readonly (readonly [string, number])[] =
    basis === 'us' ? US_AMPACITY.map((row) => [row.name, row.copper[1] ?? 0]) : metric.map(([area, amperes]) => [`${area} mm2`, amperes]);
  const last = rows.findIndex(([name]) => name === (basis === 'us' ? '500 kcmil' : '240 mm2'));
  const usual = rows.slice(0, last + 1);
  const most = usual.at(-1)?.[1] ?? 1;
  const sets = Math.min(50, Math.max(1, Math.ceil(current_A / most)));
  return { size: usual.find(([, amperes]) => amperes >= current_A / sets)?.[0] ?? usual.at(-1)?.[0] ?? '', sets };
}

export function startFromFive({ power_W, voltage_V, length_m, place, basis, typedLength }: FiveNumbers): LineUp {
  const us = basis === 'us';
  const motorVoltage_V = us ? ({ 208: 200, 240: 230, 480: 460, 600: 575 }[voltage_V] ?? voltage_V) : voltage_V;
  const table = us
    ? tableCurrent_A(power_W, motorVoltage_V)?.current_A
    : IEC_MOTORS.find(([kW]) => Math.abs((kW * 1000) / power_W - 1) < 0.03)?.[3];
  const current_A = table && (us || voltage_V === 400) ? table : power_W / (Math.sqrt(3) * motorVoltage_V * 0.85 * 0.93);
  const rounded = Math.round(current_A * 10) / 10;
  const { size, sets } = sizeFor(us ? current_A * 1.25 : current_A, basis);
  const frequency_Hz = us ? 60 : 50;
  // The low end of the usual range: it drops most.
  const powerFactor = us
    ? (US_MOTORS.find(([hp]) => hp * WATTS_PER_HP * 1.03 >= power_W)?.[2] ?? 0.85)
    : (IEC_MOTORS.find(([kW]) => kW * 1030 >= power_W)?.[2] ?? 0.85);
  const trip_A = nextRating_A(1.25 * current_A, basis);
  const groundSize = us && trip_A !== null ? (equipmentGround(trip_A, 'copper')?.size ?? size) : size;
  const marks = { terminalTemperature_C: 75, terminalMetal: 'copper-aluminium' as const };
  const markProvenance = assumed('terminalTemperature_C', 'terminalMetal');
  const primary_V = us ? 12470 : 10000;
  const elements: Element[] = [
    {
      id: 'e1',
      kind: 'supply',
      tag: 'S-1',
      voltage_V: primary_V,
      frequency_Hz,
      faultCurrent_A: Math.round(NETWORK_FAULT_VA / (Math.sqrt(3) * primary_V)),
      earthing: us ? 'solid-wye' : 'tn',
      provenance: assumed('voltage_V', 'frequency_Hz', 'faultCurrent_A', 'earthing'),
    },
    {
      id: 'e6',
      kind: 'transformer',
      tag: 'T-1',
      ratedPower_VA: transformer_VA(power_W),
      primaryVoltage_V: primary_V,
      secondaryVoltage_V: voltage_V,
      impedance_pct: us ? 5.75 : 6,
      secondaryEarthing: us ? 'solid-wye' : 'tn',
      ...marks,
      provenance: {
        ...markProvenance,
        ...assumed('ratedPower_VA', 'primaryVoltage_V', 'impedance_pct', 'secondaryEarthing'),
        secondaryVoltage_V: { origin: 'entered' },
      },
    },
    {
      id: 'e2',
      kind: 'disconnect',
      tag: 'CB-1',
      device: 'breaker',
      ...(trip_A === null ? {} : { tripCurrent_A: trip_A, ratedCurrent_A: trip_A }),
      box: 'metal',
      ...marks,
      provenance: { ...markProvenance, ...assumed('device', 'box', 'tripCurrent_A', 'ratedCurrent_A') },
    },
    {
      id: 'e3',
      kind: 'reactor',
      tag: 'L-1',
      impedance_pct: 3,
      ratedCurrent_A: rounded,
      ratedVoltage_V: voltage_V,
      box: 'metal',
      ...marks,
      provenance: { ...markProvenance, ...assumed('impedance_pct', 'ratedCurrent_A', 'ratedVoltage_V', 'box') },
    },
    {
      id: 'e4',
      kind: 'drive',
      tag: 'VFD-1',
      ratedPower_W: power_W,
      ratedVoltage_V: voltage_V,
      inputCurrent_A: rounded,
      outputCurrent_A: rounded,
      carrier_Hz: 4000,
      riseTime_s: USUAL_RISE_S,
      box: 'metal',
      ...marks,
      terminalMetal: 'copper-only',
      provenance: {
        ...markProvenance,
        ...assumed('ratedPower_W', 'ratedVoltage_V', 'inputCurrent_A', 'outputCurrent_A', 'carrier_Hz', 'riseTime_s', 'box'),
      },
    },
    {
      id: 'e5',
      kind: 'motor',
      tag: 'M-1',
      ratedPower_W: power_W,
      ratedVoltage_V: motorVoltage_V,
      ratedFrequency_Hz: frequency_Hz,
      ratedCurrent_A: rounded,
      powerFactor,
      box: 'metal',
      ...marks,
      provenance: {
        ...markProvenance,
        ...assumed('ratedVoltage_V', 'ratedFrequency_Hz', 'ratedCurrent_A', 'powerFactor', 'box'),
      },
    },
  ];
  const made = {
    kind: 'cable' as const,
    conductor: { size, metal: 'copper' as const, sets },
    ...(sets > 1 ? { setsAlike: true, setsHoldAllPhases: true } : {}),
    insulation: us ? { type: 'XHHW-2' as const } : { type: 'XLPE' as const, voltage_V: 1000 },
    auxiliary: [],
  };
  const ground = { size: groundSize, metal: 'copper' as const };
  const cableProvenance = assumed(
    'conductor.size',
    'conductor.metal',
    'conductor.sets',
    'insulation.type',
    'construction',
    'installation.ambient_C',
    'installation.loadedConductors',
    'installation.groupedCircuits',
    'installation.method',
    'installation.raceway',
    'installation.existing',
    'installation.flexing',
    'installation.spares',
    'setsAlike',
    'setsHoldAllPhases',
    'grounds.count',
    'grounds.size',
    'grounds.metal',
    'grounds.arrangement',
    'from.landing',
    'to.landing',
  );
  const link = (id: string, from: string, to: string): Cable => ({
    id,
    tag: id,
    kind: 'link',
    conductor: {},
    insulation: {},
    grounds: {},
    auxiliary: [],
    installation: {},
    from: { element: from, port: 'load' },
    to: { element: to, port: 'line' },
  });
  const cables: Cable[] = [
    link('c5', 'e1', 'e6'),
    link('c1', 'e6', 'e2'),
    {
      ...made,
      id: 'c2',
      tag: 'F-1',
      construction: us ? 'singles' : 'multicore',
      grounds: { ...ground, count: 1, arrangement: 'single' },
      installation: { ...LAID, raceway: us ? 'steel-conduit' : 'tray', moisture: 'dry' },
      from: { element: 'e2', port: 'load', landing: 'full' },
      to: { element: 'e3', port: 'line', landing: 'full' },
      length_m: us ? 30.48 : 30,
      provenance: { ...cableProvenance, ...assumed('length_m', 'installation.moisture') },
    },
    link('c3', 'e3', 'e4'),
    {
      ...made,
      id: 'c4',
      tag: 'W-1',
      construction: 'foil-and-braid',
      grounds: { ...ground, ...(us ? { count: 3, arrangement: 'symmetrical' } : { count: 1, arrangement: 'concentric' }) },
      installation: { ...LAID, raceway: 'tray', spares: 'none', moisture: place },
      from: { element: 'e4', port: 'load', landing: 'full' },
      to: { element: 'e5', port: 'line', landing: 'full' },
      length_m,
      provenance: {
        ...cableProvenance,
        ...(typedLength === undefined ? {} : { length_m: { typed: typedLength } }),
      },
    },
  ];
  const empty = newLineUp(basis);
  return {
    ...empty,
    project: {
      ...empty.project,
      title: 'Line-up from five numbers',
      summary: `Sizes after ${us ? cite(TABLE_310_16) : 'IEC 60364-5-52 method E'}`,
    },
    elements,
    cables,
  };
}
