import type { Cable } from '../lineup/cable.ts';
import type { Earthing, Element, ElementOf } from '../lineup/elements.ts';
import { choiceText, type Field, fieldOf, inSentence, namedOf, valueAt } from '../lineup/fields.ts';
import { describedAs, isCable } from '../lineup/isCable.ts';
import type { Basis, Project } from '../lineup/project.ts';
import { asTyped, formatQuantity } from '../lineup/units.ts';
import type { TopologyFault } from '../network/network.ts';
import type { Assumption, Authority, Finding, Input, Missing, Subject, Verdict } from './finding.ts';
import type { ShieldPath } from './shieldPath.ts';
import type { StepResult } from './solveZone.ts';
import type { WaveTree } from './waveTree.ts';

/** What a check is, and the words it answers in. */

export interface CheckFacts {
  readonly slug: string;
  readonly title: string;
  readonly authority: Authority;
  readonly source: string;
  /** What is asked, in a sentence. */
  readonly rule: string;
  /** The phenomenon, in a paragraph. */
  readonly why: string;
}

interface Common {
  readonly project: Project;
  readonly basis: Basis;
}

/** One cable that is fed, with what is at its two ends. */
export interface CableScope extends Common {
  readonly cable: Cable;
  readonly side: 'input' | 'output';
  readonly fromElement: Element;
  readonly toElement: Element;
  /** All cables on the same terminals at each end, this one included. */
  readonly landedFrom: readonly Cable[];
  readonly landedTo: readonly Cable[];
  readonly flow: StepResult;
  /** Drives for which it is the last length of cable ahead, and what arrives at each. */
  readonly arrivesAt: readonly ElementOf<'drive'>[];
  readonly arrivals: readonly StepResult[];
  /** What those results hang on: the parts and cables on the way to those drives, and all that draws current there. */
  readonly arrivalParts: readonly (Element | Cable)[];
  /** Parts and cables from here back to the supply, itself included (input side). */
  readonly ahead: readonly (Element | Cable)[];
  /** Per cent of nominal that each cable with a length loses from the supply to this one, nearest first (input side). */
  readonly lostAhead_pct: readonly (number | null)[];
  /** Parts and cables between it and its loads whose impedance is not known (input side). */
  readonly unmadeBehind: readonly (Element | Cable)[];
  /** What draws a current in the zone that is not known. */
  readonly undrawn: readonly Element[];
  /** Drives and motors fed through it, and what is drawn here for each ampere that they draw: not one where a transformer stands between. */
  readonly drives: readonly ElementOf<'drive'>[];
  readonly motors: readonly ElementOf<'motor'>[];
  readonly drivesSeen: readonly number[];
  readonly motorsSeen: readonly number[];
  /** The transformers between here and all of these, those of a way around too. */
  readonly between: readonly ElementOf<'transformer'>[];
  /** Those of them with no drive between (input side). */
  readonly direct: readonly ElementOf<'motor'>[];
  /** The drive that feeds it (output side). */
  readonly drive: ElementOf<'drive'> | null;
  /** Nominal voltage: on the output side that of the drive's supply, or of a transformer between. */
  readonly nominal_V: number | null;
  /** The part that makes that voltage: the nearest transformer ahead, or the supply. */
  readonly voltageFrom: Element;
  /** What its zone begins with: the supply, or a drive. */
  readonly source: Element;
  /** The zone holds an EMC filter ahead of it (input side). */
  readonly filterAhead: boolean;
  /** The overcurrent device ahead, on this side of the nearest transformer. */
  readonly guard: ElementOf<'disconnect'> | null;
  /** The nearest disconnect there that may be one: breaker, fuse or switch is not said. */
  readonly unsorted: ElementOf<'disconnect'> | null;
  /** Motors that a closed bypass would feed through it. */
  readonly bypassed: readonly ElementOf<'motor'>[];
  readonly bypassedSeen: readonly number[];
  /** Ids of the drives that they hang on otherwise, in the same order. */
  readonly bypassedDrives: readonly (string | null)[];
  /** Other cables in the same raceway, and what feeds each: 'input' for the supply, the id of a drive, or 'unfed'. */
  readonly together: readonly Cable[];
  readonly togetherFed: readonly string[];
}

