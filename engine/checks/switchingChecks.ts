import { tableCurrent_A } from '../catalog/motors.ts';
import type { ElementOf } from '../lineup/elements.ts';
import { fixed } from '../lineup/roundTo.ts';
import {
  type Check,
  elementSubject,
  exceeds,
  finding,
  given,
  lacks,
  marginAbove,
  marginBelow,
  missingOf,
  notApplicable,
  openFinding,
  tagsOf,
  voltageGiven,
} from './check.ts';
import { impedanceGaps, impedanceGiven } from './faultChecks.ts';
import type { Finding, Missing } from './finding.ts';
import { type Drawn, drawnHere, turnsGiven, turnsMissing } from './seenThrough.ts';
import { carrierOf } from './shieldPath.ts';

/** Switches and contactors between drive and motor, several motors on one drive, and the way around a drive. */

const IN_SERIES = 'Wire the early-break contacts of all switches of the run in series into the drive’s enable.';

export const outputDisconnect: Check = {
  slug: 'output-disconnect',
  rule: 'US: 115 % of the table current, or of the nameplate where that is higher; IEC: the rated current. An early-break contact stops the drive.',
  title: 'Disconnect on the output',
  authority: 'code',
  source: 'NEC 430.110 (115 %); drive makers’ manuals (early-break contact)',
  why: 'Opened under load, the switch cuts a running drive off from its motor: the arc and the surge harm both unless the drive is stopped first.',
  scope: 'element',
  judge({ element, side, motors, basis, drive, seriesBoxes, motorsSeen, between }): readonly Finding[] {
    if (element.kind !== 'disconnect' || side !== 'output') return [];
    const subject = elementSubject(element);
    const runs = tagsOf(motors);
    const found: Finding[] = [];
    const id = (part: string): string => `${this.slug}/element/${element.id}/${part}`;
    if (motors.length === 0) return [notApplicable(this, subject, runs, 'It feeds no motor.')];
    const others = seriesBoxes.filter((box) => box.kind === 'disconnect');
    const series = others.length > 0 ? ` It is in series with ${tagsOf(others).join(', ')}: ${IN_SERIES}` : '';

    // Rating: 115 % of the table current (US), the rated current (IEC).
    const rated = element.ratedCurrent_A;
    const missing: Missing[] = [...missingOf(element, 'ratedCurrent_A'), ...turnsMissing(between)];
    let plated = false;
    const currents = motors.map((motor, i) => {
      const table =
        basis === 'us' && motor.ratedPower_W !== undefined && motor.ratedVoltage_V !== undefined
          ? tableCurrent_A(motor.ratedPower_W, motor.ratedVoltage_V)
          : null;
      missing.push(...missingOf(motor, ...(basis === 'us' ? ['ratedPower_W', 'ratedVoltage_V'] : []), 'ratedCurrent_A'));
      // A plate above the table is that of a motor for low speed or high torque (430.6(A)(1)).
      const plate_A = motor.ratedCurrent_A ?? 0;
      if (table && exceeds(plate_A, table.current_A)) plated = true;
      return Math.max(table?.current_A ?? 0, plate_A) * (motorsSeen[i] ?? 1);
    });
    const need = (basis === 'us' ? 1.15 : 1) * currents.reduce((sum, current) => sum + current, 0);
    if (missing.length > 0 || rated === undefined) found.push(openFinding(this, subject, runs, missing, { id: id('rating') }));
    else {
      const short = exceeds(need, rated);
      found.push(
        finding(this, subject, runs, {
          id: id('rating'),
          verdict: short ? 'fail' : 'pass',
          source: basis === 'us' ? 'NEC 430.110(A), Table 430.250' : 'IEC 60364-4-43 (In ≥ Ib)',
          quantity: 'rated current of the switch',
          value: rated,
          limit: need,
          unit: 'A',
          margin_pct: marginAbove(rated, need),
          working: [
            `${basis === 'us' ? '1.15 × ' : ''}${fixed(
              currents.reduce((sum, current) => sum + current, 0),
              2,
            )} A = ${fixed(need, 2)} A`,
          ],
          phrase: `${fixed(rated, 0)} of ${fixed(need, 0)} A`,
          text: `${element.tag} is rated ${fixed(rated, 0)} A; ${fixed(need, 1)} A are needed${basis === 'us' ? ` (115 % of the ${plated ? 'nameplate, which is above the table' : 'table'} current)` : ''}.`,
          inputs: [
            ...given(element, 'ratedCurrent_A'),
            ...turnsGiven(between),
            ...motors.flatMap((motor) => given(motor, 'ratedPower_W', 'ratedVoltage_V', 'ratedCurrent_A')),
          ],
          remedies: short ? ['The next size of switch, rated for the motor’s power too.'] : [],
        }),
      );
    }
    const contact = element.earlyBreakContact;
    found.push(
      contact === undefined
        ? openFinding(this, subject, runs, missingOf(element, 'earlyBreakContact'), { id: id('contact') })
        : finding(this, subject, runs, {
            id: id('contact'),
            verdict: contact === 'wired' ? 'pass' : 'caution',
            authority: 'guide',
            source: 'drive makers’ published manuals',
            phrase: contact === 'wired' ? 'early-break contact wired' : 'no early-break contact',
            text: `${element.tag} ${contact === 'wired' ? `has an early-break contact that stops ${drive?.tag ?? 'the drive'} first.` : 'has no early-break contact: opened while the motor runs, it breaks a live drive output.'}${series}`,
            inputs: given(element, 'earlyBreakContact'),
            remedies:
              contact === 'wired'
                ? []
                : [
                    'An early-break auxiliary contact wired to the drive’s enable.',
                    'A sign: do not open while running.',
                    ...(series ? [IN_SERIES] : []),
                  ],
          }),
    );
    if (element.device === 'fuse' || element.device === 'fused-switch')
      found.push(
        finding(this, subject, runs, {
          id: id('fuses'),
          verdict: 'note',
          authority: 'manual',
          source: 'the drive’s own manual',
          phrase: 'fuses on the output',
          text: `${element.tag} has fuses on the output of ${drive?.tag ?? 'a drive'}: many makers advise against it; the drive’s manual decides.`,
          inputs: given(element, 'device'),
          remedies: ['A switch without fuses.'],
        }),
      );
    return found;
  },
};

