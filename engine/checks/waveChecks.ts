import { FASTEST_RISE_S, SLOW_RISE_S, USUAL_RISE_S } from '../catalog/riseTimes.ts';
import { fixed } from '../lineup/roundTo.ts';
import {
  type Check,
  type CheckFacts,
  elementSubject,
  exceeds,
  finding,
  given,
  lacks,
  lengthSaid,
  marginBelow,
  missingOf,
  notApplicable,
  openFinding,
  type RunScope,
  voltageGiven,
  voltageMissing,
} from './check.ts';
import { vouched } from './figureText.ts';
import { type Finding, type Missing, VERDICTS, type Verdict } from './finding.ts';
import { type MotorLimit, motorLimit, PROVISIONAL } from './motorLimit.ts';
import { busAssumed, busVoltage_V, isWave, lackingIn, type NoWave, USUAL_RAISE_PCT, type Wave, waveAt, wavesAt } from './runWave.ts';
import { hopsTo, makersWord } from './waveTree.ts';

/** What the pulses do at the motor. */

/** What the critical length may be of ours: by v t / 3 with the 10 to 90 % time, as one school has it, to a wave of 220 m/µs. */
const CRITICAL_SPREAD = [2 / 3 / 1.25, 220 / 150] as const;
/** How far the rise time at a motor may be off. */
const RISE_SPREAD = 0.4;

const cableFields = [
  'length_m',
  'lengthMost_m',
  'construction',
  'insulation.type',
  'insulation.wall_mm',
  'conductor.size',
  'conductor.sets',
];
const waveFields = ['wave.impedance_ohm', 'wave.velocity_mPerS', 'wave.toShield_FPerM', 'wave.betweenCores_FPerM'];

const OUT_OF_REACH = {
  dimensions: 'its size and wall give no line that a wave could run on: mend them, or enter its surge impedance',
  reach: 'its length, those of the other cables and the rise time lie too far apart to be solved together: see them',
} as const;
const outOfReach = (none: NoWave): Partial<Finding> =>
  none.none === 'dimensions' || none.none === 'reach'
    ? { text: `The wave on ${none.cable.tag} is not solved: ${OUT_OF_REACH[none.none]}.` }
    : {};

