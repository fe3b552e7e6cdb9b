import { conductorSize } from '../catalog/conductors.ts';
import { equipmentGround, protectiveConductor_mm2, TABLE_54_2, TABLE_250_122 } from '../catalog/groundingConductors.ts';
import { cite } from '../catalog/source.ts';
import type { Cable } from '../lineup/cable.ts';
import { fixed } from '../lineup/roundTo.ts';
import { leastPhases } from './ampacityChecks.ts';
import { worstLength_m } from './cableModel.ts';
import {
  type CableScope,
  type Check,
  type CheckFacts,
  cableSubject,
  elementSubject,
  exceeds,
  finding,
  given,
  lacks,
  lengthSaid,
  lookedUp,
  marginAbove,
  missingOf,
  notApplicable,
  notKnown,
  openFinding,
  tagsOf,
} from './check.ts';
import type { Finding, Missing } from './finding.ts';
import { carrierOf } from './shieldPath.ts';
import { notASize, unlisted } from './unlistedSize.ts';

/** The green wire beside the shield, and the shield's own quality. */

/** Cross-section of all grounding conductors together, or null when it is not known. */
function groundArea_mm2(cable: Cable): number | null {
  const { count, size } = cable.grounds;
  const one = size === undefined ? null : conductorSize(size);
  return count === undefined || !one ? null : count * one.area_mm2 * (cable.conductor.sets ?? 1);
}

const REMEDIES = ['A larger or a second grounding conductor.', 'A cable whose grounds together have the area that is asked.'];

export const protectiveEarth: Check = {
  slug: 'protective-earth',
  rule: 'US: Table 250.122 by the device ahead, in full in each set, larger as the phases are larger than they need be, not above the phase. IEC: Table 54.2, and 10 mm² copper, 16 mm² aluminium or a second conductor where over 3.5 mA may flow. A shield alone is not one.',
  title: 'Grounding conductor',
  authority: 'code',
  source:
    'NEC 250.122(A), (B), (D), (F), 250.118, 250.148; IEC 60364-5-54 Table 54.2, 543.7; IEC 61800-5-1 4.3.5.5.2 (over 3.5 mA to earth)',
  why: 'The shield is for noise, the grounding conductor is for people: at a fault it carries the current that trips the device, and with it broken the case of the motor stands at line voltage.',
  scope: 'cable',
  judge(scope): readonly Finding[] {
    return judgeGround(this, scope, true);
  },
};

/**
 * The same by the device alone, for what only chooses the size of the phases: each size above the least asks for a larger ground as well, so
 * that none but the least would ever do. That the ground grows with them is said of the line-up with the size in it.
 */
export const groundByDevice: Check = {
  ...protectiveEarth,
  scope: 'cable',
  judge(scope): readonly Finding[] {
    return judgeGround(this, scope, false);
  },
};

function judgeGround(check: CheckFacts, scope: CableScope, grows: boolean): readonly Finding[] {
  const { cable, motors, basis } = scope;
  const runs = tagsOf(motors);
  const subject = cableSubject(cable);
  if (cable.kind === 'link') return [notApplicable(check, subject, runs, 'A connection inside one enclosure.')];
  const open = leftOpen(cable);
  if (open) {
    const count = cable.grounds.count ?? 0;
    const all = open.landed === 0;
    return [
      finding(check, subject, runs, {
        verdict: all ? 'fail' : 'caution',
        phrase: all ? 'grounding conductor not landed' : 'grounds not all landed',
        text: `Of ${count} grounding conductors in ${cable.tag} ${open.landed} ${open.landed === 1 ? 'is' : 'are'} landed at its ${open.end}: ${all ? 'the way to ground is broken there' : 'what is left is unsymmetrical and may be too small'}.`,
        inputs: given(cable, 'grounds.count', 'from.groundsLanded', 'to.groundsLanded'),
        remedies: ['Land every grounding conductor at both ends, and splice them through each box.'],
      }),
    ];
  }
  return [basis === 'us' ? usGround(check, scope, grows) : iecGround(check, scope)];
}

