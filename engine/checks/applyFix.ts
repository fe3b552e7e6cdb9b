import type { Cable } from '../lineup/cable.ts';
import { newCable, newElement } from '../lineup/create.ts';
import type { Element, Port } from '../lineup/elements.ts';
import { withValueAt } from '../lineup/fields.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import { remove } from '../lineup/remove.ts';
import { landedOn, takeOut } from '../lineup/takeOut.ts';
import type { Fix, FixEdit, FixInsert, FixMove } from './finding.ts';

/** The document with a fix made: parts removed or taken out, values changed, parts moved, parts put in. What is of a part that is gone is none. */
export function applyFix(lineUp: LineUp, { edits, inserts = [], takesOut = [], removes = [], moves = [] }: Fix): LineUp {
  const change = <T extends Element | Cable>(part: T): T =>
    changed(
      part,
      edits.filter(({ id }) => id === part.id),
    );
  const less = takesOut.reduce((now, id) => takeOut(now, id)?.lineUp ?? now, remove(lineUp, removes));
  const edited: LineUp = { ...less, elements: less.elements.map(change), cables: less.cables.map(change) };
  return inserts.reduce(withNewPart, moves.reduce(withMoved, edited));
}

/** The part with these edits made. Where the old value came from does not hold for the new one. */
export function changed<T extends Element | Cable>(part: T, edits: readonly FixEdit[]): T {
  if (edits.length === 0) return part;
  const next = edits.reduce((now, { path, value }) => withValueAt(now, path, value ?? undefined), part);
  if (!next.provenance) return next;
  const stale = new Set(edits.map(({ path }) => path));
  return { ...next, provenance: Object.fromEntries(Object.entries(next.provenance).filter(([path]) => !stale.has(path))) };
}

/** What is known of a part that nobody has chosen yet is assumed. */
const assumed = (paths: readonly string[]): Element['provenance'] => Object.fromEntries(paths.map((path) => [path, { origin: 'assumed' }]));

function withNewPart(lineUp: LineUp, { kind, values, cable, end, port, tail }: FixInsert): LineUp {
  const part = { ...newElement(lineUp, kind), ...values, provenance: assumed(Object.keys(values)) } as Element;
  return withPart(lineUp, part, { cable, end, port }, tail);
}

function withMoved(lineUp: LineUp, { id, beside, port, asks }: FixMove): LineUp {
  const part = lineUp.elements.find((each) => each.id === id);
  const less = takeOut(lineUp, id)?.lineUp;
  const landed = (less ?? lineUp).cables.flatMap((cable) =>
    (['from', 'to'] as const)
      .filter((end) => cable[end].element === beside && cable[end].port === port)
      .map((end) => ({ cable: cable.id, end })),
  );
  const at = landed[0];
  if (!part || !less || !at || landed.length > 1) return lineUp;
  return withPart(
    less,
    changed(
      part,
      asks.map((path) => ({ id, path, value: null })),
    ),
    { ...at, port },
  );
}

interface Place {
  readonly cable: string;
  readonly end: 'from' | 'to';
  readonly port: Port;
}

/** A part put into a cable at one end of it. */
function withPart(lineUp: LineUp, part: Element, { cable: cableId, end, port }: Place, tail?: FixInsert['tail']): LineUp {
  const cable = lineUp.cables.find(({ id }) => id === cableId);
  const was = cable?.[end];
  if (!cable || was?.element === undefined) return lineUp;
  const landed = landedOn(cable, end, { element: part.id, port });
  const elements = [...lineUp.elements, part];
  const inner = { element: was.element, port: was.port ?? 'line' };
  const outer = { element: part.id, port: port === 'load' ? ('line' as const) : ('load' as const) };
  const [from, to] = port === 'load' ? [inner, outer] : [outer, inner];
  const bare = newCable({ ...lineUp, elements }, from, to);
  const joint: Cable = tail
    ? tailOf(landed, { ...bare, from: { ...was, ...from }, to: { ...was, ...to } }, tail)
    : { ...bare, kind: 'link', conductor: {}, installation: {}, provenance: {} };
  const cables = lineUp.cables.map((each) => (each === cable ? landed : each));
  const [a, b] = [cable.from.element, cable.to.element].map((id) => (id === undefined ? undefined : lineUp.positions[id]));
  const positions =
    a && b ? { ...lineUp.positions, [part.id]: { x_mm: (a.x_mm + b.x_mm) / 2, y_mm: (a.y_mm + b.y_mm) / 2 } } : lineUp.positions;
  return { ...lineUp, elements, cables: [...cables, joint], positions };
}

/** A short piece like the whole, landed as the whole was, with values of its own. */
function tailOf(whole: Cable, { id, tag, from, to }: Cable, values: NonNullable<FixInsert['tail']>): Cable {
  const own = Object.entries(values).reduce((now, [path, value]) => withValueAt(now, path, value ?? undefined), whole);
  const set = Object.keys(values).filter((path) => values[path] !== null);
  return { ...own, id, tag, from, to, provenance: assumed(set) };
}
