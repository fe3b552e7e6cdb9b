import { USUAL_RISE_S } from '../catalog/riseTimes.ts';
import type { Cable } from '../lineup/cable.ts';
import type { Element } from '../lineup/elements.ts';
import { fixed } from '../lineup/roundTo.ts';
import { chargingCurrent } from '../physics/wave/chargingCurrent.ts';
import { criticalLength_m } from '../physics/wave/latticePeak.ts';
import { cableLine } from './cableLine.ts';
import { worstLength_m } from './cableModel.ts';
import {
  type Check,
  type CheckFacts,
  elementSubject,
  exceeds,
  finding,
  given,
  lacks,
  lengthSaid,
  manualOf,
  marginBelow,
  missingOf,
  notApplicable,
  type OutputScope,
  openFinding,
  tagsOf,
  unknownOf,
  voltageGiven,
  voltageMissing,
} from './check.ts';
import type { Finding, Missing, Verdict } from './finding.ts';
import { waysBehind } from './outputWays.ts';
import { busAssumed, busVoltage_V } from './runWave.ts';
import { drawnHere } from './seenThrough.ts';
import { carrierOf } from './shieldPath.ts';
import { turnedRange } from './turnedRange.ts';

/** What hangs on all cable behind a drive together: charging current, the manual's lengths, filters and transformers. */

/** Metres of all cable that is connected, each set counted: the long end of a range; null when one is not known. */
function connected_m(cables: readonly Cable[]): number | null {
  let sum = 0;
  for (const cable of cables) {
    const length = worstLength_m(cable);
    if (length === null) return null;
    sum += length * (cable.conductor.sets ?? 1);
  }
  return sum;
}
const lengthsMissing = (cables: readonly Cable[]): readonly Missing[] =>
  cables.flatMap((cable) => (cable.kind === 'link' ? [] : missingOf(cable, 'length_m', 'conductor.sets')));
const sumOf = (cables: readonly Cable[]): string =>
  cables
    .filter((cable) => cable.kind === 'cable')
    .map(
      (cable) =>
        `${cable.tag} ${(cable.conductor.sets ?? 1) > 1 ? `${cable.conductor.sets} × ` : ''}${fixed(worstLength_m(cable) ?? 0, 1)} m`,
    )
    .join(' + ');

/** What is left of the wave after a way there and back: that of a published worked example; loss and reflection together. */
const ROUND_TRIP = 0.85;
/** How far the currents may be off: loose conductors are never where they were drawn. */
const SPREAD = 0.4;

