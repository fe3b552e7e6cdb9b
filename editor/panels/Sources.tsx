import { inWords, type Review, sourcesPage, TERMS } from '../../engine/index.ts';
import { useSay } from '../store/useSay.ts';
import { Dialog } from './Dialog.tsx';

/** Every check with its rule and on whose word, and every table, with examples out of the open line-up. */
export default function Sources({ review, onClose }: { readonly review: Review; readonly onClose: () => void }) {
  const page = inWords(sourcesPage([review]), useSay());
  return (
    <Dialog title="Checks and sources" className="sources" onClose={onClose}>
      {page.checks.map((check) => (
        <details key={check.slug}>
          <summary>{check.title}</summary>
          <p className="reason">{check.why}</p>
          <dl>
            <dt>Rule</dt>
            <dd>{check.rule}</dd>
            <dt>On whose word</dt>
            <dd>
              {check.authority}: {check.source}
            </dd>
            {check.assumptions.length > 0 && (
              <>
                <dt>Took as given</dt>
                {check.assumptions.map((each) => (
                  <dd key={each}>{each}</dd>
                ))}
              </>
            )}
            {check.example && (
              <>
                <dt>Here</dt>
                <dd>{check.example.text}</dd>
                {check.example.working.map((each) => (
                  <dd key={each} className="muted">
                    {each}
                  </dd>
                ))}
              </>
            )}
          </dl>
        </details>
      ))}
      <h2>Tables</h2>
      <table>
        <thead>
          <tr>
            <th scope="col">Table</th>
            <th scope="col">Source</th>
            <th scope="col">Edition</th>
            <th scope="col">Status</th>
          </tr>
        </thead>
        <tbody>
          {page.tables.map((each) => (
            <tr key={`${each.title}/${each.source}`}>
              <td>{each.title}</td>
              <td>{each.source}</td>
              <td>{each.edition}</td>
              <td>{each.status}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <h2>Words</h2>
      <p className="muted">The project says in which of them sentences are said; no number changes with them.</p>
      <table>
        <thead>
          <tr>
            <th scope="col">US</th>
            <th scope="col">IEC</th>
          </tr>
        </thead>
        <tbody>
          {TERMS.filter(([us, iec]) => us !== iec).map(([us, iec]) => (
            <tr key={us}>
              <td>{us}</td>
              <td>{iec}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </Dialog>
  );
}
