import type { LineUp } from '../../engine/index.ts';
import { type EditorState, edit } from '../store/editorStore.ts';
import { partsOf } from './related.ts';

/** One thing that can be done: what it is called, by which keys, when it can be done, and how. Keyboard, menus, palette and the sheet of keys all read it here. */

export const GROUPS = ['Draw', 'Edit', 'Select', 'Arrange', 'View', 'File', 'Help'] as const;
export type Group = (typeof GROUPS)[number];

/** The open document with what is chosen in it. */
export interface Scene extends EditorState {
  readonly lineUp: LineUp;
}

export interface Command {
  readonly id: string;
  readonly label: string;
  readonly group: Group;
  /** 'Ctrl+Shift+Z'. Ctrl stands for the command key of other keyboards too. */
  readonly keys: readonly string[];
  /** What the step back is called, when the document is changed. */
  readonly step?: string;
  /** Where the keys are taken: while nothing is typed in, also in a field where nothing is half typed, or everywhere. */
  readonly typing?: 'clean' | 'always';
  /** The browser takes the keys and tells of it by an event of its own. */
  readonly native?: true;
  /** Can be done without an open document. */
  readonly anywhere?: true;
  /** Belongs to the part under the hand, and stands in its menu. */
  readonly inMenu?: true;
  readonly when?: (scene: Scene) => boolean;
  readonly run: (scene: Scene) => void;
}

export interface Changed {
  readonly lineUp: LineUp;
  readonly select?: readonly string[];
}

/** A command that makes one new document, in one step. */
export const changing = (
  command: Omit<Command, 'run' | 'step'> & { readonly step: string },
  change: (scene: Scene) => Changed | null,
): Command => ({
  ...command,
  run: (scene) => {
    const changed = change(scene);
    if (changed) edit(command.step, () => changed.lineUp, changed.select ? { select: changed.select } : {});
  },
});

export const chosenElements = ({ lineUp, selected }: Scene) => lineUp.elements.filter((each) => selected.includes(each.id));
export const chosenCables = ({ lineUp, selected }: Scene) => lineUp.cables.filter((each) => selected.includes(each.id));
export const chosenParts = ({ lineUp, selected }: Scene) => partsOf(lineUp).filter((each) => selected.includes(each.id));
export const some = ({ selected }: Scene): boolean => selected.length > 0;
