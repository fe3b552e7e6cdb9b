import { describe, expect, it } from 'vitest';
import { type LineUp, review, setAside } from '../../../engine/index.ts';
import { sectionsOf, usualSheets } from '../../../engine/submittal/sections.ts';
import { readExample } from '../sizing/readExample.ts';

const bare = readExample('heron-weir-pumps');
const shorter = (by: number): LineUp => ({
  ...bare,
  cables: bare.cables.map((each) =>
    each.length_m === undefined ? each : { ...each, length_m: each.length_m / by, lengthMost_m: undefined },
  ),
});
const withVariants = [2, 3, 4].reduce((lineUp, by) => setAside(lineUp, `1/${by}`, shorter(by)), bare);

describe('the sheet of variants', () => {
  const answer = review(bare);
  const heads = (lineUp: LineUp, wide: boolean) =>
    sectionsOf(lineUp, answer, { sheets: ['variants'], wide, date: '2026-11-26' }).flatMap(({ blocks }) =>
      blocks.flatMap((each) => (each.t === 'table' && each.title.startsWith('All together') ? [each.columns.map(({ head }) => head)] : [])),
    );
  it('is in the usual set where there are any, and nowhere else', () => {
    expect(usualSheets(withVariants, answer)).toContain('variants');
    expect(usualSheets(bare, answer)).not.toContain('variants');
    expect(heads(bare, true)).toEqual([]);
  });
  it('stands every variant beside the present line-up, on narrow paper in more tables', () => {
    expect(heads(withVariants, true)).toEqual([['Counted', 'Present', '1/2', '1/3', '1/4']]);
    expect(heads(withVariants, false)).toEqual([
      ['Counted', 'Present', '1/2', '1/3'],
      ['Counted', 'Present', '1/4'],
    ]);
  });
});
