import {
  boxFields,
  celsius,
  fraction,
  id,
  notNegative,
  percent,
  percentOfWhole,
  positive,
  provenance,
  terminalFields,
  text,
  yesNo,
} from './quantity.ts';
import { z } from './zod.ts';

/**
 * The parts of a line-up. Every value that a check needs is optional: a value that is not there is not known,
 * never zero. Fields unknown to this version are kept (loose objects).
 */

export const earthing = z.enum(['solid-wye', 'tn', 'tt', 'corner-grounded', 'midpoint-grounded', 'resistance-grounded', 'ungrounded']);
export type Earthing = z.infer<typeof earthing>;

const common = {
  id,
  tag: text.min(1),
  note: text.optional(),
  enclosure: text.optional(),
  provenance: provenance.optional(),
};

export const supply = z.looseObject({
  ...common,
  kind: z.literal('supply'),
  /** Line to line, r.m.s. */
  voltage_V: positive.optional(),
  frequency_Hz: positive.optional(),
  /** Three-phase symmetrical available fault current at the terminals. */
  faultCurrent_A: positive.optional(),
  xOverR: notNegative.optional(),
  earthing: earthing.optional(),
  /** Lowest and highest line voltage that is promised, of nominal. */
  voltageLeast_pct: percent.optional(),
  voltageMost_pct: percent.optional(),
  /** Greatest deviation from the mean of the three line voltages, of the mean. */
  unbalance_pct: percent.optional(),
  /** Maximum demand current of the whole installation at the point of common coupling (IEEE 519's IL). */
  demandCurrent_A: positive.optional(),
});

export const transformer = z.looseObject({
  ...common,
  kind: z.literal('transformer'),
  ratedPower_VA: positive.optional(),
  primaryVoltage_V: positive.optional(),
  secondaryVoltage_V: positive.optional(),
  impedance_pct: percent.optional(),
  xOverR: notNegative.optional(),
  tap_pct: z.number().min(-50).max(50).optional(),
  connection: text.optional(),
  secondaryEarthing: earthing.optional(),
  /** Its maker allows it behind a drive with a sine filter, at low speed too, in writing. */
  driveDuty: yesNo.optional(),
  ...boxFields,
  ...terminalFields,
});

export const bus = z.looseObject({
  ...common,
  kind: z.literal('bus'),
  ratedCurrent_A: positive.optional(),
  faultRating_A: positive.optional(),
  capacitor: yesNo.optional(),
  ...terminalFields,
});

export const disconnect = z.looseObject({
  ...common,
  kind: z.literal('disconnect'),
  device: z.enum(['switch', 'breaker', 'fuse', 'fused-switch']).optional(),
  state: z.enum(['closed', 'open']).optional(),
  ratedCurrent_A: positive.optional(),
  /** Rating or setting of the overcurrent device. */
  tripCurrent_A: positive.optional(),
  faultRating_A: positive.optional(),
  earlyBreakContact: z.enum(['wired', 'absent']).optional(),
  lockable: yesNo.optional(),
  withinSight: yesNo.optional(),
  residualCurrentType: z.enum(['none', 'AC', 'A', 'F', 'B']).optional(),
  residualCurrent_A: positive.optional(),
  ...boxFields,
  ...terminalFields,
});

export const reactor = z.looseObject({
  ...common,
  kind: z.literal('reactor'),
  /** Of its own base: rated voltage and current. */
  impedance_pct: percent.optional(),
  ratedCurrent_A: positive.optional(),
  ratedVoltage_V: positive.optional(),
  resistance_ohm: notNegative.optional(),
  /** Core loss at the frequency of the ring, as a resistance across it, line to line. */
  coreLoss_ohm: positive.optional(),
  ...boxFields,
  ...terminalFields,
});

