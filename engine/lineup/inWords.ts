import type { Say } from './vocabulary.ts';

/** Where sentences stand in findings, answers and sheets; everything else there is a name, a number or a citation. */
const SAID = new Set([
  ...['title', 'quantity', 'phrase', 'text', 'why', 'remedies', 'what', 'value', 'working', 'label', 'help', 'says', 'intro', 'head'],
  ...['rows', 'empty', 'rule', 'assumptions'],
]);
/** Edits of the document, what is cited, and codes, whose text is said before it is coded. */
const KEPT = new Set(['edits', 'inserts', 'takesOut', 'removes', 'subject', 'source', 'links', 'beside']);

/** The same data with its sentences in other words. What stays as it was is the same object. */
export const inWords = <T>(data: T, say: Say): T => walked(data, say, false) as T;

function walked(data: unknown, say: Say, said: boolean): unknown {
  if (typeof data === 'string') return said ? say(data) : data;
  if (typeof data !== 'object' || data === null || ArrayBuffer.isView(data)) return data;
  if (Array.isArray(data)) {
    const list = data.map((each) => walked(each, say, said));
    return list.some((each, i) => each !== data[i]) ? list : data;
  }
  let changed = false;
  const made = Object.fromEntries(
    Object.entries(data).map(([key, value]) => {
      const there = KEPT.has(key) ? value : walked(value, say, SAID.has(key));
      changed ||= there !== value;
      return [key, there];
    }),
  );
  return changed ? made : data;
}
