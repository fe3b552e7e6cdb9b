import { US_CONDUCTORS } from '../catalog/conductors.ts';
import { nextRating_A } from '../catalog/deviceRatings.ts';
import type { Cable } from '../lineup/cable.ts';
import { valueAt } from '../lineup/fields.ts';
import { fixed } from '../lineup/roundTo.ts';
import { cableAmpacity, terminals } from './cableAmpacity.ts';
import { worstLength_m } from './cableModel.ts';
import {
  type CableScope,
  type Check,
  type CheckFacts,
  cableSubject,
  exceeds,
  finding,
  given,
  lacks,
  lookedUp,
  marginAbove,
  missingOf,
  notApplicable,
  openFinding,
  tagsOf,
} from './check.ts';
import { KINDS } from './fillChecks.ts';
import { type Assumption, type CaseName, type Finding, type Input, type Missing, SIZE_UP } from './finding.ts';
import { methodMisfit } from './methodFits.ts';
import { drawnHere, mostTogether, motorsDrawn, seenAmong, withWaysAround } from './seenThrough.ts';

/** Whether the conductors carry what the code asks of them. */

const WHY = 'The conductor must carry the current without overheating its insulation or the terminals at its ends.';
const REMEDIES = [
  `${SIZE_UP} (check terminal range, fill and cable capacitance again).`,
  'Fewer loaded conductors together, or a cooler way.',
  'Terminals marked for a higher temperature.',
];

interface Need {
  /** Of no meaning while something is missing. */
  readonly need_A: number;
  readonly how: string;
  readonly missing: readonly Missing[];
  readonly inputs: readonly Input[];
  readonly case?: CaseName;
  readonly verdict?: 'note';
  readonly remark?: string;
}

/** The cable with as many circuits together as lie in its pipe, where fewer are said: three loaded conductors each. */
function crowded({ cable, together, togetherFed }: CableScope): Cable {
  const { raceway = '', loadedConductors = 0, groupedCircuits = 0 } = cable.installation;
  if (!KINDS[raceway] && raceway !== 'buried-duct') return cable;
  const circuits = 1 + together.filter((each, i) => each.kind === 'cable' && togetherFed[i] !== 'unfed').length;
  const more = { loadedConductors: Math.max(loadedConductors, 3 * circuits), groupedCircuits: Math.max(groupedCircuits, circuits) };
  return { ...cable, installation: { ...cable.installation, ...more } };
}

const countPath = (basis: CableScope['basis']): string =>
  basis === 'us' ? 'installation.loadedConductors' : 'installation.groupedCircuits';

/** What is not known of a cable and its place, to say what it carries. */
function carryingGaps({ cable, basis }: CableScope): readonly Missing[] {
  return [
    ...missingOf(
      cable,
      'conductor.size',
      'conductor.metal',
      'installation.ambient_C',
      countPath(basis),
      ...(basis === 'us' ? [] : ['installation.method']),
    ),
    ...(cable.insulation.type === undefined && cable.insulation.temperature_C === undefined ? [lacks(cable, 'insulation.type')] : []),
    // Without the place, wet is assumed for the temperature; without the type, the wet figure is not known.
    ...(cable.insulation.type === undefined && cable.installation.moisture === undefined ? [lacks(cable, 'installation.moisture')] : []),
  ];
}

/** NEC 310.10(G): the smallest set of a parallel group. */
const LEAST_PARALLEL_MM2 = 53.49;

export interface LeastPhases {
  readonly missing: readonly Missing[];
  readonly inputs: readonly Input[];
  readonly need_A: number;
  /** The smallest conductors that carry what is asked of these, and those whose device may be as large as this; null where none is. */
  readonly byLoad: string | null;
  readonly byDevice: string | null;
}

/**
 * The smallest conductors in place of these (US). A device may be the next standard rating above what they carry, up to 800 A (NEC
 * 240.4(B)); a motor circuit may have a larger one (240.4(G)), so that it asks for nothing, but its size may have been followed.
 */
