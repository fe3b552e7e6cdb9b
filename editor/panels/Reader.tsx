import type { Finding, LineUp, Review } from '../../engine/index.ts';
import { select, showFinding, useEditor } from '../store/editorStore.ts';
import { Badge } from './Badge.tsx';
import { FindingView } from './FindingView.tsx';
import { Inspector } from './Inspector.tsx';
import { Outline } from './Outline.tsx';
import { ProjectForm } from './ProjectForm.tsx';

/** What the selection needs said: a finding, a part with its fields, or the whole list, worst first. */
export function Reader({ lineUp, review }: { readonly lineUp: LineUp; readonly review: Review }) {
  const selected = useEditor((state) => state.selected);
  const open = useEditor((state) => state.finding);
  const finding = review.findings.find((each) => each.id === open);
  if (finding)
    return (
      <aside className="reader" aria-label="Review" key={finding.id}>
        <FindingView finding={finding} lineUp={lineUp} />
      </aside>
    );
  const part = [...lineUp.elements, ...lineUp.cables].find((each) => each.id === selected[0]);
  if (part) {
    const own = review.findings.filter((each) => each.subject.id === part.id);
    return (
      <aside className="reader" aria-label="Review" key={part.id}>
        <button type="button" className="quiet" onClick={() => select([])}>
          All findings
        </button>
        <h1 className="serif">{part.tag}</h1>
        {selected.length > 1 && <p className="muted">{selected.length} parts selected; the first is shown.</p>}
        <FindingList findings={own.filter(speaks)} />
        <Passes findings={own} />
        <Inspector part={part} units={lineUp.project.units} />
      </aside>
    );
  }
  const said = review.findings.filter(speaks);
  return (
    <aside className="reader" aria-label="Review" key="all">
      <h1 className="serif">{headline(lineUp, review)}</h1>
      <FindingList findings={said} />
      <Passes findings={review.findings} />
      <Outline lineUp={lineUp} review={review} />
      <ProjectForm project={lineUp.project} />
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

/** What passes is quiet: it stands folded under its count. */
const speaks = ({ verdict }: Finding): boolean => verdict !== 'pass' && verdict !== 'not-applicable';

function Passes({ findings }: { readonly findings: readonly Finding[] }) {
  const passes = findings.filter((each) => each.verdict === 'pass');
  return passes.length === 0 ? null : (
    <details>
      <summary>{passes.length} pass</summary>
      <FindingList findings={passes} />
    </details>
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
            <span className="muted">{each.text}</span>
          </button>
        </li>
      ))}
    </ul>
  );
}
