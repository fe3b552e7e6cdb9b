import { readdirSync } from 'node:fs';
import DxfParser from 'dxf-parser';
import { strFromU8 } from 'fflate';
import { describe, expect, it } from 'vitest';
import { review } from '../../../engine/index.ts';
import { dxfOf, pieces } from '../../../engine/submittal/dxf.ts';
import { packageDrawing } from '../../../engine/submittal/packageDrawing.ts';
import { readExample } from '../sizing/readExample.ts';
import { bounds, count, pointsOf } from './spans.ts';

/** The one-line of every example as another program reads it from the file: as many things as were drawn, over the same room. */

interface Entity {
  readonly type: string;
  readonly text?: string;
  readonly center?: { readonly x: number; readonly y: number };
  readonly radius?: number;
  /** Radians, anticlockwise with y up. */
  readonly startAngle?: number;
  readonly endAngle?: number;
  readonly vertices?: readonly { readonly x: number; readonly y: number }[];
}
interface Read {
  readonly header: Readonly<Record<'$EXTMIN' | '$EXTMAX', { readonly x: number; readonly y: number }>>;
  readonly entities: readonly Entity[];
}

/** Where the ink of an entity reaches to, y down as on the sheet. */
function reach({ type, center, radius = 0, startAngle = 0, endAngle = 0, vertices = [] }: Entity): readonly (readonly [number, number])[] {
  if (type === 'TEXT' || (center === undefined && vertices.length === 0)) return [];
  if (!center) return vertices.map(({ x, y }) => [x, -y] as const);
  const sweep = type === 'CIRCLE' ? 2 * Math.PI : (endAngle - startAngle + 4 * Math.PI) % (2 * Math.PI);
  return Array.from({ length: 721 }, (_, i) => {
    const angle = startAngle + (sweep * i) / 720;
    return [center.x + radius * Math.cos(angle), -(center.y + radius * Math.sin(angle))] as const;
  });
}

const EXAMPLES = readdirSync(new URL('../../../examples/', import.meta.url)).map((file) => file.replace('.json', ''));

describe.each(EXAMPLES)('the drawing file of %s', (name) => {
  const lineUp = readExample(name);
  const drawing = packageDrawing(lineUp, review(lineUp), undefined);
  const { header, entities } = new DxfParser().parseSync(strFromU8(dxfOf(drawing))) as unknown as Read;

  it('holds as many things as were drawn, each of its kind, with every text', () => {
    const drawn = drawing.items.flatMap((item) => {
      if (item.t === 'text') return ['TEXT'];
      if (item.t === 'circle') return ['CIRCLE'];
      if (item.t === 'rect') return ['LWPOLYLINE'];
      const strokes = item.t === 'line' ? [{ t: 'stroke' as const, points: item.points }] : pieces(item.d);
      return strokes.map((each) => (each.t === 'arc' ? 'ARC' : each.points.length === 2 ? 'LINE' : 'LWPOLYLINE'));
    });
    expect(count(entities.map((each) => each.type))).toEqual(count(drawn));
    const texts = drawing.items.flatMap((item) => (item.t === 'text' ? [item.text.replaceAll('\u00a0', ' ')] : []));
    expect(entities.flatMap((each) => each.text ?? []).sort()).toEqual(texts.sort());
  });
  it('spans what was drawn, and no more than its head says', () => {
    const [read, drawn] = [bounds(entities.flatMap(reach)), bounds(drawing.items.flatMap(pointsOf))];
    // Curves are walked in small steps on both sides.
    for (const [i, each] of read.entries()) expect(each).toBeCloseTo(drawn[i] ?? Number.NaN, 2);
    const [left, top, right, bottom] = read;
    expect(left).toBeGreaterThanOrEqual(header.$EXTMIN.x);
    expect(right).toBeLessThanOrEqual(header.$EXTMAX.x);
    expect(bottom).toBeLessThanOrEqual(-header.$EXTMIN.y);
    expect(top).toBeGreaterThanOrEqual(-header.$EXTMAX.y);
  });
});