export interface ElementScope extends Common {
  readonly element: Element;
  readonly side: 'input' | 'output';
  readonly flow: StepResult;
  /** It is the supply itself. */
  readonly atSource: boolean;
  readonly drives: readonly ElementOf<'drive'>[];
  readonly motors: readonly ElementOf<'motor'>[];
  /** What is drawn here for each ampere that they draw, and the transformers between. */
  readonly drivesSeen: readonly number[];
  readonly motorsSeen: readonly number[];
  readonly between: readonly ElementOf<'transformer'>[];
  /** Those of them with no drive between (input side). */
  readonly direct: readonly ElementOf<'motor'>[];
  /** The drive that feeds it (output side). */
  readonly drive: ElementOf<'drive'> | null;
  readonly nominal_V: number | null;
  /** The part that makes that voltage: the nearest transformer ahead, or the supply. */
  readonly voltageFrom: Element;
  /** Between the drive and it (output side), nearest to the drive first. */
  readonly seriesBoxes: readonly Element[];
  /** Parts and cables from here back to the source of its zone, itself included. */
  readonly ahead: readonly (Element | Cable)[];
  /** Motors that a closed bypass would feed through it. */
  readonly bypassed: readonly ElementOf<'motor'>[];
  readonly bypassedSeen: readonly number[];
  /** Ids of the drives that they hang on otherwise, in the same order. */
  readonly bypassedDrives: readonly (string | null)[];
  /** Of a bypass contactor the cables of its own leg, and the parts on the way to those motors. */
  readonly bypassLeg: readonly Cable[];
  readonly bypassParts: readonly Element[];
}

export interface DriveScope extends Common {
  readonly drive: ElementOf<'drive'>;
  readonly feed: StepResult;
  readonly earthing: Earthing | undefined;
  readonly earthingPart: Element;
  readonly filters: readonly ElementOf<'filter'>[];
  readonly motors: readonly ElementOf<'motor'>[];
  /** What it delivers for each ampere that they draw, and the transformers behind it. */
  readonly motorsSeen: readonly number[];
  readonly between: readonly ElementOf<'transformer'>[];
  /** The nearest transformer ahead. */
  readonly transformer: ElementOf<'transformer'> | null;
  readonly supply: ElementOf<'supply'> | null;
  /** Those behind that transformer. */
  readonly reactors: readonly ElementOf<'reactor'>[];
  /** Results of the steps from the drive's input back to the supply. */
  readonly ahead: readonly StepResult[];
}

/** One run behind a drive. */
export interface RunScope extends Common {
  readonly drive: ElementOf<'drive'>;
  readonly motor: ElementOf<'motor'>;
  /** From drive to motor. */
  readonly cables: readonly Cable[];
  readonly boxes: readonly Element[];
  /** From the supply to the motor, ahead of the drive and behind it. */
  readonly disconnects: readonly ElementOf<'disconnect'>[];
  readonly start: StepResult;
  readonly terminal: StepResult;
  /** Nominal voltage at the drive's input. */
  readonly nominal_V: number | null;
  /** The part that makes that voltage: the nearest transformer ahead, or the supply. */
  readonly voltageFrom: Element;
  readonly inputKnown: boolean;
  /** Parts and cables from the drive’s input back to the supply. */
  readonly ahead: readonly (Element | Cable)[];
  /** Per cent of nominal that each cable with a length loses there, nearest first. */
  readonly lostAhead_pct: readonly (number | null)[];
  /** What draws a current there that is not known. */
  readonly undrawnAhead: readonly Element[];
  /** All motors on the drive, this one included. */
  readonly driven: readonly ElementOf<'motor'>[];
  readonly shield: ShieldPath;
  /** All that hangs on the drive, as waves run through it. */
  readonly tree: WaveTree;
  readonly assumptions: readonly Assumption[];
}

/** Everything behind one drive. */
export interface OutputScope extends Common {
  readonly drive: ElementOf<'drive'>;
  readonly cables: readonly Cable[];
  /** Parts behind it, motors too, nearest first. */
  readonly parts: readonly Element[];
  readonly motors: readonly ElementOf<'motor'>[];
  /** What it delivers for each ampere that they draw, and the transformers between. */
  readonly motorsSeen: readonly number[];
  readonly between: readonly ElementOf<'transformer'>[];
  readonly tree: WaveTree;
  /** Nominal voltage at the drive's input. */
  readonly nominal_V: number | null;
  /** The part that makes that voltage: the nearest transformer ahead, or the supply. */
  readonly voltageFrom: Element;
}

export type FaultScope = TopologyFault;

export type Check =
  | (CheckFacts & { readonly scope: 'cable'; readonly judge: (scope: CableScope) => readonly Finding[] })
  | (CheckFacts & { readonly scope: 'element'; readonly judge: (scope: ElementScope) => readonly Finding[] })
  | (CheckFacts & { readonly scope: 'drive'; readonly judge: (scope: DriveScope) => readonly Finding[] })
  | (CheckFacts & { readonly scope: 'output'; readonly judge: (scope: OutputScope) => readonly Finding[] })
  | (CheckFacts & { readonly scope: 'run'; readonly judge: (scope: RunScope) => readonly Finding[] })
  | (CheckFacts & { readonly scope: 'fault'; readonly judge: (scope: FaultScope) => readonly Finding[] });

