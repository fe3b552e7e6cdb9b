import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { type LineUp, load } from '../../engine/index.ts';

/** The golden line-up, which holds every field there is, with other texts in it. */

const here = (path: string): string => readFileSync(join(import.meta.dirname, path), 'utf8');

/** 'elements[]motor.tag': lists, records and kinds of parts are said, places in them are not. */
export type TextPath = string;

interface Shape {
  readonly type?: string;
  readonly enum?: unknown;
  readonly const?: unknown;
  readonly pattern?: string;
  readonly maxLength?: number;
  readonly anyOf?: readonly Shape[];
  readonly oneOf?: readonly Shape[];
  readonly properties?: Readonly<Record<string, Shape>>;
  readonly items?: Shape;
  readonly additionalProperties?: Shape | boolean;
}

/** Every place of the format where any text may stand, with the most letters it may have. */
export function textFields(): ReadonlyMap<TextPath, number> {
  const found = new Map<TextPath, number>();
  const visit = (shape: Shape, path: TextPath): void => {
    if (shape.type === 'string' && !shape.enum && shape.const === undefined && !shape.pattern) found.set(path, shape.maxLength ?? Infinity);
    for (const each of [...(shape.anyOf ?? []), ...(shape.oneOf ?? [])]) visit(each, path + (each.properties?.['kind']?.const ?? ''));
    for (const [name, each] of Object.entries(shape.properties ?? {})) visit(each, path === '' ? name : `${path}.${name}`);
    if (shape.items) visit(shape.items, `${path}[]`);
    if (typeof shape.additionalProperties === 'object') visit(shape.additionalProperties, `${path}{}`);
  };
  visit(JSON.parse(here('../../public/schema/line-up.schema.json')), '');
  // What is held aside or issued has the fields of the line-up itself.
  return new Map([...found].filter(([path]) => !/^(variants|issues)\[\]\.design\b/.test(path)));
}

const GOLDEN = JSON.parse(here('../engine/lineup/golden/version-1.json'));

/** That line-up with a text in each of these places; read as a file is, since the texts may have come in one. */
export function withTexts(texts: ReadonlyMap<TextPath, string>): LineUp {
  const reached = new Set<TextPath>();
  const visit = (value: unknown, path: TextPath): unknown => {
    const text = texts.get(path);
    if (typeof value === 'string' && text !== undefined) {
      reached.add(path);
      return text;
    }
    if (typeof value !== 'object' || value === null || /^(variants|issues)\[\]\.design$/.test(path)) return value;
    if (Array.isArray(value)) return value.map((each) => visit(each, `${path}[]${path === 'elements' ? each.kind : ''}`));
    return Object.fromEntries(
      Object.entries(value).map(([name, each]) => {
        const own = path === '' ? name : `${path}.${name}`;
        const isRecord = /(^project\.checks|\.provenance)$/.test(path);
        return [name, visit(each, isRecord ? `${path}{}` : own)];
      }),
    );
  };
  const loaded = load(JSON.stringify(visit(GOLDEN, '')));
  if (!loaded.ok) throw new Error(`${loaded.where}: ${loaded.what}`);
  const missed = [...texts.keys()].filter((path) => !reached.has(path));
  if (missed.length > 0) throw new Error(`the golden line-up holds no ${missed.join(', no ')}`);
  return loaded.lineUp;
}