/** Where grounding conductors are not landed, at the end where the fewest are. */
function leftOpen(cable: Cable): { readonly end: string; readonly landed: number } | null {
  const { count } = cable.grounds;
  if (count === undefined) return null;
  const start = { end: 'start', landed: cable.from.groundsLanded ?? count };
  const end = { end: 'end', landed: cable.to.groundsLanded ?? count };
  const fewest = end.landed < start.landed ? end : start;
  return fewest.landed < count ? fewest : null;
}

/** What the size of a grounding conductor and of what is asked is made of. */
const GROUND = [
  'grounds.count',
  'grounds.size',
  'grounds.metal',
  'conductor.size',
  'conductor.metal',
  'from.groundsLanded',
  'to.groundsLanded',
] as const;

const landings = (cable: Cable): readonly Missing[] => missingOf(cable, 'from.groundsLanded', 'to.groundsLanded');

function usGround(check: CheckFacts, scope: CableScope, grows: boolean): Finding {
  const { cable, motors, guard, unsorted, voltageFrom } = scope;
  const runs = tagsOf(motors);
  const subject = cableSubject(cable);
  const { raceway } = cable.installation;
  const { count } = cable.grounds;
  // Rigid conduit, of aluminium too, and a listed corrugated sheath may serve by themselves (250.118).
  const conduit = raceway === 'steel-conduit' || raceway === 'aluminium-conduit';
  if (count === 0) {
    if (conduit || cable.construction === 'corrugated-armour')
      return finding(check, subject, runs, {
        verdict: 'note',
        phrase: 'metal raceway as ground',
        text: `${cable.tag} has no grounding conductor of its own; ${conduit ? 'its metal conduit' : 'its sheath, where listed for it,'} may serve (NEC 250.118), and every joint then counts.`,
        inputs: given(cable, 'grounds.count', 'installation.raceway', 'construction'),
        remedies: ['A wire-type grounding conductor as well.'],
      });
    if (raceway === undefined || cable.construction === undefined)
      return openFinding(check, subject, runs, missingOf(cable, 'installation.raceway', 'construction'));
    return finding(check, subject, runs, {
      verdict: 'fail',
      phrase: 'no grounding conductor',
      text: `${cable.tag} has no grounding conductor${carrierOf(cable) === 'shield' ? '; a shield alone does not count as one' : ''}.`,
      inputs: given(cable, 'grounds.count', 'installation.raceway', 'construction'),
      remedies: REMEDIES,
    });
  }
  const area = groundArea_mm2(cable);
  const metal = cable.grounds.metal;
  const trip = guard?.tripCurrent_A;
  const missing = [
    ...missingOf(cable, 'grounds.count', 'grounds.size', 'grounds.metal', 'conductor.size', 'conductor.metal'),
    ...(guard ? missingOf(guard, 'tripCurrent_A') : []),
    ...landings(cable),
  ];
  const table = trip === undefined || metal === undefined ? null : equipmentGround(trip, metal);
  const phase = cable.conductor.size === undefined ? null : conductorSize(cable.conductor.size);
  if (!guard && unsorted) return openFinding(check, subject, runs, [lacks(unsorted, 'device'), ...missing]);
  if (!guard)
    return openFinding(check, subject, runs, missing, {
      phrase: 'device ahead?',
      text:
        voltageFrom.kind === 'transformer'
          ? `Cannot be judged yet: no breaker or fuse is drawn between ${voltageFrom.tag} and ${cable.tag}. One ahead of a transformer is not taken to guard what is behind it (NEC 240.21(C)); ahead of the first device there the bonding jumper goes by the phase conductors (NEC 250.30(A)(2), 250.102(C), from memory).`
          : `Cannot be judged yet: no breaker or fuse is drawn ahead of ${cable.tag}, and its rating decides the size of the grounding conductor.`,
      remedies: ['Draw the device ahead and give its rating.'],
    });
  const strange = unlisted(cable.grounds.size, cable.conductor.size);
  if (missing.length === 0 && strange.length > 0) return openFinding(check, subject, runs, [], notASize(strange));
  if (missing.length > 0 || area === null || trip === undefined || metal === undefined || !phase)
    return openFinding(check, subject, runs, missing);
  if (!table)
    return openFinding(check, subject, runs, [], {
      text: `Cannot be judged: the table ends below ${fixed(trip, 0)} A, or has no ${metal} row for it.`,
    });
  const tableArea = conductorSize(table.size)?.area_mm2 ?? Number.POSITIVE_INFINITY;
  // Never larger than the conductors of the circuit (250.122(A)); each set in a raceway of its own has it in full (250.122(F)).
  const sets = cable.conductor.sets ?? 1;
  const sameMetal = cable.conductor.metal === metal;
  const asked = (times: number): number => (sameMetal ? Math.min(tableArea * times, phase.area_mm2) : tableArea * times) * sets;
  const enough = (need: number): boolean => !exceeds(need, area * 1.002);
  const inputs = [
    ...given(cable, ...GROUND, 'conductor.sets'),
    ...given(guard, 'device', 'tripCurrent_A'),
    lookedUp('grounding conductor', table.size, cite(TABLE_250_122)),
  ];
  const text = `${cable.tag} has ${fixed(area, 1)} mm² of grounding conductor; behind ${guard.tag} at ${fixed(trip, 0)} A ${table.size}${sets > 1 ? ` in each of ${sets} sets` : ''} is asked (${fixed(asked(1), 1)} mm²)`;
  // Phases larger than they need be pass more at a fault, and the ground grows with them (250.122(B)), to their own size.
  const phases = grows && enough(asked(1)) && !(sameMetal && enough(phase.area_mm2 * sets)) ? leastPhases(scope, trip) : null;
  if (phases && phases.missing.length > 0)
    return openFinding(check, subject, runs, phases.missing, {
      text: `${text}, and more in proportion where its phases are larger than they need be (NEC 250.122(B)). ${notKnown(phases.missing)}`,
      inputs: [...inputs, ...phases.inputs],
    });
  const timesOf = (size: string | null | undefined): number =>
    Math.max(1, phase.area_mm2 / ((size && conductorSize(size)?.area_mm2) || phase.area_mm2));
  const [byLoad, byDevice] = [timesOf(phases?.byLoad), timesOf(phases?.byDevice)];
  const need = asked(byLoad);
  const short = !enough(need);
  // Phases that their device would ask for by 240.4(B) may have been made so large for it: worth a note, since a motor circuit need not follow (240.4(G)).
  const follows = short && phases?.byDevice != null && enough(asked(Math.min(byLoad, byDevice)));
  const larger =
    short && byLoad > 1
      ? `; its phases of ${cable.conductor.size} are larger than ${phases?.byLoad}, the least that carries the ${fixed(phases?.need_A ?? 0, 1)} A asked of them, and it grows in proportion: ${fixed(need, 1)} mm² (NEC 250.122(B))${follows ? `, unless they follow the device: ${fixed(trip, 0)} A of ${guard.tag} would ask for as much` : ''}`
      : '';
  return finding(check, subject, runs, {
    verdict: follows ? 'note' : short ? 'fail' : 'pass',
    quantity: 'area of the grounding conductors',
    value: area,
    limit: need,
    unit: 'mm²',
    margin_pct: marginAbove(area, need),
    phrase: `ground ${fixed(area, 1)} of ${fixed(need, 1)} mm²`,
    text: `${text}${larger}.`,
    source: `${check.source}; ${cite(TABLE_250_122)}`,
    inputs: [...inputs, ...(phases?.inputs ?? [])],
    working: [
      `${cable.grounds.count ?? 0} × ${cable.grounds.size ?? ''}${sets > 1 ? ` × ${sets} sets` : ''} = ${fixed(area, 2)} mm²`,
      ...(byLoad > 1
        ? [
            `${table.size} × ${fixed(phase.area_mm2, 2)} mm² of ${cable.conductor.size} / that of ${phases?.byLoad}: ${fixed(need, 2)} mm² at most its phase`,
          ]
        : []),
    ],
    assumptions:
      (cable.grounds.count ?? 0) > 1
        ? [{ what: 'grounding conductors', value: 'count together', source: 'NEC 250.122(F), from memory' }]
        : [],
    remedies: short
      ? [...REMEDIES, ...(byLoad > 1 ? ['A size that a qualified person gives it by 250.4(A)(5) (exception to 250.122(B)).'] : [])]
      : [],
  });
}

