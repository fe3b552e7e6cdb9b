import { busLength, type Cable, type Element, type LineUp, routeCable } from '../../engine/index.ts';
import type { CableEdgeType } from './CableEdge.tsx';
import { CHOSEN_ID, TRAVEL_ID } from './Modes.tsx';
import { cableName, elementName } from './names.ts';
import type { PartNodeType } from './PartNode.tsx';
import { type Family, PAD_mm, PX, symbolIn } from './scale.ts';

/**
 * The document as React Flow's nodes and edges. Sizes and handles are given, so that nothing has to be measured. What did not change
 * stays the same object, so that dragging one part renders one part.
 */

const HANDLE_px = 24;

export interface Parts {
  readonly nodesOf: (lineUp: LineUp, family: Family, marked: Marked) => PartNodeType[];
  readonly edgesOf: (lineUp: LineUp, family: Family, marked: Marked) => CableEdgeType[];
}

/** What is so of a part besides what the document says. */
export interface Marked {
  readonly selected: ReadonlySet<string>;
  /** Counts of its findings in words, by part. */
  readonly found: ReadonlyMap<string, string>;
  /** Where Tab enters the sheet: one part of it alone. */
  readonly tabStop: string | undefined;
}

export function createParts(): Parts {
  const node = remember<PartNodeType>();
  const edge = remember<CableEdgeType[]>();
  const called = remember<string>();
  const [nodes, edges] = [rememberList<PartNodeType>(), rememberList<CableEdgeType>()];
  return {
    nodesOf: (lineUp, family, { selected, found, tabStop }) => {
      const made = lineUp.elements.map((element) => {
        const length = element.kind === 'bus' ? busLength(lineUp, lineUp.positions, element.id) : 0;
        const reach = {
          selected: selected.has(element.id),
          name: called(element.id, [element, lineUp.project, found.get(element.id)], () =>
            elementName(element, lineUp, found.get(element.id)),
          ),
          stop: tabStop === element.id,
        };
        return node(element.id, [element, lineUp.positions[element.id], family, ...Object.values(reach), length], () =>
          makeNode(lineUp, element, family, reach),
        );
      });
      return nodes(made);
    },
    edgesOf: (lineUp, family, { selected, found, tabStop }) => {
      const elements = new Map(lineUp.elements.map((element) => [element.id, element]));
      const end = (id: string | undefined) => [elements.get(id ?? ''), lineUp.positions[id ?? '']];
      const made = lineUp.cables.flatMap((cable) => {
        const reach = { selected: selected.has(cable.id), found: found.get(cable.id), stop: tabStop === cable.id };
        const from = [cable, family, lineUp.project.units, ...Object.values(reach), ...end(cable.from.element), ...end(cable.to.element)];
        return edge(cable.id, from, () => makeEdge(lineUp, cable, family, { ...reach, name: cableName(cable, lineUp, reach.found) }));
      });
      return edges(made);
    },
  };
}

/** The last thing made under each id, as long as all it was made from is the same. */
function remember<T>(): (id: string, from: readonly unknown[], make: () => T) => T {
  const made = new Map<string, { readonly from: readonly unknown[]; readonly what: T }>();
  return (id, from, make) => {
    const before = made.get(id);
    if (before && from.every((each, i) => each === before.from[i])) return before.what;
    const what = make();
    made.set(id, { from, what });
    return what;
  };
}

/** The last list, as long as all that is in it is the same: React Flow goes through everything it has when it is given another. */
function rememberList<T>(): (made: T[]) => T[] {
  let before: T[] = [];
  return (made) => {
    if (made.length !== before.length || made.some((each, i) => each !== before[i])) before = made;
    return before;
  };
}

/** How hands and readers reach a part. */
interface Reach {
  readonly selected: boolean;
  readonly name: string;
  readonly stop: boolean;
}
const domOf = ({ selected, stop }: Reach) => ({ tabIndex: stop ? 0 : -1, 'aria-describedby': selected ? CHOSEN_ID : TRAVEL_ID });

function makeNode(lineUp: LineUp, element: Element, family: Family, reach: Reach): PartNodeType {
  const symbol = symbolIn(lineUp, element, family);
  const at = lineUp.positions[element.id] ?? { x_mm: 0, y_mm: 0 };
  const left = symbol.left_mm - PAD_mm;
  const ports = (['line', 'load'] as const).flatMap((port) => {
    const spot = symbol.ports[port];
    // A bus is one node: its line port stands above the bar, its load port below it.
    const shift = element.kind === 'bus' ? (port === 'line' ? -1.5 : 1.5) : 0;
    return spot ? [{ port, x: (spot.x - left) * PX, y: (spot.y + PAD_mm + shift) * PX, below: port === 'load' }] : [];
  });
  return {
    id: element.id,
    type: 'part',
    position: { x: (at.x_mm + left) * PX, y: (at.y_mm - PAD_mm) * PX },
    width: (symbol.width_mm + 2 * PAD_mm) * PX,
    height: Math.max(symbol.height_mm + 2 * PAD_mm, 6) * PX,
    selected: reach.selected,
    data: { label: element.tag, ports },
    handles: ports.map(({ port, x, y, below }) => ({
      id: port,
      type: 'source' as const,
      position: (below ? 'bottom' : 'top') as never,
      x: x - HANDLE_px / 2,
      y: y - HANDLE_px / 2,
      width: HANDLE_px,
      height: HANDLE_px,
    })),
    ariaLabel: reach.name,
    domAttributes: domOf(reach),
  };
}

function makeEdge(lineUp: LineUp, cable: Cable, family: Family, reach: Reach): CableEdgeType[] {
  if (!cable.from.element || !cable.to.element) return [];
  const path = routeCable(lineUp, lineUp.positions, cable, family)
    .map(([x, y], i) => `${i === 0 ? 'M' : 'L'}${x * PX} ${y * PX}`)
    .join('');
  return [
    {
      id: cable.id,
      type: 'cable',
      source: cable.from.element,
      sourceHandle: cable.from.port ?? 'load',
      target: cable.to.element,
      targetHandle: cable.to.port ?? 'line',
      selected: reach.selected,
      data: { path },
      ariaLabel: reach.name,
      domAttributes: domOf(reach),
    },
  ];
}
