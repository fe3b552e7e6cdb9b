import { PORTS } from './elements.ts';
import { jsonFault } from './jsonFault.ts';
import { type Design, FORMAT, isTooNew, type LineUp, lineUp as schema, VERSION } from './lineUp.ts';
import { migrate } from './migrations/index.ts';
import { printable } from './printable.ts';
import { raceways } from './raceways.ts';
import { isMeant } from './range.ts';
import type { z } from './zod.ts';

/** Reads a file. Never throws; the caller's open document is untouched until this says ok. */

export type Loaded =
  | { readonly ok: true; readonly lineUp: LineUp; readonly notes: readonly string[] }
  | { readonly ok: false; readonly where: string; readonly what: string; readonly mend: string };

/** What is longer is not read. */
export const MOST_BYTES = 10 * 1024 * 1024;
const MOST_DEPTH = 64;
/** As many as one cable may name: each of them is judged beside all the others. */
const MOST_BESIDE = 1000;

const refuse = (where: string, what: string, mend: string): Loaded => ({ ok: false, where: sayable(where), what: sayable(what), mend });

/** The message may end on a terminal. */
const sayable = (text: string): string => printable(text).slice(0, 300);

export interface LoadOptions {
  /** A file that only a newer program may change is opened all the same, as far as it can be read: for who shows it and judges nothing by it. */
  readonly tooNew?: boolean;
}

