import { type Review, VERDICTS, type Verdict } from '../../engine/index.ts';
import { arrange, useDesk } from '../store/deskStore.ts';
import { select, useEditor } from '../store/editorStore.ts';
import { chooseFindings, useFindingsChoice } from '../store/findingsChoice.ts';
import { Badge } from './Badge.tsx';

/** How many findings there are of each verdict. A count that is pressed lists these alone; pressed again, all of them. */
export function Tally({ counts }: Pick<Review, 'counts'>) {
  const working = useEditor((state) => state.working);
  const { verdict: only } = useFindingsChoice();
  const listed = useEditor(({ selected, finding }) => selected.length === 0 && finding === null);
  const shown = useDesk(({ panels, reading }) => panels && reading === 'findings') && listed;
  const list = (verdict: Verdict | null) => {
    chooseFindings({ verdict });
    arrange({ panels: true, reading: 'findings' });
    select([]);
  };
  return (
    <div className="tally" role="status" aria-live="off" aria-label="Verdicts">
      {VERDICTS.slice(0, 5).map((verdict) => {
        const pressed = shown && only === verdict;
        return (
          <button
            key={verdict}
            type="button"
            className={`v-${verdict}`}
            data-none={counts[verdict] === 0 || undefined}
            aria-pressed={pressed}
            title={pressed ? 'List all findings again' : 'List these findings alone'}
            onClick={() => list(pressed ? null : verdict)}
          >
            <Badge verdict={verdict} /> {working ? '…' : counts[verdict]} {!working && <span className="name">{verdict}</span>}
          </button>
        );
      })}
      {working && <span className="muted">working…</span>}
    </div>
  );
}
