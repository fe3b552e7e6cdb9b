import type { Cable } from '../lineup/cable.ts';
import { newCable, newElement } from '../lineup/create.ts';
import type { Element, Port } from '../lineup/elements.ts';
import { withValueAt } from '../lineup/fields.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import type { Fix, FixEdit, FixInsert } from './finding.ts';

/** The document with a fix made: parts taken out, values changed, parts put in. What is of a part that is gone is none. */
export function applyFix(lineUp: LineUp, { edits, inserts = [], takesOut = [] }: Fix): LineUp {
  const change = <T extends Element | Cable>(part: T): T =>
    changed(
      part,
      edits.filter(({ id }) => id === part.id),
    );
  const less = takesOut.reduce(withoutPart, lineUp);
  return inserts.reduce(withPart, { ...less, elements: less.elements.map(change), cables: less.cables.map(change) });
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
function withPart(lineUp: LineUp, { kind, values, cable: cableId, end, port }: FixInsert): LineUp {
  const cable = lineUp.cables.find(({ id }) => id === cableId);
  const was = cable?.[end];
  if (!cable || was?.element === undefined) return lineUp;
  const provenance = Object.fromEntries(Object.keys(values).map((path) => [path, { origin: 'assumed' as const }]));
  const part = { ...newElement(lineUp, kind), ...values, provenance } as Element;
  const elements = [...lineUp.elements, part];
  const inner = { element: was.element, port: was.port ?? 'line' };
  const outer = { element: part.id, port: port === 'load' ? ('line' as const) : ('load' as const) };
  const joined = { ...lineUp, elements };
  const link: Cable = {
    ...newCable(joined, ...(port === 'load' ? ([inner, outer] as const) : ([outer, inner] as const))),
    kind: 'link',
    conductor: {},
    installation: {},
    provenance: {},
  };
  const cables = lineUp.cables.map((each) => (each === cable ? { ...each, [end]: { ...was, element: part.id, port } } : each));
  const [a, b] = [cable.from.element, cable.to.element].map((id) => (id === undefined ? undefined : lineUp.positions[id]));
  const positions =
    a && b ? { ...lineUp.positions, [part.id]: { x_mm: (a.x_mm + b.x_mm) / 2, y_mm: (a.y_mm + b.y_mm) / 2 } } : lineUp.positions;
  return { ...lineUp, elements, cables: [...cables, link], positions };
}

/** Only where a link leads to it and a single cable from it, or the other way round: then nothing has to be spliced. */
function withoutPart(lineUp: LineUp, id: string): LineUp {
  const landed = lineUp.cables.filter(({ from, to }) => from.element === id || to.element === id);
  const link = landed.find(({ kind }) => kind === 'link');
  const cable = landed.find((each) => each !== link);
  if (!link || !cable || landed.length !== 2) return lineUp;
  const far = link.from.element === id ? link.to : link.from;
  const end = cable.from.element === id ? 'from' : 'to';
  const landing: { element?: string | undefined; port?: Port | undefined } = { element: far.element, port: far.port };
  const { [id]: _gone, ...positions } = lineUp.positions;
  return {
    ...lineUp,
    elements: lineUp.elements.filter((each) => each.id !== id),
    cables: lineUp.cables.flatMap((each) =>
      each === link ? [] : each === cable ? [{ ...each, [end]: { ...each[end], ...landing } }] : [each],
    ),
    positions,
  };
}
