import type { Cable } from './cable.ts';

/**
 * Which cables lie in one raceway: whoever is reached by going from name to name, in whichever direction it is said. A name of a
 * cable that is gone still joins those that say it.
 * @returns by id, all in the raceway of a cable in the order of the document, itself included: the same list for each of them
 */
export function raceways(cables: readonly Cable[]): ReadonlyMap<string, readonly Cable[]> {
  // Each points to another of its raceway, the last to none; ways are shortened as they are gone.
  const next = new Map<string, string>();
  const last = (id: string): string => {
    let at = id;
    for (let to = next.get(at); to !== undefined; to = next.get(at)) {
      next.set(at, next.get(to) ?? to);
      at = to;
    }
    return at;
  };
  for (const { id, installation } of cables)
    for (const other of installation.sharedWith ?? []) {
      const [here, there] = [last(id), last(other)];
      if (here !== there) next.set(here, there);
    }
  const held = new Map<string, Cable[]>();
  const racewayOf = new Map<string, readonly Cable[]>();
  for (const cable of cables) {
    const list = held.get(last(cable.id)) ?? [];
    list.push(cable);
    held.set(last(cable.id), list);
    racewayOf.set(cable.id, list);
  }
  return racewayOf;
}

/** The others in the raceway of a cable. */
export const besideIn = (cables: readonly Cable[], { id }: Pick<Cable, 'id'>): readonly Cable[] =>
  (raceways(cables).get(id) ?? []).filter((each) => each.id !== id);

/**
 * The cables with these laid out of the raceway they are in: beside what they lie now is not known. Those that stay are in one
 * raceway still, though only one that leaves may have joined them: the first of them names the others.
 */
export function laidOut(cables: readonly Cable[], leaving: ReadonlySet<string>): Cable[] {
  const joined = new Map<string, string[]>();
  for (const old of new Set(raceways(cables).values())) {
    const [first, ...others] = old.map(({ id }) => id).filter((id) => !leaving.has(id));
    if (first !== undefined && others.length > 0 && others.length < old.length - 1) joined.set(first, others);
  }
  return cables.map((cable) => {
    const { id, installation } = cable;
    const before = installation.sharedWith;
    const left = joined.get(id) ?? before?.filter((other) => !leaving.has(other));
    const sharedWith = leaving.has(id) && before?.length ? undefined : left;
    return `${sharedWith}` === `${before}` ? cable : { ...cable, installation: { ...installation, sharedWith } };
  });
}
