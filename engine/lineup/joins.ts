import type { Port } from './elements.ts';
import type { LineUp } from './lineUp.ts';

/** Where a cable may land. */

export interface PortAt {
  readonly element: string;
  readonly port: Port;
}

/** Why these two ports may not be joined, or null when they may. */
export function illegal(lineUp: LineUp, from: PortAt, to: PortAt): string | null {
  if (from.element === to.element) return 'A cable joins two different parts.';
  const find = (id: string) => lineUp.elements.find((element) => element.id === id);
  const [a, b] = [find(from.element), find(to.element)];
  if (!a || !b) return 'One of the parts is gone.';
  const kinds = [a.kind, b.kind];
  if (kinds.every((kind) => kind === 'supply')) return 'Two supplies may not be joined.';
  if (kinds.every((kind) => kind === 'motor')) return 'A motor is fed from a drive, a bus or a box, not from another motor.';
  const [output, other] =
    a.kind === 'drive' && from.port === 'load' ? [a, b] : b.kind === 'drive' && to.port === 'load' ? [b, a] : [null, null];
  if (output && other?.kind === 'supply') return 'Mains on the output of a drive destroys it.';
  if (output && other?.kind === 'drive') return 'A drive may not stand behind another drive.';
  return null;
}
