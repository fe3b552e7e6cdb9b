import { useStore } from '@xyflow/react';
import { useEffect, useRef, useState } from 'react';
import type { Box, LineUp, OneLinePart } from '../../engine/index.ts';
import { PX } from './scale.ts';

/** Of more parts and cables the drawing is made anew, and what is said beside it, after the hand has been answered. */
const LARGE = 100;
export const isLarge = ({ elements, cables }: LineUp): boolean => elements.length + cables.length > LARGE;

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

/** How much of a part is painted: with how many of its words, without them, or nothing. */
export type Shown = 'all' | 'small' | 'smaller' | 'mute' | 'nothing';
const shownAt = (zoom: number): Shown => (zoom >= ALL_WORDS_FROM_ZOOM ? 'all' : zoom >= VALUES_FROM_ZOOM ? 'small' : 'smaller');

/** Painting parts and setting words anew costs more than all else that a zoom does: so many a frame, or all within eight. */
const PARTS_A_FRAME = 30;
const FRAMES = 8;

/**
 * What is painted of each part. Where the view calls for something else the parts follow frame by frame, what comes into sight first, so
 * that none of them keeps the hand waiting. A part that is new is painted at once, and so is all of it until the view has been fitted.
 */
export function useShown(parts: readonly OneLinePart[], sight: Sight | null, fitted: { readonly current: boolean }): (id: string) => Shown {
  const zoomed = useStore((state) => shownAt(state.transform[2]));
  const wanted = (part: OneLinePart): Shown => (!sight ? zoomed : !inSight(part, sight) ? 'nothing' : sight.mute ? 'mute' : zoomed);
  const painted = useRef<ReadonlyMap<string, Shown>>(new Map());
  const [, next] = useState(0);
  const now = new Map(parts.map((part) => [part.id, (fitted.current && painted.current.get(part.id)) || wanted(part)]));
  painted.current = now;
  useEffect(() => {
    const late = parts.flatMap((part) => (now.get(part.id) === wanted(part) ? [] : [[part.id, wanted(part)] as const]));
    if (late.length === 0) return;
    const frame = requestAnimationFrame(() => {
      const ordered = [...late.filter(([, to]) => to !== 'nothing'), ...late.filter(([, to]) => to === 'nothing')];
      painted.current = new Map([...now, ...ordered.slice(0, Math.max(PARTS_A_FRAME, Math.ceil(parts.length / FRAMES)))]);
      next((count) => count + 1);
    });
    return () => cancelAnimationFrame(frame);
  });
  return (id) => now.get(id) ?? 'nothing';
}

const inSight = ({ x, y, w, h }: Box, { box }: Sight): boolean =>
  x <= box.x + box.w && box.x <= x + w && y <= box.y + box.h && box.y <= y + h;

/** Words of a drawing that is shown small are set larger than the drawing, and larger still only as far as there is room. */
const WORDS_KEPT_FROM_ZOOM = 0.85;
const LEAST_WORDS_ZOOM = 0.35;

/** The zoom that words are set for; null where they are as large as the drawing has them. */
export const useWordsZoom = (): number | null =>
  useStore(({ transform: [, , zoom] }) => (zoom < WORDS_KEPT_FROM_ZOOM ? Math.max(zoom, LEAST_WORDS_ZOOM) : null));

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
