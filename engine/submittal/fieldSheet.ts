import { END_PICTURE } from '../drawing/endPicture.ts';
import { buildText, groundsText, lengthText, racewayText, sizeText } from '../drawing/labels.ts';
import { recordedAt } from '../lineup/asBuilt.ts';
import type { Cable } from '../lineup/cable.ts';
import { fieldOf } from '../lineup/fields.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import { printable } from '../lineup/printable.ts';
import { shownValue } from '../lineup/shownValue.ts';
import { formatQuantity, type Units } from '../lineup/units.ts';
import { sayOf } from '../lineup/vocabulary.ts';
import { cableCode } from './cableCode.ts';
import { type Block, table } from './content.ts';
import { type End, endDetail, endKind, landingWords, realCables, SIDES, STEPS } from './ends.ts';
import { issuedHash } from './issuedText.ts';

/** One sheet a cable for the hand that lands it: what it is, both ends as drawings, steps, what to mind, and all of it as a code. */

export const fieldSheets = (lineUp: LineUp): readonly Block[] => realCables(lineUp).flatMap((cable) => fieldSheet(lineUp, cable));

export function fieldSheet(lineUp: LineUp, cable: Cable): readonly Block[] {
  const { units } = lineUp.project;
  const place = placesOf(lineUp, cable);
  return [
    table({
      title: `Cable ${cable.tag}: ${place('from')} to ${place('to')}`,
      ownSheet: true,
      together: true,
      beside: cableCode(codeText(lineUp, cable)),
      empty: '',
      columns: [
        { head: 'What', w: 43 },
        { head: 'As designed', grow: 1 },
        { head: 'As built', w: 32 },
      ],
      rows: factsOf(cable, units).map(([what, value, path]) => [what, value, recorded(cable, path, units)]),
    }),
    {
      t: 'pictures',
      title: '',
      pictures: SIDES.map((end) => endDetail(endKind(cable, end), `At ${place(end)}: ${landingWords(cable, end)}`)),
    },
    table({
      title: 'Steps',
      empty: '',
      // Each under its picture.
      columns: SIDES.map((end) => ({ head: `At ${place(end)}`, ...(end === 'from' ? { w: END_PICTURE.w + 6 } : { grow: 1 }) })),
      rows: [
        SIDES.map((end) =>
          [...STEPS[endKind(cable, end)], ...measures(cable, end, units)].map((step, n) => `${n + 1}. ${step}`).join('\n'),
        ),
      ],
    }),
    table({ title: 'Mind', empty: '', columns: [{ head: 'Before and while working', grow: 1 }], rows: CAUTIONS.map((each) => [each]) }),
  ];
}

function placesOf(lineUp: LineUp, cable: Cable): (end: End) => string {
  const tags = new Map(lineUp.elements.map((each) => [each.id, each.tag]));
  return (end) => tags.get(cable[end].element ?? '') ?? 'free end';
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

const known = (value: string | null | undefined): string => value || 'not known';

/** What it is, as designed, and where the same was recorded on site. */
type Fact = readonly [what: string, value: string, path?: string];

function factsOf(cable: Cable, units: Units): readonly Fact[] {
  const { conductor, insulation, installation } = cable;
  const sets = conductor.sets ?? 1;
  const voltage = insulation.voltage_V === undefined ? 'voltage class not known' : formatQuantity(insulation.voltage_V, 'voltage', units);
  return [
    ['Construction', known(buildText(cable))],
    [
      'Phase conductors',
      `${sets === 1 ? '1 set' : `${sets} sets`} of 3 × ${sizeText(cable) ?? 'size not known'}, ${conductor.metal ?? 'metal not known'}`,
      'conductor.size',
    ],
    ['Grounding conductors', known(groundsText(cable))],
    ...(cable.auxiliary.length > 0 ? ([['Other cores', cable.auxiliary.map((each) => each.use).join(', ')]] as const) : []),
    ['Insulation', `${insulation.type ?? 'type not known'}, ${voltage}`, 'insulation.type'],
    ['Length, one way', known(lengthText(cable, units)), 'length_m'],
    [
      'Laid in',
      [racewayText(cable) ?? (installation.raceway === 'none' ? 'free' : 'not known'), installation.racewaySize, installation.moisture]
        .filter(Boolean)
        .join(', '),
      'installation.raceway',
    ],
    ...(cable.outerDiameter_mm === undefined
      ? []
      : ([['Outer diameter', formatQuantity(cable.outerDiameter_mm, 'distance', units)]] as const)),
  ];
}

function recorded(cable: Cable, path: string | undefined, units: Units): string {
  const value = path === undefined ? undefined : recordedAt(cable, path);
  const field = path === undefined ? undefined : fieldOf('cable', path);
  return value === undefined || field === undefined ? '' : shownValue(field, value, units);
}

/** The same in short, a line a value, in letters that every reader of codes knows; only names are as they were typed. */
export function codeText(lineUp: LineUp, cable: Cable): string {
  const { project } = lineUp;
  const place = placesOf(lineUp, cable);
  const facts = factsOf(cable, project.units).map(([what, value]) => `${what}: ${plain(value)}`);
  return [
    `Cable ${short(cable.tag)}`,
    `From ${short(place('from'))} to ${short(place('to'))}`,
    ...facts.map(short),
    ...SIDES.map((end) => `At ${short(place(end))}: ${landingWords(cable, end)}`),
    short([project.number, project.revision && `revision ${project.revision}`].filter(Boolean).join(' ')),
    `Line-up ${issuedHash(lineUp)}`,
  ]
    .filter((each) => each !== '')
    .map(sayOf(lineUp))
    .join('\n');
}

const plain = (text: string): string => text.replaceAll('\u00a0', ' ').replaceAll('²', '2').replaceAll('×', 'x').replaceAll('−', '-');

/** A code holds some thousand letters: a name that would fill it alone is shortened, with a sign that it is. */
function short(text: string): string {
  // Half of a letter is none, and what drives a reader is not told to it.
  const letters = [...printable(text.replaceAll(/\s+/g, ' ')).replaceAll(/\p{Cs}/gu, '\ufffd')];
  return letters.length > 80 ? `${letters.slice(0, 77).join('')}...` : letters.join('');
}

const CAUTIONS: readonly string[] = [
  'Lock out and tag every source; prove that it is dead before touching. Wait the discharge time on the label of the drive, then measure.',
  'Insulation test: lift the cable at both ends first. The test voltage destroys a drive and loads filters and arresters.',
  'Do not splice or cut the shield anywhere but at the two ends drawn here.',
  'Do not bend tighter than the cable’s maker allows, and keep it as far from control cables as the drawing says.',
  'Open a disconnect in a motor lead only with the drive stopped, unless its early-break contact is wired.',
];