export const chargingCurrentCheck: Check = {
  slug: 'charging-current',
  rule: 'Motor and charging current together within the drive’s rating, the peak within twice of it. Never a fail: the maker’s length limit decides.',
  title: 'Cable charging current',
  authority: 'estimate',
  source:
    'first launch of an edge into the modes of the cable, from a field solution of typical cross-sections; ± 40 %; the maker’s own table wins',
  why: 'Every edge must fill the cable before anything reaches the motor. Small drives have no amperes to spare for it, and shielded or thicker cable takes more.',
  scope: 'output',
  judge({ drive, cables, motors, motorsSeen, between, nominal_V, voltageFrom, parts, basis, project }): readonly Finding[] {
    const subject = elementSubject(drive);
    const runs = tagsOf(motors);
    const all = cables.filter((cable) => cable.kind === 'cable');
    if (all.length === 0) return [notApplicable(this, subject, runs, 'No cable behind it.')];
    const ways = waysBehind({ drive, cables, parts });
    const softener = (cable: Cable) =>
      ways.before(cable).find((part) => part.kind === 'reactor' || (part.kind === 'filter' && part.role !== 'terminator'));
    // What lies behind a coil is charged by way of it; what lies ahead of one takes the whole edge.
    const real = all.filter((cable) => !softener(cable));
    const { outputCurrent_A } = drive;
    const { missing: undrawn, inputs: drawn, sum_A: motor_A, through } = drawnHere(motors, motorsSeen, between);
    // Nothing that is done to the cable helps where the motor alone takes more than the drive gives.
    const alone = outputCurrent_A !== undefined && exceeds(motor_A, outputCurrent_A);
    const larger = 'A larger drive.';
    const [softened] = all.flatMap((cable) => softener(cable) ?? []);
    if (real.length === 0) {
      const unsaid = [...missingOf(drive, 'outputCurrent_A'), ...undrawn];
      if (unsaid.length > 0 || outputCurrent_A === undefined) return [openFinding(this, subject, runs, unsaid)];
      if (alone)
        return [
          finding(this, subject, runs, {
            verdict: 'caution',
            case: 'rated',
            quantity: 'motor current, of the drive’s rating',
            value: (100 * motor_A) / outputCurrent_A,
            limit: 100,
            unit: '%',
            margin_pct: marginBelow(motor_A, outputCurrent_A),
            phrase: 'motor alone over the drive',
            text: `${tagsOf(motors).join(', ')} alone draw ${fixed(motor_A, 1)} A${through} of the ${fixed(outputCurrent_A, 1)} A that ${drive.tag} gives: ${softened?.tag} leaves nothing for its cable.`,
            inputs: [...given(drive, 'outputCurrent_A'), ...drawn],
            working: [`${fixed(motor_A, 2)} A against ${fixed(outputCurrent_A, 2)} A`],
            remedies: [larger],
          }),
        ];
      return [
        notApplicable(
          this,
          subject,
          runs,
          `${softened?.tag} stands between the drive and its cable and takes the edge: its maker’s figures hold.`,
        ),
      ];
    }
    const total = connected_m(real);
    const missing = [
      ...lengthsMissing(real),
      ...missingOf(drive, 'carrier_Hz', 'outputCurrent_A'),
      ...undrawn,
      ...(nominal_V === null ? voltageMissing(voltageFrom) : []),
    ];
    const { carrier_Hz } = drive;
    if (missing.length > 0 || total === null || carrier_Hz === undefined || outputCurrent_A === undefined || nominal_V === null)
      return [
        openFinding(
          this,
          subject,
          runs,
          missing,
          missing.length > 0 ? {} : { text: 'Cannot be judged yet: the supply voltage of the drive is not known.' },
        ),
      ];
    const first = real.filter((cable) => ways.first.includes(cable));
    const [lead] = first;
    const line = lead ? cableLine(lead, basis) : null;
    if (!lead || !line)
      return [
        openFinding(this, subject, runs, lead ? [lacks(lead, 'insulation.wall_mm')] : [], {
          text: 'The size and wall of the cable give no line that a wave could run on: mend them, or enter its capacitance.',
        }),
      ];
    // One set: each takes its own.
    const differential_ohm = (line.impedanceLL_ohm * line.sets) / 2;
    const bus_V = busVoltage_V(nominal_V, drive);
    const rise_s = drive.riseTime_s ?? USUAL_RISE_S;
    const sets = first.reduce((sum, cable) => sum + (cable.conductor.sets ?? 1), 0);
    const { peak_A, rms_A } = chargingCurrent({
      bus_V,
      differential_ohm,
      common_ohm: line.common_ohm,
      length_m: total,
      critical_m: criticalLength_m(line.slowest_mPerS, rise_s),
      velocity_mPerS: line.velocity_mPerS,
      carrier_Hz,
      roundTrip: ROUND_TRIP,
      sets,
    });
    const together = Math.hypot(motor_A, rms_A);
    const value = (100 * together) / outputCurrent_A;
    const over = exceeds(value, 100) || exceeds(peak_A, 2 * outputCurrent_A);
    const near = exceeds(value, 90) && !exceeds((100 * motor_A) / outputCurrent_A, 90);
    const [low, high] = [1 - SPREAD, 1 + SPREAD].map((each) => (100 * Math.hypot(motor_A, each * rms_A)) / outputCurrent_A) as [
      number,
      number,
    ];
    const straddles = !over && exceeds(high, 100);
    const verdict: Verdict = over ? 'caution' : near || straddles ? 'note' : 'pass';
    return [
      finding(this, subject, runs, {
        verdict,
        case: 'rated',
        quantity: 'motor and charging current, of the drive’s rating',
        value,
        band: { low, high, confidence: 'rough' },
        limit: 100,
        unit: '%',
        margin_pct: marginBelow(value, 100),
        phrase: `charging ${fixed(peak_A, 0)} A peak`,
        text: `${lengthSaid(total, project)} of cable behind ${drive.tag} take about ${fixed(peak_A, 0)} A at each edge (${fixed((1 - SPREAD) * peak_A, 0)} to ${fixed((1 + SPREAD) * peak_A, 0)}) and ${fixed(rms_A, 1)} A effective at ${fixed(carrier_Hz / 1000, 1)} kHz; with ${fixed(motor_A, 1)} A of motor${through} that is ${fixed(value, 0)} % of its ${fixed(outputCurrent_A, 1)} A${exceeds(peak_A, 2 * outputCurrent_A) ? ', and the peak is over twice its rating' : ''}.${alone ? ' The motor alone is over it: nothing done to the cable cures that.' : ''}${straddles ? ` It may be up to ${fixed(high, 0)} %: the band straddles the limit.` : ''}`,
        inputs: [
          ...given(drive, 'carrier_Hz', 'outputCurrent_A', 'riseTime_s', 'frontEnd', 'busRaise_pct'),
          ...voltageGiven(voltageFrom),
          ...drawn,
          ...real.flatMap((cable) => given(cable, 'length_m', 'lengthMost_m', 'conductor.sets', 'construction')),
        ],
        working: [
          `connected: ${sumOf(real)} = ${fixed(total, 1)} m${softened ? `, behind ${softened.tag} none` : ''}`,
          `I = 2/3 × ${fixed(bus_V, 0)} V / ${fixed(differential_ohm, 1)} Ω + 1/3 × ${fixed(bus_V, 0)} V / ${fixed(line.common_ohm, 0)} Ω, ${sets} set${sets === 1 ? '' : 's'}, at the length: ${fixed(peak_A, 2)} A`,
          `effective: × √(4 td f / (1 − ${ROUND_TRIP}²)) = ${fixed(rms_A, 2)} A`,
          `√(${fixed(motor_A, 2)}² + ${fixed(rms_A, 2)}²) = ${fixed(together, 2)} A`,
        ],
        assumptions: [
          {
            what: 'surge impedance of the cable, differential and common',
            value: `${fixed(differential_ohm, 0)} and ${fixed(line.common_ohm, 0)} Ω`,
            source: line.source,
          },
          ...busAssumed(drive),
          { what: 'left of the wave after a round trip', value: `${ROUND_TRIP}`, source: 'a published worked example; high estimate' },
          ...(drive.riseTime_s === undefined
            ? [{ what: `rise time of ${drive.tag}`, value: `${fixed(USUAL_RISE_S * 1e6, 1)} µs`, source: 'usual, fast (common practice)' }]
            : []),
        ],
        remedies:
          verdict === 'pass'
            ? []
            : alone
              ? [larger]
              : [
                  'A lower carrier frequency (more noise from the motor).',
                  'A reactor at the drive (costs volts).',
                  larger,
                  'A shorter way, or the drive at the motor.',
                  'Thicker wire makes it worse.',
                ],
      }),
    ];
  },
};

