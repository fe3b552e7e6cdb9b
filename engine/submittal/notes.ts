import type { Table } from './content.ts';

/** General notes and abbreviations of the set. */

export const NOTES: Table = {
  title: 'General notes',
  empty: '',
  columns: [
    { head: 'No.', w: 12, right: true },
    { head: 'Note', grow: 1 },
  ],
  rows: [
    'Conductors are copper unless the schedule says aluminium.',
    'Shields, armour and metal raceways of motor leads are bonded at both ends and joined through every box between. A shield that ends in a box is continued by a bond bar or by glands in metal.',
    'Shields of motor leads are landed all round: by glands or by clamps on bare shield. A pigtail is used only where the schedule says so.',
    'Motor leads keep the distance to control cables that the drawing gives, and cross them at right angles.',
    'Motor leads of different drives do not share a raceway unless each has a shield of its own.',
    'Lengths are one way, along the route. A length marked as estimated or drawn is to be measured before the cable is cut.',
    'A disconnect in a motor lead carries its note on the drawing: it is opened only with the drive stopped, unless an early-break contact stops the drive first.',
    'Insulation is tested only with the cable lifted at both ends.',
    'A number in a ring is that of the finding in the table of findings. A verdict stands by word and by shape; colour says nothing more.',
  ].map((says, i) => [`${i + 1}`, says]),
};

export const ABBREVIATIONS: Table = {
  title: 'Abbreviations',
  empty: '',
  folds: true,
  columns: [
    { head: 'Short', w: 26 },
    { head: 'Long', grow: 1 },
  ],
  rows: [
    ['Al, Cu', 'aluminium, copper'],
    ['AWG, kcmil', 'American wire gauge; thousand circular mils'],
    ['EMC', 'electromagnetic compatibility'],
    ['PE', 'equipment grounding conductor'],
    ['dV/dt', 'rate at which a voltage rises'],
    ['X/R', 'reactance over resistance'],
    ['tr, lc', 'rise time; length from which a wave comes back whole'],
    ['Γ', 'share of a wave that an end throws back'],
  ],
};
