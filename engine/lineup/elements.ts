import {
  below,
  boxFields,
  celsius,
  finite,
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
  tag: text.check(z.minLength(1)),
  note: z.optional(text),
  enclosure: z.optional(text),
  provenance: z.optional(provenance),
};

export const supply = z.looseObject({
  ...common,
  kind: z.literal('supply'),
  /** Line to line, r.m.s. */
  voltage_V: z.optional(positive),
  frequency_Hz: z.optional(positive),
  /** Three-phase symmetrical available fault current at the terminals. */
  faultCurrent_A: z.optional(positive),
  xOverR: z.optional(notNegative),
  earthing: z.optional(earthing),
  /** Lowest and highest line voltage that is promised, of nominal. */
  voltageLeast_pct: z.optional(percent),
  voltageMost_pct: z.optional(percent),
  /** Greatest deviation from the mean of the three line voltages, of the mean. */
  unbalance_pct: z.optional(percent),
  /** Maximum demand current of the whole installation at the point of common coupling (IEEE 519's IL). */
  demandCurrent_A: z.optional(positive),
});

export const transformer = z.looseObject({
  ...common,
  kind: z.literal('transformer'),
  ratedPower_VA: z.optional(positive),
  primaryVoltage_V: z.optional(positive),
  secondaryVoltage_V: z.optional(positive),
  impedance_pct: z.optional(percent),
  xOverR: z.optional(notNegative),
  tap_pct: z.optional(z.number().check(z.gte(-50), z.lte(50))),
  connection: z.optional(text),
  secondaryEarthing: z.optional(earthing),
  /** Its maker allows it behind a drive with a sine filter, at low speed too, in writing. */
  driveDuty: z.optional(yesNo),
  ...boxFields,
  ...terminalFields,
});

export const bus = z.looseObject({
  ...common,
  kind: z.literal('bus'),
  ratedCurrent_A: z.optional(positive),
  faultRating_A: z.optional(positive),
  capacitor: z.optional(yesNo),
  /** Joins the shields of the cables that are landed at it: a bus has no box of its own. */
  bondBar: z.optional(yesNo),
  ...terminalFields,
});

export const disconnect = z.looseObject({
  ...common,
  kind: z.literal('disconnect'),
  device: z.optional(z.enum(['switch', 'breaker', 'fuse', 'fused-switch'])),
  state: z.optional(z.enum(['closed', 'open'])),
  ratedCurrent_A: z.optional(positive),
  /** Rating or setting of the overcurrent device. */
  tripCurrent_A: z.optional(positive),
  faultRating_A: z.optional(positive),
  earlyBreakContact: z.optional(z.enum(['wired', 'absent'])),
  lockable: z.optional(yesNo),
  withinSight: z.optional(yesNo),
  residualCurrentType: z.optional(z.enum(['none', 'AC', 'A', 'F', 'B'])),
  residualCurrent_A: z.optional(positive),
  ...boxFields,
  ...terminalFields,
});

export const reactor = z.looseObject({
  ...common,
  kind: z.literal('reactor'),
  /** Of its own base: rated voltage and current. */
  impedance_pct: z.optional(percent),
  ratedCurrent_A: z.optional(positive),
  ratedVoltage_V: z.optional(positive),
  resistance_ohm: z.optional(notNegative),
  /** Core loss at the frequency of the ring, as a resistance across it, line to line. */
  coreLoss_ohm: z.optional(positive),
  ...boxFields,
  ...terminalFields,
});

export const filter = z.looseObject({
  ...common,
  kind: z.literal('filter'),
  role: z.optional(z.enum(['emc-input', 'dvdt', 'sine', 'terminator'])),
  /** Fundamental drop at rated current, of rated voltage. */
  drop_pct: z.optional(percent),
  ratedCurrent_A: z.optional(positive),
  ratedVoltage_V: z.optional(positive),
  carrierLeast_Hz: z.optional(positive),
  carrierMost_Hz: z.optional(positive),
  /** The maker's figures for the terminals of the motor with this filter and cable. */
  motorPeak_V: z.optional(positive),
  motorRise_s: z.optional(positive),
  /** Its parts, of one phase: coil, damping across the coil, capacitor to the star point and the resistance in series with it. */
  inductance_H: z.optional(below(1)),
  acrossInductor_ohm: z.optional(positive),
  capacitance_F: z.optional(below(1)),
  resistance_ohm: z.optional(positive),
  ...boxFields,
  ...terminalFields,
});

