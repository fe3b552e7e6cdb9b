import { conductorSize } from '../catalog/conductors.ts';
import type { Cable } from '../lineup/cable.ts';
import type { Element } from '../lineup/elements.ts';
import { fixed } from '../lineup/roundTo.ts';
import {
  type Check,
  cableSubject,
  elementSubject,
  endSubject,
  exceeds,
  finding,
  given,
  marginAbove,
  missingOf,
  notApplicable,
  openFinding,
  tagsOf,
} from './check.ts';
import type { Finding, Input, Missing } from './finding.ts';
import { drawnHere, mostTogether, motorsDrawn, seenAmong, withWaysAround } from './seenThrough.ts';
import { turnedRange } from './turnedRange.ts';
import { notASize, unlisted } from './unlistedSize.ts';

/** Whether conductors can be landed: switch size, lug range, number of lugs. */

export const inputTerminals: Check = {
  slug: 'input-terminals',
  rule: 'US: rated current of the switch ≥ 1.15 × (rated input + table current of motors without a drive); with a way around that of its motors where it is larger. IEC: In ≥ Ib.',
  title: 'Input disconnect rating',
  authority: 'code',
  source: 'NEC 430.128, 430.110 (115 %); IEC 60364-4-43 (In ≥ Ib)',
  why: 'The switch ahead of a drive carries the drive’s rated input current with its harmonics, without pause.',
  scope: 'element',
  judge({
    element,
    side,
    drives,
    motors,
    direct,
    bypassed,
    basis,
    drivesSeen,
    motorsSeen,
    bypassedSeen,
    bypassedDrives,
    between,
  }): readonly Finding[] {
    if (element.kind !== 'disconnect' || side !== 'input') return [];
    const subject = elementSubject(element);
    const runs = tagsOf(motors);
    if (drives.length + direct.length + bypassed.length === 0)
      return [notApplicable(this, subject, runs, 'It feeds no drive and no motor.')];
    const driven = drawnHere(drives, drivesSeen, between);
    const beside = motorsDrawn(direct, seenAmong(direct, motors, motorsSeen), basis, between);
    // With a way around the drive its motors run across the line: the larger of the two.
    const loose = motorsDrawn(bypassed, bypassedSeen, basis, between);
    const amperes = (drawn: typeof beside) => drawn.currents.map((each) => each.amperes);
    const most_A = mostTogether(withWaysAround(drives, driven.currents, amperes(loose), bypassedDrives), 0);
    const around = exceeds(most_A, driven.sum_A);
    const sum = amperes(beside).reduce((total, each) => total + each, around ? most_A : driven.sum_A);
    const others = around ? drives.filter(({ id }) => !bypassedDrives.includes(id)) : drives;
    const missing = [...new Set([...missingOf(element, 'ratedCurrent_A'), ...driven.missing, ...beside.missing, ...loose.missing])];
    const rated = element.ratedCurrent_A;
    if (missing.length > 0 || rated === undefined) return [openFinding(this, subject, runs, missing)];
    const times = basis === 'us' ? '1.15 × ' : '';
    const need = (basis === 'us' ? 1.15 : 1) * sum;
    const short = exceeds(need, rated);
    const of = [
      ...(around ? [`full-load current of ${tagsOf(bypassed).join(', ')} around the drive`] : []),
      ...(others.length > 0 ? [`rated input of ${tagsOf(others).join(', ')}${driven.through}`] : []),
      ...(direct.length > 0 ? [`full-load current of ${tagsOf(direct).join(', ')}`] : []),
    ].join(' and ');
    return [
      finding(this, subject, runs, {
        verdict: short ? 'fail' : 'pass',
        quantity: 'rated current of the switch',
        value: rated,
        limit: need,
        unit: 'A',
        margin_pct: marginAbove(rated, need),
        phrase: `${fixed(rated, 0)} of ${fixed(need, 0)} A`,
        text: `${element.tag} is rated ${fixed(rated, 0)} A; ${fixed(need, 1)} A are needed (${times}${fixed(sum, 1)} A ${of}).`,
        ...(around ? { case: 'bypass' as const } : {}),
        inputs: [...new Set([...given(element, 'ratedCurrent_A'), ...driven.inputs, ...beside.inputs, ...loose.inputs])],
        working: [`${times}${fixed(sum, 2)} A = ${fixed(need, 2)} A`],
        remedies: short ? ['The next size of switch.'] : [],
      }),
    ];
  },
};

type Landing = Extract<Element, { terminalLargest?: string | undefined }>;
const hasTerminals = (element: Element): element is Landing => element.kind !== 'supply';

const named = (size: string | undefined) => (size === undefined ? null : conductorSize(size));

