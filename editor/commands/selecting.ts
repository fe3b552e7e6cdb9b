import { view } from '../sheet/view.ts';
import { arrange, ask, desk } from '../store/deskStore.ts';
import { putBack, select, showFinding, wait } from '../store/editorStore.ts';
import type { Command, Scene } from './command.ts';
import { some } from './command.ts';
import { connected, neighbour, partsOf, sameKind, type Way } from './related.ts';

/** What chooses parts, and travels from one to the next. */

/** One level at a time: what waits for a place, what is open over the sheet, what is only tried, the finding, the choice. */
function stepBack({ waiting, trying, finding, selected }: Scene): void {
  const { menu, renaming, moving, several, table } = desk();
  if (waiting) wait(null);
  else if (moving) arrange({ moving: false });
  else if (menu || renaming) arrange({ menu: null, renaming: null });
  else if (trying) putBack();
  else if (finding) showFinding(null);
  else if (table) arrange({ table: false });
  else if (selected.length > 0) select([]);
  else if (several) arrange({ several: false });
}

function nextFinding({ review, finding }: Scene, step: 1 | -1): void {
  const list = review?.findings.filter((each) => each.verdict !== 'pass' && each.verdict !== 'not-applicable') ?? [];
  const at = list.findIndex((each) => each.id === finding);
  const next = list[(at + step + list.length) % list.length];
  if (next) showFinding(next.id);
}

/** With a part under the focus that is not chosen, arrows travel along its cables. */
const travels = (words: string, key: Way): Command => ({
  id: key,
  label: `Go ${words}`,
  group: 'Select',
  keys: [key],
  when: ({ selected }) => {
    const id = view()?.focused();
    // At a dead end nothing happens: the arrow must not move what is chosen elsewhere.
    return id != null && !selected.includes(id);
  },
  run: ({ lineUp }) => {
    const next = neighbour(lineUp, view()?.focused() ?? '', key);
    if (next !== undefined) view()?.focus(next);
  },
});

/** From wherever the focus is on the sheet. */
const end = (id: 'first' | 'last', label: string, key: string): Command => ({
  id,
  label,
  group: 'Select',
  keys: [key],
  when: ({ lineUp }) => view()?.focused() != null && lineUp.elements.length > 0,
  run: ({ lineUp }) => {
    const part = lineUp.elements.at(id === 'first' ? 0 : -1);
    if (part) view()?.focus(part.id);
  },
});

export const SELECTING: readonly Command[] = [
  {
    id: 'choose',
    label: 'Choose the part under the focus',
    group: 'Select',
    keys: ['Enter', 'Space'],
    when: ({ selected }) => {
      const id = view()?.focused();
      return id != null && !selected.includes(id);
    },
    run: () => {
      const id = view()?.focused();
      if (id) select([id]);
    },
  },
  {
    id: 'chooseToo',
    label: 'Choose it too',
    group: 'Select',
    keys: ['Shift+Enter', 'Shift+Space'],
    when: () => view()?.focused() != null,
    run: ({ selected }) => {
      const id = view()?.focused();
      if (id) select(selected.includes(id) ? selected.filter((each) => each !== id) : [...selected, id]);
    },
  },
  {
    id: 'several',
    label: 'Choose several, click by click',
    group: 'Select',
    keys: ['B'],
    run: () => arrange({ several: !desk().several }),
  },
  travels('to what feeds it', 'ArrowUp'),
  travels('to what it feeds', 'ArrowDown'),
  travels('to its left', 'ArrowLeft'),
  travels('to its right', 'ArrowRight'),
  end('first', 'Go to the first part', 'Home'),
  end('last', 'Go to the last part', 'End'),
  {
    id: 'all',
    label: 'Choose everything',
    group: 'Select',
    keys: ['Ctrl+A'],
    when: ({ lineUp }) => lineUp.elements.length > 0,
    run: ({ lineUp }) => select(partsOf(lineUp).map((part) => part.id)),
  },
  {
    id: 'sameKind',
    label: 'Choose all of its kind',
    group: 'Select',
    keys: ['K'],
    inMenu: true,
    when: some,
    run: ({ lineUp, selected }) => select(sameKind(lineUp, selected)),
  },
  {
    id: 'connected',
    label: 'Choose all that is connected',
    group: 'Select',
    keys: ['W'],
    inMenu: true,
    when: some,
    run: ({ lineUp, selected }) => select(connected(lineUp, selected)),
  },
  { id: 'back', label: 'Step back: let go, close, choose nothing', group: 'Select', keys: ['Escape'], run: stepBack },
  { id: 'find', label: 'Find a part…', group: 'Select', keys: ['Ctrl+F'], typing: 'always', run: () => ask('part') },
  { id: 'nextFinding', label: 'Next finding', group: 'Select', keys: ['.'], run: (scene) => nextFinding(scene, 1) },
  { id: 'lastFinding', label: 'Finding before', group: 'Select', keys: [','], run: (scene) => nextFinding(scene, -1) },
];
