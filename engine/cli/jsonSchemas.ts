import { lineUpSchema } from '../index.ts';
import { z } from '../lineup/zod.ts';
import { report } from './reportSchema.ts';

/** The published JSON Schemas, by file name: made from the very schemas that read the document and describe the report. */
export function jsonSchemas(): Readonly<Record<string, string>> {
  const text = (title: string, schema: z.ZodMiniType): string =>
    `${JSON.stringify({ title, ...z.toJSONSchema(schema, { io: 'input' }) }, null, 2)}\n`;
  return {
    'line-up.schema.json': text('Copperline line-up, version 1', lineUpSchema),
    'review.schema.json': text('Copperline review, as check --json prints it', report),
  };
}
