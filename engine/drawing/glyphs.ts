import { type Item, type Segment, WEIGHT } from './displayList.ts';

/** Turns the compact notation of symbolData.ts into items. */

const radians = (degrees: number): number => (degrees * Math.PI) / 180;

/** An arc as cubics, one for each quarter turn at most. */
export function arc(cx: number, cy: number, r: number, from: number, to: number): readonly Segment[] {
  const count = Math.max(1, Math.ceil(Math.abs(to - from) / 90));
  const step = radians(to - from) / count;
  const k = (4 / 3) * Math.tan(step / 4) * r;
  const segments: Segment[] = [['M', cx + r * Math.cos(radians(from)), cy + r * Math.sin(radians(from))]];
  for (let i = 0; i < count; i++) {
    const a = radians(from) + i * step;
    const b = a + step;
    const [ax, ay, bx, by] = [cx + r * Math.cos(a), cy + r * Math.sin(a), cx + r * Math.cos(b), cy + r * Math.sin(b)];
    segments.push(['C', ax - k * Math.sin(a), ay + k * Math.cos(a), bx + k * Math.sin(b), by - k * Math.cos(b), bx, by]);
  }
  return segments;
}

const path = (d: readonly Segment[]): Item => ({ t: 'path', d, weight_mm: WEIGHT.line, ink: 'ink' });

export function glyphs(notation: string): readonly Item[] {
  return notation
    .split(';')
    .map((part) => part.trim())
    .filter((part) => part !== '')
    .map(glyph);
}

function glyph(part: string): Item {
  if (part.startsWith('T')) {
    const match = /^T (\S+) (\S+) "([^"]*)" (\S+)$/.exec(part);
    if (!match) throw new Error(`symbol: ${part}`);
    return {
      t: 'text',
      x: Number(match[1]),
      y: Number(match[2]),
      text: match[3] ?? '',
      size_mm: Number(match[4]),
      weight: 400,
      anchor: 'middle',
      ink: 'ink',
    };
  }
  const numbers = part
    .slice(1)
    .trim()
    .split(/[\s,]+/)
    .map(Number);
  const [a = 0, b = 0, c = 0, d = 0, e = 0] = numbers;
  switch (part[0]) {
    case 'L':
      return {
        t: 'line',
        points: [
          [a, b],
          [c, d],
        ],
        weight_mm: WEIGHT.line,
        ink: 'ink',
      };
    case 'C':
      return { t: 'circle', x: a, y: b, r: c, weight_mm: WEIGHT.line, ink: 'ink', fill: 'canvas' };
    case 'D':
      return { t: 'circle', x: a, y: b, r: 0.6, weight_mm: 0, ink: 'ink', fill: 'ink' };
    case 'A':
      return path(arc(a, b, c, d, e));
    case 'R':
      return { t: 'rect', x: a, y: b, w: c, h: d, weight_mm: WEIGHT.line, ink: 'ink', fill: 'canvas' };
    case 'P':
      return { t: 'line', points: pairs(numbers), weight_mm: WEIGHT.line, ink: 'ink' };
    case 'W':
      return path([
        ['M', a - 0.6 * c, b],
        ['C', a - 0.4 * c, b - 0.55 * c, a - 0.2 * c, b - 0.55 * c, a, b],
        ['C', a + 0.2 * c, b + 0.55 * c, a + 0.4 * c, b + 0.55 * c, a + 0.6 * c, b],
      ]);
    default:
      throw new Error(`symbol: ${part}`);
  }
}

function pairs(numbers: readonly number[]): readonly (readonly [number, number])[] {
  const points: [number, number][] = [];
  for (let i = 0; i + 1 < numbers.length; i += 2) points.push([numbers[i] ?? 0, numbers[i + 1] ?? 0]);
  return points;
}