export const outputContactor: Check = {
  slug: 'output-contactor',
  rule: 'It moves at zero current only.',
  title: 'Contactor on the output',
  authority: 'manual',
  source: 'drive makers’ published manuals: opens at zero current only; not under vector control',
  why: 'A contactor that opens or closes while the drive switches meets a fast arc and a motor at standstill: contacts weld, the drive trips, and a vector control loses its motor.',
  scope: 'element',
  judge({ element, side, motors, drive }): readonly Finding[] {
    if (element.kind !== 'contactor' || side !== 'output' || element.role === 'bypass') return [];
    const subject = elementSubject(element);
    const runs = tagsOf(motors);
    const safe = element.opensAtZeroCurrent;
    if (safe === undefined) return [openFinding(this, subject, runs, missingOf(element, 'opensAtZeroCurrent'))];
    if (safe && drive && drive.control === undefined) return [openFinding(this, subject, runs, [lacks(drive, 'control')])];
    const vector = drive?.control === 'vector';
    return [
      finding(this, subject, runs, {
        verdict: safe && !vector ? 'pass' : safe ? 'note' : 'caution',
        phrase: safe ? 'opens at zero current' : 'opens under current',
        text: `${element.tag} ${safe ? 'opens only when the drive is blocked' : 'may open while the drive delivers current'}${vector ? `; ${drive.tag} is under vector control, whose manual may forbid a contactor` : ''}.`,
        inputs: [...given(element, 'opensAtZeroCurrent'), ...(drive ? given(drive, 'control') : [])],
        remedies: safe ? [] : ['Wire it so that the drive is blocked before it moves.'],
      }),
    ];
  },
};

