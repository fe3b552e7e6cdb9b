import type { LineUp } from '../lineup/lineUp.ts';
import { symbolOf } from './symbols.ts';

/** Columns stand this far apart: verdict phrases at the left of an axis and labels at its right both fit between two. */
export const COLUMN_mm = 100;
/** Room of a cable, for three lines of label and its landings; of a link, for its tag. */
const CABLE_mm = 26;
const LINK_mm = 5;
/** Parts snap to this. */
const GRID_mm = 2.5;
/** From a bus to the device under it. */
const TAP_mm = 5;

type Sides = readonly [left: number, right: number];

/** A part with what hangs below it. Sideways in millimetres, downwards in rows; it stands `dx`, `dy` from the part above. */
interface Twig {
  readonly id: string;
  readonly isBox: boolean;
  readonly above: Twig | undefined;
  /** Room of the cable from the part above. */
  readonly gap_mm: number;
  readonly children: Twig[];
  dx: number;
  dy: number;
  /** How far all of it reaches from its own axis and row: to the left and to the right, and downwards. */
  reach: Sides;
  rows: number;
  /** Rows to the first that has something beside the axis, on the left and on the right. */
  clear: Sides;
  /** Whether cables divide in a box at or below it. */
  divides: boolean;
}

const sprout = (id: string, isBox: boolean, above?: Twig, gap_mm = 0): Twig => ({
  id,
  isBox,
  above,
  gap_mm,
  children: [],
  dx: 0,
  dy: 1,
  reach: [0, 0],
  rows: 0,
  clear: [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY],
  divides: false,
});

/** A radial tree from each source down, one run a column, rows by depth; a trunk with a box for each motor goes straight on. Total: a loop is cut where it closes, an island stands beside the rest. */
export function tidyPositions(lineUp: LineUp): LineUp['positions'] {
  const elements = new Map(lineUp.elements.map((each) => [each.id, each]));
  const down = new Map<string, { id: string; gap_mm: number }[]>();
  const up = new Map<string, { id: string; gap_mm: number }[]>();
  for (const cable of lineUp.cables) {
    const a = cable.from.element;
    const b = cable.to.element;
    if (!a || !b || a === b || !elements.has(a) || !elements.has(b)) continue;
    const atBus = elements.get(a)?.kind === 'bus' || elements.get(b)?.kind === 'bus';
    const gap_mm = cable.kind === 'cable' ? CABLE_mm : atBus ? TAP_mm : LINK_mm;
    if (!down.has(a)) down.set(a, []);
    down.get(a)?.push({ id: b, gap_mm });
    if (!up.has(b)) up.set(b, []);
    up.get(b)?.push({ id: a, gap_mm });
  }
  const isBox = (id: string): boolean => elements.get(id)?.kind === 'junction';
  const seen = new Set<string>();
  const grow = (id: string): readonly Twig[] => {
    // Level by level and with a list: a run of five thousand boxes must not exhaust the stack.
    const twigs = [sprout(id, isBox(id))];
    seen.add(id);
    for (const twig of twigs)
      for (const next of [...(down.get(twig.id) ?? []), ...(up.get(twig.id) ?? [])]) {
        if (seen.has(next.id)) continue;
        seen.add(next.id);
        const child = sprout(next.id, isBox(next.id), twig, next.gap_mm);
        twig.children.push(child);
        twigs.push(child);
      }
    return twigs;
  };
  const order = [
    ...lineUp.elements.filter((each) => each.kind === 'supply'),
    ...lineUp.elements.filter((each) => each.kind !== 'supply' && !up.has(each.id)),
    ...lineUp.elements,
  ];
  const trees: (readonly Twig[])[] = [];
  for (const each of order) if (!seen.has(each.id)) trees.push(grow(each.id));

  // What hangs below is settled before what it hangs from.
  for (const tree of trees) for (const twig of [...tree].reverse()) settle(twig);

  const places = new Map<string, { x_mm: number; row: number }>();
  const gaps: number[] = [];
  const heights: number[] = [];
  let edge = 0;
  for (const tree of trees)
    for (const { id, above, dx, dy, gap_mm, reach } of tree) {
      const from = above && places.get(above.id);
      const place = from ? { x_mm: from.x_mm + dx, row: from.row + dy } : { x_mm: edge + reach[0], row: 0 };
      if (!from) edge += reach[0] + reach[1] + COLUMN_mm;
      places.set(id, place);
      const part = elements.get(id);
      if (part) heights[place.row] = Math.max(heights[place.row] ?? 0, symbolOf(part, 'us').height_mm);
      if (from) gaps[place.row - 1] = Math.max(gaps[place.row - 1] ?? 0, gap_mm);
    }

  const tops: number[] = [0];
  for (let row = 1; row < heights.length; row++)
    tops[row] = snap((tops[row - 1] ?? 0) + (heights[row - 1] ?? 0) + (gaps[row - 1] ?? LINK_mm));
  return Object.fromEntries([...places].map(([id, { x_mm, row }]) => [id, { x_mm, y_mm: tops[row] ?? 0 }]));
}

