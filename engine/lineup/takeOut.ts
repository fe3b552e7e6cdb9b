import { withoutAsBuilt } from './asBuilt.ts';
import type { Cable } from './cable.ts';
import { wholeTag } from './designation.ts';
import type { Element } from './elements.ts';
import { valueAt } from './fields.ts';
import { illegal, type PortAt } from './joins.ts';
import type { LineUp } from './lineUp.ts';
import { withoutParts } from './notes.ts';
import { remove } from './remove.ts';

/** Takes a part out of a line and makes one cable of its two. What both halves say stays said; what they say differently is asked anew. */

interface Halves {
  readonly element: Element;
  readonly first: Cable;
  readonly second: Cable;
}

/** The two cables of a part that stands in a line, when they may be joined without it. */
export function halvesOf(lineUp: LineUp, id: string): Halves | null {
  const element = lineUp.elements.find((each) => each.id === id);
  const [first, second, ...others] = lineUp.cables.filter((each) => each.from.element === id || each.to.element === id);
  if (!element || !first || !second || others.length > 0) return null;
  const [a, b] = [outer(first, id), outer(second, id)];
  return a && b && illegal(lineUp, a, b) === null ? { element, first, second } : null;
}

function outer(cable: Cable, id: string): PortAt | null {
  const [end, usual] = cable.from.element === id ? [cable.to, 'line' as const] : [cable.from, 'load' as const];
  return end.element && end.element !== id ? { element: end.element, port: end.port ?? usual } : null;
}

export interface TakenOut {
  readonly lineUp: LineUp;
  readonly cable: Cable;
  /** Paths of values that the halves did not share. */
  readonly asked: readonly string[];
}

export function takeOut(lineUp: LineUp, id: string): TakenOut | null {
  const halves = halvesOf(lineUp, id);
  if (!halves) return null;
  // The cable that leads to the part comes first: the whole runs the same way.
  const [a, b] = halves.first.to.element === id ? [halves.first, halves.second] : [halves.second, halves.first];
  const asked: string[] = [];
  const cable =
    a.kind === b.kind
      ? { ...joined(a, b, id, asked), tag: wholeTag(lineUp, a.tag, b.tag) }
      : a.kind === 'cable'
        ? relanded(a, id, b)
        : relanded(b, id, a);
  const gone = cable.id === a.id ? b.id : a.id;
  const cables = lineUp.cables.filter((each) => each.id !== a.id && each.id !== b.id);
  cables.splice(
    lineUp.cables.findIndex((each) => each.id === a.id || each.id === b.id),
    0,
    cable,
  );
  return { lineUp: pointingTo(remove({ ...lineUp, cables }, [id]), cable.id, gone), cable, asked };
}

/** What pointed to the half that is gone points to the whole. */
function pointingTo(lineUp: LineUp, whole: string, gone: string): LineUp {
  const named = (ids: readonly string[]): string[] => [...new Set(ids.map((each) => (each === gone ? whole : each)))];
  const { cables, notes } = lineUp;
  const renamed = {
    ...lineUp,
    cables: cables.map((each) => {
      const { sharedWith } = each.installation;
      return sharedWith?.includes(gone) ? { ...each, installation: { ...each.installation, sharedWith: named(sharedWith) } } : each;
    }),
    ...(notes && { notes: notes.map((each) => (each.parts?.includes(gone) ? { ...each, parts: named(each.parts) } : each)) }),
  };
  return withoutParts(renamed, new Set([gone]));
}

/** Of two of one kind: what they share, between their outer ends. */
function joined(a: Cable, b: Cable, id: string, asked: string[]): Cable {
  const [start, finish] = a.to.element === id ? [a, b] : [b, a];
  const [from, to] = [outerEnd(start, id), outerEnd(finish, id)];
  const whole = shared(a, b, asked);
  const provenance = { ...whole.provenance, ...saidOf(start, from, 'from'), ...saidOf(finish, to, 'to') };
  return { ...whole, from: start[from], to: finish[to], provenance };
}

