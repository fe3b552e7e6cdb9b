import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { textBox } from '../../../engine/drawing/extent.ts';
import { type Item, type LineUp, load, oneLine, review, tidyPositions } from '../../../engine/index.ts';
import { numbered } from '../../../engine/submittal/findingTables.ts';
import { manyRuns } from '../manyRuns.ts';
import { threeRuns } from './threeRuns.ts';

/** No text lies on another, and none on a symbol: computed from the display list that screen and paper share. */

const FOLDER = join(import.meta.dirname, '../../../examples');
const EXAMPLES: readonly (readonly [string, LineUp])[] = readdirSync(FOLDER).map((name) => {
  const loaded = load(readFileSync(join(FOLDER, name), 'utf8'));
  if (!loaded.ok) throw new Error(loaded.what);
  return [name, loaded.lineUp];
});
const SITES = [1, 2, 5, 12, 40].map((runs) => [`${runs} runs`, manyRuns(runs)] as const);
/** Boxes that share a name, with long tags beside them: the hardest for room. */
const plain = threeRuns();
const ENCLOSED: LineUp = {
  ...plain,
  elements: plain.elements.map((each) => ({
    ...each,
    tag: each.tag.replace('VFD-2', 'PLANT-07-MCC-12-SECTION-B-VFD-2').replace('M-2', 'RETURN-SLUDGE-PUMP-2-MOTOR'),
    ...(/^(CB|VFD)/.test(each.tag)
      ? { enclosure: 'MCC-1 main electrical room' }
      : each.tag.startsWith('DS')
        ? { enclosure: 'Yard boxes' }
        : {}),
  })),
  cables: plain.cables.map((each) => ({ ...each, tag: each.tag.replace('W-2A', 'CABLE-FROM-DRIVE-TO-VAULT-2A') })),
};

const overlap = (a: { x: number; y: number; w: number; h: number }, b: typeof a): number =>
  Math.max(0, Math.min(a.x + a.w, b.x + b.w) - Math.max(a.x, b.x)) * Math.max(0, Math.min(a.y + a.h, b.y + b.h) - Math.max(a.y, b.y));

describe.each([...EXAMPLES, ...SITES, ['boxes that share a name', ENCLOSED] as const])('%s', (_name, lineUp) => {
  const placed = { ...lineUp, positions: { ...tidyPositions(lineUp), ...lineUp.positions } };
  const answer = review(placed);
  it.each([
    ['with its numbers', { callouts: numbered(answer) }],
    ['without', {}],
  ] as const)('%s', (_how, options) => {
    const drawing = oneLine(placed, answer, options);
    const isText = (item: Item): item is Extract<Item, { t: 'text' }> => item.t === 'text';
    const texts = drawing.items.filter(isText).map((item) => ({ text: item.text, ...textBox(item) }));
    const clashes: string[] = [];
    texts.forEach((a, i) => {
      for (const b of texts.slice(i + 1)) if (overlap(a, b) > 0.3) clashes.push(`${a.text} on ${b.text}`);
    });
    const symbols = drawing.parts.filter((part) => part.kind === 'element');
    const own = new Set(symbols.flatMap((part) => part.items.filter(isText).map((item) => item.text)));
    for (const text of texts)
      for (const symbol of symbols) if (!own.has(text.text) && overlap(text, symbol) > 0.5) clashes.push(`${text.text} on a symbol`);
    expect(clashes).toEqual([]);
  });

  it('each label stands level with its own part', () => {
    for (const { id, kind, y, h, label } of oneLine(placed, answer).parts) {
      // Beside its bar a bus has no room.
      if (!label || placed.elements.some((each) => each.id === id && each.kind === 'bus')) continue;
      const level = label.y + label.h / 2;
      expect([id, kind, level > y - 2 && level < y + h + 2]).toEqual([id, kind, true]);
    }
  });
});
