import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { asLineUp, type LineUp, type Loaded, load, oneLine, review, save, variantsOf } from '../../engine/index.ts';
import { randomFrom } from '../second/randomLineUp.ts';
import { mutator } from './mutant.ts';

/**
 * Files that are almost line-ups, thousands of a seed that stays and as many of a fresh one. Each is refused with what, where and how, or
 * opens: then it saves to the same bytes for ever, and nothing that is said of it holds a number that is none. `npm run mutants` tries more.
 */

const CASES = Number(process.env['MUTANTS'] ?? 5000);
const FIXED_SEED = 20_261_126;
const ROOT = join(import.meta.dirname, '../..');
const FOLDERS = ['examples', 'tests/engine/lineup/golden'].map((name) => join(ROOT, name));
const TEXTS = FOLDERS.flatMap((folder) => readdirSync(folder).map((name) => readFileSync(join(folder, name), 'utf8')));

const PROTOTYPES = [Object, Array, Function, String, Number, Boolean, Map, Set, Date, RegExp, Error, Promise, Symbol].map(
  (each) => each.prototype as object,
);
const builtIn = (): string =>
  PROTOTYPES.map((each) =>
    Reflect.ownKeys(each)
      .map((key) => {
        const { writable, enumerable, configurable, value } = Object.getOwnPropertyDescriptor(each, key) ?? {};
        return `${String(key)} ${writable} ${enumerable} ${configurable} ${typeof value === 'function' ? value.toString() : typeof value}`;
      })
      .join(),
  ).join('\n');

const NO_VALUE = /\bNaN\b|\bundefined\b|\bInfinity\b|\[object /;

/** The first thing in a review or a drawing that is no value: a number that is none, nothing at all, or such a word in a sentence. */
function noValue(whole: unknown): string | null {
  const open: (readonly [string, unknown])[] = [['', whole]];
  for (let here = open.pop(); here; here = open.pop()) {
    const [path, value] = here;
    if (value === undefined || typeof value === 'function') return `${path} is ${typeof value}`;
    if (typeof value === 'number' && !Number.isFinite(value)) return `${path} is ${value}`;
    if (typeof value === 'string' && NO_VALUE.test(value)) return `${path} says ${value.slice(0, 200)}`;
    if (typeof value === 'object' && value !== null) for (const [key, inner] of Object.entries(value)) open.push([`${path}/${key}`, inner]);
  }
  return null;
}

function faultOfOpened(lineUp: LineUp, draws: boolean): string | null {
  const saved = save(lineUp);
  const again = load(saved);
  if (!again.ok) return `what was saved is refused: ${again.where}: ${again.what}`;
  if (save(again.lineUp) !== saved) return 'it saves to other bytes the second time';
  for (const each of [lineUp, ...(draws ? variantsOf(lineUp).map(({ design }) => asLineUp(design)) : [])]) {
    const said = review(each);
    const found = noValue(said) ?? (draws ? noValue(oneLine(each, said)) : null);
    if (found) return found;
  }
  return null;
}

const FILE = 'mutant.json';
function faultOfRefused({ where, what, mend }: Extract<Loaded, { ok: false }>): string | null {
  if (!where.startsWith(FILE)) return `the refusal names no place: ${where}`;
  if (what.length < 10 || mend.length < 10) return `the refusal says too little: ${what}. ${mend}`;
  const told = `${where} ${what} ${mend}`;
  const unprintable = told.length > 1000 || /[\u0000-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]/u.test(told);
  return unprintable ? `the refusal is not to be printed: ${told}` : null;
}

interface Tried {
  readonly opened: boolean;
  /** Null where all is well. */
  readonly fault: string | null;
}
function tried(text: string, draws: boolean): Tried {
  let opened = false;
  try {
    const loaded = load(text, FILE);
    opened = loaded.ok;
    return { opened, fault: loaded.ok ? faultOfOpened(loaded.lineUp, draws) : faultOfRefused(loaded) };
  } catch (fault) {
    return { opened, fault: fault instanceof Error ? (fault.stack ?? fault.message).split('\n').slice(0, 4).join(' ') : String(fault) };
  }
}

const mutate = mutator(TEXTS);
function tryFrom(seed: number): void {
  const before = builtIn();
  const faults: string[] = [];
  let opened = 0;
  for (let i = seed; i < seed + CASES && faults.length < 20; i++) {
    const result = tried(mutate(randomFrom(i)), i % 40 === 0);
    if (result.fault) faults.push(`seed ${i}: ${result.fault}`);
    if (result.opened) opened++;
  }
  console.info(`${opened} of ${CASES} opened`);
  expect(faults).toEqual([]);
  expect(builtIn()).toBe(before);
  // Mutants that are all refused, or none, would try one half alone.
  expect(opened / CASES).toBeGreaterThan(0.1);
  expect(opened / CASES).toBeLessThan(0.9);
}

describe('files that are almost line-ups', () => {
  it(`${CASES} of seed ${FIXED_SEED}`, () => tryFrom(FIXED_SEED));
  const fresh = Math.floor(Math.random() * 2 ** 31);
  it(`${CASES} of a fresh seed, ${fresh}`, () => tryFrom(fresh));
});
