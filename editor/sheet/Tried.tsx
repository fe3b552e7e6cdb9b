import { putBack, takeFix, useEditor } from '../store/editorStore.ts';

/** Says of what is on the sheet that it is only tried, and lets it be kept or put back. */
export default function Tried() {
  const trying = useEditor((state) => state.trying);
  if (!trying) return null;
  return (
    <div className="offer tried" role="status" aria-label="Tried">
      <span>
        <b>Tried, not stored:</b> {trying.fix.label}.{trying.review ? '' : ' It is being judged…'}
      </span>
      <span className="pair">
        <button type="button" className="main" onClick={() => takeFix(trying.fix)}>
          Apply
        </button>
        <button type="button" onClick={putBack}>
          Put back
        </button>
      </span>
    </div>
  );
}
