import { VERDICTS } from '../checks/finding.ts';
import type { Review } from '../checks/solved.ts';
import { translate } from '../drawing/displayList.ts';
import { badge } from '../drawing/marks.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import { sayOf } from '../lineup/vocabulary.ts';
import { groundRules } from '../review/groundRules.ts';
import { DEFERRAL } from './deferral.ts';
import { type Flow, TEXT_mm } from './flow.ts';
import { standingText } from './openTables.ts';
import { BORDER_mm } from './sheet.ts';
import { basisText } from './sourceTables.ts';

/** What the set is, where it stands, what is in it, and room for a seal. Drawn last, when the numbers of the sheets are known. */

const HEAD_mm = 5.2;
const PITCH = 5.4;

function wiringOf({ runs }: Review): string {
  const motors = runs.map((run) => run.motorTag).join(', ');
  return runs.length === 0 ? 'Power wiring' : `Power wiring of ${runs.length === 1 ? 'one run' : `${runs.length} runs`}: ${motors}`;
}

export function drawCover(flow: Flow, lineUp: LineUp, review: Review, hash: string): void {
  const { pen, w, h } = flow;
  const { project } = lineUp;
  const say = sayOf(lineUp);
  const wide = w > 300;
  const left = BORDER_mm + 8;
  const column = wide ? (w - 2 * left - 14) / 2 : w - 2 * left;
  pen.doc.setPage(1);

  let y = BORDER_mm + 20;
  const head = (says: string, x: number): void => {
    pen.text(says, x, y, HEAD_mm, 600);
    y += HEAD_mm + 1.6;
  };
  const words = (says: string, x: number, width: number): void => {
    for (const line of pen.wrapped(say(says), width, TEXT_mm)) {
      pen.text(line, x, y, TEXT_mm);
      y += 5;
    }
  };

  pen.fitted(project.title, left, y, w - 2 * left, 11, 600);
  y += 9;
  for (const says of [
    wiringOf(review),
    [project.site, project.owner].filter(Boolean).join(', '),
    [project.number, project.revision && `revision ${project.revision}`, project.status].filter(Boolean).join(', '),
  ])
    if (says !== '') {
      pen.fitted(says, left, y, w - 2 * left, 4.8);
      y += 6.4;
    }
  const below = y + 6;

  y = below;
  head('Where it stands', left);
  VERDICTS.slice(0, 5).forEach((verdict, i) => {
    const x = left + (i * Math.min(column, 170)) / 5;
    pen.draw(translate(badge(verdict), x + 2, y - 1.3), 0, 0, { x: 0, y: 0, w, h });
    pen.text(`${review.counts[verdict]} ${verdict}`, x + 6, y, TEXT_mm, 600);
  });
  y += 6.4;
  words(standingText(review), left, column);
  y += 4;
  head('Judged by', left);
  words([basisText(lineUp), groundRules(lineUp)].filter(Boolean).join(' '), left, column);
  words(DEFERRAL, left, column);
  y += 4;
  head('Line-up file, SHA-256', left);
  for (const part of [hash.slice(0, 32), hash.slice(32)]) {
    pen.text(part.replace(/.{8}(?=.)/g, '$& '), left, y, TEXT_mm);
    y += 5;
  }
  const after = y + 6;

  const right = wide ? left + column + 14 : left;
  y = wide ? below : after;
  head('Sheets', right);
  for (const { title, sheet } of flow.contents) {
    pen.text(`${sheet}`, right + 8, y, TEXT_mm, 400, 'end');
    pen.text(title, right + 12, y, TEXT_mm);
    pen.doc.link(right, y - 3.6, column, PITCH - 0.4, { pageNumber: sheet });
    y += PITCH;
  }

  // Seal and signatures: at the foot left of the title block, on a narrow sheet beside the list.
  const seal = wide ? { x: left, y: h - BORDER_mm - 50 } : { x: left + 104, y: after };
  pen.text('Seal', seal.x, seal.y - 2, TEXT_mm, 600);
  pen.frame(seal.x, seal.y, 62, 30, 0.35);
  ['Prepared', 'Checked', 'Approved'].forEach((says, i) => {
    const [x, at] = wide ? [seal.x + 68, seal.y + 6 + 11 * i] : [seal.x, seal.y + 41 + 11 * i];
    pen.text(says, x, at, TEXT_mm);
    pen.line(x + 18, at + 0.6, x + 62, at + 0.6, 0.25);
  });
}