export function leastPhases(scope: CableScope, device_A: number): LeastPhases {
  const { cable, drives, direct, bypassed, motors, side } = scope;
  const feeds = side === 'input' ? drives.length + direct.length + bypassed.length : motors.length;
  const need = side === 'input' ? feederNeed(scope) : leadNeed(scope);
  const { coolest_C, unknown } = terminals([scope.fromElement, scope.toElement]);
  const warmest = Math.min(coolest_C ?? 90, unknown.length > 0 ? 75 : 90);
  const least = (enough: (amperes: number) => boolean): string | null =>
    US_CONDUCTORS.find(({ name, area_mm2 }) => {
      if (area_mm2 < ((cable.conductor.sets ?? 1) > 1 ? LEAST_PARALLEL_MM2 : LEAST_MM2)) return false;
      const carried = cableAmpacity({ ...cable, conductor: { ...cable.conductor, size: name } }, 'us', warmest);
      return carried !== null && enough(carried.value_A);
    })?.name ?? null;
  return {
    // One set, or a wet place, taken for want of a word would let larger conductors pass for the least.
    missing:
      feeds === 0
        ? []
        : [...new Set([...need.missing, ...carryingGaps(scope), ...missingOf(cable, 'conductor.sets', 'installation.moisture')])],
    inputs: [
      ...need.inputs,
      ...given(cable, 'insulation.type', 'installation.ambient_C', 'installation.loadedConductors', 'installation.moisture'),
    ],
    need_A: need.need_A,
    // What feeds nothing asks for nothing.
    byLoad: feeds === 0 ? null : least((amperes) => !exceeds(need.need_A, amperes)),
    byDevice: side === 'input' ? least((amperes) => device_A <= (amperes > 800 ? amperes : (nextRating_A(amperes, 'us') ?? 0))) : null,
  };
}
/** 14 AWG, the smallest of the table for power. */
const LEAST_MM2 = 2.08;