/** What is said of a part again and again, by check after check: made once for as long as the part is the same object. */
interface Told {
  readonly subject: Subject;
  readonly lacks: Map<string, Missing>;
  /** Null where the value is not there. */
  readonly given: Map<string, Input | null>;
}
const TOLD = new WeakMap<Element | Cable, Told>();

function toldOf(part: Element | Cable): Told {
  const held = TOLD.get(part);
  if (held) return held;
  const subject: Subject = { kind: isCable(part) ? 'cable' : 'element', id: part.id, tag: part.tag };
  const fresh: Told = { subject, lacks: new Map(), given: new Map() };
  TOLD.set(part, fresh);
  return fresh;
}

export const cableSubject = (cable: Cable): Subject => toldOf(cable).subject;
export const endSubject = (cable: Cable, end: 'from' | 'to'): Subject => ({ kind: 'end', id: cable.id, tag: cable.tag, end });
export const elementSubject = (element: Element): Subject => toldOf(element).subject;

/** What a check says of itself; the rest of a finding is that of the check and its subject. */
type Said = Pick<Finding, 'verdict' | 'phrase' | 'text'> & Partial<Omit<Finding, 'check' | 'subject' | 'runs'>>;

/** One empty list for all that is not said: a large site has a hundred thousand of them. */
const NONE: readonly never[] = [];

/** A finding with everything that is not said filled in as 'none'. */
export function finding(check: CheckFacts, subject: Subject, runs: readonly string[], said: Said): Finding {
  // Each field by its name: all findings are of one shape then, and none is copied field by field from whatever was said.
  return {
    id: said.id ?? `${check.slug}/${subject.kind}${subject.id && `/${subject.id}`}${subject.end ? `/${subject.end}` : ''}`,
    check: check.slug,
    title: said.title ?? check.title,
    subject,
    runs,
    verdict: said.verdict,
    authority: said.authority ?? check.authority,
    source: said.source ?? check.source,
    quantity: said.quantity ?? check.title,
    value: said.value ?? null,
    limit: said.limit ?? null,
    unit: said.unit ?? '',
    band: said.band ?? null,
    margin_pct: said.margin_pct ?? null,
    phrase: said.phrase,
    text: said.text,
    why: said.why ?? check.why,
    remedies: said.remedies ?? NONE,
    case: said.case ?? null,
    inputs: said.inputs ?? NONE,
    working: said.working ?? NONE,
    assumptions: said.assumptions ?? NONE,
    missing: said.missing ?? NONE,
    fixes: said.fixes ?? NONE,
  };
}

/** The one comparison: over a limit only beyond rounding noise, below zero too. */
export const exceeds = (value: number, limit: number): boolean => value > limit + Math.abs(limit) * 1e-9 + 1e-12;

/** Room to an upper limit, or over a lower one, in per cent of the limit. */
export const marginBelow = (value: number, limit: number): number | null => (limit === 0 ? null : (100 * (limit - value)) / limit);
export const marginAbove = (value: number, limit: number): number | null => (limit === 0 ? null : (100 * (value - limit)) / limit);

/** Values that are lists, and so no field to be typed into: what they are called, who knows them, and how they are said. */
const LISTS: Readonly<Record<string, Pick<Field, 'label' | 'named' | 'ask'> & { readonly said: (list: readonly unknown[]) => string }>> = {
  'installation.sharedWith': {
    label: 'Cables in the same raceway',
    named: 'Cables in the raceway of |',
    ask: 'installer',
    said: (list) => (list.length === 0 ? 'none' : `${list.length} ${list.length === 1 ? 'other' : 'others'}`),
  },
  'manual.allowedEarthing': {
    label: 'Grounding the manual allows',
    named: 'Grounding the manual of | allows',
    ask: 'drive supplier',
    said: (list) => list.map((each) => choiceText(String(each))).join(', '),
  },
};

/** Names something of a part that is not known, with who usually knows it. */
export const unknownOf = (
  { id, tag }: Pick<Missing, 'id' | 'tag'>,
  path: string,
  { label, named, ask }: Pick<Field, 'label' | 'named' | 'ask'>,
): Missing => ({ id, tag, field: path, label, named: namedOf({ label, named }, tag), ask });

/** The same of one of its fields. */
export function lacks(part: Element | Cable, path: string): Missing {
  const told = toldOf(part).lacks;
  const held = told.get(path);
  if (held) return held;
  const fresh = unknownOf(part, path, fieldOf(describedAs(part), path) ?? LISTS[path] ?? { label: path, ask: 'specification' });
  told.set(path, fresh);
  return fresh;
}

