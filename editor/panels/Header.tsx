import { lazy, Suspense, useState } from 'react';
import { type LineUp, type Review, VERDICTS } from '../../engine/index.ts';
import { exportPackage } from '../files/exportPackage.ts';
import { openFile, saveFile } from '../files/lineUpFile.ts';
import { edit, showStart, useEditor } from '../store/editorStore.ts';
import { Badge } from './Badge.tsx';
import { nextTheme, type ThemeSetting } from './theme.ts';

/** What is open, where it stands, and the one main action. */
export interface HeaderProps {
  readonly lineUp: LineUp;
  readonly review: Review;
  readonly theme: ThemeSetting;
}

const ExportDialog = lazy(() => import('./ExportDialog.tsx'));

export function Header({ lineUp, review, theme: [theme, setTheme] }: HeaderProps) {
  const saved = useEditor((state) => state.saved);
  const working = useEditor((state) => state.working);
  const [busy, setBusy] = useState(false);
  const [choosing, setChoosing] = useState(false);
  const { project } = lineUp;
  const set = (label: string, change: Partial<LineUp['project']>) =>
    edit(label, (before) => ({ ...before, project: { ...before.project, ...change } }));
  const issue = async () => {
    setBusy(true);
    await exportPackage();
    setBusy(false);
  };
  return (
    <header className="head">
      <button type="button" className="quiet" title="To the start page; this line-up stays open" onClick={() => showStart(true)}>
        Copperline
      </button>
      <input
        className="title"
        aria-label="Title"
        key={project.title}
        defaultValue={project.title}
        onBlur={(event) => event.target.value !== project.title && set('Title', { title: event.target.value.slice(0, 200) })}
        onKeyDown={(event) => event.key === 'Enter' && event.currentTarget.blur()}
      />
      <div className="tally" role="status" aria-label="Verdicts">
        {VERDICTS.slice(0, 5).map((verdict) => (
          <span key={verdict} className={`v-${verdict}`}>
            <Badge verdict={verdict} /> {working ? '…' : `${review.counts[verdict]} ${verdict}`}
          </span>
        ))}
        {working && <span className="muted">working…</span>}
      </div>
      <span className="grow" />
      <span className="muted saved" role="status" aria-label="Saving" data-testid="saved">
        {saved.split(' in ')[0]}
        {saved.includes(' in ') && <span className="wide"> in {saved.split(' in ')[1]}</span>}
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
      <button
        type="button"
        className="quiet theme"
        onClick={() => setTheme(nextTheme(theme))}
        aria-label={`Theme: ${theme}`}
        title={`Theme: ${theme}`}
      >
        <svg viewBox="0 0 16 16" aria-hidden="true">
          <circle cx="8" cy="8" r="6" fill="none" stroke="currentColor" strokeWidth="1.5" />
          {theme !== 'light' && (
            <path d={theme === 'dark' ? 'M2 8a6 6 0 1 0 12 0a6 6 0 1 0 -12 0' : 'M8 2a6 6 0 0 1 0 12z'} fill="currentColor" />
          )}
        </svg>
      </button>
      <button type="button" className="quiet" title="Choose sheets, or one form of the package" onClick={() => setChoosing(true)}>
        Export…
      </button>
      {choosing && (
        <Suspense>
          <ExportDialog review={review} onClose={() => setChoosing(false)} />
        </Suspense>
      )}
      <button type="button" className="main" disabled={busy} onClick={() => void issue()}>
        Issue package
      </button>
    </header>
  );
}
