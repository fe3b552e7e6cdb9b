import { type KeyboardEvent, useDeferredValue, useState } from 'react';
import type { Finding } from '../../engine/index.ts';
import { showFinding } from '../store/editorStore.ts';
import { Badge, Word } from './Badge.tsx';
import { Unbroken } from './Unbroken.tsx';

/** Arrows go from finding to finding, over the ends of the lists; Home and End to the first and last. */
export function walkFindings(event: KeyboardEvent): void {
  const all = [...document.querySelectorAll<HTMLElement>('.reader .finding')];
  const at = all.indexOf(event.target as HTMLElement);
  const to = { ArrowDown: all[at + 1], ArrowUp: all[at - 1], Home: all[0], End: all.at(-1) }[event.key];
  if (!to) return;
  event.preventDefault();
  to.focus();
}

/** Nobody reads further in one go, and a site has thousands: more are drawn when asked for. */
const A_GO = 100;
/** More than are in sight at first; the others follow when the hand has been answered. */
const AT_ONCE = 24;

export function FindingList({ findings }: { readonly findings: readonly Finding[] }) {
  const [most, setMost] = useState(A_GO);
  const drawn = useDeferredValue(Math.min(most, findings.length), Math.min(AT_ONCE, findings.length));
  const left = findings.length - most;
  return (
    <>
      <ul className="plain" aria-label="Findings">
        {findings.slice(0, drawn).map((each) => (
          <li key={each.id}>
            <button type="button" className="finding" data-finding={each.id} onKeyDown={walkFindings} onClick={() => showFinding(each.id)}>
              <span className="top">
                <Badge verdict={each.verdict} />
                <Word verdict={each.verdict} /> <b>{each.title}</b> <span className="muted">{each.subject.tag}</span>
              </span>
              <span className="muted said">
                <Unbroken text={each.text} />
              </span>
            </button>
          </li>
        ))}
      </ul>
      {left > 0 && (
        <button type="button" className="quiet" onClick={() => setMost(most + A_GO)}>
          {Math.min(A_GO, left)} more of {left}
        </button>
      )}
    </>
  );
}