export const filter = z.looseObject({
  ...common,
  kind: z.literal('filter'),
  role: z.enum(['emc-input', 'dvdt', 'sine', 'terminator']).optional(),
  /** Fundamental drop at rated current, of rated voltage. */
  drop_pct: percent.optional(),
  ratedCurrent_A: positive.optional(),
  ratedVoltage_V: positive.optional(),
  carrierLeast_Hz: positive.optional(),
  carrierMost_Hz: positive.optional(),
  /** The maker's figures for the terminals of the motor with this filter and cable. */
  motorPeak_V: positive.optional(),
  motorRise_s: positive.optional(),
  /** Its parts, of one phase: coil, damping across the coil, capacitor to the star point and the resistance in series with it. */
  inductance_H: positive.lt(1).optional(),
  acrossInductor_ohm: positive.optional(),
  capacitance_F: positive.lt(1).optional(),
  resistance_ohm: positive.optional(),
  ...boxFields,
  ...terminalFields,
});

export const drive = z.looseObject({
  ...common,
  kind: z.literal('drive'),
  ratedPower_W: positive.optional(),
  ratedVoltage_V: positive.optional(),
  inputCurrent_A: positive.optional(),
  outputCurrent_A: positive.optional(),
  overload_pct: percent.optional(),
  /** True power factor of the input, harmonics included. */
  inputPowerFactor: fraction.optional(),
  frontEnd: z.enum(['diode', 'active']).optional(),
  /** Largest fundamental output voltage, of the input voltage. */
  outputRatio_pct: percent.optional(),
  carrier_Hz: positive.optional(),
  /** 10 to 90 % rise time at the drive's terminals. */
  riseTime_s: positive.lt(1).optional(),
  /** D.c. bus level while a braking chopper works. */
  brakingBus_V: positive.optional(),
  /** How far an active front end holds the bus above the crest of the line. */
  busRaise_pct: percent.optional(),
  /** Least time between two edges of one leg that its control keeps. */
  pulseLeast_s: positive.lt(1).optional(),
  dcChoke: z.enum(['none', 'fitted']).optional(),
  dcChoke_pct: percent.optional(),
  builtInFilter: yesNo.optional(),
  /** Filter and varistor jumpers as the drive stands. */
  filterJumpers: z.enum(['in', 'out']).optional(),
  faultRating_A: positive.optional(),
  faultRatingDevice: text.optional(),
  /** The device drawn ahead of it is the one its fault rating is marked with. */
  faultRatingDeviceDrawn: yesNo.optional(),
  control: z.enum(['scalar', 'vector']).optional(),
  /** Of one drive at rated voltage, as its maker states. */
  leakageCurrent_A: notNegative.lt(100).optional(),
  /** Limits copied from the drive's own manual. */
  manual: z
    .looseObject({
      page: text.optional(),
      allowedEarthing: z.array(earthing).optional(),
      shieldRequired: yesNo.optional(),
      lengthShielded_m: positive.optional(),
      lengthUnshielded_m: positive.optional(),
      lengthWithReactor_m: positive.optional(),
      emcLengths: z
        .array(z.looseObject({ category: z.enum(['C1', 'C2', 'C3', 'C4']), carrier_Hz: positive.optional(), length_m: positive }))
        .optional(),
      inputVoltageLeast_pct: percent.optional(),
      inputShieldRequired: yesNo.optional(),
      reactorRequired: yesNo.optional(),
      /** Marked as suitable for protecting its output conductors, which then must carry at least this. */
      protectsOutputConductors: yesNo.optional(),
      outputAmpacityLeast_A: positive.optional(),
    })
    .optional(),
  ...boxFields,
  ...terminalFields,
});

export const junction = z.looseObject({
  ...common,
  kind: z.literal('junction'),
  capacitor: yesNo.optional(),
  ...boxFields,
  ...terminalFields,
});

export const contactor = z.looseObject({
  ...common,
  kind: z.literal('contactor'),
  role: z.enum(['line', 'output', 'bypass']).optional(),
  state: z.enum(['closed', 'open']).optional(),
  ratedCurrent_A: positive.optional(),
  interlock: z.enum(['mechanical', 'electrical', 'both', 'none']).optional(),
  /** The drive's output is blocked before it opens. */
  opensAtZeroCurrent: yesNo.optional(),
  ...boxFields,
  ...terminalFields,
});

