import { useEffect, useState } from 'react';
import { type Newer, switchVersion, watchVersions } from '../offline/versions.ts';
import { refuse } from '../store/editorStore.ts';
import '../ui/newer.css';

/** A newer version of the program is there: it comes when it is asked to. */
export default function NewerVersion() {
  const [newer, setNewer] = useState<Newer | null>(null);
  useEffect(() => void watchVersions(setNewer), []);
  const update = async () => {
    if (!(await switchVersion()))
      refuse('The work could not be kept in this browser, so the version stays as it is. Save it to a file, then update.');
  };
  return (
    <div role="status" aria-label="Version" className={newer ? 'newer' : ''}>
      {newer && (
        <>
          <span>
            {newer === 'waits' ? 'A newer version is ready.' : 'Another tab went over to a newer version.'} The line-up stays; undo begins
            anew.
          </span>
          <button type="button" onClick={() => void update()}>
            Update now
          </button>
          <button type="button" className="quiet" onClick={() => setNewer(null)}>
            Later
          </button>
        </>
      )}
    </div>
  );
}
