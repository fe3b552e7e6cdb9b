import { type PointerEvent as ReactPointerEvent, useRef, useState } from 'react';
import type { LineUp, OneLine } from '../../engine/index.ts';
import { edit, select } from '../store/editorStore.ts';
import type { At } from '../store/edits.ts';
import { moveLabels } from '../store/labels.ts';

/** A label under the hand: a click chooses its part, a drag puts the label elsewhere in one step. Labels are painted, not boxes of their own, so the sheet asks what lies under the pointer. */

export interface LabelHold {
  /** The document with the label where it is being held. */
  readonly shown: (lineUp: LineUp) => LineUp;
  /** Answers whether it took hold of a label: then the sheet has nothing to do with this pointer. */
  readonly onDown: (event: ReactPointerEvent) => boolean;
  readonly onMove: (event: ReactPointerEvent) => void;
  /** Answers whether a label was held. */
  readonly onUp: () => boolean;
}

interface Held {
  readonly id: string;
  readonly from: At;
  readonly dx: number;
  readonly dy: number;
}

/** A hand that trembles less than this has clicked. */
const STILL_mm = 1;

const labelAt = ({ parts }: OneLine, { x_mm, y_mm }: At): string | null =>
  parts.findLast(({ label }) => label && x_mm >= label.x && x_mm <= label.x + label.w && y_mm >= label.y && y_mm <= label.y + label.h)
    ?.id ?? null;

export function useLabelHold(drawing: { readonly current: OneLine | null }, toSheet: { current: (x: number, y: number) => At }): LabelHold {
  const [held, setHeld] = useState<Held | null>(null);
  const latest = useRef(held);
  const hold = (next: Held | null): void => {
    latest.current = next;
    setHeld(next);
  };
  return {
    shown: (lineUp) => (held && far(held) ? moveLabels(lineUp, [held.id], held.dx, held.dy) : lineUp),
    onDown: (event) => {
      const bare = (event.target as Element).closest('.react-flow__pane');
      if (!bare || event.button !== 0 || !event.isPrimary || event.shiftKey || event.ctrlKey || event.metaKey || !drawing.current)
        return false;
      const at = toSheet.current(event.clientX, event.clientY);
      const id = labelAt(drawing.current, at);
      if (id === null) return false;
      event.stopPropagation();
      event.currentTarget.setPointerCapture(event.pointerId);
      hold({ id, from: at, dx: 0, dy: 0 });
      return true;
    },
    onMove: ({ clientX, clientY }) => {
      const now = latest.current;
      if (!now) return;
      const at = toSheet.current(clientX, clientY);
      hold({ ...now, dx: at.x_mm - now.from.x_mm, dy: at.y_mm - now.from.y_mm });
    },
    onUp: () => {
      const now = latest.current;
      if (!now) return false;
      hold(null);
      if (far(now)) edit('Move label', (before) => moveLabels(before, [now.id], now.dx, now.dy), { select: [now.id] });
      else select([now.id]);
      return true;
    },
  };
}

const far = ({ dx, dy }: Held): boolean => Math.hypot(dx, dy) > STILL_mm;
