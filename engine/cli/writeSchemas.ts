import { mkdirSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { jsonSchemas } from './jsonSchemas.ts';

/** Writes public/schema afresh: run it after a change of the document or of the report. */
const folder = fileURLToPath(new URL('../../public/schema/', import.meta.url));
mkdirSync(folder, { recursive: true });
for (const [name, text] of Object.entries(jsonSchemas())) writeFileSync(`${folder}${name}`, text);
