import type { ElementKind } from './elements.ts';
import type { Quantity } from './units.ts';

/** Every value of a part that a person may know: its name, what it is measured in, and who usually knows it. */

export interface Field {
  /** Dotted path inside the part: 'conductor.size'. */
  readonly path: string;
  readonly label: string;
  /** What sentences call it, where that is not 'label of TAG'. */
  readonly named?: string | undefined;
  readonly kind: 'quantity' | 'choice' | 'yesno' | 'text' | 'count';
  readonly quantity?: Quantity;
  readonly choices?: readonly string[];
  readonly help: string;
  readonly ask: string;
}

const DRIVE = 'drive supplier';
const MOTOR = 'motor supplier';
const UTILITY = 'utility or the owner’s engineer';
const INSTALLER = 'installer';
const SPECIFICATION = 'specification';
const SUPPLIER = 'supplier of the part';
const CABLE = 'cable supplier';

/** A label within a sentence. */
export const inSentence = (label: string): string => (/^[A-Z][a-z.-]/.test(label) ? label.charAt(0).toLowerCase() + label.slice(1) : label);

/** @param text the label, with a bar where sentences name its part; a bar ahead of it: whether the part is so; after a =: what they say in its place */
const field = (path: string, text: string, more: Pick<Field, 'kind' | 'ask' | 'help'> & Partial<Field>): Field => {
  const [marked = '', own] = text.split('=');
  const label = marked.replace('|', '');
  const named = own ?? (marked.startsWith('|') ? `Whether | is ${inSentence(label)}` : marked.replace('|', ' of |'));
  return { path, label, ...(named !== label && { named }), ...more };
};
const of = (path: string, label: string, quantity: Quantity, ask: string, help = ''): Field =>
  field(path, label, { kind: 'quantity', quantity, help, ask });
const choice = (path: string, label: string, choices: readonly string[], ask: string, help = ''): Field =>
  field(path, label, { kind: 'choice', choices, help, ask });
const yesNo = (path: string, label: string, ask: string, help = ''): Field => field(path, label, { kind: 'yesno', help, ask });
const words = (path: string, label: string, ask: string, help = ''): Field => field(path, label, { kind: 'text', help, ask });
const count = (path: string, label: string, ask: string, help = ''): Field => field(path, label, { kind: 'count', help, ask });

/** The value of a part by a name that reads well: 'Length of W-1, one way', 'Whether DS-1 is lockable open'. */
export const namedOf = ({ label, named }: Pick<Field, 'label' | 'named'>, tag: string): string =>
  named?.replace('|', () => tag) ?? label.replace(/, (start|end)$|(?=,|$)/, (_, side) => `${side ? ` at the ${side}` : ''} of ${tag}`);

const EARTHING = ['solid-wye', 'tn', 'tt', 'corner-grounded', 'midpoint-grounded', 'resistance-grounded', 'ungrounded'];
const common = [words('note', 'Note', INSTALLER), words('enclosure', 'Enclosure', SPECIFICATION, 'Name of the panel it stands in')];
const box = [
  choice('box', 'Box=What the box of | is made of', ['metal', 'plastic'], INSTALLER, 'What the enclosure is made of'),
  yesNo(
    'bondBar',
    'Bond bar=Whether the box of | has a bond bar',
    INSTALLER,
    'A bar or plate with clamps that joins the shields inside the box',
  ),
];
const terminals = [
  choice('terminalMetal', 'Terminals marked for=What the terminals of | are marked for', ['copper-only', 'copper-aluminium'], SUPPLIER),
  of('terminalTemperature_C', 'Terminal temperature', 'temperature', SUPPLIER, 'As marked: 60, 75 or 90 °C'),
  of('terminalSmallest', 'Smallest conductor=Smallest conductor that the terminals of | take', 'size', SUPPLIER),
  of('terminalLargest', 'Largest conductor=Largest conductor that the terminals of | take', 'size', SUPPLIER),
  count('terminalsPerPhase', 'Terminals per phase', SUPPLIER),
];

