import { memo, useDeferredValue } from 'react';
import { groundRules, type LineUp, type Review } from '../../engine/index.ts';
import { partsOf } from '../commands/related.ts';
import { isLarge } from '../sheet/sight.ts';
import { arrange, type Reading, useDesk } from '../store/deskStore.ts';
import { useEditor } from '../store/editorStore.ts';
import { late } from './late.tsx';
import '../ui/reading.css';

// Fetched as soon as the sheet is: the list is the first thing that is read, and then what is chosen in it.
const arriving = [import('./Overview.tsx'), import('./FindingView.tsx'), import('./Chosen.tsx')] as const;
const Overview = late(() => arriving[0]);
const FindingView = late(() => arriving[1]);
const Chosen = late(() => arriving[2]);

const RunWalk = late(() => import('./RunWalk.tsx'));
const FieldSheets = late(() => import('./FieldSheets.tsx'));

const READINGS: Readonly<Record<Reading, string>> = { findings: 'Findings', walk: 'Walk a run', field: 'Field sheets' };

interface ReaderProps {
  readonly lineUp: LineUp;
  readonly review: Review;
}

/** What the selection needs said. Beside a large drawing it comes after the frame that shows what is chosen on the sheet. */
export function Reader(props: ReaderProps) {
  const now = useEditor((state) => state.selected);
  const finding = useEditor((state) => state.finding);
  const [later, laterFinding] = [useDeferredValue(now), useDeferredValue(finding)];
  return isLarge(props.lineUp) ? (
    <Read {...props} selected={later} open={laterFinding} />
  ) : (
    <Read {...props} selected={now} open={finding} />
  );
}

interface ReadProps extends ReaderProps {
  readonly selected: readonly string[];
  /** Id of the finding that is read. */
  readonly open: string | null;
}

/** A finding, a part with its fields, or the whole list, worst first. */
const Read = memo(function Read({ lineUp, review, selected, open }: ReadProps) {
  const working = useEditor((state) => state.working);
  const reading = useDesk((state) => state.reading);
  const finding = review.findings.find((each) => each.id === open);
  if (finding)
    return (
      <aside className="reader" aria-label="Review" key={finding.id}>
        <FindingView finding={finding} lineUp={lineUp} review={review} />
      </aside>
    );
  const [part, ...others] = selected.length === 0 ? [] : partsOf(lineUp).filter((each) => selected.includes(each.id));
  if (part)
    return (
      <aside className="reader" aria-label="Review" key={selected.join()}>
        <Chosen lineUp={lineUp} review={review} parts={[part, ...others]} />
      </aside>
    );
  return (
    <aside className="reader" aria-label="Review" key="all">
      <h1 className="serif">{working ? `${lineUp.project.title} is being judged…` : headline(lineUp, review)}</h1>
      {groundRules(lineUp) !== '' && <p className="muted">{groundRules(lineUp)}</p>}
      <nav className="ways" aria-label="Ways to read">
        {Object.entries(READINGS).map(([way, words]) => (
          <button key={way} type="button" aria-pressed={reading === way} onClick={() => arrange({ reading: way as Reading })}>
            {words}
          </button>
        ))}
      </nav>
      {reading === 'findings' && <Overview lineUp={lineUp} review={review} />}
      {reading === 'walk' && <RunWalk lineUp={lineUp} review={review} />}
      {reading === 'field' && <FieldSheets lineUp={lineUp} />}
    </aside>
  );
});

function headline({ project, elements }: LineUp, { verdict, counts, runs }: Review): string {
  if (elements.length === 0) return 'Nothing is drawn yet';
  if (runs.length === 0) return 'No motor is fed yet';
  if (verdict === 'fail' || verdict === 'open') return `${project.title} is not ready to issue`;
  return counts.caution > 0
    ? `${project.title} is ready, with ${counts.caution} caution${counts.caution === 1 ? '' : 's'}`
    : `${project.title} is ready`;
}