export const criticalLength: Check = {
  slug: 'critical-length',
  rule: 'Length over 1.25 × rise time × velocity / 2 lets the edge double.',
  title: 'Critical length',
  authority: 'estimate',
  source:
    'v tr / 2 with the whole ramp, 1.25 times the 10 to 90 % rise time (text-book; A. von Jouanne, P. Enjeti, W. Gray 1996, from memory)',
  why: 'A cable longer than this lets each edge double at the motor before the wave can come back. Where the next edge comes before the ring has died, the peak can pass twice the bus (IEC 60034-18-41 names double transitions and pulses that are too short).',
  scope: 'run',
  judge(scope): readonly Finding[] {
    const { motor, drive, tree, cables, basis, project, nominal_V } = scope;
    const subject = elementSubject(motor);
    const runs = [motor.tag];
    const softener = tree.atDrive ?? tree.unmodelled;
    if (softener) return [notApplicable(this, subject, runs, `${softener.tag} slows the edge: see the peak at the motor.`)];
    const missing: Missing[] = cables.filter((cable) => cable.kind === 'cable').flatMap((cable) => missingOf(cable, 'length_m'));
    if (missing.length > 0) return [openFinding(this, subject, runs, missing)];
    const rise_s = drive.riseTime_s;
    // The length hangs on no voltage; the wave is asked for at the one at which the peak asks for it too.
    const bus_V = nominal_V === null ? 1 : busVoltage_V(nominal_V, drive);
    const waves = wavesAt(tree, motor, { bus_V, rise_s: rise_s ?? USUAL_RISE_S, basis });
    if ('none' in waves) {
      const lacking = lackingIn(waves);
      if (lacking.length === 0) return [notApplicable(this, subject, runs, 'No cable between drive and motor.')];
      return [openFinding(this, subject, runs, lacking, outOfReach(waves))];
    }
    // Of a range of lengths the long end, whichever rings higher.
    const [wave] = waves;
    const { length_m, critical_m } = wave;
    const shown = {
      quantity: 'length from drive to motor',
      value: length_m,
      limit: critical_m,
      unit: 'm',
      margin_pct: marginBelow(length_m, critical_m),
      inputs: [
        ...given(drive, 'riseTime_s'),
        ...tree.hops.flatMap(({ cable }) => given(cable, 'length_m', 'lengthMost_m', 'wave.velocity_mPerS')),
      ],
      working: [
        ...wave.working.slice(0, 1),
        `between ${fixed(CRITICAL_SPREAD[0] * critical_m, 1)} m (v t / 3, t of 10 to 90 %) and ${fixed(CRITICAL_SPREAD[1] * critical_m, 1)} m (220 m/µs)`,
        ...wave.working.slice(2, 3),
      ],
      assumptions: wave.assumptions.filter((each) => each.what === 'speed of the wave'),
    };
    if (rise_s === undefined) {
      return [
        openFinding(this, subject, runs, [lacks(drive, 'riseTime_s')], {
          ...shown,
          phrase: 'rise time?',
          text: `The rise time of ${drive.tag} is not known; at a usual ${fixed(USUAL_RISE_S * 1e6, 1)} µs the critical length would be ${lengthSaid(critical_m, project)}, and the way is ${lengthSaid(length_m, project)}.`,
        }),
      ];
    }
    const longer = exceeds(length_m, critical_m);
    const [least_m, most_m] = CRITICAL_SPREAD.map((each) => each * critical_m) as [number, number];
    const unsure =
      length_m > least_m && length_m < most_m
        ? ` It may be anything from ${lengthSaid(least_m, project)} to ${lengthSaid(most_m, project)}: the band holds this length.`
        : '';
    return [
      finding(this, subject, runs, {
        ...shown,
        verdict: longer ? 'note' : 'pass',
        phrase: longer ? 'full reflection' : 'short of critical length',
        text: `From ${drive.tag} to ${motor.tag} it is ${lengthSaid(length_m, project)}; the critical length at ${fixed(rise_s * 1e6, 2)} µs is ${lengthSaid(critical_m, project)}${longer ? ': the peak at the motor is the full one' : ''}.${unsure}`,
        remedies: longer ? ['See the peak at the motor.'] : [],
      }),
    ];
  },
};