const DESIGNED: Readonly<Record<ElementKind | 'cable', readonly Field[]>> = {
  supply: [
    of('voltage_V', 'Voltage, line to line', 'voltage', UTILITY),
    of('frequency_Hz', 'Frequency', 'frequency', UTILITY),
    of('faultCurrent_A', 'Fault current', 'current', UTILITY, 'Three-phase, at the terminals'),
    of('xOverR', 'X/R', 'number', UTILITY),
    choice('earthing', 'System grounding', EARTHING, UTILITY),
    of('voltageLeast_pct', 'Lowest line voltage', 'percent', UTILITY, 'Of nominal, as promised'),
    of('voltageMost_pct', 'Highest line voltage', 'percent', UTILITY, 'Of nominal, as promised'),
    of('unbalance_pct', 'Voltage unbalance', 'percent', UTILITY, 'Greatest deviation from the mean, of the mean'),
    of(
      'demandCurrent_A',
      'Demand of the installation=Demand of the installation at |',
      'current',
      UTILITY,
      'Largest demand current where others are supplied too',
    ),
    ...common,
  ],
  transformer: [
    of('ratedPower_VA', 'Rated power', 'apparentPower', UTILITY),
    of('primaryVoltage_V', 'Primary voltage', 'voltage', UTILITY),
    of('secondaryVoltage_V', 'Secondary voltage', 'voltage', UTILITY),
    of('impedance_pct', 'Impedance', 'percent', UTILITY),
    of('xOverR', 'X/R', 'number', UTILITY),
    of('tap_pct', 'Tap', 'percent', UTILITY),
    words('connection', 'Connection', UTILITY),
    choice('secondaryEarthing', 'Secondary grounding', EARTHING, UTILITY),
    yesNo('driveDuty', '|Allowed behind a drive', SUPPLIER, 'In writing, with a sine filter, low speed and boost included'),
    ...box,
    ...terminals,
    ...common,
  ],
  bus: [
    of('ratedCurrent_A', 'Rated current', 'current', SUPPLIER),
    of('faultRating_A', 'Fault rating', 'current', SUPPLIER),
    yesNo('capacitor', 'Capacitor or arrester on it=Whether a capacitor or arrester is on |', SPECIFICATION),
    yesNo('bondBar', 'Bond bar=Whether | has a bond bar', INSTALLER, 'A bar or plate with clamps that joins the shields landed at it'),
    ...terminals,
    ...common,
  ],
  disconnect: [
    choice('device', 'Device=Which device | is', ['switch', 'breaker', 'fuse', 'fused-switch'], SPECIFICATION),
    choice('state', 'State', ['closed', 'open'], SPECIFICATION),
    ...box,
    choice('earlyBreakContact', 'Early-break contact', ['wired', 'absent'], INSTALLER, 'Stops the drive before the switch opens'),
    of('ratedCurrent_A', 'Rated current', 'current', SUPPLIER),
    of('tripCurrent_A', 'Trip rating', 'current', SPECIFICATION),
    of('faultRating_A', 'Fault rating', 'current', SUPPLIER),
    yesNo('lockable', '|Lockable open', SUPPLIER),
    yesNo('withinSight', '|Within sight', INSTALLER),
    choice('residualCurrentType', 'Residual-current type', ['none', 'AC', 'A', 'F', 'B'], SPECIFICATION),
    of('residualCurrent_A', 'Residual-current setting', 'current', SPECIFICATION),
    ...terminals,
    ...common,
  ],
  reactor: [
    of('impedance_pct', 'Impedance', 'percent', SUPPLIER),
    of('ratedCurrent_A', 'Rated current', 'current', SUPPLIER),
    of('ratedVoltage_V', 'Rated voltage', 'voltage', SUPPLIER),
    of('resistance_ohm', 'Resistance', 'resistance', SUPPLIER),
    of(
      'coreLoss_ohm',
      'Core loss, as resistance across=Core loss of |, as a resistance across it',
      'resistance',
      SUPPLIER,
      'At the frequency of the ring, line to line',
    ),
    ...box,
    ...terminals,
    ...common,
  ],
  filter: [
    choice('role', 'Kind', ['emc-input', 'dvdt', 'sine', 'terminator'], SPECIFICATION),
    of('drop_pct', 'Drop| at rated current', 'percent', SUPPLIER),
    of('ratedCurrent_A', 'Rated current', 'current', SUPPLIER),
    of('ratedVoltage_V', 'Rated voltage', 'voltage', SUPPLIER),
    of('carrierLeast_Hz', 'Least carrier', 'frequency', SUPPLIER),
    of('carrierMost_Hz', 'Most carrier=Greatest carrier of |', 'frequency', SUPPLIER),
    of('motorPeak_V', 'Peak at motor, maker=Peak at the motor that the maker of | states', 'voltage', SUPPLIER),
    of('motorRise_s', 'Rise time at motor, maker=Rise time at the motor that the maker of | states', 'time', SUPPLIER),
    of('inductance_H', 'Inductance, one phase', 'inductance', SUPPLIER),
    of('acrossInductor_ohm', 'Damping| across the coil', 'resistance', SUPPLIER, 'One phase'),
    of('capacitance_F', 'Capacitance, one phase', 'capacitance', SUPPLIER, 'To the star point; of a delta three times as much'),
    of(
      'resistance_ohm',
      'Resistance with it, one phase=Resistance with the capacitor of |, one phase',
      'resistance',
      SUPPLIER,
      'In series with the capacitor',
    ),
    ...box,
    ...terminals,
    ...common,
  ],
  drive: [
    of('ratedPower_W', 'Rated power', 'power', DRIVE),
    of('ratedVoltage_V', 'Rated voltage', 'voltage', DRIVE),
    of('inputCurrent_A', 'Rated input current', 'current', DRIVE),
    of('outputCurrent_A', 'Rated output current', 'current', DRIVE),
    of('overload_pct', 'Overload=How much overload | allows', 'percent', DRIVE),
    of('inputPowerFactor', 'Input power factor', 'number', DRIVE, 'True power factor, harmonics included'),
    choice('frontEnd', 'Front end', ['diode', 'active'], DRIVE),
    of('outputRatio_pct', 'Most output, of input voltage=Highest output voltage of |, of its input voltage', 'percent', DRIVE),
    of('carrier_Hz', 'Carrier', 'frequency', DRIVE),
    of('riseTime_s', 'Rise time, 10 to 90 %', 'time', DRIVE),
    of('brakingBus_V', 'Bus while braking=Bus voltage of | while braking', 'voltage', DRIVE),
    of(
      'busRaise_pct',
      'Bus raised by front end=How much the front end of | raises its bus',
      'percent',
      DRIVE,
      'Active front end: above the crest of the line',
    ),
    of(
      'pulseLeast_s',
      'Least time between edges=Least time between edges of |',
      'time',
      DRIVE,
      'That its control keeps between two edges of one leg',
    ),
    choice('dcChoke', 'D.c. choke', ['none', 'fitted'], DRIVE),
    of('dcChoke_pct', 'D.c. choke impedance', 'percent', DRIVE),
    yesNo('builtInFilter', 'Built-in EMC filter=Whether | has a built-in EMC filter', DRIVE),
    choice('filterJumpers', 'Filter jumpers', ['in', 'out'], INSTALLER),
    of('faultRating_A', 'Fault rating', 'current', DRIVE),
    words('faultRatingDevice', 'Fault rating holds with=Device that the fault rating of | holds with', DRIVE),
    yesNo(
      'faultRatingDeviceDrawn',
      'Device as marked=Whether the device ahead of | is as marked',
      SPECIFICATION,
      'The device drawn ahead is the one its fault rating is marked with',
    ),
    choice('control', 'Control', ['scalar', 'vector'], SPECIFICATION),
    of('leakageCurrent_A', 'Current to ground=Current from | to ground', 'current', DRIVE, 'Through its filter, at rated voltage'),
    words('manual.page', 'Manual, page=Page of the manual of |', DRIVE),
    yesNo('manual.shieldRequired', 'Manual asks for a shield=Whether the manual of | asks for a shield', DRIVE),
    of('manual.lengthShielded_m', 'Manual: shielded length=Shielded length in the manual of |', 'length', DRIVE),
    of('manual.lengthUnshielded_m', 'Manual: unshielded length=Unshielded length in the manual of |', 'length', DRIVE),
    of('manual.lengthWithReactor_m', 'Manual: length with reactor=Length with a reactor in the manual of |', 'length', DRIVE),
    of('manual.inputVoltageLeast_pct', 'Manual: least input voltage=Least input voltage in the manual of |', 'percent', DRIVE),
    yesNo('manual.inputShieldRequired', 'Manual asks for a shielded input=Whether the manual of | asks for a shielded input', DRIVE),
    yesNo('manual.reactorRequired', 'Manual asks for a reactor=Whether the manual of | asks for a reactor', DRIVE),
    yesNo('manual.protectsOutputConductors', '|Marked to protect its output wires', DRIVE),
    of(
      'manual.outputAmpacityLeast_A',
      'Manual: least ampacity of the output=Least ampacity of the output in the manual of |',
      'current',
      DRIVE,
    ),
    ...box,
    ...terminals,
    ...common,
  ],
  junction: [
    yesNo('capacitor', 'Capacitor or arrester in it=Whether a capacitor or arrester is in |', SPECIFICATION),
    ...box,
    ...terminals,
    ...common,
  ],
  contactor: [
    choice('role', 'Duty', ['line', 'output', 'bypass'], SPECIFICATION),
    choice('state', 'State', ['closed', 'open'], SPECIFICATION),
    of('ratedCurrent_A', 'Rated current', 'current', SUPPLIER),
    choice('interlock', 'Interlock', ['mechanical', 'electrical', 'both', 'none'], SPECIFICATION),
    yesNo(
      'opensAtZeroCurrent',
      'Opens at zero current only=Whether | opens at zero current only',
      SPECIFICATION,
      'The drive is blocked first',
    ),
    ...box,
    ...terminals,
    ...common,
  ],
  motor: [
    of('ratedPower_W', 'Rated power', 'power', MOTOR),
    of('ratedVoltage_V', 'Rated voltage', 'voltage', MOTOR),
    of('ratedFrequency_Hz', 'Rated frequency', 'frequency', MOTOR),
    of('ratedCurrent_A', 'Nameplate current', 'current', MOTOR),
    of('powerFactor', 'Power factor', 'number', MOTOR),
    of('efficiency_pct', 'Efficiency', 'percent', MOTOR),
    of('serviceFactor', 'Service factor', 'number', MOTOR),
    choice(
      'insulation',
      'Winding built to=What the winding of | is built to',
      ['mg1-part-30', 'mg1-part-31', 'ivic-a', 'ivic-b', 'ivic-c', 'ivic-d', 'entered', 'curve'],
      MOTOR,
    ),
    of('peakLimit_V', 'Peak allowed by maker=Peak that the maker of | allows', 'voltage', MOTOR),
    of('riseLimit_s', 'Least rise time allowed=Least rise time that the maker of | allows', 'time', MOTOR),
    words(
      'peakCurveSource',
      'Curve taken from=Where the curve of | is taken from',
      MOTOR,
      'Maker’s sheet, or standard with edition and figure',
    ),
    of('surgeImpedance_ohm', 'Surge impedance, line to line', 'resistance', MOTOR),
    of('windingCapacitance_F', 'Windings to frame=Capacitance of |, windings to frame', 'capacitance', MOTOR, 'All windings together'),
    choice('overload', 'Overload protection', ['own', 'drive', 'none'], SPECIFICATION),
    yesNo('ownShortCircuitDevice', 'Short-circuit device of its own=Whether | has a short-circuit device of its own', SPECIFICATION),
    yesNo('switchedAlone', '|Switched while others run', SPECIFICATION),
    yesNo('capacitor', 'Capacitor or arrester=Whether a capacitor or arrester is at |', SPECIFICATION),
    choice('bearingProtection', 'Bearing protection', ['none', 'insulated-bearing', 'shaft-ring', 'both', 'common-mode-cores'], MOTOR),
    choice('brake.fedFrom', 'Brake fed from=What the brake of | is fed from', ['own-supply', 'drive-output'], SPECIFICATION),
    yesNo('brake.holdsLoad', 'Brake holds a suspended load=Whether the brake of | holds a suspended load', SPECIFICATION),
    of('ambient_C', 'Ambient', 'temperature', INSTALLER),
    ...box,
    ...terminals,
    ...common,
  ],
  cable: [
    of('conductor.size', 'Conductor size', 'size', SPECIFICATION),
    choice('conductor.metal', 'Conductor metal', ['copper', 'aluminium'], SPECIFICATION),
    count('conductor.sets', 'Sets in parallel', SPECIFICATION),
    choice('conductor.build', 'Conductor build', ['solid', 'stranded', 'flexible'], CABLE),
    of('length_m', 'Length, one way', 'length', INSTALLER),
    of('lengthMost_m', 'Length, up to=Greatest length of |', 'length', INSTALLER, 'Makes the length a range'),
    choice('lengthOrigin', 'Length is=How the length of | is known', ['drawn', 'estimated', 'measured'], INSTALLER),
    choice(
      'construction',
      'Construction',
      ['singles', 'multicore', 'foil-and-braid', 'copper-tape', 'corrugated-armour', 'interlocked-armour'],
      CABLE,
    ),
    choice(
      'insulation.type',
      'Insulation type',
      ['THHN', 'THWN', 'THWN-2', 'TW', 'THW', 'THW-2', 'XHHW', 'XHHW-2', 'RHH', 'RHW', 'RHW-2', 'MTW', 'PVC', 'XLPE', 'EPR', 'HEPR'],
      CABLE,
    ),
    of('insulation.voltage_V', 'Insulation voltage', 'voltage', CABLE),
    of('insulation.wall_mm', 'Insulation wall', 'smallLength', CABLE, 'Nominal; overrides the table of the type'),
    of('insulation.concentricity_pct', 'Thinnest wall, of nominal', 'percent', CABLE),
    of('insulation.temperature_C', 'Insulation temperature', 'temperature', CABLE),
    yesNo('insulation.wetRated', '|Rated for wet places', CABLE),
    of('insulation.temperatureLeast_C', 'Coldest it may be laid at=Coldest that | may be laid at', 'temperature', CABLE),
    yesNo('insulation.sunlightRated', '|Rated for sunlight', CABLE),
    of('shieldCoverage_pct', 'Shield coverage', 'percent', CABLE),
    of('shieldArea_mm2', 'Shield cross-section', 'area', CABLE, 'Of copper, or its equivalent'),
    yesNo('phasesScreened', 'Each phase shielded by itself=Whether each phase of | is shielded by itself', CABLE),
    of('outerDiameter_mm', 'Outer diameter', 'distance', CABLE),
    of('wave.impedance_ohm', 'Surge impedance, line to line', 'resistance', CABLE, 'Two phases of one set, at high frequency'),
    of('wave.velocity_mPerS', 'Speed of the wave=Speed of the wave along |', 'velocity', CABLE),
    of('wave.toShield_FPerM', 'Capacitance, core to shield', 'lineCapacitance', CABLE),
    of(
      'wave.betweenCores_FPerM',
      'Capacitance, core to core',
      'lineCapacitance',
      CABLE,
      'Between two cores alone, not to the others and the shield',
    ),
    yesNo('setsAlike', 'Sets alike=Whether the sets of | are alike', INSTALLER, 'One length, metal, size, insulation and landing'),
    yesNo(
      'setsHoldAllPhases',
      'All phases in each set=Whether each set of | holds all phases',
      INSTALLER,
      'With a ground of full size in each raceway or cable',
    ),
    count('grounds.count', 'Grounding conductors=Number of grounding conductors in |', SPECIFICATION),
    of('grounds.size', 'Grounding conductor size', 'size', SPECIFICATION),
    choice('grounds.metal', 'Grounding conductor metal', ['copper', 'aluminium'], SPECIFICATION),
    choice('grounds.arrangement', 'Grounding arrangement', ['symmetrical', 'single', 'concentric'], CABLE),
    choice(
      'installation.raceway',
      'Laid in=What | is laid in',
      ['none', 'steel-conduit', 'aluminium-conduit', 'plastic-conduit', 'flexible-metal', 'tray', 'ladder', 'buried-duct', 'direct-buried'],
      INSTALLER,
    ),
    words('installation.racewaySize', 'Raceway size', INSTALLER),
    choice('installation.method', 'Reference method', ['B1', 'B2', 'C', 'D1', 'D2', 'E', 'F'], INSTALLER, 'IEC 60364-5-52'),
    of('installation.ambient_C', 'Hottest ambient', 'temperature', INSTALLER),
    of('installation.ambientLeast_C', 'Coldest ambient', 'temperature', INSTALLER),
    count('installation.loadedConductors', 'Loaded conductors together=Loaded conductors together with |', INSTALLER),
    count('installation.groupedCircuits', 'Circuits grouped together=Circuits grouped with |', INSTALLER),
    choice('installation.moisture', 'Around it=Whether it is dry, damp or wet around |', ['dry', 'damp', 'wet'], INSTALLER),
    yesNo('installation.sunlight', '|In sunlight', INSTALLER),
    yesNo('installation.existing', 'Existing cable=Whether | is there already', INSTALLER),
    yesNo('installation.tested', '|Identified and tested', INSTALLER, 'Insulation tested with both ends lifted'),
    yesNo('installation.flexing', 'Moves in use=Whether | moves in use', SPECIFICATION, 'Festoon, reel or drag chain'),
    of('installation.soil_KmPerW', 'Soil resistivity', 'soil', INSTALLER),
    choice(
      'installation.spares',
      'Spare conductors=How spare conductors in | are left',
      ['none', 'grounded-both-ends', 'left-open'],
      INSTALLER,
    ),
    yesNo('installation.divider', 'Metal divider beside it=Whether a metal divider stands beside |', INSTALLER),
    of('installation.toControl_mm', 'Distance| to control cables', 'distance', INSTALLER),
    of('installation.toPower_mm', 'Distance| to other power', 'distance', INSTALLER),
    of('installation.parallel_m', 'Side by side for=How far | lies side by side with others', 'length', INSTALLER),
    choice('from.landing', 'Shield landing, start', ['full', 'clamp', 'pigtail', 'none'], INSTALLER),
    of('from.pigtailLength_mm', 'Pigtail length, start', 'distance', INSTALLER),
    of('from.pigtailWidth_mm', 'Pigtail width, start', 'distance', INSTALLER),
    count('from.groundsLanded', 'Grounds landed, start', INSTALLER),
    of('from.glandLeast_mm', 'Gland takes from, start=Least diameter that the gland at the start of | takes', 'distance', INSTALLER),
    of('from.glandMost_mm', 'Gland takes to, start=Greatest diameter that the gland at the start of | takes', 'distance', INSTALLER),
    choice('to.landing', 'Shield landing, end', ['full', 'clamp', 'pigtail', 'none'], INSTALLER),
    of('to.pigtailLength_mm', 'Pigtail length, end', 'distance', INSTALLER),
    of('to.pigtailWidth_mm', 'Pigtail width, end', 'distance', INSTALLER),
    count('to.groundsLanded', 'Grounds landed, end', INSTALLER),
    of('to.glandLeast_mm', 'Gland takes from, end=Least diameter that the gland at the end of | takes', 'distance', INSTALLER),
    of('to.glandMost_mm', 'Gland takes to, end=Greatest diameter that the gland at the end of | takes', 'distance', INSTALLER),
    words('note', 'Note', INSTALLER),
  ],
};

