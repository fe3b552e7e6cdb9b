import type { LineUp } from '../lineup/lineUp.ts';
import { type Box, type Item, LINE_PITCH_mm, WEIGHT } from './displayList.ts';
import { around, meets } from './extent.ts';

/** What stands in one enclosure: a chain line round its parts and their tags. Dashes alone mean a shield, so dots stand between them. */

export interface Boundary {
  readonly name: string;
  readonly members: readonly string[];
  readonly box: Box;
  readonly items: readonly Item[];
}

const MARGIN_mm = 3;
const CHAIN = [6, 1.2, 0.5, 1.2];

/** @param rooms what each part and the label of each cable take up, by id */
export function boundaries(lineUp: LineUp, rooms: ReadonlyMap<string, Box>): readonly Boundary[] {
  const groups = new Map<string, string[]>();
  for (const { id, enclosure } of lineUp.elements) {
    const name = enclosure?.trim();
    if (!name || !rooms.has(id)) continue;
    const group = groups.get(name);
    if (group) group.push(id);
    else groups.set(name, [id]);
  }
  return [...groups].flatMap(([name, members]) =>
    clusters(lineUp, members)
      // A line that took in a stranger would tell an untruth: then each part has its own.
      .flatMap((cluster) => (strangers(lineUp, cluster, rooms) ? cluster.map((id) => [id]) : [cluster]))
      .map((cluster) => drawn(name, cluster, boxOf(lineUp, cluster, rooms))),
  );
}

/** Parts that hang together by cables between them stand side by side; others of the same name have a box of their own. */
function clusters(lineUp: LineUp, members: readonly string[]): readonly (readonly string[])[] {
  const groupOf = new Map(members.map((id) => [id, new Set([id])]));
  for (const { from, to } of lineUp.cables) {
    const [a, b] = [groupOf.get(from.element ?? ''), groupOf.get(to.element ?? '')];
    if (!a || !b || a === b) continue;
    for (const id of b) {
      a.add(id);
      groupOf.set(id, a);
    }
  }
  return [...new Set(groupOf.values())].map((group) => [...group]);
}

function boxOf(lineUp: LineUp, members: readonly string[], rooms: ReadonlyMap<string, Box>): Box {
  const inside = (id: string | undefined) => members.includes(id ?? '');
  const cables = lineUp.cables.filter(({ from, to }) => inside(from.element) && inside(to.element)).map((cable) => cable.id);
  const { x, y, w, h } = around([...members, ...cables].flatMap((id) => rooms.get(id) ?? []));
  return { x: x - MARGIN_mm, y: y - MARGIN_mm, w: w + 2 * MARGIN_mm, h: h + 2 * MARGIN_mm };
}

function strangers(lineUp: LineUp, members: readonly string[], rooms: ReadonlyMap<string, Box>): boolean {
  const box = boxOf(lineUp, members, rooms);
  return lineUp.elements.some(({ id }) => {
    const room = rooms.get(id);
    return room !== undefined && !members.includes(id) && meets(box, room);
  });
}

function drawn(name: string, members: readonly string[], box: Box): Boundary {
  const { x, y, w, h } = box;
  const corners = [
    [x, y],
    [x + w, y],
    [x + w, y + h],
    [x, y + h],
    [x, y],
  ] as const;
  return { name, members, box, items: [{ t: 'line', points: corners, weight_mm: WEIGHT.thin, ink: 'rule2', dash: CHAIN }] };
}

/** The sides of a box, as what no label may lie on. */
export function sides({ x, y, w, h }: Box): readonly Box[] {
  const thick = 0.4;
  return [
    { x: x - thick, y, w: 2 * thick, h },
    { x: x + w - thick, y, w: 2 * thick, h },
    { x, y: y - thick, w, h: 2 * thick },
    { x, y: y + h - thick, w, h: 2 * thick },
  ];
}

/** Where the name stands: on the line, at its left end. */
export const namePlace = ({ x, y }: Box): { readonly x: number; readonly y: number } => ({ x, y: y - LINE_PITCH_mm / 2 });
