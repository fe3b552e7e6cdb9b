import type { Review, SolvedRun } from '../checks/solved.ts';
import type { Cable } from '../lineup/cable.ts';
import type { Element } from '../lineup/elements.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import { formatQuantity, type Quantity } from '../lineup/units.ts';
import { asBuiltValues, NOT_RECORDED } from './asBuilt.ts';
import { figure, type Table } from './content.ts';

/** What is to be measured on site, each value beside the one that was computed, with room to write where nothing was recorded yet. */

/** What is asked, what was computed, and what was recorded already. */
type Asked = readonly [string, string, string?];

const COLUMNS = [
  { head: 'To be measured', grow: 1.6 },
  { head: 'Computed or asked', w: 44, right: true },
  { head: 'Measured', w: 34 },
  { head: 'By, date', w: 32 },
] as const;

export function commissioning(lineUp: LineUp, review: Review): readonly Table[] {
  const { units } = lineUp.project;
  const of = (value: number | null | undefined, quantity: Quantity): string =>
    value === null || value === undefined ? 'not known' : formatQuantity(value, quantity, units);
  const parts = new Map<string, Element | Cable>([...lineUp.elements, ...lineUp.cables].map((each) => [each.id, each]));
  const solved = new Map(review.elements.map((each) => [each.id, each]));
  const form = (title: string, rows: readonly Asked[]): Table => ({
    title,
    columns: COLUMNS,
    empty: '',
    form: true,
    rows: rows.map(([what, computed, measured = '']) => [what, computed, measured, '']),
  });
  const asLaid = (part: Element | Cable): readonly Asked[] =>
    asBuiltValues(part, units).map(({ label, design, built }) => [
      `${part.tag} as ${part.kind === 'motor' ? 'its plate says' : 'laid'}: ${label.toLowerCase()}`,
      design,
      built === NOT_RECORDED ? '' : built,
    ]);
  // What several runs share is measured once.
  const done = new Set<string>();
  const first = (part: Element | Cable): boolean => !done.has(part.id) && done.add(part.id).has(part.id);
  const runForm = (run: SolvedRun): Table => {
    const drive = parts.get(run.driveId ?? '') as Element | undefined;
    const motor = parts.get(run.motorId) as Element | undefined;
    const cables = run.path.flatMap((id) => {
      const part = parts.get(id);
      return part?.kind === 'cable' && first(part) ? [part] : [];
    });
    const lead = cables.filter((each) => review.cables.find(({ id }) => id === each.id)?.side === 'output');
    const boxes = run.path.flatMap((id) => {
      const part = parts.get(id) as Element | undefined;
      return part?.kind === 'disconnect' && part.earlyBreakContact !== undefined && first(part) ? [part] : [];
    });
    return form(`Run to ${run.motorTag}`, [
      ...cables.flatMap((each) => asLaid(each)),
      ...lead.map((each): [string, string] => [
        `Insulation of ${each.tag}, each core to ground and to the others, both ends lifted`,
        'as its maker states',
      ]),
      ...lead.map((each): [string, string] => [
        `Shield of ${each.tag}, resistance from end to end`,
        run.shield === 'none' ? 'no shield' : 'close to zero',
      ]),
      ...(drive?.kind === 'drive' && first(drive)
        ? ([
            [`Supply voltage at ${drive.tag}, loaded`, of(solved.get(drive.id)?.voltage_V, 'voltage')],
            [`Carrier of ${drive.tag} as set`, of(drive.carrier_Hz, 'frequency')],
            [`Filter jumpers of ${drive.tag} as found`, drive.filterJumpers ?? 'not known'],
            [`Bus of ${drive.tag}, unloaded`, of(run.bus_V, 'voltage')],
          ] as const)
        : []),
      ...(motor?.kind === 'motor' ? [...asLaid(motor), ['Overload set to', of(motor.ratedCurrent_A, 'current')] as const] : []),
      [
        'Voltage at the motor at base speed, of its nameplate',
        run.terminalVoltage_pct === null ? 'not known' : `${figure(run.terminalVoltage_pct)} %`,
      ],
      ['Peak at the terminals of the motor, line to line', of(run.peak_V, 'voltage')],
      ...boxes.map((each): [string, string] => [
        `Early-break contact of ${each.tag} stops the drive before the switch opens`,
        each.earlyBreakContact ?? '',
      ]),
      ['Turns the right way round', 'yes'],
    ]);
  };
  return [
    ...review.runs.map(runForm),
    form('Taken over', [
      ['Name of who measured', ''],
      ['Name of who witnessed', ''],
      ['Instruments, with date of calibration', ''],
    ]),
  ];
}
