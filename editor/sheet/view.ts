import type { At } from '../store/edits.ts';

/** What a command may ask of the sheet that is open. */

export interface View {
  readonly fit: () => void;
  readonly fitParts: (ids: readonly string[]) => void;
  readonly full: () => void;
  readonly zoom: (factor: number) => void;
  /** Where the pointer is on the sheet, if it is. */
  readonly pointer: () => At | null;
  /** Brings parts into view, which moves no further than it must. */
  readonly bring: (...ids: readonly string[]) => void;
  readonly focus: (id: string) => void;
  /** The part that has the focus. */
  readonly focused: () => string | null;
}

let open: View | null = null;
export const view = (): View | null => open;
export function openView(next: View): () => void {
  open = next;
  return () => {
    if (open === next) open = null;
  };
}
