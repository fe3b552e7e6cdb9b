import { describe, expect, it } from 'vitest';
import { type Item, type LineUp, oneLine, review, tidyPositions } from '../../../engine/index.ts';
import { threeRuns } from './threeRuns.ts';

/** The line round an enclosure: about its parts and no others, the same on screen and paper because both paint the one list. */

const isText = (item: Item): item is Extract<Item, { t: 'text' }> => item.t === 'text';
const within = (lineUp: LineUp, tags: readonly string[], enclosure: string): LineUp => ({
  ...lineUp,
  elements: lineUp.elements.map((each) => (tags.includes(each.tag) ? { ...each, enclosure } : each)),
});
const drawn = (lineUp: LineUp) => oneLine(lineUp, review(lineUp));
const lines = (lineUp: LineUp) => drawn(lineUp).boundaries.filter((item) => item.t === 'line');

describe('enclosures', () => {
  const plain = { ...threeRuns(), positions: tidyPositions(threeRuns()) };
  const [drive] = plain.elements.filter((each) => each.kind === 'drive');
  const [supply] = plain.elements.filter((each) => each.kind === 'supply');
  const fed = plain.cables.find((each) => each.to.element === drive?.id);
  const before = plain.elements.find((each) => each.id === fed?.from.element);
  const tags = [drive?.tag ?? '', before?.tag ?? ''];

  it('nothing is drawn where nothing is said', () => {
    expect(drawn(plain).boundaries).toEqual([]);
  });

  it('one line round parts that hang together, with the name, in the list that both screen and paper paint', () => {
    const lineUp = within(plain, tags, 'Panel 7');
    const drawing = drawn(lineUp);
    expect(lines(lineUp)).toHaveLength(1);
    expect(drawing.boundaries.filter(isText).map((item) => item.text)).toEqual(['Panel 7']);
    for (const item of drawing.boundaries) expect(drawing.items).toContain(item);
  });

  it('parts that stand apart each have their own', () => {
    expect(lines(within(plain, [drive?.tag ?? '', supply?.tag ?? ''], 'Panel 7'))).toHaveLength(2);
  });

  it('a line never takes in a part that is not in it', () => {
    const lineUp = within(plain, tags, 'Panel 7');
    const at = lineUp.positions[drive?.id ?? ''] ?? { x_mm: 0, y_mm: 0 };
    const stranger = plain.elements.find((each) => each.kind === 'motor')?.id ?? '';
    const moved = { ...lineUp, positions: { ...lineUp.positions, [stranger]: { x_mm: at.x_mm, y_mm: at.y_mm - 12 } } };
    expect(lines(moved)).toHaveLength(2);
  });
});
