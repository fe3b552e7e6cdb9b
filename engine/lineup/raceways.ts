import type { Cable } from './cable.ts';

/**
 * Which cables lie in one raceway: whoever is reached by going from name to name, in whichever direction it is said. A name of a
 * cable that is gone still joins those that say it.
 * @returns by id, all in the raceway of a cable in the order of the document, itself included: the same list for each of them
 */
export function raceways(cables: readonly Cable[]): ReadonlyMap<string, readonly Cable[]> {
  const names = new Map<string, string[]>();
  const put = (from: string, to: string): void => {
    const list = names.get(from);
    if (list) list.push(to);
    else names.set(from, [to]);
  };
  for (const { id, installation } of cables) {
    for (const other of installation.sharedWith ?? []) {
      put(id, other);
      put(other, id);
    }
  }
  const racewayOf = new Map<string, Cable[]>();
  for (const { id } of cables) {
    if (racewayOf.has(id)) continue;
    const own: Cable[] = [];
    const reached = [id];
    racewayOf.set(id, own);
    for (let at = reached.pop(); at !== undefined; at = reached.pop()) {
      for (const other of names.get(at) ?? []) {
        if (racewayOf.has(other)) continue;
        racewayOf.set(other, own);
        reached.push(other);
      }
    }
  }
  for (const cable of cables) racewayOf.get(cable.id)?.push(cable);
  return racewayOf;
}

/** The others in the raceway of a cable. */
export const besideIn = (cables: readonly Cable[], { id }: Pick<Cable, 'id'>): readonly Cable[] =>
  (raceways(cables).get(id) ?? []).filter((each) => each.id !== id);

/**
 * The cables with these laid out of the raceway they are in: beside what they lie now is not known. Those that stay are in one
 * raceway still: where they were joined only by way of one that leaves, the first of them names the others.
 */
export function laidOut(cables: readonly Cable[], leaving: ReadonlySet<string>): Cable[] {
  const before = raceways(cables);
  const parted = cables.map((cable) => {
    const { sharedWith } = cable.installation;
    if (leaving.has(cable.id)) return sharedWith?.length ? sharing(cable, undefined) : cable;
    return sharedWith?.some((id) => leaving.has(id))
      ? sharing(
          cable,
          sharedWith.filter((id) => !leaving.has(id)),
        )
      : cable;
  });
  const after = raceways(parted);
  const more = new Map<string, string[]>();
  for (const old of new Set(before.values())) {
    const [first, ...others] = old.filter(({ id }) => !leaving.has(id));
    if (!first) continue;
    // One name joins all that it was still joined with.
    const joined = new Set([after.get(first.id)]);
    for (const { id } of others) {
      if (joined.has(after.get(id))) continue;
      joined.add(after.get(id));
      more.set(first.id, [...(more.get(first.id) ?? []), id]);
    }
  }
  return more.size === 0
    ? parted
    : parted.map((cable) => {
        const ids = more.get(cable.id);
        return ids ? sharing(cable, [...(cable.installation.sharedWith ?? []), ...ids]) : cable;
      });
}

const sharing = (cable: Cable, sharedWith: string[] | undefined): Cable => ({
  ...cable,
  installation: { ...cable.installation, sharedWith },
});
