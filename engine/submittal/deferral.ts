import type { LineUp } from '../lineup/lineUp.ts';
import { notesOf } from '../lineup/notes.ts';
import type { Table } from './content.ts';

/** What this program does not judge, and what must be done whatever it says. */

/** On the cover, at the head of the report and above the calculations. */
export const DEFERRAL = 'A design aid: local code, the authority, the makers’ instructions and the engineer of record decide.';

/** Words of NEC articles 500 to 506 and of IEC 60079 for places where the air may burn, from memory. A word too many costs a line on paper, one too few a plant. */
const HAZARD =
  /\b(hazardous|explosi(on|ve)s?|flammable|combustible|dust\w*|gas(es|eous)?|vapou?rs?|flyings|intrinsically safe|flameproof|Ex [deimnopqt][a-z]?|class I{1,3}|divisions? [12]|zones? ?(2?[0-2]))\b/i;

/** Where the line-up itself speaks of such a place. */
function hazardNamed(lineUp: LineUp): readonly string[] {
  const { project, elements, cables } = lineUp;
  const says = (...texts: readonly unknown[]) => texts.some((each) => typeof each === 'string' && HAZARD.test(each));
  return [
    ...(says(project.title, project.summary) ? ['the project'] : []),
    ...notesOf(lineUp).flatMap((each, i) => (says(each.says) ? [`note ${i + 1}`] : [])),
    ...[...elements, ...cables].filter((each) => says(each.note, 'enclosure' in each ? each.enclosure : undefined)).map(({ tag }) => tag),
  ];
}

/** A subject that the line-up names stands in front: there silence would be read as consent. */
export function notCovered(lineUp: LineUp): Table {
  const named = hazardNamed(lineUp);
  if (named.length === 0) return NOT_COVERED;
  const shown = named.slice(0, 20).join(', ') + (named.length > 20 ? ` and ${named.length - 20} more` : '');
  const notice = `Named here by ${shown}, and not judged: whether the place is classified, and what may stand in it, is for NEC 500 to 506 or IEC 60079.`;
  const [own, others] = [true, false].map((wanted) => NOT_COVERED.rows.filter(([subject]) => (subject === HAZARDOUS) === wanted));
  return { ...NOT_COVERED, rows: [...(own ?? []).map(([subject = '', why = '']) => [subject, `${notice} ${why}`]), ...(others ?? [])] };
}

const HAZARDOUS = 'Hazardous areas';

const NOT_COVERED: Table = {
  title: 'Not covered',
  empty: '',
  columns: [
    { head: 'Subject', w: 60 },
    { head: 'Why it matters here', grow: 1 },
  ],
  rows: [
    ['Arc flash', 'No incident energy, boundary or protective clothing follows from this document.'],
    ['Coordination', 'Selectivity of overcurrent devices and their settings are a study of their own.'],
    [HAZARDOUS, 'Drives, motors and cables in explosive atmospheres need their own certificates and rules.'],
    ['Fire pumps', 'Their supply, controllers and conductors follow rules that override the usual ones.'],
    ['Functional safety', 'Safe torque off and interlocks are not judged as safety functions.'],
    ['Medium voltage', 'Tables and formulas here are for low voltage, up to 1000 V.'],
    ['Seismic', 'Supports, bracing and anchorage are not looked at.'],
  ],
};

export const CAUTION: Table = {
  title: 'Caution',
  empty: '',
  columns: [
    { head: 'Before', w: 60 },
    { head: 'What to mind', grow: 1 },
  ],
  rows: [
    [
      'Use',
      'This is a design aid. Local code, the makers’ instructions and a licensed engineer decide; where they differ from this document, they hold.',
    ],
    ['Work', 'Lock out and tag every source, and prove that it is dead before touching.'],
    [
      'Opening a drive',
      'Its d.c. link stays charged after the supply is off: wait for the discharge time given by the maker, then measure.',
    ],
    ['Insulation test', 'Take the cable off at both ends first: the test voltage destroys a drive and loads filters and arresters.'],
    ['Figures', 'Every value is only as good as what was entered. Values marked as assumed are to be confirmed.'],
  ],
};