/** Starting current across the line, of rated: NEMA design B, from memory. */
const INRUSH = 6;
/** Power factor while starting: common practice. */
const START_PF = 0.35;
const START_DROP_PCT = 15;

export const bypass: Check = {
  slug: 'bypass',
  rule: 'An interlock keeps mains off the drive’s output; the motors are made for the supply’s voltage; starting across the line sags the voltage by 15 % at most.',
  title: 'Way around the drive',
  authority: 'manual',
  source: 'drive makers’ published manuals (mains on the output destroys the drive); NEC 430.122(C); common practice (15 % at starting)',
  why: 'With the way around closed the motor starts across the line: six times its current through the feeder, and mains a contactor’s width from the drive’s output.',
  scope: 'element',
  judge({ element, side, bypassed, bypassLeg, bypassParts, flow, nominal_V, voltageFrom, ahead }): readonly Finding[] {
    if (element.kind !== 'contactor' || element.role !== 'bypass' || side !== 'input') return [];
    const subject = elementSubject(element);
    const runs = tagsOf(bypassed);
    const id = (part: string): string => `${this.slug}/element/${element.id}/${part}`;
    const { interlock } = element;
    const found: Finding[] = [
      interlock === undefined
        ? openFinding(this, subject, runs, missingOf(element, 'interlock'), { id: id('interlock') })
        : finding(this, subject, runs, {
            id: id('interlock'),
            verdict: interlock === 'none' ? 'fail' : interlock === 'electrical' ? 'note' : 'pass',
            authority: interlock === 'none' ? 'physics' : 'manual',
            phrase: interlock === 'none' ? 'no interlock' : `${interlock === 'both' ? 'mechanical and electrical' : interlock} interlock`,
            text:
              interlock === 'none'
                ? `${element.tag} is not interlocked with the drive’s output: closed by mistake it puts mains on it.`
                : `${element.tag} has ${interlock === 'both' ? 'a mechanical and an electrical' : interlock === 'mechanical' ? 'a mechanical' : 'an electrical'} interlock${interlock === 'electrical' ? '; a mechanical one as well is usual' : ''}.`,
            inputs: given(element, 'interlock'),
            remedies: interlock === 'none' ? ['Interlock it mechanically and electrically with the drive’s output contactor.'] : [],
          }),
    ];
    const filter = bypassParts.find((part) => part.kind === 'filter' && (part.role === 'sine' || part.role === 'dvdt'));
    if (filter)
      found.push(
        finding(this, subject, runs, {
          id: id('filter'),
          case: 'bypass',
          verdict: 'caution',
          phrase: 'filter in the way around',
          text: `${filter.tag} lies in the way around the drive too: it must be rated for starting across the line, or stand between the drive and where the ways meet.`,
          inputs: given(filter, 'role', 'ratedCurrent_A'),
          remedies: ['Move the filter to the drive’s side of the output contactor.', 'A filter whose maker allows it.'],
        }),
      );
    const bare = bypassLeg.filter((cable) => carrierOf(cable) === 'none');
    const unknown = bypassLeg.filter((cable) => carrierOf(cable) === 'unknown');
    if (bare.length > 0)
      found.push(
        finding(this, subject, runs, {
          id: id('shield'),
          verdict: 'caution',
          authority: 'guide',
          source: 'drive makers’ published guides on shielding',
          phrase: 'way around unshielded',
          text: `${tagsOf(bare).join(', ')} in the way around ${bare.length === 1 ? 'has' : 'have'} no shield; while the drive runs, its pulses stand on it too.`,
          inputs: bare.flatMap((cable) => given(cable, 'construction', 'installation.raceway')),
          remedies: ['Shield the way around as the lead is, or open it at the motor’s side too.'],
        }),
      );
    else if (unknown.length > 0)
      found.push(
        openFinding(
          this,
          subject,
          runs,
          unknown.flatMap((cable) => missingOf(cable, 'construction', 'installation.raceway')),
          { id: id('shield') },
        ),
      );
    // The drive can be set to a motor of another voltage; the mains cannot.
    const strange =
      nominal_V === null || bypassParts.some(({ kind }) => kind === 'transformer')
        ? []
        : bypassed.filter(
            ({ ratedVoltage_V }) =>
              ratedVoltage_V !== undefined && (exceeds(ratedVoltage_V, 1.1 * nominal_V) || exceeds(0.9 * nominal_V, ratedVoltage_V)),
          );
    if (strange.length > 0)
      found.push(
        finding(this, subject, runs, {
          id: id('voltage'),
          case: 'bypass',
          verdict: 'fail',
          source: 'the nameplates; ± 10 % is usual (IEC 60038, NEMA MG 1 12.44, from memory)',
          phrase: 'another voltage around the drive',
          text: `${element.tag} puts ${fixed(nominal_V ?? 0, 0)} V on ${strange.map(({ tag, ratedVoltage_V }) => `${tag}, made for ${fixed(ratedVoltage_V ?? 0, 0)} V`).join(', and ')}.`,
          inputs: [...voltageGiven(voltageFrom), ...strange.flatMap((motor) => given(motor, 'ratedVoltage_V'))],
          remedies: ['A motor for the voltage of the supply.', 'No way around this drive.'],
        }),
      );
    if (bypassed.length === 0)
      return [...found, { ...notApplicable(this, subject, runs, 'No motor is connected behind it.'), id: id('start') }];
    const missing = bypassed.flatMap((motor) => missingOf(motor, 'ratedCurrent_A'));
    // A source of which nothing is known would sag by nothing: what the impedance lacks is asked, unless the rest is too much already.
    const gaps = impedanceGaps(ahead);
    const path = flow.path_ohm;
    const open = (lacking: readonly Missing[]): readonly Finding[] => [
      ...found,
      openFinding(this, subject, runs, lacking, {
        id: id('start'),
        ...(lacking.length > 0 ? {} : { text: 'Cannot be judged yet: the impedance ahead of it is not known.' }),
      }),
    ];
    if (missing.length > 0 || !path || !nominal_V) return open([...missing, ...gaps]);
    // Closed, it starts all that hangs on it at once.
    const start_A = INRUSH * bypassed.reduce((sum, motor) => sum + (motor.ratedCurrent_A ?? 0), 0);
    const drop_V = Math.sqrt(3) * start_A * (path.re * START_PF + path.im * Math.sqrt(1 - START_PF ** 2));
    const value = (100 * drop_V) / nominal_V;
    const over = exceeds(value, START_DROP_PCT);
    if (!over && gaps.length > 0) return open(gaps);
    found.push(
      finding(this, subject, runs, {
        id: id('start'),
        case: 'bypass',
        verdict: over ? 'caution' : 'pass',
        authority: 'practice',
        quantity: 'drop while starting across the line',
        value,
        limit: START_DROP_PCT,
        unit: '%',
        margin_pct: marginBelow(value, START_DROP_PCT),
        phrase: `start drop ${fixed(value, 1)} %`,
        text: `Started through ${element.tag}, ${runs.join(' and ')} ${runs.length === 1 ? 'draws' : 'draw'} about ${fixed(start_A, 0)} A and the voltage there sags by ${fixed(value, 1)} %; ${START_DROP_PCT} % is usual as the most.`,
        inputs: [...bypassed.flatMap((motor) => given(motor, 'ratedCurrent_A')), ...impedanceGiven(ahead)],
        working: [
          `I = ${INRUSH} × ${fixed(start_A / INRUSH, 1)} A`,
          `√3 I (R cos φ + X sin φ), R ${fixed(1000 * path.re, 3)} mΩ, X ${fixed(1000 * path.im, 3)} mΩ, cos φ ${START_PF} = ${fixed(drop_V, 2)} V`,
        ],
        assumptions: [
          { what: 'starting current', value: '6 times rated', source: 'NEMA design B, from memory' },
          { what: 'power factor while starting', value: '0.35', source: 'common practice' },
        ],
        remedies: over ? ['A soft starter in the way around.', 'A larger feeder or transformer.'] : [],
      }),
    );
    return found;
  },
};

