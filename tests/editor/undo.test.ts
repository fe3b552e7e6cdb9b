import { beforeAll, describe, expect, it, vi } from 'vitest';
import { chosenParts, type Scene } from '../../editor/commands/command.ts';
import { COMMANDS, canRun, commandOf, perform, scene } from '../../editor/commands/commands.ts';
import { optionsFor } from '../../editor/commands/options.ts';
import { partsOf } from '../../editor/commands/related.ts';
import { openView } from '../../editor/sheet/view.ts';
import { commit } from '../../editor/store/commit.ts';
import { excerpt, putIn } from '../../editor/store/copies.ts';
import { type Ask, arrange } from '../../editor/store/deskStore.ts';
import { edit, openLineUp, redo, select, showStart, undo, useEditor } from '../../editor/store/editorStore.ts';
import { move, setValue } from '../../editor/store/edits.ts';
import {
  addComment,
  addNote,
  changeNote,
  deleteIssue,
  deleteNote,
  deleteVariant,
  FIELDS,
  type Field,
  freeze,
  issuesOf,
  type LineUp,
  load,
  moveNote,
  notesOf,
  remove,
  renameVariant,
  save,
  variantsOf,
} from '../../engine/index.ts';
import { threeRuns } from '../engine/drawing/threeRuns.ts';
import { randomOf } from './random.ts';

/**
 * Whatever is done, in whatever order: as many steps back give the first bytes, as many forward the last. What is done is drawn from
 * the list of commands itself, so that a new command must say here how it is tried.
 */

const SEQUENCES = 100;
const STEPS = 100;

// Undo is about documents; nobody judges them here.
vi.mock('../../editor/store/judge.ts', async () => {
  const engine = await import('../../engine/index.ts');
  const none = engine.review(engine.newLineUp('us'));
  return { createJudge: () => () => none };
});

beforeAll(() => {
  const kept = new Map<string, string>();
  vi.stubGlobal('localStorage', {
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, value: string) => kept.set(key, value),
  });
  vi.stubGlobal('document', { querySelector: () => null });
});

type Random = () => number;
const pick = <T>(random: Random, list: readonly T[]): T | undefined => list[Math.floor(random() * list.length)];
type Generator = (now: Scene, random: Random) => void;

/** What is asked of the system, of another tab or of a printer, and touches no document. */
const outside: Generator = () => undefined;
const performed =
  (id: string): Generator =>
  (now) =>
    perform(commandOf(id), now);
/** One of the choices that the list over the sheet offers. */
const listed =
  (asking: Ask): Generator =>
  (now, random) => {
    const typed = asking === 'more' ? `${1 + Math.floor(random() * 3)}` : '';
    pick(
      random,
      optionsFor(asking, now, typed, null).filter(({ why }) => why === undefined),
    )?.run();
  };

function anyValue(field: Field, random: Random): unknown {
  if (random() < 0.2) return undefined;
  if (field.kind === 'choice') return pick(random, field.choices ?? []);
  if (field.kind === 'yesno') return random() < 0.5;
  if (field.kind === 'count') return 1 + Math.floor(random() * 4);
  return field.kind === 'text' ? `said ${Math.floor(random() * 100)}` : Math.round(random() * 1e5) / 100;
}

let clip: LineUp | null = null;
let earlier: LineUp[] = [];

