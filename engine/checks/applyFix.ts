import type { Cable } from '../lineup/cable.ts';
import type { Element } from '../lineup/elements.ts';
import { withValueAt } from '../lineup/fields.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import type { Fix } from './finding.ts';

/** The document with the edits of a fix made. An edit of a part that is gone is none. */
export function applyFix(lineUp: LineUp, { edits }: Fix): LineUp {
  const change = <T extends Element | Cable>(part: T): T =>
    edits.reduce((now, { id, path, value }) => (id === part.id ? withValueAt(now, path, value) : now), part);
  return { ...lineUp, elements: lineUp.elements.map(change), cables: lineUp.cables.map(change) };
}
