import {
  celsius,
  id,
  lineCapacitance,
  lineImpedance,
  notNegative,
  percent,
  percentOfWhole,
  positive,
  provenance,
  text,
  waveVelocity,
  yesNo,
} from './quantity.ts';
import { z } from './zod.ts';

/** A cable, or a link (a connection inside one enclosure, without length). */

export const insulationType = z.enum([
  'THHN',
  'THWN',
  'THWN-2',
  'TW',
  'THW',
  'THW-2',
  'XHHW',
  'XHHW-2',
  'RHH',
  'RHW',
  'RHW-2',
  'MTW',
  'PVC',
  'XLPE',
  'EPR',
  'HEPR',
]);
export type InsulationType = z.infer<typeof insulationType>;

export const construction = z.enum([
  'singles', // single conductors, in a raceway or a tray
  'multicore', // unshielded
  'foil-and-braid',
  'copper-tape',
  'corrugated-armour', // continuous corrugated metal sheath
  'interlocked-armour',
]);
export type Construction = z.infer<typeof construction>;

export const landing = z.enum(['full', 'clamp', 'pigtail', 'none']);
export type Landing = z.infer<typeof landing>;

const size = z
  .string()
  .regex(/^(\d+(\/0)? AWG|\d+ kcmil|\d+(\.\d+)? mm2)$/, "a size reads like '2 AWG', '1/0 AWG', '500 kcmil' or '16 mm2'");

/** How the shield (or, without one, the metal raceway) is landed at this end. Missing means not known. */
export const cableEnd = z.looseObject({
  /** The element it lands on. Missing: the cable leads nowhere yet. */
  element: id.optional(),
  port: z.enum(['line', 'load']).optional(),
  landing: landing.optional(),
  pigtailLength_mm: positive.optional(),
  pigtailWidth_mm: positive.optional(),
  /** Of the grounding conductors, how many are landed or spliced through here. */
  groundsLanded: notNegative.optional(),
  /** Diameters the gland takes. */
  glandLeast_mm: positive.optional(),
  glandMost_mm: positive.optional(),
});
export type CableEnd = z.infer<typeof cableEnd>;

export const raceway = z.enum([
  'none',
  'steel-conduit',
  'aluminium-conduit',
  'plastic-conduit',
  'flexible-metal',
  'tray',
  'ladder',
  'buried-duct',
  'direct-buried',
]);

const method = z.enum(['B1', 'B2', 'C', 'D1', 'D2', 'E', 'F']);
const moisture = z.enum(['dry', 'damp', 'wet']);

const landed = z.looseObject({
  landing: landing.optional(),
  pigtailLength_mm: positive.optional(),
  pigtailWidth_mm: positive.optional(),
});

/** As found on site, each value at the path it has in the design. Missing means not recorded. */
const asBuilt = z.looseObject({
  length_m: notNegative.optional(),
  conductor: z.looseObject({ size: size.optional() }).optional(),
  insulation: z.looseObject({ type: insulationType.optional() }).optional(),
  from: landed.optional(),
  to: landed.optional(),
  installation: z
    .looseObject({
      raceway: raceway.optional(),
      method: method.optional(),
      ambient_C: celsius.optional(),
      loadedConductors: z.int().min(1).max(500).optional(),
      groupedCircuits: z.int().min(1).max(500).optional(),
      moisture: moisture.optional(),
    })
    .optional(),
});

