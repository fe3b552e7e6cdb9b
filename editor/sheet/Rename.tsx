import { useReactFlow } from '@xyflow/react';
import type { LineUp } from '../../engine/index.ts';
import { routeCable } from '../../engine/index.ts';
import { partsOf } from '../commands/related.ts';
import { arrange } from '../store/deskStore.ts';
import { edit } from '../store/editorStore.ts';
import { setValue } from '../store/edits.ts';
import { familyOf, PX, symbolIn } from './scale.ts';
import { view } from './view.ts';

/** The tag of a part, typed where it stands. Enter takes it, Escape leaves it. */
export function Rename({ lineUp, id }: { readonly lineUp: LineUp; readonly id: string }) {
  const { flowToScreenPosition } = useReactFlow();
  const part = partsOf(lineUp).find((each) => each.id === id);
  if (!part) return null;
  const { x, y } = flowToScreenPosition(tagPlace(lineUp, id));
  const take = (text: string) => {
    const tag = text.trim().slice(0, 200);
    if (tag !== '' && tag !== part.tag) edit('Rename', (before) => setValue(before, id, 'tag', tag));
    arrange({ renaming: null });
  };
  return (
    <input
      className="rename"
      aria-label={`Tag of ${part.tag}`}
      defaultValue={part.tag}
      style={{ left: x, top: y }}
      ref={(input) => {
        if (input && document.activeElement !== input) {
          input.focus();
          input.select();
        }
      }}
      onBlur={({ target }) => take(target.value)}
      onKeyDown={({ key, currentTarget }) => {
        if (key === 'Escape') currentTarget.value = part.tag;
        // The name is taken when the focus leaves it for the part.
        if (key === 'Enter' || key === 'Escape') view()?.focus(id);
      }}
    />
  );
}

/** Beside the symbol, or beside the middle of the cable. */
function tagPlace(lineUp: LineUp, id: string): { x: number; y: number } {
  const family = familyOf(lineUp);
  const element = lineUp.elements.find((each) => each.id === id);
  if (element) {
    const at = lineUp.positions[id] ?? { x_mm: 0, y_mm: 0 };
    const symbol = symbolIn(lineUp, element, family);
    return { x: (at.x_mm + symbol.left_mm + symbol.width_mm + 2) * PX, y: (at.y_mm + symbol.height_mm / 2 - 6) * PX };
  }
  const cable = lineUp.cables.find((each) => each.id === id);
  const points = cable ? routeCable(lineUp, lineUp.positions, cable, family) : [];
  const [a, b] = [points[0] ?? [0, 0], points.at(-1) ?? [0, 0]];
  return { x: (b[0] + 4.5) * PX, y: ((a[1] + b[1]) / 2 - 6) * PX };
}