/** Commands that only open something, by what is done there. */
const WITHIN: Readonly<Record<string, Generator>> = {
  moveTo: ({ lineUp, selected }, random) => {
    const [id = ''] = selected;
    edit('Move', () => move(lineUp, new Map([[id, { x_mm: Math.round(random() * 100) * 2.5, y_mm: Math.round(random() * 100) * 2.5 }]])));
  },
  rename: ({ selected: [id = ''] }, random) => edit('Rename', (before) => setValue(before, id, 'tag', `T-${Math.floor(random() * 1e6)}`)),
  edit: (now, random) => {
    const [part] = chosenParts(now);
    const kind = part && ('from' in part ? 'cable' : part.kind);
    const field = kind && pick(random, FIELDS[kind]);
    if (part && field) commit(field, (before) => setValue(before, part.id, field.path, anyValue(field, random), 'as typed'));
  },
  copy: ({ lineUp, selected }) => {
    clip = excerpt(lineUp, selected);
  },
  cut: ({ lineUp, selected }) => {
    clip = excerpt(lineUp, selected);
    edit('Cut', (before) => remove(before, selected), { select: [] });
  },
  paste: ({ lineUp }) => {
    const put = clip && putIn(lineUp, clip, [{ x_mm: 10, y_mm: 10 }]);
    if (put) edit('Paste', () => put.lineUp, { select: put.ids });
  },
  notes: ({ lineUp, selected }, random) => {
    const note = pick(random, notesOf(lineUp));
    const die = random();
    if (!note || die < 0.4) edit('Add note', (before) => addNote(before, 'Mind the gap', selected));
    else if (die < 0.6) edit('Change note', (before) => changeNote(before, note.id, { says: `${random()}` }));
    else if (die < 0.8) edit('Move note', (before) => moveNote(before, note.id, random() < 0.5 ? 1 : -1));
    else edit('Delete note', (before) => deleteNote(before, note.id));
  },
  revisions: ({ lineUp, selected }, random) => {
    const issue = pick(random, issuesOf(lineUp));
    if (random() < 0.5) edit('Add comment', (before) => addComment(before, { says: 'Why?', parts: [...selected] }));
    else if (issue) edit('Delete issue', (before) => deleteIssue(before, issue.id));
    else edit('Issue', (before) => freeze(before, { date: '2024-05-01' }));
  },
  compare: ({ lineUp }, random) => {
    const variant = pick(random, variantsOf(lineUp));
    if (!variant) return;
    if (random() < 0.5) edit('Rename', (before) => renameVariant(before, variant.id, `V ${random()}`));
    else edit('Delete', (before) => deleteVariant(before, variant.id));
  },
  states: (_now, random) => {
    const before = pick(random, earlier);
    if (before) edit('Put back', () => before, { select: [] });
  },
  /** Offered only right after a part in a line was deleted. */
  rejoin: (now) => {
    perform(commandOf('delete'), now);
    const cut = scene();
    if (cut && canRun(commandOf('rejoin'), cut)) perform(commandOf('rejoin'), cut);
  },
  startPage: () => {
    showStart(true);
    showStart(false);
  },
};

const LISTED: readonly Ask[] = ['add', 'insert', 'connect', 'start', 'end', 'more'];
const OUTSIDE = ['save', 'saveAnew', 'open', 'takeOver', 'link', 'issue', 'print', 'svg', 'png', 'screen'];
const PERFORMED = [
  ...['takeOut', 'tidy', 'renumber', 'duplicate', 'delete', 'copyValues', 'pasteValues', 'undo', 'redo'],
  ...['up', 'down', 'left', 'right'].flatMap((way) => [`Nudge ${way}`, `Nudge ${way}, further`]),
  ...['left', 'axis', 'right', 'top', 'middle', 'bottom'].map((side) => `align-${side}`),
  ...['space-x_mm', 'space-y_mm', 'grounds', 'labelArrowLeft', 'labelArrowRight', 'labelArrowUp', 'labelArrowDown', 'labelBack'],
  ...['setAside', 'swap'],
];
/** Must leave the document as it is. */
const LOOKING = [
  ...['choose', 'chooseToo', 'several', 'ArrowUp', 'ArrowDown', 'ArrowLeft', 'ArrowRight', 'first', 'last', 'all', 'sameKind', 'connected'],
  ...['back', 'find', 'nextFinding', 'lastFinding', 'fit', 'fitChosen', 'full', 'nearer', 'farther', 'grid', 'map', 'panels', 'table'],
  ...['strip', 'theme', 'palette', 'keys', 'export', 'least'],
];

const GENERATORS: Readonly<Record<string, Generator>> = {
  ...Object.fromEntries([...PERFORMED, ...LOOKING].map((id) => [id, performed(id)])),
  ...Object.fromEntries(LISTED.map((asking) => [asking, listed(asking)])),
  ...Object.fromEntries(OUTSIDE.map((id) => [id, outside])),
  ...WITHIN,
};

