import { cable } from './cable.ts';
import { element } from './elements.ts';
import { project } from './project.ts';
import { id, text } from './quantity.ts';
import { z } from './zod.ts';

/** The document, version 1: plain JSON, SI inside, nothing derived. Where parts stand on the sheet is kept apart, so that moving one judges nothing anew. */

export const FORMAT = 'copperline';
export const VERSION = 1;

const designed = {
  project,
  elements: z.array(element).check(z.maxLength(5000)),
  cables: z.array(cable).check(z.maxLength(5000)),
  /** Where each element's symbol stands, by id, in millimetres on the sheet (its top port, y down). */
  positions: z.record(
    id,
    z.looseObject({ x_mm: z.number().check(z.gte(-1e5), z.lte(1e5)), y_mm: z.number().check(z.gte(-1e5), z.lte(1e5)) }),
  ),
  /** How far a label was moved from where it would stand, by id of its part, in millimetres. */
  labels: z.optional(
    z.record(id, z.looseObject({ dx_mm: z.number().check(z.gte(-1e4), z.lte(1e4)), dy_mm: z.number().check(z.gte(-1e4), z.lte(1e4)) })),
  ),
  /** Notes on the drawing, numbered as they stand: general ones, and keynotes that point to parts. */
  notes: z.optional(
    z.array(z.looseObject({ id, says: text, parts: z.optional(z.array(id).check(z.maxLength(200))) })).check(z.maxLength(500)),
  ),
};

/** All that is drawn and judged: what an issue freezes and a variant holds aside. */
export const design = z.looseObject(designed);
export type Design = z.infer<typeof design>;

export const lineUp = z.looseObject({
  format: z.literal(FORMAT),
  /** Of the program that wrote it. Higher than ours only where a newer program says that this one may read its files. */
  version: z.int().check(z.gte(1)),
  /** The lowest version that may change it without harm; where nothing is said, the version that wrote it. */
  minReader: z.optional(z.int().check(z.gte(1))),
  ...designed,
  /** Other ways to build it, held aside to be compared. */
  variants: z.optional(z.array(z.looseObject({ id, name: text, design })).check(z.maxLength(20))),
  /** As they left the house, the latest last. */
  issues: z.optional(
    z
      .array(
        z.looseObject({
          id,
          revision: text,
          date: text,
          says: z.optional(text),
          by: z.optional(text),
          checkedBy: z.optional(text),
          design,
        }),
      )
      .check(z.maxLength(100)),
  ),
  /** What the reviewer wrote, and what was answered. */
  comments: z.optional(
    z
      .array(
        z.looseObject({
          id,
          number: text,
          sheet: z.optional(text),
          says: text,
          from: z.optional(text),
          reply: z.optional(text),
          /** Id of the issue that it was written on. */
          issue: z.optional(id),
          /** Ids of the parts that the answer changed. */
          parts: z.optional(z.array(id).check(z.maxLength(200))),
          closed: z.optional(text),
        }),
      )
      .check(z.maxLength(2000)),
  ),
});
export type LineUp = z.infer<typeof lineUp>;

/** Only a newer program may change it: here it is looked at and handed on as it is. */
export const isTooNew = ({ version, minReader }: Pick<LineUp, 'version' | 'minReader'>): boolean => (minReader ?? version) > VERSION;
