import {
  applyFix,
  besideIn,
  type Cable,
  type Element,
  type ElementKind,
  type Fix,
  halfTags,
  illegal,
  type LineUp,
  makeRoom,
  newCable,
  newElement,
  nextId,
  PORTS,
  type PortAt,
  tidyPositions,
  valueAt,
  withoutAsBuilt,
  withValueAt,
} from '../../engine/index.ts';
import { likeLast } from './likeLast.ts';

/** What hands do to the document, as functions from one document to the next. */

export type At = LineUp['positions'][string];
const GRID_mm = 2.5;
const snap = (value: number): number => Math.round(value / GRID_mm) * GRID_mm;
export const snapped = ({ x_mm, y_mm }: At): At => ({ x_mm: snap(x_mm), y_mm: snap(y_mm) });

/** A file need not say where its parts stand: those without a place have the one that tidying would give them. */
export const withPlaces = (lineUp: LineUp): LineUp =>
  lineUp.elements.every((each) => lineUp.positions[each.id])
    ? lineUp
    : { ...lineUp, positions: { ...tidyPositions(lineUp), ...lineUp.positions } };

export function place(lineUp: LineUp, kind: ElementKind, at: At): { readonly lineUp: LineUp; readonly id: string } {
  const element = newElement(lineUp, kind);
  return {
    id: element.id,
    lineUp: { ...lineUp, elements: [...lineUp.elements, element], positions: { ...lineUp.positions, [element.id]: snapped(at) } },
  };
}

/** Puts parts elsewhere; the same document when none of them has really moved. */
export function move(lineUp: LineUp, places: ReadonlyMap<string, At>): LineUp {
  const moved = [...places].filter(([id, at]) => lineUp.positions[id]?.x_mm !== at.x_mm || lineUp.positions[id]?.y_mm !== at.y_mm);
  return moved.length === 0 ? lineUp : { ...lineUp, positions: { ...lineUp.positions, ...Object.fromEntries(moved) } };
}

export function connect(lineUp: LineUp, from: PortAt, to: PortAt): { readonly lineUp: LineUp; readonly id: string } {
  const towards = from.port === 'line' && to.port === 'load';
  const bare = towards ? newCable(lineUp, to, from) : newCable(lineUp, from, to);
  const cable = likeLast({ ...lineUp, cables: [...lineUp.cables, bare] }, bare);
  return { id: cable.id, lineUp: { ...lineUp, cables: [...lineUp.cables, cable] } };
}

/** Puts a new part into a cable: both halves keep its data; how the shield is landed at the new ends is not known, nor how the length divides, nor which half lies beside others. */
export function insertInto(
  lineUp: LineUp,
  cableId: string,
  kind: ElementKind,
  at: At,
): { readonly lineUp: LineUp; readonly id: string } | null {
  const whole = lineUp.cables.find((each) => each.id === cableId);
  if (!whole || PORTS[kind].length < 2) return null;
  const cable = withoutAsBuilt(whole);
  const [feeds, fed] = [cable.from, cable.to].map(({ element = '' }) => lineUp.positions[element]?.y_mm);
  // Let go on what feeds it, it would stand before that: room is made from there on.
  const y_mm = feeds !== undefined && fed !== undefined && feeds < fed ? Math.max(at.y_mm, feeds + GRID_mm) : at.y_mm;
  const placed = place(lineUp, kind, { ...at, y_mm });
  const [near, far] = halfTags(placed.lineUp, cable.tag);
  const half: Cable = {
    ...cable,
    id: nextId(placed.lineUp, 'c'),
    tag: far,
    from: { element: placed.id, port: 'load' },
    length_m: undefined,
    lengthMost_m: undefined,
    ...(besideIn(lineUp.cables, cable).length > 0 && { installation: { ...cable.installation, sharedWith: undefined } }),
    provenance: Object.fromEntries(
      Object.entries(cable.provenance ?? {}).filter(([path]) => !path.startsWith('length') && !path.startsWith('from.')),
    ),
  };
  const first: Cable = {
    ...cable,
    tag: near,
    to: { element: placed.id, port: 'line' },
    provenance: Object.fromEntries(Object.entries(cable.provenance ?? {}).filter(([path]) => !path.startsWith('to.'))),
  };
  const cables = placed.lineUp.cables.flatMap((each) => (each.id === cableId ? [first, half] : [each]));
  const made = { ...placed.lineUp, cables };
  return { id: placed.id, lineUp: { ...made, positions: makeRoom(made, placed.id) } };
}

