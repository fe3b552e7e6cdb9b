import type { ElementKind, Port } from '../lineup/elements.ts';

/** What a check says of one subject. */

/** From worst to best. */
export const VERDICTS = ['fail', 'open', 'caution', 'note', 'pass', 'not-applicable', 'out-of-scope'] as const;
export type Verdict = (typeof VERDICTS)[number];

/** On whose word the limit stands. */
export const AUTHORITIES = ['code', 'manual', 'standard', 'guide', 'practice', 'estimate', 'project', 'physics'] as const;
export type Authority = (typeof AUTHORITIES)[number];

export interface Subject {
  readonly kind: 'element' | 'cable' | 'end' | 'run' | 'lineup';
  /** Id of the element, cable, or of the motor of a run; '' for the line-up. */
  readonly id: string;
  readonly tag: string;
  /** With kind 'end'. */
  readonly end?: 'from' | 'to';
}

export interface Assumption {
  readonly what: string;
  readonly value: string;
  readonly source: string;
}

export const ORIGINS = ['entered', 'measured', 'manual', 'nameplate', 'looked up', 'assumed', 'computed'] as const;

/** One value that a number was made from. */
export interface Input {
  readonly what: string;
  readonly value: string;
  readonly origin: (typeof ORIGINS)[number];
  /** Table cell, page or clause; '' for a value of the document. */
  readonly source: string;
}

/** The cases every line-up is solved in; a verdict that hangs on one says which. */
export const CASES = ['rated', 'low line', 'high line', 'overload', 'bypass'] as const;
export type CaseName = (typeof CASES)[number];

/** How well a solved value is known while its inputs are: within 10 %, within 20 %, within a factor of two, no better than an order of magnitude. */
export const CONFIDENCES = ['good', 'fair', 'rough', 'order of magnitude'] as const;
export type Confidence = (typeof CONFIDENCES)[number];

/** Between what the value lies, for one that is not exact. */
export interface Band {
  readonly low: number;
  readonly high: number;
  readonly confidence: Confidence;
}

export interface Missing {
  /** Id of the element or cable that lacks it; '' for the project. */
  readonly id: string;
  readonly tag: string;
  /** Dotted path of the field inside that part: 'conductor.size'. */
  readonly field: string;
  readonly label: string;
  /** With its part, to be read aloud. */
  readonly named: string;
  /** Who usually knows it. */
  readonly ask: string;
}

/** One value of the document: of the element or cable with this id, at this dotted path. Null takes it out: it is not known any more. */
export interface FixEdit {
  readonly id: string;
  readonly path: string;
  /** A list is of ids. */
  readonly value: string | number | boolean | null | readonly string[];
}

/** A new part put into a cable at one end, joined by a link to what the cable was landed on. It gets its id and tag when it is put in. */
export interface FixInsert {
  readonly kind: ElementKind;
  readonly values: Readonly<Record<string, string | number | boolean>>;
  readonly cable: string;
  readonly end: 'from' | 'to';
  /** The side of the new part on which the cable then lands: 'load' at the drive, 'line' at the motor. */
  readonly port: Port;
  /** Joined by a short piece of the same cable instead, with these values in place of its own. */
  readonly tail?: Readonly<Record<string, string | number | null>>;
}

/** A part taken out of its line, whose two cables become one, and joined by a link to this side of another. */
export interface FixMove {
  readonly id: string;
  readonly beside: string;
  readonly port: Port;
  /** Paths of values that hold only of the place where it was. */
  readonly asks: readonly string[];
}

/** A change of the document that would change this finding. Plain data, so that a finding can go from thread to thread. */
export interface Fix {
  readonly label: string;
  readonly edits: readonly FixEdit[];
  readonly inserts?: readonly FixInsert[];
  /** Ids of parts in a line: what led to them and on from them becomes one cable. */
  readonly takesOut?: readonly string[];
  /** Ids of parts that go with the cables that land on them. */
  readonly removes?: readonly string[];
  readonly moves?: readonly FixMove[];
}

/** How a remedy begins that is to make the conductor larger. */
export const SIZE_UP = 'Next conductor size up';

export interface Finding {
  /** Stable: check, subject kind, id and end. */
  readonly id: string;
  readonly check: string;
  readonly title: string;
  readonly subject: Subject;
  /** Tags of the motors whose runs this concerns. */
  readonly runs: readonly string[];
  readonly verdict: Verdict;
  readonly authority: Authority;
  readonly source: string;
  readonly quantity: string;
  readonly value: number | null;
  readonly limit: number | null;
  readonly unit: string;
  /** For a value that is solved from what is not known exactly; null for all others. */
  readonly band: Band | null;
  /** Room left, of the limit, in per cent: negative when over. */
  readonly margin_pct: number | null;
  /** At most five words, for the drawing. */
  readonly phrase: string;
  /** One sentence with the numbers in it. */
  readonly text: string;
  /** Why it matters here. */
  readonly why: string;
  /** What to do, cheapest first. */
  readonly remedies: readonly string[];
  /** The case in which it is worst, where cases differ. */
  readonly case: CaseName | null;
  /** What the working starts from. */
  readonly inputs: readonly Input[];
  /** Formula, steps and result, with units, unrounded enough to be worked again by hand. */
  readonly working: readonly string[];
  readonly assumptions: readonly Assumption[];
  readonly missing: readonly Missing[];
  readonly fixes: readonly Fix[];
}

/** Fault > open > caution > note > pass: the worst of several, or 'not-applicable' for none. */
export function worst(verdicts: readonly Verdict[]): Verdict {
  for (const verdict of VERDICTS) if (verdicts.includes(verdict)) return verdict;
  return 'not-applicable';
}