/** Values that may be recorded on site too, under 'asBuilt.' and the path that they have in the design; of these are always asked the first few. */
export const AS_BUILT = {
  cable: {
    asked: ['length_m', 'conductor.size', 'insulation.type', 'from.landing', 'to.landing', 'installation.raceway'],
    others: [
      'from.pigtailLength_mm',
      'from.pigtailWidth_mm',
      'to.pigtailLength_mm',
      'to.pigtailWidth_mm',
      'installation.method',
      'installation.ambient_C',
      'installation.loadedConductors',
      'installation.groupedCircuits',
      'installation.moisture',
    ],
  },
  motor: {
    asked: ['ratedPower_W', 'ratedVoltage_V', 'ratedCurrent_A', 'insulation'],
    others: ['ratedFrequency_Hz', 'peakLimit_V'],
  },
} as const;

const asBuilt = (kind: keyof typeof AS_BUILT): readonly Field[] =>
  [...AS_BUILT[kind].asked, ...AS_BUILT[kind].others].flatMap((path) =>
    DESIGNED[kind]
      .filter((field) => field.path === path)
      .map((field) => ({
        ...field,
        path: `asBuilt.${path}`,
        label: `As built: ${field.label}`,
        named: `${namedOf(field, '|')}, as found on site`,
        help: '',
        ask: INSTALLER,
      })),
  );

