import type { Cable } from '../lineup/cable.ts';
import type { Element } from '../lineup/elements.ts';
import type { Project } from '../lineup/project.ts';
import { fixed } from '../lineup/roundTo.ts';
import { worstLength_m } from './cableModel.ts';
import {
  type Check,
  cableSubject,
  elementSubject,
  endSubject,
  exceeds,
  finding,
  given,
  lacks,
  lengthSaid,
  manualOf,
  marginAbove,
  marginBelow,
  missingOf,
  notApplicable,
  openFinding,
  tagsOf,
  unknownOf,
} from './check.ts';
import type { Finding, Fix, Missing, Subject } from './finding.ts';
import { carrierOf } from './shieldPath.ts';

/** The shield: that there is one, that it is whole, that it is landed. */

/** Whether the contract asks for an emission category is not said. */
const noCategory = (project: Project): readonly Missing[] =>
  project.emcCategory === undefined
    ? [unknownOf({ id: '', tag: 'the project' }, 'emcCategory', { label: 'Emission category', ask: 'specification' })]
    : [];

const demandsEmc = (category: string | undefined): boolean => category !== undefined && category !== 'none';

export const shieldPresent: Check = {
  slug: 'shield-present',
  rule: 'Every cable from drive to motor has a shield, an armour or a metal raceway.',
  title: 'Shield present',
  authority: 'guide',
  source:
    'drive makers’ published guides (they differ on grouped singles in tray); IEC 61800-3 where a category is asked; the drive’s own manual',
  why: 'Each edge drives a current through the capacitance of cable and motor to ground. A shield, or a continuous metal pipe, gives it a way back to the drive; without one it takes building steel, bearings and signal grounds.',
  scope: 'run',
  judge({ motor, drive, cables, project }): readonly Finding[] {
    const subject = elementSubject(motor);
    const runs = [motor.tag];
    const real = cables.filter((cable) => cable.kind === 'cable');
    if (real.length === 0) return [notApplicable(this, subject, runs, 'The motor is connected inside one enclosure.')];
    const bare = real.filter((cable) => carrierOf(cable) === 'none');
    const unknown = real.filter((cable) => carrierOf(cable) === 'unknown');
    const missing: Missing[] = unknown.flatMap((cable) => missingOf(cable, 'construction', 'installation.raceway'));
    if (bare.length === 0) {
      if (unknown.length > 0) return [openFinding(this, subject, runs, missing)];
      return [
        finding(this, subject, runs, {
          verdict: 'pass',
          phrase: 'shielded',
          inputs: real.flatMap((cable) => given(cable, 'construction', 'installation.raceway')),
          text: `From ${drive.tag} to ${motor.tag} every cable has a shield, an armour or a metal raceway.`,
        }),
      ];
    }
    const manual = drive.manual?.shieldRequired === true;
    if (!manual && !demandsEmc(project.emcCategory) && (drive.manual?.shieldRequired === undefined || project.emcCategory === undefined))
      return [
        openFinding(this, subject, runs, [...missing, ...missingOf(drive, 'manual.shieldRequired'), ...noCategory(project)], {
          phrase: 'no shield; manual?',
          text: `${bare.map((cable) => cable.tag).join(', ')} has neither a shield nor a metal raceway; whether the manual of ${drive.tag} or the contract asks for one is not known. Guides advise one.`,
          remedies: ['Ask: drive supplier.', 'A symmetrical shielded cable.', 'A continuous, bonded steel or aluminium conduit.'],
        }),
      ];
    const category = demandsEmc(project.emcCategory);
    const metres = bare.reduce((sum, cable) => sum + (worstLength_m(cable) ?? 0), 0);
    const tags = bare.map((cable) => cable.tag).join(', ');
    const piece = bare.length + unknown.length < real.length ? ' between shielded ones' : '';
    const large = (motor.ratedPower_W ?? 0) > 30_000;
    return [
      finding(this, subject, runs, {
        verdict: manual || category ? 'fail' : 'caution',
        authority: manual ? 'manual' : category ? 'standard' : 'guide',
        source: manual ? manualOf(drive) : this.source,
        inputs: [
          ...given(drive, 'manual.shieldRequired'),
          ...real.flatMap((cable) => given(cable, 'construction', 'installation.raceway', 'length_m')),
        ],
        working: [`${tags}: ${fixed(metres, 2)} m without shield or metal raceway`],
        quantity: 'length without shield',
        value: metres,
        limit: 0,
        unit: 'm',
        phrase: 'no shield',
        text: `${tags}, ${fixed(metres, 1)} m${piece}, has neither a shield nor a metal raceway${manual ? `; the manual of ${drive.tag} asks for one` : category ? `; category ${project.emcCategory} is asked` : large ? '; above 30 kW one guide allows no such cable at all' : ''}.`,
        remedies: ['A symmetrical shielded cable.', 'A continuous, bonded steel or aluminium conduit.'],
        missing,
      }),
    ];
  },
};

