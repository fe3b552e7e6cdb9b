import type { Earthing, Element, ElementOf } from '../lineup/elements.ts';
import type { Step, Zone } from '../network/network.ts';

/** What stands between a place and its source, and what hangs below it. */

export interface Below {
  readonly drives: readonly ElementOf<'drive'>[];
  readonly motors: readonly ElementOf<'motor'>[];
}
export const NOTHING_BELOW: Below = { drives: [], motors: [] };

/** What each step of a zone feeds: its drives, and the motors behind them or in the zone itself. */
export function loadsBelow(zone: Zone, outputs: ReadonlyMap<string, Zone>): readonly Below[] {
  const result: { drives: ElementOf<'drive'>[]; motors: ElementOf<'motor'>[] }[] = zone.steps.map(() => ({ drives: [], motors: [] }));
  for (const step of zone.steps) {
    const { element } = step;
    const drive = element.kind === 'drive' && step.parent >= 0 ? element : null;
    const motors =
      element.kind === 'motor'
        ? [element]
        : drive
          ? (outputs.get(drive.id)?.steps ?? []).map((each) => each.element).filter((each) => each.kind === 'motor')
          : [];
    for (const { index } of upstream(zone, step)) {
      if (drive) result[index]?.drives.push(drive);
      result[index]?.motors.push(...motors);
    }
  }
  return result;
}

/** The steps from here to the source of the zone, this one first. */
export function upstream(zone: Zone, step: Step): readonly Step[] {
  const way: Step[] = [];
  for (let at: Step | undefined = step; at; at = zone.steps[at.parent]) way.push(at);
  return way;
}

export function earthingAt(zone: Zone, step: Step): { readonly earthing: Earthing | undefined; readonly part: Element } {
  for (const at of upstream(zone, step)) {
    if (at.element.kind === 'transformer') return { earthing: at.element.secondaryEarthing, part: at.element };
    if (at.element.kind === 'supply') return { earthing: at.element.earthing, part: at.element };
  }
  return { earthing: undefined, part: zone.source };
}

/** The part that makes the nominal voltage of a place: the nearest transformer ahead, by way of its drive too, or the supply. */
export function voltageFrom(zone: Zone, step: Step): Element {
  for (const at of upstream(zone, step)) {
    if (at.element.kind === 'transformer' && at.via?.kind === 'element') return at.element;
  }
  const fed = zone.feed?.zone.steps[zone.feed.step];
  return zone.feed && fed ? voltageFrom(zone.feed.zone, fed) : zone.source;
}

export function filtersAhead(zone: Zone, step: Step): readonly ElementOf<'filter'>[] {
  const found = new Set<ElementOf<'filter'>>();
  for (const at of upstream(zone, step)) if (at.element.kind === 'filter') found.add(at.element);
  return [...found];
}

/** Parts of these kinds from here to the source of the whole line-up, nearest first. */
export function ahead<K extends Element['kind']>(zone: Zone, step: Step, kind: K): readonly ElementOf<K>[] {
  const found = new Set<ElementOf<K>>();
  for (let here: Zone | null = zone, at: Step | undefined = step; here && at; ) {
    for (const each of upstream(here, at)) if (each.element.kind === kind) found.add(each.element as ElementOf<K>);
    at = here.feed ? here.feed.zone.steps[here.feed.step] : undefined;
    here = here.feed?.zone ?? null;
  }
  return [...found];
}
