import type { Cable } from '../lineup/cable.ts';
import type { Element } from '../lineup/elements.ts';
import type { ShieldBreak, ShieldState } from './solved.ts';

/**
 * The way of the shield from drive to motor: along each cable as a shield, an armour or a metal raceway, and through each box.
 *
 *   drive ═══ W-1A ═══╡box╞═══ W-1B ═══ motor
 *                     ^ both ends must be landed on metal that joins them: a metal box, or a bond bar
 */

export type Carrier = 'shield' | 'raceway' | 'none' | 'unknown';

const SHIELDED = new Set(['foil-and-braid', 'copper-tape', 'corrugated-armour', 'interlocked-armour']);

/** What carries the return current along this cable. */
export function carrierOf(cable: Cable): Carrier {
  if (cable.kind === 'link') return 'raceway';
  if (cable.construction !== undefined && SHIELDED.has(cable.construction)) return 'shield';
  const { raceway } = cable.installation;
  if (raceway === 'steel-conduit' || raceway === 'aluminium-conduit' || raceway === 'flexible-metal') return 'raceway';
  if (cable.construction === undefined || raceway === undefined) return 'unknown';
  return 'none';
}

export interface ShieldPath {
  readonly state: ShieldState;
  readonly breaks: readonly ShieldBreak[];
  /** Cables without shield or metal raceway between others that have one, grouped where they follow one another. */
  readonly bare: readonly (readonly Cable[])[];
}

/** How one end is landed: yes, no, or not known. A pigtail lands it, poorly: that is another check's word. */
function landed(cable: Cable, end: 'from' | 'to'): boolean | null {
  if (cable.kind === 'link') return true;
  const { landing } = cable[end];
  return landing === undefined ? null : landing !== 'none';
}

/** Whether a box joins two shields that are landed in it. Boxes that are machines or panels are metal unless said otherwise. */
function boxJoins(box: Element): boolean | null {
  // A bus has no box: its bond bar alone decides.
  if (box.kind === 'bus') return box.bondBar ?? null;
  if ('bondBar' in box && box.bondBar === true) return true;
  if ('box' in box && box.box !== undefined) return box.box === 'metal';
  return null;
}

/** @param hops cables from drive to motor, each with the end nearer to the drive and the element at its far end */
export function traceShield(
  drive: Element,
  hops: readonly { readonly cable: Cable; readonly nearEnd: 'from' | 'to'; readonly far: Element }[],
): ShieldPath {
  const carriers = hops.map((hop) => carrierOf(hop.cable));
  const real = hops.filter((hop) => hop.cable.kind === 'cable');
  if (real.length === 0) return { state: 'continuous', breaks: [], bare: [] };
  if (hops.every((hop, i) => hop.cable.kind === 'link' || carriers[i] === 'none')) return { state: 'none', breaks: [], bare: [] };
  const breaks: ShieldBreak[] = [];
  const bare: Cable[][] = [];
  hops.forEach((hop, i) => {
    if (carriers[i] === 'unknown') breaks.push({ state: 'open', elementId: null, ends: [{ cableId: hop.cable.id, end: hop.nearEnd }] });
    if (carriers[i] !== 'none') return;
    const last = bare.at(-1);
    if (carriers[i - 1] === 'none' && last) last.push(hop.cable);
    else bare.push([hop.cable]);
  });
  for (const piece of bare) {
    breaks.push({
      state: 'broken',
      elementId: null,
      ends: piece.flatMap((cable) => [
        { cableId: cable.id, end: 'from' as const },
        { cableId: cable.id, end: 'to' as const },
      ]),
    });
  }
  // Each place where the path passes from one cable to the next, and its two outer ends.
  for (let i = 0; i <= hops.length; i++) {
    const before = hops[i - 1];
    const after = hops[i];
    const box = before?.far ?? drive;
    const ends: { cable: Cable; end: 'from' | 'to' }[] = [];
    if (before && carriers[i - 1] !== 'none' && carriers[i - 1] !== 'unknown')
      ends.push({ cable: before.cable, end: before.nearEnd === 'from' ? 'to' : 'from' });
    if (after && carriers[i] !== 'none' && carriers[i] !== 'unknown') ends.push({ cable: after.cable, end: after.nearEnd });
    const states = ends.map(({ cable, end }) => landed(cable, end));
    const bothLinks = ends.every(({ cable }) => cable.kind === 'link');
    const joins = ends.length < 2 || bothLinks ? true : boxJoins(box);
    const stopped = ends.filter((_, k) => states[k] === false);
    const notKnown = ends.filter((_, k) => states[k] === null);
    const named = (list: readonly { cable: Cable; end: 'from' | 'to' }[]) => list.map(({ cable, end }) => ({ cableId: cable.id, end }));
    if (stopped.length > 0 || joins === false)
      breaks.push({ state: 'broken', elementId: box.id, ends: named(stopped.length > 0 ? stopped : ends) });
    else if (notKnown.length > 0 || joins === null)
      breaks.push({ state: 'open', elementId: box.id, ends: named(notKnown.length > 0 ? notKnown : ends) });
  }
  const state = breaks.some((each) => each.state === 'broken') ? 'broken' : breaks.length > 0 ? 'open' : 'continuous';
  return { state, breaks, bare };
}
