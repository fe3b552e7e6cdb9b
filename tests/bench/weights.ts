import { gzipSync } from 'node:zlib';
import { builtFiles, chunksOf, kept, reached } from '../editor/builtFiles.ts';
import type { Row } from './row.ts';

/** What a browser fetches, compressed, of a real build. */

export async function rows(): Promise<readonly Row[]> {
  const files = await builtFiles();
  const chunks = chunksOf(files);
  const entry = chunks.find((each) => each.isEntry)?.fileName ?? '';
  const page = chunks.find((each) => each.name === 'page')?.fileName ?? '';
  const first = chunks.find((each) => each.name === 'Start')?.fileName ?? '';
  const sheet = chunks.find((each) => each.name === 'Workspace')?.fileName ?? '';
  const kB = (content: string | Uint8Array): number => gzipSync(content).length / 1000;
  const sum = (list: readonly number[]): number => list.reduce((all, each) => all + each, 0);
  const weigh = (names: ReadonlySet<string>): number =>
    sum([...names].map((name) => kB(chunks.find((each) => each.fileName === name)?.code ?? '')));
  const [start, both] = [reached(chunks, [entry, page, first]), reached(chunks, [entry, page, sheet])];
  const called = (name: string): readonly string[] => chunks.filter((each) => each.name === name).map((each) => each.fileName);
  const writer = reached(chunks, [...called('packageWorker'), ...called('pdf')]);
  const styles = sum(files.flatMap((each) => (each.type === 'asset' && each.fileName.endsWith('.css') ? [kB(each.source)] : [])));
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
    row('PDF writer, when it is asked for', weigh(new Set(called('pdf'))), 170),
    {
      what: 'thread that writes the package: what the page has not fetched yet',
      figure: `${weigh(new Set([...writer].filter((name) => !both.has(name)))).toFixed(1)} kB`,
    },
    row('all that is kept for work without a net, fonts and icons too', sum(kept(files).map(kB)), 800),
  ];
}
