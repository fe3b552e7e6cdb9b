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

interface Twig {
  readonly id: string;
  readonly children: Twig[];
}

/** A radial tree from each source down, one run a column, rows by depth. Total: a loop is cut where it closes, an island stands beside the rest. */
export function tidyPositions(lineUp: LineUp): LineUp['positions'] {
  const elements = new Map(lineUp.elements.map((each) => [each.id, each]));
  const down = new Map<string, { id: string; gap: number }[]>();
  const up = new Map<string, { id: string; gap: number }[]>();
  for (const cable of lineUp.cables) {
    const a = cable.from.element;
    const b = cable.to.element;
    if (!a || !b || a === b || !elements.has(a) || !elements.has(b)) continue;
    const atBus = elements.get(a)?.kind === 'bus' || elements.get(b)?.kind === 'bus';
    const gap = cable.kind === 'cable' ? CABLE_mm : atBus ? TAP_mm : LINK_mm;
    if (!down.has(a)) down.set(a, []);
    down.get(a)?.push({ id: b, gap });
    if (!up.has(b)) up.set(b, []);
    up.get(b)?.push({ id: a, gap });
  }
  const depth = new Map<string, number>();
  const gaps: number[] = [];
  const heights: number[] = [];
  const grow = (id: string): Twig => {
    const root: Twig = { id, children: [] };
    depth.set(id, 0);
    // Level by level and with a list: a run of five thousand boxes must not exhaust the stack.
    const queue: Twig[] = [root];
    for (let at = 0; at < queue.length; at++) {
      const twig = queue[at];
      if (!twig) break;
      const level = depth.get(twig.id) ?? 0;
      const part = elements.get(twig.id);
      if (part) heights[level] = Math.max(heights[level] ?? 0, symbolOf(part, 'us').height_mm);
      for (const next of [...(down.get(twig.id) ?? []), ...(up.get(twig.id) ?? [])]) {
        if (depth.has(next.id)) continue;
        depth.set(next.id, level + 1);
        gaps[level] = Math.max(gaps[level] ?? 0, next.gap);
        const child: Twig = { id: next.id, children: [] };
        twig.children.push(child);
        queue.push(child);
      }
    }
    return root;
  };
  const order = [
    ...lineUp.elements.filter((each) => each.kind === 'supply'),
    ...lineUp.elements.filter((each) => each.kind !== 'supply' && !up.has(each.id)),
    ...lineUp.elements,
  ];
  const roots: Twig[] = [];
  for (const each of order) if (!depth.has(each.id)) roots.push(grow(each.id));

  const tops: number[] = [0];
  for (let level = 1; level < heights.length; level++)
    tops[level] = snap((tops[level - 1] ?? 0) + (heights[level - 1] ?? 0) + (gaps[level - 1] ?? LINK_mm));
  const positions: Record<string, { x_mm: number; y_mm: number }> = {};
  let column = 0;
  for (const root of roots) {
    // Children before parents: leaves take the next column, a parent stands over the middle of its children.
    const x = new Map<string, number>();
    const visit: { twig: Twig; done: boolean }[] = [{ twig: root, done: false }];
    for (let top = visit.pop(); top; top = visit.pop()) {
      const { twig, done } = top;
      if (twig.children.length === 0) x.set(twig.id, COLUMN_mm * column++);
      else if (done) x.set(twig.id, snap(((x.get(twig.children[0]?.id ?? '') ?? 0) + (x.get(twig.children.at(-1)?.id ?? '') ?? 0)) / 2));
      else {
        visit.push({ twig, done: true });
        for (const child of [...twig.children].reverse()) visit.push({ twig: child, done: false });
      }
    }
    for (const [id, at] of x) positions[id] = { x_mm: at, y_mm: tops[depth.get(id) ?? 0] ?? 0 };
  }
  return positions;
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
