import { useEffect, useState } from 'react';
import type { LineUp } from '../../engine/index.ts';
import { keeper } from '../files/autosave.ts';
import { openLineUp, refuse, useEditor } from '../store/editorStore.ts';
import '../ui/newer.css';

/** A line-up that came with the address. It takes the place of what is open only when someone says so, and that can be taken up again. */
export default function FromLink() {
  const [offered, setOffered] = useState<LineUp | null>(null);
  useEffect(() => {
    const look = async () => {
      if (location.hash.length < 2) return;
      const { fromFragment } = await import('../files/link.ts');
      const found = fromFragment(location.hash);
      if (!found) return;
      // Read once: loaded anew, the page goes on with the work.
      history.replaceState(null, '', location.pathname + location.search);
      if ('why' in found) refuse(found.why);
      else if (useEditor.getState().lineUp) setOffered(found.lineUp);
      else openLineUp(found.lineUp);
    };
    void look();
    addEventListener('hashchange', look);
    return () => removeEventListener('hashchange', look);
  }, []);
  const open = async (lineUp: LineUp) => {
    if (!(await keeper.flush())) return refuse('What is open could not be kept in this browser. Save it to a file, then open the link.');
    openLineUp(lineUp);
    setOffered(null);
  };
  return (
    <div role="status" aria-label="Link" className={offered ? 'newer' : ''}>
      {offered && (
        <>
          <span>The link holds a line-up: {offered.project.title.slice(0, 80)}. What is open can be taken up again on the start page.</span>
          <button type="button" onClick={() => void open(offered)}>
            Open it
          </button>
          <button type="button" className="quiet" onClick={() => setOffered(null)}>
            Leave it
          </button>
        </>
      )}
    </div>
  );
}
