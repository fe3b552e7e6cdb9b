import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { load, review, save } from '../../../engine/index.ts';
import { VERSION } from '../../../engine/lineup/lineUp.ts';
import { MIGRATIONS, migrate } from '../../../engine/lineup/migrations/index.ts';

/** One file of each version, with every field in it and fields unknown at every level: it opens for ever and comes out the same. */

const FOLDER = join(import.meta.dirname, 'golden');
const FILES = readdirSync(FOLDER).map((name) => [name, readFileSync(join(FOLDER, name), 'utf8')] as const);

describe('files of released versions', () => {
  it('there is one of every version', () => {
    expect(FILES.map(([name]) => name)).toEqual(Array.from({ length: VERSION }, (_, i) => `version-${i + 1}.json`));
  });

  it.each(FILES)('%s opens, is judged, and keeps every field, known or not', (name, text) => {
    const loaded = load(text, name);
    if (!loaded.ok) throw new Error(`${loaded.where}: ${loaded.what}`);
    expect(() => review(loaded.lineUp)).not.toThrow();
    const saved = save(loaded.lineUp);
    if (name === `version-${VERSION}.json`) expect(saved).toBe(text);
    const again = load(saved, name);
    expect(again.ok && save(again.lineUp)).toBe(saved);
    expect(saved.match(/unknownToThisVersion/g)?.length).toBe(text.match(/unknownToThisVersion/g)?.length);
  });
});

describe('migrations', () => {
  it('there is one step to each version after the first, in order', () => {
    expect(MIGRATIONS.map((step) => step.to)).toEqual(Array.from({ length: VERSION - 1 }, (_, i) => i + 2));
  });

  it('are walked from the version of the file, and say what changed', () => {
    const steps = [2, 3].map((to) => ({
      to,
      says: `to ${to}`,
      up: (document: Readonly<Record<string, unknown>>) => ({ ...document, [`at${to}`]: true }),
    }));
    expect(migrate({ version: 1, kept: 1 }, 1, steps)).toEqual({
      document: { version: 3, kept: 1, at2: true, at3: true },
      notes: ['to 2', 'to 3'],
    });
    expect(migrate({ version: 2 }, 2, steps)).toEqual({ document: { version: 3, at3: true }, notes: ['to 3'] });
    expect(migrate({ version: 3 }, 3, steps).notes).toEqual([]);
  });
});
