import type { Cable } from '../lineup/cable.ts';
import { fixed } from '../lineup/roundTo.ts';
import {
  type Check,
  cableSubject,
  exceeds,
  finding,
  given,
  lacks,
  lengthSaid,
  marginAbove,
  missingOf,
  notApplicable,
  openFinding,
  tagsOf,
} from './check.ts';
import type { Finding, Input } from './finding.ts';
import { carrierOf } from './shieldPath.ts';

/** Where the cable lies, and beside what. */

const CONTROL_MM = 500;
const POWER_MM = 300;
const SUPPLY_TO_CONTROL_MM = 200;
/** Between steel conduits 3 in: the pipe itself is the screen. */
const STEEL_MM = 76;

export const separation: Check = {
  slug: 'separation',
  rule: 'Motor cable 500 mm from control and 300 mm from power, supply cable 200 mm from control; steel conduits 3 in.',
  title: 'Distance to other cables',
  authority: 'guide',
  source:
    'drive makers’ published guides: motor cable 500 mm from control and 300 mm from other power, supply cable 200 mm from control, crossings at right angles; steel conduits 3 in apart',
  why: 'The edges on a motor cable couple into what runs beside it, metre by metre.',
  scope: 'cable',
  judge({ cable, side, motors, project }): readonly Finding[] {
    const runs = tagsOf(motors);
    const subject = cableSubject(cable);
    if (cable.kind === 'link') return [notApplicable(this, subject, runs, 'A connection inside one enclosure.')];
    const { toControl_mm, toPower_mm, divider, parallel_m, raceway } = cable.installation;
    if (parallel_m === 0) return [notApplicable(this, subject, runs, 'Nothing runs beside it.')];
    const steel = raceway === 'steel-conduit';
    const [control, power] =
      side === 'output' ? (steel ? [STEEL_MM, STEEL_MM] : [CONTROL_MM, POWER_MM]) : [steel ? STEEL_MM : SUPPLY_TO_CONTROL_MM, 0];
    const inputs = given(
      cable,
      'installation.toControl_mm',
      'installation.toPower_mm',
      'installation.parallel_m',
      'installation.divider',
      'installation.raceway',
    );
    const distances = [
      { from: 'control cables', value: toControl_mm, limit: control },
      { from: 'other power', value: toPower_mm, limit: power },
    ];
    // The worse one, by its share of what is asked, first.
    const short = distances
      .flatMap(({ from, value, limit }) => (value !== undefined && exceeds(limit, value) ? [{ from, value, limit }] : []))
      .sort((a, b) => a.value / a.limit - b.value / b.limit);
    const near = short.map(({ from, value, limit }) => `${fixed(value, 0)} mm from ${from} (${limit} asked)`);
    const [worst] = short;
    if (worst) {
      if (divider === undefined)
        return [
          openFinding(this, subject, runs, [lacks(cable, 'installation.divider')], {
            text: `${cable.tag} lies ${near.join(' and ')}; whether a metal divider stands between is not known.`,
            inputs,
          }),
        ];
      return [
        finding(this, subject, runs, {
          verdict: divider ? 'note' : 'caution',
          quantity: 'distance',
          working: near,
          value: worst.value,
          limit: worst.limit,
          unit: 'mm',
          margin_pct: marginAbove(worst.value, worst.limit),
          phrase: divider ? 'near, with a divider' : 'too near to other cables',
          text: `${cable.tag} lies ${near.join(' and ')}${parallel_m === undefined ? '' : `, side by side for ${lengthSaid(parallel_m, project)}`}${divider ? '; a metal divider stands between' : ''}.`,
          inputs,
          remedies: divider
            ? []
            : ['More distance, or a metal divider bonded at both ends.', 'A pipe of its own.', 'Cross at right angles.'],
        }),
      ];
    }
    const missing = missingOf(cable, 'installation.toControl_mm', ...(power > 0 ? ['installation.toPower_mm'] : []));
    if (missing.length > 0) return [openFinding(this, subject, runs, missing, { inputs })];
    return [
      finding(this, subject, runs, {
        verdict: 'pass',
        phrase: 'far enough',
        text: `${cable.tag} lies at least ${control} mm from control cables${power > 0 ? ` and ${power} mm from other power` : ''}.`,
        inputs,
      }),
    ];
  },
};

/** Of the cables in one raceway, those that name another of them; the cable itself where it says that it lies alone. */
export const sharers = (cable: Cable, together: readonly Cable[]): readonly Input[] =>
  together.length === 0
    ? given(cable, 'installation.sharedWith')
    : [cable, ...together]
        .filter(({ installation }) => installation.sharedWith?.length)
        .flatMap((each) => given(each, 'installation.sharedWith'));

/** Both guides forbid more drives’ outputs than these in one raceway. */
const MOST_OUTPUTS = 3;