export const motorPeakVoltage: Check = {
  slug: 'motor-peak-voltage',
  rule: 'The peak at the motor at nominal supply must not exceed what its winding is built for; within 10 % of line, at the braking bus, or within the band of the estimate a caution.',
  title: 'Peak voltage at the motor',
  authority: 'standard',
  source:
    'NEMA MG 1 Parts 30 and 31 (D. Bogh, J. Coffee, G. Stone, IEEE PCIC-2004-27); IEC 60034-18-41; exact lattice of a lossy line, or travelling waves by the method of characteristics',
  why: 'The motor’s winding is a wall to the wave: each edge of the drive rises to nearly twice the bus there, thousands of times a second, and wears out insulation that was not built for it.',
  scope: 'run',
  judge(scope): readonly Finding[] {
    const { motor, drive, tree, cables, nominal_V, basis } = scope;
    const subject = elementSubject(motor);
    const runs = [motor.tag];
    const lengths = cables.filter((cable) => cable.kind === 'cable').flatMap((cable) => missingOf(cable, 'length_m'));
    const anyEdge = motorLimit(motor, null, scope.project.limits.motorPeak_V);
    const limitMissing = 'missing' in anyEdge ? anyEdge.missing : [];
    if (nominal_V === null)
      return [
        openFinding(this, subject, runs, [...limitMissing, ...lengths, ...voltageMissing(scope.voltageFrom)], {
          text: 'Cannot be judged yet: the supply voltage of its drive is not known.',
        }),
      ];
    const word = makersWord(tree, motor.id);
    if (word?.kind === 'stated') return [byMaker(this, scope, word.filter, word.peak_V, [...limitMissing, ...lengths])];
    if (word) {
      const sine = word.part.kind === 'filter' && word.part.role === 'sine';
      return [
        openFinding(this, subject, runs, [...limitMissing, ...lengths, ...word.fields.map((field) => lacks(word.part, field))], {
          phrase: `peak behind ${word.part.tag}?`,
          text: sine
            ? `Behind ${word.part.tag} no edge is left; a usual figure is 1.5 times the line, ${fixed(1.5 * nominal_V, 0)} V, but its maker’s is not entered.`
            : `${word.part.tag} between drive and motor changes the wave; without its maker’s figure for the peak at the motor${word.fields.length > 1 ? ', or its parts,' : ''} it is not judged here.`,
        }),
      ];
    }
    const bus_V = busVoltage_V(nominal_V, drive);
    const at = (rise_s: number) => ({ bus_V, rise_s, basis });
    const waves = wavesAt(tree, motor, at(drive.riseTime_s ?? FASTEST_RISE_S));
    if ('none' in waves) {
      const missing = [...limitMissing, ...lengths, ...lackingIn(waves).filter((each) => !lengths.some((other) => other.id === each.id))];
      return [
        missing.length > 0
          ? openFinding(this, subject, runs, missing, outOfReach(waves))
          : notApplicable(this, subject, runs, 'No cable between drive and motor.'),
      ];
    }
    const slow = () => waveAt(tree, motor, at(SLOW_RISE_S));
    // A longer lead rings higher, a shorter one faster: of a range of lengths the worst holds, for the peak and for close pulses each.
    const judged = waves.map((wave) => ({ wave, found: peakAt(this, scope, wave, slow, nominal_V) }));
    const { wave, found } = judged.reduce((worst, each) => (isWorse(each.found, worst.found) ? each : worst));
    const said = waves.length === 1 ? '' : ` Of the range of lengths ${lengthSaid(wave.length_m, scope.project)} is the worst.`;
    return [
      { ...found, text: `${found.text}${said}` },
      ...worstOf(waves.flatMap((each) => pulses(this, scope, each, limitAt(scope, each)))),
    ];
  },
};

const isWorse = (a: Finding, b: Finding): boolean => {
  const [ours, theirs] = [a, b].map(({ verdict }) => VERDICTS.indexOf(verdict)) as [number, number];
  return ours === theirs ? (a.margin_pct ?? 0) < (b.margin_pct ?? 0) : ours < theirs;
};
const worstOf = (findings: readonly Finding[]): readonly Finding[] =>
  findings.length === 0 ? [] : [findings.reduce((worst, each) => (isWorse(each, worst) ? each : worst))];

/** What the motor stands at the rise time of this wave; as a general-purpose one where that is not known. */
function limitAt({ motor, project }: RunScope, wave: Wave): MotorLimit {
  const limit = motorLimit(motor, wave.rise_s, project.limits.motorPeak_V);
  return 'missing' in limit ? PROVISIONAL : limit;
}