export const FIELDS: Readonly<Record<ElementKind | 'cable', readonly Field[]>> = {
  ...DESIGNED,
  motor: [...DESIGNED.motor, ...asBuilt('motor')],
  cable: [...DESIGNED.cable, ...asBuilt('cable')],
};

/** Paths are few and asked again and again. */
const KEYS = new Map<string, readonly string[]>();
function keysOf(path: string): readonly string[] {
  const held = KEYS.get(path);
  if (held) return held;
  const keys = path.split('.');
  if (KEYS.size < 1000) KEYS.set(path, keys);
  return keys;
}

/** The value at a dotted path of a part, or undefined. */
export function valueAt(part: object, path: string): unknown {
  let here: unknown = part;
  for (const key of keysOf(path)) {
    if (typeof here !== 'object' || here === null || !Object.hasOwn(here, key)) return undefined;
    here = (here as Record<string, unknown>)[key];
  }
  return here;
}

/** The part with the value at a dotted path set or, with undefined, taken out; what is not on the way stays the same object. */
export const withValueAt = <T extends object>(part: T, path: string, value: unknown): T => put(part, path.split('.'), value) as T;

function put(part: object, [key, ...rest]: readonly string[], value: unknown): object {
  if (key === undefined) return part;
  if (Array.isArray(part)) return part.map((each, i) => (`${i}` === key ? put(each as object, rest, value) : each));
  const record = part as Record<string, unknown>;
  if (rest.length > 0) return { ...record, [key]: put((record[key] as object | undefined) ?? {}, rest, value) };
  const { [key]: _old, ...others } = record;
  return value === undefined ? others : { ...others, [key]: value };
}

/** The field of a part by its path. */
const INDEXES = new Map<string, ReadonlyMap<string, Field>>();
export function fieldOf(kind: ElementKind | 'cable', path: string): Field | undefined {
  let index = INDEXES.get(kind);
  if (!index) {
    index = new Map(FIELDS[kind].map((field) => [field.path, field]));
    INDEXES.set(kind, index);
  }
  return index.get(path);
}

/** What says too little, or is written otherwise, without the code it stands for in the file. */
const WRITTEN: Readonly<Record<string, string>> = {
  tn: 'TN',
  tt: 'TT',
  dvdt: 'dV/dt',
  'emc-input': 'EMC input',
  'copper-aluminium': 'copper or aluminium',
  entered: 'peak from its maker',
  curve: 'peak and rise time from its maker',
};

/** As a listed value is shown: 'steel conduit', 'MG1 part 31'; letters of a code, XHHW-2, stay as they are marked. */
export const choiceText = (choice: string): string =>
  WRITTEN[choice] ??
  (/[A-Z]/.test(choice) ? choice : choice.replace(/^(mg1|ivic)-/, (standard) => standard.toUpperCase()).replaceAll('-', ' '));
