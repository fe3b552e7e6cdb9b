import { run } from '../commands/commands.ts';
import { rejoinable } from '../commands/rejoin.ts';
import { useEditor } from '../store/editorStore.ts';

/** After a part in a line was deleted: one cable could be made of its two. The offer ends with the next edit. */
export default function RejoinOffer() {
  const lineUp = useEditor((state) => state.lineUp);
  const past = useEditor((state) => state.past);
  const made = lineUp ? rejoinable({ ...useEditor.getState(), lineUp, past }) : null;
  if (!made) return null;
  const asked = made.asked.length;
  return (
    <div className="offer" role="status" aria-label="Offer">
      <span>
        The line is cut. {asked > 0 && `The two cables differed in ${asked} value${asked === 1 ? '' : 's'}: these will be asked for. `}
      </span>
      <button type="button" className="main" onClick={() => run('rejoin')}>
        Rejoin as {made.cable.tag}
      </button>
    </div>
  );
}
