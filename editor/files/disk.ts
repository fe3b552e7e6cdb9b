import { sha256 } from '../../engine/index.ts';

/** A file on disk that the browser lets be written, and what it held when it was last read or written here. */
export interface OnDisk {
  readonly handle: FileSystemFileHandle;
  readonly lastModified: number;
  readonly size: number;
  readonly sha256: string;
}

export async function look(handle: FileSystemFileHandle): Promise<OnDisk> {
  const file = await handle.getFile();
  return { handle, lastModified: file.lastModified, size: file.size, sha256: sha256(await file.text()) };
}

/** How the file stands now if anybody else wrote it since; null where nobody did. A file that was only touched holds the same. */
export async function changedSince(known: OnDisk): Promise<OnDisk | null> {
  const now = await look(known.handle);
  return now.size === known.size && now.sha256 === known.sha256 ? null : now;
}

/** Writes the whole text or nothing, and reads it back: what a browser calls written may have ended on a full disk. */
export async function writeWhole(handle: FileSystemFileHandle, text: string): Promise<OnDisk> {
  // The browser writes beside the file, and puts that in its place when it is closed.
  const writable = await handle.createWritable();
  try {
    await writable.write(text);
    await writable.close();
  } catch (fault) {
    await writable.abort().catch(() => undefined);
    throw fault;
  }
  const written = await look(handle);
  if (written.sha256 !== sha256(text)) throw new Error('what stands in it now is not what was written');
  return written;
}