export const drive = z.looseObject({
  ...common,
  kind: z.literal('drive'),
  ratedPower_W: z.optional(positive),
  ratedVoltage_V: z.optional(positive),
  inputCurrent_A: z.optional(positive),
  outputCurrent_A: z.optional(positive),
  overload_pct: z.optional(percent),
  /** True power factor of the input, harmonics included. */
  inputPowerFactor: z.optional(fraction),
  frontEnd: z.optional(z.enum(['diode', 'active'])),
  /** Largest fundamental output voltage, of the input voltage. */
  outputRatio_pct: z.optional(percent),
  carrier_Hz: z.optional(positive),
  /** 10 to 90 % rise time at the drive's terminals. */
  riseTime_s: z.optional(below(1)),
  /** D.c. bus level while a braking chopper works. */
  brakingBus_V: z.optional(positive),
  /** How far an active front end holds the bus above the crest of the line. */
  busRaise_pct: z.optional(percent),
  /** Least time between two edges of one leg that its control keeps. */
  pulseLeast_s: z.optional(below(1)),
  dcChoke: z.optional(z.enum(['none', 'fitted'])),
  dcChoke_pct: z.optional(percent),
  builtInFilter: z.optional(yesNo),
  /** Filter and varistor jumpers as the drive stands. */
  filterJumpers: z.optional(z.enum(['in', 'out'])),
  faultRating_A: z.optional(positive),
  faultRatingDevice: z.optional(text),
  /** The device drawn ahead of it is the one its fault rating is marked with. */
  faultRatingDeviceDrawn: z.optional(yesNo),
  control: z.optional(z.enum(['scalar', 'vector'])),
  /** Of one drive at rated voltage, as its maker states. */
  leakageCurrent_A: z.optional(finite.check(z.gte(0), z.lt(100))),
  /** Limits copied from the drive's own manual. */
  manual: z.optional(
    z.looseObject({
      page: z.optional(text),
      allowedEarthing: z.optional(z.array(earthing)),
      shieldRequired: z.optional(yesNo),
      lengthShielded_m: z.optional(positive),
      lengthUnshielded_m: z.optional(positive),
      lengthWithReactor_m: z.optional(positive),
      emcLengths: z.optional(
        z.array(z.looseObject({ category: z.enum(['C1', 'C2', 'C3', 'C4']), carrier_Hz: z.optional(positive), length_m: positive })),
      ),
      inputVoltageLeast_pct: z.optional(percent),
      inputShieldRequired: z.optional(yesNo),
      reactorRequired: z.optional(yesNo),
      /** Marked as suitable for protecting its output conductors, which then must carry at least this. */
      protectsOutputConductors: z.optional(yesNo),
      outputAmpacityLeast_A: z.optional(positive),
    }),
  ),
  ...boxFields,
  ...terminalFields,
});

export const junction = z.looseObject({
  ...common,
  kind: z.literal('junction'),
  capacitor: z.optional(yesNo),
  ...boxFields,
  ...terminalFields,
});

export const contactor = z.looseObject({
  ...common,
  kind: z.literal('contactor'),
  role: z.optional(z.enum(['line', 'output', 'bypass'])),
  state: z.optional(z.enum(['closed', 'open'])),
  ratedCurrent_A: z.optional(positive),
  interlock: z.optional(z.enum(['mechanical', 'electrical', 'both', 'none'])),
  /** The drive's output is blocked before it opens. */
  opensAtZeroCurrent: z.optional(yesNo),
  ...boxFields,
  ...terminalFields,
});

const winding = z.enum(['mg1-part-30', 'mg1-part-31', 'ivic-a', 'ivic-b', 'ivic-c', 'ivic-d', 'entered', 'curve']);

export const motor = z.looseObject({
  ...common,
  kind: z.literal('motor'),
  ratedPower_W: z.optional(positive),
  ratedVoltage_V: z.optional(positive),
  ratedFrequency_Hz: z.optional(positive),
  /** Nameplate. The code's table current is looked up from power and voltage. */
  ratedCurrent_A: z.optional(positive),
  powerFactor: z.optional(fraction),
  efficiency_pct: z.optional(percentOfWhole),
  serviceFactor: z.optional(positive),
  /** What the winding is built for. */
  insulation: z.optional(winding),
  /** Peak line-to-line voltage the maker allows, with insulation 'entered'. */
  peakLimit_V: z.optional(positive),
  riseLimit_s: z.optional(positive),
  /** With insulation 'curve': peak allowed at a rise time, from the maker or from the standard's own edition. */
  peakCurve: z.optional(z.array(z.looseObject({ rise_s: below(1), peak_V: positive })).check(z.maxLength(50))),
  peakCurveSource: z.optional(text),
  /** Line to line, for fast edges. */
  surgeImpedance_ohm: z.optional(z.number().check(z.gte(10), z.lte(100_000))),
  /** All windings together to the frame. */
  windingCapacitance_F: z.optional(below(1e-3)),
  overload: z.optional(z.enum(['own', 'drive', 'none'])),
  /** A short-circuit device of its own. */
  ownShortCircuitDevice: z.optional(yesNo),
  /** Switched on or off by itself while its drive runs other motors. */
  switchedAlone: z.optional(yesNo),
  /** Power-factor capacitor or surge arrester at its terminals. */
  capacitor: z.optional(yesNo),
  bearingProtection: z.optional(z.enum(['none', 'insulated-bearing', 'shaft-ring', 'both', 'common-mode-cores'])),
  brake: z.optional(z.looseObject({ fedFrom: z.optional(z.enum(['own-supply', 'drive-output'])), holdsLoad: z.optional(yesNo) })),
  ambient_C: z.optional(celsius),
  /** As its plate was found on site, each value at the path it has in the design. Missing means not recorded. */
  asBuilt: z.optional(
    z.looseObject({
      ratedPower_W: z.optional(positive),
      ratedVoltage_V: z.optional(positive),
      ratedFrequency_Hz: z.optional(positive),
      ratedCurrent_A: z.optional(positive),
      insulation: z.optional(winding),
      peakLimit_V: z.optional(positive),
    }),
  ),
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