function peakAt(check: CheckFacts, scope: RunScope, wave: Wave, slow: () => Wave | NoWave, nominal_V: number): Finding {
  const { motor, drive } = scope;
  const subject = elementSubject(motor);
  const runs = [motor.tag];
  const limit = motorLimit(motor, wave.rise_s, scope.project.limits.motorPeak_V);
  const judged = limitAt(scope, wave);
  const shown = shownOf(scope, wave, judged, nominal_V);
  const value = wave.central_V;
  const fails = exceeds(value, judged.peak_V);
  if ('missing' in limit)
    return openFinding(check, subject, runs, limit.missing, {
      ...shown,
      text: `${fixed(value, 0)} V at ${motor.tag}; ${limit.says ?? 'what its winding is built for is not known'}. As a general-purpose motor (1000 V) it would ${fails ? 'fail' : 'be within its limit'}.`,
    });
  if (drive.riseTime_s === undefined && fails && isWithin(slow(), judged.peak_V))
    return openFinding(check, subject, runs, [lacks(drive, 'riseTime_s')], {
      ...shown,
      text: `With the fastest edge ${fixed(value, 0)} V stand at ${motor.tag}, over ${fixed(judged.peak_V, 0)} V; with a slow one less. The rise time of ${drive.tag} decides.`,
    });
  return decided(check, scope, wave, judged, shown);
}

type Shown = Partial<Finding> & Pick<Finding, 'assumptions' | 'working'>;

const isWithin = (wave: Wave | NoWave, limit_V: number): boolean => isWave(wave) && !exceeds(wave.central_V, limit_V);
/** Ten per cent above nominal, or as high as the supply may be by its own word. */
function highLine(wave: Wave, { start }: RunScope): { readonly volts: number; readonly pct: number } {
  const [most, rated] = [start.cases['high line'].voltage_V, start.cases.rated.voltage_V];
  const factor = Math.max(1.1, most !== null && rated !== null && rated > 0 ? most / rated : 0);
  return { volts: factor * wave.central_V, pct: 100 * (factor - 1) };
}
const braking_V = (wave: Wave, { drive }: RunScope): number =>
  drive.brakingBus_V === undefined ? 0 : (wave.central_V / wave.bus_V) * drive.brakingBus_V;

/** Everything that a peak is shown with, whatever is decided of it. */
function shownOf(scope: RunScope, wave: Wave, limit: MotorLimit, nominal_V: number): Shown {
  const { motor, drive, tree, voltageFrom } = scope;
  const { central_V, low_V, high_V, bus_V, confidence } = wave;
  const raised = drive.frontEnd === 'active';
  const braking = braking_V(wave, scope);
  const high = highLine(wave, scope);
  const softener = tree.atDrive;
  return {
    authority: limit.authority,
    quantity: 'peak line to line, nominal supply',
    case: 'rated',
    inputs: [
      ...voltageGiven(voltageFrom),
      ...given(drive, 'riseTime_s', 'frontEnd', 'busRaise_pct', 'brakingBus_V'),
      ...given(
        motor,
        'insulation',
        'peakLimit_V',
        'riseLimit_s',
        'peakCurveSource',
        'ratedVoltage_V',
        'ratedPower_W',
        'surgeImpedance_ohm',
      ),
      ...tree.hops.flatMap(({ cable }) => given(cable, ...cableFields, ...waveFields)),
      ...(softener
        ? given(
            softener,
            'impedance_pct',
            'ratedVoltage_V',
            'ratedCurrent_A',
            'coreLoss_ohm',
            'inductance_H',
            'acrossInductor_ohm',
            'capacitance_F',
            'resistance_ohm',
          )
        : []),
      ...tree.terminators.flatMap(({ filter }) => given(filter, 'resistance_ohm', 'capacitance_F')),
    ],
    value: central_V,
    band: { low: low_V, high: high_V, confidence },
    limit: limit.peak_V,
    unit: 'V',
    margin_pct: marginBelow(central_V, limit.peak_V),
    working: [
      `bus = √2 × ${fixed(nominal_V, 0)} V${raised ? ` × ${fixed(bus_V / (Math.SQRT2 * nominal_V), 2)}` : ''} = ${fixed(bus_V, 1)} V, unloaded`,
      ...wave.working,
      `peak ${fixed(central_V, 1)} V, between ${fixed(low_V, 1)} and ${fixed(high_V, 1)} V; ${fixed(central_V / bus_V, 2)} × bus`,
      `at +${fixed(high.pct, 0)} % line ${fixed(high.volts, 1)} V${braking > 0 ? `; braking ${fixed(braking, 1)} V` : ''}`,
      ...(wave.rise_s === null
        ? []
        : [`edge at the motor, 10 to 90 % of the peak: ${fixed(wave.rise_s * 1e6, 2)} µs, within ${100 * RISE_SPREAD} %`]),
      ...information(motor.ratedVoltage_V),
    ],
    assumptions: [
      ...wave.assumptions,
      ...busAssumed(drive),
      ...(motor.ratedPower_W === undefined && motor.surgeImpedance_ohm === undefined
        ? [{ what: `power of ${motor.tag}`, value: 'small: nearly full reflection', source: 'worst case: not given' }]
        : []),
    ],
    remedies: [
      'A dV/dt filter at the drive.',
      'A motor wound to MG 1 Part 31 or a marked IEC category.',
      'A terminator at the motor (it protects the motor, not the cable).',
      'A shorter lead: the drive nearer to the motor.',
      'A bigger conductor changes nothing here.',
    ],
  };
}

