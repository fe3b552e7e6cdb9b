import { Handle, type Node, type NodeProps, Position } from '@xyflow/react';
import { memo, type MouseEvent as ReactMouseEvent } from 'react';

/** The part under the hand: a box over its drawn symbol, with its ports. The symbol itself is painted by the sheet. */

export interface PartData extends Record<string, unknown> {
  readonly label: string;
  readonly ports: readonly { readonly port: 'line' | 'load'; readonly x: number; readonly y: number; readonly below: boolean }[];
}
const keepPortClicks = (event: ReactMouseEvent): void => {
  if ((event.target as Element).closest('.react-flow__handle')) event.stopPropagation();
};

export type PartNodeType = Node<PartData, 'part'>;

export const PartNode = memo(function PartNode({ data }: NodeProps<PartNodeType>) {
  return (
    // A click on a port joins; it must not reach the part, which would be chosen by it.
    // biome-ignore lint/a11y/noStaticElementInteractions: it only keeps a click to the ports, which are controls
    // biome-ignore lint/a11y/useKeyWithClickEvents: keys reach the ports by commands
    <div className="part" data-part={data.label} onClick={keepPortClicks}>
      {data.ports.map(({ port, x, y, below }) => (
        <Handle
          key={port}
          id={port}
          type="source"
          position={below ? Position.Bottom : Position.Top}
          style={{ left: x, top: y, bottom: 'auto', transform: 'translate(-50%, -50%)' }}
          role="button"
          tabIndex={-1}
          aria-label={`${data.label}, ${port} side`}
        />
      ))}
    </div>
  );
});
