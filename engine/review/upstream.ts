import type { Earthing, Element, ElementOf } from '../lineup/elements.ts';
import type { Step, Zone } from '../network/network.ts';

/** What stands between a place and its source, and what hangs below it. */

export interface Below {
  readonly drives: readonly ElementOf<'drive'>[];
  readonly motors: readonly ElementOf<'motor'>[];
  /** What is drawn here for each ampere that these draw, in the same order: more than one ahead of a transformer that steps up. */
  readonly drivesSeen: readonly number[];
  readonly motorsSeen: readonly number[];
  /** The transformers between here and them. Where their voltages are not known, what is seen through them is not. */
  readonly between: readonly ElementOf<'transformer'>[];
}
export const NOTHING_BELOW: Below = { drives: [], motors: [], drivesSeen: [], motorsSeen: [], between: [] };

/** Amperes at its line side for one at its load side: power passes. One where its voltages are not known. */
export const seenThrough = ({ primaryVoltage_V, secondaryVoltage_V }: ElementOf<'transformer'>): number =>
  primaryVoltage_V && secondaryVoltage_V ? secondaryVoltage_V / primaryVoltage_V : 1;

/** The transformer that one passes on the way from a step to the one ahead of it. */
export const passed = ({ element, via }: Step): ElementOf<'transformer'> | null =>
  via?.kind === 'element' && element.kind === 'transformer' ? element : null;

interface Growing {
  readonly drives: ElementOf<'drive'>[];
  readonly motors: ElementOf<'motor'>[];
  readonly drivesSeen: number[];
  readonly motorsSeen: number[];
  readonly between: Set<ElementOf<'transformer'>>;
}

/** What each step of a zone feeds: its drives, and the motors behind them or in the zone itself. */
export function loadsBelow(zone: Zone, outputs: ReadonlyMap<string, Zone>): readonly Below[] {
  const result = zone.steps.map((): Growing => ({ drives: [], motors: [], drivesSeen: [], motorsSeen: [], between: new Set() }));
  for (const step of zone.steps) {
    const { element } = step;
    const drive = element.kind === 'drive' && step.parent >= 0 ? element : null;
    const output = drive && outputs.get(drive.id);
    const behind = output ? (loadsBelow(output, NONE)[0] ?? NOTHING_BELOW) : NOTHING_BELOW;
    const own = element.kind === 'motor' ? { motors: [element], motorsSeen: [1], between: [] } : behind;
    if (!drive && own.motors.length === 0) continue;
    let seen = 1;
    const between: ElementOf<'transformer'>[] = [];
    for (const at of upstream(zone, step)) {
      const here = result[at.index];
      if (!here) continue;
      if (drive) {
        here.drives.push(drive);
        here.drivesSeen.push(seen);
      }
      here.motors.push(...own.motors);
      for (const each of own.motorsSeen) here.motorsSeen.push(each * seen);
      // Of what lies behind a drive only the drive itself is asked.
      for (const each of at === step ? own.between : between) here.between.add(each);
      const transformer = passed(at);
      if (transformer) {
        seen *= seenThrough(transformer);
        between.push(transformer);
      }
    }
  }
  return result.map((each) => ({ ...each, between: [...each.between] }));
}
const NONE: ReadonlyMap<string, Zone> = new Map();

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

/** The steps from here to the source of the whole line-up, by way of the drive of an output zone, this one first. */
function* allUpstream(zone: Zone, step: Step): Generator<Step> {
  for (let here: Zone | null = zone, at: Step | undefined = step; here && at; ) {
    yield* upstream(here, at);
    at = here.feed ? here.feed.zone.steps[here.feed.step] : undefined;
    here = here.feed?.zone ?? null;
  }
}

/** Parts of these kinds from here to the source of the whole line-up, nearest first. */
export function ahead<K extends Element['kind']>(zone: Zone, step: Step, kind: K): readonly ElementOf<K>[] {
  const found = new Set<ElementOf<K>>();
  for (const { element } of allUpstream(zone, step)) if (element.kind === kind) found.add(element as ElementOf<K>);
  return [...found];
}

/** Disconnects from here to the nearest transformer ahead, nearest first: one beyond it does not guard this circuit (NEC 240.21(C)). */
export function disconnectsAhead(zone: Zone, step: Step): readonly ElementOf<'disconnect'>[] {
  const found = new Set<ElementOf<'disconnect'>>();
  for (const { element, via } of allUpstream(zone, step)) {
    if (element.kind === 'transformer' && via?.kind === 'element') break;
    if (element.kind === 'disconnect') found.add(element);
  }
  return [...found];
}
