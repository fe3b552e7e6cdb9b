import type { Box, Ink, Item } from './displayList.ts';
import { escaped } from './xml.ts';

/** The display list as an SVG text, for pictures and tests. Always the light colours. */

export const LIGHT: Readonly<Record<Ink, string>> = {
  ink: '#1C2225',
  ink2: '#4C5558',
  ink3: '#5D676A',
  rule: '#DAD6CB',
  rule2: '#80827B',
  fail: '#9E0B2E',
  open: '#5A459F',
  caution: '#876000',
  note: '#46545C',
  canvas: '#FFFFFF',
  accent: '#14635D',
  accentTint: '#DCECE8',
  failTint: '#F8E3E4',
  openTint: '#E9E5F5',
  cautionTint: '#F6EBCB',
  noteTint: '#E7E9E8',
  copper: '#A9552B',
  aluminium: '#6C7A86',
};

const n = (value: number): string => `${Math.round(value * 100) / 100 || 0}`;

export function svgOf(items: readonly Item[], box: Box): string {
  const head = `<svg xmlns="http://www.w3.org/2000/svg" width="${n(box.w)}mm" height="${n(box.h)}mm" viewBox="${n(box.x)} ${n(box.y)} ${n(box.w)} ${n(box.h)}" font-family="'Copperline Sans', 'Source Sans 3', sans-serif" fill="none" stroke-linecap="round" stroke-linejoin="round">`;
  return `${head}${items.map(element).join('')}</svg>`;
}

function element(item: Item): string {
  if (item.t === 'text')
    return `<text x="${n(item.x)}" y="${n(item.y)}" font-size="${n(item.size_mm)}" font-weight="${item.weight}" text-anchor="${item.anchor}" fill="${LIGHT[item.ink]}" xml:space="preserve">${escaped(item.text)}</text>`;
  const dash =
    'dash' in item && item.dash
      ? ` stroke-dasharray="${item.dash.map(n).join(' ')}"${item.t === 'line' && (item.dash[0] ?? 1) > 0.2 ? ' stroke-linecap="butt"' : ''}`
      : '';
  const fill = 'fill' in item && item.fill ? ` fill="${LIGHT[item.fill]}"` : '';
  const pen = `${item.weight_mm > 0 ? ` stroke="${LIGHT[item.ink]}" stroke-width="${n(item.weight_mm)}"` : ''}${dash}${fill}`;
  switch (item.t) {
    case 'line':
      return `<path d="${item.points.map(([x, y], i) => `${i === 0 ? 'M' : 'L'}${n(x)} ${n(y)}`).join('')}"${pen}/>`;
    case 'path':
      return `<path d="${item.d.map(([name, ...at]) => `${name}${at.map(n).join(' ')}`).join('')}"${pen}/>`;
    case 'circle':
      return `<circle cx="${n(item.x)}" cy="${n(item.y)}" r="${n(item.r)}"${pen}/>`;
    case 'rect':
      return `<rect x="${n(item.x)}" y="${n(item.y)}" width="${n(item.w)}" height="${n(item.h)}"${item.corner_mm ? ` rx="${n(item.corner_mm)}"` : ''}${pen}/>`;
  }
}
