import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';

/** Imports go one way: each floor may use the floors below it, and the editor only the engine's doors. */

const FLOORS = ['lineup', 'catalog', 'network', 'physics', 'checks', 'review', 'sizing', 'drawing', 'submittal', 'cli'];
const ROOT = resolve(import.meta.dirname, '../..');
const DOORS = ['engine/index.ts', 'engine/submittal/formats.ts'];

/** Links are not followed: a browser that was ended leaves some that lead nowhere among the results of its test. */
const filesIn = (folder: string): string[] =>
  readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const path = join(folder, entry.name);
    return entry.isDirectory() ? filesIn(path) : entry.isFile() && /\.tsx?$/.test(entry.name) ? [path] : [];
  });

/** What is wrong with one import, or null. Paths are from the project's top. */
export function objection(from: string, to: string): string | null {
  if (from.startsWith('engine/') && to.startsWith('editor/')) return `${from} imports the editor`;
  if (from.startsWith('editor/') && to.startsWith('engine/') && !DOORS.includes(to)) return `${from} passes by the engine's door: ${to}`;
  if (!from.startsWith('engine/') || from === 'engine/index.ts' || !to.startsWith('engine/')) return null;
  const [own, other] = [from.split('/')[1] ?? '', to.split('/')[1] ?? ''];
  if (to === 'engine/index.ts') return own === 'cli' ? null : `${from} imports the door it stands behind`;
  if (own === 'physics' && (other === 'lineup' || other === 'network')) return `${from}: physics takes numbers, not ${to}`;
  return FLOORS.indexOf(other) > FLOORS.indexOf(own) ? `${from} imports upwards: ${to}` : null;
}

describe('one-way imports', () => {
  it('hold in every file', () => {
    const wrong: string[] = [];
    for (const file of [...filesIn(join(ROOT, 'engine')), ...filesIn(join(ROOT, 'editor'))]) {
      const text = readFileSync(file, 'utf8');
      for (const [, target] of text.matchAll(/(?:from|import)\s*\(?\s*'(\.[^']+)'/g)) {
        const said = objection(relative(ROOT, file), relative(ROOT, resolve(dirname(file), target ?? '')));
        if (said) wrong.push(said);
      }
    }
    expect(wrong).toEqual([]);
  });

  it('bring every browser test its guard', () => {
    const bare = filesIn(join(ROOT, 'tests/browser')).filter(
      (file) =>
        !file.endsWith('/guard.ts') &&
        /import (?!type)[^;]*\b(test|chromium)\b[^;]*from '@playwright\/test'/.test(readFileSync(file, 'utf8')) &&
        // A browser of its own is watched by hand.
        !/import [^;]*\bwatch\b[^;]*from '.\/guard.ts'/.test(readFileSync(file, 'utf8')),
    );
    expect(bare).toEqual([]);
  });

  it('are seen when broken', () => {
    expect(objection('engine/physics/ampacity.ts', 'engine/checks/index.ts')).toContain('upwards');
    expect(objection('engine/physics/ampacity.ts', 'engine/lineup/cable.ts')).toContain('numbers');
    expect(objection('engine/lineup/cable.ts', 'editor/App.tsx')).toContain('editor');
    expect(objection('editor/App.tsx', 'engine/checks/index.ts')).toContain('door');
  });
});
