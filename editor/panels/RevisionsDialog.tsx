import { useEffect, useRef } from 'react';
import type { LineUp } from '../../engine/index.ts';
import { CommentLog } from './CommentLog.tsx';
import { Issues } from './Issues.tsx';

/** What left the house and what came back: issues, and the reviewer's comments. */
export default function RevisionsDialog({ lineUp, onClose }: { readonly lineUp: LineUp; readonly onClose: () => void }) {
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => dialog.current?.showModal(), []);
  return (
    <dialog ref={dialog} className="sizes revisions" aria-label="Revisions and comments" onClose={onClose}>
      <p className="top">
        <b className="serif">Revisions and comments</b>
        <button type="button" onClick={() => dialog.current?.close()}>
          Close
        </button>
      </p>
      <Issues lineUp={lineUp} />
      <CommentLog lineUp={lineUp} />
    </dialog>
  );
}
