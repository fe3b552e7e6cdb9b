import { readdirSync, statSync } from 'node:fs';
import { basename, join, resolve, sep } from 'node:path';

export interface Named {
  readonly file: string;
  /** What its result is called: the way to it inside the folder that was named, without the ending. */
  readonly name: string;
}

const isFolder = (path: string): boolean => statSync(path, { throwIfNoEntry: false })?.isDirectory() ?? false;
const withoutEnding = (path: string): string => path.replace(/\.json$/i, '');

/** The line-ups that are meant: a folder stands for every .json in it and below it, by name; but not for results that are kept there. */
export function lineUpsIn(paths: readonly string[], kept: string | null): readonly Named[] {
  return paths.flatMap((path) => {
    if (!isFolder(path)) return [{ file: path, name: withoutEnding(basename(path)) }];
    return readdirSync(path, { recursive: true, encoding: 'utf8' })
      .filter((name) => /\.json$/i.test(name) && !(kept !== null && resolve(path, name).startsWith(resolve(kept) + sep)))
      .sort()
      .map((name) => ({ file: join(path, name), name: withoutEnding(name) }));
  });
}
