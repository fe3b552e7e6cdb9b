import { conductorDiameter_mm, conductorSize } from '../catalog/conductors.ts';
import { type Conduit, conduitArea_mm2, FILL_TABLE_1, FILL_TABLE_4, fillLimit_pct } from '../catalog/conduitFill.ts';
import { nylon_mm, wallThickness_mm } from '../catalog/insulation.ts';
import { cite } from '../catalog/source.ts';
import type { Cable } from '../lineup/cable.ts';
import { choiceText } from '../lineup/fields.ts';
import { fixed } from '../lineup/roundTo.ts';
import {
  type Check,
  cableSubject,
  endSubject,
  exceeds,
  finding,
  given,
  lacks,
  lookedUp,
  marginBelow,
  missingOf,
  notApplicable,
  notKnown,
  openFinding,
  tagsOf,
} from './check.ts';
import type { Finding, Missing } from './finding.ts';
import { sharers } from './routingChecks.ts';
import { turnedRange } from './turnedRange.ts';

/** Whether the pipe holds the wires, and the gland the cable. */

/** What pipe a raceway may be. */
export const KINDS: Readonly<Record<string, readonly Conduit[]>> = {
  'steel-conduit': ['EMT', 'IMC', 'RMC'],
  'aluminium-conduit': ['RMC'],
  'plastic-conduit': ['PVC80', 'PVC40'],
  'flexible-metal': ['FMC'],
};

