import { type SyntheticEvent, useEffect, useRef, useState } from 'react';
import type { Step } from '../../engine/submittal/formats.ts';
import { hand, type PackageChoice, type Ready, writePackage } from '../files/exportPackage.ts';

/** The set of sheets as it would be handed over, in the browser's own reader; while it is written, how far it is. */
export default function PackagePreview({ choice, onClose }: { readonly choice: PackageChoice; readonly onClose: () => void }) {
  const dialog = useRef<HTMLDialogElement>(null);
  const [step, setStep] = useState<Step | null>(null);
  const [shown, setShown] = useState<{ readonly ready: Ready; readonly address: string } | null>(null);
  // Chosen once: behind this dialog the choice stays as it is.
  const [asked] = useState(choice);
  useEffect(() => {
    dialog.current?.showModal();
    const writing = new AbortController();
    let address = '';
    void writePackage('pdf', asked, { signal: writing.signal, onStep: setStep }).then((ready) => {
      if (writing.signal.aborted) return;
      if (!ready) return dialog.current?.close();
      address = URL.createObjectURL(new Blob([ready.bytes as BlobPart], { type: 'application/pdf' }));
      setShown({ ready, address });
    });
    return () => {
      writing.abort();
      URL.revokeObjectURL(address);
    };
  }, [asked]);
  // Not to the dialog that it was asked for in: that one stays.
  const closed = (event: SyntheticEvent): void => {
    event.stopPropagation();
    onClose();
  };
  return (
    <dialog ref={dialog} className="preview" aria-label="The set of sheets" onClose={closed}>
      <p className="top">
        <b className="serif">The set of sheets</b>
        <span className="grow" />
        {shown && (
          <button type="button" onClick={() => hand(shown.ready)}>
            Hand it over
          </button>
        )}
        <button type="button" onClick={() => dialog.current?.close()}>
          {shown ? 'Close' : 'Cancel'}
        </button>
      </p>
      {!shown && (
        <div className="wait">
          <progress aria-label="Sheets written" max={step?.of ?? 1} value={step?.done ?? 0} />
          <p className="muted" role="status">
            {step ? `Writing: ${step.what}` : 'Writing…'}
          </p>
        </div>
      )}
      {shown &&
        (navigator.pdfViewerEnabled ? (
          <iframe title="Sheets of the set" src={shown.address} />
        ) : (
          <p className="wait">
            This browser shows no PDF files in a page. Hand the set over and open the file with a program that reads them.
          </p>
        ))}
    </dialog>
  );
}
