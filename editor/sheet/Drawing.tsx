import { type CSSProperties, memo, type ReactNode } from 'react';
import { type Item, type LineUp, type OneLine, type OneLinePart, routeCable, sayIn, vocabularyOf } from '../../engine/index.ts';
import type { At } from '../store/edits.ts';
import type { Guides } from './guides.ts';
import { Paint } from './Paint.tsx';
import { type Family, PX, symbolIn } from './scale.ts';
import { type Shown, useShown, useSight, useWordsZoom } from './sight.ts';

/** What is seen: the display list part by part, with a band under what is chosen. Parts under a moving hand are shifted, not drawn anew. */

export interface DrawingProps {
  readonly lineUp: LineUp;
  readonly family: Family;
  readonly drawing: OneLine;
  /** Ids of the parts that are chosen or spoken of. */
  readonly marked: readonly string[];
  /** How far parts have been dragged from where they are drawn. */
  readonly shifts: ReadonlyMap<string, At>;
  readonly guides: Guides;
  /** Whether the hand has the view yet. */
  readonly fitted: { readonly current: boolean };
}

/** Of a drawing of more parts only what is in sight is painted. */
const LARGE = 300;

export function Drawing({ lineUp, family, drawing, marked, shifts, guides, fitted }: DrawingProps) {
  const sight = useSight(drawing.parts.length > LARGE);
  const shown = useShown(drawing.parts, sight, fitted);
  const seen = drawing.parts.filter(({ id }) => shown(id) !== 'nothing');
  const dragged = new Set(
    lineUp.cables.flatMap(({ id, from, to }) => (shifts.has(from.element ?? '') || shifts.has(to.element ?? '') ? [id] : [])),
  );
  const layer = (which: 'items' | 'said', { id, [which]: items }: OneLinePart) => (
    <Part
      key={id}
      items={items}
      shown={which === 'said' || shown(id) === 'mute' ? shown(id) : 'all'}
      dx={shifts.get(id)?.x_mm ?? 0}
      dy={shifts.get(id)?.y_mm ?? 0}
      hidden={dragged.has(id)}
      role={which === 'items' ? 'symbol' : 'words'}
    />
  );
  return (
    <svg className="drawing" role="img" aria-label={sayIn(vocabularyOf(lineUp.project))('One-line diagram')}>
      <g transform={`scale(${PX})`}>
        <Bands lineUp={lineUp} family={family} marked={marked} />
        <Paint items={drawing.boundaries} />
        {[...dragged].map((id) => (
          <Line key={id} lineUp={lineUp} family={family} id={id} />
        ))}
        {seen.map((part) => layer('items', part))}
        <Words>{seen.map((part) => layer('said', part))}</Words>
        <GuideLines guides={guides} />
      </g>
    </svg>
  );
}

/** The only group that follows every step of the zoom, so that no symbol is styled anew by one. */
function Words({ children }: { readonly children: ReactNode }) {
  const zoom = useWordsZoom();
  return (
    <g className={zoom === null ? undefined : 'kept'} style={zoom === null ? undefined : ({ '--words': zoom } as CSSProperties)}>
      {children}
    </g>
  );
}

interface PartProps {
  readonly items: readonly Item[];
  readonly shown: Shown;
  readonly dx: number;
  readonly dy: number;
  readonly hidden: boolean;
  /** What it is to the style sheet. */
  readonly role: 'symbol' | 'words';
}

const Part = memo(function Part({ items, shown, dx, dy, hidden, role }: PartProps) {
  if (items.length === 0) return null;
  return (
    <g className={role} transform={dx || dy ? `translate(${dx} ${dy})` : undefined} visibility={hidden ? 'hidden' : undefined}>
      <Paint items={shown === 'all' ? items : items.flatMap((each) => told(each, shown))} />
    </g>
  );
});

function told(item: Item, shown: Exclude<Shown, 'all'>): Item | readonly Item[] {
  if (item.t !== 'text' || (shown !== 'mute' && !item.less)) return item;
  const text = shown === 'mute' ? '' : item.less?.[shown === 'small' ? 0 : 1];
  return text ? { ...item, text } : [];
}

interface CableProps {
  readonly lineUp: LineUp;
  readonly family: Family;
  readonly id: string;
}

const pointsOf = ({ lineUp, family, id }: CableProps): string => {
  const cable = lineUp.cables.find((each) => each.id === id);
  return cable
    ? routeCable(lineUp, lineUp.positions, cable, family)
        .map((point) => point.join(','))
        .join(' ')
    : '';
};

/** A cable while a part at its end is dragged: its line alone. */
const Line = (props: CableProps) => <polyline points={pointsOf(props)} fill="none" stroke="var(--ink)" strokeWidth={0.7} />;

function Bands({ lineUp, family, marked }: Pick<DrawingProps, 'lineUp' | 'family' | 'marked'>) {
  const chosen = new Set(marked);
  return (
    <>
      {lineUp.cables
        .filter((cable) => chosen.has(cable.id))
        .map((cable) => (
          <polyline
            key={cable.id}
            className="band"
            points={pointsOf({ lineUp, family, id: cable.id })}
            fill="none"
            stroke="var(--accentTint)"
            strokeWidth={9}
            strokeLinecap="round"
            strokeLinejoin="round"
          />
        ))}
      {lineUp.elements
        .filter((element) => chosen.has(element.id))
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
    </>
  );
}

/** Far beyond any sheet. */
const FAR_mm = 1e5;

function GuideLines({ guides: { x_mm, y_mm } }: { readonly guides: Guides }) {
  const line = { className: 'guide', stroke: 'var(--accent)', strokeWidth: 0.25 };
  return (
    <>
      {x_mm !== undefined && <line {...line} x1={x_mm} x2={x_mm} y1={-FAR_mm} y2={FAR_mm} />}
      {y_mm !== undefined && <line {...line} y1={y_mm} y2={y_mm} x1={-FAR_mm} x2={FAR_mm} />}
    </>
  );
}
