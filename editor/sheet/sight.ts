import { useStore } from '@xyflow/react';
import { useDeferredValue } from 'react';
import type { Box } from '../../engine/index.ts';
import { PX } from './scale.ts';

/** What of a drawing is worth painting: of a large one the squares of the sheet that the view touches, and of its words as many as can be read. */
export interface Sight {
  /** Millimetres of the sheet. */
  readonly box: Box;
  /** No words: a line of a label would be less than four pixels high. */
  readonly mute: boolean;
}

const READABLE_ZOOM = 0.25;
/** Below these words keep twelve pixels, and there are fewer of them: a value a line, then tags and verdicts alone. */
const ALL_WORDS_FROM_ZOOM = 0.75;
export const VALUES_FROM_ZOOM = 0.6;

/** How much is said beside the parts. */
export type Telling = 'all' | 'small' | 'smaller';
const tellingAt = (zoom: number): Telling => (zoom >= ALL_WORDS_FROM_ZOOM ? 'all' : zoom >= VALUES_FROM_ZOOM ? 'small' : 'smaller');
/** Comes after the frame that answers the hand: every word of the sheet is set anew where it changes. */
export const useTelling = (): Telling => useDeferredValue(useStore((state) => tellingAt(state.transform[2])));

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
  return { box: { x: left, y: top, w: right - left, h: bottom - top }, mute: zoom < READABLE_ZOOM };
}

const same = (a: Sight | null, b: Sight | null): boolean =>
  a === b ||
  (a !== null &&
    b !== null &&
    a.mute === b.mute &&
    a.box.x === b.box.x &&
    a.box.y === b.box.y &&
    a.box.w === b.box.w &&
    a.box.h === b.box.h);

/** Null while all of the drawing is painted: a small one is painted once, whatever the view does. */
export const useSight = (large: boolean): Sight | null => useStore((state) => (large ? sightOf(state) : null), same);
