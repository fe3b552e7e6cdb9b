import { besideIn, type LineUp, laidOut } from '../../engine/index.ts';
import { setValue } from './edits.ts';

/** Says beside which cables one lies in its raceway: those that are not among them are laid out of it. */
export function lieBeside(lineUp: LineUp, id: string, others: readonly string[] | undefined): LineUp {
  const beside = besideIn(lineUp.cables, { id }).map((each) => each.id);
  const leaving = others?.length ? beside.filter((other) => !others.includes(other)) : [id];
  return setValue({ ...lineUp, cables: laidOut(lineUp.cables, new Set(leaving)) }, id, 'installation.sharedWith', others);
}
