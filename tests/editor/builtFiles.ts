import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { build, type Rolldown } from 'vite';

/** A build as a browser gets it, held in memory, to be weighed. */

type File = Rolldown.OutputChunk | Rolldown.OutputAsset;

export async function builtFiles(): Promise<readonly File[]> {
  // Under a test runner React would come in its larger development form.
  const before = process.env['NODE_ENV'];
  process.env['NODE_ENV'] = 'production';
  const result = (await build({ logLevel: 'silent', build: { write: false } })) as Rolldown.RolldownOutput | Rolldown.RolldownOutput[];
  if (before === undefined) delete process.env['NODE_ENV'];
  else process.env['NODE_ENV'] = before;
  return (Array.isArray(result) ? result : [result]).flatMap((each) => each.output);
}

export const chunksOf = (files: readonly File[]): readonly Rolldown.OutputChunk[] => files.filter((each) => each.type === 'chunk');

/** Names of the chunks that come with these: at once, or whatever may be fetched from there later as well. */
export const reached = (chunks: readonly Rolldown.OutputChunk[], from: readonly string[], late?: 'late too'): ReadonlySet<string> => {
  const seen = new Set<string>();
  const visit = (name: string): void => {
    if (seen.has(name)) return;
    seen.add(name);
    const chunk = chunks.find((each) => each.fileName === name);
    for (const next of [...(chunk?.imports ?? []), ...(late ? (chunk?.dynamicImports ?? []) : [])]) visit(next);
  };
  from.forEach(visit);
  return seen;
};

/** All that a browser keeps for work without a net: the service worker, and the files whose list it carries. */
export function kept(files: readonly File[]): readonly (string | Uint8Array)[] {
  const keeper = chunksOf(files).find((each) => each.fileName === 'serviceWorker.js')?.code ?? '';
  const names = Object.keys(JSON.parse(/FILES=(\{.*?\});/.exec(keeper)?.[1] ?? '{}'));
  return [
    keeper,
    ...names.map((name) => {
      const file = files.find((each) => each.fileName === name.replace(/^\.\/$/, 'index.html'));
      if (!file) return readFileSync(join(import.meta.dirname, '../../public', name));
      return file.type === 'chunk' ? file.code : file.source;
    }),
  ];
}
