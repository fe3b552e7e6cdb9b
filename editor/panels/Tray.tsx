import { useRef } from 'react';
import { ELEMENT_KINDS, type ElementKind, kindSymbol } from '../../engine/index.ts';
import { Paint } from '../sheet/Paint.tsx';

/** The parts. Drag one onto the sheet, or click it and then the sheet or a cable. */

export interface TrayProps {
  readonly family: 'us' | 'iec';
  readonly waiting: ElementKind | null;
  readonly onWait: (kind: ElementKind | null) => void;
}

const NAMES: Readonly<Record<ElementKind, string>> = {
  supply: 'Supply',
  transformer: 'Transformer',
  bus: 'Bus',
  disconnect: 'Disconnect',
  reactor: 'Reactor',
  filter: 'Filter',
  drive: 'Drive',
  junction: 'Junction',
  contactor: 'Contactor',
  motor: 'Motor',
};

export function Tray({ family, waiting, onWait }: TrayProps) {
  // A drag ends in a click on the button it began on: that click must not arm the part again.
  const dropped = useRef(false);
  return (
    <nav className="tray" aria-label="Parts">
      {ELEMENT_KINDS.map((kind) => {
        const symbol = kindSymbol(kind, family);
        const [w, h] = [Math.max(symbol.width_mm, 4) + 2, Math.max(symbol.height_mm, 4) + 2];
        return (
          <button
            key={kind}
            type="button"
            aria-pressed={waiting === kind}
            onPointerDown={(event) => event.currentTarget.setPointerCapture(event.pointerId)}
            onPointerUp={(event) => {
              const under = document.elementFromPoint(event.clientX, event.clientY);
              dropped.current = under?.closest('.sheet') != null;
              if (!dropped.current) return;
              window.dispatchEvent(new CustomEvent('copperline:drop', { detail: { kind, x: event.clientX, y: event.clientY } }));
            }}
            onClick={() => {
              if (!dropped.current) onWait(waiting === kind ? null : kind);
              dropped.current = false;
            }}
          >
            <svg viewBox={`${symbol.left_mm - 1} ${Math.min(-1, symbol.height_mm / 2 - h / 2)} ${w} ${h}`} aria-hidden="true">
              <Paint items={symbol.items} />
            </svg>
            {NAMES[kind]}
          </button>
        );
      })}
    </nav>
  );
}
