import { getViewportForBounds, useReactFlow, useStoreApi, type Viewport } from '@xyflow/react';
import { type RefObject, useEffect, useMemo, useRef } from 'react';
import type { OneLine } from '../../engine/index.ts';
import type { At } from '../store/edits.ts';
import { asideAt } from './BondButtons.tsx';
import { PX } from './scale.ts';
import { openView, type View } from './view.ts';
import { isTrackpadPan } from './wheel.ts';

/** Moves the view: all that is drawn, labels included, or one place of it; and lends it to the commands while the sheet is open. */

/** Low enough that fitting shows all of a long site. */
export const LEAST_ZOOM = 0.02;
const MOST_ZOOM = 4;
const PORTS_FROM_ZOOM = 0.4;
/** A zoom that has not gone on for so long has ended. */
const RESTS_MS = 100;
const PARTS_A_FRAME = 250;
/** Above this a small line-up would look like a poster. */
const FIT_ZOOM = 1.2;

/** Clear of the edges. */
const CLEAR = { top: 24, right: 28, left: 28 } as const;
const ABOVE_TOOLS_px = 12;

interface Area {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** In pixels of the canvas at 100 %. */
function areaOf({ parts }: OneLine, ids: readonly string[]): Area | null {
  const boxes = parts.filter((part) => ids.includes(part.id));
  if (boxes.length === 0) return null;
  const left = Math.min(...boxes.map((box) => box.x));
  const top = Math.min(...boxes.map((box) => box.y));
  const right = Math.max(...boxes.map((box) => box.x + box.w));
  const bottom = Math.max(...boxes.map((box) => box.y + box.h));
  return { x: left * PX, y: top * PX, width: (right - left) * PX, height: (bottom - top) * PX };
}

/** All of it, with the buttons at its left, which keep their size when the drawing becomes smaller. */
function withButtons(area: Area, sheet: HTMLElement | null, zoom: number): Area {
  const buttons = [...(sheet?.querySelectorAll<HTMLElement>('.bond') ?? [])];
  const reach = (each: HTMLElement): number => each.offsetWidth / Math.min(1, Math.max(0.4, zoom)) + asideAt(zoom) / zoom;
  const left = Math.min(area.x, ...buttons.map((each) => each.offsetLeft - reach(each)));
  return { ...area, x: left, width: area.x + area.width - left };
}

/** As it is now: what React Flow remembers of it is that of a frame ago, when a panel has just been opened beside it. */
const roomOf = (sheet: HTMLElement | null): { readonly width: number; readonly height: number } => ({
  width: sheet?.clientWidth ?? 0,
  height: sheet?.clientHeight ?? 0,
});

/** Clear of the tools at the foot: higher for a finger, and in two rows where they have no room in one. */
const clearBelow = (sheet: HTMLElement | null): number => (sheet?.querySelector<HTMLElement>('.tools')?.offsetHeight ?? 0) + ABOVE_TOOLS_px;

/** How far a stretch must go so that it lies within a room that has become smaller; 0 where it was not seen before, or has no room at all. */
function pushed(from: number, to: number, before: number, now: number, clear: number): number {
  if (now >= before || from < 0 || to > before || to <= now - clear) return 0;
  return Math.max(now - clear - to, Math.min(0, -from));
}

/** How far a stretch must go to lie within a room. One that is too long for it is left as it is while some of it is in sight. */
function brought(from: number, to: number, least: number, most: number): number {
  if (to - from > most - least) return to > least && from < most ? 0 : least - from;
  return Math.max(0, least - from) + Math.min(0, most - to);
}

const elementOf = (id: string): HTMLElement | null => document.querySelector<HTMLElement>(`.sheet [data-id="${CSS.escape(id)}"]`);

export interface SheetView extends View {
  readonly toSheet: (x: number, y: number) => At;
  /** Fits it for the first time. */
  readonly begin: () => void;
  /** Whether that has been painted. */
  readonly fitted: { readonly current: boolean };
}

/** @param looked what is chosen or spoken of: it stays in sight when the sheet becomes smaller */
export function useView(sheet: RefObject<HTMLDivElement | null>, drawing: OneLine, looked: readonly string[]): SheetView {
  const { setViewport, getViewport, zoomTo, screenToFlowPosition } = useReactFlow();
  const store = useStoreApi();
  const latest = useRef(drawing);
  latest.current = drawing;
  const held = useRef(looked);
  held.current = looked;
  const fitted = useRef(false);
  /** What the view was when all of it was fitted last: while it still is that, nobody has gone to a place of their own. */
  const whole = useRef<Viewport | null>(null);
  const hand = useRef<{ readonly x: number; readonly y: number } | null>(null);

  const view = useMemo((): SheetView => {
    const toSheet = (x: number, y: number): At => {
      const at = screenToFlowPosition({ x, y });
      return { x_mm: at.x / PX, y_mm: at.y / PX };
    };
    const show = (area: Area | null, buttons = false): Viewport | null => {
      const { width, height } = roomOf(sheet.current);
      if (!area || width <= 0) {
        void setViewport({ x: 0, y: 0, zoom: 1 });
        return null;
      }
      const { top, right, left } = CLEAR;
      const room = { top: `${top}px`, right: `${right}px`, bottom: `${clearBelow(sheet.current)}px`, left: `${left}px` } as const;
      const viewOf = (shown: Area) => getViewportForBounds(shown, width, height, LEAST_ZOOM, FIT_ZOOM, room);
      const next = viewOf(buttons ? withButtons(area, sheet.current, viewOf(area).zoom) : area);
      void setViewport(next);
      return next;
    };
    const bring = (...ids: readonly string[]) => {
      const area = areaOf(latest.current, ids);
      if (!area) return;
      const { width, height } = roomOf(sheet.current);
      const { x, y, zoom } = getViewport();
      const [left, top] = [area.x * zoom + x, area.y * zoom + y];
      const across = brought(left, left + area.width * zoom, CLEAR.left, width - CLEAR.right);
      const down = brought(top, top + area.height * zoom, CLEAR.top, height - clearBelow(sheet.current));
      if (across !== 0 || down !== 0) void setViewport({ x: x + across, y: y + down, zoom });
    };
    const fit = () => {
      const { x_mm, y_mm, width_mm, height_mm } = latest.current;
      whole.current = show(width_mm > 0 ? { x: x_mm * PX, y: y_mm * PX, width: width_mm * PX, height: height_mm * PX } : null, true);
    };
    return {
      bring,
      toSheet,
      fitted,
      begin: () => {
        fit();
        requestAnimationFrame(() => {
          fitted.current = true;
        });
      },
      fit,
      fitParts: (ids) => void show(areaOf(latest.current, ids)),
      full: () => void zoomTo(1),
      zoom: (factor) => void zoomTo(Math.min(MOST_ZOOM, Math.max(LEAST_ZOOM, getViewport().zoom * factor))),
      pointer: () => (hand.current ? toSheet(hand.current.x, hand.current.y) : null),
      focus: (id) => {
        elementOf(id)?.focus();
        bring(id);
      },
      focused: () => document.activeElement?.closest('.react-flow__node, .react-flow__edge')?.getAttribute('data-id') ?? null,
    };
  }, [setViewport, getViewport, zoomTo, screenToFlowPosition, store]);

  useEffect(() => openView(view), [view]);
  useEffect(() => {
    const box = sheet.current;
    if (!box) return;
    const onWheel = (event: WheelEvent) => {
      if (!isTrackpadPan(event) || !(event.target as Element).closest('.react-flow__renderer')) return;
      event.preventDefault();
      event.stopPropagation();
      const { x, y, zoom } = getViewport();
      void setViewport({ x: x - event.deltaX, y: y - event.deltaY, zoom });
    };
    const onMove = ({ clientX: x, clientY: y }: PointerEvent) => {
      hand.current = { x, y };
    };
    const onLeave = () => {
      hand.current = null;
    };
    // Ports keep their size for the hand however small the drawing is shown. Buttons are seen, and follow every step of a zoom; what is
    // only met follows at its end, so many a frame, since of a large sheet that is asked of thousands.
    const buttons = box.querySelector<HTMLElement>('.react-flow__viewport-portal');
    let shown = 0;
    let resting: ReturnType<typeof setTimeout> | undefined;
    let frame = 0;
    const follow = (late: readonly HTMLElement[]) => {
      for (const each of late.slice(0, PARTS_A_FRAME)) each.style.setProperty('--zoom', `${shown}`);
      const rest = late.slice(PARTS_A_FRAME);
      if (rest.length > 0) {
        frame = requestAnimationFrame(() => follow(rest));
        return;
      }
      // Of those there are each has its own by now; what is added later has that of the sheet.
      box.style.setProperty('--zoom', `${shown}`);
      box.classList.toggle('far', shown < PORTS_FROM_ZOOM);
    };
    const keepPorts = () => follow([...box.querySelectorAll<HTMLElement>('.react-flow__nodes > *, .react-flow__edges > *')]);
    const onZoom = () => {
      const zoom = store.getState().transform[2];
      if (zoom === shown) return;
      shown = zoom;
      buttons?.style.setProperty('--zoom', `${zoom}`);
      clearTimeout(resting);
      cancelAnimationFrame(frame);
      if (fitted.current) resting = setTimeout(keepPorts, RESTS_MS);
      else follow([]);
    };
    // A panel that opens beside the sheet covers nothing that is being looked at: that which is chosen or, where nothing is, all of it.
    let before = roomOf(box);
    const watching = new ResizeObserver(() => {
      const [was, now] = [before, roomOf(box)];
      before = now;
      if (now.width === 0 || (now.width === was.width && now.height === was.height)) return;
      const area = areaOf(latest.current, held.current);
      const { x, y, zoom } = getViewport();
      if (!area) {
        const fit = whole.current;
        if (fit && fit.x === x && fit.y === y && fit.zoom === zoom) view.fit();
        return;
      }
      const [left, top] = [area.x * zoom + x, area.y * zoom + y];
      const across = pushed(left, left + area.width * zoom, was.width, now.width, CLEAR.right);
      const down = pushed(top, top + area.height * zoom, was.height, now.height, clearBelow(box));
      if (across !== 0 || down !== 0) void setViewport({ x: x + across, y: y + down, zoom });
    });
    watching.observe(box);
    onZoom();
    const stop = store.subscribe(onZoom);
    box.addEventListener('wheel', onWheel, { capture: true, passive: false });
    box.addEventListener('pointermove', onMove);
    box.addEventListener('pointerleave', onLeave);
    return () => {
      stop();
      clearTimeout(resting);
      cancelAnimationFrame(frame);
      watching.disconnect();
      box.removeEventListener('wheel', onWheel, { capture: true });
      box.removeEventListener('pointermove', onMove);
      box.removeEventListener('pointerleave', onLeave);
    };
  }, [sheet, store, view, getViewport, setViewport]);
  return view;
}
