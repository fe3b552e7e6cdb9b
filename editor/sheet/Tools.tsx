import { useStore } from '@xyflow/react';
import { tidyPositions } from '../../engine/index.ts';
import { edit, redo, undo, useEditor } from '../store/editorStore.ts';

/** Tools are words at the foot of the sheet. */
export function Tools({ fit, full }: { readonly fit: () => void; readonly full: () => void }) {
  const back = useEditor((state) => state.past.at(-1)?.label);
  const forth = useEditor((state) => state.future.at(-1)?.label);
  const zoom = useStore((state) => Math.round(state.transform[2] * 100));
  const tidy = () => edit('Tidy', (before) => ({ ...before, positions: tidyPositions(before) }));
  return (
    <div className="tools" role="toolbar" aria-label="Sheet">
      <button type="button" className="quiet" onClick={undo} disabled={back === undefined} title={back && `Undo: ${back} (Ctrl Z)`}>
        Undo
      </button>
      <button type="button" className="quiet" onClick={redo} disabled={forth === undefined} title={forth && `Redo: ${forth} (Ctrl Y)`}>
        Redo
      </button>
      <button type="button" className="quiet" onClick={fit}>
        Fit
      </button>
      <button type="button" className="quiet" onClick={full} title="Show at full size" aria-label={`${zoom} %, show at full size`}>
        {zoom} %
      </button>
      <button type="button" className="quiet" onClick={tidy}>
        Tidy
      </button>
    </div>
  );
}
