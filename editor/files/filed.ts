import type { LineUp } from '../../engine/index.ts';
import { useEditor } from '../store/editorStore.ts';
import type { OnDisk } from './disk.ts';

/** The document as its file has it, as long as it is the one that is open. */
interface Filed {
  readonly lineUp: LineUp | null;
  readonly opened: number;
  /** Null where the browser only hands files over. */
  readonly onDisk: OnDisk | null;
}

let filed: Filed | null = null;
export const setFiled = (next: Filed): void => {
  filed = next;
};

/** The file of the document that was opened so. */
export const fileOf = (opened: number): OnDisk | null => (filed?.opened === opened ? filed.onDisk : null);

/** Asks before the page is left, but only of what has a file that is older than the work. */
export function guardLeaving(): () => void {
  const ask = (event: BeforeUnloadEvent) => {
    const { lineUp, opened } = useEditor.getState();
    if (filed && filed.opened === opened && filed.lineUp !== lineUp) event.preventDefault();
  };
  window.addEventListener('beforeunload', ask);
  return () => window.removeEventListener('beforeunload', ask);
}