export const severalMotors: Check = {
  slug: 'several-motors',
  rule: 'The motors’ currents within the drive’s rating. Of several: 10 % in hand; protection for each; one switched on alone within the overload; scalar control.',
  title: 'Motors on one drive',
  authority: 'code',
  source: 'NEC 430.32, 430.124; drive makers’ manuals; common practice (10 % margin)',
  why: 'A drive gives no more than its rated current for long. One electronic overload in the drive sees the sum and cannot see one stalled motor of four. A motor switched on alone takes its starting current from the drive.',
  scope: 'drive',
  judge({ drive, motors, motorsSeen, between }): readonly Finding[] {
    const subject = elementSubject(drive);
    const runs = tagsOf(motors);
    if (motors.length === 0) return [notApplicable(this, subject, runs, 'It feeds no motor.')];
    const id = (part: string): string => `${this.slug}/element/${drive.id}/${part}`;
    const current = { ...motorsCurrent(this, drive, drawnHere(motors, motorsSeen, between), motors), id: id('current') };
    if (motors.length === 1) return [current];
    return [
      current,
      { ...groupProtection(this, drive, motors), id: id('protection') },
      { ...groupSwitching(this, drive, motors), id: id('switching') },
      { ...groupControl(this, drive, motors), id: id('control') },
    ];
  },
};

