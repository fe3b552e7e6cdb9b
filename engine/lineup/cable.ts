import {
  below,
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
  .check(z.regex(/^(\d+(\/0)? AWG|\d+ kcmil|\d+(\.\d+)? mm2)$/, "a size reads like '2 AWG', '1/0 AWG', '500 kcmil' or '16 mm2'"));

/** How the shield (or, without one, the metal raceway) is landed at this end. Missing means not known. */
export const cableEnd = z.looseObject({
  /** The element it lands on. Missing: the cable leads nowhere yet. */
  element: z.optional(id),
  port: z.optional(z.enum(['line', 'load'])),
  landing: z.optional(landing),
  pigtailLength_mm: z.optional(positive),
  pigtailWidth_mm: z.optional(positive),
  /** Of the grounding conductors, how many are landed or spliced through here. */
  groundsLanded: z.optional(notNegative),
  /** Diameters the gland takes. */
  glandLeast_mm: z.optional(positive),
  glandMost_mm: z.optional(positive),
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
  landing: z.optional(landing),
  pigtailLength_mm: z.optional(positive),
  pigtailWidth_mm: z.optional(positive),
});

/** As found on site, each value at the path it has in the design. Missing means not recorded. */
const asBuilt = z.looseObject({
  length_m: z.optional(notNegative),
  conductor: z.optional(z.looseObject({ size: z.optional(size) })),
  insulation: z.optional(z.looseObject({ type: z.optional(insulationType) })),
  from: z.optional(landed),
  to: z.optional(landed),
  installation: z.optional(
    z.looseObject({
      raceway: z.optional(raceway),
      method: z.optional(method),
      ambient_C: z.optional(celsius),
      loadedConductors: z.optional(z.int().check(z.gte(1), z.lte(500))),
      groupedCircuits: z.optional(z.int().check(z.gte(1), z.lte(500))),
      moisture: z.optional(moisture),
    }),
  ),
});

export const cable = z.looseObject({
  id,
  tag: text.check(z.minLength(1)),
  kind: z.enum(['cable', 'link']),
  from: cableEnd,
  to: cableEnd,
  note: z.optional(text),
  provenance: z.optional(provenance),
  conductor: z.looseObject({
    /** Trade size: '2 AWG', '1/0 AWG', '500 kcmil', '16 mm2'. */
    size: z.optional(size),
    metal: z.optional(z.enum(['copper', 'aluminium'])),
    sets: z.optional(z.int().check(z.gte(1), z.lte(50))),
    build: z.optional(z.enum(['solid', 'stranded', 'flexible'])),
  }),
  insulation: z.looseObject({
    type: z.optional(insulationType),
    voltage_V: z.optional(positive),
    /** Nominal wall of one conductor. Entered, it overrides the published table of the type. */
    wall_mm: z.optional(positive),
    /** Thinnest over nominal wall. */
    concentricity_pct: z.optional(percentOfWhole),
    temperature_C: z.optional(celsius),
    wetRated: z.optional(yesNo),
    /** Coldest it may be laid or moved at. */
    temperatureLeast_C: z.optional(celsius),
    sunlightRated: z.optional(yesNo),
  }),
  construction: z.optional(construction),
  shieldCoverage_pct: z.optional(percent),
  /** Copper-equivalent cross-section of the shield. */
  shieldArea_mm2: z.optional(positive),
  /** Each phase has a shield of its own. */
  phasesScreened: z.optional(yesNo),
  outerDiameter_mm: z.optional(positive),
  /** With sets in parallel: every set holds all phases and a ground of full size, and all are of one length, metal, size and make. */
  setsAlike: z.optional(yesNo),
  setsHoldAllPhases: z.optional(yesNo),
  grounds: z.looseObject({
    count: z.optional(z.int().check(z.gte(0), z.lte(50))),
    size: z.optional(text),
    metal: z.optional(z.enum(['copper', 'aluminium'])),
    arrangement: z.optional(z.enum(['symmetrical', 'single', 'concentric'])),
  }),
  /** Cores for other uses in the same cable or raceway. An empty list means there are none. */
  auxiliary: z.array(
    z.looseObject({
      use: z.enum(['brake', 'thermistor', 'encoder', 'control']),
      screened: z.optional(yesNo),
      screenLanded: z.optional(z.enum(['both', 'one', 'none'])),
      insulation_V: z.optional(positive),
    }),
  ),
  /** From the maker's data sheet, of one set; each overrides what is worked out from the dimensions. */
  wave: z.optional(
    z.looseObject({
      /** Line to line. */
      impedance_ohm: z.optional(lineImpedance),
      velocity_mPerS: z.optional(waveVelocity),
      /** One core to the shield or pipe, and between any two cores. */
      toShield_FPerM: z.optional(lineCapacitance),
      betweenCores_FPerM: z.optional(lineCapacitance),
    }),
  ),
  /** One way. With lengthMost_m it is the least of a range. */
  length_m: z.optional(notNegative),
  lengthMost_m: z.optional(notNegative),
  lengthOrigin: z.optional(z.enum(['drawn', 'estimated', 'measured'])),
  installation: z.looseObject({
    raceway: z.optional(raceway),
    racewaySize: z.optional(text),
    /** IEC 60364-5-52 reference method. */
    method: z.optional(method),
    ambient_C: z.optional(celsius),
    ambientLeast_C: z.optional(celsius),
    /** Current-carrying conductors in the same raceway or bundle, this circuit's own included. */
    loadedConductors: z.optional(z.int().check(z.gte(1), z.lte(500))),
    /** Circuits grouped together, this one included (IEC). */
    groupedCircuits: z.optional(z.int().check(z.gte(1), z.lte(500))),
    moisture: z.optional(moisture),
    sunlight: z.optional(yesNo),
    existing: z.optional(yesNo),
    /** Of an existing cable: identified, and its insulation tested with both ends lifted. */
    tested: z.optional(yesNo),
    flexing: z.optional(yesNo),
    /** Thermal resistivity of the soil (IEC methods D1, D2). */
    soil_KmPerW: z.optional(below(100)),
    /** Spare conductors in it. */
    spares: z.optional(z.enum(['none', 'grounded-both-ends', 'left-open'])),
    /** A metal divider stands between it and its neighbours. */
    divider: z.optional(yesNo),
    /** Ids of other cables in the same raceway: whoever is reached from name to name lies in it (raceways.ts). Empty: it lies alone. */
    sharedWith: z.optional(z.array(id).check(z.maxLength(1000))),
    toControl_mm: z.optional(notNegative),
    toPower_mm: z.optional(notNegative),
    parallel_m: z.optional(notNegative),
  }),
  asBuilt: z.optional(asBuilt),
});
export type Cable = z.infer<typeof cable>;
