import { z } from './zod.ts';

/** Shapes shared by the parts of the document. All quantities are SI, with the unit at the end of the field's name. */

/** What is nearer to nothing is a slip, and would not stay finite where it is divided by. Far below any capacitance in farad. */
const LEAST = 1e-15;
export const finite = z
  .number()
  .check(z.refine((value) => value === 0 || Math.abs(value) >= LEAST, 'so near to nothing is no quantity: is a power of ten lost?'));
/** Above nothing and below this. One limit on each side: of several the first is told. */
export const below = (most: number) => finite.check(z.gt(0), z.lt(most));
export const positive = below(1e12);
export const notNegative = finite.check(z.gte(0), z.lt(1e12));
/** Of a line that waves run on: beyond these it is no cable. */
export const lineImpedance = finite.check(z.gte(2), z.lte(1000));
export const waveVelocity = finite.check(z.gte(5e7), z.lte(2.99792458e8));
export const lineCapacitance = finite.check(z.gte(1e-12), z.lte(1e-8));
export const percent = finite.check(z.gte(0), z.lte(1000));
/** Of a whole: a power factor, an efficiency. */
export const fraction = finite.check(z.gt(0), z.lte(1));
export const percentOfWhole = finite.check(z.gt(0), z.lte(100));
export const celsius = finite.check(z.gte(-90), z.lte(400));
export const yesNo = z.boolean();
export const text = z.string().check(z.maxLength(10_000));
/** A table by id would find what every object has from birth under these. */
const KEPT_WORDS = ['prototype', ...Object.getOwnPropertyNames(Object.prototype)];
export const id = z.string().check(
  z.regex(/^[A-Za-z0-9_-]{1,64}$/, 'an id is 1 to 64 letters, digits, - or _'),
  z.refine((value) => !KEPT_WORDS.includes(value), 'this word cannot be an id: add a digit to it'),
);

/** How a value came to be: what was typed, and on whose word. The key is the field's name, dotted for a nested field. */
export const provenance = z.record(
  z.string().check(z.maxLength(120)),
  z.looseObject({
    typed: z.optional(text),
    origin: z.optional(z.enum(['entered', 'assumed', 'measured', 'manual', 'nameplate'])),
    page: z.optional(text),
  }),
);

/** A box the shield must pass: what it is made of and whether a bar joins the shields in it. Missing means not known. */
export const boxFields = {
  box: z.optional(z.enum(['metal', 'plastic'])),
  /** A bar or plate with clamps that joins the two shields inside the box. */
  bondBar: z.optional(yesNo),
};

/** What the terminals take. Missing means not known. */
export const terminalFields = {
  terminalMetal: z.optional(z.enum(['copper-only', 'copper-aluminium'])),
  /** Temperature the terminals are marked for: 60, 75 or 90 °C. */
  terminalTemperature_C: z.optional(celsius),
  terminalSmallest: z.optional(text),
  terminalLargest: z.optional(text),
  terminalsPerPhase: z.optional(positive),
};