type Drive = ElementOf<'drive'>;
type Motors = readonly ElementOf<'motor'>[];

/** As the drive sees it: that of a motor behind a transformer by its turns. */
function motorsCurrent(check: Check, drive: Drive, drawn: Drawn, motors: Motors): Finding {
  const subject = elementSubject(drive);
  const runs = tagsOf(motors);
  const { missing: unsaid, inputs, sum_A: sum, through } = drawn;
  const missing = [...missingOf(drive, 'outputCurrent_A'), ...unsaid];
  const rated = drive.outputCurrent_A;
  if (missing.length > 0 || rated === undefined) return openFinding(check, subject, runs, missing);
  const several = motors.length > 1;
  const over = exceeds(sum, rated);
  const tight = several && exceeds(1.1 * sum, rated);
  return finding(check, subject, runs, {
    verdict: over ? 'fail' : tight ? 'caution' : 'pass',
    authority: over || !several ? 'manual' : 'practice',
    source: `the nameplates of drive and motor${several ? 's; common practice (10 % in hand)' : ''}`,
    quantity: several ? 'sum of the motors’ currents' : 'current of the motor',
    value: sum,
    limit: rated,
    unit: 'A',
    margin_pct: marginBelow(sum, rated),
    working: [`sum ${fixed(sum, 2)} A${several ? `; with 10 % in hand ${fixed(1.1 * sum, 2)} A` : ''}`],
    phrase: `${fixed(sum, 0)} of ${fixed(rated, 0)} A`,
    text: several
      ? `${runs.join(', ')} together draw ${fixed(sum, 1)} A${through}; ${drive.tag} delivers ${fixed(rated, 1)} A, and 10 % in hand is usual.`
      : `${runs.join('')} draws ${fixed(sum, 1)} A${through}; ${drive.tag} delivers ${fixed(rated, 1)} A.`,
    inputs: [...given(drive, 'outputCurrent_A'), ...inputs],
    remedies: over || tight ? [several ? 'A larger drive, or one drive a motor.' : 'A larger drive.'] : [],
  });
}

