import { encode } from 'uqr';
import { type Item, type Segment, words } from '../drawing/displayList.ts';
import type { Picture } from './content.ts';

/** A text as a QR code (ISO/IEC 18004) in squares of ink, with the quiet zone that a reader needs, and a word on what it is. */

/** Side of one square: what office printers and phones still tell apart. */
export const MODULE_mm = 0.5;
/** Room for the words under it. */
const WORDS_mm = 5;
/** Blank on all sides, in squares. */
const QUIET = 4;

export function cableCode(text: string): Picture {
  // A sheet on site is folded, wet and scratched: 15 % of it may be lost.
  const { data, size } = encode(text, { ecc: 'M', border: 0 });
  const side = (size + 2 * QUIET) * MODULE_mm;
  return {
    // Thousands of corners each time: made where it is drawn, not kept for every cable of a site.
    get items() {
      return drawn(data, side);
    },
    w: side,
    h: side + WORDS_mm,
    says: `A code that holds ${SAYS}: ${text.replaceAll('\n', '; ')}.`,
    onPaper: true,
  };
}

function drawn(data: readonly (readonly boolean[])[], side: number): readonly Item[] {
  const at = (squares: number): number => (QUIET + squares) * MODULE_mm;
  // All squares of a row that touch are one, and all are one path: no reader of the file may leave a seam between them.
  const d = data.flatMap((row, y) =>
    runsOf(row).flatMap(([from, to]): readonly Segment[] => [
      ['M', at(from), at(y)],
      ['L', at(to), at(y)],
      ['L', at(to), at(y + 1)],
      ['L', at(from), at(y + 1)],
    ]),
  );
  return [
    // Its words stand on it too: a screen may be dark around it.
    { t: 'rect', x: 0, y: 0, w: side, h: side + WORDS_mm, weight_mm: 0, ink: 'ink', fill: 'canvas' },
    { t: 'path', d, weight_mm: 0, ink: 'ink', fill: 'ink' },
    words(SAYS, side / 2, side + 3.4, 'middle'),
  ];
}

const SAYS = 'plain text, no address';

/** Where ink begins and ends in a row. */
function runsOf(row: readonly boolean[]): readonly (readonly [number, number])[] {
  const runs: [number, number][] = [];
  row.forEach((dark, x) => {
    const last = runs.at(-1);
    if (!dark) return;
    if (last?.[1] === x) last[1]++;
    else runs.push([x, x + 1]);
  });
  return runs;
}
