import { remove } from '../../engine/index.ts';
import { pasteFromMenu } from '../files/clipboard.ts';
import { more } from '../store/copies.ts';
import { arrange, ask } from '../store/deskStore.ts';
import { edit, redo, refuse, undo } from '../store/editorStore.ts';
import { move } from '../store/edits.ts';
import { type Command, changing, chosenElements, chosenParts, type Scene, some } from './command.ts';
import { giveValues, heldKind, holdValues } from './values.ts';

/** What changes the parts that are there. */

const anElement = (scene: Scene): boolean => chosenElements(scene).length > 0;

const STEP_mm = 2.5;
const LARGE_mm = 10;

function nudge({ lineUp, selected }: Scene, dx: number, dy: number): void {
  const places = selected.flatMap((id) => {
    const at = lineUp.positions[id];
    return at ? [[id, { x_mm: at.x_mm + dx, y_mm: at.y_mm + dy }] as const] : [];
  });
  edit('Move', (before) => move(before, new Map(places)), { burst: 'nudge' });
}

const nudges = (way: string, key: string, x: number, y: number): readonly Command[] =>
  [
    { size: STEP_mm, keys: [key], words: `Nudge ${way}` },
    { size: LARGE_mm, keys: [`Shift+${key}`], words: `Nudge ${way}, further` },
  ].map(({ size, keys, words }) => ({
    id: words,
    label: words,
    group: 'Arrange',
    keys,
    step: 'Move',
    when: anElement,
    run: (scene) => nudge(scene, x * size, y * size),
  }));

export const EDITING: readonly Command[] = [
  { id: 'undo', label: 'Undo', group: 'Edit', keys: ['Ctrl+Z'], typing: 'clean', when: ({ past }) => past.length > 0, run: undo },
  {
    id: 'redo',
    label: 'Redo',
    group: 'Edit',
    keys: ['Ctrl+Y', 'Ctrl+Shift+Z'],
    typing: 'clean',
    when: ({ future }) => future.length > 0,
    run: redo,
  },
  {
    id: 'copy',
    label: 'Copy',
    group: 'Edit',
    keys: ['Ctrl+C'],
    native: true,
    inMenu: true,
    when: anElement,
    run: () => void document.execCommand('copy'),
  },
  {
    id: 'cut',
    label: 'Cut',
    group: 'Edit',
    keys: ['Ctrl+X'],
    native: true,
    step: 'Cut',
    inMenu: true,
    when: anElement,
    run: () => void document.execCommand('cut'),
  },
  {
    id: 'paste',
    label: 'Paste',
    group: 'Edit',
    keys: ['Ctrl+V'],
    native: true,
    step: 'Paste',
    inMenu: true,
    run: () => void pasteFromMenu(),
  },
  changing(
    { id: 'duplicate', label: 'One more like this', group: 'Edit', keys: ['Ctrl+D'], step: 'Duplicate', inMenu: true, when: anElement },
    ({ lineUp, selected }) => {
      const put = more(lineUp, selected, 1);
      return put && { lineUp: put.lineUp, select: put.ids };
    },
  ),
  {
    id: 'more',
    label: 'Several more like this…',
    group: 'Edit',
    keys: ['M'],
    step: 'Several more',
    inMenu: true,
    when: anElement,
    run: () => ask('more'),
  },
  changing(
    { id: 'delete', label: 'Delete', group: 'Edit', keys: ['Delete', 'Backspace'], step: 'Delete', inMenu: true, when: some },
    ({ lineUp, selected }) => ({ lineUp: remove(lineUp, selected), select: [] }),
  ),
  {
    id: 'copyValues',
    label: 'Copy its values',
    group: 'Edit',
    keys: ['Shift+C'],
    inMenu: true,
    when: ({ selected }) => selected.length === 1,
    run: (scene) => {
      const [part] = chosenParts(scene);
      if (!part) return;
      holdValues(part);
      refuse(`The values of ${part.tag} are ready for others of its kind.`);
    },
  },
  changing(
    {
      id: 'pasteValues',
      label: 'Give it the copied values',
      group: 'Edit',
      keys: ['Shift+V'],
      step: 'Give values',
      inMenu: true,
      when: (scene) => chosenParts(scene).some((part) => part.kind === heldKind()),
    },
    ({ lineUp, selected }) => ({ lineUp: giveValues(lineUp, selected) }),
  ),
  {
    id: 'least',
    label: 'Least copper: the smallest sizes that pass…',
    group: 'Edit',
    keys: [],
    when: ({ lineUp }) => lineUp.cables.some(({ kind }) => kind === 'cable'),
    run: () => arrange({ sizing: true }),
  },
  ...nudges('up', 'ArrowUp', 0, -1),
  ...nudges('down', 'ArrowDown', 0, 1),
  ...nudges('left', 'ArrowLeft', -1, 0),
  ...nudges('right', 'ArrowRight', 1, 0),
];