function judgeAmpacity(check: CheckFacts, scope: CableScope, need: Need): readonly Finding[] {
  const { cable, basis, motors } = scope;
  const subject = cableSubject(cable);
  const runs = tagsOf(motors);
  if (cable.kind === 'link' || worstLength_m(cable) === 0)
    return [notApplicable(check, subject, runs, 'No length: a connection inside one enclosure.')];
  const missing = [...need.missing, ...carryingGaps(scope)];
  if (missing.length > 0) return [openFinding(check, subject, runs, missing)];
  const together = countPath(basis);
  const { coolest_C, unknown } = terminals([scope.fromElement, scope.toElement]);
  const capped = basis === 'us' ? Math.min(coolest_C ?? 90, unknown.length > 0 ? 60 : 90) : null;
  // A terminal that is not marked takes the 75 °C column at most (NEC 110.14(C)(1)).
  const warmest = basis === 'us' ? Math.min(coolest_C ?? 90, unknown.length > 0 ? 75 : 90) : null;
  const asSaid = cableAmpacity(cable, basis, warmest);
  const crowd = crowded(scope);
  const [told, count] = [valueAt(cable, together), valueAt(crowd, together)];
  const { need_A } = need;
  // What already fails with as few as are said needs no count.
  const more = count !== told && asSaid !== null && !exceeds(need_A, asSaid.value_A);
  const laid = more ? crowd : cable;
  const best = cableAmpacity(laid, basis, warmest);
  const least = cableAmpacity(laid, basis, capped);
  if (!asSaid || !best || !least) {
    return [
      openFinding(check, subject, runs, [lacks(cable, 'conductor.size')], {
        phrase: 'no table row',
        text: `Cannot be judged: the table has no ampacity for ${cable.conductor.size} ${cable.conductor.metal} at this temperature and place.`,
        remedies: ['Choose a size, metal and ambient that the table covers, or enter another insulation.'],
      }),
    ];
  }
  const failsAtBest = exceeds(need_A, best.value_A);
  const failsAtLeast = exceeds(need_A, least.value_A);
  const used = failsAtBest ? best : least;
  const assumptions: Assumption[] = [
    ...(more ? [{ what: lacks(cable, together).named, value: `${count}`, source: `as many as lie in its raceway: said are ${told}` }] : []),
    ...(cable.conductor.sets === undefined ? [{ what: 'sets in parallel', value: '1', source: 'not given' }] : []),
    ...(cable.installation.moisture === undefined ? [{ what: 'place', value: 'wet', source: 'worst case: not given' }] : []),
    ...(basis === 'iec' && (cable.installation.method ?? '').startsWith('D') && cable.installation.soil_KmPerW === undefined
      ? [{ what: 'thermal resistivity of the soil', value: '2.5 K·m/W', source: 'that of the tables: not given' }]
      : []),
  ];
  const shared = {
    quantity: 'ampacity',
    value: used.value_A,
    limit: need_A,
    unit: 'A',
    margin_pct: marginAbove(used.value_A, need_A),
    source: `${check.source}; ${used.source}`,
    remedies: REMEDIES,
    assumptions,
    case: need.case ?? ('rated' as const),
    inputs: [
      ...given(
        cable,
        'conductor.size',
        'conductor.metal',
        'conductor.sets',
        'insulation.type',
        'insulation.temperature_C',
        'installation.ambient_C',
        'installation.moisture',
        ...(basis === 'us'
          ? ['installation.loadedConductors']
          : ['installation.method', 'installation.raceway', 'construction', 'installation.groupedCircuits', 'installation.soil_KmPerW']),
      ),
      ...[scope.fromElement, scope.toElement].flatMap((element) => given(element, 'terminalTemperature_C')),
      ...need.inputs,
      lookedUp('table current', `${fixed(used.table_A, 1)} A`, `${used.source}, ${used.column}`),
    ],
    working: [
      need.how,
      `table ${fixed(used.table_A, 1)} A (${used.column})`,
      ...used.factors.map((factor) => `× ${factor.value} ${factor.name}${factor.source ? ` (${factor.source})` : ''}`),
      `= ${fixed(used.value_A, 2)} A`,
    ],
  };
  const misfit = basis === 'iec' && !failsAtBest ? methodMisfit(cable) : null;
  if (misfit !== null)
    return [
      openFinding(check, subject, runs, [], {
        ...shared,
        phrase: 'method and place differ',
        text: `${misfit}: by it ${fixed(used.value_A, 1)} A are carried, where ${fixed(need_A, 1)} A are needed.`,
        remedies: ['Enter the method of its place and build.'],
      }),
    ];
  // A temperature that is entered without letters is that of a dry place: wet, they may stand for less.
  const wet = basis === 'us' && cable.installation.moisture === 'wet' && cable.insulation.type === undefined;
  if (wet && !failsAtBest)
    return [
      openFinding(check, subject, runs, [lacks(cable, 'insulation.type')], {
        ...shared,
        text: `${cable.tag} carries ${fixed(used.value_A, 1)} A of the ${fixed(need_A, 1)} A that are needed if its ${cable.insulation.temperature_C} °C hold in a wet place too: its insulation type says.`,
      }),
    ];
  if (more && failsAtBest) {
    const asked = lacks(cable, together);
    return [
      openFinding(check, subject, runs, [asked], {
        ...shared,
        text: `${asked.named}: ${told} as is said, with which it carries ${fixed(asSaid.value_A, 1)} A; ${count} in its raceway, with which it carries ${fixed(best.value_A, 1)} A; ${fixed(need_A, 1)} A are needed.`,
      }),
    ];
  }
  if (!failsAtBest && failsAtLeast) {
    return [
      openFinding(
        check,
        subject,
        runs,
        unknown.map((element) => lacks(element, 'terminalTemperature_C')),
        {
          ...shared,
          margin_pct: marginAbove(least.value_A, need_A),
          text: `${cable.tag} carries ${fixed(best.value_A, 1)} A with 75 °C terminals and ${fixed(least.value_A, 1)} A with 60 °C ones; ${fixed(need_A, 1)} A are needed. The marking of ${unknown.map((element) => element.tag).join(' and ')} decides.`,
          remedies: [
            `Ask: ${[...new Set(unknown.map((element) => lacks(element, 'terminalTemperature_C').ask))].join(', ')}.`,
            ...REMEDIES,
          ],
        },
      ),
    ];
  }
  return [
    finding(check, subject, runs, {
      ...shared,
      verdict: failsAtBest ? 'fail' : (need.verdict ?? 'pass'),
      phrase: `${fixed(used.value_A, 0)} of ${fixed(need_A, 0)} A`,
      text: `${cable.tag} carries ${fixed(used.value_A, 1)} A; ${fixed(need_A, 1)} A are needed (${need.how}).${need.remark ?? ''}`,
    }),
  ];
}

