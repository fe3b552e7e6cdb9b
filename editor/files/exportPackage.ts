import { whenJudged } from '../store/editorStore.ts';

/** Writes the package as a PDF and hands it to the browser, never with a review that is not of this very document. The writer and its fonts are fetched only now. */
export async function exportPackage(): Promise<void> {
  const font = async (name: string) => new Uint8Array(await (await fetch(`${import.meta.env.BASE_URL}fonts/${name}`)).arrayBuffer());
  const [{ lineUp, review }, { submittalPdf }, regular, semibold] = await Promise.all([
    whenJudged(),
    import('../../engine/submittal/pdf.ts'),
    font('SourceSans3_400Regular.ttf'),
    font('SourceSans3_600SemiBold.ttf'),
  ]);
  const bytes = submittalPdf(lineUp, review, {
    fonts: { regular, semibold },
    date: lineUp.project.date ?? new Date().toISOString().slice(0, 10),
  });
  const address = URL.createObjectURL(new Blob([bytes as BlobPart], { type: 'application/pdf' }));
  const link = document.createElement('a');
  link.href = address;
  link.download = `${[lineUp.project.number ?? lineUp.project.title, lineUp.project.revision]
    .filter(Boolean)
    .join('_')
    .replaceAll(/[^\p{L}\p{N}_-]+/gu, '-')}.pdf`;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}
