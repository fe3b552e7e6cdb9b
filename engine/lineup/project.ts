import { designations } from './designation.ts';
import { percent, positive, text, yesNo } from './quantity.ts';
import { z } from './zod.ts';

/** What holds for the whole line-up: basis, units, title block, limits the user sets, checks switched off. */

export const basis = z.enum(['us', 'iec']);
export type Basis = z.infer<typeof basis>;

export const sheetSize = z.enum(['A4', 'A3', 'A2', 'A1', 'A0', 'ANSI-A', 'ANSI-B', 'ANSI-C', 'ANSI-D', 'ANSI-E']);
export type SheetSize = z.infer<typeof sheetSize>;

export const project = z.looseObject({
  title: text,
  site: z.optional(text),
  owner: z.optional(text),
  number: z.optional(text),
  revision: z.optional(text),
  date: z.optional(text),
  createdBy: z.optional(text),
  checkedBy: z.optional(text),
  approvedBy: z.optional(text),
  status: z.optional(text),
  basis,
  edition: z.optional(text),
  units: z.enum(['us', 'metric']),
  symbols: z.optional(z.enum(['us', 'iec'])),
  /** In whose words sentences are said; those of the basis where it is not given. */
  vocabulary: z.optional(z.enum(['us', 'iec'])),
  sheetSize: z.optional(sheetSize),
  /** The protective conductor is drawn beside its cable. */
  showGrounds: z.optional(yesNo),
  /** How parts are named. */
  designations: z.optional(designations),
  /** Emission category the contract asks for (IEC 61800-3). */
  emcCategory: z.optional(z.enum(['none', 'C1', 'C2', 'C3', 'C4'])),
  /** Above sea level: thin air breaks down sooner. */
  altitude_m: z.optional(z.number().check(z.gte(-500), z.lte(6000))),
  /** Temperature at which conductors' resistance is taken: as the table prints it, or as the load makes it. */
  conductorTemperature: z.optional(z.enum(['rated', 'by-load'])),
  /** Motors that run without a drive feed into a fault. */
  motorContribution: z.optional(yesNo),
  /** Count the feeder's own impedance as a line reactor. */
  creditFeeder: z.optional(yesNo),
  /** Limits of the project, stricter than or instead of the usual ones. */
  limits: z.looseObject({
    feederDrop_pct: z.optional(percent),
    leadDrop_pct: z.optional(percent),
    motorPeak_V: z.optional(positive),
  }),
  /** By slug. A check that is switched off is printed as such, with the reason. */
  checks: z.record(z.string().check(z.maxLength(64)), z.looseObject({ off: yesNo, reason: z.optional(text) })),
});
export type Project = z.infer<typeof project>;
