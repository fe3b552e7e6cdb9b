import { describe, expect, it } from 'vitest';
import { TABLES } from '../../../engine/catalog/index.ts';
import type { Source } from '../../../engine/catalog/source.ts';

/** No table without its source: every module of the catalogue exports one, and every one is listed. */

const MODULES = import.meta.glob<Readonly<Record<string, unknown>>>('../../../engine/catalog/*.ts', { eager: true });
const NOT_TABLES = new Set(['index', 'source']);

const isSource = (value: unknown): value is Source =>
  typeof value === 'object' && value !== null && 'standard' in value && 'place' in value && 'status' in value;
/** Sources among the exports of a module, also inside records and rows of tables. */
const sourcesIn = (value: unknown, depth = 0): readonly Source[] =>
  isSource(value)
    ? [value]
    : typeof value === 'object' && value !== null && depth < 3
      ? Object.values(value).flatMap((inner) => sourcesIn(inner, depth + 1))
      : [];

const modules = Object.entries(MODULES)
  .map(([path, exports]) => [/([^/]+)\.ts$/.exec(path)?.[1] ?? path, exports] as const)
  .filter(([name]) => !NOT_TABLES.has(name));

describe.each(modules)('catalogue: %s', (name, exports) => {
  const found = sourcesIn(Object.fromEntries(Object.entries(exports).filter(([, value]) => typeof value !== 'function')));
  it('has a source, complete, with one of three states', () => {
    expect(found.length).toBeGreaterThan(0);
    for (const each of found) {
      expect(each.standard.length).toBeGreaterThan(2);
      expect(each.place.length).toBeGreaterThan(2);
      if (each.edition !== undefined) expect(each.edition).toMatch(/^(19|20)\d\d/);
      expect(['published', 'common practice', 'from memory']).toContain(each.status);
    }
  });
  it('is listed with each of its sources', () => {
    const listed = new Set(
      TABLES.filter((table) => table.module === name).map((table) => `${table.source.standard} ${table.source.place}`),
    );
    expect(found.map((each) => `${each.standard} ${each.place}`).filter((each) => !listed.has(each))).toEqual([]);
  });
  it('every array of rows stands in a module that cites', () => {
    const tables = Object.entries(exports).filter(([, value]) => Array.isArray(value));
    expect(tables.length === 0 || found.length > 0).toBe(true);
  });
});

it('every listed table is of a module that exists, and has a source', () => {
  expect(TABLES.filter(({ source }) => !isSource(source))).toEqual([]);
  const names = new Set(modules.map(([name]) => name));
  expect(TABLES.filter((table) => !names.has(table.module))).toEqual([]);
});
