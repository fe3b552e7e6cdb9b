import { fileOpen, fileSave } from 'browser-fs-access';
import type { LineUp } from '../../engine/index.ts';
import { asText, openText, refuse, setSaved, useEditor } from '../store/editorStore.ts';
import { keep } from './autosave.ts';

/** Opening and saving files. Giving up in the system's dialog is no fault. */

const gaveUp = (fault: unknown): boolean => fault instanceof DOMException && fault.name === 'AbortError';

/** The document as its file has it, as long as it is the one that is open. */
let filed: { readonly lineUp: LineUp | null; readonly opened: number } | null = null;
const isFiled = (): void => {
  const { lineUp, opened } = useEditor.getState();
  filed = { lineUp, opened };
};

export async function openDropped(file: File): Promise<void> {
  const { opened } = useEditor.getState();
  openText(await file.text(), file.name);
  if (useEditor.getState().opened !== opened) isFiled();
}

/** Asks before the page is left, but only of what has a file that is older than the work. */
export function guardLeaving(): () => void {
  const ask = (event: BeforeUnloadEvent) => {
    const { lineUp, opened } = useEditor.getState();
    if (filed && filed.opened === opened && filed.lineUp !== lineUp) event.preventDefault();
  };
  window.addEventListener('beforeunload', ask);
  return () => window.removeEventListener('beforeunload', ask);
}

export async function openFile(): Promise<void> {
  try {
    const file = await fileOpen({ extensions: ['.json'], description: 'Line-up' });
    await openDropped(file);
  } catch (fault) {
    if (!gaveUp(fault)) refuse(`The file could not be read: ${fault instanceof Error ? fault.message : String(fault)}`);
  }
}

export async function saveFile(): Promise<void> {
  const text = asText();
  if (text === null) return;
  const title = useEditor.getState().lineUp?.project.title ?? 'line-up';
  try {
    await fileSave(new Blob([text], { type: 'application/json' }), {
      fileName: `${title.replaceAll(/[^\p{L}\p{N}]+/gu, '-').toLowerCase() || 'line-up'}.json`,
      extensions: ['.json'],
    });
    setSaved('saved to file');
    isFiled();
    const { lineUp } = useEditor.getState();
    // A version that left the house can be taken up again.
    if (lineUp) await keep(lineUp).catch(() => undefined);
  } catch (fault) {
    if (!gaveUp(fault)) setSaved('not saved');
  }
}
