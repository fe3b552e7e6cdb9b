import type { Cable } from './cable.ts';
import type { Element } from './elements.ts';
import type { LineUp } from './lineUp.ts';
import { withoutParts } from './notes.ts';
import { laidOut } from './raceways.ts';

/** The document without these parts and what lands on them; the same document when there is none of them. */
export function remove(lineUp: LineUp, ids: readonly string[]): LineUp {
  const gone = new Set(ids);
  const elements = lineUp.elements.filter((element) => !gone.has(element.id));
  const goes = ({ id, from, to }: Cable): boolean => gone.has(id) || gone.has(from.element ?? '') || gone.has(to.element ?? '');
  const leaving = new Set(lineUp.cables.filter(goes).map(({ id }) => id));
  const cables = leaving.size === 0 ? lineUp.cables : laidOut(lineUp.cables, leaving).filter(({ id }) => !leaving.has(id));
  const positions = Object.fromEntries(Object.entries(lineUp.positions).filter(([id]) => !gone.has(id)));
  return elements.length === lineUp.elements.length && cables.length === lineUp.cables.length
    ? lineUp
    : withoutParts({ ...lineUp, elements, cables, positions }, allGone(lineUp, elements, cables));
}

/** With a part go the cables that landed on it. */
function allGone(before: LineUp, elements: readonly Element[], cables: readonly Cable[]): ReadonlySet<string> {
  const left = new Set([...elements, ...cables].map((each) => each.id));
  return new Set([...before.elements, ...before.cables].flatMap(({ id }) => (left.has(id) ? [] : [id])));
}