function groupProtection(check: Check, drive: Drive, motors: Motors): Finding {
  const subject = elementSubject(drive);
  const bare = motors.filter(
    (motor) => (motor.overload !== undefined && motor.overload !== 'own') || motor.ownShortCircuitDevice === false,
  );
  const runs = tagsOf(motors);
  if (bare.length > 0)
    return finding(check, subject, runs, {
      verdict: 'fail',
      phrase: 'motors not protected singly',
      text: `${tagsOf(bare).join(', ')} on ${drive.tag} ${bare.length === 1 ? 'has' : 'have'} no overload or short-circuit protection of ${bare.length === 1 ? 'its' : 'their'} own.`,
      inputs: bare.flatMap((motor) => given(motor, 'overload', 'ownShortCircuitDevice')),
      remedies: ['An overload relay and a short-circuit device for each motor.', 'One drive a motor.'],
    });
  const missing = motors.flatMap((motor) => missingOf(motor, 'overload', 'ownShortCircuitDevice'));
  if (missing.length > 0) return openFinding(check, subject, runs, missing);
  return finding(check, subject, runs, {
    verdict: 'pass',
    phrase: 'each motor protected',
    text: `Each motor on ${drive.tag} has overload and short-circuit protection of its own.`,
    inputs: motors.flatMap((motor) => given(motor, 'overload', 'ownShortCircuitDevice')),
  });
}

function groupSwitching(check: Check, drive: Drive, motors: Motors): Finding {
  const subject = elementSubject(drive);
  const runs = tagsOf(motors);
  const alone = motors.filter((motor) => motor.switchedAlone === true);
  const missing = [
    ...motors.flatMap((motor) => missingOf(motor, 'switchedAlone')),
    ...(alone.length > 0
      ? [...missingOf(drive, 'outputCurrent_A', 'overload_pct'), ...motors.flatMap((motor) => missingOf(motor, 'ratedCurrent_A'))]
      : []),
  ];
  if (missing.length > 0) return openFinding(check, subject, runs, missing);
  if (alone.length === 0)
    return finding(check, subject, runs, {
      verdict: 'pass',
      phrase: 'started together',
      text: `The motors on ${drive.tag} start together.`,
      inputs: motors.flatMap((motor) => given(motor, 'switchedAlone')),
    });
  const sum = motors.reduce((total, motor) => total + (motor.ratedCurrent_A ?? 0), 0);
  const largest = Math.max(...alone.map((motor) => motor.ratedCurrent_A ?? 0));
  const value = sum + (INRUSH - 1) * largest;
  const limit = ((drive.outputCurrent_A ?? 0) * (drive.overload_pct ?? 100)) / 100;
  const over = exceeds(value, limit);
  return finding(check, subject, runs, {
    verdict: over ? 'caution' : 'pass',
    authority: 'practice',
    case: 'overload',
    quantity: 'current when one motor is switched on',
    value,
    limit,
    unit: 'A',
    margin_pct: marginBelow(value, limit),
    working: [`${fixed(sum, 2)} A + 5 × ${fixed(largest, 2)} A = ${fixed(value, 2)} A; overload ${fixed(limit, 2)} A`],
    phrase: `${fixed(value, 0)} of ${fixed(limit, 0)} A`,
    text: `Switching on ${tagsOf(alone).join(' or ')} while the others run takes ${fixed(value, 0)} A; the overload of ${drive.tag} is ${fixed(limit, 0)} A${over ? ': start them together only' : ''}.`,
    inputs: [
      ...given(drive, 'outputCurrent_A', 'overload_pct'),
      ...motors.flatMap((motor) => given(motor, 'ratedCurrent_A', 'switchedAlone')),
    ],
    assumptions: [{ what: 'starting current', value: '6 times rated', source: 'NEMA design B, from memory' }],
    remedies: over ? ['Interlock the motors so that they start together.', 'A larger drive.'] : [],
  });
}

function groupControl(check: Check, drive: Drive, motors: Motors): Finding {
  const subject = elementSubject(drive);
  const runs = tagsOf(motors);
  if (drive.control === undefined) return openFinding(check, subject, runs, [lacks(drive, 'control')]);
  const vector = drive.control === 'vector';
  return finding(check, subject, runs, {
    verdict: vector ? 'caution' : 'pass',
    authority: 'manual',
    source: 'drive makers’ published manuals: scalar control only',
    phrase: vector ? 'vector control of several' : 'scalar control',
    text: `${drive.tag} is under ${drive.control} control${vector ? ', which models one motor; with several, scalar control is asked' : ''}.`,
    inputs: given(drive, 'control'),
    remedies: vector ? ['Set it to scalar control (V/f).'] : [],
  });
}
