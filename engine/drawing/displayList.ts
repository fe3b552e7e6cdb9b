/** The one display list: what the canvas, the pictures and the paper draw. Millimetres, y down. */

export type Ink =
  | 'ink'
  | 'ink2'
  | 'ink3'
  | 'rule'
  | 'rule2'
  | 'fail'
  | 'open'
  | 'caution'
  | 'note'
  | 'canvas'
  | 'accent'
  | 'accentTint'
  | 'failTint'
  | 'openTint'
  | 'cautionTint'
  | 'noteTint'
  | 'copper'
  | 'aluminium';

export type Point = readonly [number, number];
export type Segment =
  | readonly ['M', number, number]
  | readonly ['L', number, number]
  | readonly ['C', number, number, number, number, number, number];

export interface LineItem {
  readonly t: 'line';
  readonly points: readonly Point[];
  readonly weight_mm: number;
  readonly ink: Ink;
  readonly dash?: readonly number[];
}
export interface PathItem {
  readonly t: 'path';
  readonly d: readonly Segment[];
  /** Zero: filled only. */
  readonly weight_mm: number;
  readonly ink: Ink;
  readonly fill?: Ink;
}
export interface CircleItem {
  readonly t: 'circle';
  readonly x: number;
  readonly y: number;
  readonly r: number;
  readonly weight_mm: number;
  readonly ink: Ink;
  readonly fill?: Ink;
  readonly dash?: readonly number[];
}
export interface RectItem {
  readonly t: 'rect';
  readonly x: number;
  readonly y: number;
  readonly w: number;
  readonly h: number;
  readonly corner_mm?: number;
  readonly weight_mm: number;
  readonly ink: Ink;
  readonly fill?: Ink;
}
export interface TextItem {
  readonly t: 'text';
  /** At the anchor, on the baseline. */
  readonly x: number;
  readonly y: number;
  readonly text: string;
  readonly size_mm: number;
  readonly weight: 400 | 600;
  readonly anchor: 'start' | 'middle' | 'end';
  readonly ink: Ink;
  /** What it says on a screen that shows the drawing small, and then smaller still. Empty: nothing. Paper says all. */
  readonly less?: readonly [small: string, smaller: string];
}
export type Item = LineItem | PathItem | CircleItem | RectItem | TextItem;

export interface Box {
  readonly x: number;
  readonly y: number;
  readonly w: number;
  readonly h: number;
}

/** Line weights of the drawing. */
export const WEIGHT = { hair: 0.18, thin: 0.25, line: 0.5, heavy: 0.7, bus: 1.4 } as const;
/** 3.8 mm of Copperline Sans gives capitals 2.5 mm high, the smallest that is printed. */
export const TEXT_mm = 3.8;
export const LINE_PITCH_mm = 4.7;

/** A line, and words of the usual size: what charts are made of. */
export const stroke = (points: readonly Point[], weight_mm: number, ink: Ink = 'ink', dash?: readonly number[]): Item => ({
  t: 'line',
  points,
  weight_mm,
  ink,
  ...(dash ? { dash } : {}),
});

export const words = (
  says: string,
  x: number,
  y: number,
  anchor: TextItem['anchor'] = 'start',
  weight: 400 | 600 = 400,
  ink: Ink = 'ink',
): TextItem => ({
  t: 'text',
  x,
  y,
  text: says,
  size_mm: TEXT_mm,
  weight,
  anchor,
  ink,
});

export const translate = (items: readonly Item[], dx: number, dy: number): readonly Item[] => items.map((item) => moved(item, dx, dy));

function moved(item: Item, dx: number, dy: number): Item {
  if (item.t === 'line') return { ...item, points: item.points.map(([x, y]) => [x + dx, y + dy] as const) };
  if (item.t !== 'path') return { ...item, x: item.x + dx, y: item.y + dy };
  return {
    ...item,
    d: item.d.map((s) =>
      s[0] === 'C'
        ? (['C', s[1] + dx, s[2] + dy, s[3] + dx, s[4] + dy, s[5] + dx, s[6] + dy] as const)
        : ([s[0], s[1] + dx, s[2] + dy] as const),
    ),
  };
}

/** So many times as large, letters and line weights too. */
export const enlarge = (items: readonly Item[], k: number): readonly Item[] => items.map((item) => larger(item, k));

function larger(item: Item, k: number): Item {
  if (item.t === 'text') return { ...item, x: item.x * k, y: item.y * k, size_mm: item.size_mm * k };
  const drawn = {
    weight_mm: item.weight_mm * k,
    ...('dash' in item && item.dash ? { dash: item.dash.map((each) => each * k) } : {}),
  };
  if (item.t === 'line') return { ...item, ...drawn, points: item.points.map(([x, y]) => [x * k, y * k] as const) };
  if (item.t === 'path')
    return {
      ...item,
      ...drawn,
      d: item.d.map((s) =>
        s[0] === 'C' ? (['C', s[1] * k, s[2] * k, s[3] * k, s[4] * k, s[5] * k, s[6] * k] as const) : ([s[0], s[1] * k, s[2] * k] as const),
      ),
    };
  const at = { x: item.x * k, y: item.y * k };
  if (item.t === 'circle') return { ...item, ...drawn, ...at, r: item.r * k };
  const corner = item.corner_mm === undefined ? {} : { corner_mm: item.corner_mm * k };
  return { ...item, ...drawn, ...at, ...corner, w: item.w * k, h: item.h * k };
}
