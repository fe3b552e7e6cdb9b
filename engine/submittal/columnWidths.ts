import type { Column } from './content.ts';

/** Room for the columns of a table: those that grow share what is left so that all rows together become as low as they can. */

/** Left and right of the words in a cell; beside a badge there is more. */
const PADDING_mm = 3.8;
const BADGE_mm = 5;
const STEP_mm = 6;
/** So many rows speak for all. */
const MOST_ROWS = 400;

/**
 * @param times how often the columns stand side by side: each time alike
 * @param widthOf of a word, in millimetres
 */
export function columnWidths(
  columns: readonly Column[],
  rows: readonly (readonly string[])[],
  times: number,
  room_mm: number,
  badges: ReadonlySet<number>,
  widthOf: (text: string) => number,
): readonly number[] {
  const fixed = columns.reduce((sum, each) => sum + (each.w ?? 0), 0);
  const shares = columns.reduce((sum, each) => sum + (each.grow ?? 0), 0);
  const first = columns.map(({ w, grow }) => w ?? (grow ? ((room_mm - fixed) * grow) / shares : 0));
  const across = columns.length / times;
  const own = Array.from({ length: across }, (_, i) => i);
  const segments = rows
    .slice(0, MOST_ROWS)
    .flatMap((row) => Array.from({ length: times }, (_, time) => row.slice(time * across, (time + 1) * across)));
  // What is left blank is to be written in: it keeps its room.
  const grown = own.filter((i) => columns[i]?.w === undefined && segments.some((cells) => (cells[i] ?? '') !== ''));
  if (grown.length < 2) return first;

  const words = (text: string): readonly (readonly number[])[] => text.split('\n').map((line) => line.split(' ').map(widthOf));
  const measured = segments.map((cells) => cells.map(words));
  const space = widthOf(' ');
  const padding = (i: number): number => PADDING_mm + (badges.has(i) ? BADGE_mm : 0);
  const least = own.map((i) => {
    const widest = Math.max(...measured.flatMap((cells) => cells[i]?.flat() ?? []), ...words(columns[i]?.head ?? '').flat());
    return Math.min(first[i] ?? 0, widest + padding(i) + 0.5);
  });
  const linesIn = (cell: readonly (readonly number[])[], width: number): number =>
    cell.reduce((sum, line) => {
      let [lines, at] = [1, 0];
      for (const word of line) {
        if (at > 0 && at + space + word > width) {
          lines++;
          at = word;
        } else at += (at > 0 ? space : 0) + word;
        // A word that is wider than its column is broken.
        for (; at > width && width > 0; at -= width) lines++;
      }
      return sum + lines;
    }, 0);
  const fixedLines = measured.map((cells) =>
    Math.max(1, ...cells.map((cell, i) => (grown.includes(i) ? 0 : linesIn(cell, (first[i] ?? 0) - padding(i))))),
  );
  const linesOf = (i: number, width: number): readonly number[] =>
    measured.map((cells) => (cells[i] ? linesIn(cells[i], width - padding(i)) : 0));
  const known = new Map<string, readonly number[]>();
  const column = (i: number, width: number): readonly number[] => {
    const key = `${i}/${width.toFixed(3)}`;
    const lines = known.get(key) ?? linesOf(i, width);
    known.set(key, lines);
    return lines;
  };
  const height = (widths: readonly number[]): number => {
    const lines = grown.map((i) => column(i, widths[i] ?? 0));
    return fixedLines.reduce((sum, most, row) => sum + Math.max(most, ...lines.map((each) => each[row] ?? 0)), 0);
  };

  let widths = first.slice(0, across);
  let best = height(widths);
  // From any to any other as much as gains most, until nothing does: a little alone may gain nothing.
  for (let found = true; found; ) {
    found = false;
    let next = widths;
    for (const from of grown)
      for (const to of grown) {
        if (from === to) continue;
        for (let by = STEP_mm; (widths[from] ?? 0) - by >= (least[from] ?? 0); by += STEP_mm) {
          const tried = widths.map((each, i) => (i === from ? each - by : i === to ? each + by : each));
          const lines = height(tried);
          if (lines < best) [best, next, found] = [lines, tried, true];
        }
      }
    widths = next;
  }
  return Array.from({ length: times }, () => widths).flat();
}
