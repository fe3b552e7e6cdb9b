import { readdirSync, readFileSync } from 'node:fs';
import { svgOf } from '../../engine/drawing/svg.ts';
import { load, review } from '../../engine/index.ts';
import { packageDrawing } from '../../engine/submittal/packageDrawing.ts';
import { bounds, count, pointsOf } from '../engine/submittal/spans.ts';
import { expect, test } from './guard.ts';

/** The one-line of every example as a browser reads it from the picture that is exported: as many things as were drawn, over the same room. */

const FOLDER = new URL('../../examples/', import.meta.url);
const KINDS = { line: 'path', path: 'path', circle: 'circle', rect: 'rect', text: 'text' } as const;

for (const file of readdirSync(FOLDER))
  test(`the picture of ${file} holds what was drawn`, async ({ page }) => {
    const loaded = load(readFileSync(new URL(file, FOLDER), 'utf8'));
    if (!loaded.ok) throw new Error(loaded.what);
    const { items, x_mm, y_mm, width_mm, height_mm } = packageDrawing(loaded.lineUp, review(loaded.lineUp), undefined);
    const svg = svgOf(items, { x: x_mm, y: y_mm, w: width_mm, h: height_mm });
    const read = await page.evaluate((text) => {
      const root = new DOMParser().parseFromString(text, 'image/svg+xml').documentElement;
      const broken = root.querySelector('parsererror') !== null;
      const shown = document.body.appendChild(document.importNode(root, true)) as unknown as SVGSVGElement;
      const all = [...shown.querySelectorAll<SVGGraphicsElement>('*')];
      const boxes = all.filter((each) => each.tagName !== 'text').map((each) => each.getBBox());
      const { x, y, width, height } = shown.viewBox.baseVal;
      return {
        broken,
        names: all.map((each) => each.tagName),
        texts: all.filter((each) => each.tagName === 'text').map((each) => each.textContent ?? ''),
        corners: boxes.flatMap((box): [number, number][] => [
          [box.x, box.y],
          [box.x + box.width, box.y + box.height],
        ]),
        view: [x, y, width, height],
      };
    }, svg);
    expect(read.broken).toBe(false);
    expect(count(read.names)).toEqual(count(items.map((item) => KINDS[item.t])));
    expect(read.texts.sort()).toEqual(items.flatMap((item) => (item.t === 'text' ? [item.text] : [])).sort());
    // Written to a hundredth of a millimetre.
    const [found, drawn] = [bounds(read.corners), bounds(items.flatMap(pointsOf))];
    for (const [i, each] of found.entries()) expect(Math.abs(each - (drawn[i] ?? Number.NaN))).toBeLessThan(0.02);
    for (const [i, each] of [x_mm, y_mm, width_mm, height_mm].entries())
      expect(Math.abs((read.view[i] ?? Number.NaN) - each)).toBeLessThan(0.01);
  });