export function load(content: string, file = 'the file', options: LoadOptions = {}): Loaded {
  const text = content.startsWith('\ufeff') ? content.slice(1) : content;
  if (text.length > MOST_BYTES)
    return refuse(
      file,
      `it holds ${(text.length / 1048576).toFixed(1)} MB, more than the 10 MB a line-up may hold`,
      'Open a file written by this program, or split the line-up.',
    );
  if (text.trim() === '') return refuse(file, 'it is empty', 'Open another file, or an earlier copy of this one.');
  const deep = tooDeepAt(text);
  if (deep !== null)
    return refuse(
      `${file}, ${placeIn(text, deep)}`,
      `brackets are nested more than ${MOST_DEPTH} deep`,
      'A line-up is never that deep: this is another kind of file, or it was damaged.',
    );
  let raw: unknown;
  try {
    raw = JSON.parse(text, (key, value) => (key === '__proto__' || key === 'constructor' || key === 'prototype' ? undefined : value));
  } catch {
    const begins = text.trimStart();
    if (!/^[{[]/.test(begins))
      return refuse(
        file,
        `it is no line-up: it begins with ${show(begins.slice(0, 20))}`,
        'Open a file that this program saved: its name ends in .json.',
      );
    const fault = jsonFault(text);
    const cut = fault === null || fault.at >= text.trimEnd().length;
    return refuse(
      `${file}, ${placeIn(text, fault?.at ?? text.length)}`,
      cut
        ? 'the text ends too early: the file was cut off'
        : `it is not JSON from here on: ${fault.expected} is expected, it says ${show(text.slice(fault.at, fault.at + 20))}`,
      cut ? 'Copy the file again, or open an earlier copy.' : 'Mend the text at this place, or open an earlier copy.',
    );
  }
  if (typeof raw !== 'object' || raw === null || Array.isArray(raw))
    return refuse(file, 'it does not hold a line-up', 'Open a file written by this program.');
  const { format, version, minReader } = raw as Record<string, unknown>;
  if (format !== FORMAT)
    return refuse(`${file}, format`, `it says ${show(format)} where a line-up says "${FORMAT}"`, 'This is another kind of file.');
  if (typeof version !== 'number' || !Number.isInteger(version) || version < 1)
    return refuse(
      `${file}, version`,
      `it says ${show(version)} where a whole number from 1 is expected`,
      'Open an earlier copy of the file.',
    );
  const newer = (): Loaded =>
    refuse(
      `${file}, version`,
      `it was written by a newer program (version ${version}; this one reads up to ${VERSION})`,
      'Open it with the newer program; nothing in it was changed.',
    );
  const huge = notFiniteIn(raw);
  if (huge)
    return refuse(
      `${file}, ${placeOf(raw, huge)}`,
      'it says a number too large to hold, which could not be saved again',
      'Correct the number at this place, or take it out.',
    );
  const tooNew = isTooNew({ version, minReader: typeof minReader === 'number' ? minReader : undefined });
  if (tooNew && !options.tooNew) return newer();
  const current = migrate(raw as Record<string, unknown>, version);
  const result = schema.safeParse(current.document);
  if (!result.success && tooNew) return newer();
  if (!result.success) {
    const issue = result.error.issues[0];
    if (!issue) return refuse(file, 'it does not fit the format', 'Open an earlier copy of the file.');
    return refuse(
      `${file}, ${placeOf(current.document, issue.path)}`,
      inWords(issue, current.document),
      'Correct the value at this place, or take it out: a value that is not there counts as not known.',
    );
  }
  const notes = version > VERSION || tooNew ? [...current.notes, tooNew ? ONLY_NEWER : NEWER] : current.notes;
  return checkAll(result.data, file) ?? { ok: true, lineUp: result.data, notes };
}

const NEWER = 'A newer program wrote this file. What this one does not know is neither shown nor judged, and stays in it.';
const ONLY_NEWER = 'A newer program wrote this file, and only that may change it. Its verdicts here may lack what that program knows.';

/** The line-up that is drawn and every one that is kept beside it. */
function checkAll(lineUp: LineUp, file: string): Loaded | null {
  const kept = [
    ...(lineUp.variants ?? []).map((each) => ({ design: each.design, place: `${file}, variant "${each.name}"` })),
    ...(lineUp.issues ?? []).map((each) => ({ design: each.design, place: `${file}, issue "${each.revision}"` })),
  ];
  for (const { design, place } of [{ design: lineUp, place: file }, ...kept]) {
    const refusal = checkReferences(design, place);
    if (refusal) return refusal;
  }
  return null;
}

function checkReferences(lineUp: Design, file: string): Loaded | null {
  const seen = new Map<string, string>();
  for (const part of [...lineUp.elements, ...lineUp.cables]) {
    const before = seen.get(part.id);
    if (before !== undefined)
      return refuse(`${file}, "${part.tag}"`, `its id "${part.id}" is also that of "${before}"`, 'Give one of the two an id of its own.');
    seen.set(part.id, part.tag);
  }
  const elements = new Map(lineUp.elements.map((element) => [element.id, element] as const));
  for (const cable of lineUp.cables) {
    for (const side of ['from', 'to'] as const) {
      const end = cable[side];
      if (end.element === undefined) continue;
      const element = elements.get(end.element);
      if (!element)
        return refuse(
          `${file}, cable "${cable.tag}", ${side}`,
          `it lands on "${end.element}", and no element has that id`,
          'Name an element of this file, or take the name out to leave the end free.',
        );
      if (end.port !== undefined && !PORTS[element.kind].includes(end.port))
        return refuse(
          `${file}, cable "${cable.tag}", ${side}`,
          `a ${element.kind} has no ${end.port} side`,
          `Land it on the ${PORTS[element.kind].join(' or ')} side.`,
        );
    }
  }
  for (const [first, ...others] of new Set(raceways(lineUp.cables).values()))
    if (first && others.length > MOST_BESIDE)
      return refuse(
        `${file}, cable "${first.tag}"`,
        `${others.length} others lie in its raceway; at most ${MOST_BESIDE} are expected`,
        'Take names out of sharedWith.',
      );
  return null;
}

/** Where a number reads as infinity, be it of a field that this version knows or not; null when none does. */
function notFiniteIn(value: unknown): readonly PropertyKey[] | null {
  if (typeof value === 'number') return Number.isFinite(value) ? null : [];
  if (typeof value !== 'object' || value === null) return null;
  for (const [key, inner] of Object.entries(value)) {
    const found = notFiniteIn(inner);
    if (found) return [Array.isArray(value) ? Number(key) : key, ...found];
  }
  return null;
}

/** Where the brackets first nest too deep, found without recursion and before anything is parsed; null when they do not. */
function tooDeepAt(text: string): number | null {
  let depth = 0;
  let inText = false;
  for (let i = 0; i < text.length; i++) {
    const c = text.charCodeAt(i);
    if (inText) {
      if (c === 92) i++;
      else if (c === 34) inText = false;
    } else if (c === 34) inText = true;
    else if (c === 91 || c === 123) {
      if (++depth > MOST_DEPTH) return i;
    } else if (c === 93 || c === 125) depth--;
  }
  return null;
}

/** 'line 3, column 14', both counted from 1. */
function placeIn(text: string, position: number): string {
  const before = text.slice(0, position).split('\n');
  return `line ${before.length}, column ${(before.at(-1) ?? '').length + 1}`;
}

function show(value: unknown): string {
  if (value === undefined) return 'nothing';
  return JSON.stringify(value).slice(0, 60);
}

const at = (document: unknown, path: readonly PropertyKey[]): unknown =>
  path.reduce<unknown>(
    (here, key) => (typeof here === 'object' && here !== null ? (here as Record<PropertyKey, unknown>)[key] : undefined),
    document,
  );

/** 'cables[2] "W-1", length_m' */
function placeOf(document: unknown, path: readonly PropertyKey[]): string {
  const words: string[] = [];
  path.forEach((key, i) => {
    if (typeof key === 'number' && words.length > 0) words[words.length - 1] += `[${key}]`;
    else words.push(String(key));
    const part = at(document, path.slice(0, i + 1));
    if (typeof key === 'number' && typeof part === 'object' && part !== null && 'tag' in part && typeof part.tag === 'string')
      words[words.length - 1] += ` "${part.tag}"`;
  });
  return words.join(', ') || 'the whole';
}

const KIND_WORDS: Readonly<Record<string, string>> = {
  number: 'a number',
  int: 'a whole number',
  string: 'a text',
  boolean: 'true or false',
  array: 'a list',
  object: 'a group of named values',
  record: 'a group of named values',
};

function inWords(issue: z.core.$ZodIssue, document: unknown): string {
  const found = show(at(document, issue.path));
  switch (issue.code) {
    case 'invalid_type':
      return `${KIND_WORDS[issue.expected] ?? issue.expected} is expected, it says ${found}`;
    case 'too_small':
      return `it says ${found}; ${issue.inclusive ? 'at least' : 'more than'} ${issue.minimum} is expected`;
    case 'too_big':
      if (!isMeant(issue.maximum)) return `it says ${found}, which is too large to be meant`;
      return `it says ${issue.origin === 'string' || issue.origin === 'array' ? 'too much' : found}; ${issue.inclusive ? 'at most' : 'less than'} ${issue.maximum} is expected`;
    case 'invalid_value':
      return `it says ${found}; one of ${issue.values.map((value) => String(value)).join(', ')} is expected`;
    case 'invalid_union':
      return `it says ${found}; the kind of part is not one of this format`;
    case 'invalid_key':
      return `the name ${show(String(issue.path.at(-1) ?? ''))} does not fit here`;
    case 'invalid_format':
    case 'custom':
      return `it says ${found}; ${issue.message}`;
    default:
      return `it says ${found}, which does not fit`;
  }
}
