import type { LineUp } from './lineUp.ts';

/** The document as text: keys sorted, two spaces, a final newline. The same document gives the same bytes everywhere. */
export const save = (lineUp: LineUp): string => `${JSON.stringify(canonical(lineUp), null, 2)}\n`;

function canonical(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(canonical);
  if (typeof value === 'number') {
    if (!Number.isFinite(value)) throw new Error(`save: ${value} cannot be written; the schema should have refused it`);
    return value === 0 ? 0 : value;
  }
  if (typeof value !== 'object' || value === null) return value;
  const entries = Object.entries(value).filter(([, inner]) => inner !== undefined);
  entries.sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0));
  return Object.fromEntries(entries.map(([key, inner]) => [key, canonical(inner)]));
}
