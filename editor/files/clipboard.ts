import { remove } from '../../engine/index.ts';
import { view } from '../sheet/view.ts';
import { excerpt, fromText, putIn, toText } from '../store/copies.ts';
import { arrange } from '../store/deskStore.ts';
import { edit, refuse, useEditor } from '../store/editorStore.ts';
import { snapped, withPlaces } from '../store/edits.ts';

/** Copy, cut and paste, between documents and windows. The browser's own events carry them: they need nobody's leave. */

/** For a paste from a menu where the browser does not show what it holds. */
let held: string | null = null;
let last: { readonly text: string; readonly x: number; readonly y: number; readonly times: number } | null = null;
/** A copy laid on the same place as the one before steps aside by this. */
const ASIDE_mm = 10;
const typing = (): boolean => document.activeElement?.closest('input, textarea, select, dialog') != null;

export function listenToClipboard(): () => void {
  const onCopy = (event: ClipboardEvent) => {
    const { lineUp, selected, atStart } = useEditor.getState();
    if (!lineUp || atStart || typing() || getSelection()?.isCollapsed === false) return;
    const clip = excerpt(withPlaces(lineUp), selected);
    if (!clip) return;
    held = toText(clip);
    last = null;
    event.clipboardData?.setData('text/plain', held);
    event.preventDefault();
    if (event.type === 'cut') edit('Cut', (before) => remove(before, selected), { select: [] });
  };
  const onPaste = (event: ClipboardEvent) => {
    const { lineUp, atStart } = useEditor.getState();
    if (!lineUp || atStart || typing()) return;
    event.preventDefault();
    paste(event.clipboardData?.getData('text/plain') ?? '');
  };
  document.addEventListener('copy', onCopy);
  document.addEventListener('cut', onCopy);
  document.addEventListener('paste', onPaste);
  return () => {
    document.removeEventListener('copy', onCopy);
    document.removeEventListener('cut', onCopy);
    document.removeEventListener('paste', onPaste);
  };
}

/** From a menu: the clipboard, or where that may not be read, what was copied here last. */
export async function pasteFromMenu(): Promise<void> {
  const text = await navigator.clipboard?.readText().catch(() => null);
  paste(text ?? held ?? '');
}

function paste(text: string): void {
  const { lineUp } = useEditor.getState();
  const clip = fromText(text);
  if (!lineUp) return;
  if (!clip) {
    // As cells of a spreadsheet are copied.
    if (text.includes('\t')) arrange({ table: true, pasted: text });
    else refuse('What the clipboard holds is no part of a line-up. Copy parts first, here or in another window, or rows of a spreadsheet.');
    return;
  }
  const all = Object.values(withPlaces(clip).positions);
  const left = Math.min(...all.map((at) => at.x_mm));
  const top = Math.min(...all.map((at) => at.y_mm));
  const pointer = view()?.pointer();
  const at = pointer ?? { x_mm: left + ASIDE_mm, y_mm: top + ASIDE_mm };
  const times = last?.text === text && last.x === at.x_mm && last.y === at.y_mm ? last.times + 1 : 0;
  last = { text, x: at.x_mm, y: at.y_mm, times };
  const put = putIn(lineUp, withPlaces(clip), [
    snapped({ x_mm: at.x_mm - left + times * ASIDE_mm, y_mm: at.y_mm - top + times * ASIDE_mm }),
  ]);
  edit('Paste', () => put.lineUp, { select: put.ids });
}
