import { useEffect, useRef } from 'react';
import { closeRefusal, useEditor } from '../store/editorStore.ts';

/** A file that could not be read: where, what, and how to mend it. The open line-up is untouched. */
export function Refusal() {
  const refused = useEditor((state) => state.refused);
  const open = useEditor((state) => state.lineUp !== null);
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    if (refused && !dialog.current?.open) dialog.current?.showModal();
  }, [refused]);
  if (!refused) return null;
  return (
    <dialog ref={dialog} onClose={closeRefusal} aria-label="The file was not opened">
      <h2 className="serif">The file was not opened</h2>
      <p>
        <b>{refused.where}</b>: {refused.what}.
      </p>
      <p>{refused.mend}</p>
      <p className="muted">{open ? 'What you had open is untouched.' : 'Nothing else was touched.'}</p>
      <button type="button" className="main" onClick={() => dialog.current?.close()}>
        Close
      </button>
    </dialog>
  );
}