const counted = (parts: readonly unknown[], what: string): string => `${parts.length} ${what}${parts.length === 1 ? '' : 's'}`;

/** What drives and motors ask of a feeder. */
function feederNeed(scope: CableScope): Need {
  const { drives, motors, direct, basis, bypassed, bypassedSeen } = scope;
  const { currents, sum_A: sum, through, missing, inputs } = drawnHere(drives, scope.drivesSeen, scope.between);
  const directSeen = seenAmong(direct, motors, scope.motorsSeen);
  const beside = motorNeed(scope, direct, directSeen);
  const driven_A = neededFor(basis, [...currents, ...beside.amperes]);
  // With a way around a drive its motors may run straight from the feeder: the larger of the two (NEC 430.122(C)).
  const loose = bypassed.length === 0 ? null : motorNeed(scope, [...bypassed, ...direct], [...bypassedSeen, ...directSeen]);
  const ways = withWaysAround(drives, currents, loose?.amperes.slice(0, bypassed.length) ?? [], scope.bypassedDrives);
  const most_A = mostTogether([...ways, ...beside.amperes.map((each) => [[each]])], basis === 'us' ? 0.25 : 0);
  const around = loose !== null && exceeds(most_A, driven_A);
  const others = drives.filter(({ id }) => !scope.bypassedDrives.includes(id));
  const how = around
    ? others.length > 0
      ? `way around a drive, with ${tagsOf(others).join(', ')} at rated input: ${basis === 'us' ? '125 % of the largest + the rest' : 'the sum'}`
      : `way around the drive: ${loose.how}`
    : drives.length === 0
      ? beside.how
      : direct.length > 0
        ? `${basis === 'us' ? '125 % of the largest + the rest' : 'the sum'} of ${counted(drives, 'drive')} and ${counted(direct, 'motor')}${through}`
        : basis === 'us'
          ? currents.length === 1
            ? `1.25 × ${fixed(sum, 1)} A rated input${through}`
            : `125 % of the largest of ${currents.length} drives + the rest${through}`
          : `Ib ${fixed(sum, 1)} A rated input${through}`;
  return {
    need_A: around ? most_A : driven_A,
    how,
    missing: [...new Set([...missing, ...(loose ?? beside).missing])],
    inputs: [...new Set([...inputs, ...(loose ?? beside).inputs])],
    ...(around ? { case: 'bypass' as const } : {}),
  };
}

export const feederAmpacity: Check = {
  slug: 'feeder-ampacity',
  rule: 'US: ampacity ≥ 1.25 × rated input current (of several, motors without a drive by their table current: 125 % of the largest + the rest; with a way around, the larger of that and 1.25 × the motors’ table current). IEC: Iz ≥ Ib.',
  title: 'Feeder ampacity',
  authority: 'code',
  source: 'NEC 430.122, 430.22, 430.24; IEC 60364-5-52 (Iz ≥ Ib)',
  why: `${WHY} The drive’s rated input current rules, not the motor’s: an oversized drive drags its feeder up with it.`,
  scope: 'cable',
  judge(scope) {
    if (scope.side !== 'input') return [];
    const { drives, motors, direct, cable, bypassed } = scope;
    if (drives.length + direct.length + bypassed.length === 0)
      return [notApplicable(this, cableSubject(cable), tagsOf(motors), 'It feeds no drive and no motor.')];
    // A drive much larger than its motors drags the feeder up with it.
    const driven = motors.filter((motor) => !direct.includes(motor));
    const unsaid = driven.filter((motor) => motor.ratedCurrent_A === undefined);
    const rated = drawnHere(drives, scope.drivesSeen, []).sum_A;
    const worn = drawnHere(driven, seenAmong(driven, motors, scope.motorsSeen), []).sum_A;
    const oversized = driven.length > 0 && exceeds(rated, 1.3 * worn);
    return judgeAmpacity(this, scope, {
      ...feederNeed(scope),
      ...(oversized
        ? {
            verdict: 'note' as const,
            remark:
              unsaid.length > 0
                ? ` The current of ${tagsOf(unsaid).join(', ')} is not known: whether the copper follows an oversized drive cannot be said.`
                : ` The rated input is ${fixed((100 * rated) / worn, 0)} % of the motors’ current: the copper follows an oversized drive.`,
          }
        : {}),
    });
  },
};

