import type { ElementKind } from '../../engine/index.ts';

/** From the tray to the sheet: a part was let go, at a place on the screen or, from the keyboard, at none. */

export interface Dropped {
  readonly kind: ElementKind;
  readonly at: { readonly x: number; readonly y: number } | null;
}

const listeners = new Set<(dropped: Dropped) => void>();
export const dropPart = (dropped: Dropped): void => {
  for (const listener of listeners) listener(dropped);
};
export function onDropped(listener: (dropped: Dropped) => void): () => void {
  listeners.add(listener);
  return () => void listeners.delete(listener);
}

/** The cable drawn at a place of the screen. */
export const cableUnder = (x: number, y: number): string | null =>
  document
    .elementsFromPoint(x, y)
    .map((each) => each.closest('.react-flow__edge')?.getAttribute('data-id'))
    .find((id) => id) ?? null;
