import { type LineUp, PORTS } from '../../engine/index.ts';
import { ask } from '../store/deskStore.ts';
import { type Family, PX, symbolIn } from './scale.ts';

/** Below the chosen part: adds what may follow it. */
export function AddHandle({ lineUp, family, id }: { readonly lineUp: LineUp; readonly family: Family; readonly id: string }) {
  const element = lineUp.elements.find((each) => each.id === id);
  const at = lineUp.positions[id];
  if (!element || !at || !PORTS[element.kind].includes('load')) return null;
  const symbol = symbolIn(lineUp, element, family);
  const port = symbol.ports.load ?? { x: 0, y: symbol.height_mm };
  return (
    <button
      type="button"
      className="add nodrag nopan"
      style={{ left: (at.x_mm + port.x - 7) * PX, top: (at.y_mm + port.y + 4) * PX }}
      title={`Add what follows ${element.tag} (A)`}
      aria-label={`Add after ${element.tag}`}
      onClick={() => ask('add')}
    >
      +
    </button>
  );
}
