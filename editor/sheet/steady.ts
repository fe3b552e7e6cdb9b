import type { Item, OneLine, OneLinePart } from '../../engine/index.ts';

/** A drawing made anew keeps the pieces of the one before that came out alike: what looks the same is not painted again. */

const keep = (before: readonly Item[] | undefined, now: readonly Item[]): readonly Item[] =>
  before !== undefined && alike(before, now) ? before : now;

/** Plain data alike in every value. */
function alike(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  const keys = Object.keys(a);
  return (
    keys.length === Object.keys(b).length &&
    keys.every((key) => alike((a as Record<string, unknown>)[key], (b as Record<string, unknown>)[key]))
  );
}

export function steady(before: OneLine | null, now: OneLine): OneLine {
  if (!before) return now;
  const parts = new Map(before.parts.map((part) => [part.id, part]));
  return {
    ...now,
    boundaries: keep(before.boundaries, now.boundaries),
    parts: now.parts.map((part): OneLinePart => {
      const old = parts.get(part.id);
      return { ...part, items: keep(old?.items, part.items), said: keep(old?.said, part.said) };
    }),
  };
}
