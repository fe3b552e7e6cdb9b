import { fixed } from '../lineup/roundTo.ts';
import {
  type Check,
  elementSubject,
  exceeds,
  finding,
  given,
  lacks,
  marginBelow,
  missingOf,
  notApplicable,
  openFinding,
  type RunScope,
} from './check.ts';
import type { Finding, Missing } from './finding.ts';
import { behindReactor, reactorAtDrive } from './reactorWave.ts';
import { busVoltage_V, type Wave, waveOf } from './runWave.ts';

/** What the pulses do at the motor. */

/** Rise times of the switches in use, 10 to 90 %, seconds: fastest silicon carbide, usual, slow (L. Saunders and others, IEEE PCIC 1996, from memory; SiC read in a paper). */
const USUAL_RISE_S = 0.1e-6;
const FASTEST_RISE_S = 0.01e-6;

export const criticalLength: Check = {
  slug: 'critical-length',
  rule: 'Length over 1.25 × rise time × velocity / 2 lets the edge double.',
  title: 'Critical length',
  authority: 'estimate',
  source:
    'v tr / 2 with the whole ramp, 1.25 times the 10 to 90 % rise time (text-book; A. von Jouanne, P. Enjeti, W. Gray 1996, from memory)',
  why: 'A cable longer than this lets each edge double at the motor before the wave can come back. IEC 60034-18-41: more than twice the bus is possible with double transitions.',
  scope: 'run',
  judge(scope): readonly Finding[] {
    const { motor, drive, cables } = scope;
    const subject = elementSubject(motor);
    const runs = [motor.tag];
    const missing: Missing[] = cables.filter((cable) => cable.kind === 'cable').flatMap((cable) => missingOf(cable, 'length_m'));
    const rise_s = drive.riseTime_s;
    if (missing.length > 0) return [openFinding(this, subject, runs, missing)];
    const wave = waveOf(scope, 1, rise_s ?? USUAL_RISE_S);
    if (!wave) return [notApplicable(this, subject, runs, 'No cable between drive and motor.')];
    const shown = {
      quantity: 'length from drive to motor',
      value: wave.input.length_m,
      limit: wave.critical_m,
      unit: 'm',
      margin_pct: marginBelow(wave.input.length_m, wave.critical_m),
      inputs: [...given(drive, 'riseTime_s'), ...cables.flatMap((cable) => given(cable, 'length_m', 'lengthMost_m'))],
      working: wave.working.slice(0, 1),
      assumptions: wave.assumptions.slice(0, 1),
    };
    if (rise_s === undefined) {
      return [
        openFinding(this, subject, runs, [lacks(drive, 'riseTime_s')], {
          ...shown,
          phrase: 'rise time?',
          text: `The rise time of ${drive.tag} is not known; at a usual ${USUAL_RISE_S * 1e6} µs the critical length would be ${fixed(wave.critical_m, 1)} m, and the way is ${fixed(wave.input.length_m, 1)} m.`,
        }),
      ];
    }
    const longer = exceeds(wave.input.length_m, wave.critical_m);
    return [
      finding(this, subject, runs, {
        ...shown,
        verdict: longer ? 'note' : 'pass',
        phrase: longer ? 'full reflection' : 'short of critical length',
        text: `From ${drive.tag} to ${motor.tag} it is ${fixed(wave.input.length_m, 1)} m; the critical length at ${fixed(rise_s * 1e6, 2)} µs is ${fixed(wave.critical_m, 1)} m${longer ? ': the peak at the motor is the full one' : ''}.`,
        remedies: longer ? ['See the peak at the motor.'] : [],
      }),
    ];
  },
};

interface Limit {
  readonly peak_V: number;
  readonly name: string;
  readonly authority: 'standard' | 'manual' | 'project';
  /** Part 30: no fast edge is allowed at all. */
  readonly slowOnly: boolean;
}