export const manualLimits: Check = {
  slug: 'manual-limits',
  rule: 'All cable connected, sets counted, within the length the manual gives for this kind of cable; and within that for the emission category at this carrier.',
  title: 'Lengths in the manual',
  authority: 'manual',
  source: 'the drive’s own manual',
  why: 'The maker has found out how much cable his drive can charge, and to what length it keeps its emission category. Each limit is a number of its own: one does not stand for the other.',
  scope: 'output',
  judge(scope): readonly Finding[] {
    const { drive, cables, motors } = scope;
    const subject = elementSubject(drive);
    const runs = tagsOf(motors);
    const real = cables.filter((cable) => cable.kind === 'cable');
    if (real.length === 0) return [notApplicable(this, subject, runs, 'No cable behind it.')];
    const total = connected_m(cables);
    if (total === null || real.some((cable) => cable.conductor.sets === undefined))
      return [openFinding(this, subject, runs, lengthsMissing(cables))];
    return [thermalLimit(this, scope), ...emissionLimit(this, scope, total)];
  },
};

function thermalLimit(check: CheckFacts, { drive, cables, parts, motors, project }: OutputScope): Finding {
  const subject = elementSubject(drive);
  const runs = tagsOf(motors);
  const id = `${check.slug}/element/${drive.id}/length`;
  const real = cables.filter((cable) => cable.kind === 'cable');
  // A shield makes the way shorter that a drive can charge, in a pipe too: what a cable is built like must be known.
  const unbuilt = real.filter((cable) => cable.construction === undefined);
  if (unbuilt.length > 0)
    return openFinding(
      check,
      subject,
      runs,
      unbuilt.map((cable) => lacks(cable, 'construction')),
      { id },
    );
  const ways = waysBehind({ drive, cables, parts });
  // A terminator at the motor leaves the drive all of its cable to charge, and what a filter is must be known before it counts.
  const softens = (part: Element): boolean =>
    part.kind === 'reactor' || (part.kind === 'filter' && (part.role === 'dvdt' || part.role === 'sine'));
  const ahead = real.filter((cable) => !ways.before(cable).some(softens));
  const { lengthWithReactor_m } = drive.manual ?? {};
  const softened = lengthWithReactor_m !== undefined && ahead.length < real.length;
  // What lies ahead of a reactor or filter is without one: both lengths must be kept.
  const rows: readonly LengthRow[] = softened
    ? [
        { cables: real, said: '', limits: [{ path: 'manual.lengthWithReactor_m', most_m: lengthWithReactor_m }] },
        ...(ahead.length > 0 ? [bareRow(drive, ahead)] : []),
      ]
    : [bareRow(drive, real)];
  const judged = rows.map((row) => lengthOf(check, { drive, motors, project }, row, id, softened));
  const worst = (['fail', 'open'] as const).map((verdict) => judged.find((each) => each.verdict === verdict)).find((each) => each);
  return worst ?? judged.reduce((a, b) => ((b.margin_pct ?? 0) < (a.margin_pct ?? 0) ? b : a));
}