export const cable = z.looseObject({
  id,
  tag: text.min(1),
  kind: z.enum(['cable', 'link']),
  from: cableEnd,
  to: cableEnd,
  note: text.optional(),
  provenance: provenance.optional(),
  conductor: z.looseObject({
    /** Trade size: '2 AWG', '1/0 AWG', '500 kcmil', '16 mm2'. */
    size: size.optional(),
    metal: z.enum(['copper', 'aluminium']).optional(),
    sets: z.int().min(1).max(50).optional(),
    build: z.enum(['solid', 'stranded', 'flexible']).optional(),
  }),
  insulation: z.looseObject({
    type: insulationType.optional(),
    voltage_V: positive.optional(),
    /** Nominal wall of one conductor. Entered, it overrides the published table of the type. */
    wall_mm: positive.optional(),
    /** Thinnest over nominal wall. */
    concentricity_pct: percentOfWhole.optional(),
    temperature_C: celsius.optional(),
    wetRated: yesNo.optional(),
    /** Coldest it may be laid or moved at. */
    temperatureLeast_C: celsius.optional(),
    sunlightRated: yesNo.optional(),
  }),
  construction: construction.optional(),
  shieldCoverage_pct: percent.optional(),
  /** Copper-equivalent cross-section of the shield. */
  shieldArea_mm2: positive.optional(),
  /** Each phase has a shield of its own. */
  phasesScreened: yesNo.optional(),
  outerDiameter_mm: positive.optional(),
  /** With sets in parallel: every set holds all phases and a ground of full size, and all are of one length, metal, size and make. */
  setsAlike: yesNo.optional(),
  setsHoldAllPhases: yesNo.optional(),
  grounds: z.looseObject({
    count: z.int().min(0).max(50).optional(),
    size: text.optional(),
    metal: z.enum(['copper', 'aluminium']).optional(),
    arrangement: z.enum(['symmetrical', 'single', 'concentric']).optional(),
  }),
  /** Cores for other uses in the same cable or raceway. An empty list means there are none. */
  auxiliary: z.array(
    z.looseObject({
      use: z.enum(['brake', 'thermistor', 'encoder', 'control']),
      screened: yesNo.optional(),
      screenLanded: z.enum(['both', 'one', 'none']).optional(),
      insulation_V: positive.optional(),
    }),
  ),
  /** From the maker's data sheet, of one set; each overrides what is worked out from the dimensions. */
  wave: z
    .looseObject({
      /** Line to line. */
      impedance_ohm: lineImpedance.optional(),
      velocity_mPerS: waveVelocity.optional(),
      /** One core to the shield or pipe, and between any two cores. */
      toShield_FPerM: lineCapacitance.optional(),
      betweenCores_FPerM: lineCapacitance.optional(),
    })
    .optional(),
  /** One way. With lengthMost_m it is the least of a range. */
  length_m: notNegative.optional(),
  lengthMost_m: notNegative.optional(),
  lengthOrigin: z.enum(['drawn', 'estimated', 'measured']).optional(),
  installation: z.looseObject({
    raceway: raceway.optional(),
    racewaySize: text.optional(),
    /** IEC 60364-5-52 reference method. */
    method: method.optional(),
    ambient_C: celsius.optional(),
    ambientLeast_C: celsius.optional(),
    /** Current-carrying conductors in the same raceway or bundle, this circuit's own included. */
    loadedConductors: z.int().min(1).max(500).optional(),
    /** Circuits grouped together, this one included (IEC). */
    groupedCircuits: z.int().min(1).max(500).optional(),
    moisture: moisture.optional(),
    sunlight: yesNo.optional(),
    existing: yesNo.optional(),
    /** Of an existing cable: identified, and its insulation tested with both ends lifted. */
    tested: yesNo.optional(),
    flexing: yesNo.optional(),
    /** Thermal resistivity of the soil (IEC methods D1, D2). */
    soil_KmPerW: positive.lt(100).optional(),
    /** Spare conductors in it. */
    spares: z.enum(['none', 'grounded-both-ends', 'left-open']).optional(),
    /** A metal divider stands between it and its neighbours. */
    divider: yesNo.optional(),
    /** Ids of other cables in the same raceway. Empty: it lies alone. */
    sharedWith: z.array(id).max(1000).optional(),
    toControl_mm: notNegative.optional(),
    toPower_mm: notNegative.optional(),
    parallel_m: notNegative.optional(),
  }),
  asBuilt: asBuilt.optional(),
});
export type Cable = z.infer<typeof cable>;
