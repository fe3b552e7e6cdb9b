import { DxfWriter, point2d, point3d, TextHorizontalAlignment, TextVerticalAlignment, Units } from '@tarikjabiri/dxf';
import { strToU8 } from 'fflate';
import type { Box, Ink, Item, Point, Segment } from '../drawing/displayList.ts';
import type { OneLine } from '../drawing/oneLine.ts';
import { MAKER } from '../lineup/maker.ts';

/** The one-line as a drawing exchange file: millimetres, y up, a layer for each kind of thing and each verdict, arcs as arcs, text as text. */

const LAYERS = { PARTS: 7, CABLES: 7, LABELS: 7, FAIL: 1, OPEN: 6, CAUTION: 30, NOTE: 8 } as const;
type Layer = keyof typeof LAYERS;
const VERDICT_INK: Readonly<Partial<Record<Ink, Layer>>> = {
  fail: 'FAIL',
  failTint: 'FAIL',
  open: 'OPEN',
  openTint: 'OPEN',
  caution: 'CAUTION',
  cautionTint: 'CAUTION',
  note: 'NOTE',
  noteTint: 'NOTE',
};
/** Height of capitals, of the size of the face. */
const CAPITALS = 0.66;

export function dxfOf(drawing: OneLine): Uint8Array {
  const dxf = new DxfWriter();
  dxf.setUnits(Units.Millimeters);
  // Without it a tolerant reader takes the text for another code page, and Ω for two signs.
  dxf.setVariable('$DWGCODEPAGE', { 3: 'ANSI_1252' });
  dxf.setVariable('$LASTSAVEDBY', { 1: MAKER });
  dxf.setVariable('$EXTMIN', { 10: drawing.x_mm, 20: -(drawing.y_mm + drawing.height_mm), 30: 0 });
  dxf.setVariable('$EXTMAX', { 10: drawing.x_mm + drawing.width_mm, 20: -drawing.y_mm, 30: 0 });
  for (const [name, color] of Object.entries(LAYERS)) dxf.addLayer(name, color, 'Continuous');
  const kinds = new Map(drawing.parts.flatMap((part) => part.items.map((item) => [item, part.kind] as const)));
  const lineTypes = new Set<string>();
  let last: Layer = 'LABELS';
  for (const item of drawing.items) {
    const kind = kinds.get(item);
    const own = VERDICT_INK[item.ink];
    // A stroke in the colour of the paper stands on the mark drawn just before it.
    const layer: Layer = own ?? (item.ink === 'canvas' ? last : kind === 'element' ? 'PARTS' : kind === 'cable' ? 'CABLES' : 'LABELS');
    last = layer;
    let lineType = 'Continuous';
    if ('dash' in item && item.dash) {
      lineType = `DASH_${item.dash.join('_').replaceAll('.', '-')}`;
      if (!lineTypes.has(lineType))
        dxf.addLType(
          lineType,
          'dashes',
          item.dash.map((each, i) => (i % 2 === 0 ? each : -each)),
        );
      lineTypes.add(lineType);
    }
    draw(dxf, item, { layerName: layer, lineType });
  }
  return strToU8(dxf.stringify());
}

interface Style {
  readonly layerName: string;
  readonly lineType: string;
}

const to3d = ([x, y]: Point) => point3d(x, -y);
const to2d = ([x, y]: Point) => ({ point: point2d(x, -y) });

function draw(dxf: DxfWriter, item: Item, style: Style): void {
  switch (item.t) {
    case 'text': {
      const at = point3d(item.x, -item.y);
      const horizontal = {
        start: TextHorizontalAlignment.Left,
        middle: TextHorizontalAlignment.Center,
        end: TextHorizontalAlignment.Right,
      };
      dxf.addText(at, CAPITALS * item.size_mm, words(item.text), {
        ...style,
        horizontalAlignment: horizontal[item.anchor],
        verticalAlignment: TextVerticalAlignment.BaseLine,
        secondAlignmentPoint: at,
      });
      return;
    }
    case 'circle':
      dxf.addCircle(point3d(item.x, -item.y), item.r, style);
      return;
    case 'rect':
      dxf.addLWPolyline(rounded(item, item.corner_mm ?? 0), { ...style, flags: 1 });
      return;
    case 'line':
      stroke(dxf, item.points, style);
      return;
    case 'path':
      for (const piece of pieces(item.d))
        if (piece.t === 'arc') dxf.addArc(to3d(piece.centre), piece.r, -piece.to, -piece.from, style);
        else stroke(dxf, piece.points, style);
  }
}

function stroke(dxf: DxfWriter, points: readonly Point[], style: Style): void {
  const [a, b] = points;
  if (a && b && points.length === 2) dxf.addLine(to3d(a), to3d(b), style);
  else dxf.addLWPolyline(points.map(to2d), style);
}

