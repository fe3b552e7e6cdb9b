import { type Item, type LineUp, routeCable } from '../../engine/index.ts';
import { Paint } from './Paint.tsx';
import { type Family, PX, symbolIn } from './scale.ts';

/** What is seen: the display list, with a band under what is chosen. */

export interface DrawingProps {
  readonly lineUp: LineUp;
  readonly family: Family;
  readonly items: readonly Item[];
  /** Ids of the parts that are chosen or spoken of. */
  readonly marked: readonly string[];
}

export function Drawing({ lineUp, family, items, marked }: DrawingProps) {
  return (
    <svg className="drawing" role="img" aria-label="One-line diagram">
      <g transform={`scale(${PX})`}>
        {lineUp.cables
          .filter((cable) => marked.includes(cable.id))
          .map((cable) => (
            <polyline
              key={cable.id}
              className="band"
              points={routeCable(lineUp, lineUp.positions, cable, family)
                .map((point) => point.join(','))
                .join(' ')}
              fill="none"
              stroke="var(--accentTint)"
              strokeWidth={9}
              strokeLinecap="round"
              strokeLinejoin="round"
            />
          ))}
        {lineUp.elements
          .filter((element) => marked.includes(element.id))
          .map((element) => {
            const symbol = symbolIn(lineUp, element, family);
            const at = lineUp.positions[element.id] ?? { x_mm: 0, y_mm: 0 };
            return (
              <rect
                key={element.id}
                className="band"
                x={at.x_mm + symbol.left_mm - 1.5}
                y={at.y_mm - 1}
                width={symbol.width_mm + 3}
                height={symbol.height_mm + 2}
                rx={1}
                fill="var(--accentTint)"
                stroke="var(--accent)"
                strokeWidth={0.4}
              />
            );
          })}
        <Paint items={items} />
      </g>
    </svg>
  );
}
