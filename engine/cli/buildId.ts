import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

/** Names the state of the source: the same for the site and the command line, on every machine. */
const ROOT = join(import.meta.dirname, '../..');

export function buildId(): string {
  const hash = createHash('sha256');
  const files = ['engine', 'editor'].flatMap((folder) =>
    readdirSync(join(ROOT, folder), { recursive: true, encoding: 'utf8' }).flatMap((path) =>
      /\.(tsx?|mjs|css)$/.test(path) ? [`${folder}/${path.replaceAll('\\', '/')}`] : [],
    ),
  );
  for (const path of [...files.sort(), 'package-lock.json'])
    hash.update(`${path}\n${readFileSync(join(ROOT, path), 'utf8').replaceAll('\r\n', '\n')}\n`);
  return hash.digest('hex').slice(0, 8);
}
