import type { LineUp } from '../../engine/index.ts';
import { routeCable } from '../../engine/index.ts';
import type { CableEdgeType } from './CableEdge.tsx';
import type { PartNodeType } from './PartNode.tsx';
import { type Family, PAD_mm, PX, symbolIn } from './scale.ts';

/** The document as React Flow's nodes and edges. Sizes and handles are given, so that nothing has to be measured. */

const HANDLE_px = 24;

export function nodesOf(lineUp: LineUp, family: Family, selected: readonly string[]): PartNodeType[] {
  return lineUp.elements.map((element): PartNodeType => {
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
      selected: selected.includes(element.id),
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
      ariaLabel: `${element.kind} ${element.tag}`,
    };
  });
}

export function edgesOf(lineUp: LineUp, family: Family, selected: readonly string[]): CableEdgeType[] {
  return lineUp.cables.flatMap((cable): CableEdgeType[] => {
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
        selected: selected.includes(cable.id),
        data: { path },
        ariaLabel: `cable ${cable.tag}`,
      },
    ];
  });
}
