import { useConnection } from '@xyflow/react';
import { createPortal } from 'react-dom';
import { illegal, type LineUp } from '../../engine/index.ts';
import { portFor, portOf } from './ports.ts';

export interface ConnectionSaysProps {
  readonly lineUp: LineUp;
  /** The part at a place on the screen. */
  readonly under: (x: number, y: number) => string | null;
}

/** Beside the pointer while a cable is drawn: where it would land, or why it may not. */
export function ConnectionSays({ lineUp, under }: ConnectionSaysProps) {
  const { inProgress, pointer, fromHandle, toHandle } = useConnection();
  if (!inProgress) return null;
  const sheet = document.querySelector('.sheet')?.getBoundingClientRect();
  const at = { x: pointer.x + (sheet?.left ?? 0), y: pointer.y + (sheet?.top ?? 0) };
  const from = portOf(fromHandle.nodeId, fromHandle.id, 'load');
  const part = toHandle?.nodeId ?? under(at.x, at.y);
  const to = toHandle ? portOf(toHandle.nodeId, toHandle.id, 'line') : part && part !== from.element ? portFor(lineUp, from, part) : null;
  const why = to && illegal(lineUp, from, to);
  const tag = lineUp.elements.find((each) => each.id === to?.element)?.tag;
  return createPortal(
    <div className={why ? 'says no' : 'says'} role="status" aria-label="Connection" style={{ left: at.x + 14, top: at.y + 14 }}>
      {why ?? (tag ? `Connect to ${tag}` : 'Let go here to choose what follows')}
    </div>,
    document.body,
  );
}
