import { memo } from 'react';
import type { Item } from '../../engine/index.ts';

/** Draws a display list as SVG: the same items the paper gets. Inks are the theme's colours. */

const ink = (name: string): string => `var(--${name})`;

function One({ item }: { readonly item: Item }) {
  switch (item.t) {
    case 'line':
      return (
        <polyline
          points={item.points.map((point) => point.join(',')).join(' ')}
          fill="none"
          stroke={ink(item.ink)}
          strokeWidth={item.weight_mm}
          strokeDasharray={item.dash?.join(' ')}
          strokeLinecap={item.dash ? 'butt' : 'round'}
          strokeLinejoin="round"
        />
      );
    case 'path':
      return (
        <path
          d={item.d.map(([letter, ...numbers]) => `${letter}${numbers.join(' ')}`).join('')}
          fill={item.fill ? ink(item.fill) : 'none'}
          stroke={item.weight_mm > 0 ? ink(item.ink) : 'none'}
          strokeWidth={item.weight_mm}
          strokeLinejoin="round"
        />
      );
    case 'circle':
      return (
        <circle
          cx={item.x}
          cy={item.y}
          r={item.r}
          fill={item.fill ? ink(item.fill) : 'none'}
          stroke={item.weight_mm > 0 ? ink(item.ink) : 'none'}
          strokeWidth={item.weight_mm}
          strokeDasharray={item.dash?.join(' ')}
          strokeLinecap="round"
        />
      );
    case 'rect':
      return (
        <rect
          x={item.x}
          y={item.y}
          width={item.w}
          height={item.h}
          rx={item.corner_mm ?? 0}
          fill={item.fill ? ink(item.fill) : 'none'}
          stroke={item.weight_mm > 0 ? ink(item.ink) : 'none'}
          strokeWidth={item.weight_mm}
        />
      );
    case 'text':
      return (
        <text x={item.x} y={item.y} fontSize={item.size_mm} fontWeight={item.weight} textAnchor={item.anchor} fill={ink(item.ink)}>
          {item.text}
        </text>
      );
  }
}

export const Paint = memo(function Paint({ items }: { readonly items: readonly Item[] }) {
  // The order of a display list is its identity: items have no ids and never move within it.
  return items.map((item, i) => <One key={`${item.t}${i}`} item={item} />);
});
