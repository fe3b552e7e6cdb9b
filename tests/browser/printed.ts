import { type LineUp, review } from '../../engine/index.ts';
import { htmlOf } from '../../engine/submittal/html.ts';
import { EVERY_SHEET } from '../../engine/submittal/sections.ts';

export { reported } from '../golden/reported.ts';

/** All that a line-up prints: every sheet of the report, and every finding in words with its numbers as they are shown. Runs in Node and on a page. */
export function printed(lineUp: LineUp): string {
  const result = review(lineUp);
  const words = result.findings.map(({ value: _value, limit: _limit, margin_pct: _margin, band: _band, fixes: _fixes, ...shown }) => shown);
  return `${new TextDecoder().decode(htmlOf(lineUp, result, { date: '2026-01-01', sheets: EVERY_SHEET }))}\n${JSON.stringify(words, null, 1)}`;
}