/** Flat ends of curves whose falling parts are not known: to be read, never judged by. */
function information(rated_V: number | undefined): readonly string[] {
  if (rated_V === undefined || rated_V > 690) return [];
  return [
    rated_V <= 500
      ? 'for information, slow edges only: IEC TS 60034-25 curve A ends at about 1.56 kV; IEC 60034-17 (2006), ordinary motors, at 1.35 kV from 0.8 µs (both from memory)'
      : 'for information, slow edges only: IEC TS 60034-25 curve B, to 690 V, ends at about 2.15 kV (from memory)',
  ];
}

function decided(check: CheckFacts, scope: RunScope, wave: Wave, limit: MotorLimit, shown: Shown): Finding {
  const { motor, drive } = scope;
  const subject = elementSubject(motor);
  const runs = [motor.tag];
  const { central_V: value, low_V, high_V, rise_s } = wave;
  const high = highLine(wave, scope);
  const braking = braking_V(wave, scope);
  const fails = exceeds(value, limit.peak_V);
  const beyond = !fails && (exceeds(high.volts, limit.peak_V) || exceeds(braking, limit.peak_V));
  const straddles = fails ? !exceeds(low_V, limit.peak_V) : exceeds(high_V, limit.peak_V);
  const edge = edgeOf(limit, rise_s);
  if (edge && drive.riseTime_s === undefined && !fails)
    return openFinding(check, subject, runs, [lacks(drive, 'riseTime_s')], {
      ...shown,
      text: `${fixed(value, 0)} V at ${motor.tag} lie within ${fixed(limit.peak_V, 0)} V; whether the edge is slow enough for ${limit.name} hangs on the rise time of ${drive.tag}.`,
    });
  // An active front end holds the bus higher: not knowing must not look better than knowing.
  const raise_pct = drive.busRaise_pct ?? USUAL_RAISE_PCT;
  if (drive.frontEnd === undefined && !fails && exceeds(value * (1 + raise_pct / 100), limit.peak_V))
    return openFinding(check, subject, runs, [lacks(drive, 'frontEnd')], {
      ...shown,
      text: `${fixed(value, 0)} V at ${motor.tag} lie within ${fixed(limit.peak_V, 0)} V with a diode bridge; an active front end would raise it by ${fixed(raise_pct, 0)} %, and which ${drive.tag} has is not known.`,
    });
  const verdict: Verdict = fails || edge?.verdict === 'fail' ? 'fail' : beyond || straddles || edge ? 'caution' : 'pass';
  const active = 1 + raise_pct / 100;
  const turns =
    drive.frontEnd === undefined &&
    verdict === 'pass' &&
    (exceeds(active * high_V, limit.peak_V) || exceeds(active * high.volts, limit.peak_V) || exceeds(active * braking, limit.peak_V));
  const said = [
    `${fixed(value, 0)} V stand at ${motor.tag} on each edge; ${limit.name} allows ${fixed(limit.peak_V, 0)} V.`,
    ...(beyond && !straddles
      ? [
          `At +${fixed(high.pct, 0)} % line${braking > high.volts ? ' or while braking' : ''} it is ${fixed(Math.max(high.volts, braking), 1)} V.`,
        ]
      : []),
    ...(straddles ? [`It may be anything from ${fixed(low_V, 0)} to ${fixed(high_V, 0)} V: the band straddles the limit.`] : []),
    ...(edge ? [edge.says] : []),
    ...(turns
      ? [
          `A diode bridge is taken for granted: with an active front end it would be about ${fixed(active * value, 0)} V, and at +${fixed(high.pct, 0)} % line ${fixed(active * high.volts, 0)} V.`,
        ]
      : []),
  ];
  return finding(check, subject, runs, { ...shown, verdict, phrase: `${fixed(value, 0)} V at the motor`, text: said.join(' ') });
}