function limitOf({ motor, project }: RunScope): Limit | null {
  const own = project.limits.motorPeak_V;
  const rated = motor.ratedVoltage_V;
  const ivic = { 'ivic-a': 1.1, 'ivic-b': 1.5, 'ivic-c': 2.0, 'ivic-d': 2.5 } as const;
  let limit: Limit | null = null;
  switch (motor.insulation) {
    case undefined:
      break;
    case 'entered':
      limit =
        motor.peakLimit_V === undefined
          ? null
          : { peak_V: motor.peakLimit_V, name: 'the motor maker’s limit', authority: 'manual', slowOnly: false };
      break;
    case 'mg1-part-30':
      limit = { peak_V: 1000, name: 'NEMA MG 1 Part 30', authority: 'standard', slowOnly: true };
      break;
    case 'mg1-part-31':
      limit =
        rated === undefined
          ? null
          : { peak_V: 3.1 * rated, name: 'NEMA MG 1 Part 31 (3.1 × rated voltage)', authority: 'standard', slowOnly: false };
      break;
    default:
      limit =
        rated === undefined
          ? null
          : {
              peak_V: ivic[motor.insulation] * 1.35 * rated,
              name: `IEC 60034-18-41 category ${motor.insulation.slice(-1).toUpperCase()} (from memory)`,
              authority: 'standard',
              slowOnly: false,
            };
  }
  if (limit && own !== undefined && own < limit.peak_V)
    return { peak_V: own, name: 'the limit of this project', authority: 'project', slowOnly: limit.slowOnly };
  return limit;
}