const outerEnd = (cable: Cable, id: string): 'from' | 'to' => (cable.from.element === id ? 'to' : 'from');

/** On whose word an end is landed as it is, under what it is called in the whole. */
const saidOf = (half: Cable, end: 'from' | 'to', now: 'from' | 'to'): NonNullable<Cable['provenance']> =>
  Object.fromEntries(
    Object.entries(half.provenance ?? {}).flatMap(([path, origin]) =>
      path.startsWith(`${end}.`) ? [[`${now}${path.slice(end.length)}`, origin] as const] : [],
    ),
  );

/** A link inside a cabinet has nothing to say of the cable it prolongs: the cable stays, landed as it was, on what lies behind the link. */
function relanded(cable: Cable, id: string, link: Cable): Cable {
  const { element, port } = link.from.element === id ? link.to : link.from;
  const end = cable.from.element === id ? 'from' : 'to';
  return landedOn(cable, end, { element, port });
}

/** A cable that ends elsewhere: what was recorded of it no longer holds. */
export const landedOn = (cable: Cable, end: 'from' | 'to', at: Pick<Cable['from'], 'element' | 'port'>): Cable => ({
  ...withoutAsBuilt(cable),
  [end]: { ...cable[end], ...at },
});

const same = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);
const isGroup = (value: unknown): value is Record<string, unknown> => typeof value === 'object' && value !== null && !Array.isArray(value);

function shared(a: Cable, b: Cable, asked: string[]): Cable {
  const common = (x: Record<string, unknown>, y: Record<string, unknown>, path: string): Record<string, unknown> => {
    const kept: Record<string, unknown> = {};
    for (const key of new Set([...Object.keys(x), ...Object.keys(y)])) {
      const [one, other] = [x[key], y[key]];
      const here = path === '' ? key : `${path}.${key}`;
      if (isGroup(one) && isGroup(other)) kept[key] = common(one, other, here);
      else if (same(one, other)) kept[key] = one;
      else asked.push(here);
    }
    return kept;
  };
  const { id, tag, from, to, auxiliary, provenance, length_m: _l, lengthMost_m: _m, ...ours } = withoutAsBuilt(a);
  const {
    id: _id,
    tag: _tag,
    from: _from,
    to: _to,
    auxiliary: others,
    provenance: theirs,
    length_m: _n,
    lengthMost_m: _o,
    ...those
  } = withoutAsBuilt(b);
  const merged: Cable = { ...(common(ours, those, '') as typeof ours), id, tag, from, to, auxiliary: [...auxiliary] };
  // Cores that run in one half only are still there.
  for (const group of others) if (!merged.auxiliary.some((each) => same(each, group))) merged.auxiliary.push(group);
  // Two lengths add up; one alone says nothing of the whole.
  const sum = (x: number | undefined, y: number | undefined) =>
    x === undefined || y === undefined ? undefined : Number((x + y).toPrecision(12));
  const least = sum(a.length_m, b.length_m);
  const most = a.lengthMost_m === undefined && b.lengthMost_m === undefined ? undefined : sum(longest(a), longest(b));
  if (least !== undefined) merged.length_m = least;
  else if (a.kind === 'cable') asked.push('length_m');
  if (most !== undefined) merged.lengthMost_m = most;
  merged.provenance = Object.fromEntries(
    Object.entries(provenance ?? {}).filter(
      ([path, origin]) =>
        !/^(from\.|to\.|length(Most)?_m$)/.test(path) && valueAt(merged, path) !== undefined && same(origin, theirs?.[path]),
    ),
  );
  // A sum was typed by nobody, and is no surer than the less sure of the two.
  const origins = [provenance, theirs].map((each) => each?.['length_m']?.origin);
  const origin = origins[0] === origins[1] ? origins[0] : origins.find((each) => each === 'assumed');
  if (origin !== undefined && least !== undefined) merged.provenance['length_m'] = { origin };
  return merged;
}

const longest = (cable: Cable): number | undefined => cable.lengthMost_m ?? cable.length_m;
