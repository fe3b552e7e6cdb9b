import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { jsonSchemas } from '../../engine/cli/jsonSchemas.ts';

it('the published schemas are those of the code', () => {
  for (const [name, text] of Object.entries(jsonSchemas()))
    expect(readFileSync(join(import.meta.dirname, '../../public/schema', name), 'utf8')).toBe(text);
});
