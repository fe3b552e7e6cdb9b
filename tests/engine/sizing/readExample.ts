import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { type LineUp, load } from '../../../engine/index.ts';

/** A worked line-up by the name of its file. */
export function readExample(name: string): LineUp {
  const loaded = load(readFileSync(join(import.meta.dirname, '../../../examples', `${name}.json`), 'utf8'), name);
  if (!loaded.ok) throw new Error(loaded.what);
  return loaded.lineUp;
}
