import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { load, newLineUp, review } from '../../../engine/index.ts';
import { FIELDS } from '../../../engine/lineup/fields.ts';
import { standingText } from '../../../engine/submittal/openTables.ts';
import { EVERY_SHEET, sectionsOf } from '../../../engine/submittal/sections.ts';

/** What stands on the sheets is written for people: no word of the file's own. */

const EXAMPLES = new URL('../../../examples/', import.meta.url);
const cellsOf = (name: string): readonly string[] => {
  const opened = load(readFileSync(new URL(name, EXAMPLES), 'utf8'));
  if (!opened.ok) throw new Error(`${name} does not open`);
  const sections = sectionsOf(opened.lineUp, review(opened.lineUp), { sheets: EVERY_SHEET, wide: true, date: '2026-11-25' });
  return sections.flatMap(({ blocks }) =>
    blocks.flatMap((block) => (block.t === 'table' ? block.rows.flat().map((each) => each.replaceAll('\u00a0', ' ')) : [])),
  );
};
/** Listed values that are written otherwise for people. */
const codes = Object.values(FIELDS)
  .flat()
  .flatMap(({ choices = [] }) => choices)
  .filter((each) => /^[a-z0-9]+(-[a-z0-9]+)+$/.test(each) || each === 'dvdt');

describe.each(readdirSync(EXAMPLES).filter((each) => each.endsWith('.json')))('the sheets of %s', (name) => {
  const cells = cellsOf(name);
  it('hold no code of the file, and no id of a connection', () => {
    expect(codes.length).toBeGreaterThan(20);
    expect(cells.filter((each) => codes.includes(each) || /(^|, )c\d+(,|$)/.test(each))).toEqual([]);
  });
  it('ask for no length that nobody knows, and say nothing twice', () => {
    expect(cells.filter((each) => each.startsWith('over 0') || /^(.+), \1$/.test(each))).toEqual([]);
  });
});

it('a switch is called by its own rating, as it is judged; cables in one raceway tell it once, by whoever says so', () => {
  expect(cellsOf('fennel-lane-capping.json')).toContain('16 A  switch; metal box');
  const shared = cellsOf('frostmere-cold-store.json').filter((each) => each.startsWith('Cables in the raceway of W-'));
  expect(new Set(shared)).toEqual(new Set(['Cables in the raceway of W-1']));
});

it('an empty line-up is not ready to issue', () => {
  expect(standingText(review(newLineUp()))).toBe('Not ready to issue: no motor is fed yet.');
});
