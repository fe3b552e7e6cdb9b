import { isTooNew, type LineUp, type Review } from '../../engine/index.ts';
import { commandOf, run } from '../commands/commands.ts';
import { keyText, tooltip } from '../commands/keyboard.ts';
import { arrange, useDesk } from '../store/deskStore.ts';
import { edit, useEditor } from '../store/editorStore.ts';
import { late } from './late.tsx';
import { Tally } from './Tally.tsx';
import { useTheme } from './theme.ts';

/** What is open, where it stands, and the one main action. */
export interface HeaderProps {
  readonly lineUp: LineUp;
  readonly review: Review;
  /** With a change that is only tried: what the tally counts. */
  readonly shown: Review;
}

/** What the sign of what is kept means: by a hover, a tap or a key. */
const WHY = {
  'saved in this browser': 'Every edit is kept in this browser, on this machine alone. Save to a file what others need.',
  'kept in this browser only': 'It may clear what it keeps when room grows short. Save to a file what must last.',
  'saving…': 'The last edit is being written.',
  'not saved': 'The browser could not keep the last edit. Save to a file before you leave this page.',
  'saved to file': 'The file holds all that you see here. The next edit is kept in this browser until you save again.',
  'read-only in this tab': 'Another tab edits this line-up, and this one shows it. Take over to edit it here.',
  'read-only in this program': 'A newer program wrote this line-up, and only that may change it.',
} as const;
const WHY_ID = 'saved-why';

/** What a phone has no room for in its head stands in a menu there, which goes when something of it is taken. */
const MENU = 'head-menu';
const take = (id: string): void => {
  document.getElementById(MENU)?.hidePopover();
  run(id);
};

const ExportDialog = late(() => import('./ExportDialog.tsx'));

export function Header({ lineUp, review, shown }: HeaderProps) {
  const saved = useEditor((state) =>
    state.following ? 'read-only in this tab' : isTooNew(lineUp) ? 'read-only in this program' : state.saved,
  );
  const [short, where] = saved.split(/ (?=in |to )/);
  const following = useEditor((state) => state.following);
  const theme = useTheme((state) => state.theme);
  const exporting = useDesk((state) => state.exporting);
  const issuing = useDesk((state) => state.issuing);
  const { project } = lineUp;
  const set = (label: string, change: Partial<LineUp['project']>) =>
    edit(label, (before) => ({ ...before, project: { ...before.project, ...change } }));
  return (
    <header className="head">
      <button type="button" className="quiet" title="To the start page; this line-up stays open" onClick={() => run('startPage')}>
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
      <Tally counts={shown.counts} />
      <button type="button" className="finder" onClick={() => run('palette')} title={tooltip(commandOf('palette'))}>
        <span className="wide">Find a tag, or do something</span>
        <span className="short">Find</span> <kbd className="wide">{keyText('Ctrl+K')}</kbd>
      </button>
      <span className="grow" />
      <span className="saved" role="status" aria-label="Saving" data-testid="saved">
        <button type="button" popoverTarget={WHY_ID} title={`${saved}. ${WHY[saved]}`}>
          {short}
          {where !== undefined && <span className="wide"> {where}</span>}
        </button>
      </span>
      <p id={WHY_ID} className="over" popover="auto">
        <b>{saved}</b>. {WHY[saved]}
      </p>
      <button type="button" className="quiet menued" popoverTarget={MENU}>
        Menu
      </button>
      <div id={MENU} className="more over" popover="auto">
        <button type="button" className="quiet" onClick={() => take('open')} title={tooltip(commandOf('open'))}>
          Open…
        </button>
        <button type="button" className="quiet" onClick={() => take('save')} title={tooltip(commandOf('save'))}>
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
        <button type="button" className="quiet theme" onClick={() => run('theme')} aria-label={`Theme: ${theme}`} title={`Theme: ${theme}`}>
          <svg viewBox="0 0 16 16" aria-hidden="true">
            <circle cx="8" cy="8" r="6" fill="none" stroke="currentColor" strokeWidth="1.5" />
            {theme !== 'light' && (
              <path d={theme === 'dark' ? 'M2 8a6 6 0 1 0 12 0a6 6 0 1 0 -12 0' : 'M8 2a6 6 0 0 1 0 12z'} fill="currentColor" />
            )}
          </svg>
        </button>
        <button type="button" className="quiet" title={tooltip(commandOf('export'))} onClick={() => take('export')}>
          Export…
        </button>
      </div>
      {exporting && <ExportDialog lineUp={lineUp} review={review} onClose={() => arrange({ exporting: false })} />}
      {following ? (
        <button type="button" className="main" title="Another tab edits this line-up" onClick={() => run('takeOver')}>
          Take over
        </button>
      ) : (
        <button type="button" className="main" disabled={issuing} onClick={() => run('issue')}>
          Issue package
        </button>
      )}
    </header>
  );
}