/** One line, and nothing in it that a drawing program would take for a code. */
const words = (text: string): string =>
  text
    .replace(/[\u0000-\u001f\u007f-\u009f\u2028\u2029]+/g, ' ')
    // No line is broken in a drawing, and the fonts of drawing programs have no such spaces.
    .replace(/[\u00a0\u202f]/g, ' ')
    .replaceAll('%%', '% %')
    .replaceAll('^', '^ ')
    .replace(/\\(?=[UM]\+)/g, '/');

/** A box; a bulge of tan 22.5° turns each corner by a quarter. */
function rounded({ x, y, w, h }: Box, r: number) {
  if (r === 0)
    return [
      [x, y],
      [x + w, y],
      [x + w, y + h],
      [x, y + h],
    ].map(([px = 0, py = 0]) => to2d([px, py]));
  const bulge = -Math.tan(Math.PI / 8);
  return (
    [
      [x + r, y],
      [x + w - r, y],
      [x + w, y + r],
      [x + w, y + h - r],
      [x + w - r, y + h],
      [x + r, y + h],
      [x, y + h - r],
      [x, y + r],
    ] as const
  ).map((point, i) => ({ ...to2d(point), ...(i % 2 === 1 ? { bulge } : {}) }));
}

export type Piece =
  | { readonly t: 'stroke'; readonly points: readonly Point[] }
  /** Degrees as on the sheet: clockwise from +x, from less than to. */
  | { readonly t: 'arc'; readonly centre: Point; readonly r: number; readonly from: number; readonly to: number };

/** A path taken apart: curves that are arcs of circles become arcs again, straight pieces and other curves become strokes. */
export function pieces(d: readonly Segment[]): readonly Piece[] {
  const found: Piece[] = [];
  let at: Point = [0, 0];
  for (const segment of d) {
    const [name] = segment;
    const end: Point = name === 'C' ? [segment[5], segment[6]] : [segment[1], segment[2]];
    const last = found.at(-1);
    if (name === 'M') found.push({ t: 'stroke', points: [end] });
    else if (name === 'L') {
      if (last?.t === 'stroke') found[found.length - 1] = { t: 'stroke', points: [...last.points, end] };
      else found.push({ t: 'stroke', points: [at, end] });
    } else {
      const arc = arcOf(at, [segment[1], segment[2]], [segment[3], segment[4]], end);
      if (!arc) {
        const curve = flattened(at, [segment[1], segment[2]], [segment[3], segment[4]], end);
        if (last?.t === 'stroke') found[found.length - 1] = { t: 'stroke', points: [...last.points, ...curve] };
        else found.push({ t: 'stroke', points: [at, ...curve] });
      } else if (last?.t === 'arc' && near(last.centre, arc.centre) && Math.abs(last.to - arc.from) < 0.01)
        found[found.length - 1] = { ...last, to: arc.to };
      else found.push(arc);
    }
    at = end;
  }
  return found.filter((each) => each.t === 'arc' || each.points.length > 1);
}

const near = ([ax, ay]: Point, [bx, by]: Point): boolean => Math.hypot(ax - bx, ay - by) < 1e-6;

/** The arc that a cubic draws: its handles stand at right angles to two equal radii, and its middle lies on the circle. */
function arcOf(a: Point, b: Point, c: Point, d: Point): Extract<Piece, { t: 'arc' }> | null {
  const [nx, ny] = [-(b[1] - a[1]), b[0] - a[0]];
  const [mx, my] = [-(d[1] - c[1]), d[0] - c[0]];
  const cross = nx * my - ny * mx;
  if (Math.abs(cross) < 1e-9) return null;
  const s = ((d[0] - a[0]) * my - (d[1] - a[1]) * mx) / cross;
  const centre: Point = [a[0] + s * nx, a[1] + s * ny];
  const r = Math.hypot(a[0] - centre[0], a[1] - centre[1]);
  const off = (p: Point) => Math.abs(Math.hypot(p[0] - centre[0], p[1] - centre[1]) - r) / r;
  const middle: Point = [(a[0] + 3 * b[0] + 3 * c[0] + d[0]) / 8, (a[1] + 3 * b[1] + 3 * c[1] + d[1]) / 8];
  if (off(d) > 1e-6 || off(middle) > 1e-3) return null;
  const angle = (p: Point) => (Math.atan2(p[1] - centre[1], p[0] - centre[0]) * 180) / Math.PI;
  const from = angle(a);
  const to = from + ((angle(d) - from + 360) % 360);
  // All arcs of the display list turn clockwise on the sheet; one that turns the other way is left to strokes.
  return to - from <= 91 ? { t: 'arc', centre, r, from, to } : null;
}

const STEPS = 8;
function flattened(a: Point, b: Point, c: Point, d: Point): readonly Point[] {
  return Array.from({ length: STEPS }, (_, i) => {
    const t = (i + 1) / STEPS;
    const [p, q] = [1 - t, t];
    const at = (k: 0 | 1) => p ** 3 * a[k] + 3 * p * p * q * b[k] + 3 * p * q * q * c[k] + q ** 3 * d[k];
    return [at(0), at(1)] as const;
  });
}
