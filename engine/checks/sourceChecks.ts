import { currentLimit, voltageLimit } from '../catalog/harmonicLimits.ts';
import { cite } from '../catalog/source.ts';
import type { ElementOf } from '../lineup/elements.ts';
import { fixed } from '../lineup/roundTo.ts';
import { magnitude } from '../physics/complex.ts';
import {
  type Check,
  type DriveScope,
  elementSubject,
  exceeds,
  finding,
  given,
  lacks,
  manualOf,
  marginAbove,
  marginBelow,
  missingOf,
  notApplicable,
  notKnown,
  openFinding,
  tagsOf,
  voltageGiven,
} from './check.ts';
import { impedanceGiven } from './faultChecks.ts';
import type { Finding, Verdict } from './finding.ts';
import type { StepResult } from './solveZone.ts';

/** How stiff, how even and how clean the supply is that a drive stands on. */

const STIFFNESS_REMEDIES = [
  'A 3 % line reactor (costs about 1 % of the volts); 5 % where capacitors are switched nearby.',
  'A drive with a d.c. choke.',
  'A smaller transformer, or an isolating one, for this drive.',
];

/** Least source impedance in per cent on the drive's own base, and most transformer in multiples of the drive. */
const BARE = { least_pct: 0.5, most: 10 } as const;
const WITH_CHOKE = { least_pct: 0.25, most: 20 } as const;
const COMFORTABLE_PCT = 1;

interface Stiffness {
  readonly source_pct: number;
  readonly reactor_pct: number;
  readonly times: number;
  readonly working: readonly string[];
}

/** Reactance ahead of a drive on its own base: transformer (or the supply's fault level) and reactors; the feeder only where the project counts it. */
function stiffnessOf(scope: DriveScope): Stiffness | null {
  const { drive, transformer, supply, reactors, feed, project } = scope;
  const current = drive.inputCurrent_A;
  const volts = transformer ? transformer.secondaryVoltage_V : supply?.voltage_V;
  if (current === undefined || !volts) return null;
  const drive_VA = Math.sqrt(3) * volts * current;
  const working = [`S of the drive = √3 × ${fixed(volts, 0)} V × ${fixed(current, 1)} A = ${fixed(drive_VA / 1000, 2)} kVA`];
  let source_pct: number;
  let times: number;
  if (transformer) {
    if (transformer.ratedPower_VA === undefined || transformer.impedance_pct === undefined) return null;
    times = transformer.ratedPower_VA / drive_VA;
    source_pct = transformer.impedance_pct / times;
    working.push(
      `${transformer.impedance_pct} % × ${fixed(drive_VA / 1000, 2)} / ${fixed(transformer.ratedPower_VA / 1000, 0)} kVA = ${fixed(source_pct, 3)} %; the transformer is ${fixed(times, 1)} times the drive`,
    );
  } else {
    if (supply?.faultCurrent_A === undefined) return null;
    const source_VA = Math.sqrt(3) * volts * supply.faultCurrent_A;
    source_pct = (100 * drive_VA) / source_VA;
    times = 0;
    working.push(`100 × ${fixed(drive_VA / 1000, 2)} kVA / ${fixed(source_VA / 1e6, 2)} MVA fault level = ${fixed(source_pct, 3)} %`);
  }
  let reactor_pct = 0;
  for (const reactor of reactors) {
    const base = reactor.ratedCurrent_A;
    // One that serves several drives is larger than this one by nobody knows how much: nothing is taken for its size.
    if (reactor.impedance_pct === undefined || base === undefined) return null;
    const rated = reactor.ratedVoltage_V ?? volts;
    const own = (reactor.impedance_pct * current * rated) / base / volts;
    reactor_pct += own;
    working.push(
      `${reactor.tag}: ${reactor.impedance_pct} % × ${fixed(current, 1)} / ${fixed(base, 1)} A${rated === volts ? '' : ` × ${fixed(rated, 0)} / ${fixed(volts, 0)} V`} = ${fixed(own, 3)} % on this drive's base`,
    );
  }
  if (project.creditFeeder) {
    const path = feed.leastPath_ohm;
    const feeder = path && (100 * path.im * Math.sqrt(3) * current) / volts;
    if (feeder && feeder > source_pct) {
      working.push(
        `path to the drive's input, reactance ${fixed(1000 * path.im, 3)} mΩ = ${fixed(feeder, 3)} % (the project counts the feeder)`,
      );
      source_pct = Math.max(source_pct, feeder - reactor_pct);
    }
  }
  return { source_pct, reactor_pct, times, working };
}

