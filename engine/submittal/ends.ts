import { carrierOf } from '../checks/shieldPath.ts';
import { END_PICTURE, type EndKind, endPicture } from '../drawing/endPicture.ts';
import type { Cable } from '../lineup/cable.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import { formatQuantity, type Units } from '../lineup/units.ts';
import { type Block, type Picture, type Table, table } from './content.ts';

/** How the ends of the cables are prepared: a drawing for each way that this line-up uses, and which end uses it. */

type End = 'from' | 'to';

const WORDS: Readonly<Record<EndKind, string>> = {
  full: 'landed all round in its gland',
  clamp: 'landed by a clamp on a bond bar',
  pigtail: 'landed by a pigtail',
  none: 'cut back, not landed',
  conduit: 'metal pipe locked to the box',
  plain: 'no bond: plain gland or bushing',
  unknown: 'landing not known',
};

/** Which drawing an end is made after. */
export function endKind(cable: Cable, end: End): EndKind {
  const carrier = carrierOf(cable);
  const { landing } = cable[end];
  if (carrier === 'none') return 'plain';
  if (landing === undefined || carrier === 'unknown') return 'unknown';
  if (carrier === 'raceway') return landing === 'none' ? 'plain' : 'conduit';
  return landing;
}

export const landingWords = (cable: Cable, end: End): string => WORDS[endKind(cable, end)];

/** The steps of the hand, in order. */
const STEPS: Readonly<Record<EndKind, readonly string[]>> = {
  full: [
    'Cut the jacket where the gland will grip; leave the shield whole.',
    'Bare the shield by the length of the gland’s contact ring and keep foil and braid unbroken round the cable.',
    'Tighten the gland on bare metal of the box: paint off under its locknut.',
    'Carry the cores on; land every grounding conductor on the ground bar.',
  ],
  clamp: [
    'Bring the cable in through a plain gland.',
    'Take a window of jacket off, as wide as the clamp; the shield stays whole.',
    'Clamp the bare shield to the bond bar all round; the bar is bonded to the box and to the bar’s other cables.',
    'Land every grounding conductor on the ground bar.',
  ],
  pigtail: [
    'Gather the shield into a flat braid, as wide and as short as can be.',
    'Land it right beside the gland, on bare metal.',
    'Land every grounding conductor on the ground bar.',
  ],
  none: ['Cut the shield back and insulate it, so that nothing touches it.', 'Land every grounding conductor on the ground bar.'],
  conduit: [
    'Screw the pipe in with a locknut on both sides of bare metal, or a hub that bonds.',
    'Put an insulating bushing on its mouth before the wires are pulled.',
    'Land every grounding conductor on the ground bar.',
  ],
  plain: ['Bring the cable in through a gland or bushing that grips the jacket.', 'Land every grounding conductor on the ground bar.'],
  unknown: ['Ask how the shield is to be landed before the cable is cut.'],
};

const picture = (kind: EndKind, title: string): Picture => ({
  items: endPicture(kind, title),
  w: END_PICTURE.w,
  h: END_PICTURE.h,
  says: `${title}. The cable comes in from the left through the wall of the box. ${STEPS[kind].join(' ')}`,
});

const real = (lineUp: LineUp): readonly Cable[] => lineUp.cables.filter((each) => each.kind === 'cable');
const SIDES = ['from', 'to'] as const;

export function endDetails(lineUp: LineUp): readonly Block[] {
  const tags = new Map(lineUp.elements.map((each) => [each.id, each.tag]));
  const used = new Map<EndKind, string[]>();
  for (const cable of real(lineUp))
    for (const end of SIDES) {
      const kind = endKind(cable, end);
      used.set(kind, [...(used.get(kind) ?? []), `${cable.tag} at ${tags.get(cable[end].element ?? '') ?? 'its free end'}`]);
    }
  const kinds = [...used.keys()];
  if (kinds.length === 0) return [];
  const letter = (i: number): string => String.fromCharCode(65 + i);
  return [
    { t: 'pictures', title: 'Details', pictures: kinds.map((kind, i) => picture(kind, `Detail ${letter(i)}: ${WORDS[kind]}`)) },
    table({
      title: 'Which end uses which detail',
      empty: '',
      columns: [
        { head: 'Detail', w: 20 },
        { head: 'Ends', grow: 1 },
        { head: 'Steps', grow: 1.6 },
      ],
      rows: kinds.map((kind, i) => [
        letter(i),
        (used.get(kind) ?? []).join(', '),
        STEPS[kind].map((step, n) => `${n + 1}. ${step}`).join('\n'),
      ]),
    }),
  ];
}

