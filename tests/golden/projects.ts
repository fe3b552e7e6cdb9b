// biome-ignore-all lint/suspicious/noTemplateCurlyInString: a label that looks like one
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { addComment, addNote, freeze, type LineUp, load, newLineUp, save, setAside, tidyPositions } from '../../engine/index.ts';
import { feet, LineUpBuilder, shielded } from '../engine/lineUpBuilder.ts';
import { builder, oneLead, broken as withValues } from '../engine/sizing/oneLead.ts';

/** The line-ups whose reports are golden: the worked ones, and small ones that each show something else. All names are invented. */

const titled = (lineUp: LineUp, title: string, more: Partial<LineUp['project']> = {}): LineUp => ({
  ...lineUp,
  project: { ...lineUp.project, title, ...more },
  positions: tidyPositions(lineUp),
});
const idOf = (lineUp: LineUp, tag: string): string =>
  [...lineUp.elements, ...lineUp.cables].find((part) => part.tag === tag)?.id ?? `no ${tag}`;

const marks = {
  box: 'metal',
  terminalTemperature_C: 75,
  terminalMetal: 'copper-aluminium',
  terminalSmallest: '1.5 mm2',
  terminalLargest: '120 mm2',
  terminalsPerPhase: 1,
} as const;
const european = (size: string, length_m: number, tag: string) => ({
  tag,
  conductor: { size, metal: 'copper', sets: 1, build: 'stranded' } as const,
  insulation: { type: 'XLPE', voltage_V: 1000, concentricity_pct: 90, temperatureLeast_C: -25 } as const,
  construction: 'copper-tape' as const,
  shieldCoverage_pct: 100,
  shieldArea_mm2: 16,
  phasesScreened: false,
  grounds: { count: 3, size, metal: 'copper', arrangement: 'symmetrical' } as const,
  length_m,
  from: { landing: 'full', groundsLanded: 3 } as const,
  to: { landing: 'full', groundsLanded: 3 } as const,
  installation: {
    raceway: 'ladder' as const,
    method: 'E' as const,
    ambient_C: 35,
    ambientLeast_C: 5,
    groupedCircuits: 2,
    moisture: 'damp' as const,
    existing: false,
    flexing: false,
    sunlight: false,
    sharedWith: [],
    spares: 'none' as const,
    toControl_mm: 300,
  },
});

/** From the network to the drive, at 400 V and 50 Hz. */
const iecDrive = (kilowatts: number, amperes: number): LineUpBuilder =>
  new LineUpBuilder({ basis: 'iec', units: 'metric', symbols: 'iec', emcCategory: 'C3', sheetSize: 'A3' })
    .part('supply', { tag: 'N-1', voltage_V: 20_000, frequency_Hz: 50, faultCurrent_A: 10_000, xOverR: 8, unbalance_pct: 1 })
    .part('transformer', {
      tag: 'TR-1',
      ratedPower_VA: 800_000,
      primaryVoltage_V: 20_000,
      secondaryVoltage_V: 400,
      impedance_pct: 6,
      xOverR: 6,
      secondaryEarthing: 'tn',
    })
    .part('disconnect', { tag: 'Q-1', device: 'breaker', ratedCurrent_A: 100, tripCurrent_A: 80, faultRating_A: 36_000, ...marks })
    .cable(european('25 mm2', 40, 'F-1'))
    .part('drive', {
      tag: 'D-1',
      ratedPower_W: kilowatts * 1000,
      ratedVoltage_V: 400,
      inputCurrent_A: amperes * 0.95,
      outputCurrent_A: amperes,
      inputPowerFactor: 0.93,
      carrier_Hz: 4000,
      riseTime_s: 0.1e-6,
      dcChoke: 'fitted',
      builtInFilter: true,
      filterJumpers: 'in',
      faultRating_A: 50_000,
      faultRatingDevice: 'gG fuses',
      faultRatingDeviceDrawn: false,
      control: 'vector',
      leakageCurrent_A: 0.01,
      manual: { page: '41', shieldRequired: true, lengthShielded_m: 100, reactorRequired: false, allowedEarthing: ['tn', 'tt'] },
      ...marks,
    });
const iecMotor = (tag: string, kilowatts: number, amperes: number) => ({
  tag,
  ratedPower_W: kilowatts * 1000,
  ratedVoltage_V: 400,
  ratedFrequency_Hz: 50,
  ratedCurrent_A: amperes,
  powerFactor: 0.84,
  efficiency_pct: 92,
  insulation: 'ivic-c' as const,
  bearingProtection: 'insulated-bearing' as const,
  capacitor: false,
  ...marks,
});
const iecPump = (): LineUp =>
  iecDrive(30, 61)
    .cable(european('16 mm2', 55, 'W-1'))
    .part('motor', iecMotor('M-1', 30, 56))
    .build();