/** What has two shields to join; at a drive or a motor the one shield is landed, and no bar is asked. */
const isBetween = (box: Element): boolean => box.kind !== 'drive' && box.kind !== 'motor';

/** Bonds a box through: the bar in it, and every shield that is not landed there yet clamped to it. */
const bondThrough = (box: Element, cables: readonly Cable[]): Fix => ({
  label: isBetween(box) ? `Bond the shields through ${box.tag}` : `Land the shield at ${box.tag}`,
  edits: [
    ...(isBetween(box) ? [{ id: box.id, path: 'bondBar', value: true }] : []),
    ...cables.flatMap((cable) =>
      (['from', 'to'] as const)
        .filter((end) => cable[end].element === box.id && carrierOf(cable) !== 'none' && (cable[end].landing ?? 'none') === 'none')
        .map((end) => ({ id: cable.id, path: `${end}.landing`, value: 'clamp' })),
    ),
  ],
});

const endWords = (cable: Cable, end: 'from' | 'to'): string => {
  const { landing } = cable[end];
  return landing === 'none'
    ? `the shield of ${cable.tag} is cut back there`
    : landing === undefined
      ? `how ${cable.tag} is landed there is not known`
      : `${cable.tag} is landed there`;
};

export const shieldContinuity: Check = {
  slug: 'shield-continuity',
  rule: 'The way of the shield is unbroken through every box: both shields landed on metal that joins them.',
  title: 'Shield continuity',
  authority: 'guide',
  source: 'two drive makers’ published guides, both forbid a gap: shields bonded all round in a metal box, or otherwise joined',
  why: 'The current of each edge returns along the shield. Where it stops, that current leaves at the named box and comes back by building steel, bearings and signal grounds.',
  scope: 'run',
  judge({ motor, drive, cables, boxes, shield, project }): readonly Finding[] {
    const runs = [motor.tag];
    if (shield.state === 'none')
      return [notApplicable(this, elementSubject(motor), runs, 'There is no shield and no metal raceway on this run: see Shield present.')];
    if (shield.state === 'continuous') {
      const path = [drive.tag, ...cables.filter((cable) => cable.kind === 'cable').map((cable) => cable.tag), motor.tag].join(', ');
      return [
        finding(this, elementSubject(motor), runs, {
          verdict: 'pass',
          phrase: 'shield continuous',
          text: `The shield runs unbroken from ${drive.tag} to ${motor.tag}.`,
          inputs: [
            ...cables.flatMap((cable) => given(cable, 'construction', 'from.landing', 'to.landing')),
            ...boxes.flatMap((box) => given(box, 'box', 'bondBar')),
          ],
          working: [`path: ${path}`],
        }),
      ];
    }
    const parts = new Map<string, Element>([drive, motor, ...boxes].map((element) => [element.id, element] as const));
    const byId = new Map(cables.map((cable) => [cable.id, cable] as const));
    return shield.breaks.flatMap((at): readonly Finding[] => {
      const box = at.elementId === null ? undefined : parts.get(at.elementId);
      const ends = at.ends.flatMap(({ cableId, end }) => {
        const cable = byId.get(cableId);
        return cable ? [{ cable, end }] : [];
      });
      const first = ends[0];
      if (!first) return [];
      if (!box) {
        const subject: Subject = cableSubject(first.cable);
        if (at.state === 'open') return [openFinding(this, subject, runs, missingOf(first.cable, 'construction', 'installation.raceway'))];
        const pieces = [...new Set(ends.map(({ cable }) => cable))];
        const metres = pieces.reduce((sum, cable) => sum + (worstLength_m(cable) ?? 0), 0);
        const tags = pieces.map((cable) => cable.tag).join(', ');
        return [
          finding(this, subject, runs, {
            verdict: 'fail',
            quantity: 'length without shield',
            value: metres,
            limit: 0,
            unit: 'm',
            phrase: 'unshielded piece',
            text: `${tags}, ${lengthSaid(metres, project)} of the way from ${drive.tag} to ${motor.tag}, has no shield: the path is broken over its whole length.`,
            remedies: ['The same shielded cable all the way.', 'A bonded metal conduit over this piece.'],
          }),
        ];
      }
      const subject = elementSubject(box);
      const made = 'box' in box ? box.box : undefined;
      const bar = 'bondBar' in box ? box.bondBar : undefined;
      const said = ends.map(({ cable, end }) => endWords(cable, end)).join(' and ');
      const fixes = [bondThrough(box, cables)];
      const joint = box.kind === 'bus' ? 'bondBar' : 'box';
      if (at.state === 'open') {
        const missing: Missing[] = [
          ...ends.filter(({ cable, end }) => cable[end].landing === undefined).map(({ cable, end }) => lacks(cable, `${end}.landing`)),
          ...(made === undefined && bar !== true && isBetween(box) ? missingOf(box, joint) : []),
        ];
        return [
          openFinding(this, subject, runs, missing, {
            phrase: 'shield joined here?',
            fixes: isBetween(box) ? fixes : [],
          }),
        ];
      }
      const barless = joint === 'bondBar' && bar === false ? ', and it has no bond bar' : '';
      const why =
        made === undefined ? barless : `, and the box is ${made}${made === 'plastic' && bar === false ? ' and has no bond bar' : ''}`;
      return [
        finding(this, subject, runs, {
          verdict: 'fail',
          phrase: 'shield gap',
          inputs: given(box, 'box', 'bondBar'),
          text: `Shield stops at ${box.tag}: ${said}${why}.`,
          remedies: [
            'A bond bar with two clamps that joins both shields.',
            'A metal box with two full-circumference EMC glands.',
            'One cable in one piece, with the isolator moved or built into the motor or drive.',
          ],
          fixes,
        }),
      ];
    });
  },
};

