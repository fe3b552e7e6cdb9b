import { closeSync, fsyncSync, openSync, readdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

/** Written beside its place and then moved there: a file half written is never found under the name asked for. */
export function put(path: string, bytes: Uint8Array | string): boolean {
  const beside = `${path}.${process.pid}.part`;
  try {
    // On the disk before it takes the name: a file that is there is whole.
    const handle = openSync(beside, 'w');
    try {
      writeFileSync(handle, bytes);
      fsyncSync(handle);
    } finally {
      closeSync(handle);
    }
    renameSync(beside, path);
    return true;
  } catch {
    rmSync(beside, { force: true });
    return false;
  }
}

/** Takes away what processes that were killed left half written; what one that still runs is writing stays. */
export function sweep(folder: string): void {
  for (const name of readdirSync(folder, { recursive: true, encoding: 'utf8' })) {
    const writer = /\.(\d+)\.part$/.exec(name)?.[1];
    if (writer !== undefined && !runs(Number(writer))) rmSync(join(folder, name), { force: true });
  }
}

function runs(id: number): boolean {
  try {
    process.kill(id, 0);
    return true;
  } catch (fault) {
    return (fault as NodeJS.ErrnoException).code === 'EPERM';
  }
}
