import { FIELDS } from './fields.ts';
import type { LineUp } from './lineUp.ts';
import type { Project } from './project.ts';

/**
 * The engine speaks the trade's English of the NEC. For crews who work by IEC standards the same sentences are said in theirs: words
 * are replaced, numbers and what the user wrote never.
 */

export type Vocabulary = 'us' | 'iec';
/** A sentence of the engine, in the words of the project. */
export type Say = (text: string) => string;

/** A project that does not say takes the words of the code it is judged by. */
export const vocabularyOf = ({ vocabulary, basis }: Project): Vocabulary => vocabulary ?? basis;

/**
 * NEC Article 100 on the left, IEC 60050 (461, 195, 826) and 60364 on the right, 'containment' and 'isolator' by common practice. The longer
 * come first. What stands for itself keeps its second meaning: soil is ground in both.
 */
export const TERMS: readonly (readonly [us: string, iec: string])[] = [
  ['in the ground', 'in the ground'],
  ['direct in ground', 'direct in ground'],
  ['equipment grounding conductors', 'protective conductors'],
  ['equipment grounding conductor', 'protective conductor'],
  ['grounding conductors', 'protective conductors'],
  ['grounding conductor', 'protective conductor'],
  ['ground wires', 'protective conductors'],
  ['ground wire', 'protective conductor'],
  ['ground bars', 'earth bars'],
  ['ground bar', 'earth bar'],
  ['ground fault', 'earth fault'],
  ['not grounded', 'not earthed'],
  ['ungrounded', 'unearthed'],
  ['grounded', 'earthed'],
  ['grounding', 'earthing'],
  ['grounds', 'protective conductors'],
  ['ground', 'earth'],
  ['one-line', 'single-line'],
  ['ampacities', 'current-carrying capacities'],
  ['ampacity', 'current-carrying capacity'],
  ['unshielded', 'unscreened'],
  ['shielded', 'screened'],
  ['shielding', 'screening'],
  ['shields', 'screens'],
  ['shield', 'screen'],
  ['disconnects', 'isolators'],
  ['disconnect', 'isolator'],
  ['breakers', 'circuit-breakers'],
  ['breaker', 'circuit-breaker'],
  ['raceways', 'containments'],
  ['raceway', 'containment'],
  ['nameplates', 'rating plates'],
  ['nameplate', 'rating plate'],
  ['wye', 'star'],
  ['load reactors', 'output reactors'],
  ['load reactor', 'output reactor'],
];

const IEC = new Map(TERMS);
const escaped = (text: string): string => text.replace(/[\\^$.*+?()[\]{}|/]/g, '\\$&');
const letters = String.raw`[\p{L}\p{N}_]`;
const terms = TERMS.map(([us]) => escaped(us)).join('|');
/** With the article before it, since 'an ampacity' becomes 'a current-carrying capacity'. A hyphened 'circuit-breaker' stands already. */
const TERM = new RegExp(`(?<!${letters}|circuit-)(?:(an?) )?(${terms})(?!${letters})`, 'giu');
const WORD = new RegExp(`(?<!${letters})(?:${[...new Set(TERMS.flatMap(([us]) => us.split(/[ -]/)))].join('|')})(?!${letters})`, 'iu');

const asWritten = (said: string, like: string): string =>
  like === like.toUpperCase() && like.length > 1
    ? said.toUpperCase()
    : /^\p{Lu}/u.test(like)
      ? `${said.charAt(0).toUpperCase()}${said.slice(1)}`
      : said;

/** For what holds no word of the user's. */
const plain: Say = (text) =>
  text.replace(TERM, (_whole, article: string | undefined, term: string) => {
    const said = asWritten(IEC.get(term.toLowerCase()) ?? term, term);
    return article === undefined ? said : `${asWritten(/^[aeiou]/i.test(said) ? 'an' : 'a', article)} ${said}`;
  });

const LETTER_FIRST = new RegExp(`^${letters}`, 'u');
const LETTER_LAST = new RegExp(`${letters}$`, 'u');
/** As a word of its own: 'Shield' is none of 'Shielded'. */
const alone = (text: string): string =>
  `${LETTER_FIRST.test(text) ? `(?<!${letters})` : ''}${escaped(text)}${LETTER_LAST.test(text) ? `(?!${letters})` : ''}`;

/** @param own what the user wrote; it stays as it is wherever it stands in a sentence */
function iec(own: readonly string[]): Say {
  const kept = [...own].sort((a, b) => b.length - a.length).map(alone);
  const between = new RegExp(`(${kept.join('|')})`, 'gu');
  return (text) =>
    WORD.test(text)
      ? text
          .split(between)
          .map((piece, i) => (i % 2 === 0 ? plain(piece) : piece))
          .join('')
      : text;
}

const same: Say = (text) => text;

/** For what holds no word of the user's: names of fields, headings, commands. */
export const sayIn = (vocabulary: Vocabulary): Say => (vocabulary === 'iec' ? plain : same);

/** Values that the schema lists are the engine's words, not the user's. */
const LISTED = new Set([
  ...Object.values(FIELDS).flatMap((fields) =>
    fields.flatMap(({ path, kind }) => (kind === 'choice' ? [path.slice(path.lastIndexOf('.') + 1)] : [])),
  ),
  ...['kind', 'id', 'element', 'port', 'allowedEarthing', 'sharedWith', 'parts'],
]);

const written = new WeakMap<object, readonly string[]>();
/** All that a person wrote in this part of a document and that holds a word of the list. */
function ownWords(part: object): readonly string[] {
  let found = written.get(part);
  if (!found) {
    found = Object.entries(part).flatMap(([key, value]) => {
      if (typeof value === 'string') return WORD.test(value) && !LISTED.has(key) ? [value] : [];
      return typeof value === 'object' && value !== null && !(Array.isArray(value) && LISTED.has(key)) ? ownWords(value) : [];
    });
    written.set(part, found);
  }
  return found;
}

let last: { readonly key: string; readonly say: Say } | null = null;
/** For sentences that name parts of this line-up. The same words give the same function, so that what was said is remembered by it. */
export function sayOf(lineUp: Pick<LineUp, 'project'>): Say {
  if (vocabularyOf(lineUp.project) === 'us') return same;
  const own = [...new Set(ownWords(lineUp))].sort();
  if (own.length === 0) return plain;
  const key = JSON.stringify(own);
  if (last?.key !== key) last = { key, say: iec(own) };
  return last.say;
}