export const supplyStiffness: Check = {
  slug: 'supply-stiffness',
  rule: 'Impedance ahead of the drive, on the drive’s own base: caution under 0.5 % or over 10 times its size without a d.c. choke, under 0.25 % or over 20 times with one; note under 1 %. Reactors count, the feeder only where the project says so.',
  title: 'Source impedance',
  authority: 'guide',
  source:
    'a drive maker’s published wiring guide (0.5 % or 10 times without a choke, 0.25 % or 20 times with one); other makers’ manuals ask for 1 %; the drive’s own manual',
  why: 'A source much stiffer than the drive expects drives tall, narrow current pulses through its rectifier and capacitors, and lets switching surges through uncushioned.',
  scope: 'drive',
  judge(scope): readonly Finding[] {
    const { drive, motors, transformer, supply, reactors } = scope;
    const subject = elementSubject(drive);
    const runs = tagsOf(motors);
    if (drive.frontEnd === 'active')
      return [notApplicable(this, subject, runs, 'An active front end has its own line filter: its maker’s figures hold.')];
    if (drive.manual?.reactorRequired === true && reactors.length === 0)
      return [
        finding(this, subject, runs, {
          verdict: 'fail',
          authority: 'manual',
          source: manualOf(drive),
          phrase: 'reactor asked for',
          text: `The manual of ${drive.tag} asks for a line reactor and none is drawn ahead of it.`,
          remedies: STIFFNESS_REMEDIES.slice(0, 1),
          inputs: given(drive, 'manual.reactorRequired'),
        }),
      ];
    const stiff = stiffnessOf(scope);
    if (!stiff) {
      const missing = [
        ...missingOf(drive, 'inputCurrent_A'),
        ...(transformer
          ? missingOf(transformer, 'ratedPower_VA', 'impedance_pct', 'secondaryVoltage_V')
          : supply
            ? missingOf(supply, 'faultCurrent_A', 'voltage_V')
            : []),
        ...reactors.flatMap((reactor) => missingOf(reactor, 'impedance_pct', 'ratedCurrent_A')),
      ];
      return [openFinding(this, subject, runs, missing)];
    }
    const total = stiff.source_pct + stiff.reactor_pct;
    const verdictWith = ({ least_pct, most }: typeof BARE | typeof WITH_CHOKE): Verdict =>
      exceeds(least_pct, total) || (stiff.reactor_pct === 0 && exceeds(stiff.times, most))
        ? 'caution'
        : exceeds(COMFORTABLE_PCT, total)
          ? 'note'
          : 'pass';
    const [bare, choked] = [verdictWith(BARE), verdictWith(WITH_CHOKE)];
    const rule = drive.dcChoke === 'fitted' ? WITH_CHOKE : BARE;
    const shared = {
      quantity: 'source impedance on the drive’s base',
      value: total,
      limit: rule.least_pct,
      unit: '%',
      margin_pct: marginAbove(total, rule.least_pct),
      phrase: `source ${fixed(total, 2)} %`,
      working: [...stiff.working, `together ${fixed(total, 3)} %`],
      inputs: [
        ...given(drive, 'inputCurrent_A', 'dcChoke', 'manual.reactorRequired'),
        ...(transformer
          ? given(transformer, 'ratedPower_VA', 'impedance_pct', 'secondaryVoltage_V')
          : supply
            ? given(supply, 'faultCurrent_A', 'voltage_V')
            : []),
        ...reactors.flatMap((reactor) => given(reactor, 'impedance_pct', 'ratedCurrent_A', 'ratedVoltage_V')),
      ],
      remedies: STIFFNESS_REMEDIES,
    };
    const words = `The source of ${drive.tag} has ${fixed(total, 2)} % on the drive’s own base${stiff.times > 0 ? `, its transformer is ${fixed(stiff.times, 1)} times the drive` : ''}`;
    const unknown = [
      ...(bare !== choked && drive.dcChoke === undefined ? [lacks(drive, 'dcChoke')] : []),
      ...(reactors.length === 0 && drive.manual?.reactorRequired === undefined ? [lacks(drive, 'manual.reactorRequired')] : []),
    ];
    if (unknown.length > 0)
      return [
        openFinding(this, subject, runs, unknown, {
          ...shared,
          text: `${words}; by itself that is ${bare === choked ? (bare === 'caution' ? 'too stiff' : 'likely fine') : 'fine with a d.c. choke and too stiff without one'}. ${notKnown(unknown)}`,
          remedies: [`Ask: ${[...new Set(unknown.map((each) => each.ask))].join(', ')}.`, ...STIFFNESS_REMEDIES],
        }),
      ];
    const verdict = drive.dcChoke === 'fitted' ? choked : bare;
    return [
      finding(this, subject, runs, {
        ...shared,
        verdict,
        text: `${words}; ${drive.dcChoke === 'fitted' ? 'with its d.c. choke' : 'without a d.c. choke'} at least ${rule.least_pct} % is asked and ${COMFORTABLE_PCT} % is comfortable.`,
        remedies: verdict === 'pass' ? [] : STIFFNESS_REMEDIES,
      }),
    ];
  },
};

