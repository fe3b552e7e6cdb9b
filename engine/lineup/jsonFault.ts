/** Where a text stops being JSON. Browsers differ in what they say of it and some give no place at all, so the place is found here. */

export interface JsonFault {
  /** Index of the first character that does not fit; the length of the text when it ends too early. */
  readonly at: number;
  /** What could stand there. */
  readonly expected: string;
}

const WORD = /true|false|null/y;
const NUMBER = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?/y;
const TEXT = /"(?:[^"\\\u0000-\u001f]|\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4}))*"/y;
const SPACE = /[ \t\r\n]*/y;
const ESCAPE = /\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4})/y;
/** An escape that the text ends within. */
const BEGUN = /^\\(?:u[0-9a-fA-F]{0,3})?$/;

/** @returns null when the text is JSON. Brackets are counted in a list, not by recursion. */
export function jsonFault(text: string): JsonFault | null {
  let at = 0;
  const take = (pattern: RegExp): boolean => {
    pattern.lastIndex = at;
    const found = pattern.exec(text);
    if (found) at = pattern.lastIndex;
    return found !== null;
  };
  const open: ('{' | '[')[] = [];
  let state: 'value' | 'value or ]' | 'name' | 'name or }' | 'after' = 'value';
  for (;;) {
    take(SPACE);
    const here = text[at];
    if (state === 'after') {
      const inside = open.at(-1);
      if (inside === undefined) return at === text.length ? null : { at, expected: 'the end of the text' };
      if (here === ',') state = inside === '{' ? 'name' : 'value';
      else if (here === (inside === '{' ? '}' : ']')) open.pop();
      else return { at, expected: `a comma or ${inside === '{' ? '}' : ']'}` };
      at++;
    } else if (state === 'name' || state === 'name or }') {
      if (here === '}' && state === 'name or }') {
        open.pop();
        at++;
        state = 'after';
        continue;
      }
      if (!take(TEXT)) return inText(text, at) ?? { at, expected: 'a name in double quotes' };
      take(SPACE);
      if (text[at] !== ':') return { at, expected: 'a colon' };
      at++;
      state = 'value';
    } else if (here === ']' && state === 'value or ]') {
      open.pop();
      at++;
      state = 'after';
    } else if (here === '{' || here === '[') {
      open.push(here);
      at++;
      state = here === '{' ? 'name or }' : 'value or ]';
    } else if (take(WORD) || take(NUMBER) || take(TEXT)) state = 'after';
    else return inText(text, at) ?? { at, expected: 'a value' };
  }
}

/** A text in quotes that begins at this place and is not closed, or holds what a text may not. */
function inText(text: string, from: number): JsonFault | null {
  if (text[from] !== '"') return null;
  let at = from + 1;
  while (at < text.length) {
    const c = text.charCodeAt(at);
    if (c < 0x20) return { at, expected: 'the closing quote' };
    if (c === 92) {
      ESCAPE.lastIndex = at;
      if (!ESCAPE.test(text))
        return BEGUN.test(text.slice(at)) ? { at: text.length, expected: 'the rest of it' } : { at, expected: 'an escape such as \\n' };
      at = ESCAPE.lastIndex;
    } else at++;
  }
  return { at: text.length, expected: 'the closing quote' };
}
