import { z } from './zod.ts';

/** Shapes shared by the parts of the document. All quantities are SI, with the unit at the end of the field's name. */

/** What is nearer to nothing is a slip, and would not stay finite where it is divided by. Far below any capacitance in farad. */
const LEAST = 1e-15;
const finite = z
  .number()
  .refine((value) => value === 0 || Math.abs(value) >= LEAST, 'so near to nothing is no quantity: is a power of ten lost?');
export const positive = finite.gt(0).lt(1e12);
export const notNegative = finite.min(0).lt(1e12);
/** Of a line that waves run on: beyond these it is no cable. */
export const lineImpedance = finite.min(2).max(1000);
export const waveVelocity = finite.min(5e7).max(2.99792458e8);
export const lineCapacitance = finite.min(1e-12).max(1e-8);
export const percent = finite.min(0).max(1000);
/** Of a whole: a power factor, an efficiency. */
export const fraction = finite.gt(0).max(1);
export const percentOfWhole = finite.gt(0).max(100);
export const celsius = finite.min(-90).max(400);
export const yesNo = z.boolean();
export const text = z.string().max(10_000);
/** A table by id would find what every object has from birth under these. */
const KEPT_WORDS = ['prototype', ...Object.getOwnPropertyNames(Object.prototype)];
export const id = z
  .string()
  .regex(/^[A-Za-z0-9_-]{1,64}$/, 'an id is 1 to 64 letters, digits, - or _')
  .refine((value) => !KEPT_WORDS.includes(value), 'this word cannot be an id: add a digit to it');

/** How a value came to be: what was typed, and on whose word. The key is the field's name, dotted for a nested field. */
export const provenance = z.record(
  z.string().max(120),
  z.looseObject({
    typed: text.optional(),
    origin: z.enum(['entered', 'assumed', 'measured', 'manual', 'nameplate']).optional(),
    page: text.optional(),
  }),
);

/** A box the shield must pass: what it is made of and whether a bar joins the shields in it. Missing means not known. */
export const boxFields = {
  box: z.enum(['metal', 'plastic']).optional(),
  /** A bar or plate with clamps that joins the two shields inside the box. */
  bondBar: yesNo.optional(),
};

/** What the terminals take. Missing means not known. */
export const terminalFields = {
  terminalMetal: z.enum(['copper-only', 'copper-aluminium']).optional(),
  /** Temperature the terminals are marked for: 60, 75 or 90 °C. */
  terminalTemperature_C: celsius.optional(),
  terminalSmallest: text.optional(),
  terminalLargest: text.optional(),
  terminalsPerPhase: positive.optional(),
};
