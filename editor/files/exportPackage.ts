import type { LineUp } from '../../engine/index.ts';
import type { Format, SheetKind, Written } from '../../engine/submittal/formats.ts';
import { refuse, whenJudged } from '../store/editorStore.ts';
import type { PackageOrder } from './packageWorker.ts';

export interface PackageChoice {
  /** What left the house under this date, rather than the line-up that is open; it is judged where it is written. */
  readonly issued?: { readonly lineUp: LineUp; readonly date: string };
  readonly sheets?: readonly SheetKind[];
  /** The line-up as it was issued before. */
  readonly against?: LineUp;
}

/**
 * Writes the package in one form, on a thread of its own, and hands it to the browser, never with a review that is not of this very
 * document. Writers and fonts are fetched only now.
 */
export async function exportPackage(format: Format = 'pdf', { issued, ...choice }: PackageChoice = {}): Promise<void> {
  try {
    const { lineUp, review } = issued ? { ...issued, review: undefined } : await whenJudged();
    const fontsAt = new URL(`${import.meta.env.BASE_URL}fonts/`, document.baseURI).href;
    const date = lineUp.project.date ?? issued?.date ?? new Date().toISOString().slice(0, 10);
    hand(lineUp, await written({ format, lineUp, review, date, fontsAt, ...choice }));
  } catch (fault) {
    refuse(`The package was not written: ${fault instanceof Error ? fault.message : String(fault)}`);
  }
}

const written = (order: PackageOrder): Promise<Written> =>
  new Promise<Written>((resolve, reject) => {
    const worker = new Worker(new URL('./packageWorker.ts', import.meta.url), { type: 'module' });
    const end = (settle: () => void): void => {
      worker.terminate();
      settle();
    };
    worker.onmessage = ({ data }: MessageEvent<Written>) => end(() => resolve(data));
    worker.onerror = ({ message }) => end(() => reject(new Error(message || 'its writer did not start')));
    worker.postMessage(order);
  });

function hand(lineUp: LineUp, { ending, bytes }: Written): void {
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
