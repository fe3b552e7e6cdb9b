import { arrange } from '../store/deskStore.ts';
import { refuse } from '../store/editorStore.ts';

/** Puts the one-line on a page of its own and asks the browser to print that. */
export async function printDrawing(): Promise<void> {
  try {
    const { pictureOf, svgAddress } = await import('./picture.ts');
    arrange({ printing: svgAddress(await pictureOf()) });
  } catch (fault) {
    refuse(`The drawing was not printed: ${fault instanceof Error ? fault.message : String(fault)}`);
  }
}
