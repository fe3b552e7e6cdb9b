import { formatQuantity, type Quantity, SCALES, type Units } from './units.ts';

/** A limit, not rounded to what it keeps out, in the unit in which it is shortest: '1 s', not '1000000 µs'. */
export function limitText(value: number, quantity: Quantity, units: Units): string {
  if (quantity === 'size' || quantity === 'temperature' || value === 0) return formatQuantity(value, quantity, units);
  const texts = SCALES[quantity][units].map(({ names: [name], factor }) =>
    `${Number((value / factor).toPrecision(6))}${name ? `\u00a0${name}` : ''}`.replace('-', '−'),
  );
  return texts.reduce((shortest, each) => (each.length < shortest.length ? each : shortest));
}
