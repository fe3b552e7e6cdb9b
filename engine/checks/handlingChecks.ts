import { insulationFacts } from '../catalog/insulation.ts';
import { fixed } from '../lineup/roundTo.ts';
import { type Check, cableSubject, exceeds, finding, given, lacks, missingOf, notApplicable, openFinding, tagsOf } from './check.ts';
import type { Finding } from './finding.ts';
import { turnedRange } from './turnedRange.ts';

/** Cold, movement, sun and age. */

/** Coldest at which a cable may be laid or moved: PVC stiffens below −10 °C (NEC 310.10 informational note to TW and THW types); cross-linked and rubber −40 °C, from memory. */
const LEAST_C = { pvc: -10, xlpe: -40, epr: -40, hepr: -40 } as const;

export const insulationTemperature: Check = {
  slug: 'insulation-temperature',
  rule: 'Not laid or moved below what it is made for; a moving cable is flexible; in the sun it is rated for it.',
  title: 'Cold, sun and movement',
  authority: 'guide',
  source:
    'NEC note: thermoplastic stiffens below −10 °C; −40 °C for cross-linked types, from memory; NEC 310.10(D) (sunlight); makers’ data for moving cable',
  why: 'Cold plastic cracks when it is bent; a cable made to lie still breaks when it is made to move; sun eats what is not made for it.',
  scope: 'cable',
  judge({ cable, motors }): readonly Finding[] {
    const runs = tagsOf(motors);
    const subject = cableSubject(cable);
    if (cable.kind === 'link') return [notApplicable(this, subject, runs, 'A connection inside one enclosure.')];
    const { flexing, sunlight, ambientLeast_C } = cable.installation;
    const inputs = given(
      cable,
      'installation.ambientLeast_C',
      'insulation.temperatureLeast_C',
      'insulation.type',
      'installation.flexing',
      'conductor.build',
      'installation.sunlight',
      'insulation.sunlightRated',
    );
    const { build } = cable.conductor;
    if (flexing === true && build !== undefined && build !== 'flexible')
      return [
        finding(this, subject, runs, {
          verdict: 'fail',
          authority: 'physics',
          phrase: 'fixed cable that moves',
          text: `${cable.tag} moves in use and has ${build} conductors, which break.`,
          inputs,
          remedies: ['A cable made for festoon or drag chain, of fine strands.'],
        }),
      ];
    if (sunlight === true && cable.insulation.sunlightRated === false)
      return [
        finding(this, subject, runs, {
          verdict: 'fail',
          authority: 'code',
          source: 'NEC 310.10(D)',
          phrase: 'not for sunlight',
          text: `${cable.tag} lies in the sun and is not rated for it.`,
          inputs,
          remedies: ['A cable marked sunlight resistant, or a pipe over it.'],
        }),
      ];
    const polymer = insulationFacts(cable.insulation.type)?.polymer;
    const least = cable.insulation.temperatureLeast_C ?? (polymer ? LEAST_C[polymer] : undefined);
    const missing = [
      ...(least === undefined ? [lacks(cable, 'insulation.type')] : []),
      ...missingOf(cable, 'installation.ambientLeast_C', 'installation.flexing', 'installation.sunlight'),
      ...(sunlight === true ? missingOf(cable, 'insulation.sunlightRated') : []),
      ...(flexing === true ? missingOf(cable, 'conductor.build') : []),
    ];
    // Before the cold, which is a caution: what is not known might fail it.
    if (missing.length > 0 || least === undefined || ambientLeast_C === undefined) return [openFinding(this, subject, runs, missing)];
    if (exceeds(ambientLeast_C, cable.installation.ambient_C ?? ambientLeast_C))
      return [openFinding(this, subject, runs, [], turnedRange(cable, 'installation.ambientLeast_C', 'installation.ambient_C'))];
    if (exceeds(least, ambientLeast_C)) {
      return [
        finding(this, subject, runs, {
          verdict: 'caution',
          quantity: 'coldest place',
          value: ambientLeast_C,
          limit: least,
          unit: '°C',
          working: [`${fixed(ambientLeast_C, 1)} °C against ${fixed(least, 0)} °C`],
          phrase: `${fixed(ambientLeast_C, 0)} °C is too cold`,
          text: `${cable.tag} lies where it may be ${fixed(ambientLeast_C, 0)} °C; ${cable.insulation.type ?? 'its insulation'} is good to ${fixed(least, 0)} °C.`,
          inputs,
          remedies: ['A cable for the cold (cross-linked or rubber).', 'Lay it when it is warm and do not move it after.'],
        }),
      ];
    }
    return [
      finding(this, subject, runs, {
        verdict: 'pass',
        quantity: 'coldest place',
        value: ambientLeast_C,
        limit: least,
        unit: '°C',
        working: [`${fixed(ambientLeast_C, 1)} °C against ${fixed(least, 0)} °C`],
        phrase: 'warm enough',
        text: `${cable.tag} lies at ${fixed(ambientLeast_C, 0)} °C or warmer and is good to ${fixed(least, 0)} °C.`,
        inputs,
      }),
    ];
  },
};

export const existingCable: Check = {
  slug: 'existing-cable',
  rule: 'Replaced, or identified and tested with both ends lifted.',
  title: 'Existing cable',
  authority: 'practice',
  source: 'common practice: replace, or identify and test with both ends lifted, or protect with a filter and leave undisturbed',
  why: 'What an old cable is and what is left of its insulation cannot be seen. A drive’s pulses find the weak place that the mains never did.',
  scope: 'cable',
  judge({ cable, motors }): readonly Finding[] {
    const runs = tagsOf(motors);
    const subject = cableSubject(cable);
    const { existing, tested } = cable.installation;
    if (cable.kind === 'link') return [notApplicable(this, subject, runs, 'A connection inside one enclosure.')];
    if (existing === undefined) return [openFinding(this, subject, runs, missingOf(cable, 'installation.existing'))];
    if (!existing) return [notApplicable(this, subject, runs, 'A new cable.')];
    const inputs = given(cable, 'installation.existing', 'installation.tested', 'insulation.type');
    if (tested !== true)
      return [
        openFinding(this, subject, runs, tested === undefined ? missingOf(cable, 'installation.tested') : [], {
          phrase: 'existing, not tested',
          text: `${cable.tag} is an existing cable${tested === undefined ? '; whether it was identified and tested is not known' : ' that was not tested'}.`,
          inputs,
          remedies: ['Replace it.', 'Identify it and test its insulation, both ends lifted.', 'Leave it undisturbed behind a filter.'],
        }),
      ];
    return [
      finding(this, subject, runs, {
        verdict: 'note',
        phrase: 'existing, tested',
        text: `${cable.tag} is an existing cable, identified and tested; its age stays unknown.`,
        inputs,
      }),
    ];
  },
};