const winding = z.enum(['mg1-part-30', 'mg1-part-31', 'ivic-a', 'ivic-b', 'ivic-c', 'ivic-d', 'entered', 'curve']);

export const motor = z.looseObject({
  ...common,
  kind: z.literal('motor'),
  ratedPower_W: positive.optional(),
  ratedVoltage_V: positive.optional(),
  ratedFrequency_Hz: positive.optional(),
  /** Nameplate. The code's table current is looked up from power and voltage. */
  ratedCurrent_A: positive.optional(),
  powerFactor: fraction.optional(),
  efficiency_pct: percentOfWhole.optional(),
  serviceFactor: positive.optional(),
  /** What the winding is built for. */
  insulation: winding.optional(),
  /** Peak line-to-line voltage the maker allows, with insulation 'entered'. */
  peakLimit_V: positive.optional(),
  riseLimit_s: positive.optional(),
  /** With insulation 'curve': peak allowed at a rise time, from the maker or from the standard's own edition. */
  peakCurve: z
    .array(z.looseObject({ rise_s: positive.lt(1), peak_V: positive }))
    .max(50)
    .optional(),
  peakCurveSource: text.optional(),
  /** Line to line, for fast edges. */
  surgeImpedance_ohm: z.number().min(10).max(100_000).optional(),
  /** All windings together to the frame. */
  windingCapacitance_F: positive.lt(1e-3).optional(),
  overload: z.enum(['own', 'drive', 'none']).optional(),
  /** A short-circuit device of its own. */
  ownShortCircuitDevice: yesNo.optional(),
  /** Switched on or off by itself while its drive runs other motors. */
  switchedAlone: yesNo.optional(),
  /** Power-factor capacitor or surge arrester at its terminals. */
  capacitor: yesNo.optional(),
  bearingProtection: z.enum(['none', 'insulated-bearing', 'shaft-ring', 'both', 'common-mode-cores']).optional(),
  brake: z.looseObject({ fedFrom: z.enum(['own-supply', 'drive-output']).optional(), holdsLoad: yesNo.optional() }).optional(),
  ambient_C: celsius.optional(),
  /** As its plate was found on site, each value at the path it has in the design. Missing means not recorded. */
  asBuilt: z
    .looseObject({
      ratedPower_W: positive.optional(),
      ratedVoltage_V: positive.optional(),
      ratedFrequency_Hz: positive.optional(),
      ratedCurrent_A: positive.optional(),
      insulation: winding.optional(),
      peakLimit_V: positive.optional(),
    })
    .optional(),
  ...boxFields,
  ...terminalFields,
});

export const element = z.discriminatedUnion('kind', [
  supply,
  transformer,
  bus,
  disconnect,
  reactor,
  filter,
  drive,
  junction,
  contactor,
  motor,
]);
export type Element = z.infer<typeof element>;
export type ElementKind = Element['kind'];
export type ElementOf<K extends ElementKind> = Extract<Element, { kind: K }>;

export const ELEMENT_KINDS: readonly ElementKind[] = [
  'supply',
  'transformer',
  'bus',
  'disconnect',
  'reactor',
  'filter',
  'drive',
  'junction',
  'contactor',
  'motor',
];

/** The sides a cable may be landed on. A bus and a junction are one node: both their sides are joined. */
export type Port = 'line' | 'load';
export const PORTS: Readonly<Record<ElementKind, readonly Port[]>> = {
  supply: ['load'],
  transformer: ['line', 'load'],
  bus: ['line', 'load'],
  disconnect: ['line', 'load'],
  reactor: ['line', 'load'],
  filter: ['line', 'load'],
  drive: ['line', 'load'],
  junction: ['line', 'load'],
  contactor: ['line', 'load'],
  motor: ['line'],
};
