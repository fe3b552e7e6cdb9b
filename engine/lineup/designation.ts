import type { ElementKind } from './elements.ts';
import type { LineUp } from './lineUp.ts';
import { z } from './zod.ts';

/** Reference designations: how the parts of a project are named. What the project does not say is named the usual way, 'VFD-1'. */

export const DESIGNATED = [
  'supply',
  'transformer',
  'bus',
  'disconnect',
  'reactor',
  'filter',
  'drive',
  'junction',
  'contactor',
  'motor',
  'cable',
] as const;
export type Designated = ElementKind | 'cable';

const letters = z.string().check(z.minLength(1), z.maxLength(12));
export const designations = z.looseObject({
  /** Between letters and number. */
  separator: z.optional(z.enum(['hyphen', 'point', 'none'])),
  /** Filled up with zeros to this many figures. */
  digits: z.optional(z.int().check(z.gte(1), z.lte(6))),
  /** By kind, instead of the usual ones. */
  letters: z.optional(
    z.looseObject(
      Object.fromEntries(DESIGNATED.map((kind) => [kind, z.optional(letters)])) as Record<Designated, z.ZodMiniOptional<typeof letters>>,
    ),
  ),
});

const SEPARATORS = { hyphen: '-', point: '.', none: '' } as const;
export const USUAL_LETTERS: Readonly<Record<Designated, string>> = {
  supply: 'S',
  transformer: 'T',
  bus: 'B',
  disconnect: 'DS',
  reactor: 'L',
  filter: 'Z',
  drive: 'VFD',
  junction: 'JB',
  contactor: 'K',
  motor: 'M',
  cable: 'W',
};

/** The name of the n-th part of a kind. */
export function designation({ designations }: LineUp['project'], kind: Designated, number: number): string {
  const { separator = 'hyphen', digits = 1 } = designations ?? {};
  return `${designations?.letters?.[kind] ?? USUAL_LETTERS[kind]}${SEPARATORS[separator]}${`${number}`.padStart(digits, '0')}`;
}

/** Hands out free tags: each once, though a project may give two kinds the same letters. */
export const freeTags = (lineUp: LineUp): ((kind: Designated) => string) =>
  tagsBeside(
    lineUp.project,
    [...lineUp.elements, ...lineUp.cables].map((part) => part.tag),
  );

function tagsBeside(project: LineUp['project'], taken: readonly string[]): (kind: Designated) => string {
  const used = new Set(taken);
  const last = new Map<Designated, number>();
  return (kind) => {
    let number = (last.get(kind) ?? 0) + 1;
    while (used.has(designation(project, kind, number))) number++;
    last.set(kind, number);
    const tag = designation(project, kind, number);
    used.add(tag);
    return tag;
  };
}

/** The project says itself how parts of this kind are named. */
export function namedByProject({ designations: said }: LineUp['project'], kind: Designated): boolean {
  return said !== undefined && (said.separator !== undefined || said.digits !== undefined || said.letters?.[kind] !== undefined);
}

/** Without those that are read as figures. */
const LETTERS = [...'ABCDEFGHJKLMNPQRSTUVWXYZ'];
/** 'W-2A' as 'W-2' and 'A'; 'P-07-a' as 'P-07-' and 'a'. */
const lettered = (tag: string): readonly [string, string] | null => {
  const [, stem, letter] = /^(.*\d[-.]?)([A-Za-z])$/u.exec(tag) ?? [];
  return stem === undefined || letter === undefined ? null : [stem, letter];
};

/**
 * What the halves of a cable are called, from its start: of 'W-1' they are 'W-1A' and 'W-1B'. Where there are letters already, one half keeps
 * its tag and the other has the next. A project with names of its own goes on counting.
 */
export function halfTags(lineUp: LineUp, whole: string): readonly [string, string] {
  const next = freeTags(lineUp);
  if (namedByProject(lineUp.project, 'cable')) return [whole, next('cable')];
  const used = new Set([...lineUp.elements, ...lineUp.cables].map((part) => part.tag));
  const [stem, own] = lettered(whole) ?? [/\d$/.test(whole) ? whole : `${whole}-`, ''];
  const tags = LETTERS.map((letter) => `${stem}${own > 'Z' ? letter.toLowerCase() : letter}`);
  const free = tags.filter((tag) => !used.has(tag));
  const [a, b] = free;
  if (own === '' && a !== undefined && b !== undefined && free.length === tags.length) return [a, b];
  return [whole, free.find((tag) => tag > whole) ?? next('cable')];
}

/** What two halves are called that become one again: 'W-1' when nothing else has its name, or a letter with it. */
export function wholeTag(lineUp: LineUp, first: string, second: string): string {
  const [stem] = lettered(first) ?? [];
  if (stem === undefined || stem !== lettered(second)?.[0]) return first;
  const whole = stem.replace(/[-.]$/, '');
  const others = [...lineUp.elements, ...lineUp.cables].filter(({ tag }) => tag !== first && tag !== second);
  return others.some(({ tag }) => tag === whole || lettered(tag)?.[0] === stem) ? first : whole;
}

/** Names all parts afresh by the project's pattern, each kind counted from the left to the right and down the sheet. Links between parts are by id and hold. */
export function renumber(lineUp: LineUp): LineUp {
  const place = (id: string | undefined) => lineUp.positions[id ?? ''] ?? { x_mm: 0, y_mm: 0 };
  const inOrder = <T extends { readonly id: string }>(parts: readonly T[], at: (part: T) => string | undefined): readonly T[] =>
    parts
      .map((part) => ({ part, ...place(at(part)) }))
      .sort((a, b) => a.x_mm - b.x_mm || a.y_mm - b.y_mm)
      .map(({ part }) => part);
  const next = tagsBeside(lineUp.project, []);
  const tags = new Map<string, string>();
  for (const element of inOrder(lineUp.elements, (each) => each.id)) tags.set(element.id, next(element.kind));
  // A cable stands where it leads to.
  for (const cable of inOrder(lineUp.cables, (each) => each.to.element ?? each.from.element)) tags.set(cable.id, next('cable'));
  const named = <T extends { readonly id: string; readonly tag: string }>(part: T): T => {
    const tag = tags.get(part.id) ?? part.tag;
    return tag === part.tag ? part : { ...part, tag };
  };
  const [elements, cables] = [lineUp.elements.map(named), lineUp.cables.map(named)];
  const same = elements.every((each, i) => each === lineUp.elements[i]) && cables.every((each, i) => each === lineUp.cables[i]);
  return same ? lineUp : { ...lineUp, elements, cables };
}
