/** How files of earlier versions are brought up to date: one step a version, in order, never edited after its release. */

export interface Migration {
  /** The version the document has afterwards. */
  readonly to: number;
  /** What changed, in a sentence for the person who opens the file. */
  readonly says: string;
  readonly up: (document: Readonly<Record<string, unknown>>) => Record<string, unknown>;
}

export const MIGRATIONS: readonly Migration[] = [];

export function migrate(
  document: Record<string, unknown>,
  version: number,
  steps: readonly Migration[] = MIGRATIONS,
): { readonly document: Record<string, unknown>; readonly notes: readonly string[] } {
  let here = document;
  const notes: string[] = [];
  for (const step of steps) {
    if (step.to <= version) continue;
    here = { ...step.up(here), version: step.to };
    notes.push(step.says);
  }
  return { document: here, notes };
}