export const fieldSheets = (lineUp: LineUp): readonly Block[] => real(lineUp).flatMap((cable) => fieldSheet(lineUp, cable));

/** One cable for the hand that lands it: what it is, both ends as drawings, steps, and what to mind. */
export function fieldSheet(lineUp: LineUp, cable: Cable): readonly Block[] {
  const { units } = lineUp.project;
  const tags = new Map(lineUp.elements.map((each) => [each.id, each.tag]));
  const place = (end: End): string => tags.get(cable[end].element ?? '') ?? 'free end';
  const facts: Table = {
    title: `Cable ${cable.tag}: ${place('from')} to ${place('to')}`,
    ownSheet: true,
    empty: '',
    folds: true,
    columns: [
      { head: 'What', w: 46 },
      { head: 'As designed', grow: 1 },
      { head: 'As built', w: 30 },
    ],
    rows: factsOf(cable, units).map(([what, value]) => [what, value, '']),
  };
  return [
    table(facts),
    {
      t: 'pictures',
      title: '',
      pictures: SIDES.map((end) => picture(endKind(cable, end), `At ${place(end)}: ${landingWords(cable, end)}`)),
    },
    table({
      title: 'Steps',
      empty: '',
      columns: SIDES.map((end) => ({ head: `At ${place(end)}`, grow: 1 })),
      rows: [
        SIDES.map((end) =>
          [...STEPS[endKind(cable, end)], ...measures(cable, end, units)].map((step, n) => `${n + 1}. ${step}`).join('\n'),
        ),
      ],
    }),
    table({ title: 'Mind', empty: '', columns: [{ head: 'Before and while working', grow: 1 }], rows: CAUTIONS.map((each) => [each]) }),
  ];
}

/** Lines that only hold for this very end. */
function measures(cable: Cable, end: End, units: Units): readonly string[] {
  const { pigtailLength_mm, pigtailWidth_mm, glandLeast_mm, glandMost_mm, groundsLanded } = cable[end];
  const mm = (value: number): string => formatQuantity(value, 'distance', units);
  return [
    ...(pigtailLength_mm === undefined ? [] : [`Pigtail no longer than ${mm(pigtailLength_mm)}.`]),
    ...(pigtailWidth_mm === undefined ? [] : [`Pigtail at least ${mm(pigtailWidth_mm)} wide.`]),
    ...(glandLeast_mm === undefined || glandMost_mm === undefined ? [] : [`The gland takes ${mm(glandLeast_mm)} to ${mm(glandMost_mm)}.`]),
    ...(groundsLanded === undefined ? [] : [`Grounding conductors landed here: ${groundsLanded}.`]),
  ];
}

function factsOf(cable: Cable, units: Units): readonly (readonly [string, string])[] {
  const known = (value: string | null | undefined): string => value || 'not known';
  const of = (value: number | undefined, quantity: Parameters<typeof formatQuantity>[1]): string =>
    value === undefined ? 'not known' : formatQuantity(value, quantity, units);
  const { conductor, insulation, grounds, installation } = cable;
  return [
    ['Construction', known(cable.construction)],
    ['Phase conductors', `${conductor.sets ?? 1} set of 3 × ${known(conductor.size?.replace('mm2', 'mm²'))}, ${known(conductor.metal)}`],
    [
      'Grounding conductors',
      grounds.count === undefined ? 'not known' : `${grounds.count} × ${known(grounds.size?.replace('mm2', 'mm²'))}`,
    ],
    ...(cable.auxiliary.length > 0 ? ([['Other cores', cable.auxiliary.map((each) => each.use).join(', ')]] as const) : []),
    ['Insulation', `${known(insulation.type)}, ${of(insulation.voltage_V, 'voltage')}`],
    ['Length, one way', of(cable.lengthMost_m ?? cable.length_m, 'length')],
    ['Laid in', [known(installation.raceway), installation.racewaySize, installation.moisture].filter(Boolean).join(', ')],
    ...(cable.outerDiameter_mm === undefined ? [] : ([['Outer diameter', of(cable.outerDiameter_mm, 'distance')]] as const)),
  ];
}

const CAUTIONS: readonly string[] = [
  'Lock out and tag every source; prove that it is dead before touching. Wait the discharge time on the label of the drive, then measure.',
  'Insulation test: lift the cable at both ends first. The test voltage destroys a drive and loads filters and arresters.',
  'Do not splice or cut the shield anywhere but at the two ends drawn here.',
  'Do not bend tighter than the cable’s maker allows, and keep it as far from control cables as the drawing says.',
  'Open a disconnect in a motor lead only with the drive stopped, unless its early-break contact is wired.',
];
