import type { LineUp } from './lineUp.ts';

/** The document as text: keys sorted, two spaces, a final newline. The same document gives the same bytes everywhere. */
export const save = (lineUp: LineUp): string => `${JSON.stringify(canonical(lineUp), null, 2)}\n`;

function canonical(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(canonical);
  if (typeof value === 'number' && !Number.isFinite(value))
    throw new Error(`save: ${value} cannot be written; the schema should have refused it`);
  if (typeof value !== 'object' || value === null) return value;
  const entries = Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1));
  return Object.fromEntries(entries.map(([key, inner]) => [key, canonical(inner)]));
}
