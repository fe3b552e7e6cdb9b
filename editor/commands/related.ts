import { type Cable, type Element, type LineUp, PORTS } from '../../engine/index.ts';

/** What belongs together: parts of one kind, parts joined by cables, and the next part along a cable. */

export const partsOf = (lineUp: LineUp): readonly (Element | Cable)[] => [...lineUp.elements, ...lineUp.cables];

export function sameKind(lineUp: LineUp, ids: readonly string[]): readonly string[] {
  const kinds = new Set(partsOf(lineUp).flatMap((part) => (ids.includes(part.id) ? [part.kind] : [])));
  return partsOf(lineUp).flatMap((part) => (kinds.has(part.kind) ? [part.id] : []));
}

export function connected(lineUp: LineUp, ids: readonly string[]): readonly string[] {
  const reached = new Set(ids);
  // A pass over all cables reaches one part further; a chain needs as many passes as it is long.
  for (let before = -1; before !== reached.size; ) {
    before = reached.size;
    for (const { id, from, to } of lineUp.cables) {
      const members = [id, from.element, to.element].filter((each) => each !== undefined);
      if (members.some((each) => reached.has(each))) for (const each of members) reached.add(each);
    }
  }
  return [...reached];
}

export type Way = 'ArrowUp' | 'ArrowDown' | 'ArrowLeft' | 'ArrowRight';

/** From a part along its cables: up to what feeds it, down to what it feeds, sideways to what hangs beside it. */
export function neighbour(lineUp: LineUp, id: string, way: Way): string | undefined {
  const cable = lineUp.cables.find((each) => each.id === id);
  if (cable) return way === 'ArrowUp' ? cable.from.element : way === 'ArrowDown' ? cable.to.element : undefined;
  const x = (part: string | undefined) => lineUp.positions[part ?? '']?.x_mm ?? 0;
  const below = lineUp.cables.filter((each) => each.from.element === id).sort((a, b) => x(a.to.element) - x(b.to.element));
  const feeds = lineUp.cables.filter((each) => each.to.element === id);
  if (way === 'ArrowDown') return below[0]?.id;
  if (way === 'ArrowUp') return feeds[0]?.id;
  const level = lineUp.elements
    .filter((each) => lineUp.positions[each.id]?.y_mm === lineUp.positions[id]?.y_mm)
    .sort((a, b) => x(a.id) - x(b.id));
  const at = level.findIndex((each) => each.id === id);
  return level[at + (way === 'ArrowRight' ? 1 : -1)]?.id;
}

/** The ports of a part that hang free, else those it has. */
export function portsToUse(lineUp: LineUp, element: Element): readonly ('line' | 'load')[] {
  const taken = new Set(
    lineUp.cables.flatMap(({ from, to }) => [
      ...(from.element === element.id ? [from.port ?? 'load'] : []),
      ...(to.element === element.id ? [to.port ?? 'line'] : []),
    ]),
  );
  const free = PORTS[element.kind].filter((port) => !taken.has(port));
  return free.length > 0 ? free : PORTS[element.kind];
}