/** An edge that is faster than the limit is meant for, or null. */
function edgeOf(limit: MotorLimit, rise_s: number | null): { readonly verdict: Verdict; readonly says: string } | null {
  // One part in fifty: the edge of a drive that is just at the limit.
  if (limit.rise_s === null || (rise_s !== null && rise_s >= 0.98 * limit.rise_s)) return null;
  const binds = limit.riseBinds && rise_s !== null && rise_s * (1 + RISE_SPREAD) < limit.rise_s;
  return {
    verdict: binds ? 'fail' : 'caution',
    says: `Its edges take ${rise_s === null ? 'less' : `${fixed(rise_s * 1e6, 2)} µs`} there; ${limit.name} holds for ${fixed(limit.rise_s * 1e6, 1)} µs and slower.`,
  };
}

/** What the maker of a filter states goes before all that is solved here. */
function byMaker(
  check: CheckFacts,
  { motor, project }: RunScope,
  filter: Extract<NonNullable<ReturnType<typeof makersWord>>, { kind: 'stated' }>['filter'],
  peak_V: number,
  missing: readonly Missing[],
): Finding {
  const subject = elementSubject(motor);
  const runs = [motor.tag];
  const limit = motorLimit(motor, filter.motorRise_s ?? null, project.limits.motorPeak_V);
  if (missing.length > 0) return openFinding(check, subject, runs, missing);
  if ('missing' in limit) return openFinding(check, subject, runs, limit.missing);
  const over = exceeds(peak_V, limit.peak_V);
  // Behind a sine filter there is no edge; behind any other its rise time decides too, where the limit speaks of one.
  const asksRise = filter.role !== 'sine' && filter.motorRise_s === undefined && (limit.rise_s !== null || motor.insulation === 'curve');
  if (!over && asksRise)
    return openFinding(check, subject, runs, [lacks(filter, 'motorRise_s')], {
      text: `Behind ${filter.tag} its maker states ${fixed(peak_V, 0)} V, within ${fixed(limit.peak_V, 0)} V; how fast the edge is at the motor is not entered, and ${limit.name} speaks of it.`,
    });
  const edge = filter.role === 'sine' || filter.motorRise_s === undefined ? null : edgeOf(limit, filter.motorRise_s);
  return finding(check, subject, runs, {
    verdict: over || edge?.verdict === 'fail' ? 'fail' : edge ? 'caution' : 'pass',
    authority: limit.authority,
    quantity: 'peak, stated by the maker of the filter',
    inputs: [
      ...given(filter, 'motorPeak_V', 'motorRise_s'),
      ...given(motor, 'insulation', 'peakLimit_V', 'riseLimit_s', 'peakCurveSource', 'ratedVoltage_V'),
    ],
    working: [`${fixed(peak_V, 1)} V stated, ${fixed(limit.peak_V, 1)} V allowed`],
    value: peak_V,
    limit: limit.peak_V,
    unit: 'V',
    margin_pct: marginBelow(peak_V, limit.peak_V),
    phrase: `${fixed(peak_V, 0)} V at the motor`,
    text: `Behind ${filter.tag} its maker states ${fixed(peak_V, 0)} V at the motor; ${limit.name} allows ${fixed(limit.peak_V, 0)} V.${edge ? ` ${edge.says}` : ''}`,
  });
}

