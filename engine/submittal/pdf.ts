import type { Review } from '../checks/solved.ts';
import { comparedWith } from '../lineup/issues.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import { MAKER } from '../lineup/maker.ts';
import type { SheetSize } from '../lineup/project.ts';
import { save } from '../lineup/save.ts';
import { sha256 } from '../lineup/sha256.ts';
import type { Section } from './content.ts';
import { drawCover } from './cover.ts';
import { Flow } from './flow.ts';
import type { Step } from './formats.ts';
import { drawBorder, drawStrip, drawTitleBlock, type SheetFacts } from './frame.ts';
import { issuedHash } from './issuedText.ts';
import { oneLineSheets } from './oneLineSheets.ts';
import { packageDrawing } from './packageDrawing.ts';
import type { Fonts } from './pen.ts';
import { clouded } from './revisions.ts';
import { type Choice, type SheetKind, sectionsOf } from './sections.ts';
import { chooseSheet, officePaper, SHEETS } from './sheet.ts';

export interface SubmittalOptions {
  readonly fonts: Fonts;
  /** Day of issue, '2026-11-25'. Handed in, so that the same inputs give the same bytes. */
  readonly date: string;
  readonly sheetSize?: SheetSize;
  /** Which sheets, in whatever order. */
  readonly sheets: readonly SheetKind[];
  /** The line-up as it was issued before, where it is not the last issue in the document: what changed is clouded. */
  readonly against?: LineUp | undefined;
  readonly deciding?: Choice['deciding'];
  readonly onStep?: ((step: Step) => void) | undefined;
}

/** Noon would be a guess: an issue date has no time of day. '2026-11-25' as the PDF format writes it. */
function pdfDate(date: string): string {
  const match = /^(\d{4})-(\d{2})-(\d{2})/.exec(date);
  return `D:${match ? `${match[1]}${match[2]}${match[3]}` : '20000101'}000000+00'00'`;
}

/** The issue package as a set of sheets. */
export function submittalPdf(lineUp: LineUp, review: Review, options: SubmittalOptions): Uint8Array {
  const { against, deciding, onStep } = options;
  const drawing = packageDrawing(lineUp, review, against);
  const marked = clouded(lineUp, comparedWith(lineUp, against));
  const size = options.sheetSize ?? lineUp.project.sheetSize ?? chooseSheet(lineUp.project.basis, drawing.width_mm, drawing.height_mm);
  const { w, h } = SHEETS[size];
  const date = lineUp.project.date ?? options.date;
  const hash = issuedHash(lineUp);
  const sections = sectionsOf(lineUp, review, { sheets: options.sheets, wide: w > 300, date, against, deciding });
  const paperOf = (section: Section | undefined) => (section?.onSite ? SHEETS[officePaper(size)] : { w, h });
  const first = paperOf(sections[0]);
  const flow = new Flow(options.fonts, first.w, first.h);
  const { doc } = flow.pen;
  for (const [done, section] of sections.entries()) {
    onStep?.({ what: section.title, done, of: sections.length + 1 });
    if (section.slug === 'cover') {
      flow.newSheet(section.title, true);
      flow.begin(section.title);
    } else if (section.slug === 'oneline') oneLineSheets(flow, section.title, lineUp, review, drawing, marked);
    else {
      const paper = paperOf(section);
      flow.take(paper.w, paper.h);
      flow.section(section);
    }
  }
  flow.take(w, h);
  if (sections[0]?.slug === 'cover') drawCover(flow, lineUp, review, hash);
  flow.drawLeads();
  flow.sheets.forEach(({ kind, block, ...own }, i) => {
    doc.setPage(i + 1);
    const facts: SheetFacts = { project: lineUp.project, date, size, kind, number: i + 1, total: flow.sheets.length, ...own };
    drawBorder(flow.pen, facts);
    if (block) drawTitleBlock(flow.pen, facts);
    else drawStrip(flow.pen, facts);
  });
  onStep?.({ what: 'one file of all sheets', done: sections.length, of: sections.length + 1 });
  // What leads to a sheet leads to its head, reckoned from the height of the one that is set last: the highest, which is the first.
  doc.setPage(1);
  doc.setProperties({ title: lineUp.project.title, subject: 'One-line diagram and cable review', creator: MAKER });
  doc.setLanguage('en');
  // Number of a page in the reader's window: that of the sheet.
  doc.internal.events.subscribe('putCatalog', () =>
    (doc.internal as unknown as { write(text: string): void }).write('/PageLabels << /Nums [0 << /S /D /St 1 >>] >>'),
  );
  doc.setCreationDate(pdfDate(options.date));
  const asked = [MAKER, sha256(save(lineUp)), against ? sha256(save(against)) : '', options.date, size, options.sheets.join()];
  doc.setFileId(sha256(asked.join('/')).slice(0, 32).toUpperCase());
  return new Uint8Array(doc.output('arraybuffer'));
}