export const voltageUnbalance: Check = {
  slug: 'voltage-unbalance',
  rule: 'Over 3 % a caution, over 2 % a note.',
  title: 'Voltage unbalance',
  authority: 'practice',
  source: 'common practice: over 3 % a caution, over 2 % a note; a reactor evens out what the rectifier makes of it',
  why: 'A rectifier turns a few per cent of unbalance in the voltages into many times that in its currents: one phase of feeder and bridge carries most.',
  scope: 'element',
  judge({ element, drives, motors }): readonly Finding[] {
    if (element.kind !== 'supply') return [];
    const subject = elementSubject(element);
    const runs = tagsOf(motors);
    if (drives.length === 0) return [notApplicable(this, subject, runs, 'It feeds no drive.')];
    const value = element.unbalance_pct;
    if (value === undefined) return [openFinding(this, subject, runs, missingOf(element, 'unbalance_pct'))];
    const verdict: Verdict = exceeds(value, 3) ? 'caution' : exceeds(value, 2) ? 'note' : 'pass';
    return [
      finding(this, subject, runs, {
        verdict,
        quantity: 'voltage unbalance',
        value,
        limit: 3,
        unit: '%',
        margin_pct: marginBelow(value, 3),
        phrase: `unbalance ${fixed(value, 1)} %`,
        text: `The line voltages of ${element.tag} differ by ${fixed(value, 1)} % from their mean; to 2 % is usual, over 3 % is too much.`,
        inputs: given(element, 'unbalance_pct'),
        working: [`as given: ${fixed(value, 2)} %`],
        remedies:
          verdict === 'pass'
            ? []
            : ['A line reactor or a d.c. choke at each drive.', 'Ask the utility; look for single-phase loads and open-delta banks.'],
      }),
    ];
  },
};

/**
 * Harmonic currents of a six-pulse bridge as fractions of its fundamental, orders 5, 7, 11, 13: usual values, from memory, for no choke and
 * for about 3 % of reactance.
 */
const SPECTRUM = {
  bare: [
    [5, 0.65],
    [7, 0.41],
    [11, 0.085],
    [13, 0.077],
  ],
  choked: [
    [5, 0.4],
    [7, 0.15],
    [11, 0.08],
    [13, 0.05],
  ],
} as const;
/** No source gives a band: it is said, and none is made up. */
const WHY_ROUGH = 'the spectra are usual values, and all bridges are added in phase';
const ROUGH = `How far this is off is not known: ${WHY_ROUGH}.`;
const STUDY_SHARE_PCT = 25;
const STUDY_THD_PCT = 5;

