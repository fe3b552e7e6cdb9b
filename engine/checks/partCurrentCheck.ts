import type { ElementOf } from '../lineup/elements.ts';
import { fixed } from '../lineup/roundTo.ts';
import {
  type Check,
  type ElementScope,
  elementSubject,
  exceeds,
  finding,
  given,
  marginAbove,
  missingOf,
  openFinding,
  tagsOf,
} from './check.ts';
import type { Finding } from './finding.ts';
import { drawnHere, mostTogether, seenAmong, withWaysAround } from './seenThrough.ts';

/** Whether what stands in the way carries what is drawn through it. Switches are asked by checks of their own. */

type Carrier = ElementOf<'bus'> | ElementOf<'reactor'> | ElementOf<'filter'> | ElementOf<'contactor'> | ElementOf<'transformer'>;
const CARRIERS = new Set(['bus', 'reactor', 'filter', 'contactor', 'transformer']);
const carries = (element: ElementScope['element']): element is Carrier =>
  CARRIERS.has(element.kind) && !(element.kind === 'filter' && element.role === 'terminator');

const ratingPaths = (element: Carrier): readonly string[] =>
  element.kind === 'transformer' ? ['ratedPower_VA', 'primaryVoltage_V'] : ['ratedCurrent_A'];
/** Of a transformer that of its line side. */
const rating_A = (element: Carrier): number =>
  element.kind === 'transformer'
    ? (element.ratedPower_VA ?? 0) / Math.sqrt(3) / (element.primaryVoltage_V ?? 1)
    : (element.ratedCurrent_A ?? 0);

export const partCurrent: Check = {
  slug: 'part-current',
  rule: 'Rated input of the drives, or the motors’ current, within the rating; on a bus or transformer of several more is a caution.',
  title: 'Rated current of parts',
  authority: 'manual',
  source: 'the nameplates',
  why: 'What carries more than it is made for overheats, and a coil that saturates limits nothing any more.',
  scope: 'element',
  judge({
    element,
    side,
    drives,
    motors,
    direct,
    drivesSeen,
    motorsSeen,
    between,
    bypassed,
    bypassedSeen,
    bypassedDrives,
  }): readonly Finding[] {
    // A way around stands with one side in each zone: it is asked at its line side.
    if (!carries(element) || (side === 'output' && element.kind === 'contactor' && element.role === 'bypass')) return [];
    const subject = elementSubject(element);
    const input = side === 'input';
    const driven = drawnHere(input ? drives : [], drivesSeen, between);
    const own = input ? direct : motors;
    const beside = drawnHere(own, seenAmong(own, motors, motorsSeen), between);
    // Behind the drive a motor with a way around is the same motor.
    const beyond = bypassed.flatMap((motor, i) => (own.includes(motor) ? [] : [i]));
    const loose = drawnHere(
      beyond.flatMap((i) => bypassed[i] ?? []),
      beyond.map((i) => bypassedSeen[i] ?? 1),
      between,
    );
    const fed = [...(input ? drives : []), ...own];
    const runs = tagsOf(fed.length === 0 ? bypassed : motors);
    if (fed.length + bypassed.length === 0) return [];
    const ways = withWaysAround(
      input ? drives : [],
      driven.currents,
      loose.currents,
      beyond.map((i) => bypassedDrives[i] ?? null),
    );
    const most_A = mostTogether(ways, 0);
    const around = exceeds(most_A, driven.sum_A);
    const sum = beside.sum_A + (around ? most_A : driven.sum_A);
    const inputs = [...new Set([driven, beside, loose].flatMap((each) => each.inputs))];
    const unsaid = [...new Set([driven, beside, loose].flatMap((each) => each.missing))];
    const currents = [...driven.currents, ...beside.currents];
    const missing = [...missingOf(element, ...ratingPaths(element)), ...unsaid];
    const rated = rating_A(element);
    if (missing.length > 0) return [openFinding(this, subject, runs, missing)];
    const short = exceeds(sum, rated);
    const shared = ways.length + own.length > 1 && (element.kind === 'bus' || element.kind === 'transformer');
    return [
      finding(this, subject, runs, {
        verdict: short ? (shared ? 'caution' : 'fail') : 'pass',
        quantity: 'rated current',
        case: around ? 'bypass' : 'rated',
        value: rated,
        limit: sum,
        unit: 'A',
        margin_pct: marginAbove(rated, sum),
        phrase: `${fixed(rated, 0)} of ${fixed(sum, 0)} A`,
        text: `${element.tag} is rated ${fixed(rated, 1)} A; through it ${fixed(sum, 1)} A are drawn for ${tagsOf(around ? [...fed, ...bypassed] : fed).join(', ')}${around && fed.length > 0 ? ', by the way around where it is more' : ''}.`,
        inputs: [...given(element, ...ratingPaths(element)), ...inputs],
        working: [
          around
            ? `each by its drive or around it, whichever is more: ${fixed(sum, 2)} A against ${fixed(rated, 2)} A`
            : `${currents.map((each) => fixed(each, 2)).join(' + ')} A = ${fixed(sum, 2)} A against ${fixed(rated, 2)} A`,
        ],
        remedies: short ? ['The next size of it.'] : [],
      }),
    ];
  },
};