/** Aluminium heats more than copper for the same area: k1 / k2 of IEC 60364-5-54 Table 54.2, 143 / 94 for XLPE (IEC 60364-4-43 Table 43A, from memory). */
const ALUMINIUM_BESIDE_COPPER = 143 / 94;
/** Over this a second path or a thicker one is asked: IEC 61800-5-1. */
const TOUCH_A = 0.0035;
const REINFORCED_MM2 = { copper: 10, aluminium: 16 } as const;

function iecGround(check: CheckFacts, { cable, motors, drives, drive }: CableScope): Finding {
  const runs = tagsOf(motors);
  const subject = cableSubject(cable);
  const none = cable.grounds.count === 0;
  // A shield helps a conductor that is there, where both its ends are known to be held all round; alone it is none.
  const helps =
    carrierOf(cable) === 'shield' && !none && [cable.from, cable.to].every(({ landing }) => landing === 'full' || landing === 'clamp');
  const shield = helps ? (cable.shieldArea_mm2 ?? 0) * (cable.conductor.sets ?? 1) : 0;
  const grounds = cable.grounds.count === 0 ? 0 : groundArea_mm2(cable);
  const phase = cable.conductor.size === undefined ? null : conductorSize(cable.conductor.size);
  const metal = cable.grounds.metal ?? (cable.grounds.count === 0 ? 'copper' : undefined);
  const missing = [
    ...missingOf(cable, 'grounds.count', 'conductor.size', 'conductor.metal'),
    ...(cable.grounds.count === 0 ? [] : [...missingOf(cable, 'grounds.size', 'grounds.metal'), ...landings(cable)]),
  ];
  const strange = unlisted(none ? undefined : cable.grounds.size, cable.conductor.size);
  if (missing.length === 0 && strange.length > 0) return openFinding(check, subject, runs, [], notASize(strange));
  if (missing.length > 0 || grounds === null || !phase || metal === undefined) return openFinding(check, subject, runs, missing);
  const area = grounds + shield;
  // Copper beside aluminium could be thinner: that is not made use of.
  const other = cable.conductor.metal === 'copper' && metal === 'aluminium' && (cable.grounds.count ?? 0) > 0;
  const table = protectiveConductor_mm2(phase.area_mm2) * (other ? ALUMINIUM_BESIDE_COPPER : 1) * (cable.conductor.sets ?? 1);
  const onDrive = drive ? [drive] : drives;
  // A drive with a filter passes more than 3.5 mA; without a figure it is taken to.
  const leaks = onDrive.filter((each) => each.leakageCurrent_A === undefined || each.leakageCurrent_A > TOUCH_A);
  const second = (cable.grounds.count ?? 0) >= 2 && grounds >= 2 * table * 0.998;
  const need = leaks.length > 0 && !second ? Math.max(table, REINFORCED_MM2[metal]) : table;
  const short = exceeds(need, area * 1.002);
  return finding(check, subject, runs, {
    verdict: short ? 'fail' : 'pass',
    authority: 'standard',
    quantity: 'area of the grounding conductors',
    value: area,
    limit: need,
    unit: 'mm²',
    margin_pct: marginAbove(area, need),
    phrase: `PE ${fixed(area, 1)} of ${fixed(need, 1)} mm²`,
    text: `${cable.tag} has ${fixed(area, 1)} mm² of grounding conductor${shield > 0 ? ' (its shield counted)' : none && carrierOf(cable) === 'shield' ? ' (a shield alone does not count as one)' : ''}; ${fixed(need, 1)} mm² are asked${need > table ? ' because more than 3.5 mA may flow to ground' : ''}.`,
    source: `${check.source}; ${cite(TABLE_54_2)}`,
    inputs: given(cable, ...GROUND, 'shieldArea_mm2', 'conductor.sets'),
    working: [
      `line conductor ${fixed(phase.area_mm2, 1)} mm²: grounding conductor ${fixed(table, 1)} mm² (${cite(TABLE_54_2)}${other ? ', × 143 / 94 for aluminium beside copper' : ''})`,
    ],
    assumptions: leaks
      .filter((each) => each.leakageCurrent_A === undefined)
      .map((each) => ({ what: `current of ${each.tag} to ground`, value: 'over 3.5 mA', source: 'worst case: not given' })),
    remedies: short ? REMEDIES : [],
  });
}