/** Places the children of a part: side by side with the part over their middle, or, along a trunk, one straight below and the others beside it. */
function settle(twig: Twig): void {
  const { children } = twig;
  const forks = twig.isBox && children.length > 1;
  twig.divides = forks || children.some((each) => each.divides);
  const further = children.filter((each) => each.isBox || each.divides);
  const [only] = children;
  const [trunk] = further;
  if (!only) return;
  if (children.length === 1) carryOn(twig, only);
  else if (forks && trunk && further.length === 1) branchOff(twig, trunk);
  else spread(twig);
  twig.rows = Math.max(...children.map((each) => each.dy + each.rows));
}

function carryOn(twig: Twig, child: Twig): void {
  twig.reach = child.reach;
  twig.clear = [child.dy + child.clear[0], child.dy + child.clear[1]];
}

/** What leaves a trunk goes by turns to both sides, and the trunk goes on so far that it has ended before the next begins on its side. */
function branchOff(twig: Twig, trunk: Twig): void {
  const beside: [number, number] = [0, 0];
  for (const child of twig.children) {
    if (child === trunk) continue;
    const toRight = beside[0] === beside[1] ? trunk.clear[1] >= trunk.clear[0] : beside[1] < beside[0];
    const [near, far] = toRight ? ([0, 1] as const) : ([1, 0] as const);
    const away = beside[far] + COLUMN_mm + child.reach[near];
    child.dx = toRight ? away : -away;
    beside[far] = away + child.reach[far];
    trunk.dy = Math.max(trunk.dy, child.rows + 2 - trunk.clear[far]);
  }
  carryOn(twig, trunk);
  twig.reach = [Math.max(beside[0], twig.reach[0]), Math.max(beside[1], twig.reach[1])];
  twig.clear = [beside[0] > 0 ? 0 : twig.clear[0], beside[1] > 0 ? 0 : twig.clear[1]];
}

function spread(twig: Twig): void {
  const [first] = twig.children;
  const last = twig.children.at(-1);
  if (!first || !last) return;
  let edge = 0;
  for (const child of twig.children) {
    child.dx = edge + child.reach[0];
    edge = child.dx + child.reach[1] + COLUMN_mm;
  }
  const axis = snap((first.dx + last.dx) / 2);
  for (const child of twig.children) child.dx -= axis;
  twig.reach = [axis, edge - COLUMN_mm - axis];
  twig.clear = [0, 0];
}

/** After a part was put into a cable: it and all that hangs below stand as much lower as the labels of both halves need. Sheets read downwards; what does not is left alone. */
export function makeRoom(lineUp: LineUp, id: string): LineUp['positions'] {
  const elements = new Map(lineUp.elements.map((each) => [each.id, each]));
  const positions = { ...lineUp.positions };
  const room = (cable: LineUp['cables'][number]): number => {
    const [above, below] = [cable.from.element ?? '', cable.to.element ?? ''];
    const [part, at, under] = [elements.get(above), positions[above], positions[below]];
    if (!part || !at || !under || under.y_mm <= at.y_mm) return 0;
    return snap(at.y_mm + symbolOf(part, 'us').height_mm + (cable.kind === 'cable' ? CABLE_mm : LINK_mm)) - under.y_mm;
  };
  const lower = (from: string, by_mm: number): void => {
    const below = new Set([from]);
    for (const each of below)
      for (const { from: start, to } of lineUp.cables) if (start.element === each && to.element !== undefined) below.add(to.element);
    for (const each of below) {
      const at = positions[each];
      if (at) positions[each] = { ...at, y_mm: at.y_mm + by_mm };
    }
  };
  for (const cable of [
    ...lineUp.cables.filter((each) => each.to.element === id),
    ...lineUp.cables.filter((each) => each.from.element === id),
  ]) {
    const needed = room(cable);
    if (needed > 0 && cable.to.element !== undefined) lower(cable.to.element, needed);
  }
  return positions;
}

const snap = (value: number): number => Math.ceil(value / GRID_mm - 1e-9) * GRID_mm;
