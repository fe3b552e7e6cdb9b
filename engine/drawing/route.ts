import type { Cable, CableEnd } from '../lineup/cable.ts';
import { elementOf } from '../lineup/elementOf.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import type { Point } from './displayList.ts';
import { type Family, symbolOf } from './symbols.ts';

/** Straight piece before the first corner, so that a landing has room. */
const STUB_mm = 8;
/** Of a link: half of the way to the next part. */
const LINK_STUB_mm = 2.5;
/** A cable that leads nowhere yet. */
const LOOSE_mm = 20;
/** A bus goes on this far beyond its last tap. */
const OVERHANG_mm = 10;

type Positions = LineUp['positions'];

interface Place {
  readonly x: number;
  readonly y: number;
  /** Which way the cable leaves; a bus takes both. */
  readonly way: 1 | -1 | 0;
}

/** Right angles, from the first end to the second. A bus is tapped straight above or below the other end. */
export function routeCable(lineUp: LineUp, positions: Positions, cable: Cable, family: Family): readonly Point[] {
  const a = placeOf(lineUp, positions, cable.from, 'load', family);
  const b = placeOf(lineUp, positions, cable.to, 'line', family);
  if (a && b) return between(a, b, cable.kind === 'link' ? LINK_STUB_mm : STUB_mm);
  if (a)
    return [
      [a.x, a.y],
      [a.x, a.y + (a.way || 1) * LOOSE_mm],
    ];
  if (b)
    return [
      [b.x, b.y + (b.way || -1) * LOOSE_mm],
      [b.x, b.y],
    ];
  return [];
}

function placeOf(lineUp: LineUp, positions: Positions, end: CableEnd, usual: 'line' | 'load', family: Family): Place | null {
  const element = elementOf(lineUp.elements, end.element);
  const at = element && positions[element.id];
  if (!element || !at) return null;
  if (element.kind === 'bus') return { x: at.x_mm, y: at.y_mm, way: 0 };
  const { ports } = symbolOf(element, family);
  const side = ports[end.port ?? usual] ? (end.port ?? usual) : ports.line ? 'line' : 'load';
  const port = ports[side] ?? { x: 0, y: 0 };
  return { x: at.x_mm + port.x, y: at.y_mm + port.y, way: side === 'load' ? 1 : -1 };
}

function between(first: Place, second: Place, stub: number): readonly Point[] {
  const a = first.way === 0 ? { x: second.way === 0 ? first.x : second.x, y: first.y, way: Math.sign(second.y - first.y) || 1 } : first;
  const b = second.way === 0 ? { x: a.x, y: second.y, way: Math.sign(first.y - second.y) || -1 } : second;
  const facing = a.way === -b.way && (b.y - a.y) * a.way > 0;
  if (facing && Math.abs(a.x - b.x) < 1e-6)
    return [
      [a.x, a.y],
      [b.x, b.y],
    ];
  if (facing) {
    const y = a.y + a.way * Math.min(stub, Math.abs(b.y - a.y) / 2);
    return [
      [a.x, a.y],
      [a.x, y],
      [b.x, y],
      [b.x, b.y],
    ];
  }
  const fromY = a.y + a.way * stub;
  const toY = b.y + b.way * stub;
  const x = Math.abs(a.x - b.x) > 40 ? (a.x + b.x) / 2 : Math.max(a.x, b.x) + 30;
  return [
    [a.x, a.y],
    [a.x, fromY],
    [x, fromY],
    [x, toY],
    [b.x, toY],
    [b.x, b.y],
  ];
}

/** Length that reaches every tap of a bus, its axis in the middle. */
export function busLength(lineUp: LineUp, positions: Positions, busId: string): number {
  const axis = positions[busId]?.x_mm ?? 0;
  let reach = OVERHANG_mm;
  for (const cable of lineUp.cables) {
    const other = cable.from.element === busId ? cable.to.element : cable.to.element === busId ? cable.from.element : undefined;
    const at = other === undefined ? undefined : positions[other];
    if (at) reach = Math.max(reach, Math.abs(at.x_mm - axis));
  }
  return 2 * (reach + OVERHANG_mm);
}
