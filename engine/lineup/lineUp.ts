import { z } from 'zod';
import { cable } from './cable.ts';
import { element } from './elements.ts';
import { project } from './project.ts';
import { id } from './quantity.ts';

/** The document, version 1: plain JSON, SI inside, nothing derived. Where parts stand on the sheet is kept apart, so that moving one judges nothing anew. */

export const FORMAT = 'copperline';
export const VERSION = 1;

export const lineUp = z.looseObject({
  format: z.literal(FORMAT),
  version: z.literal(VERSION),
  project,
  elements: z.array(element).max(5000),
  cables: z.array(cable).max(5000),
  /** Where each element's symbol stands, by id, in millimetres on the sheet (its top port, y down). */
  positions: z.record(id, z.looseObject({ x_mm: z.number().min(-1e5).max(1e5), y_mm: z.number().min(-1e5).max(1e5) })),
});
export type LineUp = z.infer<typeof lineUp>;