/** What these ask of the conductors that feed them together: 125 % of the largest and the rest (US), the sum (IEC). */
function neededFor(basis: CableScope['basis'], currents: readonly number[]): number {
  const sum = currents.reduce((total, current) => total + current, 0);
  return basis === 'us' ? sum + 0.25 * Math.max(0, ...currents) : sum;
}

/** What motors alone ask of their conductors. */
function motorNeed(
  { basis, between }: CableScope,
  motors: CableScope['motors'],
  seen: readonly number[],
): Need & { readonly amperes: readonly number[] } {
  const { currents, missing, inputs } = motorsDrawn(motors, seen, basis, between);
  const amperes = currents.map((each) => each.amperes);
  const sum = amperes.reduce((total, each) => total + each, 0);
  const largest = currents.toSorted((a, b) => b.amperes - a.amperes)[0];
  const how =
    basis === 'us'
      ? `${currents.length === 1 ? `1.25 × ${fixed(sum, 1)} A` : `125 % of the largest + the rest of ${currents.length} motors`}, ${largest?.how ?? ''}`
      : `Ib ${fixed(sum, 1)} A ${largest?.how ?? ''}`;
  return { need_A: neededFor(basis, amperes), how, missing, inputs, amperes };
}

/** What motors ask of their lead, and the drive where it is marked to protect it. */
function leadNeed(scope: CableScope): Need {
  const { motors, basis, drive, motorsSeen } = scope;
  const need = motorNeed(scope, motors, motorsSeen);
  // A drive marked to protect its output conductors sets a floor of its own (NEC 430.122(B)). One that names a floor is taken to be marked.
  const floor = drive?.manual?.outputAmpacityLeast_A;
  if (basis !== 'us' || !drive || !(drive.manual?.protectsOutputConductors ?? floor !== undefined)) return need;
  if (floor !== undefined && floor <= need.need_A) return need;
  return {
    ...need,
    need_A: floor ?? need.need_A,
    how: floor === undefined ? need.how : `the least that ${drive.tag} is marked for, above ${need.how}`,
    missing: [...need.missing, ...missingOf(drive, 'manual.outputAmpacityLeast_A')],
    inputs: [...need.inputs, ...given(drive, 'manual.protectsOutputConductors', 'manual.outputAmpacityLeast_A')],
  };
}

export const leadAmpacity: Check = {
  slug: 'lead-ampacity',
  rule: 'US: ampacity ≥ 1.25 × the table current of the motor, or its nameplate where that is higher (several: 125 % of the largest + the rest), or the floor a drive is marked for. IEC: Iz ≥ Ib.',
  title: 'Motor lead ampacity',
  authority: 'code',
  source: 'NEC 430.6(A), 430.22, 430.24, 430.122(B); IEC 60364-5-52 (Iz ≥ Ib)',
  why: `${WHY} For motors of table sizes the code’s table current is used, not the nameplate, unless the nameplate is higher.`,
  scope: 'cable',
  judge(scope) {
    if (scope.side !== 'output') return [];
    const { motors, cable } = scope;
    if (motors.length === 0) return [notApplicable(this, cableSubject(cable), [], 'It feeds no motor.')];
    return judgeAmpacity(this, scope, leadNeed(scope));
  },
};