/** Reads '2', '2 1/2 in', '1-1/4 EMT'. */
export function readTrade(text: string): { readonly trade: string; readonly kind: Conduit | null } | null {
  const match = /^(\d(?:[ -]\d\/\d)?|\d\/\d)\s*(?:in|"|″)?\s*(EMT|IMC|RMC|PVC ?40|PVC ?80|FMC)?$/i.exec(text.trim());
  if (!match) return null;
  return { trade: (match[1] ?? '').replace('-', ' '), kind: (match[2]?.toUpperCase().replace(' ', '') as Conduit | undefined) ?? null };
}

const CONTENTS = [
  'construction',
  'conductor.size',
  'insulation.type',
  'insulation.wall_mm',
  'outerDiameter_mm',
  'grounds.count',
  'grounds.size',
] as const;

/** Outer area of what one raceway holds of this cable, with the number of conductors or cables, or what is missing. */
function contents(cable: Cable): { readonly area_mm2: number; readonly count: number; readonly says: string } | readonly Missing[] {
  const od = cable.outerDiameter_mm;
  const circle = (d: number): number => (Math.PI * d * d) / 4;
  if (cable.construction !== undefined && cable.construction !== 'singles') {
    if (od === undefined) return missingOf(cable, 'outerDiameter_mm');
    return { area_mm2: circle(od), count: 1, says: `${cable.tag}: one cable ${fixed(od, 1)} mm` };
  }
  const size = cable.conductor.size;
  const grounds = cable.grounds.count;
  const missing = [
    ...missingOf(cable, 'construction', 'conductor.size', 'grounds.count'),
    ...(od === undefined ? missingOf(cable, 'insulation.type') : []),
    ...(grounds === 0 ? [] : missingOf(cable, 'grounds.size')),
  ];
  const groundSize = cable.grounds.size;
  if (missing.length > 0 || size === undefined || grounds === undefined) return missing;
  const one = od ?? wireDiameter_mm(cable, size);
  const ground = grounds === 0 || groundSize === undefined ? 0 : wireDiameter_mm(cable, groundSize);
  if (one === null || ground === null) return [lacks(cable, 'outerDiameter_mm')];
  return {
    area_mm2: 3 * circle(one) + grounds * circle(ground),
    count: 3 + grounds,
    says: `${cable.tag}: 3 × ${fixed(one, 2)} mm${grounds > 0 ? ` + ${grounds} × ${fixed(ground, 2)} mm` : ''}`,
  };
}

/** Conductor of the table plus wall and nylon on both sides: that is what NEC Chapter 9 Table 5 prints for these types. */
export function wireDiameter_mm(cable: Pick<Cable, 'insulation'>, size: string): number | null {
  const bare = conductorDiameter_mm(size);
  const wall = cable.insulation.wall_mm ?? wallThickness_mm(cable.insulation.type, size)?.wall_mm;
  const area = conductorSize(size)?.area_mm2;
  return bare === null || wall === undefined || area === undefined ? null : bare + 2 * (wall + nylon_mm(cable.insulation.type, area));
}

const isMissing = (value: ReturnType<typeof contents>): value is readonly Missing[] => Array.isArray(value);

export const conduitFill: Check = {
  slug: 'conduit-fill',
  rule: 'More than two conductors fill at most 40 % of the raceway, two 31 %, one 53 %; a gland holds the cable’s diameter.',
  title: 'Raceway fill and glands',
  authority: 'code',
  source:
    'NEC Chapter 9 Tables 1, 4 (from memory), 8, diameters as Table 5 builds them; in the IEC basis common practice; the gland’s marked range',
  why: 'Wires pulled into too small a pipe are skinned, and heat each other. A gland seals and bonds only a cable of the diameter it is made for.',
  scope: 'cable',
  judge({ cable, motors, together, basis }): readonly Finding[] {
    const runs = tagsOf(motors);
    const subject = cableSubject(cable);
    if (cable.kind === 'link') return [notApplicable(this, subject, runs, 'A connection inside one enclosure.')];
    return [...glands(this, cable, runs), fill(this, cable, together, basis, runs)];
  },
};

/** What is said to lie in the raceway and has no size that could be counted: a cable holds its own within its diameter. */
function uncounted(cables: readonly Cable[]): readonly string[] {
  const loose = cables.filter(({ construction }) => construction === 'singles');
  const more = Math.max(...cables.map(({ installation }) => installation.loadedConductors ?? 0)) - 3 * cables.length;
  return [
    ...new Set(loose.flatMap(({ auxiliary }) => auxiliary.map(({ use }) => `${use} cores`))),
    ...(loose.some(({ installation }) => (installation.spares ?? 'none') !== 'none') ? ['spare conductors'] : []),
    ...(more > 0 ? [`${more} more loaded conductors that are said to lie there`] : []),
  ];
}

function fill(check: Check, cable: Cable, together: readonly Cable[], basis: 'us' | 'iec', runs: readonly string[]): Finding {
  const subject = cableSubject(cable);
  const { raceway, racewaySize } = cable.installation;
  if (raceway === undefined) return openFinding(check, subject, runs, missingOf(cable, 'installation.raceway'));
  const kinds = KINDS[raceway];
  if (!kinds) return notApplicable(check, subject, runs, 'It lies in no pipe.');
  if (racewaySize === undefined) return openFinding(check, subject, runs, missingOf(cable, 'installation.racewaySize'));
  const read = readTrade(racewaySize);
  const areas = kinds
    .filter((kind) => kind === (read?.kind ?? kind))
    .flatMap((kind) => {
      const area = read ? conduitArea_mm2(kind, read.trade) : null;
      return area === null ? [] : [{ kind, area }];
    });
  const smallest = areas.sort((a, b) => a.area - b.area)[0];
  if (!read || !smallest)
    return openFinding(check, subject, runs, [lacks(cable, 'installation.racewaySize')], {
      phrase: 'raceway size?',
      text: `“${racewaySize}” is not a trade size of ${choiceText(raceway)}: write 2, 2 1/2 or 2 ${kinds[0]}.`,
    });
  const parts = [cable, ...together].map(contents);
  const missing = parts.flatMap((part) => (isMissing(part) ? part : []));
  if (missing.length > 0) return openFinding(check, subject, runs, missing);
  const held = parts.flatMap((part) => (isMissing(part) ? [] : [part]));
  const area = held.reduce((sum, part) => sum + part.area_mm2, 0);
  const count = held.reduce((sum, part) => sum + part.count, 0);
  const limit = fillLimit_pct(count);
  const value = (100 * area) / smallest.area;
  const over = exceeds(value, limit);
  // What else may lie in it only fills it further, and lowers the limit of one: what is over by itself stays over.
  const beside = over || together.length > 0 ? [] : missingOf(cable, 'installation.sharedWith');
  const fills = `fills ${fixed(value, 1)} % of a ${read.trade} in ${smallest.kind} raceway; ${limit} % is the most for ${count > 2 ? 'more than two' : count === 2 ? 'two' : 'one'}.`;
  const left = over ? [] : uncounted([cable, ...together]);
  const shown = {
    verdict: over ? (basis === 'us' ? 'fail' : 'caution') : left.length > 0 ? 'note' : 'pass',
    authority: basis === 'us' ? 'code' : 'practice',
    quantity: 'fill of the raceway',
    value,
    limit,
    unit: '%',
    margin_pct: marginBelow(value, limit),
    phrase: `fill ${fixed(value, 0)} %`,
    text: `${cable.tag}${together.length > 0 ? ` with ${tagsOf(together).join(', ')}` : ''} ${fills}${left.length > 0 ? ` Not counted: ${left.join('; ')}.` : ''}`,
    inputs: [
      ...given(cable, 'installation.raceway', 'installation.racewaySize'),
      ...sharers(cable, together),
      ...[cable, ...together].flatMap((each) => given(each, ...CONTENTS, 'installation.spares', 'installation.loadedConductors')),
      lookedUp(`area of ${read.trade} ${smallest.kind}`, `${fixed(smallest.area, 0)} mm²`, cite(FILL_TABLE_4)),
      lookedUp('most fill', `${limit} %`, cite(FILL_TABLE_1)),
    ],
    working: [
      ...held.map((part) => `${part.says} = ${fixed(part.area_mm2, 1)} mm²`),
      `${fixed(area, 1)} / ${fixed(smallest.area, 1)} mm² = ${fixed(value, 2)} %`,
    ],
    assumptions:
      read.kind === null && kinds.length > 1
        ? [{ what: 'kind of raceway', value: `${smallest.kind}, the narrowest`, source: 'worst case: not given' }]
        : [],
    remedies: over ? ['The next size of raceway.', 'Fewer wires in it.'] : [],
  } as const;
  if (beside.length === 0) return finding(check, subject, runs, shown);
  const { verdict: _, remedies: _none, ...open } = shown;
  return openFinding(check, subject, runs, beside, {
    ...open,
    phrase: 'alone in its raceway?',
    text: `${cable.tag} alone ${fills} ${notKnown(beside)}`,
  });
}

function glands(check: Check, cable: Cable, runs: readonly string[]): readonly Finding[] {
  const od = cable.outerDiameter_mm;
  return (['from', 'to'] as const).flatMap((end) => {
    const { glandLeast_mm: least, glandMost_mm: most } = cable[end];
    if (least === undefined && most === undefined) return [];
    const subject = endSubject(cable, end);
    if (least !== undefined && most !== undefined && exceeds(least, most))
      return [openFinding(check, subject, runs, [], turnedRange(cable, `${end}.glandLeast_mm`, `${end}.glandMost_mm`))];
    const missing = [...missingOf(cable, 'outerDiameter_mm', `${end}.glandLeast_mm`, `${end}.glandMost_mm`)];
    if (missing.length > 0 || od === undefined || least === undefined || most === undefined)
      return [openFinding(check, subject, runs, missing)];
    const out = exceeds(od, most) || exceeds(least, od);
    return [
      finding(check, subject, runs, {
        verdict: out ? 'fail' : 'pass',
        authority: 'manual',
        quantity: 'outer diameter',
        working: [`${fixed(od, 2)} mm; the gland takes ${fixed(least, 1)} to ${fixed(most, 1)} mm`],
        value: od,
        limit: exceeds(least, od) ? least : most,
        unit: 'mm',
        phrase: out ? 'gland does not fit' : 'gland fits',
        text: `${cable.tag} is ${fixed(od, 1)} mm thick; its gland takes ${fixed(least, 1)} to ${fixed(most, 1)} mm.`,
        inputs: given(cable, 'outerDiameter_mm', `${end}.glandLeast_mm`, `${end}.glandMost_mm`),
        remedies: out ? ['A gland whose range holds the cable.'] : [],
      }),
    ];
  });
}
