import { useEffect, useRef } from 'react';
import { type Finding, figureText, fixed, type LineUp, type Review } from '../../engine/index.ts';
import { commandOf, run as perform } from '../commands/commands.ts';
import { tooltip } from '../commands/keyboard.ts';
import { select, showFinding } from '../store/editorStore.ts';
import { Badge, Word } from './Badge.tsx';
import { Folded } from './Folded.tsx';
import { late } from './late.tsx';
import { Steps } from './Steps.tsx';
import { Unbroken } from './Unbroken.tsx';

const WavePicture = late(() => import('./WavePicture.tsx'));
const WhatHelps = late(() => import('./WhatHelps.tsx'));

export interface FindingViewProps {
  readonly finding: Finding;
  readonly lineUp: LineUp;
  readonly review: Review;
}

const CONFIDENCE = {
  good: 'good estimate',
  fair: 'fair estimate',
  rough: 'rough estimate',
  'order of magnitude': 'order of magnitude only',
} as const satisfies Record<NonNullable<Finding['band']>['confidence'], string>;

/** One finding in full: the sentence, the number against its limit, why, what to do, and on what it rests. */
export default function FindingView({ finding, lineUp, review }: FindingViewProps) {
  const run = finding.check === 'motor-peak-voltage' ? review.runs.find((each) => each.motorId === finding.subject.id) : undefined;
  const { value, limit, margin_pct } = finding;
  const said = (number: number): string => figureText(finding, number, lineUp.project.units);
  const part = [...lineUp.elements, ...lineUp.cables].find((each) => each.id === finding.subject.id);
  const missing = finding.missing[0];
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => heading.current?.focus(), []);
  const back = () => {
    showFinding(null);
    requestAnimationFrame(() => document.querySelector<HTMLElement>(`[data-finding="${CSS.escape(finding.id)}"]`)?.focus());
  };
  return (
    <article>
      <Steps
        step={(by) => perform(by > 0 ? 'nextFinding' : 'lastFinding')}
        titles={[tooltip(commandOf('lastFinding')), tooltip(commandOf('nextFinding'))]}
      >
        <button type="button" className="quiet" onClick={back}>
          Back
        </button>
      </Steps>
      <p style={{ display: 'flex', gap: 6, alignItems: 'center' }}>
        <Badge verdict={finding.verdict} />
        <Word verdict={finding.verdict} />
        <span className="muted">{finding.subject.tag}</span>
      </p>
      <h1 className="serif" tabIndex={-1} ref={heading}>
        {finding.title}
      </h1>
      <p className="reason said">
        <Unbroken text={finding.text} />
      </p>
      {value !== null && (
        <dl>
          <dt>{finding.quantity}</dt>
          <dd className="number said">{said(value)}</dd>
          {finding.band && (
            <>
              <dt>Between</dt>
              <dd>
                {said(finding.band.low)} and {said(finding.band.high)} ({CONFIDENCE[finding.band.confidence]})
              </dd>
            </>
          )}
          {limit !== null && (
            <>
              <dt>Limit</dt>
              <dd className="said">{said(limit)}</dd>
            </>
          )}
          {margin_pct !== null && (
            <>
              <dt>Margin</dt>
              <dd className="said">{fixed(margin_pct, 1)} %</dd>
            </>
          )}
        </dl>
      )}
      {run && <WavePicture lineUp={lineUp} run={run} limit_V={limit} />}
      {finding.missing.length > 0 && (
        <section>
          <h2>What is missing</h2>
          <ul>
            {finding.missing.map((each) => (
              <li key={`${each.id}/${each.field}`}>
                {each.named}. Ask: {each.ask}.
              </li>
            ))}
          </ul>
        </section>
      )}
      <section>
        <h2>Why it matters</h2>
        <p className="reason">{finding.why}</p>
      </section>
      {finding.remedies.length > 0 && (
        <section>
          <h2>What to do</h2>
          <ul>
            {finding.remedies.map((each) => (
              <li key={each}>{each}</li>
            ))}
          </ul>
        </section>
      )}
      {(['fail', 'caution'].includes(finding.verdict) || finding.fixes.length > 0) && (
        <Folded summary="What would help">{() => <WhatHelps lineUp={lineUp} finding={finding} />}</Folded>
      )}
      <section>
        <h2>On whose word</h2>
        <p>
          {finding.authority}: {finding.source}
        </p>
      </section>
      {finding.assumptions.length > 0 && (
        <section>
          <h2>Took as given</h2>
          <ul>
            {finding.assumptions.map((each) => (
              <li key={each.what}>
                {each.what}: {each.value} ({each.source})
              </li>
            ))}
          </ul>
        </section>
      )}
      {finding.inputs.length + finding.working.length > 0 && (
        <details>
          <summary>Show working</summary>
          {finding.case && <p>Case: {finding.case === 'rated' ? 'rated load at nominal line' : finding.case}.</p>}
          {finding.inputs.length > 0 && (
            <table className="inputs">
              <tbody>
                {finding.inputs.map((each) => (
                  <tr key={`${each.what}/${each.value}`}>
                    <th scope="row">{each.what}</th>
                    <td>{each.value}</td>
                    <td className="muted">
                      {each.origin}
                      {each.source && `, ${each.source}`}
                    </td>
                  </tr>
                ))}
              </tbody>
            </table>
          )}
          <ol>
            {finding.working.map((each) => (
              <li key={each} className="said">
                {each}
              </li>
            ))}
          </ol>
        </details>
      )}
      {(missing || part) && (
        <button type="button" onClick={() => select(missing?.id === '' || !part ? [] : [missing?.id ?? part.id], missing?.field ?? null)}>
          Go to the field
        </button>
      )}
    </article>
  );
}