const PIGTAIL_RATIO = 5;

export const shieldLanding: Check = {
  slug: 'shield-landing',
  rule: 'Landed all round at both ends; a pigtail at most five times as long as wide, and none in categories C1 and C2.',
  title: 'Shield landing',
  authority: 'guide',
  source: 'drive makers’ published guides: full circumference at both ends; a pigtail no longer than five times its width',
  why: 'A twist of braid is a coil at megahertz: a single tail loses most of what the shield is for. One-end grounding is a rule for signal cables, not for motor cables.',
  scope: 'cable',
  judge({ cable, side, motors, project, fromElement, toElement }): readonly Finding[] {
    if (side !== 'output') return [];
    const runs = tagsOf(motors);
    const carrier = carrierOf(cable);
    if (cable.kind === 'link' || carrier === 'none')
      return [
        notApplicable(
          this,
          cableSubject(cable),
          runs,
          cable.kind === 'link' ? 'A connection inside one enclosure.' : 'It has no shield and no metal raceway.',
        ),
      ];
    const what = carrier === 'raceway' ? 'raceway' : 'shield';
    const strict = project.emcCategory === 'C1' || project.emcCategory === 'C2';
    return (
      [
        ['from', fromElement],
        ['to', toElement],
      ] as const
    ).map(([end, element]) => {
      const subject = endSubject(cable, end);
      const { landing, pigtailLength_mm, pigtailWidth_mm } = cable[end];
      const inputs = given(
        cable,
        'construction',
        'installation.raceway',
        `${end}.landing`,
        `${end}.pigtailLength_mm`,
        `${end}.pigtailWidth_mm`,
      );
      if (carrier === 'unknown') return openFinding(this, subject, runs, missingOf(cable, 'construction', 'installation.raceway'));
      if (landing === undefined)
        return openFinding(this, subject, runs, [lacks(cable, `${end}.landing`)], { phrase: `landing at ${element.tag}?` });
      if (landing === 'none') {
        return finding(this, subject, runs, {
          inputs,
          verdict: 'fail',
          phrase: `${what} not landed`,
          text: `The ${what} of ${cable.tag} is not landed at ${element.tag}.`,
          remedies: ['A full-circumference gland or clamp on bare metal at both ends.'],
        });
      }
      if (landing !== 'pigtail')
        return finding(this, subject, runs, {
          inputs,
          verdict: 'pass',
          phrase: 'landed all round',
          text: `The ${what} of ${cable.tag} is landed all round at ${element.tag}.`,
        });
      const remedies = ['A full-circumference gland or clamp instead.', 'A shorter, wider tail.'];
      if (project.emcCategory === undefined) return openFinding(this, subject, runs, noCategory(project));
      if (strict)
        return finding(this, subject, runs, {
          inputs,
          verdict: 'fail',
          authority: 'standard',
          source: `${this.source}; IEC 61800-3 category ${project.emcCategory}`,
          phrase: 'pigtail',
          text: `${cable.tag} is landed by a pigtail at ${element.tag}; category ${project.emcCategory} asks for full circumference.`,
          remedies,
        });
      if (pigtailLength_mm === undefined || pigtailWidth_mm === undefined)
        return openFinding(this, subject, runs, missingOf(cable, `${end}.pigtailLength_mm`, `${end}.pigtailWidth_mm`));
      const ratio = pigtailLength_mm / pigtailWidth_mm;
      // Longer than the guide allows is still a caution without an EMC demand: one guide accepts pigtails in ordinary industry.
      const over = exceeds(ratio, PIGTAIL_RATIO);
      return finding(this, subject, runs, {
        inputs,
        verdict: over && demandsEmc(project.emcCategory) ? 'fail' : 'caution',
        quantity: 'pigtail length over width',
        value: ratio,
        limit: PIGTAIL_RATIO,
        unit: '',
        working: [`${fixed(pigtailLength_mm, 1)} mm / ${fixed(pigtailWidth_mm, 1)} mm = ${fixed(ratio, 2)}`],
        margin_pct: marginBelow(ratio, PIGTAIL_RATIO),
        phrase: `pigtail ${fixed(ratio, 1)} : 1`,
        text: `${cable.tag} is landed at ${element.tag} by a pigtail ${fixed(pigtailLength_mm, 0)} mm long and ${fixed(pigtailWidth_mm, 0)} mm wide, ${fixed(ratio, 1)} times its width; ${PIGTAIL_RATIO} is the most the guides bear.`,
        remedies,
      });
    });
  },
};

