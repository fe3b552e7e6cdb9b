import type { Cable, CableEnd } from '../lineup/cable.ts';
import type { Element, ElementOf, Port } from '../lineup/elements.ts';
import type { LineUp } from '../lineup/lineUp.ts';

/**
 * What is connected: the drawing as trees of electrical nodes. A bus, a junction, a supply and a motor are one node;
 * every other part has a node on each side and joins them while it is closed. A drive ends the tree of its supply
 * (its line side) and starts one of its own (its load side).
 *
 *   supply ── cable ── line[disconnect]load ── cable ── line[drive]load ── cable ── motor
 *   └────────────── zone fed by the supply ──────────────┘     └──── zone fed by the drive ────┘
 */

export type EndName = 'from' | 'to';

/** One node of a tree and the branch that feeds it. Steps stand in the order they were reached, the source first. */
export interface Step {
  readonly node: string;
  readonly element: Element;
  readonly index: number;
  /** Index of the step that feeds this one; -1 for the source. */
  readonly parent: number;
  readonly via: { readonly kind: 'element' } | { readonly kind: 'cable'; readonly cable: Cable; readonly nearEnd: EndName } | null;
}

export interface Zone {
  readonly kind: 'input' | 'output';
  readonly source: ElementOf<'supply'> | ElementOf<'drive'>;
  /** The step at which the drive of an output zone is fed, or null for an input zone. */
  readonly feed: { readonly zone: Zone; readonly step: number } | null;
  readonly steps: readonly Step[];
}

export type FaultKind =
  | 'loop'
  | 'two-sources'
  | 'fed-backwards'
  | 'drive-behind-drive'
  | 'turned-round'
  | 'no-source'
  | 'unfed-motor'
  | 'island'
  | 'cable-to-nowhere';

export interface TopologyFault {
  readonly kind: FaultKind;
  readonly part: Element | Cable | null;
  readonly other: Element | Cable | null;
}

export interface Run {
  readonly motor: ElementOf<'motor'>;
  /** From the source to the motor, over both zones. */
  readonly steps: readonly { readonly zone: Zone; readonly step: Step }[];
  readonly drive: ElementOf<'drive'> | null;
}

export interface Network {
  readonly zones: readonly Zone[];
  readonly runs: readonly Run[];
  readonly faults: readonly TopologyFault[];
}

const isOneNode = (element: Element): boolean =>
  element.kind === 'bus' || element.kind === 'junction' || element.kind === 'supply' || element.kind === 'motor';

/** A part that stands open joins nothing; a drive never joins its two sides; a way around a drive stands open unless it is drawn closed. */
const joinsItsSides = (element: Element): boolean =>
  element.kind === 'drive'
    ? false
    : element.kind === 'contactor' && element.role === 'bypass'
      ? element.state === 'closed'
      : !((element.kind === 'disconnect' || element.kind === 'contactor') && element.state === 'open');

export const nodeOf = (element: Element, port: Port | undefined): string =>
  isOneNode(element) ? element.id : `${element.id}:${port ?? 'line'}`;

interface Attached {
  readonly cable: Cable;
  readonly end: EndName;
}

export const otherEnd = (end: EndName): EndName => (end === 'from' ? 'to' : 'from');

