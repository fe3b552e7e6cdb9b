import { insulationFacts, MM_PER_MIL, WALL_SOURCES, wallThickness_mm } from '../catalog/insulation.ts';
import { cite } from '../catalog/source.ts';
import type { Project } from '../lineup/project.ts';
import { fixed, roundTo } from '../lineup/roundTo.ts';
import {
  type Check,
  cableSubject,
  exceeds,
  finding,
  given,
  lacks,
  marginAbove,
  missingOf,
  notApplicable,
  openFinding,
  tagsOf,
  voltageGiven,
  voltageMissing,
} from './check.ts';
import type { Missing } from './finding.ts';

/** The insulation against fast pulses, moisture and voltage. */

/** 15 mil everywhere: two drive makers' published wiring guides. */
const LEAST_WALL_MM = 15 * MM_PER_MIL;
/** Least wall a specification allows, of nominal (ICEA S-95-658, UL 758), and the worst one maker's guide has found in the field. */
const USUAL_THINNEST = 0.9;
const WORST_THINNEST = 0.67;

/** In the project's unit; in a metric project mil stand beside only what its source has in mil. */
function wallSaid(mm: number, { units }: Project, inMil = false): string {
  const mils = `${fixed(mm / MM_PER_MIL, 1)} mil`;
  if (units === 'us') return `${mils} (${fixed(mm, 2)} mm)`;
  // Three digits: 15 mil are 0.381 mm, and 0.38 mm are less.
  return `${roundTo(mm, 3)} mm${inMil ? ` (${mils})` : ''}`;
}

export const insulationWall: Check = {
  slug: 'insulation-wall',
  rule: '15 mil (0.38 mm) at the thinnest point, taken as 90 % of nominal unless it is known.',
  title: 'Insulation wall',
  authority: 'guide',
  source:
    'two drive makers’ published wiring guides: 15 mil (0.38 mm) at every point, good concentricity; ICEA S-95-658 and UL 758: 90 % of nominal at the thinnest point',
  why: 'The peaks come thousands of times a second. In the air gap at the surface of a thin wall they start discharges that eat it; where the conductor is off centre, less wall is left than the name says.',
  scope: 'cable',
  judge({ cable, side, motors, project }) {
    if (side !== 'output') return [];
    const subject = cableSubject(cable);
    const runs = tagsOf(motors);
    if (cable.kind === 'link') return [notApplicable(this, subject, runs, 'A connection inside one enclosure.')];
    const table = wallThickness_mm(cable.insulation.type, cable.conductor.size);
    const wall = cable.insulation.wall_mm ?? table?.wall_mm;
    if (wall === undefined) {
      const missing: Missing[] = [...missingOf(cable, 'insulation.type', 'conductor.size')];
      return [openFinding(this, subject, runs, missing.length > 0 ? missing : [lacks(cable, 'insulation.wall_mm')])];
    }
    const nominalSaid = wallSaid(wall, project, cable.insulation.wall_mm === undefined && table?.source === WALL_SOURCES.us);
    const askedSaid = wallSaid(LEAST_WALL_MM, project, true);
    const centred = cable.insulation.concentricity_pct;
    const thinnest = wall * (centred === undefined ? USUAL_THINNEST : centred / 100);
    const nominalFails = exceeds(LEAST_WALL_MM, wall);
    const thin = exceeds(LEAST_WALL_MM, thinnest);
    const shared = {
      inputs: given(cable, 'insulation.type', 'conductor.size', 'insulation.wall_mm', 'insulation.concentricity_pct'),
      quantity: 'thinnest wall',
      value: thinnest,
      limit: LEAST_WALL_MM,
      unit: 'mm',
      margin_pct: marginAbove(thinnest, LEAST_WALL_MM),
      remedies: [
        'A type with a thicker wall in the same size (XHHW-2, RHW-2, or a cross-linked drive cable).',
        'A filter that lowers the peak; it does not thicken the wall.',
      ],
      working: [
        `nominal ${nominalSaid}${cable.insulation.wall_mm === undefined && table ? `, ${cable.insulation.type} ${cable.conductor.size}, ${cite(table.source)}` : ', entered'}`,
        `thinnest = nominal × ${centred === undefined ? USUAL_THINNEST : centred / 100} = ${wallSaid(thinnest, project)}`,
      ],
      assumptions:
        centred === undefined
          ? [
              {
                what: 'thinnest wall, of nominal',
                value: '90 %',
                source: 'ICEA S-95-658, UL 758; one maker’s guide found 67 % in the field',
              },
            ]
          : [],
    };
    if (centred === undefined && !thin && exceeds(LEAST_WALL_MM, wall * WORST_THINNEST)) {
      return [
        openFinding(this, subject, runs, [lacks(cable, 'insulation.concentricity_pct')], {
          ...shared,
          text: `${cable.tag} has ${nominalSaid} nominal: at least ${wallSaid(thinnest, project)} where the specification is kept, ${wallSaid(wall * WORST_THINNEST, project)} in the worst wire found in the field; ${askedSaid} is asked everywhere. How well it is centred decides.`,
        }),
      ];
    }
    return [
      finding(this, subject, runs, {
        ...shared,
        // Two guides forbid a nominal wall below 15 mil, so it fails; a nominal 15 mil that is thin at places is a caution.
        verdict: nominalFails ? 'fail' : thin ? 'caution' : 'pass',
        phrase: `wall ${wallSaid(thinnest, project).replace(/ \(.*/, '')}`,
        text: `${cable.tag} has ${nominalSaid} nominal, ${wallSaid(thinnest, project)} at its thinnest; ${askedSaid} is asked everywhere.`,
      }),
    ];
  },
};

