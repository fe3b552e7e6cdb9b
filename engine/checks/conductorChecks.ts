import { conductorSize } from '../catalog/conductors.ts';
import type { Element } from '../lineup/elements.ts';
import { fixed } from '../lineup/roundTo.ts';
import {
  type Check,
  cableSubject,
  endSubject,
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
import type { Finding } from './finding.ts';

/** Size and metal of the conductors. */

/** 14 AWG is 2.081 mm2; in metric sizes 1.5 mm2 is the floor, with a note. */
const LEAST_US_MM2 = 2.08;
const LEAST_IEC_MM2 = 1.5;

export const smallestConductor: Check = {
  slug: 'smallest-conductor',
  rule: 'Not below 14 AWG, or 1.5 mm² in metric sizes.',
  title: 'Smallest conductor',
  authority: 'practice',
  source: 'common practice: 14 AWG, the smallest building wire with a 15 mil wall; 1.5 mm² in metric sizes',
  why: 'Thin wires have thin walls: under a drive the insulation of a wire smaller than this has little left over.',
  scope: 'cable',
  judge({ cable, side, motors }) {
    if (side !== 'output') return [];
    const subject = cableSubject(cable);
    const runs = tagsOf(motors);
    if (cable.kind === 'link') return [notApplicable(this, subject, runs, 'A connection inside one enclosure.')];
    const size = cable.conductor.size === undefined ? null : conductorSize(cable.conductor.size);
    if (!size)
      return [
        openFinding(
          this,
          subject,
          runs,
          [lacks(cable, 'conductor.size')],
          cable.conductor.size === undefined ? {} : { text: `Cannot be judged: ${cable.conductor.size} is not a size of the tables.` },
        ),
      ];
    const least = size.system === 'us' ? LEAST_US_MM2 : LEAST_IEC_MM2;
    const small = size.area_mm2 < least;
    const between = !small && size.area_mm2 < LEAST_US_MM2;
    return [
      finding(this, subject, runs, {
        verdict: small ? 'caution' : between ? 'note' : 'pass',
        quantity: 'conductor area',
        inputs: [
          ...given(cable, 'conductor.size'),
          lookedUp('area', `${size.area_mm2} mm²`, size.system === 'us' ? 'NEC Chapter 9 Table 8' : 'IEC 60228'),
        ],
        working: [`${fixed(size.area_mm2, 3)} mm² against ${least} mm²`],
        value: size.area_mm2,
        limit: least,
        unit: 'mm²',
        margin_pct: marginAbove(size.area_mm2, least),
        phrase: `${cable.conductor.size}${small || between ? ' is small' : ''}`,
        text: `${cable.tag} has ${cable.conductor.size?.replace('mm2', 'mm²')} conductors (${fixed(size.area_mm2, 2)} mm²); ${size.system === 'us' ? '14 AWG' : '1.5 mm²'} is the least that is usual on a drive’s output.`,
        remedies: ['A larger size, or a thicker wall in the same size.'],
      }),
    ];
  },
};

const marking = (element: Element): string | undefined =>
  'terminalMetal' in element && typeof element.terminalMetal === 'string' ? element.terminalMetal : undefined;

export const conductorMetal: Check = {
  slug: 'conductor-metal',
  rule: 'Aluminium only in terminals marked for it.',
  title: 'Conductor metal at terminals',
  authority: 'code',
  source: 'NEC 110.14; the drive’s own manual',
  why: 'Aluminium in a lug that is not marked for it creeps, loosens and burns.',
  scope: 'cable',
  judge({ cable, fromElement, toElement, motors }): readonly Finding[] {
    const runs = tagsOf(motors);
    if (cable.kind === 'link') return [notApplicable(this, cableSubject(cable), runs, 'A connection inside one enclosure.')];
    const { metal } = cable.conductor;
    if (metal === 'copper')
      return [
        finding(this, cableSubject(cable), runs, {
          verdict: 'pass',
          inputs: given(cable, 'conductor.metal'),
          phrase: 'copper',
          text: `${cable.tag} is copper, which every terminal takes.`,
        }),
      ];
    const ends = [
      ['from', fromElement],
      ['to', toElement],
    ] as const;
    return ends.map(([end, element]) => {
      const subject = endSubject(cable, end);
      if (metal === undefined) return openFinding(this, subject, runs, missingOf(cable, 'conductor.metal'));
      if (element.kind === 'supply') return notApplicable(this, subject, runs, 'The utility’s terminals.');
      const marked = marking(element);
      if (marked === undefined)
        return openFinding(this, subject, runs, [lacks(element, 'terminalMetal')], {
          text: `${cable.tag} is aluminium; whether the terminals of ${element.tag} take it is not known.`,
        });
      const taken = marked === 'copper-aluminium';
      return finding(this, subject, runs, {
        verdict: taken ? 'pass' : 'fail',
        inputs: [...given(cable, 'conductor.metal'), ...given(element, 'terminalMetal')],
        phrase: taken ? 'marked for aluminium' : 'aluminium on copper-only lugs',
        text: taken
          ? `${cable.tag} is aluminium and ${element.tag} is marked for it.`
          : `${cable.tag} is aluminium and lands on ${element.tag}, whose terminals are for copper only.`,
        remedies: [
          'Copper tails through a transition box or listed pin adapters (check their ampacity and fault rating too).',
          'A copper cable.',
        ],
      });
    });
  },
};