export function buildNetwork(lineUp: Pick<LineUp, 'elements' | 'cables'>): Network {
  const byId = new Map(lineUp.elements.map((element) => [element.id, element] as const));
  const attached = new Map<string, Attached[]>();
  const faults: TopologyFault[] = [];
  const landsOn = (end: CableEnd): Element | null => (end.element === undefined ? null : (byId.get(end.element) ?? null));

  for (const cable of lineUp.cables) {
    const [from, to] = [landsOn(cable.from), landsOn(cable.to)];
    if (!from || !to) {
      faults.push({ kind: 'cable-to-nowhere', part: cable, other: from ?? to });
      continue;
    }
    if (nodeOf(from, cable.from.port) === nodeOf(to, cable.to.port)) {
      faults.push({ kind: 'loop', part: cable, other: from });
      continue;
    }
    for (const [element, end] of [
      [from, 'from'],
      [to, 'to'],
    ] as const) {
      const node = nodeOf(element, cable[end].port);
      const list = attached.get(node);
      if (list) list.push({ cable, end });
      else attached.set(node, [{ cable, end }]);
    }
  }

  const zones: Zone[] = [];
  const runs: Run[] = [];
  const reached = new Set<string>();
  const usedCables = new Set<Cable>();
  const crossed = new Set<Element>();
  /** Transformers that were come to at their load side, and by what. */
  const turned = new Map<Element, Cable>();

  const grow = (source: Zone['source'], feed: Zone['feed']): void => {
    const steps: Step[] = [];
    const zone: Zone = { kind: feed ? 'output' : 'input', source, feed, steps };
    zones.push(zone);
    const drives: { drive: ElementOf<'drive'>; step: number }[] = [];
    const arrive = (element: Element, port: Port | undefined, parent: number, via: Step['via']): void => {
      const node = nodeOf(element, port);
      const part = via?.kind === 'cable' ? via.cable : element;
      if (reached.has(node)) {
        // Its own: each zone takes all cables and crosses all parts at its nodes, so that no other comes to them.
        faults.push({ kind: 'loop', part, other: element });
        return;
      }
      if (element.kind === 'supply' && parent >= 0) {
        faults.push({ kind: zone.kind === 'output' ? 'fed-backwards' : 'two-sources', part: element, other: source });
        return;
      }
      if (element.kind === 'drive' && parent >= 0) {
        if (port === 'load') {
          faults.push({ kind: 'fed-backwards', part: element, other: part });
          return;
        }
        if (zone.kind === 'output') {
          faults.push({ kind: 'drive-behind-drive', part: element, other: source });
          return;
        }
      }
      if (element.kind === 'transformer' && port === 'load' && via?.kind === 'cable') {
        if (!turned.has(element)) turned.set(element, via.cable);
        return;
      }
      reached.add(node);
      const step: Step = { node, element, index: steps.length, parent, via };
      steps.push(step);
      if (element.kind === 'drive' && parent >= 0) drives.push({ drive: element, step: step.index });
    };
    arrive(source, 'load', -1, null);
    for (let at = 0; at < steps.length; at++) {
      const step = steps[at];
      if (!step) break;
      const { element, node } = step;
      if (!isOneNode(element) && joinsItsSides(element) && !crossed.has(element)) {
        crossed.add(element);
        arrive(element, node.endsWith(':line') ? 'load' : 'line', at, { kind: 'element' });
      }
      for (const { cable, end } of attached.get(node) ?? []) {
        if (usedCables.has(cable)) continue;
        usedCables.add(cable);
        const far = cable[otherEnd(end)];
        const next = landsOn(far);
        if (next) arrive(next, far.port, at, { kind: 'cable', cable, nearEnd: end });
      }
    }
    for (const step of steps) {
      if (step.element.kind === 'motor') runs.push(runTo(zone, step, step.element));
    }
    for (const { drive, step } of drives) grow(drive, { zone, step });
  };

  const supplies = lineUp.elements.filter((element) => element.kind === 'supply');
  for (const supply of supplies) grow(supply, null);
  // One that is fed at its line side too lies beside another transformer.
  for (const [element, cable] of turned)
    faults.push(
      reached.has(nodeOf(element, 'line'))
        ? { kind: 'loop', part: cable, other: element }
        : { kind: 'turned-round', part: element, other: cable },
    );
  if (supplies.length === 0 && lineUp.elements.length > 0) faults.push({ kind: 'no-source', part: null, other: null });

  for (const element of lineUp.elements) {
    const nodes = isOneNode(element) ? [element.id] : [`${element.id}:line`, `${element.id}:load`];
    if (nodes.some((node) => reached.has(node))) continue;
    faults.push({ kind: element.kind === 'motor' ? 'unfed-motor' : 'island', part: element, other: null });
  }
  return { zones, runs, faults };
}

function runTo(zone: Zone, last: Step, motor: ElementOf<'motor'>): Run {
  const steps: { zone: Zone; step: Step }[] = [];
  let here: Zone | null = zone;
  let at = last.index;
  while (here) {
    const step: Step | undefined = here.steps[at];
    if (step) steps.unshift({ zone: here, step });
    if (step && step.parent >= 0) at = step.parent;
    else {
      at = here.feed?.step ?? -1;
      here = here.feed?.zone ?? null;
    }
  }
  return { motor, steps, drive: zone.source.kind === 'drive' ? zone.source : null };
}
