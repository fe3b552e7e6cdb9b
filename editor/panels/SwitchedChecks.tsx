import { useState } from 'react';
import { CHECKS, type LineUp } from '../../engine/index.ts';
import { edit } from '../store/editorStore.ts';
import { switchCheck } from '../store/edits.ts';

/** Checks that this project does not want judged. Each says why, and is printed with its reason wherever results are. */
export function SwitchedChecks({ project }: { readonly project: LineUp['project'] }) {
  const [slug, setSlug] = useState('');
  const [reason, setReason] = useState('');
  const off = CHECKS.filter((check) => project.checks[check.slug]?.off);
  const ready = slug !== '' && reason.trim() !== '';
  return (
    <section>
      <h2>Checks switched off</h2>
      {off.length === 0 && <p className="muted">None.</p>}
      <ul className="plain">
        {off.map((check) => (
          <li key={check.slug}>
            <b>{check.title}</b>: {project.checks[check.slug]?.reason ?? 'no reason given'}{' '}
            <button type="button" className="quiet" onClick={() => edit('Switch on', (before) => switchCheck(before, check.slug, null))}>
              Judge it again
            </button>
          </li>
        ))}
      </ul>
      <form
        className="field"
        onSubmit={(event) => {
          event.preventDefault();
          if (!ready) return;
          edit('Switch off', (before) => switchCheck(before, slug, reason.trim()));
          setSlug('');
          setReason('');
        }}
      >
        <select aria-label="Check to switch off" value={slug} onChange={(event) => setSlug(event.target.value)}>
          <option value="">Choose a check</option>
          {CHECKS.filter((check) => !off.includes(check)).map((check) => (
            <option key={check.slug} value={check.slug}>
              {check.title}
            </option>
          ))}
        </select>
        <input
          aria-label="Reason for switching it off"
          placeholder="Why it is not judged here"
          value={reason}
          maxLength={1000}
          onChange={(event) => setReason(event.target.value)}
        />
        <button type="submit" disabled={!ready}>
          Switch off
        </button>
      </form>
    </section>
  );
}
