import { BaseEdge, type Edge, type EdgeProps } from '@xyflow/react';
import { memo } from 'react';

/** The cable under the hand: a wide invisible stroke over its drawn line. */

export interface CableData extends Record<string, unknown> {
  readonly path: string;
}
export type CableEdgeType = Edge<CableData, 'cable'>;

export const CableEdge = memo(function CableEdge({ id, data }: EdgeProps<CableEdgeType>) {
  return <BaseEdge id={id} path={data?.path ?? ''} interactionWidth={22} style={{ stroke: 'transparent' }} />;
});