const LEAST_COVERAGE_PCT = 85;
/** Conductance of the shield at least a tenth of a phase conductor: one maker's published manual. */
const LEAST_CONDUCTANCE = 0.1;
const LONG_M = 30;

export const shieldAdequacy: Check = {
  slug: 'shield-adequacy',
  rule: 'One shield around all phases; braid covers 85 %; a tenth of a phase conductor’s conductance; interlocked armour to 30 m.',
  title: 'Quality of the shield',
  authority: 'guide',
  source:
    'a drive maker’s published manual (a tenth of the phase conductor; no shield on single phases); another’s guide prefers continuous welded armour; braid of 85 % (common practice)',
  why: 'A thin or gappy shield leaves part of the current to find other ways, and a shield around each phase by itself carries the phase’s own field.',
  scope: 'cable',
  judge({ cable, side, motors, project }): readonly Finding[] {
    if (side !== 'output') return [];
    const runs = tagsOf(motors);
    const subject = cableSubject(cable);
    if (cable.kind === 'link') return [notApplicable(this, subject, runs, 'A connection inside one enclosure.')];
    const carrier = carrierOf(cable);
    if (carrier === 'unknown') return [openFinding(this, subject, runs, missingOf(cable, 'construction', 'installation.raceway'))];
    if (carrier !== 'shield')
      return [notApplicable(this, subject, runs, carrier === 'none' ? 'It has no shield.' : 'Its metal raceway is the shield.')];
    const inputs = given(cable, 'construction', 'shieldCoverage_pct', 'shieldArea_mm2', 'phasesScreened', 'conductor.size');
    const say = (verdict: Finding['verdict'], phrase: string, text: string, more: Partial<Finding> = {}): readonly Finding[] => [
      finding(this, subject, runs, {
        verdict,
        phrase,
        text,
        inputs,
        remedies: verdict === 'pass' ? [] : ['A cable with one shield around all phases, dense and of good conductance.'],
        ...more,
      }),
    ];
    if (cable.phasesScreened === true)
      return say(
        'fail',
        'each phase shielded singly',
        `Each phase of ${cable.tag} has a shield of its own: a maker’s manual forbids it at a drive’s output.`,
        { authority: 'manual' },
      );
    const missing: Missing[] = [...missingOf(cable, 'phasesScreened')];
    const phase = cable.conductor.size === undefined ? null : conductorSize(cable.conductor.size);
    if (cable.construction === 'interlocked-armour') {
      const length = worstLength_m(cable);
      if (length === null) return [openFinding(this, subject, runs, [...missing, ...missingOf(cable, 'length_m')])];
      if (exceeds(length, LONG_M))
        return say(
          'caution',
          'interlocked armour, long',
          `${cable.tag} has interlocked tape armour over ${lengthSaid(length, project)}: its joints are many small gaps; on long runs a continuous sheath is preferred.`,
          { quantity: 'length', value: length, limit: LONG_M, unit: 'm' },
        );
      if (missing.length > 0) return [openFinding(this, subject, runs, missing)];
      return say('pass', 'interlocked armour, short', `${cable.tag} has interlocked armour over ${lengthSaid(length, project)}.`);
    }
    if (cable.construction === 'foil-and-braid') {
      const coverage = cable.shieldCoverage_pct;
      if (coverage !== undefined && exceeds(LEAST_COVERAGE_PCT, coverage))
        return say(
          'caution',
          `braid covers ${fixed(coverage, 0)} %`,
          `The braid of ${cable.tag} covers ${fixed(coverage, 0)} %; ${LEAST_COVERAGE_PCT} % is usual.`,
          {
            authority: 'practice',
            quantity: 'coverage',
            value: coverage,
            limit: LEAST_COVERAGE_PCT,
            unit: '%',
            margin_pct: marginAbove(coverage, LEAST_COVERAGE_PCT),
          },
        );
      missing.push(...missingOf(cable, 'shieldCoverage_pct'));
    }
    if (cable.construction !== 'corrugated-armour') {
      if (cable.shieldArea_mm2 === undefined || !phase) missing.push(...missingOf(cable, 'shieldArea_mm2', 'conductor.size'));
      else {
        const need = LEAST_CONDUCTANCE * phase.area_mm2;
        if (exceeds(need, cable.shieldArea_mm2))
          return say(
            'caution',
            'shield too thin',
            `The shield of ${cable.tag} has ${fixed(cable.shieldArea_mm2, 1)} mm², less than a tenth of the phase conductor (${fixed(need, 1)} mm²).`,
            {
              quantity: 'area of the shield',
              value: cable.shieldArea_mm2,
              limit: need,
              unit: 'mm²',
              margin_pct: marginAbove(cable.shieldArea_mm2, need),
            },
          );
      }
    }
    if (missing.length > 0) return [openFinding(this, subject, runs, missing)];
    const strange = cable.construction === 'corrugated-armour' ? [] : unlisted(cable.conductor.size);
    if (strange.length > 0) return [openFinding(this, subject, runs, [], notASize(strange))];
    return say('pass', 'good shield', `The shield of ${cable.tag} is dense and conducts at least a tenth of a phase.`);
  },
};

