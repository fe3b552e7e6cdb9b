import { useRef, useState } from 'react';
import { ELEMENT_KINDS, type ElementKind, kindSymbol, PORTS } from '../../engine/index.ts';
import { Paint } from '../sheet/Paint.tsx';
import { cableUnder, dropPart } from '../sheet/partDrop.ts';
import { type Family, PX } from '../sheet/scale.ts';
import { useEditor, wait } from '../store/editorStore.ts';
import { useSay } from '../store/useSay.ts';

/** The parts. Drag one onto the sheet, or click it and then the sheet or a cable, or press Enter to add it below the selected part. */

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

interface Ghost {
  readonly kind: ElementKind;
  readonly x: number;
  readonly y: number;
  /** What would become of it at the cable, if it were let go here. */
  readonly into: string | null;
}
/** A hand that trembles is not a drag. */
const DRAG_px = 6;

export function Tray({ family }: { readonly family: Family }) {
  const say = useSay();
  const waiting = useEditor((state) => state.waiting);
  const [ghost, setGhost] = useState<Ghost | null>(null);
  const intoOf = (kind: ElementKind, x: number, y: number): string | null => {
    const { lineUp } = useEditor.getState();
    const cable = lineUp?.cables.find((each) => each.id === cableUnder(x, y));
    if (!cable) return null;
    const name = cable.kind === 'link' ? 'the line' : cable.tag;
    const ports = PORTS[kind];
    return ports.length > 1 ? `into ${name}` : ports.includes('line') ? `off ${name}, by a junction` : `beside ${name}, not joined`;
  };
  const began = useRef<{ readonly x: number; readonly y: number } | null>(null);
  // A drag ends in a click on the button it began on: that click must not arm the part again.
  const dragged = useRef(false);
  const end = () => {
    began.current = null;
    setGhost(null);
  };
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
            title={`${say(NAMES[kind])}: drag it onto the sheet or into a cable, or click here and then there`}
            onPointerDown={(event) => {
              event.currentTarget.setPointerCapture(event.pointerId);
              began.current = { x: event.clientX, y: event.clientY };
              dragged.current = false;
            }}
            onPointerMove={({ clientX: x, clientY: y }) => {
              if (!began.current) return;
              if (!dragged.current && Math.hypot(x - began.current.x, y - began.current.y) < DRAG_px) return;
              dragged.current = true;
              setGhost({ kind, x, y, into: intoOf(kind, x, y) });
            }}
            onPointerUp={({ clientX: x, clientY: y }) => {
              const on = document.elementFromPoint(x, y)?.closest('.sheet');
              if (dragged.current && on) dropPart({ kind, at: { x, y } });
              end();
            }}
            onPointerCancel={end}
            onClick={(event) => {
              if (event.detail === 0) dropPart({ kind, at: null });
              else if (!dragged.current) wait(waiting === kind ? null : kind);
            }}
          >
            <svg viewBox={`${symbol.left_mm - 1} ${Math.min(-1, symbol.height_mm / 2 - h / 2)} ${w} ${h}`} aria-hidden="true">
              <Paint items={symbol.items} />
            </svg>
            {say(NAMES[kind])}
          </button>
        );
      })}
      {ghost && <Follower ghost={ghost} family={family} />}
    </nav>
  );
}

/** The part under the moving pointer. */
function Follower({ ghost, family }: { readonly ghost: Ghost; readonly family: Family }) {
  return (
    <svg className="ghost" style={{ left: ghost.x, top: ghost.y }} aria-hidden="true">
      <g transform={`scale(${PX})`}>
        <Paint items={kindSymbol(ghost.kind, family).items} />
      </g>
      {ghost.into && (
        <text x={18} y={-6}>
          {ghost.into}
        </text>
      )}
    </svg>
  );
}
