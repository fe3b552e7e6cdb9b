import type { LineUp } from '../engine/index.ts';
import { openFile, saveFile } from './files/lineUpFile.ts';
import { edit, redo, select, showFinding, undo, useEditor, wait } from './store/editorStore.ts';
import { move, remove } from './store/edits.ts';

/** The keyboard. Single letters and Delete never fire while a field is being typed in. */
export function onKey(event: KeyboardEvent, add: () => void): void {
  // What React Flow has done with a key of its own is done.
  if (event.isComposing || event.defaultPrevented || document.querySelector('dialog[open]')) return;
  const key = event.key.toLowerCase();
  const target = event.target instanceof HTMLElement ? event.target : null;
  const typing = target?.closest('input, select, textarea') != null;
  // In a field where nothing is half typed, undo means the line-up.
  const halfTyped = typing && target?.closest('select, [data-clean="true"]') == null;
  const { selected, finding, waiting, atStart, ...state } = useEditor.getState();
  const [lineUp, review] = atStart ? [null, null] : [state.lineUp, state.review];
  const done = (action: () => void) => {
    event.preventDefault();
    action();
  };
  if (event.ctrlKey || event.metaKey) {
    if (key === 's') done(() => void saveFile());
    else if (key === 'o') done(() => void openFile());
    else if (halfTyped || !lineUp) return;
    else if (key === 'z') done(event.shiftKey ? redo : undo);
    else if (key === 'y') done(redo);
    else if (key === 'a' && !typing) done(() => select([...lineUp.elements, ...lineUp.cables].map((part) => part.id)));
    return;
  }
  if (typing || !lineUp || !review) return;
  if (event.key === 'Delete' || event.key === 'Backspace') done(() => edit('Delete', (before) => remove(before, selected), { select: [] }));
  else if (event.key === 'Escape') done(() => (waiting ? wait(null) : finding ? showFinding(null) : select([])));
  else if (key === 'a') done(add);
  else if (key === '.' || key === ',') {
    const list = review.findings.filter((each) => each.verdict !== 'pass' && each.verdict !== 'not-applicable');
    const at = list.findIndex((each) => each.id === finding);
    const next = list[(at + (key === '.' ? 1 : -1) + list.length) % list.length];
    if (next) done(() => showFinding(next.id));
  } else if (event.key.startsWith('Arrow') && selected.length > 0 && !(event.target instanceof HTMLButtonElement)) {
    const step = event.shiftKey ? 10 : 2.5;
    const dx = event.key === 'ArrowLeft' ? -step : event.key === 'ArrowRight' ? step : 0;
    const dy = event.key === 'ArrowUp' ? -step : event.key === 'ArrowDown' ? step : 0;
    const nudged = (before: LineUp) =>
      new Map(
        selected.flatMap((id) => {
          const at = before.positions[id];
          return at ? [[id, { x_mm: at.x_mm + dx, y_mm: at.y_mm + dy }] as const] : [];
        }),
      );
    done(() => edit('Move', (before) => move(before, nudged(before)), { burst: 'nudge' }));
  }
}