const FILTER_MARKS = { ratedVoltage_V: 480, ratedCurrent_A: 60, box: 'metal' } as const;
/** A long lead with this filter at the drive. */
function filtered(length_ft: number, filter: object): LineUp {
  const lineUp = oneLead();
  const drive = idOf(lineUp, 'VFD-1');
  const lead = { length_m: feet(length_ft) };
  const part = { tag: 'FL-1', ...FILTER_MARKS, ...filter, id: 'f1', kind: 'filter' } as LineUp['elements'][number];
  return withValues(
    {
      ...lineUp,
      elements: [...lineUp.elements, part],
      cables: [
        ...lineUp.cables.map((cable) =>
          cable.from.element === drive ? { ...cable, from: { ...cable.from, element: part.id }, provenance: {} } : cable,
        ),
        {
          id: 'l1',
          tag: 'l1',
          kind: 'link',
          from: { element: drive, port: 'load' },
          to: { element: part.id, port: 'line' },
          conductor: {},
          insulation: {},
          grounds: {},
          auxiliary: [],
          installation: {},
        },
      ],
    },
    { 'W-1A': lead },
  );
}

/** Three fans on one drive, by a trunk with tees. */
function tees(): LineUp {
  const site = iecDrive(22, 45).cable(european('16 mm2', 20, 'W-1'));
  for (const [n, length_m] of [12, 25].entries())
    site
      .part('junction', { tag: `J-${n + 1}`, capacitor: false, ...marks })
      .cable(european('4 mm2', length_m, `W-1.${n + 1}`))
      .part('motor', { ...iecMotor(`V-${n + 1}`, 4, 8.2), overload: 'own', ownShortCircuitDevice: true, switchedAlone: n === 1 })
      .from(`J-${n + 1}`)
      .cable(european('16 mm2', 15, `W-${n + 2}`));
  return site.part('motor', { ...iecMotor('V-3', 4, 8.2), overload: 'none', ownShortCircuitDevice: false }).build();
}

/** Parts and cables that are drawn, and of which nothing is said. */
const unsaid = (): LineUp =>
  new LineUpBuilder()
    .part('supply', { tag: 'S' })
    .part('disconnect', { tag: 'Q' })
    .cable({ tag: 'F' })
    .part('drive', { tag: 'D' })
    .cable({ tag: 'W1' })
    .part('disconnect', { tag: 'Q2' })
    .cable({ tag: 'W2' })
    .part('motor', { tag: 'M' })
    .build();

/** A drive that nothing feeds, a motor that no drive feeds, a cable that leads nowhere. */
function looseEnds(): LineUp {
  const lineUp = builder().from('none').part('drive', { tag: 'VFD-9', ratedVoltage_V: 480 }).cable(shielded('4 AWG', 80)).build();
  const [first] = lineUp.cables.filter(({ tag }) => tag === 'W-1B');
  return {
    ...lineUp,
    cables: first ? [...lineUp.cables, { ...first, id: 'c90', tag: 'W-9', to: { landing: 'none' } }] : lineUp.cables,
  };
}

/** Issued, commented on, changed since, noted, and with another way to build it aside. */
function history(): LineUp {
  const first = titled(oneLead(), 'Osprey Bank lift', { number: 'OB-E-12', owner: 'Osprey Bank Water', createdBy: 'J. Doe' });
  const issued = freeze(first, { date: '2026-03-02', says: 'for comment' });
  const asked = addComment(issued, { says: 'Is the lead long enough?', from: 'owner', sheet: '6', parts: [idOf(issued, 'W-1A')] });
  const now = addNote(withValues(asked, { 'W-1A': { length_m: 61, 'asBuilt.length_m': 63 } }), 'Measured along the wall.', [
    idOf(issued, 'W-1A'),
  ]);
  return setAside(now, 'Larger lead', { ...first, ...withValues(first, { 'W-1A': { 'conductor.size': '2 AWG' } }) });
}

