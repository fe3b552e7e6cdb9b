import type { Item, OneLine, OneLinePart } from '../../engine/index.ts';

/** A drawing made anew keeps the pieces of the one before that came out alike: what looks the same is not painted again. */

const keep = (before: readonly Item[] | undefined, now: readonly Item[]): readonly Item[] =>
  before?.length === now.length && JSON.stringify(before) === JSON.stringify(now) ? before : now;

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
