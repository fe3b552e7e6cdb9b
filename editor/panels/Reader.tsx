import { lazy, Suspense, useState } from 'react';
import { type Finding, groundRules, type LineUp, type Review } from '../../engine/index.ts';
import { partsOf } from '../commands/related.ts';
import { select, showFinding, useEditor } from '../store/editorStore.ts';
import { Badge } from './Badge.tsx';
import { FindingView } from './FindingView.tsx';
import { Folded } from './Folded.tsx';
import { Inspector } from './Inspector.tsx';
import { Outline } from './Outline.tsx';
import { ProjectForm } from './ProjectForm.tsx';

/** What the selection needs said: a finding, a part with its fields, or the whole list, worst first. */
export function Reader({ lineUp, review }: { readonly lineUp: LineUp; readonly review: Review }) {
  const selected = useEditor((state) => state.selected);
  const open = useEditor((state) => state.finding);
  const working = useEditor((state) => state.working);
  const finding = review.findings.find((each) => each.id === open);
  if (finding)
    return (
      <aside className="reader" aria-label="Review" key={finding.id}>
        <FindingView finding={finding} lineUp={lineUp} review={review} />
      </aside>
    );
  const [part, ...others] = partsOf(lineUp).filter((each) => selected.includes(each.id));
  if (part) {
    const own = review.findings.filter((each) => selected.includes(each.subject.id));
    return (
      <aside className="reader" aria-label="Review" key={selected.join()}>
        <button type="button" className="quiet" onClick={() => select([])}>
          All findings
        </button>
        <h1 className="serif">{others.length === 0 ? part.tag : `${others.length + 1} parts selected`}</h1>
        {others.length > 0 && (
          <p className="muted">
            {[part, ...others].map((each) => each.tag).join(', ')}. A value that is typed here is given to all of them.
          </p>
        )}
        <Said findings={own} />
        <Passes findings={own} />
        <Inspector parts={[part, ...others]} units={lineUp.project.units} others={lineUp.cables} />
      </aside>
    );
  }
  return (
    <aside className="reader" aria-label="Review" key="all">
      <h1 className="serif">{working ? `${lineUp.project.title} is being judged…` : headline(lineUp, review)}</h1>
      {groundRules(lineUp) !== '' && <p className="muted">{groundRules(lineUp)}</p>}
      <Said findings={review.findings} />
      <Passes findings={review.findings} />
      <Outline lineUp={lineUp} review={review} />
      <ProjectForm project={lineUp.project} />
      <SourcesButton review={review} />
      <p className="muted">A design aid. Local codes, the makers’ instructions and a licensed engineer decide.</p>
    </aside>
  );
}

function headline({ project, elements }: LineUp, { verdict, counts, runs }: Review): string {
  if (elements.length === 0) return 'Nothing is drawn yet';
  if (runs.length === 0) return 'No motor is fed yet';
  if (verdict === 'fail' || verdict === 'open') return `${project.title} is not ready to issue`;
  return counts.caution > 0
    ? `${project.title} is ready, with ${counts.caution} caution${counts.caution === 1 ? '' : 's'}`
    : `${project.title} is ready`;
}

const Sources = lazy(() => import('./Sources.tsx'));

function SourcesButton({ review }: { readonly review: Review }) {
  const [shown, setShown] = useState(false);
  return (
    <p>
      <button type="button" className="quiet" onClick={() => setShown(true)}>
        Checks and sources
      </button>
      {shown && (
        <Suspense>
          <Sources review={review} onClose={() => setShown(false)} />
        </Suspense>
      )}
    </p>
  );
}

/** More than this many open questions are folded, so that they do not bury the cautions below them. */
const FEW = 4;

/** What speaks: fails, then what cannot be judged yet, then cautions and notes. What passes is quiet, folded under its count. */
function Said({ findings }: { readonly findings: readonly Finding[] }) {
  const open = findings.filter(({ verdict }) => verdict === 'open');
  const fails = findings.filter(({ verdict }) => verdict === 'fail');
  const rest = findings.filter(({ verdict }) => !['fail', 'open', 'pass', 'not-applicable'].includes(verdict));
  if (open.length <= FEW) return <FindingList findings={[...fails, ...open, ...rest]} />;
  const asked = new Map<string, number>();
  for (const each of open) for (const ask of new Set(each.missing.map((one) => one.ask))) asked.set(ask, (asked.get(ask) ?? 0) + 1);
  return (
    <>
      {fails.length > 0 && <FindingList findings={fails} />}
      <Folded
        summary={
          <>
            <Badge verdict="open" /> <span className="said">{open.length} cannot be judged yet</span>
            <span className="muted said">
              {[...asked]
                .sort((a, b) => b[1] - a[1])
                .map(([ask, count]) => ` · ${ask} ${count}`)
                .join('')}
            </span>
          </>
        }
      >
        {() => <FindingList findings={open} />}
      </Folded>
      {rest.length > 0 && <FindingList findings={rest} />}
    </>
  );
}

function Passes({ findings }: { readonly findings: readonly Finding[] }) {
  const passes = findings.filter((each) => each.verdict === 'pass');
  return passes.length === 0 ? null : (
    <Folded summary={<span className="said">{passes.length} pass</span>}>{() => <FindingList findings={passes} />}</Folded>
  );
}

function FindingList({ findings }: { readonly findings: readonly Finding[] }) {
  return (
    <ul className="plain" aria-label="Findings">
      {findings.map((each) => (
        <li key={each.id}>
          <button type="button" className="finding" data-finding={each.id} onClick={() => showFinding(each.id)}>
            <span className="top">
              <Badge verdict={each.verdict} />
              <span className={`word v-${each.verdict}`}>{each.verdict}</span> <b>{each.title}</b>{' '}
              <span className="muted">{each.subject.tag}</span>
            </span>
            <span className="muted said">{each.text}</span>
          </button>
        </li>
      ))}
    </ul>
  );
}
