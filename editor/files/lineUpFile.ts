import { fileOpen, fileSave } from 'browser-fs-access';
import { save } from '../../engine/index.ts';
import { openText, refuse, setSaved, useEditor } from '../store/editorStore.ts';
import { setFiled } from './filed.ts';

/** Opening and saving files. Giving up in the system's dialog is no fault. */

const gaveUp = (fault: unknown): boolean => fault instanceof DOMException && fault.name === 'AbortError';

/** More than a line-up may hold is not even read. */
const MOST_BYTES = 10 * 1024 * 1024;

async function openRead(file: File): Promise<void> {
  const before = useEditor.getState().opened;
  if (file.size > MOST_BYTES)
    return refuse(
      `${file.name} holds ${(file.size / 1048576).toFixed(1)} MB, more than the 10 MB a line-up may hold. Choose another file.`,
    );
  openText(await file.text(), file.name);
  const { lineUp, opened } = useEditor.getState();
  if (opened !== before) setFiled({ lineUp, opened });
}

const notRead = (name: string, fault: unknown): void =>
  refuse(`${name} could not be read: ${fault instanceof Error ? fault.message : String(fault)}. What is open stays as it is.`);

export async function openDropped(file: File): Promise<void> {
  try {
    await openRead(file);
  } catch (fault) {
    // A folder, or a file that went away.
    notRead(file.name, fault);
  }
}

export async function openFile(): Promise<void> {
  try {
    await openRead(await fileOpen({ extensions: ['.json'], description: 'Line-up' }));
  } catch (fault) {
    if (!gaveUp(fault)) notRead('The file', fault);
  }
}

export async function saveFile(): Promise<void> {
  // While the system asks for a name, work may go on: what is filed is what was written, and no more.
  const { lineUp, opened } = useEditor.getState();
  if (!lineUp) return;
  try {
    await fileSave(new Blob([save(lineUp)], { type: 'application/json' }), {
      fileName: `${lineUp.project.title.replaceAll(/[^\p{L}\p{N}]+/gu, '-').toLowerCase() || 'line-up'}.json`,
      extensions: ['.json'],
    });
    setFiled({ lineUp, opened });
    if (useEditor.getState().lineUp === lineUp) setSaved('saved to file');
  } catch (fault) {
    if (!gaveUp(fault)) setSaved('not saved');
  }
}

/** A state as it was found, even one that cannot be read any more: someone may still mend it. */
export async function saveText(text: string, fileName: string): Promise<void> {
  try {
    await fileSave(new Blob([text], { type: 'application/json' }), { fileName, extensions: ['.json'] });
  } catch (fault) {
    if (!gaveUp(fault)) refuse(`The file could not be written: ${fault instanceof Error ? fault.message : String(fault)}.`);
  }
}
