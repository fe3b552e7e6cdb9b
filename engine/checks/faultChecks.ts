import type { Cable } from '../lineup/cable.ts';
import type { Element } from '../lineup/elements.ts';
import { isCable } from '../lineup/isCable.ts';
import { fixed } from '../lineup/roundTo.ts';
import { surroundOf } from './cableModel.ts';
import { type Check, elementSubject, exceeds, finding, given, marginBelow, missingOf, notKnown, openFinding, tagsOf } from './check.ts';
import type { Assumption, Finding, Input, Missing } from './finding.ts';
import { MOTOR_CONTRIBUTION, type StepResult } from './solveZone.ts';

/** Whether parts stand the fault current that can flow through them. */

/** What the impedance of a part or cable is made of. */
const impedancePaths = (part: Element | Cable): readonly string[] => {
  if (isCable(part)) return part.kind === 'link' || part.length_m === 0 ? [] : ['conductor.size', 'conductor.metal', 'length_m'];
  if (part.kind === 'supply') return ['voltage_V', 'faultCurrent_A'];
  if (part.kind === 'transformer') return ['ratedPower_VA', 'primaryVoltage_V', 'secondaryVoltage_V', 'impedance_pct'];
  if (part.kind === 'reactor') return ['impedance_pct', 'ratedCurrent_A'];
  return part.kind === 'filter' && part.drop_pct === undefined ? ['role'] : [];
};

/** What keeps the impedance of the way from the source from being known, and what it was made from. */
export const impedanceGaps = (ahead: readonly (Element | Cable)[]): readonly Missing[] =>
  ahead.flatMap((part) => missingOf(part, ...impedancePaths(part)));
export const impedanceGiven = (ahead: readonly (Element | Cable)[]): readonly Input[] =>
  ahead.flatMap((part) => given(part, ...impedancePaths(part)));

/** What nobody said of a part on the way, taken as what lets most current through. */
function unsaid(part: Element | Cable): readonly Assumption[] {
  const worst = (what: string, value: string): Assumption => ({
    what: `${what} ${part.tag}`,
    value,
    source: 'worst case for faults: not given',
  });
  if (part.kind === 'supply' && part.faultCurrent_A === undefined) return [worst('fault level of', 'unlimited')];
  if (!isCable(part) || impedancePaths(part).length === 0) return [];
  return [
    ...(part.conductor.sets === undefined ? [worst('sets of', 'any number')] : []),
    ...(surroundOf(part, 'steel') !== surroundOf(part, 'nonmetallic') ? [worst('metal around', 'none')] : []),
  ];
}