interface LengthRow {
  readonly cables: readonly Cable[];
  /** What kind of cable. */
  readonly said: string;
  readonly limits: readonly { readonly path: string; readonly most_m: number | undefined }[];
}

/** Without reactor or filter. Of cable that is partly shielded the shorter length holds. */
function bareRow({ manual }: OutputScope['drive'], cables: readonly Cable[]): LengthRow {
  const shielded = cables.filter((cable) => carrierOf(cable) === 'shield');
  const said = shielded.length === cables.length ? 'shielded' : shielded.length === 0 ? 'unshielded' : 'partly shielded';
  return {
    cables,
    said,
    limits: [
      ...(said === 'unshielded' ? [] : [{ path: 'manual.lengthShielded_m', most_m: manual?.lengthShielded_m }]),
      ...(said === 'shielded' ? [] : [{ path: 'manual.lengthUnshielded_m', most_m: manual?.lengthUnshielded_m }]),
    ],
  };
}

function lengthOf(
  check: CheckFacts,
  { drive, motors, project }: Pick<OutputScope, 'drive' | 'motors' | 'project'>,
  { cables, said, limits }: LengthRow,
  id: string,
  softened: boolean,
): Finding {
  const subject = elementSubject(drive);
  const runs = tagsOf(motors);
  const total = connected_m(cables) ?? 0;
  const limit = Math.min(...limits.map(({ most_m }) => most_m ?? Number.POSITIVE_INFINITY));
  const over = exceeds(total, limit);
  const missing = limits.filter(({ most_m }) => most_m === undefined).map(({ path }) => lacks(drive, path));
  const kind = said === '' ? '' : `${said} `;
  const where = softened && said !== '' ? ' ahead of a reactor or filter' : '';
  if (missing.length > 0 && !over)
    return openFinding(check, subject, runs, missing, {
      id,
      text: `${lengthSaid(total, project)} of ${kind}cable hang on ${drive.tag}${where}; how much its manual allows is not entered.`,
    });
  return finding(check, subject, runs, {
    id,
    verdict: over ? 'fail' : 'pass',
    source: manualOf(drive),
    quantity: 'cable connected, sets counted',
    value: total,
    limit,
    unit: 'm',
    margin_pct: marginBelow(total, limit),
    phrase: `${lengthSaid(total, project)} of ${lengthSaid(limit, project)}`,
    text: `${lengthSaid(total, project)} of ${kind}cable hang on ${drive.tag}${where}; its manual allows ${lengthSaid(limit, project)}${said === '' ? ' with a reactor or filter' : ''}.`,
    inputs: [
      ...given(drive, ...limits.map(({ path }) => path), 'manual.page'),
      ...cables.flatMap((cable) => given(cable, 'length_m', 'lengthMost_m', 'conductor.sets', 'construction')),
    ],
    working: [`${sumOf(cables)} = ${fixed(total, 2)} m`],
    remedies: over
      ? ['The drive nearer to the motor.', 'A reactor or filter, where the manual gives a longer length with it.', 'One drive a motor.']
      : [],
  });
}

