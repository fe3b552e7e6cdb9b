/** Files that are almost line-ups: a file that opens, changed in a few places, by bytes or by structure, each decided by a seed. */

type Tree = { [key: string]: unknown } | unknown[];
interface Place {
  readonly holder: Tree;
  readonly key: string;
}

/** What JSON.stringify does not write is written as these words and put in afterwards. */
const PUT_IN = { '@huge@': '1e999', '@minus zero@': '-0', '@small@': '4.9e-324', '@long digits@': '0.1000000000000000055511151231257827' };
const NUMBERS = [
  0,
  -1,
  1,
  0.5,
  1.5,
  2,
  3,
  50,
  51,
  60,
  1000,
  65_536,
  1e-9,
  1e-12,
  1e-15,
  1e9,
  9.99e11,
  1e12,
  1e300,
  2 ** 53,
  1e-300,
  -1e-300,
];
const TEXTS = [
  '',
  ' ',
  'x',
  '0',
  '@proto@',
  'constructor',
  'toString',
  'hasOwnProperty',
  'length',
  '<b>&"\'</b>',
  '=1+1',
  '\u0000\u001b[31m\u202e',
  '\ud800',
  '\ufeff',
  'Ω≤Δ漢字🙂',
  'e1',
  '14 AWG',
  '999 kcmil',
  '0 AWG',
  '0 mm2',
  '1000000 mm2',
  'x'.repeat(10_000),
  'x'.repeat(10_001),
  ...Object.keys(PUT_IN),
];
const NAMES = ['@proto@', 'constructor', 'prototype', 'toString', 'valueOf', 'hasOwnProperty', '0', '-1', '', 'kind', 'id', 'tag', 'länge'];
const TOKENS = [
  '{',
  '}',
  '[',
  ']',
  ',',
  ':',
  '"',
  '\\',
  'null',
  'true',
  '-',
  '.',
  'e',
  '1e999',
  '\u0000',
  '\ud800',
  '//',
  '\ufeff',
  '[[[[',
  '{"',
];

const MOST_CHANGES = 4;
/** What mostly leaves a file that opens stands more than once. */
const KINDS = [
  'take out',
  'number',
  'scale',
  'scale',
  'scale',
  'known',
  'known',
  'known',
  'same name',
  'same name',
  'text',
  'shape',
  'rename',
  'id',
  'twice',
  'swap',
  'deep',
];

export type Mutate = (random: () => number) => string;

/** @param texts files that open */
export function mutator(texts: readonly string[]): Mutate {
  const known = valuesByName(texts.map((text) => JSON.parse(text) as Tree));
  return (random) => {
    const one = <T>(from: readonly T[]): T => from[Math.floor(random() * from.length)] as T;
    const text = one(texts);
    const changes = 1 + Math.floor(random() * MOST_CHANGES);
    if (random() < 0.3) {
      let bytes = Buffer.from(text);
      for (let i = 0; i < changes; i++) bytes = changedBytes(bytes, random, one);
      return bytes.toString('utf8');
    }
    const document = JSON.parse(text) as Tree;
    for (let i = 0; i < changes; i++) changeTree(document, known, random, one);
    return written(document);
  };
}

type One = <T>(from: readonly T[]) => T;

function changedBytes(bytes: Buffer, random: () => number, one: One): Buffer<ArrayBuffer> {
  const at = Math.floor(random() * bytes.length);
  const to = Math.min(bytes.length, at + 1 + Math.floor(random() ** 4 * 2000));
  const [before, here, after] = [bytes.subarray(0, at), bytes.subarray(at, to), bytes.subarray(to)];
  switch (one(['flip', 'digit', 'digit', 'digit', 'token', 'take out', 'twice', 'cut', 'elsewhere', 'any'])) {
    case 'flip':
      return Buffer.concat([before, Buffer.from([(bytes[at] ?? 0) ^ (1 << Math.floor(random() * 8))]), bytes.subarray(at + 1)]);
    case 'digit': {
      // A file with another figure in it still opens, more often than not.
      const digit = bytes.subarray(at).findIndex((each) => each >= 0x30 && each <= 0x39);
      const place = digit < 0 ? at : at + digit;
      return Buffer.concat([
        bytes.subarray(0, place),
        Buffer.from(one(['0', '1', '5', '9', '99', '.', 'e', '-'])),
        bytes.subarray(place + 1),
      ]);
    }
    case 'token':
      return Buffer.concat([before, Buffer.from(one(TOKENS)), bytes.subarray(at)]);
    case 'take out':
      return Buffer.concat([before, after]);
    case 'twice':
      return Buffer.concat([before, here, here, after]);
    case 'cut':
      return Buffer.concat([before]);
    case 'elsewhere': {
      const rest = Buffer.concat([before, after]);
      const there = Math.floor(random() * rest.length);
      return Buffer.concat([rest.subarray(0, there), here, rest.subarray(there)]);
    }
    default:
      return Buffer.concat([before, Buffer.from([Math.floor(random() * 256)]), after]);
  }
}