/** Conductors of one phase on these terminals: one at the least of a cable whose sets nobody said. */
const perPhase = (cables: readonly Cable[]): number => cables.reduce((sum, cable) => sum + (cable.conductor.sets ?? 1), 0);

const RANGE = ['terminalSmallest', 'terminalLargest', 'terminalsPerPhase'] as const;

export const terminalRange: Check = {
  slug: 'terminal-range',
  rule: 'The conductor lies within the marked range, one a place.',
  title: 'Terminal range and number',
  authority: 'code',
  source: 'NEC 110.14(A) (one conductor a terminal unless marked), 110.3(B); the maker’s marking',
  why: 'A conductor outside the marked range, or two under one screw, comes loose. Sizes raised for voltage drop are the ones that no longer fit.',
  scope: 'cable',
  judge({ cable, fromElement, toElement, landedFrom, landedTo, motors }): readonly Finding[] {
    const runs = tagsOf(motors);
    const subject = cableSubject(cable);
    if (cable.kind === 'link') return [notApplicable(this, subject, runs, 'A connection inside one enclosure.')];
    const size = named(cable.conductor.size);
    const missing: Missing[] = [...missingOf(cable, 'conductor.size')];
    const strange: string[] = [...unlisted(cable.conductor.size)];
    const beside: Input[] = [];
    const faults: Finding[] = [];
    const fits: string[] = [];
    let turned: ReturnType<typeof turnedRange> | undefined;
    const lands = [fromElement, toElement].filter(hasTerminals);
    for (const [end, element, landed] of [
      ['from', fromElement, landedFrom],
      ['to', toElement, landedTo],
    ] as const) {
      if (!hasTerminals(element)) continue;
      const [least, most] = [named(element.terminalSmallest), named(element.terminalLargest)];
      strange.push(...unlisted(element.terminalSmallest, element.terminalLargest));
      // Each feeder of a bus has lugs of its own; elsewhere all cables of one side share them.
      const counted = element.kind === 'bus' ? [cable] : landed;
      const many = perPhase(counted);
      const unsaid = counted.filter(({ kind, conductor }) => kind === 'cable' && conductor.sets === undefined);
      const places = element.terminalsPerPhase;
      const has = `${places} place${places === 1 ? '' : 's'}`;
      const others = counted.filter(({ id }) => id !== cable.id).flatMap((each) => given(each, 'conductor.sets'));
      beside.push(...others);
      missing.push(...unsaid.flatMap((each) => missingOf(each, 'conductor.sets')));
      const counts = many > 1 || unsaid.length > 0;
      missing.push(...missingOf(element, 'terminalSmallest', 'terminalLargest', ...(counts ? ['terminalsPerPhase'] : [])));
      const fail = (phrase: string, text: string, remedies: readonly string[]): void => {
        faults.push(
          finding(this, endSubject(cable, end), runs, {
            verdict: 'fail',
            phrase,
            text,
            remedies,
            inputs: [...given(cable, 'conductor.size', 'conductor.sets'), ...others, ...given(element, ...RANGE)],
          }),
        );
      };
      const shown = cable.conductor.size?.replace('mm2', 'mm²') ?? '';
      const range = `${element.terminalSmallest?.replace('mm2', 'mm²') ?? '?'} to ${element.terminalLargest?.replace('mm2', 'mm²') ?? '?'}`;
      if (least && most && exceeds(least.area_mm2, most.area_mm2)) turned ??= turnedRange(element, 'terminalSmallest', 'terminalLargest');
      else if (size && most && exceeds(size.area_mm2, most.area_mm2))
        fail('too big for the terminal', `${cable.tag} is ${shown}; the terminals of ${element.tag} take ${range}.`, [
          'A terminal kit or pin adapter listed for it.',
          'More, smaller sets (1/0 AWG or larger each), or short tails of a size that fits.',
        ]);
      else if (size && least && exceeds(least.area_mm2, size.area_mm2))
        fail('too small for the terminal', `${cable.tag} is ${shown}; the terminals of ${element.tag} take ${range}.`, [
          'A terminal of a smaller range.',
        ]);
      else if (places !== undefined && many > places)
        fail(`${many} conductors, ${has}`, `${many} conductors a phase land on ${element.tag}, which has ${has} a phase.`, [
          'A multi-conductor terminal kit listed for the part, or a distribution block.',
        ]);
      else fits.push(`${element.tag} (${range})`);
    }
    if (faults.length > 0) return faults;
    if (turned) return [openFinding(this, subject, runs, [], turned)];
    if (missing.length > 0) return [openFinding(this, subject, runs, [...new Set(missing)])];
    if (strange.length > 0) return [openFinding(this, subject, runs, [], notASize(strange))];
    if (fits.length === 0) return [notApplicable(this, subject, runs, 'It lands on the utility’s terminals only.')];
    return [
      finding(this, subject, runs, {
        verdict: 'pass',
        phrase: 'fits its terminals',
        text: `${cable.tag} fits the terminals of ${fits.join(' and ')}.`,
        inputs: [...given(cable, 'conductor.size', 'conductor.sets'), ...beside, ...lands.flatMap((element) => given(element, ...RANGE))],
      }),
    ];
  },
};