export const faultRating: Check = {
  slug: 'fault-rating',
  rule: 'The fault current available at the part must not exceed its marked rating; a drive’s rating holds only with the device it is marked with.',
  title: 'Fault rating',
  authority: 'code',
  source:
    'NEC 110.9, 110.10, 430.130; IEC 60909-0 for the current in the IEC basis; the rating as marked, with the device it is marked with',
  why: 'At a short circuit a part that is rated for less bursts. A drive’s rating holds only with the fuse or breaker that it was tested with.',
  scope: 'element',
  judge({ element, side, flow, motors, ahead, basis }): readonly Finding[] {
    if (side !== 'input' || (element.kind !== 'bus' && element.kind !== 'disconnect' && element.kind !== 'drive')) return [];
    const subject = elementSubject(element);
    const runs = tagsOf(motors);
    const available = flow.faultCurrent_A;
    const assumptions = [
      ...flow.assumptions,
      ...ahead.flatMap(unsaid),
      ...(flow.feeding.length > 0
        ? [{ what: 'motors without a drive', value: `${MOTOR_CONTRIBUTION} × rated current`, source: 'IEEE 141, from memory' }]
        : []),
    ];
    const rating = element.faultRating_A;
    const inputs = [
      ...given(element, 'faultRating_A', 'faultRatingDevice', 'faultRatingDeviceDrawn'),
      ...impedanceGiven(ahead),
      ...flow.feeding.flatMap((motor) => given(motor, 'ratedCurrent_A')),
    ];
    if (element.kind === 'drive' && rating !== undefined && element.faultRatingDeviceDrawn === false)
      return [
        finding(this, subject, runs, {
          verdict: 'fail',
          authority: 'manual',
          phrase: 'rating holds with another device',
          text: `The ${fixed(rating / 1000, 1)} kA of ${element.tag} hold only with ${element.faultRatingDevice ?? 'the device its maker names'}, which is not what is drawn ahead of it.`,
          remedies: ['The fuse or breaker that the drive’s marking names.'],
          inputs: given(element, 'faultRating_A', 'faultRatingDevice', 'faultRatingDeviceDrawn'),
        }),
      ];
    const missing = [
      ...missingOf(element, 'faultRating_A'),
      ...(element.kind === 'drive' ? missingOf(element, 'faultRatingDevice', 'faultRatingDeviceDrawn') : []),
      ...(available === null ? impedanceGaps(ahead) : []),
      ...flow.feeding.flatMap((motor) => missingOf(motor, 'ratedCurrent_A')),
    ];
    const known = available === null ? '' : ` ${fixed(available / 1000, 2)} kA are available at it.`;
    if (rating !== undefined && available !== null && exceeds(available, rating)) {
      return [
        finding(this, subject, runs, {
          ...numbers(available, rating),
          verdict: 'fail',
          text: `${fixed(available / 1000, 2)} kA are available at ${element.tag}, which is marked for ${fixed(rating / 1000, 1)} kA.`,
          remedies: [
            element.kind === 'drive' ? 'A listed fuse or reactor combination with a higher marking.' : 'A part of a higher rating.',
            'Current-limiting fuses ahead, where the marking allows that combination.',
          ],
          inputs,
          working: workingOf(flow, basis),
          assumptions,
        }),
      ];
    }
    if (rating === undefined || available === null || missing.length > 0)
      return [
        openFinding(this, subject, runs, missing, {
          value: available,
          unit: 'A',
          quantity: 'available fault current',
          inputs,
          working: workingOf(flow, basis),
          text: `Cannot be judged yet${missing.length > 0 ? `. ${notKnown(missing)}` : ': the impedance of something ahead cannot be made out.'}${known}`,
          ...(missing.length > 0 ? {} : { phrase: 'fault current?', remedies: ['Look at the sizes and voltages of what is ahead of it.'] }),
        }),
      ];
    return [
      finding(this, subject, runs, {
        ...numbers(available, rating),
        verdict: 'pass',
        text: `${fixed(available / 1000, 2)} kA are available at ${element.tag}, which is marked for ${fixed(rating / 1000, 1)} kA${element.kind === 'drive' ? ` with ${element.faultRatingDevice ?? ''}` : ''}.`,
        inputs,
        working: workingOf(flow, basis),
        assumptions,
      }),
    ];
  },
};

const numbers = (available: number, rating: number) => ({
  quantity: 'available fault current',
  value: available,
  limit: rating,
  unit: 'A',
  margin_pct: marginBelow(available, rating),
  phrase: `${fixed(available / 1000, 1)} of ${fixed(rating / 1000, 1)} kA`,
});

const workingOf = (flow: StepResult, basis: 'us' | 'iec'): readonly string[] => {
  const { coldPath_ohm: z, nominal_V, faultPeak_A, faultCurrent_A, networkFault_A, feeding } = flow;
  if (!z || nominal_V === null) return [];
  const size = Math.hypot(z.re, z.im);
  return [
    `path from the source, conductors cold: Z = ${fixed(1000 * z.re, 4)} + j${fixed(1000 * z.im, 4)} mΩ, |Z| ${fixed(1000 * size, 4)} mΩ`,
    basis === 'iec'
      ? `I″k = 1.10 × ${fixed(nominal_V, 0)} V / (√3 |Z|)${faultPeak_A === null ? '' : `; peak ip ${fixed(faultPeak_A / 1000, 2)} kA (IEC 60909-0)`}`
      : `I = ${fixed(nominal_V, 0)} V / (√3 |Z|)`,
    ...(feeding.length > 0 && faultCurrent_A !== null && networkFault_A !== null
      ? [`+ ${fixed(faultCurrent_A - networkFault_A, 1)} A, ${MOTOR_CONTRIBUTION} × rated, of ${tagsOf(feeding).join(', ')}`]
      : []),
  ];
};
