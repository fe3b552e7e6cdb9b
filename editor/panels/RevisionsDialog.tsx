import type { LineUp } from '../../engine/index.ts';
import { CommentLog } from './CommentLog.tsx';
import { Dialog } from './Dialog.tsx';
import { Issues } from './Issues.tsx';

/** What left the house and what came back: issues, and the reviewer's comments. */
export default function RevisionsDialog({ lineUp, onClose }: { readonly lineUp: LineUp; readonly onClose: () => void }) {
  return (
    <Dialog title="Revisions and comments" className="sizes revisions" onClose={onClose}>
      <Issues lineUp={lineUp} />
      <CommentLog lineUp={lineUp} />
    </Dialog>
  );
}
