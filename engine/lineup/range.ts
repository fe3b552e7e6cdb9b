import { cable } from './cable.ts';
import { type ElementKind, element } from './elements.ts';
import { z } from './zod.ts';

/** Between which numbers a value may lie, read from the schema itself. Limits that only keep nonsense out are not worth saying. */

export interface Range {
  readonly least?: { readonly value: number; readonly itself: boolean };
  readonly most?: { readonly value: number; readonly itself: boolean };
}

const NONSENSE = 1e9;
/** Whether anybody would write this limit of a number. */
export const isMeant = (limit: number | bigint): boolean => Math.abs(Number(limit)) < NONSENSE;

export function rangeOf(kind: ElementKind | 'cable', path: string): Range {
  const root = kind === 'cable' ? cable : element.def.options.find((option) => option.shape.kind.def.values[0] === kind);
  let here: unknown = root;
  for (const key of path.split('.')) {
    const inner = bare(here);
    here = inner instanceof z.ZodMiniObject ? inner.shape[key] : undefined;
  }
  const leaf = bare(here);
  if (!(leaf instanceof z.ZodMiniNumber)) return {};
  let range: Range = {};
  for (const check of leaf.def.checks ?? []) {
    const { check: name, value, inclusive } = check._zod.def as { check: string; value?: unknown; inclusive?: boolean };
    if (typeof value !== 'number' || !isMeant(value)) continue;
    if (name === 'greater_than') range = { ...range, least: { value, itself: inclusive === true } };
    if (name === 'less_than') range = { ...range, most: { value, itself: inclusive === true } };
  }
  return range;
}

const bare = (schema: unknown): unknown => (schema instanceof z.ZodMiniOptional ? bare(schema.def.innerType) : schema);