export const harmonics: Check = {
  slug: 'harmonics',
  rule: 'Drives over 25 % of the current, or an estimated distortion over 5 %, call for a study. A screen is never a pass, and how far it is off is not known.',
  title: 'Harmonics, screen',
  authority: 'estimate',
  source: 'IEEE 519-2014/2022 Tables 1 and 2 (limits); six-pulse spectra from memory; common practice for when to study',
  why: 'Rectifiers draw their current in pulses. Through the impedance of transformer and utility those pulses distort the voltage for everyone. This is a screen: the limit binds the whole site where it meets the utility, and only a study can show that it is kept.',
  scope: 'element',
  judge({ element, drives, motors, flow, ahead }): readonly Finding[] {
    const source = element.kind === 'supply' || element.kind === 'transformer';
    if (!source) return [];
    const subject = elementSubject(element);
    const runs = tagsOf(motors);
    const bridges = drives.filter((drive) => drive.frontEnd !== 'active');
    if (bridges.length === 0) return [notApplicable(this, subject, runs, 'It feeds no drive with a diode bridge.')];
    const volts = element.kind === 'transformer' ? element.secondaryVoltage_V : element.voltage_V;
    // Of the network alone: what motors feed into a fault makes it no stiffer for long.
    const ahead_A = leastFault_A(flow);
    const behind = element.kind === 'transformer' ? faultBehind(element, ahead_A) : null;
    const fault_A = element.kind === 'transformer' ? behind?.fault_A : (ahead_A ?? undefined);
    const missing = [
      ...bridges.flatMap((drive) => missingOf(drive, 'inputCurrent_A')),
      ...(element.kind === 'transformer'
        ? missingOf(element, 'ratedPower_VA', 'primaryVoltage_V', 'secondaryVoltage_V', 'impedance_pct')
        : missingOf(element, 'faultCurrent_A', 'voltage_V')),
    ];
    if (missing.length > 0 || fault_A === undefined || volts === undefined) return [openFinding(this, subject, runs, missing)];
    const scaleToHere = (drive: (typeof bridges)[number]): number =>
      (drive.inputCurrent_A ?? 0) * ((drive.ratedVoltage_V ?? volts) / volts);
    const drawn = bridges.reduce((sum, drive) => sum + scaleToHere(drive), 0);
    const capacity =
      element.kind === 'transformer' ? (element.ratedPower_VA ?? 0) / Math.sqrt(3) / volts : (element.demandCurrent_A ?? drawn);
    const share_pct = (100 * drawn) / Math.max(capacity, drawn);
    // Harmonic currents of all bridges added in phase: the worst that can be.
    const orders = SPECTRUM.bare.map(([order]) => order);
    const currents = orders.map((_, i) =>
      bridges.reduce((sum, drive) => {
        const spectrum = drive.dcChoke === 'fitted' ? SPECTRUM.choked : SPECTRUM.bare;
        return sum + scaleToHere(drive) * (spectrum[i]?.[1] ?? 0);
      }, 0),
    );
    const thd_pct = 100 * Math.sqrt(currents.reduce((sum, amperes, i) => sum + (((orders[i] ?? 0) * amperes) / fault_A) ** 2, 0));
    const limit = voltageLimit(volts);
    const tdd = currentLimit(fault_A / Math.max(capacity, drawn));
    const tdd_pct = (100 * Math.hypot(...currents)) / Math.max(capacity, drawn);
    const alone = element.kind === 'supply' && element.demandCurrent_A === undefined;
    const boundless = element.kind === 'transformer' && ahead_A === null;
    const study = exceeds(share_pct, STUDY_SHARE_PCT) || exceeds(thd_pct, STUDY_THD_PCT);
    return [
      finding(this, subject, runs, {
        verdict: 'note',
        quantity: 'distortion of the voltage, estimated',
        value: thd_pct,
        limit: limit.total_pct,
        unit: '%',
        margin_pct: marginBelow(thd_pct, limit.total_pct),
        phrase: study ? (alone ? 'demand not given' : 'harmonic study needed') : 'harmonics look small',
        text: `${
          alone
            ? `The demand of the whole installation at ${element.tag} is not given: with the drives taken as all of it, their`
            : `Drives take ${fixed(share_pct, 0)} % of the current at ${element.tag}; their`
        } currents may distort the voltage by ${thd_pct < 0.05 ? 'less than 0.1' : `about ${fixed(thd_pct, 1)}`} % (limit ${fixed(limit.total_pct, 0)} %): ${study ? 'a study is needed' : 'the screen suggests that the limits can be kept; it proves nothing'}. ${ROUGH}`,
        remedies: study ? ['Reactors or d.c. chokes at the drives.', 'A harmonic study of the site at its point of common coupling.'] : [],
        inputs: [
          ...bridges.flatMap((drive) => given(drive, 'inputCurrent_A', 'ratedVoltage_V', 'dcChoke')),
          ...voltageGiven(element),
          ...given(element, 'ratedPower_VA', 'primaryVoltage_V', 'impedance_pct', 'faultCurrent_A', 'demandCurrent_A'),
          ...impedanceGiven(ahead.filter((part) => part !== element)),
        ],
        working: [
          ...(behind?.working ?? []),
          ...orders.map((order, i) => `I${order} = ${fixed(currents[i] ?? 0, 1)} A`),
          `THD = √Σ (h Ih / Ik)² with Ik ${fixed(fault_A / 1000, 2)} kA = ${fixed(thd_pct, 2)} %`,
          `current distortion ${fixed(tdd_pct, 0)} % of ${fixed(Math.max(capacity, drawn), 0)} A; limit ${tdd.total_pct} % at Isc/IL ${fixed(fault_A / Math.max(capacity, drawn), 0)} (${cite(tdd.source)}), which holds at the utility’s connection`,
          `estimate, no band known: ${WHY_ROUGH}`,
        ],
        assumptions: [
          { what: 'spectrum of the bridges', value: 'usual six-pulse values', source: 'from memory' },
          ...(alone ? [{ what: 'demand current', value: 'the drives alone', source: 'worst case: not given' }] : []),
          ...(boundless
            ? [{ what: `fault level ahead of ${element.tag}`, value: 'unlimited', source: 'not known: it may distort more' }]
            : []),
        ],
      }),
    ];
  },
};

