import { fileOpen, fileSave } from 'browser-fs-access';
import { save } from '../../engine/index.ts';
import { arrange } from '../store/deskStore.ts';
import { openText, refuse, setSaved, useEditor } from '../store/editorStore.ts';
import { changedSince, look, type OnDisk, writeWhole } from './disk.ts';
import { fileOf, setFiled } from './filed.ts';

/** Opening and saving files. Giving up in the system's dialog is no fault. */

const gaveUp = (fault: unknown): boolean => fault instanceof DOMException && fault.name === 'AbortError';
const reasonOf = (fault: unknown): string => (fault instanceof Error ? fault.message : String(fault));

/** More than a line-up may hold is not even read. */
const MOST_BYTES = 10 * 1024 * 1024;
const FORM = { extensions: ['.json'], description: 'Line-up' };

async function openRead(file: File, handle?: FileSystemFileHandle): Promise<void> {
  const before = useEditor.getState().opened;
  if (file.size > MOST_BYTES)
    return refuse(
      `${file.name} holds ${(file.size / 1048576).toFixed(1)} MB, more than the 10 MB a line-up may hold. Choose another file.`,
    );
  const onDisk = handle ? await look(handle) : null;
  openText(await file.text(), file.name);
  const { lineUp, opened } = useEditor.getState();
  if (opened !== before) setFiled({ lineUp, opened, onDisk });
}

const notRead = (name: string, fault: unknown): void =>
  refuse(`${name} could not be read: ${reasonOf(fault)}. What is open stays as it is.`);

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
    const file = await fileOpen(FORM);
    await openRead(file, file.handle);
  } catch (fault) {
    if (!gaveUp(fault)) notRead('The file', fault);
  }
}

type Pick = (options: object) => Promise<FileSystemFileHandle>;
/** Asks the system for a name; undefined where the browser cannot write files but only hand them over. */
const picker = (): Pick | undefined => (window as { readonly showSaveFilePicker?: Pick }).showSaveFilePicker?.bind(window);

const nameFor = (title: string): string => `${title.replaceAll(/[^\p{L}\p{N}]+/gu, '-').toLowerCase() || 'line-up'}.json`;

async function put(text: string, fileName: string, known: OnDisk | null): Promise<OnDisk | null> {
  const pick = picker();
  if (known) return writeWhole(known.handle, text);
  if (pick)
    return writeWhole(
      await pick({ suggestedName: fileName, types: [{ description: FORM.description, accept: { 'application/json': FORM.extensions } }] }),
      text,
    );
  await fileSave(new Blob([text], { type: 'application/json' }), { ...FORM, fileName });
  return null;
}

const notWritten = (name: string, fault: unknown): void =>
  refuse(
    fault instanceof DOMException && fault.name === 'NotAllowedError'
      ? `The browser may not write ${name}. Save again and allow it, or save under another name. The file stays as it was.`
      : `${name} could not be written: ${reasonOf(fault)}. Save again, or under another name; this browser keeps your work meanwhile.`,
  );

/** To the file that it came from, or else to one that is asked for. One that somebody else wrote meanwhile is not written over unasked. */
export async function saveFile(how: 'careful' | 'overwrite' | 'anew' = 'careful'): Promise<void> {
  // While the system asks for a name, work may go on: what is filed is what was written, and no more.
  const { lineUp, opened } = useEditor.getState();
  if (!lineUp) return;
  const known = how === 'anew' ? null : fileOf(opened);
  const fileName = known?.handle.name ?? nameFor(lineUp.project.title);
  try {
    const theirs = known && how === 'careful' ? await changedSince(known) : null;
    if (theirs) return arrange({ changedFile: { name: fileName, at: theirs.lastModified } });
    const onDisk = await put(save(lineUp), fileName, known);
    setFiled({ lineUp, opened, onDisk });
    if (useEditor.getState().lineUp === lineUp) setSaved('saved to file');
    if (!onDisk) refuse('This browser cannot write over a file: a new one was made.');
  } catch (fault) {
    if (!gaveUp(fault)) notWritten(fileName, fault);
  }
}

/** Opens the file as somebody else wrote it. What was open can be taken up again. */
export async function openTheirs(): Promise<void> {
  const known = fileOf(useEditor.getState().opened);
  if (!known) return;
  try {
    await openRead(await known.handle.getFile(), known.handle);
  } catch (fault) {
    notRead(known.handle.name, fault);
  }
}

/** A state as it was found, even one that cannot be read any more: someone may still mend it. */
export async function saveText(text: string, fileName: string): Promise<void> {
  try {
    await put(text, fileName, null);
  } catch (fault) {
    if (!gaveUp(fault)) notWritten(fileName, fault);
  }
}
