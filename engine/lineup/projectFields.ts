import { DESIGNATED, USUAL_LETTERS } from './designation.ts';
import type { Field } from './fields.ts';

/** What holds for the whole line-up, by the names that people are told: for the form and for what lists changes. */

const field = (path: string, label: string, more: Partial<Field> = {}): Field => ({
  path,
  label,
  kind: 'text',
  help: '',
  ask: '',
  ...more,
});
const choice = (path: string, label: string, choices: readonly string[], help = ''): Field =>
  field(path, label, { kind: 'choice', choices, help });
const limit = (path: string, label: string, quantity: 'percent' | 'voltage'): Field =>
  field(path, label, { kind: 'quantity', quantity, help: 'Stricter than, or instead of, the usual limit' });

export const PART_NAMES = 'Names of parts';

export const PROJECT_GROUPS: readonly { readonly title: string; readonly fields: readonly Field[] }[] = [
  {
    title: 'Title block',
    fields: [
      field('site', 'Site'),
      field('owner', 'Owner'),
      field('number', 'Drawing number'),
      field('revision', 'Revision'),
      field('date', 'Date of issue'),
      field('createdBy', 'Created by'),
      field('checkedBy', 'Checked by'),
      field('approvedBy', 'Approved by'),
      field('status', 'Status'),
      field('edition', 'Edition of the code'),
    ],
  },
  {
    title: 'Drawing',
    fields: [
      choice('sheetSize', 'Sheet size', ['A4', 'A3', 'A2', 'A1', 'A0', 'ANSI-A', 'ANSI-B', 'ANSI-C', 'ANSI-D', 'ANSI-E']),
      choice('symbols', 'Symbols', ['us', 'iec'], 'Not said: those of the basis'),
      choice('vocabulary', 'Words', ['us', 'iec'], 'Ground, shield, ampacity, or their IEC terms. Not said: those of the basis'),
      field('showGrounds', 'Show grounding conductors', { kind: 'yesno', help: 'A line of long dashes at the left of each cable' }),
    ],
  },
  {
    title: PART_NAMES,
    fields: [
      choice('designations.separator', 'Between letters and number', ['hyphen', 'point', 'none'], 'Not said: a hyphen'),
      field('designations.digits', 'Figures', { kind: 'count', help: 'Numbers are filled up with zeros to so many figures, at most 6' }),
      ...DESIGNATED.map((kind) =>
        field(`designations.letters.${kind}`, `Letters of a ${kind}`, { help: `Not said: ${USUAL_LETTERS[kind]}` }),
      ),
    ],
  },
  {
    title: 'How it is reckoned',
    fields: [
      choice(
        'conductorTemperature',
        'Conductor temperature',
        ['rated', 'by-load'],
        'For resistance: as the table prints it, or as the load makes it',
      ),
      field('motorContribution', 'Motors feed faults', { kind: 'yesno', help: 'Motors that run without a drive' }),
      field('altitude_m', 'Altitude', { kind: 'quantity', quantity: 'length', help: 'Above sea level; thin air breaks down sooner' }),
      field('creditFeeder', 'Feeder counts as reactor', { kind: 'yesno', help: 'For the source impedance of a drive' }),
    ],
  },
  {
    title: 'Limits of this project',
    fields: [
      limit('limits.feederDrop_pct', 'Drop in a feeder', 'percent'),
      limit('limits.leadDrop_pct', 'Drop in a motor lead', 'percent'),
      limit('limits.motorPeak_V', 'Peak at a motor', 'voltage'),
      choice('emcCategory', 'Emission category', ['none', 'C1', 'C2', 'C3', 'C4'], 'IEC 61800-3, as the contract asks'),
    ],
  },
];

/** Chosen at the head of the window. */
export const PROJECT_HEAD: readonly Field[] = [
  field('title', 'Title'),
  choice('basis', 'Basis', ['us', 'iec']),
  choice('units', 'Units', ['us', 'metric']),
];