/** Values of a part as inputs of a working, with their origin; those that are missing are left out. */
export function given(part: Element | Cable, ...paths: readonly string[]): readonly Input[] {
  const told = toldOf(part).given;
  const found: Input[] = [];
  for (const path of paths) {
    let input = told.get(path);
    if (input === undefined) {
      input = inputOf(part, path);
      told.set(path, input);
    }
    if (input) found.push(input);
  }
  return found;
}

function inputOf(part: Element | Cable, path: string): Input | null {
  const value = valueAt(part, path);
  if (value === undefined) return null;
  const field = fieldOf(describedAs(part), path);
  const measured = field?.quantity && (typeof value === 'number' || typeof value === 'string') ? ([value, field.quantity] as const) : null;
  const origin = part.provenance?.[path];
  const shown =
    typeof value === 'boolean'
      ? value
        ? 'yes'
        : 'no'
      : measured
        ? formatQuantity(...measured, 'metric')
        : Array.isArray(value)
          ? (LISTS[path]?.said(value) ?? value.join(', '))
          : field?.kind === 'choice'
            ? choiceText(String(value))
            : String(value);
  const typed = measured ? asTyped(origin?.typed, ...measured, 'metric') : shown;
  return {
    what: namedOf(field ?? LISTS[path] ?? { label: path }, part.tag),
    value: typed === shown ? shown : `${shown} (typed ${typed})`,
    origin: origin?.origin ?? 'entered',
    source: origin?.page ?? '',
  };
}

/** A length in the project's unit, for what people read; numbers and workings stay in metres. */
export const lengthSaid = (length_m: number, { units }: Project): string => formatQuantity(length_m, 'length', units);

/** Where a limit that was copied from a drive's manual stands, for the source of a finding: it overrides the screening rules. */
export const manualOf = (drive: ElementOf<'drive'>): string =>
  `the manual of ${drive.tag}${drive.manual?.page ? `, page ${drive.manual.page}` : ', page not given'}; it overrides the screening rules`;

/** A value that a table gave. */
export const lookedUp = (what: string, value: string, source: string): Input => ({ what, value, origin: 'looked up', source });

/** The field of a part that makes the nominal voltage behind it, where it makes one. */
const voltagePaths = ({ kind }: Element): readonly string[] =>
  kind === 'transformer' ? ['secondaryVoltage_V'] : kind === 'supply' ? ['voltage_V'] : [];
export const voltageGiven = (part: Element): readonly Input[] => given(part, ...voltagePaths(part));
export const voltageMissing = (part: Element): readonly Missing[] => missingOf(part, ...voltagePaths(part));

/** Those of the fields that are not there. */
export function missingOf(part: Element | Cable, ...paths: readonly string[]): readonly Missing[] {
  const found: Missing[] = [];
  for (const path of paths) if (valueAt(part, path) === undefined) found.push(lacks(part, path));
  return found;
}

/** As a sentence. */
export const notKnown = (missing: readonly Missing[]): string => `Not known: ${missing.map(({ named }) => inSentence(named)).join('; ')}.`;

/** The question for a label: 'length?', 'allowed in what?'. There are not many, and a large site asks them thousands of times. */
const ASKED = new Map<string, string>();
function askedFor(label: string): string {
  let asked = ASKED.get(label);
  if (asked === undefined) {
    asked = `${inSentence(label)
      .replace(/,.*/, '')
      .replace(/ (in|to|for|with|from)$/, '$& what')}?`;
    ASKED.set(label, asked);
  }
  return asked;
}

/** 'cannot be judged': what is missing, and who to ask. */
export function openFinding(
  check: CheckFacts,
  subject: Subject,
  runs: readonly string[],
  missing: readonly Missing[],
  more: Partial<Said> = {},
): Finding {
  return finding(check, subject, runs, {
    verdict: 'open',
    phrase: askedFor(missing[0]?.label ?? 'value'),
    text:
      missing.length > 0 ? `Cannot be judged yet. ${notKnown(missing)}` : 'Cannot be judged yet: what lies ahead of it cannot be made out.',
    remedies: missing.length > 0 ? [`Ask: ${[...new Set(missing.map((each) => each.ask))].join(', ')}.`] : [],
    missing,
    ...more,
  });
}

export const notApplicable = (check: CheckFacts, subject: Subject, runs: readonly string[], reason: string): Finding =>
  finding(check, subject, runs, { verdict: 'not-applicable', phrase: 'not applicable', text: reason });

export const tagsOf = (parts: readonly { readonly tag: string }[]): readonly string[] => parts.map((part) => part.tag);

export const verdictOver = (value: number, caution: number, note: number): Verdict =>
  exceeds(value, caution) ? 'caution' : exceeds(value, note) ? 'note' : 'pass';