/** What the smallest set of a parallel group may be: NEC 310.10(G) (2020 and 2023; 310.10(H) before). */
const LEAST_PARALLEL_MM2 = 53.49;

export const parallelSets: Check = {
  slug: 'parallel-sets',
  rule: 'Sets of 1/0 AWG or larger, alike in everything, each with all phases and a ground.',
  title: 'Sets in parallel',
  authority: 'code',
  source: 'NEC 310.10(G), 300.3(B), 250.122(F); IEC 60364-5-52 523.7, 521.5.2',
  why: 'Sets share the current only while they are twins. A phase by itself in a steel pipe heats the pipe.',
  scope: 'cable',
  judge({ cable, motors, basis }): readonly Finding[] {
    const runs = tagsOf(motors);
    const subject = cableSubject(cable);
    const sets = cable.conductor.sets;
    if (cable.kind === 'link') return [notApplicable(this, subject, runs, 'A connection inside one enclosure.')];
    if (sets === undefined) return [openFinding(this, subject, runs, missingOf(cable, 'conductor.sets'))];
    if (sets === 1) return [notApplicable(this, subject, runs, 'One set.')];
    const size = named(cable.conductor.size);
    const inputs = given(cable, 'conductor.sets', 'conductor.size', 'setsAlike', 'setsHoldAllPhases');
    const bad = (phrase: string, text: string): Finding =>
      finding(this, subject, runs, {
        verdict: 'fail',
        authority: basis === 'us' ? 'code' : 'standard',
        phrase,
        text,
        inputs,
        remedies: ['Identical sets, each with all phases and a ground of full size.', 'One larger set.'],
      });
    if (basis === 'us' && size && exceeds(LEAST_PARALLEL_MM2, size.area_mm2))
      return [
        bad(
          `${sets} sets of ${cable.conductor.size}`,
          `${cable.tag} runs ${sets} sets of ${cable.conductor.size} in parallel; 1/0 AWG is the smallest that may be.`,
        ),
      ];
    if (cable.setsAlike === false)
      return [
        bad(
          'sets not alike',
          `The ${sets} sets of ${cable.tag} differ in length, metal, size, insulation or landing: the shortest carries the most.`,
        ),
      ];
    if (cable.setsHoldAllPhases === false)
      return [
        bad(
          'phases split',
          `The sets of ${cable.tag} do not each hold all phases and a ground: a phase alone in metal heats it, and the field reaches everything near.`,
        ),
      ];
    const missing = missingOf(cable, 'setsAlike', 'setsHoldAllPhases', 'conductor.size');
    if (missing.length > 0) return [openFinding(this, subject, runs, missing)];
    const strange = unlisted(cable.conductor.size);
    if (strange.length > 0) return [openFinding(this, subject, runs, [], notASize(strange))];
    return [
      finding(this, subject, runs, {
        verdict: 'pass',
        phrase: `${sets} sets alike`,
        text: `${cable.tag} has ${sets} sets alike, each with all phases and a ground.`,
        inputs,
      }),
    ];
  },
};

export const outputCapacitor: Check = {
  slug: 'output-capacitor',
  rule: 'No capacitor and no arrester between drive and motor.',
  title: 'Capacitor on the output',
  authority: 'manual',
  source: 'drive makers’ published manuals, all forbid it; common practice',
  why: 'To the edges of a drive a capacitor or an arrester is a short circuit: currents many times the rated one flow at each switching, and one of the two fails.',
  scope: 'element',
  judge({ element, side, motors }): readonly Finding[] {
    if (side !== 'output' || (element.kind !== 'motor' && element.kind !== 'junction' && element.kind !== 'bus')) return [];
    const subject = elementSubject(element);
    const runs = tagsOf(motors);
    if (element.capacitor === undefined) return [openFinding(this, subject, runs, missingOf(element, 'capacitor'))];
    return [
      finding(this, subject, runs, {
        verdict: element.capacitor ? 'fail' : 'pass',
        phrase: element.capacitor ? 'capacitor on the output' : 'no capacitor',
        text: element.capacitor
          ? `A power-factor capacitor or surge arrester is connected at ${element.tag}, on a drive’s output.`
          : `No capacitor or arrester is connected at ${element.tag}.`,
        inputs: given(element, 'capacitor'),
        remedies: element.capacitor ? ['Take it off. The drive keeps its own power factor near one.'] : [],
      }),
    ];
  },
};
