import { renumber, takeOut, tidyPositions } from '../../engine/index.ts';
import { view } from '../sheet/view.ts';
import { type Ask, arrange, ask, desk } from '../store/deskStore.ts';
import { select } from '../store/editorStore.ts';
import { type Command, changing, chosenCables, chosenElements, chosenParts, type Scene, some } from './command.ts';
import { rejoinable } from './rejoin.ts';

/** What draws: parts added, joined, named and laid out. */

const one = (scene: Scene): boolean => scene.selected.length === 1;
const oneCable = (scene: Scene): boolean => one(scene) && chosenCables(scene).length === 1;
const oneElement = (scene: Scene): boolean => one(scene) && chosenElements(scene).length === 1;

/** A hand that has travelled to a part means that, and not what it chose before elsewhere. */
function atHand(scene: Scene): Scene {
  const id = view()?.focused();
  return id == null || scene.selected.includes(id) ? scene : { ...scene, selected: [id] };
}
const asking = (id: Ask, label: string, key: string, when: (scene: Scene) => boolean): Command => ({
  id,
  label,
  group: 'Draw',
  keys: [key],
  inMenu: true,
  when: (scene) => when(atHand(scene)),
  run: (scene) => {
    const now = atHand(scene);
    if (now !== scene) select(now.selected);
    ask(id);
  },
});

export const DRAWING: readonly Command[] = [
  asking('add', 'Add a part…', 'A', () => true),
  asking('insert', 'Insert a part here…', 'I', oneCable),
  asking('connect', 'Connect to…', 'C', (scene) => oneElement(scene) && scene.lineUp.elements.length > 1),
  asking('start', 'Land its start elsewhere…', 'S', oneCable),
  asking('end', 'Land its end elsewhere…', 'D', oneCable),
  {
    id: 'moveTo',
    label: 'Move to the next click',
    group: 'Draw',
    keys: ['V'],
    step: 'Move',
    inMenu: true,
    when: (scene) => chosenElements(scene).length > 0,
    run: () => arrange({ moving: !desk().moving, menu: null }),
  },
  {
    id: 'rename',
    label: 'Rename',
    group: 'Draw',
    keys: ['F2', 'Enter'],
    inMenu: true,
    when: (scene) => one(scene) && [undefined, null, scene.selected[0]].includes(view()?.focused()),
    run: ({ selected }) => arrange({ renaming: selected[0] ?? null, menu: null }),
  },
  changing(
    {
      id: 'takeOut',
      label: 'Take out and rejoin the cable',
      group: 'Draw',
      keys: ['Shift+Delete'],
      step: 'Take out',
      inMenu: true,
      when: (scene) => oneElement(scene) && takeOut(scene.lineUp, scene.selected[0] ?? '') !== null,
    },
    ({ lineUp, selected }) => {
      const made = takeOut(lineUp, selected[0] ?? '');
      return made && { lineUp: made.lineUp, select: [made.cable.id] };
    },
  ),
  changing(
    {
      id: 'rejoin',
      label: 'Rejoin the cable that was cut',
      group: 'Draw',
      keys: ['J'],
      step: 'Rejoin',
      when: (scene) => rejoinable(scene) !== null,
    },
    (scene) => {
      const made = rejoinable(scene);
      return made && { lineUp: made.lineUp, select: [made.cable.id] };
    },
  ),
  changing(
    { id: 'tidy', label: 'Tidy the layout', group: 'Draw', keys: ['T'], step: 'Tidy', when: ({ lineUp }) => lineUp.elements.length > 0 },
    ({ lineUp }) => ({ lineUp: { ...lineUp, positions: tidyPositions(lineUp) } }),
  ),
  changing(
    {
      id: 'renumber',
      label: 'Renumber all parts',
      group: 'Draw',
      keys: [],
      step: 'Renumber',
      when: ({ lineUp }) => lineUp.elements.length > 0,
    },
    ({ lineUp }) => ({ lineUp: renumber(lineUp) }),
  ),
  {
    id: 'edit',
    label: 'Go to its values',
    group: 'Draw',
    keys: ['E'],
    when: some,
    run: (scene) => {
      const [part] = chosenParts(scene);
      if (part) document.querySelector<HTMLElement>('.reader .values input, .reader .values select')?.focus();
    },
  },
];