/** What the network gives here at the least: conductors warm and at their longest, where harmonic currents distort the voltage most. */
function leastFault_A({ networkFault_A, path_ohm, coldPath_ohm }: StepResult): number | null {
  const [warm, cold] = [path_ohm && magnitude(path_ohm), coldPath_ohm && magnitude(coldPath_ohm)];
  return networkFault_A !== null && warm && cold ? networkFault_A * Math.min(1, cold / warm) : networkFault_A;
}

/**
 * Fault current at the load side of a transformer, with what lies ahead of it: the network at its line side, brought over by the turns, and
 * the transformer's own impedance, added as numbers: their angles are much alike, and a little less current is on the safe side.
 */
function faultBehind(
  { ratedPower_VA, primaryVoltage_V, secondaryVoltage_V, impedance_pct }: ElementOf<'transformer'>,
  ahead_A: number | null,
): { readonly fault_A: number; readonly working: readonly string[] } | null {
  if (!ratedPower_VA || !primaryVoltage_V || !secondaryVoltage_V || !impedance_pct) return null;
  const own_A = (100 * ratedPower_VA) / (Math.sqrt(3) * secondaryVoltage_V * impedance_pct);
  if (ahead_A === null) return { fault_A: own_A, working: [] };
  const network_A = (ahead_A * primaryVoltage_V) / secondaryVoltage_V;
  const fault_A = 1 / (1 / own_A + 1 / network_A);
  return {
    fault_A,
    working: [
      `Ik = 1 / (1 / ${fixed(own_A / 1000, 2)} kA of its own + 1 / ${fixed(network_A / 1000, 2)} kA of the network, ${fixed(ahead_A / 1000, 2)} kA ahead of it) = ${fixed(fault_A / 1000, 2)} kA`,
    ],
  };
}

