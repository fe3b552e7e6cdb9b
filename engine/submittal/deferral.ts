import type { Table } from './content.ts';

/** What this program does not judge, and what must be done whatever it says. */

/** On the cover, at the head of the report and above the calculations. */
export const DEFERRAL = 'A design aid: local code, the authority, the makers’ instructions and the engineer of record decide.';

export const NOT_COVERED: Table = {
  title: 'Not covered',
  empty: '',
  columns: [
    { head: 'Subject', w: 60 },
    { head: 'Why it matters here', grow: 1 },
  ],
  rows: [
    ['Arc flash', 'No incident energy, boundary or protective clothing follows from this document.'],
    ['Coordination', 'Selectivity of overcurrent devices and their settings are a study of their own.'],
    ['Hazardous areas', 'Drives, motors and cables in explosive atmospheres need their own certificates and rules.'],
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
