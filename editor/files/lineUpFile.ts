import { fileOpen, fileSave } from 'browser-fs-access';
import { asText, openText, refuse, setSaved, useEditor } from '../store/editorStore.ts';

/** Opening and saving files. Giving up in the system's dialog is no fault. */

const gaveUp = (fault: unknown): boolean => fault instanceof DOMException && fault.name === 'AbortError';

export async function openFile(): Promise<void> {
  try {
    const file = await fileOpen({ extensions: ['.json'], description: 'Line-up' });
    openText(await file.text(), file.name);
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
  } catch (fault) {
    if (!gaveUp(fault)) setSaved('not saved');
  }
}
