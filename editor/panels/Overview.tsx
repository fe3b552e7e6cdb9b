import { useState } from 'react';
import type { LineUp, Review } from '../../engine/index.ts';
import { AllFindings } from './AllFindings.tsx';
import { Folded } from './Folded.tsx';
import { late } from './late.tsx';
import { Outline } from './Outline.tsx';
import { ProjectForm } from './ProjectForm.tsx';

export interface OverviewProps {
  readonly lineUp: LineUp;
  readonly review: Review;
}

/** What is said of the whole line-up while no part of it is chosen: its findings, its parts, what holds for all of them, and on whose word. */
export default function Overview({ lineUp, review }: OverviewProps) {
  return (
    <>
      {lineUp.elements.length === 0 && (
        <p className="reason narrow">A screen as small as this draws nothing. Say it in five numbers on the first page, or open a file.</p>
      )}
      <AllFindings findings={review.findings} />
      {review.runs.length > 0 && <Folded summary="Which unknown matters">{() => <WhichUnknowns lineUp={lineUp} />}</Folded>}
      <Outline lineUp={lineUp} review={review} />
      <ProjectForm project={lineUp.project} />
      <SourcesButton review={review} />
      <p className="muted">A design aid. Local codes, the makers’ instructions and a licensed engineer decide.</p>
    </>
  );
}

const WhichUnknowns = late(() => import('./WhichUnknowns.tsx'));
const Sources = late(() => import('./Sources.tsx'));

function SourcesButton({ review }: { readonly review: Review }) {
  const [shown, setShown] = useState(false);
  return (
    <p>
      <button type="button" className="quiet" onClick={() => setShown(true)}>
        Checks and sources
      </button>
      {shown && <Sources review={review} onClose={() => setShown(false)} />}
    </p>
  );
}
