import type { Cable } from '../lineup/cable.ts';
import type { Element } from '../lineup/elements.ts';
import type { OutputScope } from './check.ts';

/** What stands between a drive and each cable and part behind it: a reactor at one motor does nothing for the cable ahead of it. */
export interface Ways {
  /** Parts that the current has passed before it comes to this cable. */
  readonly before: (cable: Cable) => readonly Element[];
  /** The same of a part, without itself. */
  readonly ahead: (part: Element) => readonly Element[];
  /** Cables that an edge enters first: at the drive's own terminals, or behind connections inside its enclosure alone. */
  readonly first: readonly Cable[];
}

interface Reached {
  /** At which of its sides. */
  readonly port: string;
  readonly way: readonly Element[];
  /** Whether a cable lies on the way. */
  readonly entered: boolean;
}

/** The cables of a scope stand in the order in which they are reached from the drive. */
export function waysBehind({ drive, cables, parts }: Pick<OutputScope, 'drive' | 'cables' | 'parts'>): Ways {
  const byId = new Map<string | undefined, Element>(parts.map((part) => [part.id, part]));
  const start: Reached = { port: 'load', way: [], entered: false };
  const reached = new Map<string | undefined, Reached>([[drive.id, start]]);
  const before = new Map<Cable, readonly Element[]>();
  const first: Cable[] = [];
  for (const cable of cables) {
    const [near, far] = reached.has(cable.from.element) ? [cable.from, cable.to] : [cable.to, cable.from];
    const { port, way: gone, entered } = reached.get(near.element) ?? start;
    const part = byId.get(near.element);
    // Landed at the side at which its part was reached, it leaves without passing it.
    const way = part && port !== (near.port ?? 'line') ? [...gone, part] : gone;
    before.set(cable, way);
    const real = cable.kind === 'cable';
    if (real && !entered) first.push(cable);
    reached.set(far.element, { port: far.port ?? 'line', way, entered: real || entered });
  }
  return { before: (cable) => before.get(cable) ?? [], ahead: (part) => reached.get(part.id)?.way ?? [], first };
}
