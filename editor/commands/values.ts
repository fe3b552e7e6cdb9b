import { type Cable, type Element, type LineUp, withAsBuiltOf } from '../../engine/index.ts';

/** The values of one part, without its name and place, carried to others of its kind. */

type Part = Element | Cable;
let held: Part | null = null;

export const holdValues = (part: Part): void => {
  held = part;
};
export const heldKind = (): Part['kind'] | null => held?.kind ?? null;

export function giveValues(lineUp: LineUp, ids: readonly string[]): LineUp {
  const from = held;
  if (!from) return lineUp;
  return {
    ...lineUp,
    elements: lineUp.elements.map((part) =>
      ids.includes(part.id) && part.kind === from.kind ? withAsBuiltOf({ ...from, id: part.id, tag: part.tag } as Element, part) : part,
    ),
    cables: lineUp.cables.map((part) => {
      if (!ids.includes(part.id) || part.kind !== from.kind) return part;
      const { sharedWith: _neighbours, ...installation } = (from as Cable).installation;
      const own = part.installation.sharedWith;
      const given: Cable = {
        ...(from as Cable),
        id: part.id,
        tag: part.tag,
        // Ends are landed one by one.
        from: part.from,
        to: part.to,
        installation: own ? { ...installation, sharedWith: own } : installation,
      };
      return withAsBuiltOf(given, part);
    }),
  };
}
