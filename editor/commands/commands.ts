import { refuse, useEditor } from '../store/editorStore.ts';
import { withPlaces } from '../store/edits.ts';
import { ARRANGING } from './arranging.ts';
import type { Command, Scene } from './command.ts';
import { DRAWING } from './drawing.ts';
import { EDITING } from './editing.ts';
import { FILING } from './filing.ts';
import { MARKING } from './marking.ts';
import { SELECTING } from './selecting.ts';
import { VARYING } from './varying.ts';
import { VIEWING } from './viewing.ts';

/** All that can be done. Where two commands share a key, the first that can be done takes it. */
export const COMMANDS: readonly Command[] = [
  ...DRAWING,
  ...SELECTING,
  ...EDITING,
  ...ARRANGING,
  ...MARKING,
  ...VARYING,
  ...VIEWING,
  ...FILING,
];

const BY_ID = new Map(COMMANDS.map((command) => [command.id, command]));
export function commandOf(id: string): Command {
  const command = BY_ID.get(id);
  if (!command) throw new Error(`There is no command "${id}".`);
  return command;
}

/** The open document, or null while there is none or the start page lies over it. */
export function scene(): Scene | null {
  const state = useEditor.getState();
  return state.lineUp && !state.atStart ? { ...state, lineUp: withPlaces(state.lineUp) } : null;
}

export function canRun(command: Command, now: Scene | null): boolean {
  return now === null ? command.anywhere === true : (command.when?.(now) ?? true);
}

/** What runs anywhere asks nothing of a document. What was said of the gesture before is over. */
export function perform(command: Command, now: Scene | null): void {
  if (useEditor.getState().reason !== null) refuse(null);
  command.run(now as Scene);
}

export function run(id: string): void {
  const command = commandOf(id);
  const now = scene();
  if (canRun(command, now)) perform(command, now);
}