/** How far apart parts stand beside each other, their labels between them, and below each other. */
const ASIDE_mm = 60;
const BELOW_mm = 45;

/** The next place to the right where nothing stands. */
export function aside(lineUp: LineUp, { x_mm, y_mm }: At): At {
  const at = { x_mm: x_mm + ASIDE_mm, y_mm };
  const stand = Object.values(lineUp.positions);
  const taken = stand.some((each) => Math.abs(each.x_mm - at.x_mm) < ASIDE_mm && Math.abs(each.y_mm - y_mm) < BELOW_mm);
  return taken ? aside(lineUp, at) : at;
}

/** A part that a cable only ends at is fed from a junction in it, and stands beside what the cable leads to. A supply cannot be. */
export function branchOff(
  lineUp: LineUp,
  cableId: string,
  kind: ElementKind,
  at: At,
): { readonly lineUp: LineUp; readonly id: string } | null {
  const cable = lineUp.cables.find((each) => each.id === cableId);
  const boxed = PORTS[kind].includes('line') ? insertInto(lineUp, cableId, 'junction', at) : null;
  const box = boxed?.lineUp.positions[boxed.id];
  if (!cable || !boxed || !box) return null;
  const fed = boxed.lineUp.positions[cable.to.element ?? '']?.y_mm ?? 0;
  const place_mm = { x_mm: box.x_mm, y_mm: Math.max(fed, box.y_mm + BELOW_mm) };
  const placed = place(boxed.lineUp, kind, aside(boxed.lineUp, place_mm));
  return {
    id: placed.id,
    lineUp: connect(placed.lineUp, { element: boxed.id, port: 'load' }, { element: placed.id, port: 'line' }).lineUp,
  };
}

/** A change that helps a finding made, with room on the sheet for what it puts in or moves. */
export function withFix(lineUp: LineUp, fix: Fix): LineUp {
  let made = applyFix(lineUp, fix);
  for (const { id } of made.elements)
    if (made.positions[id] && !lineUp.elements.some((each) => each.id === id && lineUp.positions[id] === made.positions[id]))
      made = { ...made, positions: makeRoom(made, id) };
  return made;
}

/** Lands one end of a cable elsewhere. How it is landed there is not known. */
export function reconnect(lineUp: LineUp, cableId: string, end: 'from' | 'to', port: PortAt): LineUp {
  const change = (before: Cable): Cable => {
    const cable = withoutAsBuilt(before);
    return {
      ...cable,
      [end]: { ...port },
      provenance: Object.fromEntries(Object.entries(cable.provenance ?? {}).filter(([path]) => !path.startsWith(`${end}.`))),
    };
  };
  return { ...lineUp, cables: lineUp.cables.map((cable) => (cable.id === cableId ? change(cable) : cable)) };
}