/** Motors over these are asked about: two makers' published guides. */
const SYMMETRY_W = 30_000;
const BEARING_W = 75_000;

export const symmetry: Check = {
  slug: 'symmetry',
  rule: 'Above 30 kW the grounds are symmetrical; from 75 kW the bearings are protected.',
  title: 'Symmetry and bearings',
  authority: 'guide',
  source:
    'drive makers’ published guides: symmetrical grounds above 30 kW; insulated bearing, shaft ring or common-mode cores asked from 75 to 90 kW',
  why: 'A single grounding conductor lies nearer to one phase than to the others: the current induced in it flows through the motor’s bearings. In large motors it pits them.',
  scope: 'run',
  judge({ motor, cables }): readonly Finding[] {
    const subject = elementSubject(motor);
    const runs = [motor.tag];
    const power = motor.ratedPower_W;
    if (power === undefined) return [openFinding(this, subject, runs, missingOf(motor, 'ratedPower_W'))];
    if (!exceeds(power, SYMMETRY_W))
      return [notApplicable(this, subject, runs, `${fixed(power / 1000, 1)} kW: below the sizes the guides ask about.`)];
    const real = cables.filter((cable) => cable.kind === 'cable');
    const lopsided = real.filter((cable) => cable.grounds.arrangement === 'single');
    const inputs = [...given(motor, 'ratedPower_W', 'bearingProtection'), ...real.flatMap((cable) => given(cable, 'grounds.arrangement'))];
    const large = !exceeds(BEARING_W, power);
    if (lopsided.length > 0)
      return [
        finding(this, subject, runs, {
          verdict: 'caution',
          phrase: 'single ground, large motor',
          text: `${tagsOf(lopsided).join(', ')} to ${motor.tag} (${fixed(power / 1000, 0)} kW) ${lopsided.length === 1 ? 'has' : 'have'} one grounding conductor to one side; above 30 kW a symmetrical cable is asked.`,
          inputs,
          remedies: [
            'A cable with three symmetrical grounds or a concentric one.',
            'An insulated bearing at the non-drive end, a shaft ring, or common-mode cores.',
          ],
        }),
      ];
    const missing = [
      ...real.flatMap((cable) => missingOf(cable, 'grounds.arrangement')),
      ...(large && motor.bearingProtection === undefined ? [lacks(motor, 'bearingProtection')] : []),
    ];
    if (missing.length > 0) return [openFinding(this, subject, runs, missing)];
    const bare = large && motor.bearingProtection === 'none';
    return [
      finding(this, subject, runs, {
        verdict: bare ? 'caution' : 'pass',
        phrase: bare ? 'bearings not protected' : 'symmetrical',
        text: bare
          ? `${motor.tag} (${fixed(power / 1000, 0)} kW) has no insulated bearing, shaft ring or common-mode cores; from 75 to 90 kW one of them is asked.`
          : `The grounds to ${motor.tag} are symmetrical${large ? ', and its bearings are protected' : ''}.`,
        inputs,
        remedies: bare ? ['An insulated bearing at the non-drive end, a shaft ring, or common-mode cores.'] : [],
      }),
    ];
  },
};