function emissionLimit(check: CheckFacts, { drive, cables, motors, project }: OutputScope, total: number): readonly Finding[] {
  const category = project.emcCategory;
  if (category === undefined || category === 'none') return [];
  const subject = elementSubject(drive);
  const runs = tagsOf(motors);
  const id = `${check.slug}/element/${drive.id}/emission`;
  const { carrier_Hz } = drive;
  const rows = (drive.manual?.emcLengths ?? []).filter((row) => row.category === category);
  // The row whose carrier is the next at or above ours; one without a carrier holds for all.
  const fitting = rows
    .filter((row) => row.carrier_Hz === undefined || (carrier_Hz !== undefined && row.carrier_Hz >= carrier_Hz))
    .sort((a, b) => (a.carrier_Hz ?? Number.POSITIVE_INFINITY) - (b.carrier_Hz ?? Number.POSITIVE_INFINITY))[0];
  const missing = [
    ...(rows.some((row) => row.carrier_Hz !== undefined) ? missingOf(drive, 'carrier_Hz') : []),
    ...(fitting
      ? []
      : [
          unknownOf(drive, 'manual.emcLengths', {
            label: `Length for category ${category}`,
            named: `Length for category ${category} in the manual of |`,
            ask: 'drive supplier',
          }),
        ]),
  ];
  if (!fitting || missing.length > 0)
    return [
      openFinding(check, subject, runs, missing, {
        id,
        text: `Category ${category} is asked; to what length ${drive.tag} keeps it at its carrier is not entered.`,
      }),
    ];
  const over = exceeds(total, fitting.length_m);
  return [
    finding(check, subject, runs, {
      id,
      verdict: over ? 'fail' : 'pass',
      source: manualOf(drive),
      quantity: `cable connected, for category ${category}`,
      value: total,
      limit: fitting.length_m,
      unit: 'm',
      margin_pct: marginBelow(total, fitting.length_m),
      phrase: `${category}: ${lengthSaid(total, project)} of ${lengthSaid(fitting.length_m, project)}`,
      text: `Category ${category} is asked; ${drive.tag} keeps it to ${lengthSaid(fitting.length_m, project)}${fitting.carrier_Hz === undefined ? '' : ` at ${fixed(fitting.carrier_Hz / 1000, 1)} kHz`}, and ${lengthSaid(total, project)} are connected.`,
      inputs: [
        ...given(drive, 'carrier_Hz', 'manual.page'),
        ...cables.flatMap((cable) => given(cable, 'length_m', 'lengthMost_m', 'conductor.sets')),
      ],
      working: [`${sumOf(cables)} = ${fixed(total, 2)} m`],
      remedies: over
        ? [
            'A lower carrier, where the manual gives a longer length for it.',
            'An external filter rated for the length.',
            'The drive nearer to the motor.',
          ]
        : [],
    }),
  ];
}