/** Puts a part below the given one and joins them where that is allowed; without one, below everything that is drawn. */
export function placeAfter(lineUp: LineUp, kind: ElementKind, after: string | undefined): { readonly lineUp: LineUp; readonly id: string } {
  const before = lineUp.elements.find((element) => element.id === after);
  const at = before && lineUp.positions[before.id];
  if (!before || !at) {
    const all = Object.values(lineUp.positions);
    return place(lineUp, kind, {
      x_mm: all[0]?.x_mm ?? 60,
      y_mm: all.length === 0 ? 20 : Math.max(...all.map((each) => each.y_mm)) + BELOW_mm,
    });
  }
  const siblings = lineUp.cables.filter((cable) => cable.from.element === before.id).length;
  const placed = place(lineUp, kind, { x_mm: at.x_mm + siblings * ASIDE_mm, y_mm: at.y_mm + BELOW_mm });
  const [from, to] = [
    { element: before.id, port: 'load' as const },
    { element: placed.id, port: 'line' as const },
  ];
  const joins = PORTS[before.kind].includes('load') && PORTS[kind].includes('line') && illegal(placed.lineUp, from, to) === null;
  return joins ? { id: placed.id, lineUp: connect(placed.lineUp, from, to).lineUp } : placed;
}

/** Sets or, with undefined, takes out one value at a dotted path of one part or of several, and keeps what was typed. */
export function setValue(lineUp: LineUp, id: string | readonly string[], path: string, value: unknown, typed?: string): LineUp {
  return changePart(lineUp, id, (part) => {
    const provenance: NonNullable<Cable['provenance']> = { ...part.provenance };
    if (value === undefined) delete provenance[path];
    else provenance[path] = { origin: 'entered', ...(typed === undefined ? {} : { typed }) };
    return { ...withValueAt(part, path, value), provenance };
  });
}

/** Sets or takes out one value of the project. */
export const setProject = (lineUp: LineUp, path: string, value: unknown): LineUp => ({
  ...lineUp,
  project: withValueAt(lineUp.project, path, value),
});

/** Switches a check off with a reason, or on again with null. */
export function switchCheck(lineUp: LineUp, slug: string, reason: string | null): LineUp {
  const { [slug]: _old, ...others } = lineUp.project.checks;
  const checks = reason === null ? others : { ...others, [slug]: { off: true, reason } };
  return { ...lineUp, project: { ...lineUp.project, checks } };
}

/** Lists inside a part that are edited a row at a time, with the row that a new one begins as. */
const LISTS = {
  'manual.emcLengths': { category: 'C2', length_m: 50 },
  auxiliary: { use: 'brake' },
  peakCurve: { rise_s: 0.1e-6, peak_V: 1000 },
} as const;
export type RowList = keyof typeof LISTS;

/** One row more at the end of a list. */
export const addRow = (lineUp: LineUp, id: string, list: RowList): LineUp =>
  changePart(lineUp, id, (part) =>
    withValueAt(part, list, [...((valueAt(part, list) as readonly object[] | undefined) ?? []), LISTS[list]]),
  );

/** The row at this place less. What was typed for those after it moves up with them. */
export const takeRow = (lineUp: LineUp, id: string, list: RowList, at: number): LineUp =>
  changePart(lineUp, id, (part) => {
    const rows = ((valueAt(part, list) as readonly object[] | undefined) ?? []).filter((_, i) => i !== at);
    const provenance = Object.fromEntries(
      Object.entries(part.provenance ?? {}).flatMap(([path, origin]) => {
        if (!path.startsWith(`${list}.`)) return [[path, origin]];
        const [place = '', ...rest] = path.slice(list.length + 1).split('.');
        const moved = Number(place) - (Number(place) > at ? 1 : 0);
        return Number(place) === at ? [] : [[[list, moved, ...rest].join('.'), origin]];
      }),
    );
    // Of cores an empty list means that there are none; of the others nothing is known.
    return { ...withValueAt(part, list, rows.length > 0 || list === 'auxiliary' ? rows : undefined), provenance };
  });

function changePart(lineUp: LineUp, id: string | readonly string[], change: <T extends Element | Cable>(part: T) => T): LineUp {
  const only = <T extends Element | Cable>(part: T): T =>
    (typeof id === 'string' ? part.id === id : id.includes(part.id)) ? change(part) : part;
  return { ...lineUp, elements: lineUp.elements.map(only), cables: lineUp.cables.map(only) };
}
