import { exceeds } from './check.ts';

/**
 * How many times the current of a part is drawn here, on the other side of a transformer: power passes, so currents go as the voltages do the
 * other way. Parts stand at what they are made for within 10 % (see voltageMatch): what lies further off stands behind a transformer.
 */
export function driveSeen(rated_V: number, here_V: number): number {
  const ratio = rated_V / here_V;
  return exceeds(ratio, 1.1) || exceeds(0.9, ratio) ? ratio : 1;
}

/** A motor may stand far below its drive's supply without one, at nameplate current: only above it is there a transformer for sure. */
export const motorSeen = (rated_V: number, here_V: number): number => Math.max(1, driveSeen(rated_V, here_V));
