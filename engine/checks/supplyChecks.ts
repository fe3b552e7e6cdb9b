import { type Check, cableSubject, elementSubject, finding, given, lacks, manualOf, notApplicable, openFinding, tagsOf } from './check.ts';
import type { Finding, Missing } from './finding.ts';
import { carrierOf } from './shieldPath.ts';

/** What the drive sees on its supply side. */

export const inputShield: Check = {
  slug: 'input-shield',
  rule: 'Between a filter and its drive, or where the manual asks for it, the input cable has a shield or a metal raceway.',
  title: 'Shield on the input',
  authority: 'guide',
  source: 'drive makers’ published manuals, where an emission category is asked or a filter stands apart from the drive',
  why: 'Between an EMC filter and its drive the cable carries the drive’s noise: unshielded, it radiates what the filter was bought for.',
  scope: 'cable',
  judge({ cable, side, motors, drives, project, filterAhead, fromElement, toElement }): readonly Finding[] {
    if (side !== 'input') return [];
    const subject = cableSubject(cable);
    const runs = tagsOf(motors);
    if (cable.kind === 'link') return [notApplicable(this, subject, runs, 'A connection inside one enclosure.')];
    const manual = drives.some((drive) => drive.manual?.inputShieldRequired === true);
    const betweenFilter = filterAhead && (fromElement.kind === 'drive' || toElement.kind === 'drive');
    if (!manual && !betweenFilter) {
      const unread = drives.filter((drive) => drive.manual?.inputShieldRequired === undefined);
      if (unread.length > 0 && carrierOf(cable) !== 'shield' && carrierOf(cable) !== 'raceway')
        return [
          openFinding(
            this,
            subject,
            runs,
            unread.map((drive) => lacks(drive, 'manual.inputShieldRequired')),
          ),
        ];
      return [
        notApplicable(
          this,
          subject,
          runs,
          'No filter stands between it and the drive and no manual asks for it: ordinary wiring rules hold.',
        ),
      ];
    }
    const carrier = carrierOf(cable);
    if (carrier === 'unknown')
      return [
        openFinding(
          this,
          subject,
          runs,
          [lacks(cable, 'construction'), lacks(cable, 'installation.raceway')].filter((each) =>
            each.field === 'construction' ? cable.construction === undefined : cable.installation.raceway === undefined,
          ),
        ),
      ];
    const bare = carrier === 'none';
    const unread = drives.filter((drive) => drive.manual?.inputShieldRequired === undefined);
    if (bare && !manual && unread.length > 0)
      return [
        openFinding(
          this,
          subject,
          runs,
          unread.map((drive) => lacks(drive, 'manual.inputShieldRequired')),
        ),
      ];
    return [
      finding(this, subject, runs, {
        verdict: bare ? (manual ? 'fail' : 'caution') : 'pass',
        authority: manual ? 'manual' : 'guide',
        source: manual
          ? drives
              .filter((drive) => drive.manual?.inputShieldRequired)
              .map(manualOf)
              .join('; ')
          : this.source,
        inputs: given(cable, 'construction', 'installation.raceway'),
        phrase: bare ? 'input not shielded' : 'input shielded',
        text: bare
          ? `${cable.tag} has neither shield nor metal raceway${manual ? '; the drive’s manual asks for one' : ' between filter and drive'}${project.emcCategory && project.emcCategory !== 'none' ? ` (category ${project.emcCategory} asked)` : ''}.`
          : `${cable.tag} has a shield or a metal raceway.`,
        remedies: bare ? ['A shielded cable between filter and drive, or the filter mounted at the drive.'] : [],
      }),
    ];
  },
};

const SOLID = new Set(['solid-wye', 'tn', 'tt']);
const EARTHING_WORDS: Readonly<Record<string, string>> = {
  'solid-wye': 'solidly grounded wye',
  tn: 'TN',
  tt: 'TT',
  'corner-grounded': 'corner-grounded',
  'midpoint-grounded': 'mid-point-grounded',
  'resistance-grounded': 'resistance-grounded',
  ungrounded: 'not grounded (IT)',
};

export const supplyEarthing: Check = {
  slug: 'supply-earthing',
  rule: 'The grounding must be one that the manual allows; a filter to ground on an ungrounded supply fails.',
  title: 'System grounding',
  authority: 'manual',
  source: 'the drive’s own manual; drive makers’ published manuals: no EMC filter on an ungrounded supply',
  why: 'On a supply that is not a solidly grounded wye, filter capacitors and varistors stand at line voltage to ground, and at more during a ground fault elsewhere.',
  scope: 'drive',
  judge({ drive, earthing, earthingPart, filters, motors }): readonly Finding[] {
    const subject = elementSubject(drive);
    const runs = tagsOf(motors);
    if (earthing === undefined)
      return [
        openFinding(this, subject, runs, [lacks(earthingPart, earthingPart.kind === 'transformer' ? 'secondaryEarthing' : 'earthing')]),
      ];
    const words = EARTHING_WORDS[earthing] ?? earthing;
    const inputs = [
      ...given(earthingPart, 'earthing', 'secondaryEarthing'),
      ...given(drive, 'manual.allowedEarthing', 'builtInFilter', 'filterJumpers'),
    ];
    const allowed = drive.manual?.allowedEarthing;
    const fitted = filters.length > 0 || drive.builtInFilter === true;
    const remedies = [
      'Take the jumpers out as the manual says (the emission category is lost).',
      'An isolating transformer with a solidly grounded wye.',
      'Another drive or filter.',
    ];
    if (allowed && !allowed.includes(earthing)) {
      return [
        finding(this, subject, runs, {
          inputs,
          verdict: 'fail',
          source: manualOf(drive),
          phrase: `${words} supply`,
          text: `The supply of ${drive.tag} is ${words}; its manual allows ${allowed.map((each) => EARTHING_WORDS[each]).join(', ')}.`,
          remedies,
        }),
      ];
    }
    if (SOLID.has(earthing))
      return [finding(this, subject, runs, { inputs, verdict: 'pass', phrase: words, text: `The supply of ${drive.tag} is ${words}.` })];
    const missing: Missing[] = [];
    if (drive.builtInFilter === undefined && filters.length === 0) missing.push(lacks(drive, 'builtInFilter'));
    if (drive.filterJumpers === undefined) missing.push(lacks(drive, 'filterJumpers'));
    const jumpered = drive.filterJumpers === 'in';
    if (earthing === 'ungrounded' && (filters.length > 0 || (fitted && jumpered))) {
      return [
        finding(this, subject, runs, {
          inputs,
          verdict: 'fail',
          authority: 'physics',
          phrase: 'filter on ungrounded supply',
          text: `The supply of ${drive.tag} is ${words} and a filter to ground is connected.`,
          remedies,
        }),
      ];
    }
    if (missing.length > 0) return [openFinding(this, subject, runs, missing)];
    if (fitted || jumpered)
      return [
        finding(this, subject, runs, {
          inputs,
          verdict: allowed ? 'note' : 'caution',
          phrase: `${words} supply`,
          text: `The supply of ${drive.tag} is ${words} with its filter or varistors to ground connected${allowed ? '; its manual allows it' : ', and no permission of the manual is entered'}.`,
          remedies,
        }),
      ];
    return [
      finding(this, subject, runs, {
        inputs,
        verdict: 'note',
        phrase: `${words} supply`,
        text: `The supply of ${drive.tag} is ${words}; nothing to ground is connected in it.`,
      }),
    ];
  },
};
