import { zipSync } from 'fflate';

/** A zip archive without a day in it, so that the same files give the same bytes; its form cannot say none, so it says the earliest. */
export const zipped = (files: Readonly<Record<string, Uint8Array>>): Uint8Array => zipSync({ ...files }, { mtime: '1980-01-01T00:00:00' });
