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
  site: text.optional(),
  owner: text.optional(),
  number: text.optional(),
  revision: text.optional(),
  date: text.optional(),
  createdBy: text.optional(),
  checkedBy: text.optional(),
  approvedBy: text.optional(),
  status: text.optional(),
  basis,
  edition: text.optional(),
  units: z.enum(['us', 'metric']),
  symbols: z.enum(['us', 'iec']).optional(),
  /** In whose words sentences are said; those of the basis where it is not given. */
  vocabulary: z.enum(['us', 'iec']).optional(),
  sheetSize: sheetSize.optional(),
  /** The protective conductor is drawn beside its cable. */
  showGrounds: yesNo.optional(),
  /** How parts are named. */
  designations: designations.optional(),
  /** Emission category the contract asks for (IEC 61800-3). */
  emcCategory: z.enum(['none', 'C1', 'C2', 'C3', 'C4']).optional(),
  /** Above sea level: thin air breaks down sooner. */
  altitude_m: z.number().min(-500).max(6000).optional(),
  /** Temperature at which conductors' resistance is taken: as the table prints it, or as the load makes it. */
  conductorTemperature: z.enum(['rated', 'by-load']).optional(),
  /** Motors that run without a drive feed into a fault. */
  motorContribution: yesNo.optional(),
  /** Count the feeder's own impedance as a line reactor. */
  creditFeeder: yesNo.optional(),
  /** Limits of the project, stricter than or instead of the usual ones. */
  limits: z.looseObject({
    feederDrop_pct: percent.optional(),
    leadDrop_pct: percent.optional(),
    motorPeak_V: positive.optional(),
  }),
  /** By slug. A check that is switched off is printed as such, with the reason. */
  checks: z.record(z.string().max(64), z.looseObject({ off: yesNo, reason: text.optional() })),
});
export type Project = z.infer<typeof project>;
