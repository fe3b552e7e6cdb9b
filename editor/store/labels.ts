import type { LineUp } from '../../engine/index.ts';

/** Where labels were put by hand: how far from where they would stand. */

type Labels = NonNullable<LineUp['labels']>;

/** A part without a label, or one that is gone, is left out by the drawing. */
export function moveLabels(lineUp: LineUp, ids: readonly string[], dx: number, dy: number): LineUp {
  if (dx === 0 && dy === 0) return lineUp;
  const moved: Labels = Object.fromEntries(
    ids.map((id) => {
      const { dx_mm = 0, dy_mm = 0, ...rest } = lineUp.labels?.[id] ?? {};
      return [id, { ...rest, dx_mm: dx_mm + dx, dy_mm: dy_mm + dy }];
    }),
  );
  return { ...lineUp, labels: { ...lineUp.labels, ...moved } };
}

export function putLabelsBack(lineUp: LineUp, ids: readonly string[]): LineUp {
  const { labels, ...rest } = lineUp;
  const left = Object.entries(labels ?? {}).filter(([id]) => !ids.includes(id));
  return left.length > 0 ? { ...rest, labels: Object.fromEntries(left) } : rest;
}
