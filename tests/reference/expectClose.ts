import { expect } from 'vitest';

/** A number from outside the project, and how near ours must come. */
export function expectClose(
  ours: number,
  published: number,
  tolerance: { readonly absolute?: number; readonly relative?: number },
  source: string,
): void {
  const allowed = Math.max(tolerance.absolute ?? 0, (tolerance.relative ?? 0) * Math.abs(published));
  expect(Math.abs(ours - published), `ours ${ours}, ${source}: ${published}, allowed ±${allowed}`).toBeLessThanOrEqual(allowed);
}
