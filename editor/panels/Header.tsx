import { useState } from 'react';
import { type LineUp, type Review, VERDICTS } from '../../engine/index.ts';
import { exportPackage } from '../files/exportPackage.ts';
import { openFile, saveFile } from '../files/lineUpFile.ts';
import { closeLineUp, edit, useEditor } from '../store/editorStore.ts';
import { Badge } from './Badge.tsx';
import { nextTheme, useTheme } from './theme.ts';

/** What is open, where it stands, and the one main action. */
export function Header({ lineUp, review }: { readonly lineUp: LineUp; readonly review: Review }) {
  const saved = useEditor((state) => state.saved);
  const [busy, setBusy] = useState(false);
  const [theme, setTheme] = useTheme();
  const { project } = lineUp;
  const set = (label: string, change: Partial<LineUp['project']>) =>
    edit(label, (before) => ({ ...before, project: { ...before.project, ...change } }));
  const issue = async () => {
    setBusy(true);
    await exportPackage(lineUp, review).finally(() => setBusy(false));
  };
  return (
    <header className="head">
      <button type="button" className="quiet" onClick={closeLineUp}>
        Copperline
      </button>
      <input
        className="title"
        aria-label="Title"
        key={project.title}
        defaultValue={project.title}
        onBlur={(event) => event.target.value !== project.title && set('Title', { title: event.target.value })}
      />
      <div className="tally" role="status" aria-label="Verdicts">
        {VERDICTS.slice(0, 5).map((verdict) => (
          <span key={verdict} className={`v-${verdict}`}>
            <Badge verdict={verdict} /> {review.counts[verdict]} {verdict}
          </span>
        ))}
      </div>
      <span className="grow" />
      <span className="muted" data-testid="saved">
        {saved}
      </span>
      <button type="button" className="quiet" onClick={() => void openFile()}>
        Open…
      </button>
      <button type="button" className="quiet" onClick={() => void saveFile()}>
        Save
      </button>
      <select
        aria-label="Basis"
        value={project.basis}
        onChange={(event) => set('Basis', { basis: event.target.value === 'iec' ? 'iec' : 'us' })}
      >
        <option value="us">US practice</option>
        <option value="iec">IEC practice</option>
      </select>
      <select
        aria-label="Units"
        value={project.units}
        onChange={(event) => set('Units', { units: event.target.value === 'metric' ? 'metric' : 'us' })}
      >
        <option value="us">ft · hp</option>
        <option value="metric">m · kW</option>
      </select>
      <button type="button" className="quiet" onClick={() => setTheme(nextTheme(theme))} aria-label={`Theme: ${theme}`}>
        {theme}
      </button>
      <button type="button" className="main" disabled={busy} onClick={() => void issue()}>
        Issue package
      </button>
    </header>
  );
}
