import type { Box } from './displayList.ts';
import { meets } from './extent.ts';

/** What is already drawn, so that words keep off it: boxes by the squares of a grid that they touch, since on a large sheet few are ever near. */
export interface Occupied {
  readonly add: (box: Box) => void;
  readonly isFree: (box: Box) => boolean;
}

const SQUARE_mm = 20;
/** A box over more squares than this, such as a long bus, is asked every time. */
const MOST_SQUARES = 200;

export function occupied(boxes: readonly Box[]): Occupied {
  const squares = new Map<number, Map<number, Box[]>>();
  const vast: Box[] = [];
  const span = (from: number, length: number): readonly [number, number] => [
    Math.floor(from / SQUARE_mm),
    Math.floor((from + length) / SQUARE_mm),
  ];
  const add = (box: Box): void => {
    const [[left, right], [top, bottom]] = [span(box.x, box.w), span(box.y, box.h)];
    if ((right - left + 1) * (bottom - top + 1) > MOST_SQUARES) {
      vast.push(box);
      return;
    }
    for (let i = left; i <= right; i++) {
      const column = squares.get(i) ?? new Map<number, Box[]>();
      squares.set(i, column);
      for (let j = top; j <= bottom; j++) {
        const square = column.get(j);
        if (square) square.push(box);
        else column.set(j, [box]);
      }
    }
  };
  const isFree = (box: Box): boolean => {
    const [[left, right], [top, bottom]] = [span(box.x, box.w), span(box.y, box.h)];
    if (vast.some((each) => meets(each, box))) return false;
    for (let i = left; i <= right; i++) {
      const column = squares.get(i);
      if (!column) continue;
      for (let j = top; j <= bottom; j++) if (column.get(j)?.some((each) => meets(each, box))) return false;
    }
    return true;
  };
  for (const box of boxes) add(box);
  return { add, isFree };
}
