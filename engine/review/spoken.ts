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
  let last: { readonly thought: Review['findings']; readonly say: Say; readonly said: Review['findings'] } | null = null;
  return {
    review(lineUp) {
      const thought = review(lineUp);
      if (vocabularyOf(lineUp.project) === 'us') return thought;
      const say = sayOf(lineUp);
      // Where nothing was judged anew, by a part that was moved, the list is the same too.
      if (last?.thought !== thought.findings || last.say !== say)
        last = { thought: thought.findings, say, said: thought.findings.map((each) => inWordsOf(each, say)) };
      return { ...thought, findings: last.said };
    },
  };
}

export const review = (lineUp: LineUp): Review => createSpeaker().review(lineUp);
