import { illegal, type LineUp, PORTS, type PortAt } from '../../engine/index.ts';

/** Which port of a part a cable goes to when only the part is pointed at. */

export const portOf = (element: string, port: string | null | undefined, otherwise: 'line' | 'load'): PortAt => ({
  element,
  port: port === 'line' || port === 'load' ? port : otherwise,
});

/** Of the ports of a part: one that may be joined and is free, then one that may be joined, then the one that would be expected. */
export function portFor(lineUp: LineUp, from: PortAt, element: string): PortAt | null {
  const part = lineUp.elements.find((each) => each.id === element);
  if (!part) return null;
  const expected = from.port === 'load' ? 'line' : 'load';
  const ports = [...PORTS[part.kind]].sort((a, b) => Number(b === expected) - Number(a === expected)).map((port) => ({ element, port }));
  const legal = ports.filter((port) => illegal(lineUp, from, port) === null);
  const taken = ({ port }: PortAt) =>
    lineUp.cables.some(
      ({ from: a, to: b }) =>
        (a.element === element && (a.port ?? 'load') === port) || (b.element === element && (b.port ?? 'line') === port),
    );
  return legal.find((port) => !taken(port)) ?? legal[0] ?? ports[0] ?? null;
}
