import { expect, it } from 'vitest';
import { callout, ringed } from '../../../engine/drawing/marks.ts';
import { type Item, oneLine, review, tidyPositions } from '../../../engine/index.ts';
import { numbered } from '../../../engine/submittal/findingTables.ts';
import { threeRuns } from './threeRuns.ts';

/** The numbers of what was found at a part: none is left out, and none is lost far from its part. */

const texts = (items: readonly Item[]): readonly string[] => items.flatMap((each) => (each.t === 'text' ? [each.text] : []));

it('three and more that follow each other share a ring', () => {
  expect(ringed([1, 2, 3, 4, 7])).toEqual([
    [1, 4],
    [7, 7],
  ]);
  expect(ringed([1, 2, 9, 10, 11])).toEqual([
    [1, 1],
    [2, 2],
    [9, 11],
  ]);
  expect(ringed([])).toEqual([]);
  expect(texts(callout([9, 17], 0, 0))).toEqual(['9–17']);
});

it('each number stands on the sheet once, alone or between the two of its ring', () => {
  const lineUp = { ...threeRuns(), positions: tidyPositions(threeRuns()) };
  const answer = review(lineUp);
  const callouts = numbered(answer);
  const drawn = texts(oneLine(lineUp, answer, { callouts }).items).flatMap((text) => {
    const [, first, last = first] = /^(\d+)(?:–(\d+))?$/.exec(text) ?? [];
    return first === undefined ? [] : Array.from({ length: Number(last) - Number(first) + 1 }, (_, i) => Number(first) + i);
  });
  expect(drawn.sort((a, b) => a - b)).toEqual([...callouts.values()].sort((a, b) => a - b));
});

it('a phrase that found room only far from its part is led back to it', () => {
  const lineUp = threeRuns();
  // Everything in one place: there is room for one.
  const heaped = { ...lineUp, positions: Object.fromEntries(lineUp.elements.map(({ id }) => [id, { x_mm: 0, y_mm: 0 }])) };
  const leaders = (of: typeof lineUp) => {
    const answer = review(of);
    return oneLine(of, answer, { callouts: numbered(answer) }).items.filter((each) => each.t === 'line' && each.ink === 'ink3').length;
  };
  expect(leaders(heaped)).toBeGreaterThan(lineUp.elements.length / 2);
  expect(leaders({ ...lineUp, positions: tidyPositions(lineUp) })).toBe(0);
});
