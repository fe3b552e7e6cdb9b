import type { LineUp } from '../../engine/index.ts';
import type { Format, SheetKind, Written } from '../../engine/submittal/formats.ts';
import { refuse, whenJudged } from '../store/editorStore.ts';

const font = async (name: string) => new Uint8Array(await (await fetch(`${import.meta.env.BASE_URL}fonts/${name}`)).arrayBuffer());
const fonts = async () => {
  const [regular, semibold] = await Promise.all([font('SourceSans3_400Regular.ttf'), font('SourceSans3_600SemiBold.ttf')]);
  return { regular, semibold };
};

export interface PackageChoice {
  readonly sheets?: readonly SheetKind[];
  /** The line-up as it was issued before. */
  readonly against?: LineUp;
}

/**
 * Writes the package in one form and hands it to the browser, never with a review that is not of this very document. The writers and the
 * fonts are fetched only now.
 */
export async function exportPackage(format: Format = 'pdf', choice: PackageChoice = {}): Promise<void> {
  try {
    const [{ lineUp, review }, { write, bundled }] = await Promise.all([whenJudged(), import('../../engine/submittal/formats.ts')]);
    const date = lineUp.project.date ?? new Date().toISOString().slice(0, 10);
    hand(lineUp, bundled(format, await write(format, { lineUp, review, date, fonts, ...choice })));
  } catch (fault) {
    refuse(`The package was not written: ${fault instanceof Error ? fault.message : String(fault)}`);
  }
}

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
