import type { Cable } from '../lineup/cable.ts';
import type { Element } from '../lineup/elements.ts';
import { withValueAt } from '../lineup/fields.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import type { Fix, FixEdit } from './finding.ts';

/** The document with the edits of a fix made. An edit of a part that is gone is none. */
export function applyFix(lineUp: LineUp, { edits }: Fix): LineUp {
  const change = <T extends Element | Cable>(part: T): T =>
    changed(
      part,
      edits.filter(({ id }) => id === part.id),
    );
  return { ...lineUp, elements: lineUp.elements.map(change), cables: lineUp.cables.map(change) };
}

/** The part with these edits made. Where the old value came from does not hold for the new one. */
export function changed<T extends Element | Cable>(part: T, edits: readonly FixEdit[]): T {
  if (edits.length === 0) return part;
  const next = edits.reduce((now, { path, value }) => withValueAt(now, path, value ?? undefined), part);
  if (!next.provenance) return next;
  const stale = new Set(edits.map(({ path }) => path));
  return { ...next, provenance: Object.fromEntries(Object.entries(next.provenance).filter(([path]) => !stale.has(path))) };
}
