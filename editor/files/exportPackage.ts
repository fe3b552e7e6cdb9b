import type { LineUp } from '../../engine/index.ts';
import type { Format, SheetKind, Step, Written } from '../../engine/submittal/formats.ts';
import { refuse, whenJudged } from '../store/editorStore.ts';
import { startThread } from '../store/threads.ts';
import type { PackageOrder, WriterSays } from './packageWorker.ts';

export interface PackageChoice {
  /** What left the house under this date, rather than the line-up that is open; it is judged where it is written. */
  readonly issued?: { readonly lineUp: LineUp; readonly date: string };
  readonly sheets?: readonly SheetKind[];
  /** The line-up as it was issued before. */
  readonly against?: LineUp;
}
export interface Watch {
  /** Ends the writing: nothing is written then. */
  readonly signal: AbortSignal;
  readonly onStep: (step: Step) => void;
}
export interface Ready extends Written {
  readonly lineUp: LineUp;
}

/**
 * Writes the package in one form, on a thread of its own, never with a review that is not of this very document. Writers and fonts are
 * fetched only now. Null where it was cancelled, or was not written, which is said.
 */
export async function writePackage(format: Format, { issued, ...choice }: PackageChoice, watch?: Watch): Promise<Ready | null> {
  try {
    const { lineUp, review } = issued ? { ...issued, review: undefined } : await whenJudged();
    const fontsAt = new URL(`${import.meta.env.BASE_URL}fonts/`, document.baseURI).href;
    const date = lineUp.project.date ?? issued?.date ?? new Date().toISOString().slice(0, 10);
    const written = await onThread({ format, lineUp, review, date, fontsAt, ...choice }, watch);
    return written && { lineUp, ...written };
  } catch (fault) {
    refuse(`The package was not written: ${fault instanceof Error ? fault.message : String(fault)}`);
    return null;
  }
}

/** Writes the package in one form and hands it to the browser. */
export async function exportPackage(format: Format = 'pdf', choice: PackageChoice = {}): Promise<void> {
  const ready = await writePackage(format, choice);
  if (ready) hand(ready);
}

const onThread = (order: PackageOrder, watch?: Watch): Promise<Written | null> =>
  new Promise((resolve, reject) => {
    if (watch?.signal.aborted) return resolve(null);
    const worker = startThread('packageWriter');
    const end = (settle: () => void): void => {
      worker.terminate();
      settle();
    };
    worker.onmessage = ({ data }: MessageEvent<WriterSays>) => {
      if ('bytes' in data) end(() => resolve(data));
      else watch?.onStep(data);
    };
    worker.onerror = ({ message }) => end(() => reject(new Error(message || 'its writer did not start')));
    watch?.signal.addEventListener('abort', () => end(() => resolve(null)));
    worker.postMessage(order);
  });

export function hand({ lineUp, ending, bytes }: Ready): void {
  const address = URL.createObjectURL(new Blob([bytes as BlobPart]));
  const link = document.createElement('a');
  link.href = address;
  link.download = `${[lineUp.project.number ?? lineUp.project.title, lineUp.project.revision]
    .filter(Boolean)
    .join('_')
    .replaceAll(/[^\p{L}\p{N}_-]+/gu, '-')}${ending}`;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}