export const carrierWindow: Check = {
  slug: 'carrier-window',
  rule: 'The drive’s carrier lies within the least and the most that each output filter is made for.',
  title: 'Carrier and filter',
  authority: 'manual',
  source: 'the filter maker’s data',
  why: 'A filter is a tuned circuit. Below its least carrier it resonates and overheats; above its most, its core does.',
  scope: 'output',
  judge({ drive, parts, motors }): readonly Finding[] {
    const runs = tagsOf(motors);
    const filters = parts
      .filter((part) => part.kind === 'filter')
      .filter((part) => part.role === 'sine' || part.role === 'dvdt' || part.role === undefined);
    if (filters.length === 0) return [notApplicable(this, elementSubject(drive), runs, 'No output filter.')];
    return filters.map((filter) => {
      const subject = elementSubject(filter);
      const { carrierLeast_Hz: least, carrierMost_Hz: most } = filter;
      if (least !== undefined && most !== undefined && exceeds(least, most))
        return openFinding(this, subject, runs, [], turnedRange(filter, 'carrierLeast_Hz', 'carrierMost_Hz'));
      const carrier = drive.carrier_Hz;
      const missing = [...missingOf(filter, 'carrierLeast_Hz', 'carrierMost_Hz'), ...missingOf(drive, 'carrier_Hz')];
      const out =
        carrier !== undefined && ((least !== undefined && exceeds(least, carrier)) || (most !== undefined && exceeds(carrier, most)));
      if (!out && (missing.length > 0 || least === undefined || most === undefined || carrier === undefined))
        return openFinding(this, subject, runs, missing);
      const below = carrier !== undefined && least !== undefined && exceeds(least, carrier);
      const limit = (below ? least : most) ?? null;
      return finding(this, subject, runs, {
        verdict: out ? 'fail' : 'pass',
        quantity: 'carrier',
        value: carrier ?? null,
        limit,
        unit: 'Hz',
        phrase: `${fixed((carrier ?? 0) / 1000, 1)} kHz`,
        text: `${drive.tag} runs at ${fixed((carrier ?? 0) / 1000, 2)} kHz; ${filter.tag} is made for ${least === undefined ? '?' : fixed(least / 1000, 2)} to ${most === undefined ? '?' : fixed(most / 1000, 2)} kHz.`,
        inputs: [...given(drive, 'carrier_Hz'), ...given(filter, 'carrierLeast_Hz', 'carrierMost_Hz')],
        working: [`${fixed((carrier ?? 0) / 1000, 3)} kHz against ${limit === null ? '?' : fixed(limit / 1000, 3)} kHz`],
        remedies: out
          ? ['Set the carrier within the window, and look at the motor’s noise and the drive’s derating.', 'Another filter.']
          : [],
      });
    });
  },
};

export const outputTransformer: Check = {
  slug: 'output-transformer',
  rule: 'Behind a drive only with a sine filter ahead of it and its maker’s word that it may run from a drive at low speed.',
  title: 'Transformer on the output',
  authority: 'manual',
  source: 'drive makers’ published manuals: sine filter ahead; the transformer maker’s word on low speed and boost',
  why: 'A transformer is not made for pulses, and at low speed with boost its core saturates. Behind it everything is judged at the new voltage, and the shield begins anew.',
  scope: 'output',
  judge({ drive, cables, parts, motors }): readonly Finding[] {
    const runs = tagsOf(motors);
    const ways = waysBehind({ drive, cables, parts });
    const found = parts.filter((part) => part.kind === 'transformer');
    if (found.length === 0) return [notApplicable(this, elementSubject(drive), runs, 'No transformer behind it.')];
    return found.map((transformer) => {
      const subject = elementSubject(transformer);
      const filtered = ways.ahead(transformer).some((part) => part.kind === 'filter' && part.role === 'sine');
      const inputs = given(transformer, 'driveDuty');
      const remedies = ['A sine filter between drive and transformer.', 'The maker’s word in writing, low speed and boost included.'];
      if (!filtered)
        return finding(this, subject, runs, {
          verdict: 'fail',
          phrase: 'no sine filter ahead',
          text: `${transformer.tag} stands behind ${drive.tag} without a sine filter ahead of it.`,
          inputs: [...inputs, ...given(drive, 'carrier_Hz')],
          remedies,
        });
      if (transformer.driveDuty === undefined) return openFinding(this, subject, runs, missingOf(transformer, 'driveDuty'));
      return finding(this, subject, runs, {
        verdict: transformer.driveDuty ? 'pass' : 'fail',
        phrase: transformer.driveDuty ? 'made for it' : 'not made for it',
        text: `${transformer.tag} stands behind a sine filter and its maker ${transformer.driveDuty ? 'allows' : 'does not allow'} it behind a drive.`,
        inputs,
        remedies: transformer.driveDuty ? [] : remedies,
      });
    });
  },
};