/** Chooses parts until the command can be done, a few times. */
function sceneFor(id: string, random: Random): Scene | null {
  const command = commandOf(id === 'rejoin' ? 'takeOut' : id);
  for (let i = 0; i < 6; i++) {
    const now = scene();
    if (!now) return null;
    // What was chosen or cut last often still is: some commands go by that.
    if (i > 0 || random() < 0.5) {
      const parts = partsOf(now.lineUp);
      const count = pick(random, [0, 1, 1, 2, 4]) ?? 0;
      select([...new Set(Array.from({ length: count }, () => pick(random, parts)?.id ?? ''))].filter(Boolean));
    }
    const chosen = scene();
    if (chosen && canRun(command, chosen)) return chosen;
  }
  return null;
}

const state = () => useEditor.getState();
const changed = new Set<string>();

function play(seed: number): void {
  const random = randomOf(seed);
  clip = null;
  earlier = [];
  openLineUp(threeRuns());
  openView({
    ...{ fit: () => undefined, fitParts: () => undefined, full: () => undefined, zoom: () => undefined, bring: () => undefined },
    focus: () => undefined,
    pointer: () => null,
    focused: () => (random() < 0.5 ? null : (pick(random, partsOf(state().lineUp ?? threeRuns()))?.id ?? null)),
  });
  const first = state().lineUp;
  /** What each document held when it was made. */
  const bytes = new Map<LineUp, string>();
  const note = (): void => {
    const { lineUp } = state();
    if (lineUp && !bytes.has(lineUp)) bytes.set(lineUp, save(lineUp));
  };
  note();
  const stop = useEditor.subscribe(note);
  const ids = Object.keys(GENERATORS);
  for (let step = 0; step < STEPS; step++) {
    const id = pick(random, ids) ?? '';
    const now = sceneFor(id, random);
    if (!now) continue;
    const before = state();
    GENERATORS[id]?.(now, random);
    const after = state();
    if (after.lineUp !== before.lineUp) changed.add(id);
    if (LOOKING.includes(id) || OUTSIDE.includes(id)) expect([id, after.lineUp === before.lineUp]).toEqual([id, true]);
    // One command is one step at most.
    const steps = after.past.length - before.past.length;
    if (id !== 'undo' && id !== 'redo') expect(steps, id).toBeLessThanOrEqual(id === 'rejoin' ? 2 : 1);
    arrange({ moving: false, renaming: null, menu: null, table: false });
    if (after.lineUp && random() < 0.1) earlier.push(after.lineUp);
  }
  stop();
  const last = state().lineUp;
  const steps = state().past.length;
  const lastBytes = save(last ?? threeRuns());
  const loaded = load(lastBytes, 'what was drawn');
  expect(loaded.ok ? 'opens again' : `${loaded.where}: ${loaded.what}`).toBe('opens again');
  const same = (): void => {
    const { lineUp } = state();
    if (lineUp) expect(save(lineUp)).toBe(bytes.get(lineUp));
  };
  for (let i = 0; i < steps; i++) {
    undo();
    same();
  }
  expect(state().lineUp).toBe(first);
  expect(save(state().lineUp ?? threeRuns())).toBe(save(threeRuns()));
  for (let i = 0; i < steps; i++) {
    redo();
    same();
  }
  expect(save(state().lineUp ?? threeRuns())).toBe(lastBytes);
}

describe('undo', () => {
  it('is tried with every command there is, and each says how', () => {
    expect(Object.keys(GENERATORS).sort()).toEqual(COMMANDS.map(({ id }) => id).sort());
  });

  it(`gives back the first bytes and the last, over ${SEQUENCES * STEPS} random commands`, () => {
    const fresh = Math.floor(performance.timeOrigin % 1_000_000);
    for (let i = 0; i < SEQUENCES; i++) {
      const seed = i < SEQUENCES - 5 ? i : fresh + i;
      try {
        play(seed);
      } catch (fault) {
        throw new Error(`seed ${seed}: ${fault instanceof Error ? fault.message : String(fault)}`, { cause: fault });
      }
    }
    // A way to try a command that never changes anything tries nothing.
    const idle = [...PERFORMED, ...LISTED, ...Object.keys(WITHIN)].filter((id) => !changed.has(id));
    expect(idle.sort()).toEqual(['copy', 'copyValues', 'startPage']);
  });
});