const HAND_MADE: Readonly<Record<string, () => LineUp>> = {
  'empty-sheet': () => newLineUp(),
  'sound-run': () => titled(oneLead(), 'Merrow Lock fan'),
  'nothing-said': () => titled(unsaid(), 'Not said yet'),
  'loose-ends': () => titled(looseEnds(), 'Loose ends'),
  'european-cables': () => titled(iecPump(), 'Tern Hollow pump'),
  'european-buried-aluminium': () =>
    titled(
      withValues(iecPump(), {
        'F-1': {
          'conductor.metal': 'aluminium',
          'conductor.size': '50 mm2',
          'installation.raceway': 'buried-duct',
          'installation.method': 'D1',
          'installation.ambient_C': 20,
          'installation.soil_KmPerW': 1.5,
          'installation.moisture': 'wet',
        },
        'D-1': { frontEnd: 'active', busRaise_pct: 10, brakingBus_V: 750 },
      }),
      'Sallow Mere pump, feeding back',
    ),
  'us-in-european-words': () => titled(oneLead(), 'Merrow Lock fan', { vocabulary: 'iec', units: 'metric', symbols: 'iec' }),
  'tees-three-motors': () => titled(tees(), 'Linnet Row fans'),
  'sine-filter': () =>
    titled(
      filtered(900, {
        role: 'sine',
        drop_pct: 6,
        carrierLeast_Hz: 3000,
        carrierMost_Hz: 8000,
        inductance_H: 1.2e-3,
        capacitance_F: 10e-6,
      }),
      'Dunlin Pit hoist',
    ),
  'long-lead-dvdt': () =>
    titled(
      filtered(700, {
        role: 'dvdt',
        drop_pct: 2,
        inductance_H: 150e-6,
        acrossInductor_ohm: 60,
        capacitance_F: 30e-9,
        resistance_ohm: 40,
        motorPeak_V: 1000,
        motorRise_s: 1.2e-6,
      }),
      'Curlew Flats well',
    ),
  'long-lead-bare': () =>
    titled(
      withValues(oneLead(), {
        'W-1A': { length_m: feet(480), lengthMost_m: feet(560), lengthOrigin: 'estimated' },
        'M-1': { insulation: 'entered', peakLimit_V: 1200, riseLimit_s: 0.1e-6 },
      }),
      'Curlew Flats well, first sketch',
    ),
  'shield-break': () =>
    titled(
      withValues(oneLead(), {
        'DS-1': { box: 'plastic', bondBar: false },
        'W-1A': { 'to.landing': 'none' },
        'W-1B': { 'from.landing': 'pigtail', 'from.pigtailLength_mm': 90, 'from.pigtailWidth_mm': 6 },
      }),
      'Ruddle Quay pump',
    ),
  'parallel-sets': () =>
    titled(
      withValues(oneLead(), {
        'F-1': { 'conductor.sets': 2, 'conductor.size': '2 AWG', setsAlike: false, setsHoldAllPhases: true },
        'W-1A': {
          'conductor.sets': 3,
          'conductor.size': '1/0 AWG',
          'conductor.metal': 'aluminium',
          setsAlike: true,
          setsHoldAllPhases: true,
        },
      }),
      'Brent Yard mill',
    ),
  'unlisted-size': () =>
    titled(withValues(oneLead(), { 'F-1': { 'conductor.size': '5 AWG' }, 'W-1A': { 'conductor.size': '22 mm2' } }), 'Fit what lies there'),
  'deep-frost': () =>
    titled(
      withValues(oneLead(), {
        'F-1': { 'installation.ambient_C': -30, 'installation.ambientLeast_C': -52 },
        'W-1A': { 'installation.ambient_C': -35, 'installation.ambientLeast_C': -55, 'installation.flexing': true },
        'M-1': { ambient_C: -40 },
      }),
      'Ptarmigan Store',
    ),
  'high-and-ungrounded': () =>
    titled(
      withValues(oneLead(), {
        'S-1': { earthing: 'ungrounded', voltageMost_pct: 112, voltageLeast_pct: 88, unbalance_pct: 4 },
        'VFD-1': { filterJumpers: 'in', brakingBus_V: 790, builtInFilter: true },
        'M-1': { insulation: 'mg1-part-30', bearingProtection: 'none', capacitor: true },
      }),
      'Snow Bunting Pass lift',
      { altitude_m: 2600, motorContribution: true },
    ),
  'rules-of-the-house': () =>
    titled(oneLead(), 'Whimbrel Mill saw', {
      limits: { feederDrop_pct: 0.5, leadDrop_pct: 1, motorPeak_V: 900 },
      checks: { 'insulation-wall': { off: true, reason: 'the maker has confirmed it' }, 'critical-length': { off: true } },
      conductorTemperature: 'by-load',
      sheetSize: 'ANSI-D',
      showGrounds: true,
    }),
  'issued-and-changed': () => titled(history(), 'Osprey Bank lift'),
  'hostile-labels': () => {
    const lineUp = withValues(oneLead(), {
      'CB-1': { tag: '=1+1', note: '"><img src=x onerror=alert(1)>' },
      'VFD-1': { tag: '\u202eevird', enclosure: '${7*7}' },
      'W-1A': { tag: '\u001b[2Jred', note: '(a) Tj ET\\' },
      'M-1': { tag: '<b>M&1</b>', note: '漢字 и 🙂' },
    });
    return titled(lineUp, '<script>alert(1)</script>', { number: '../../etc', revision: '@', owner: 'Ω ≤ µ' });
  },
};

const EXAMPLES = join(import.meta.dirname, '../../examples');
/** As it is read from a file, so that each is a line-up that a user may have. */
function opened(text: string, name: string): LineUp {
  const loaded = load(text, name);
  if (!loaded.ok) throw new Error(`${loaded.where}: ${loaded.what}. ${loaded.mend}`);
  return loaded.lineUp;
}

/** Those of the folder of examples. */
export const WORKED: ReadonlyMap<string, LineUp> = new Map(
  readdirSync(EXAMPLES)
    .sort()
    .map((name) => [name.replace('.json', ''), opened(readFileSync(join(EXAMPLES, name), 'utf8'), name)]),
);
export const PROJECTS: ReadonlyMap<string, LineUp> = new Map([
  ...WORKED,
  ...Object.entries(HAND_MADE).map(([name, make]) => [name, opened(save(make()), name)] as const),
]);