/** Least and most that pulses which meet an old ring have been found to reach, over the bus: simulations and published measurements. */
const PULSES = [2, 2.8] as const;

/** Edges that come before the ring of the last has died: how drives space them is seldom published, so it is said and never failed. */
function pulses(check: CheckFacts, scope: RunScope, wave: Wave, limit: MotorLimit): readonly Finding[] {
  const { motor, drive, tree } = scope;
  const least_s = drive.pulseLeast_s;
  if (tree.atDrive || wave.length_m <= wave.critical_m) return [];
  const [low, high] = PULSES.map((each) => each * wave.bus_V) as [number, number];
  const apart = least_s !== undefined && !exceeds(wave.ringOut_s, least_s);
  const over = exceeds(high, limit.peak_V);
  const band = { low, high, confidence: 'rough' } as const;
  const told = (volts: number): string => fixed(vouched(volts, band.confidence, limit.peak_V), 0);
  const ringOut = `${fixed(wave.ringOut_s * 1e6, 1)} µs`;
  const text = apart
    ? `${drive.tag} keeps ${fixed(least_s * 1e6, 1)} µs between edges; the ring at ${motor.tag} has fallen to a tenth after ${ringOut}.`
    : `The ring at ${motor.tag} needs ${ringOut} to fall to a tenth${least_s === undefined ? `; whether ${drive.tag} keeps its edges that far apart is not known` : `, and ${drive.tag} lets edges follow each other after ${fixed(least_s * 1e6, 1)} µs`}. Edges that meet it make more than twice the bus possible: ${told(low)} to ${told(high)} V, where ${limit.name} allows ${fixed(limit.peak_V, 0)} V.`;
  return [
    finding(check, elementSubject(motor), [motor.tag], {
      id: `${check.slug}/element/${motor.id}/pulses`,
      title: 'Peak of close pulses',
      verdict: apart || !over ? 'pass' : 'note',
      authority: 'estimate',
      source:
        'IEC 60034-18-41 (double transitions, no least pulse time); R. J. Kerkman and others, IEEE Trans. Ind. Appl. 33(3), 1997; published measurements of 2.2 times 1.35 × line',
      quantity: 'peak of pulses that meet the last ring',
      case: 'rated',
      ...(apart
        ? {}
        : {
            value: high,
            limit: limit.peak_V,
            unit: 'V',
            margin_pct: marginBelow(high, limit.peak_V),
            band,
          }),
      inputs: [
        ...given(drive, 'pulseLeast_s', 'riseTime_s'),
        ...hopsTo(tree, motor.id).flatMap(({ cable }) => given(cable, ...cableFields, ...waveFields)),
      ],
      working: [
        `ring to a tenth: 2 td × ln 10 / −ln(Γ a²) = ${fixed(wave.ringOut_s * 1e6, 2)} µs, a² what is left of the wave after a way there and back`,
        `least ${PULSES[0]} × ${fixed(wave.bus_V, 1)} V, most ${PULSES[1]} × ${fixed(wave.bus_V, 1)} V`,
      ],
      assumptions: wave.assumptions,
      phrase: apart ? 'ring dies between edges' : `up to ${told(high)} V possible`,
      text,
      remedies:
        apart || !over ? [] : ['Ask the drive supplier for the least time between two edges.', 'A dV/dt filter or reactor at the drive.'],
    }),
  ];
}
