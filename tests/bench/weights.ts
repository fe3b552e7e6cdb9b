import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { builtFiles, chunksOf, reached } from '../editor/builtFiles.ts';
import type { Row } from './row.ts';

/** What a browser fetches, compressed, of a real build. */

export async function rows(): Promise<readonly Row[]> {
  const files = await builtFiles();
  const chunks = chunksOf(files);
  const entry = chunks.find((each) => each.isEntry)?.fileName ?? '';
  const page = chunks.find((each) => each.name === 'page')?.fileName ?? '';
  const sheet = chunks.find((each) => each.name === 'Workspace')?.fileName ?? '';
  const kB = (content: string | Uint8Array): number => gzipSync(content).length / 1000;
  const sum = (list: readonly number[]): number => list.reduce((all, each) => all + each, 0);
  const weigh = (names: ReadonlySet<string>): number =>
    sum([...names].map((name) => kB(chunks.find((each) => each.fileName === name)?.code ?? '')));
  const [start, both] = [reached(chunks, [entry, page]), reached(chunks, [entry, page, sheet])];
  // Workers are built apart: their scripts are files like any other to the build of the page.
  const named = (...names: readonly string[]): number =>
    sum(
      files.flatMap((each) =>
        each.type === 'asset' && names.some((name) => each.fileName.startsWith(`assets/${name}-`)) ? [kB(each.source)] : [],
      ),
    );
  const styles = sum(files.flatMap((each) => (each.type === 'asset' && each.fileName.endsWith('.css') ? [kB(each.source)] : [])));
  const fonts = join(import.meta.dirname, '../../public/fonts');
  const all = sum([
    ...files.map((each) => kB(each.type === 'chunk' ? each.code : each.source)),
    ...readdirSync(fonts).map((name) => kB(readFileSync(join(fonts, name)))),
  ]);
  const row = (what: string, size: number, most: number): Row => ({
    what,
    figure: `${size.toFixed(1)} kB`,
    budget: `at most ${most} kB`,
    met: size <= most,
  });
  return [
    row('script before the first page', weigh(start), 220),
    row('script with the sheet', weigh(both), 300),
    row('style sheets', styles, 25),
    row('PDF writer, when it is asked for', named('pdf'), 170),
    {
      what: 'thread that writes the package, PDF writer and engine with it',
      figure: `${named('packageWorker', 'createReviewer', 'pdf').toFixed(1)} kB`,
    },
    row('everything that may ever be fetched, fonts too', all, 800),
  ];
}