/** Standing current to ground may take this share of a residual-current device's setting. */
const LEAKAGE_SHARE = 0.3;

export const residualCurrent: Check = {
  slug: 'residual-current',
  rule: 'Ahead of a three-phase rectifier only type B; standing current to ground to 30 % of its setting.',
  title: 'Residual-current device',
  authority: 'standard',
  source:
    'IEC 62423 (type B for direct current, from memory); a drive maker’s published design guide: type B only; 30 % of the setting (common practice)',
  why: 'A three-phase rectifier can pass smooth direct current to ground, which blinds every type but B; and the filters’ standing current to ground trips a device that is set too low.',
  scope: 'element',
  judge({ element, drives, motors, side }): readonly Finding[] {
    if (element.kind !== 'disconnect' || side !== 'input') return [];
    const subject = elementSubject(element);
    const runs = tagsOf(motors);
    // A residual-current switch breaks no overload and is drawn as a switch: what is fitted is judged whatever it is fitted to.
    const fitted = element.residualCurrentType !== undefined && element.residualCurrentType !== 'none';
    if (drives.length === 0 || (element.device !== 'breaker' && !fitted))
      return drives.length > 0 && (element.device === undefined || (element.device !== 'fuse' && element.residualCurrentType === undefined))
        ? [openFinding(this, subject, runs, missingOf(element, 'device', 'residualCurrentType'))]
        : [notApplicable(this, subject, runs, 'No breaker ahead of a drive.')];
    const type = element.residualCurrentType;
    if (type === undefined) return [openFinding(this, subject, runs, missingOf(element, 'residualCurrentType'))];
    if (type === 'none')
      return [
        finding(this, subject, runs, {
          verdict: 'pass',
          phrase: 'no residual-current device',
          text: `${element.tag} has no residual-current device.`,
          inputs: given(element, 'device', 'residualCurrentType'),
        }),
      ];
    if (type !== 'B')
      return [
        finding(this, subject, runs, {
          verdict: 'caution',
          phrase: `residual-current type ${type}`,
          text: `${element.tag} has a residual-current device of type ${type} ahead of ${tagsOf(drives).join(', ')}; behind a three-phase rectifier only type B sees a fault.`,
          inputs: given(element, 'device', 'residualCurrentType'),
          remedies: ['A type B device.', 'Leave it out where the code allows, and rely on the grounding conductor.'],
        }),
      ];
    const missing = [...missingOf(element, 'residualCurrent_A'), ...drives.flatMap((drive) => missingOf(drive, 'leakageCurrent_A'))];
    const setting = element.residualCurrent_A;
    if (missing.length > 0 || setting === undefined) return [openFinding(this, subject, runs, missing)];
    const sum = drives.reduce((total, drive) => total + (drive.leakageCurrent_A ?? 0), 0);
    const limit = LEAKAGE_SHARE * setting;
    const over = exceeds(sum, limit);
    return [
      finding(this, subject, runs, {
        verdict: over ? 'caution' : 'pass',
        authority: 'practice',
        quantity: 'standing current to ground',
        value: 1000 * sum,
        limit: 1000 * limit,
        unit: 'mA',
        margin_pct: marginBelow(sum, limit),
        working: [`sum of the drives ${fixed(1000 * sum, 2)} mA; 0.3 × ${fixed(1000 * setting, 0)} mA = ${fixed(1000 * limit, 2)} mA`],
        phrase: `${fixed(1000 * sum, 0)} mA to ground`,
        text: `The drives behind ${element.tag} pass ${fixed(1000 * sum, 1)} mA to ground; ${fixed(1000 * limit, 1)} mA is 30 % of its setting.`,
        inputs: [
          ...given(element, 'device', 'residualCurrentType', 'residualCurrent_A'),
          ...drives.flatMap((drive) => given(drive, 'leakageCurrent_A')),
        ],
        remedies: over
          ? ['A higher setting, where the code allows.', 'Fewer drives on one device.', 'Drives or filters of low leakage.']
          : [],
      }),
    ];
  },
};
