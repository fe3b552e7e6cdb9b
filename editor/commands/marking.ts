import { arrange } from '../store/deskStore.ts';
import { edit } from '../store/editorStore.ts';
import { moveLabels, putLabelsBack } from '../store/labels.ts';
import { type Command, changing, type Scene, some } from './command.ts';

/** What stands beside the parts: their labels, notes, and the protective conductor. */

const STEP_mm = 2.5;

const shift = (way: string, key: string, dx: number, dy: number): Command => ({
  id: `label${key}`,
  label: `Move its label ${way}`,
  group: 'Arrange',
  keys: [`Ctrl+${key}`],
  step: 'Move label',
  when: some,
  run: ({ selected }) => edit('Move label', (before) => moveLabels(before, selected, dx, dy), { burst: 'label' }),
});

const someMoved = ({ lineUp, selected }: Scene): boolean => selected.some((id) => lineUp.labels?.[id] !== undefined);

export const MARKING: readonly Command[] = [
  {
    id: 'notes',
    label: 'Notes on the drawing…',
    group: 'Draw',
    keys: ['O'],
    inMenu: true,
    run: () => arrange({ noting: true, menu: null }),
  },
  changing(
    { id: 'grounds', label: 'Grounding conductors shown or not', group: 'View', keys: ['P'], step: 'Show grounding conductors' },
    ({ lineUp }) => ({ lineUp: { ...lineUp, project: { ...lineUp.project, showGrounds: lineUp.project.showGrounds !== true } } }),
  ),
  shift('left', 'ArrowLeft', -STEP_mm, 0),
  shift('right', 'ArrowRight', STEP_mm, 0),
  shift('up', 'ArrowUp', 0, -STEP_mm),
  shift('down', 'ArrowDown', 0, STEP_mm),
  changing(
    { id: 'labelBack', label: 'Put its label back', group: 'Arrange', keys: [], step: 'Put label back', inMenu: true, when: someMoved },
    ({ lineUp, selected }) => ({ lineUp: putLabelsBack(lineUp, selected) }),
  ),
];
