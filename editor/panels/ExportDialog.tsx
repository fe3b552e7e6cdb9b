import { useEffect, useRef, useState } from 'react';
import type { Review } from '../../engine/index.ts';
import { EVERY_SHEET, FORMATS, type Format, SHEET_KINDS, usualSheets } from '../../engine/submittal/formats.ts';
import { exportPackage } from '../files/exportPackage.ts';

/** Which sheets the set and the report hold, and the forms in which the package can be handed over one by one. */
export default function ExportDialog({ review, onClose }: { readonly review: Review; readonly onClose: () => void }) {
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => dialog.current?.showModal(), []);
  const [sheets, setSheets] = useState(() => usualSheets(review));
  const [busy, setBusy] = useState<Format | null>(null);
  const hand = async (format: Format) => {
    setBusy(format);
    await exportPackage(format, sheets);
    setBusy(null);
  };
  return (
    <dialog ref={dialog} className="export" aria-label="Sheets and forms" onClose={onClose}>
      <p className="top">
        <b className="serif">Sheets and forms</b>
        <button type="button" onClick={() => dialog.current?.close()}>
          Close
        </button>
      </p>
      <fieldset>
        <legend>Sheets of the set and of the report</legend>
        {EVERY_SHEET.map((each) => (
          <label key={each}>
            <input
              type="checkbox"
              checked={sheets.includes(each)}
              onChange={(event) => setSheets(event.target.checked ? [...sheets, each] : sheets.filter((other) => other !== each))}
            />
            {SHEET_KINDS[each]}
          </label>
        ))}
      </fieldset>
      <ul aria-label="Forms">
        {(Object.keys(FORMATS) as Format[]).map((format) => (
          <li key={format}>
            <button
              type="button"
              disabled={busy !== null || (sheets.length === 0 && (format === 'pdf' || format === 'html'))}
              onClick={() => void hand(format)}
            >
              {format.toUpperCase()}
            </button>
            {FORMATS[format]}
          </li>
        ))}
      </ul>
      <p className="muted" role="status">
        {busy === null ? '' : 'Writing…'}
      </p>
    </dialog>
  );
}