export const insulationMoisture: Check = {
  slug: 'insulation-moisture',
  rule: 'Wet letters in wet places; PVC behind a drive fails wet, is a caution damp and a note dry.',
  title: 'Insulation and moisture',
  authority: 'guide',
  source:
    'one drive maker’s published wiring guide and small-drive manual: no PVC and nylon wire in wet places, inception when damp below half of dry; NEC 310.10(C), 300.5(B), 300.9 (wet letters)',
  why: 'Moisture lowers the voltage at which discharges start on PVC to less than half. Cross-linked insulation hardly changes. The inside of a pipe underground or outdoors counts as wet.',
  scope: 'cable',
  judge({ cable, side, motors }) {
    const subject = cableSubject(cable);
    const runs = tagsOf(motors);
    if (cable.kind === 'link') return [notApplicable(this, subject, runs, 'A connection inside one enclosure.')];
    const facts = insulationFacts(cable.insulation.type);
    const buried = cable.installation.raceway === 'buried-duct' || cable.installation.raceway === 'direct-buried';
    const place = buried ? 'wet' : cable.installation.moisture;
    const missing = [
      ...(facts ? [] : [lacks(cable, 'insulation.type')]),
      ...(place === undefined ? [lacks(cable, 'installation.moisture')] : []),
    ];
    if (!facts || place === undefined) return [openFinding(this, subject, runs, missing)];
    const type = cable.insulation.type ?? '';
    const inputs = given(cable, 'insulation.type', 'insulation.wetRated', 'installation.moisture', 'installation.raceway');
    const remedies = ['XHHW-2, RHW-2 or a cross-linked drive cable.', 'A filter lowers the stress but does not dry the pipe.'];
    const because = buried ? ' (underground)' : '';
    const wetRated = facts.temperatureWet_C !== null && cable.insulation.wetRated !== false;
    if (place === 'wet' && !wetRated) {
      return [
        finding(this, subject, runs, {
          verdict: 'fail',
          authority: 'code',
          source: 'NEC 310.10(C)',
          inputs,
          phrase: `${type} not for wet`,
          text: `${cable.tag} is ${type}, which is not rated for wet places, and lies in a wet place${because}.`,
          remedies,
        }),
      ];
    }
    if (facts.polymer !== 'pvc')
      return [
        finding(this, subject, runs, {
          verdict: 'pass',
          inputs,
          phrase: `${type}, ${place}`,
          text: `${cable.tag} is ${type} (cross-linked or rubber) in a ${place} place${because}.`,
        }),
      ];
    if (side === 'input')
      return [
        finding(this, subject, runs, {
          verdict: 'pass',
          inputs,
          phrase: `${type}, ${place}`,
          text: `${cable.tag} is ${type} in a ${place} place${because}; ahead of the drive it sees no pulses.`,
        }),
      ];
    const verdict = place === 'wet' ? 'fail' : place === 'damp' ? 'caution' : 'note';
    return [
      finding(this, subject, runs, {
        verdict,
        inputs,
        phrase: `${type} in ${place} place`,
        text: `${cable.tag} is ${type}, PVC, in a ${place} place${because}: ${place === 'dry' ? 'acceptable dry, with little to spare' : 'under a drive’s pulses its inception falls below half of the dry value'}.`,
        remedies: place === 'dry' ? [] : remedies,
      }),
    ];
  },
};

