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

/** What is wrong at the first place: of several limits the nearest, which is the one that is meant. */
export function worstIssue(issues: readonly z.core.$ZodIssue[]): z.core.$ZodIssue | undefined {
  const [first] = issues;
  if (first?.code !== 'too_big' && first?.code !== 'too_small') return first;
  const limit = (issue: z.core.$ZodIssue): number =>
    issue.code === 'too_big' ? Number(issue.maximum) : issue.code === 'too_small' ? -Number(issue.minimum) : Number.POSITIVE_INFINITY;
  return issues
    .filter(({ code, path }) => code === first.code && path.join('.') === first.path.join('.'))
    .reduce((nearest, each) => (limit(each) < limit(nearest) ? each : nearest), first);
}

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
