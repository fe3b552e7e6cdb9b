import { useState } from 'react';
import { type LineUp, lastIssue, load, type Review } from '../../engine/index.ts';
import { EVERY_SHEET, FORMATS, type Format, SHEET_KINDS, usualSheets } from '../../engine/submittal/formats.ts';
import { exportPackage } from '../files/exportPackage.ts';
import { refuse, useEditor } from '../store/editorStore.ts';
import { useSay } from '../store/useSay.ts';
import { Dialog } from './Dialog.tsx';
import { late } from './late.tsx';

const savePicture = () => import('../files/picture.ts').then((picture) => picture.savePicture());
const PackagePreview = late(() => import('./PackagePreview.tsx'));

const WRITING = 'Writing…';

export interface ExportDialogProps {
  readonly lineUp: LineUp;
  readonly review: Review;
  readonly onClose: () => void;
}

/** Which sheets the set and the report hold, and the forms in which the package can be handed over one by one; what changed since an earlier issue is clouded where one is named. */
export default function ExportDialog({ lineUp, review, onClose }: ExportDialogProps) {
  const say = useSay();
  const [sheets, setSheets] = useState(() => usualSheets(lineUp, review));
  const [against, setAgainst] = useState<LineUp | null>(null);
  const last = lastIssue(lineUp);
  const [told, setTold] = useState('');
  const [looking, setLooking] = useState(false);
  const choice = { sheets, ...(against ? { against } : {}) };
  const hand = async (form: string, write: () => Promise<void>) => {
    refuse(null);
    setTold(WRITING);
    await write();
    // What went wrong is said behind this dialog too.
    setTold(useEditor.getState().reason ?? `${form} is handed to the browser.`);
  };
  const compare = async (file: File | undefined) => {
    const loaded = file ? load(await file.text(), file.name) : null;
    setAgainst(loaded?.ok ? loaded.lineUp : null);
    setTold(loaded && !loaded.ok ? `${loaded.where}: ${loaded.what}. ${loaded.mend}` : '');
    if (loaded?.ok && !sheets.includes('revisions')) setSheets([...sheets, 'revisions']);
  };
  return (
    <Dialog title="Sheets and forms" className="export" onClose={onClose}>
      <fieldset>
        <legend>Sheets of the set and of the report</legend>
        {EVERY_SHEET.map((each) => (
          <label key={each}>
            <input
              type="checkbox"
              checked={sheets.includes(each)}
              onChange={(event) => setSheets(event.target.checked ? [...sheets, each] : sheets.filter((other) => other !== each))}
            />
            {say(SHEET_KINDS[each])}
          </label>
        ))}
      </fieldset>
      <label>
        Compare with an earlier issue
        {last && <span className="muted">rather than with revision {last.revision}, the last</span>}
        <input type="file" accept=".json" onChange={(event) => void compare(event.target.files?.[0])} />
      </label>
      <ul aria-label="Forms">
        {(Object.keys(FORMATS) as Format[]).map((format) => (
          <li key={format}>
            <button
              type="button"
              disabled={told === WRITING || (sheets.length === 0 && (format === 'pdf' || format === 'html'))}
              onClick={() => void hand(format.toUpperCase(), () => exportPackage(format, choice))}
            >
              {format.toUpperCase()}
            </button>
            {FORMATS[format]}
            {format === 'pdf' && (
              <button type="button" className="quiet" disabled={sheets.length === 0} onClick={() => setLooking(true)}>
                Look at it first
              </button>
            )}
          </li>
        ))}
        <li>
          <button type="button" disabled={told === WRITING} onClick={() => void hand('PNG', savePicture)}>
            PNG
          </button>
          The one-line as it is on the screen, 300 dots an inch
        </li>
      </ul>
      <p className="muted" role="status">
        {told}
      </p>
      {looking && <PackagePreview choice={choice} onClose={() => setLooking(false)} />}
    </Dialog>
  );
}