export const motorPeakVoltage: Check = {
  slug: 'motor-peak-voltage',
  rule: 'The peak at the motor at nominal supply must not exceed what its winding is built for; within 10 % of line or at the braking bus a caution.',
  title: 'Peak voltage at the motor',
  authority: 'standard',
  source: 'NEMA MG 1 Parts 30 and 31 (D. Bogh, J. Coffee, G. Stone, IEEE PCIC-2004-27); IEC 60034-18-41; exact lattice of a lossy line',
  why: 'The motor’s winding is a wall to the wave: each edge of the drive rises to nearly twice the bus there, thousands of times a second, and wears out insulation that was not built for it.',
  scope: 'run',
  judge(scope): readonly Finding[] {
    const { motor, drive, cables, boxes, nominal_V } = scope;
    const subject = elementSubject(motor);
    const runs = [motor.tag];
    const filter = boxes.find((box) => box.kind === 'filter' && (box.role === 'dvdt' || box.role === 'sine' || box.role === 'terminator'));
    const softened = boxes.find((box) => box.kind === 'reactor' || box.kind === 'filter' || box.kind === 'transformer');
    const limit = limitOf(scope);
    const provisional: Limit = { peak_V: 1000, name: 'NEMA MG 1 Part 30, provisionally', authority: 'standard', slowOnly: true };
    const judged = limit ?? provisional;
    const missing: Missing[] = [
      ...(motor.insulation === undefined
        ? [lacks(motor, 'insulation')]
        : motor.insulation === 'entered'
          ? missingOf(motor, 'peakLimit_V')
          : limit
            ? []
            : missingOf(motor, 'ratedVoltage_V')),
      ...cables.filter((cable) => cable.kind === 'cable').flatMap((cable) => missingOf(cable, 'length_m')),
    ];
    if (nominal_V === null)
      return [openFinding(this, subject, runs, missing, { text: 'Cannot be judged yet: the supply voltage of its drive is not known.' })];
    const reactor = reactorAtDrive(scope);
    if (reactor) missing.push(...missingOf(reactor, 'impedance_pct', 'ratedVoltage_V', 'ratedCurrent_A'));
    if (softened && !reactor) {
      const stated = filter?.kind === 'filter' ? filter.motorPeak_V : undefined;
      if (stated === undefined) {
        return [
          openFinding(this, subject, runs, [...missing, ...(softened.kind === 'filter' ? [lacks(softened, 'motorPeak_V')] : [])], {
            phrase: `peak behind ${softened.tag}?`,
            text: `${softened.tag} between drive and motor changes the wave; without its maker’s figure for the peak at the motor it is not judged here.`,
          }),
        ];
      }
      if (missing.length > 0) return [openFinding(this, subject, runs, missing)];
      const over = exceeds(stated, judged.peak_V);
      return [
        finding(this, subject, runs, {
          verdict: over ? 'fail' : 'pass',
          authority: judged.authority,
          quantity: 'peak, stated by the maker of the filter',
          inputs: [...given(softened, 'motorPeak_V'), ...given(motor, 'insulation', 'peakLimit_V', 'ratedVoltage_V')],
          working: [`${fixed(stated, 1)} V stated, ${fixed(judged.peak_V, 1)} V allowed`],
          value: stated,
          limit: judged.peak_V,
          unit: 'V',
          margin_pct: marginBelow(stated, judged.peak_V),
          phrase: `${fixed(stated, 0)} V at the motor`,
          text: `Behind ${softened.tag} its maker states ${fixed(stated, 0)} V at the motor; ${judged.name} allows ${fixed(judged.peak_V, 0)} V.`,
        }),
      ];
    }
    const bus = busVoltage_V(nominal_V);
    const solve = (rise_s: number): Wave | null => (reactor ? behindReactor(scope, reactor, bus, rise_s) : waveOf(scope, bus, rise_s));
    const wave = solve(drive.riseTime_s ?? FASTEST_RISE_S);
    if (!wave)
      return [
        missing.length > 0
          ? openFinding(this, subject, runs, missing)
          : notApplicable(this, subject, runs, 'No cable between drive and motor.'),
      ];
    const value = wave.central_V;
    const perVolt = value / bus;
    const highLine = perVolt * bus * 1.1;
    const braking = drive.brakingBus_V === undefined ? 0 : perVolt * drive.brakingBus_V;
    const shown = {
      authority: judged.authority,
      quantity: 'peak line to line, nominal supply',
      case: 'rated' as const,
      inputs: [
        ...given(drive, 'riseTime_s', 'brakingBus_V'),
        ...given(motor, 'insulation', 'peakLimit_V', 'ratedVoltage_V', 'ratedPower_W'),
        ...cables.flatMap((cable) => given(cable, 'length_m', 'lengthMost_m', 'construction', 'insulation.type', 'conductor.size')),
      ],
      value,
      limit: judged.peak_V,
      unit: 'V',
      margin_pct: marginBelow(value, judged.peak_V),
      working: [
        `bus = √2 × ${fixed(nominal_V, 0)} V = ${fixed(bus, 1)} V, unloaded`,
        ...wave.working,
        `peak ${fixed(value, 1)} V; ${reactor ? 'with little core loss' : 'linear rule'}, upper bound ${fixed(wave.high_V, 1)} V; at +10 % line ${fixed(highLine, 1)} V${braking > 0 ? `; braking ${fixed(braking, 1)} V` : ''}`,
      ],
      assumptions: [
        ...wave.assumptions,
        ...(motor.ratedPower_W === undefined
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
    const fails = exceeds(value, judged.peak_V);
    if (missing.length > 0) {
      return [
        openFinding(this, subject, runs, missing, {
          ...shown,
          text: `${fixed(value, 0)} V at ${motor.tag}; what its winding is built for is not known. As a general-purpose motor (1000 V) it would ${fails ? 'fail' : 'be within its limit'}.`,
        }),
      ];
    }
    if (drive.riseTime_s === undefined && fails) {
      const usual = solve(0.2e-6);
      if (usual && !exceeds(usual.central_V, judged.peak_V)) {
        return [
          openFinding(this, subject, runs, [lacks(drive, 'riseTime_s')], {
            ...shown,
            text: `With the fastest edge ${fixed(value, 0)} V stand at ${motor.tag}, over ${fixed(judged.peak_V, 0)} V; with a slow one ${fixed(usual.central_V, 0)} V. The rise time of ${drive.tag} decides.`,
          }),
        ];
      }
    }
    const near = !fails && (exceeds(highLine, judged.peak_V) || exceeds(braking, judged.peak_V) || exceeds(wave.high_V, judged.peak_V));
    const shortLead = wave.input.length_m === 0;
    // Part 30 asks for 2 µs: a reactor may give it.
    const slow = typeof wave.atMotor_s === 'number' && !exceeds(2e-6, wave.atMotor_s);
    const edge = judged.slowOnly && !fails && !shortLead && !slow;
    const straddles =
      !fails && exceeds(wave.high_V, judged.peak_V)
        ? ` The upper bound, ${fixed(wave.high_V, 0)} V, lies above the limit: the band straddles it.`
        : '';
    return [
      finding(this, subject, runs, {
        ...shown,
        verdict: fails ? 'fail' : near || edge ? 'caution' : 'pass',
        phrase: `${fixed(value, 0)} V at the motor`,
        text: `${fixed(value, 0)} V stand at ${motor.tag} on each edge; ${judged.name} allows ${fixed(judged.peak_V, 0)} V.${near && !straddles ? ` At +10 % line${braking > highLine ? ' or while braking' : ''} it is ${fixed(Math.max(highLine, braking), 0)} V.` : ''}${straddles}${edge ? ' Part 30 also asks for edges no faster than 2 µs, which this drive does not give.' : ''}`,
      }),
    ];
  },
};
