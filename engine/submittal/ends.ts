import { carrierOf } from '../checks/shieldPath.ts';
import { END_PICTURE, type EndKind, endPicture } from '../drawing/endPicture.ts';
import type { Cable } from '../lineup/cable.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import { type Block, type Picture, table } from './content.ts';

/** How the ends of the cables are prepared: a drawing for each way that this line-up uses, and which end uses it. */

export type End = 'from' | 'to';

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
export const STEPS: Readonly<Record<EndKind, readonly string[]>> = {
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

export const endDetail = (kind: EndKind, title: string): Picture => ({
  items: endPicture(kind, title),
  w: END_PICTURE.w,
  h: END_PICTURE.h,
  says: `${title}. The cable comes in from the left through the wall of the box. ${STEPS[kind].join(' ')}`,
});

export const realCables = (lineUp: LineUp): readonly Cable[] => lineUp.cables.filter((each) => each.kind === 'cable');
export const SIDES = ['from', 'to'] as const;

export function endDetails(lineUp: LineUp): readonly Block[] {
  const tags = new Map(lineUp.elements.map((each) => [each.id, each.tag]));
  const used = new Map<EndKind, string[]>();
  for (const cable of realCables(lineUp))
    for (const end of SIDES) {
      const kind = endKind(cable, end);
      used.set(kind, [...(used.get(kind) ?? []), `${cable.tag} at ${tags.get(cable[end].element ?? '') ?? 'its free end'}`]);
    }
  const kinds = [...used.keys()];
  if (kinds.length === 0) return [];
  const letter = (i: number): string => String.fromCharCode(65 + i);
  return [
    { t: 'pictures', title: 'Details', pictures: kinds.map((kind, i) => endDetail(kind, `Detail ${letter(i)}: ${WORDS[kind]}`)) },
    table({
      title: 'Which end uses which detail',
      empty: '',
      together: true,
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
