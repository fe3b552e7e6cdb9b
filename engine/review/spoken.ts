import type { Finding } from '../checks/finding.ts';
import type { Review } from '../checks/solved.ts';
import { inWords } from '../lineup/inWords.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import { type Say, sayOf, vocabularyOf } from '../lineup/vocabulary.ts';
import { createReviewer, type Reviewer } from './createReviewer.ts';

/** A reviewer for people: its findings are in the words of the project. What only compares verdicts asks the one behind it. */

const told = new WeakMap<Say, WeakMap<Finding, Finding>>();

/** A finding that came out as before is the same object in other words too. */
function inWordsOf(finding: Finding, say: Say): Finding {
  let known = told.get(say);
  if (!known) {
    known = new WeakMap();
    told.set(say, known);
  }
  let said = known.get(finding);
  if (!said) {
    said = inWords(finding, say);
    known.set(finding, said);
  }
  return said;
}

export function createSpeaker(): Reviewer {
  const { review } = createReviewer();
  let last: { readonly thought: Review; readonly say: Say; readonly said: Review } | null = null;
  return {
    review(lineUp) {
      const thought = review(lineUp);
      if (vocabularyOf(lineUp.project) === 'us') return thought;
      const say = sayOf(lineUp);
      const told = last?.thought === thought && last.say === say ? last.said : null;
      const said = told ?? { ...thought, findings: thought.findings.map((each) => inWordsOf(each, say)) };
      last = { thought, say, said };
      return said;
    },
  };
}

export const review = (lineUp: LineUp): Review => createSpeaker().review(lineUp);