export const sharedRaceway: Check = {
  slug: 'shared-raceway',
  rule: 'No supply beside a drive’s output, and no control cores without a shield beside power. Where outputs of several drives lie together, at most one cable is without a shield: more are a caution, and with more than three outputs a failure.',
  title: 'Shared raceway',
  authority: 'guide',
  source:
    'two drive makers’ published guides (one allows no other output in the pipe, one up to three sets); that shields suffice is common practice; NEC 300.3(C) for control wires',
  why: 'Outputs of drives in one pipe drive current into each other; a supply beside an output carries its noise back to everyone.',
  scope: 'cable',
  judge({ cable, side, motors, drive, together, togetherFed }): readonly Finding[] {
    const runs = tagsOf(motors);
    const subject = cableSubject(cable);
    if (cable.kind === 'link') return [notApplicable(this, subject, runs, 'A connection inside one enclosure.')];
    const told = cable.installation.sharedWith;
    if (told === undefined && together.length === 0) return [openFinding(this, subject, runs, missingOf(cable, 'installation.sharedWith'))];
    // What lies there is known from whichever of them tells of it.
    const inputs = [...sharers(cable, together), ...given(cable, 'construction')];
    const control = cable.auxiliary.some((group) => group.use !== 'brake' && group.screened !== true);
    const mixed = together.filter((_, i) => (side === 'input') !== (togetherFed[i] === 'input') && togetherFed[i] !== 'unfed');
    const outputs =
      side === 'output' ? new Set([drive?.id, ...togetherFed.filter((fed) => fed !== 'input' && fed !== 'unfed')]) : new Set<string>();
    const open = together.some((other) => other.construction === undefined);
    const unshielded = [cable, ...together].filter((each) => carrierOf(each) !== 'shield');
    const say = (verdict: Finding['verdict'], phrase: string, text: string, more: Partial<Finding> = {}): Finding =>
      finding(this, subject, runs, {
        verdict,
        phrase,
        text,
        inputs,
        remedies: verdict === 'pass' ? [] : ['A pipe or cable of its own for each drive’s output.'],
        ...more,
      });
    if (outputs.size > MOST_OUTPUTS && unshielded.length > 1)
      return [
        say(
          'fail',
          `${outputs.size} outputs in one raceway`,
          `${outputs.size} drives’ outputs share the raceway of ${cable.tag}, and more than one cable has no shield; both guides forbid more than ${MOST_OUTPUTS}.`,
        ),
      ];
    if (mixed.length > 0)
      return [
        say(
          'caution',
          'input and output together',
          `${cable.tag} shares its raceway with ${tagsOf(mixed).join(', ')}: ${side === 'output' ? 'a supply beside a drive’s output' : 'a drive’s output beside a supply'}.`,
        ),
      ];
    if (outputs.size > 1 && unshielded.length > 1)
      return [
        say(
          'caution',
          `${outputs.size} outputs in one raceway`,
          `${outputs.size} drives’ outputs share the raceway of ${cable.tag}, and more than one cable has no shield: one guide allows none, another up to ${MOST_OUTPUTS}.`,
        ),
      ];
    if (control)
      return [
        say(
          'caution',
          'control wires beside power',
          `${cable.tag} holds control cores without a shield of their own beside its power conductors.`,
        ),
      ];
    if (open && outputs.size > 1)
      return [
        openFinding(
          this,
          subject,
          runs,
          together.filter((other) => other.construction === undefined).map((other) => lacks(other, 'construction')),
        ),
      ];
    return [
      say(
        'pass',
        together.length === 0 ? 'a raceway of its own' : 'shared with its like',
        together.length === 0
          ? `${cable.tag} shares its raceway with no other cable.`
          : `${cable.tag} shares its raceway with ${tagsOf(together).join(', ')}, which may lie together.`,
      ),
    ];
  },
};

export const spareConductors: Check = {
  slug: 'spare-conductors',
  rule: 'Spares are grounded at both ends.',
  title: 'Spare conductors',
  authority: 'guide',
  source: 'a drive maker’s published small-drive manual: ground them at both ends',
  why: 'A spare beside a drive’s output is charged by every edge: touched, it shocks; grounded at both ends, it does not.',
  scope: 'cable',
  judge({ cable, side, motors }): readonly Finding[] {
    if (side !== 'output') return [];
    const runs = tagsOf(motors);
    const subject = cableSubject(cable);
    if (cable.kind === 'link') return [notApplicable(this, subject, runs, 'A connection inside one enclosure.')];
    const { spares } = cable.installation;
    if (spares === undefined) return [openFinding(this, subject, runs, missingOf(cable, 'installation.spares'))];
    if (spares === 'none') return [notApplicable(this, subject, runs, 'No spare conductors.')];
    const left = spares === 'left-open';
    return [
      finding(this, subject, runs, {
        verdict: left ? 'note' : 'pass',
        phrase: left ? 'spares left open' : 'spares grounded',
        text: `The spare conductors in ${cable.tag} are ${left ? 'left open: they carry a voltage while the drive runs' : 'grounded at both ends'}.`,
        inputs: given(cable, 'installation.spares'),
        remedies: left ? ['Ground them at both ends.'] : [],
      }),
    ];
  },
};
