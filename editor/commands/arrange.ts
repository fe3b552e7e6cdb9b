import type { Element, LineUp } from '../../engine/index.ts';
import { familyOf, symbolIn } from '../sheet/scale.ts';
import { type At, move } from '../store/edits.ts';

/** Lines the chosen parts up by an edge or their axis, or spaces them evenly. The outermost part stays where it is. */

export type Side = 'left' | 'axis' | 'right' | 'top' | 'middle' | 'bottom';
interface Stood {
  readonly id: string;
  readonly at: At;
  readonly left: number;
  readonly right: number;
  readonly height: number;
}

function stood(lineUp: LineUp, ids: readonly string[]): readonly Stood[] {
  const family = familyOf(lineUp);
  return lineUp.elements.flatMap((element: Element): Stood[] => {
    const at = lineUp.positions[element.id];
    if (!at || !ids.includes(element.id)) return [];
    const symbol = symbolIn(lineUp, element, family);
    return [{ id: element.id, at, left: symbol.left_mm, right: symbol.left_mm + symbol.width_mm, height: symbol.height_mm }];
  });
}

export function align(lineUp: LineUp, ids: readonly string[], side: Side): LineUp {
  const parts = stood(lineUp, ids);
  const [first] = parts;
  if (!first) return lineUp;
  const least = (of: (part: Stood) => number) => Math.min(...parts.map(of));
  const most = (of: (part: Stood) => number) => Math.max(...parts.map(of));
  const places: Readonly<Record<Side, (part: Stood) => At>> = {
    left: ({ at, left }) => ({ ...at, x_mm: least((each) => each.at.x_mm + each.left) - left }),
    axis: ({ at }) => ({ ...at, x_mm: first.at.x_mm }),
    right: ({ at, right }) => ({ ...at, x_mm: most((each) => each.at.x_mm + each.right) - right }),
    top: ({ at }) => ({ ...at, y_mm: least((each) => each.at.y_mm) }),
    middle: ({ at, height }) => ({ ...at, y_mm: first.at.y_mm + (first.height - height) / 2 }),
    bottom: ({ at, height }) => ({ ...at, y_mm: most((each) => each.at.y_mm + each.height) - height }),
  };
  return move(lineUp, new Map(parts.map((part) => [part.id, places[side](part)])));
}

export function distribute(lineUp: LineUp, ids: readonly string[], way: 'x_mm' | 'y_mm'): LineUp {
  const parts = [...stood(lineUp, ids)].sort((a, b) => a.at[way] - b.at[way]);
  const [first, last] = [parts[0], parts.at(-1)];
  if (!first || !last) return lineUp;
  const step = (last.at[way] - first.at[way]) / (parts.length - 1);
  return move(lineUp, new Map(parts.map((part, i) => [part.id, { ...part.at, [way]: first.at[way] + i * step }])));
}
