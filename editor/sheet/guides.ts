import type { LineUp } from '../../engine/index.ts';
import { type At, snapped } from '../store/edits.ts';

/** While a part is dragged: it comes to rest on the grid, or in line with a part beside or above it, and a line shows with which. */

export interface Guides {
  readonly x_mm?: number;
  readonly y_mm?: number;
}

const NEAR_mm = 3;

/** The first of several dragged parts finds the place; the others keep their distance from it. */
export function snapTo(
  lineUp: LineUp,
  moved: ReadonlyMap<string, At>,
): { readonly places: ReadonlyMap<string, At>; readonly guides: Guides } {
  const [first] = moved;
  if (!first) return { places: moved, guides: {} };
  const [, at] = first;
  const others = lineUp.elements.flatMap((each) => (moved.has(each.id) ? [] : (lineUp.positions[each.id] ?? [])));
  const nearest = (way: 'x_mm' | 'y_mm'): number | undefined =>
    others
      .map((each) => each[way])
      .filter((value) => Math.abs(value - at[way]) < NEAR_mm)
      .sort((a, b) => Math.abs(a - at[way]) - Math.abs(b - at[way]))[0];
  const [x, y] = [nearest('x_mm'), nearest('y_mm')];
  const grid = snapped(at);
  const rest = { x_mm: x ?? grid.x_mm, y_mm: y ?? grid.y_mm };
  const places = [...moved].map(
    ([each, place]) => [each, { x_mm: place.x_mm + rest.x_mm - at.x_mm, y_mm: place.y_mm + rest.y_mm - at.y_mm }] as const,
  );
  return { places: new Map(places), guides: { ...(x !== undefined && { x_mm: x }), ...(y !== undefined && { y_mm: y }) } };
}