/** Least cable voltage by supply: one drive maker's published guide; 690 V from IEC insulation notes. [supply up to V, cable V] */
const CLASSES = [
  [500, 600],
  [600, 750],
  [1000, 1000],
] as const;

export const insulationVoltage: Check = {
  slug: 'insulation-voltage',
  rule: 'Not below the voltage of its circuit; behind a drive 600 V cable to 500 V supply, 750 V to 600 V, 1 kV to 1000 V, 2 kV above.',
  title: 'Cable voltage class',
  authority: 'guide',
  source:
    'one drive maker’s published guide: 600 V cable to 500 V supply, 750 V to 600 V, 1 kV to 690 V; E. Bulington and others, IEEE PCIC 1998 (thicker wall on 600 V drives)',
  why: 'The reflected wave puts up to twice the bus voltage on the cable, many times a second. A cable at the edge of its class has no room for that.',
  scope: 'cable',
  judge({ cable, side, motors, nominal_V, voltageFrom }) {
    const subject = cableSubject(cable);
    const runs = tagsOf(motors);
    if (cable.kind === 'link') return [notApplicable(this, subject, runs, 'A connection inside one enclosure.')];
    const facts = insulationFacts(cable.insulation.type);
    const value = cable.insulation.voltage_V ?? facts?.voltage_V;
    const missing = [
      ...(value === undefined ? missingOf(cable, 'insulation.voltage_V', 'insulation.type') : []),
      ...(nominal_V === null ? voltageMissing(voltageFrom) : []),
    ];
    if (value === undefined || nominal_V === null)
      return [
        openFinding(
          this,
          subject,
          runs,
          missing,
          nominal_V === null ? { text: 'Cannot be judged yet: the nominal voltage at it is not known.' } : {},
        ),
      ];
    const output = side === 'output';
    const limit = output ? (CLASSES.find(([upTo]) => nominal_V <= upTo)?.[1] ?? Math.max(2000, nominal_V)) : nominal_V;
    const below = exceeds(nominal_V, value);
    // Its letters stand for the usual class: what is made for more says so on its jacket.
    if (below && cable.insulation.voltage_V === undefined)
      return [
        openFinding(this, subject, runs, [lacks(cable, 'insulation.voltage_V')], {
          text: `${cable.tag} is ${cable.insulation.type}, usually of ${fixed(value, 0)} V, on ${fixed(nominal_V, 0)} V; its own rating is not entered.`,
        }),
      ];
    return [
      finding(this, subject, runs, {
        verdict: below ? 'fail' : exceeds(limit, value) ? 'caution' : 'pass',
        ...(below || !output ? { authority: 'code' as const, source: 'NEC 110.4; IEC 60364-5-51 512.1.1 (from memory)' } : {}),
        quantity: 'cable voltage class',
        value,
        limit,
        unit: 'V',
        inputs: [...given(cable, 'insulation.type', 'insulation.voltage_V'), ...voltageGiven(voltageFrom)],
        working: [`cable ${fixed(value, 0)} V; ${output ? 'supply' : 'circuit'} ${fixed(nominal_V, 0)} V asks ${fixed(limit, 0)} V`],
        margin_pct: marginAbove(value, limit),
        phrase: `${fixed(value, 0)} V class`,
        text: `${cable.tag} is rated ${fixed(value, 0)} V; ${below ? `its circuit has ${fixed(nominal_V, 0)} V` : `on a ${fixed(nominal_V, 0)} V ${output ? 'drive' : 'circuit'} ${fixed(limit, 0)} V is asked`}.`,
        remedies: ['A cable of the next voltage class (1 kV or 2 kV).'],
        assumptions:
          cable.insulation.voltage_V === undefined && facts
            ? [{ what: 'cable voltage', value: `${facts.voltage_V} V`, source: `${cable.insulation.type}, ${cite(facts.source)}` }]
            : [],
      }),
    ];
  },
};
