import { useStore } from '@xyflow/react';
import type { Box } from '../../engine/index.ts';
import { PX } from './scale.ts';

/** What of a large drawing is worth painting: the squares of the sheet that the view touches, and no words that are too small to read. */
export interface Sight {
  /** Millimetres of the sheet. */
  readonly box: Box;
  readonly words: boolean;
}

/** Below this a line of a label is less than four pixels high. */
const READABLE_ZOOM = 0.25;
/** A label stands this far from its part at most; more room than that needs no painting. */
const ROOM_mm = 90;

interface Viewed {
  readonly transform: readonly [number, number, number];
  readonly width: number;
  readonly height: number;
}

/** Squares at least as large as the view, so that moving about changes what is painted only now and then. */
function sightOf({ transform: [x, y, zoom], width, height }: Viewed): Sight {
  const scale = zoom * PX;
  const square = 2 ** Math.ceil(Math.log2(Math.max(width, height, 1) / scale));
  const floor = (value: number): number => Math.floor((value - ROOM_mm) / square) * square;
  const ceil = (value: number): number => Math.ceil((value + ROOM_mm) / square) * square;
  const [left, top] = [floor(-x / scale), floor(-y / scale)];
  const [right, bottom] = [ceil((width - x) / scale), ceil((height - y) / scale)];
  return { box: { x: left, y: top, w: right - left, h: bottom - top }, words: zoom >= READABLE_ZOOM };
}

const same = (a: Sight | null, b: Sight | null): boolean =>
  a === b ||
  (a !== null &&
    b !== null &&
    a.words === b.words &&
    a.box.x === b.box.x &&
    a.box.y === b.box.y &&
    a.box.w === b.box.w &&
    a.box.h === b.box.h);

/** Null while all of the drawing is painted: a small one is painted once, whatever the view does. */
export const useSight = (large: boolean): Sight | null => useStore((state) => (large ? sightOf(state) : null), same);
