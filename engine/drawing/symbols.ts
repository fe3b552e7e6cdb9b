import type { Element, ElementKind } from '../lineup/elements.ts';
import { type Item, TEXT_mm, translate, WEIGHT } from './displayList.ts';
import { extent } from './extent.ts';
import { glyphs } from './glyphs.ts';
import { SYMBOL_DATA, type SymbolData, type SymbolName } from './symbolData.ts';

export type Family = 'us' | 'iec';

/** Local axis x = 0, top port at y = 0. */
export interface DrawnSymbol {
  readonly items: readonly Item[];
  readonly ports: {
    readonly line?: { readonly x: number; readonly y: number };
    readonly load?: { readonly x: number; readonly y: number };
  };
  readonly width_mm: number;
  readonly height_mm: number;
  /** x of the left edge. */
  readonly left_mm: number;
}

const LEAST_BUS_mm = 40;

/** @param busLength_mm with a bus, end to end; the axis is at its middle */
export function symbolOf(element: Element, family: Family, busLength_mm = LEAST_BUS_mm): DrawnSymbol {
  if (element.kind === 'bus') return makeSymbol(element, family, busLength_mm);
  const known = made[family].get(element);
  if (known) return known;
  const symbol = makeSymbol(element, family, busLength_mm);
  made[family].set(element, symbol);
  return symbol;
}

/** A part is never changed in place: its symbol is made once, and asked for by routes, labels and layout. */
const made: Readonly<Record<Family, WeakMap<Element, DrawnSymbol>>> = { us: new WeakMap(), iec: new WeakMap() };

function makeSymbol(element: Element, family: Family, busLength_mm: number): DrawnSymbol {
  switch (element.kind) {
    case 'bus': {
      const half = Math.max(busLength_mm, 10) / 2;
      const items: Item[] = [
        {
          t: 'line',
          points: [
            [-half, 0],
            [half, 0],
          ],
          weight_mm: WEIGHT.bus,
          ink: 'ink',
        },
      ];
      return { items, ports: { line: { x: 0, y: 0 }, load: { x: 0, y: 0 } }, width_mm: 2 * half, height_mm: 0, left_mm: -half };
    }
    case 'supply':
      return drawn(named('supply', family), 12, { load: { x: 0, y: 12 } });
    case 'motor':
      return drawn(named(element.brake ? 'motorBrake' : 'motor', family), 16, { line: { x: 0, y: 0 } });
    case 'filter':
      return filterSymbol(element.role, family);
    case 'disconnect': {
      const fused = element.device === 'fused-switch';
      const top: SymbolName =
        element.device === 'breaker'
          ? 'breaker'
          : element.device === 'fuse'
            ? 'fuse'
            : element.state === 'open'
              ? 'disconnectOpen'
              : 'disconnectClosed';
      const items = fused ? [...named(top, family), ...translate(named('fuse', family), 0, 12)] : named(top, family);
      return boxed(items, fused ? 24 : 12, element.box);
    }
    case 'contactor':
      return boxed(named('contactor', family), 12, element.box);
    case 'junction':
      return boxed(named('junction', family), 8, element.box);
    default:
      return through(element.kind, family);
  }
}

/** A part as it stands in the tray, before anything is known of it. */
export const kindSymbol = (kind: ElementKind, family: Family): DrawnSymbol =>
  symbolOf({ id: 'tray', tag: '-', kind } as Element, family, 14);

function named(name: SymbolName, family: Family): readonly Item[] {
  const data: SymbolData = SYMBOL_DATA[name];
  return [...glyphs(data.both ?? ''), ...glyphs(data[family] ?? '')];
}

function drawn(items: readonly Item[], height_mm: number, ports: DrawnSymbol['ports']): DrawnSymbol {
  const box = extent(items);
  return { items, ports, width_mm: box.w, height_mm, left_mm: box.x };
}

function through(name: SymbolName, family: Family): DrawnSymbol {
  const { height_mm } = SYMBOL_DATA[name];
  return drawn(named(name, family), height_mm, { line: { x: 0, y: 0 }, load: { x: 0, y: height_mm } });
}

function filterSymbol(role: 'emc-input' | 'dvdt' | 'sine' | 'terminator' | undefined, family: Family): DrawnSymbol {
  if (role === 'emc-input') return through('emcFilter', family);
  if (role === 'dvdt') return through('dvdtFilter', family);
  if (role === 'sine') return through('sineFilter', family);
  // A terminator hangs beside the line that goes on.
  if (role === 'terminator')
    return drawn([...glyphs('L 0 0 0 8'), ...translate(named('terminator', family), 0, 4)], 8, {
      line: { x: 0, y: 0 },
      load: { x: 0, y: 8 },
    });
  const items: Item[] = [
    ...glyphs('L 0 0 0 1; R -5 1 10 12; L 0 13 0 14'),
    { t: 'text', x: 0, y: 8.3, text: '?', size_mm: TEXT_mm, weight: 400, anchor: 'middle', ink: 'ink' },
  ];
  return drawn(items, 14, { line: { x: 0, y: 0 }, load: { x: 0, y: 14 } });
}

/** The box round a part, drawn first; ports move out to its walls. Not known what it is made of: no outline. */
function boxed(items: readonly Item[], height_mm: number, box: 'metal' | 'plastic' | undefined): DrawnSymbol {
  if (!box) return drawn(items, height_mm, { line: { x: 0, y: 0 }, load: { x: 0, y: height_mm } });
  const h = height_mm + 2;
  const wall: Item[] =
    box === 'metal'
      ? [
          { t: 'rect', x: -6, y: 0, w: 12, h, weight_mm: WEIGHT.heavy, ink: 'ink', fill: 'canvas' },
          ...glyphs(
            `L 6 ${h - 2.8} 8 ${h - 2.8}; L 8 ${h - 4} 8 ${h - 1.6}; L 8.7 ${h - 3.6} 8.7 ${h - 2}; L 9.4 ${h - 3.2} 9.4 ${h - 2.4}`,
          ),
        ]
      : [
          { t: 'rect', x: -6, y: 0, w: 12, h, corner_mm: 2.4, weight_mm: WEIGHT.thin, ink: 'ink', fill: 'canvas' },
          { t: 'rect', x: -5.2, y: 0.8, w: 10.4, h: h - 1.6, corner_mm: 1.7, weight_mm: WEIGHT.thin, ink: 'ink' },
        ];
  const leads = glyphs(`L 0 0 0 1; L 0 ${h - 1} 0 ${h}`);
  return drawn([...wall, ...leads, ...translate(items, 0, 1)], h, { line: { x: 0, y: 0 }, load: { x: 0, y: h } });
}