export const auxiliaryCores: Check = {
  slug: 'auxiliary-cores',
  rule: 'Cores for other uses have a shield of their own, landed at both ends, and insulation for the power voltage; a brake is not fed from the drive’s output.',
  title: 'Other cores with the motor’s',
  authority: 'guide',
  source:
    'one drive maker’s cable-type table (a shield of its own for each group); NEC 300.3(C) (insulation for the highest voltage in the raceway)',
  why: 'The motor’s pulses couple into cores beside them: a brake coil is held in, a sensor reads nonsense. On a hoist a brake held in drops the load.',
  scope: 'cable',
  judge({ cable, side, motors, nominal_V }): readonly Finding[] {
    if (side !== 'output') return [];
    const runs = tagsOf(motors);
    const subject = cableSubject(cable);
    const fedByDrive = motors.filter((motor) => motor.brake?.fedFrom === 'drive-output');
    if (fedByDrive.length > 0) {
      return [
        finding(this, subject, runs, {
          verdict: 'fail',
          authority: 'physics',
          phrase: 'brake on drive output',
          text: `The brake of ${fedByDrive.map((motor) => motor.tag).join(', ')} is fed from the drive’s output, whose voltage falls with speed.`,
          remedies: ['Feed the brake from its own supply.'],
        }),
      ];
    }
    if (cable.auxiliary.length === 0) return [notApplicable(this, subject, runs, 'No other cores in this cable or raceway.')];
    return cable.auxiliary.map((group, i) => {
      const id = `${this.slug}/cable/${cable.id}/${i}`;
      const holds = group.use === 'brake' && motors.some((motor) => motor.brake?.holdsLoad === true);
      const label = (path: string, text: string): Missing =>
        unknownOf(cable, `auxiliary.${i}.${path}`, { label: text, ask: 'cable supplier' });
      const insulated = group.insulation_V;
      if (insulated !== undefined && nominal_V !== null && insulated < nominal_V) {
        return finding(this, subject, runs, {
          id,
          verdict: 'fail',
          authority: 'code',
          source: 'NEC 300.3(C)',
          quantity: 'insulation of the cores',
          inputs: given(cable, `auxiliary.${i}.insulation_V`),
          working: [`cores ${fixed(insulated, 0)} V, power conductors ${fixed(nominal_V, 0)} V`],
          value: insulated,
          limit: nominal_V,
          unit: 'V',
          margin_pct: marginAbove(insulated, nominal_V),
          phrase: `${group.use} cores ${insulated} V`,
          text: `The ${group.use} cores in ${cable.tag} are insulated for ${fixed(insulated, 0)} V beside ${fixed(nominal_V, 0)} V power cores.`,
          remedies: ['Cores insulated for the power voltage, or a cable of their own.'],
        });
      }
      if (group.screened === false || group.screenLanded === 'none' || group.screenLanded === 'one') {
        const poor =
          group.screened === false
            ? 'have no shield of their own'
            : `have a shield landed at ${group.screenLanded === 'one' ? 'one end only' : 'neither end'}`;
        const unsaid = motors.flatMap((motor) => missingOf(motor, 'brake.holdsLoad'));
        if (group.use === 'brake' && !holds && unsaid.length > 0) {
          return openFinding(this, subject, runs, unsaid, {
            id,
            text: `The brake cores in ${cable.tag} ${poor}; whether the brake holds a suspended load is not known.`,
          });
        }
        return finding(this, subject, runs, {
          id,
          verdict: holds ? 'fail' : 'caution',
          authority: holds ? 'physics' : 'guide',
          phrase: `${group.use} cores unshielded`,
          text: `The ${group.use} cores in ${cable.tag} ${poor}${holds ? ', and the brake holds a suspended load' : ''}.`,
          remedies: ['A composite cable with a shielded pair, landed at both ends.', 'A cable of their own, apart.'],
        });
      }
      const missing = [
        ...(group.screened === undefined ? [label('screened', `Shield of the ${group.use} cores`)] : []),
        ...(group.screenLanded === undefined ? [label('screenLanded', `Landing of the ${group.use} shield`)] : []),
        ...(insulated === undefined ? [label('insulation_V', `Insulation of the ${group.use} cores`)] : []),
        ...(group.use === 'brake' ? motors.flatMap((motor) => missingOf(motor, 'brake.fedFrom')) : []),
      ];
      if (missing.length > 0) return openFinding(this, subject, runs, missing, { id });
      if (nominal_V === null)
        return openFinding(this, subject, runs, [], { id, text: 'Cannot be judged yet: the supply voltage is not known.' });
      return finding(this, subject, runs, {
        id,
        verdict: 'pass',
        phrase: 'shielded, both ends',
        text: `The ${group.use} cores in ${cable.tag} have their own shield, landed at both ends.`,
      });
    });
  },
};
