import type { Cable } from '../lineup/cable.ts';
import type { Element } from '../lineup/elements.ts';
import { inSentence } from '../lineup/fields.ts';
import { given } from './check.ts';

/** What an open finding says of a least above its most, written in the wrong order or one of them wrong: nothing is judged by such a range. */
export function turnedRange(part: Element | Cable, least: string, most: string) {
  const inputs = given(part, least, most);
  return {
    phrase: 'least above most',
    text: `Cannot be judged: ${inputs.map(({ what, value }) => `${inSentence(what)}, ${value}`).join('; ')}. The two contradict each other.`,
    remedies: ['See which of the two is wrong, or whether they changed places.'],
    inputs,
  };
}