function placesIn(document: Tree): readonly Place[] {
  const places: Place[] = [];
  const open: Tree[] = [document];
  for (let holder = open.pop(); holder; holder = open.pop())
    for (const [key, value] of Object.entries(holder)) {
      places.push({ holder, key });
      if (typeof value === 'object' && value !== null) open.push(value as Tree);
    }
  return places;
}

/** Every name with the values that it has somewhere: put into another part, many of them still fit the format. */
function valuesByName(documents: readonly Tree[]): ReadonlyMap<string, readonly unknown[]> {
  const found = new Map<string, unknown[]>();
  for (const document of documents)
    for (const { holder, key } of placesIn(document)) {
      if (Array.isArray(holder)) continue;
      const list = found.get(key);
      if (list) list.push(holder[key]);
      else found.set(key, [holder[key]]);
    }
  return found;
}

const at = ({ holder, key }: Place): unknown => (holder as Record<string, unknown>)[key];
const put = ({ holder, key }: Place, value: unknown): void => {
  (holder as Record<string, unknown>)[key] = value;
};
const takeOut = ({ holder, key }: Place): void => {
  if (Array.isArray(holder)) holder.splice(Number(key), 1);
  else delete holder[key];
};
const isTree = (value: unknown): value is Tree => typeof value === 'object' && value !== null;

function changeTree(document: Tree, known: ReadonlyMap<string, readonly unknown[]>, random: () => number, one: One): void {
  const places = placesIn(document);
  if (places.length === 0) return;
  const place = one(places);
  const value = at(place);
  const holders = places.map(at).filter(isTree);
  switch (one(KINDS)) {
    case 'take out':
      takeOut(place);
      return;
    case 'number':
      put(place, one(NUMBERS) * one([1, 1, -1]));
      return;
    case 'scale': {
      const numbers = places.filter((each) => typeof at(each) === 'number');
      if (numbers.length === 0) return;
      const chosen = one(numbers);
      put(chosen, Number(at(chosen)) * one([0, 1e-9, 1e-3, 0.1, 0.5, 1 + 2 ** -52, 2, 10, 1e3, 1e6]));
      return;
    }
    case 'known': {
      const parts = holders.filter((each) => !Array.isArray(each));
      const name = one([...known.keys()]);
      if (parts.length > 0) put({ holder: one(parts), key: name }, structuredClone(one(known.get(name) ?? [])));
      return;
    }
    case 'same name':
      put(place, structuredClone(one(known.get(place.key) ?? [null])));
      return;
    case 'text':
      put(place, one(TEXTS));
      return;
    case 'shape':
      put(
        place,
        one<unknown>([null, true, false, [], {}, [[]], [value], { value }, [value, value], Object.values(isTree(value) ? value : {})]),
      );
      return;
    case 'rename':
      takeOut(place);
      put({ holder: Array.isArray(place.holder) ? {} : place.holder, key: one(NAMES) }, value);
      return;
    case 'id': {
      // Everywhere it is meant, or it would only dangle.
      const ids = places.filter((each) => each.key === 'id');
      if (ids.length === 0) return;
      const old = at(one(ids));
      const fresh = one(TEXTS);
      for (const each of places)
        if (at(each) === old) put(each, fresh);
        else if (each.key === old) {
          const theirs = at(each);
          takeOut(each);
          put({ ...each, key: fresh }, theirs);
        }
      return;
    }
    case 'twice': {
      const lists = holders.filter((each): each is unknown[] => Array.isArray(each) && each.length > 0);
      if (lists.length === 0) return;
      const list = one(lists);
      list.splice(Math.floor(random() * list.length), 0, structuredClone(one(list)));
      return;
    }
    case 'swap': {
      // Neither may hold the other: a document is a tree.
      const other = one(places);
      const theirs = at(other);
      put(place, structuredClone(theirs));
      put(other, structuredClone(value));
      return;
    }
    default: {
      let deep: unknown = value;
      const levels = one([5, 40, 63, 64, 65, 500]);
      for (let i = 0; i < levels; i++) deep = random() < 0.5 ? [deep] : { deep };
      put(place, deep);
      return;
    }
  }
}

function written(document: Tree): string {
  let text = JSON.stringify(document).replaceAll('@proto@', '__proto__');
  for (const [word, number] of Object.entries(PUT_IN)) text = text.replaceAll(`"${word}"`, number);
  return text;
}
