import { useEffect, useState } from 'react';
import { judgedAlike, type LineUp } from '../../engine/index.ts';
import { type Answers, type Question, type Word, workOut } from '../store/sizing.ts';

const WAITING = { judged: 0 };

/** The answer for the line-up as it is: asked when what shows it is made, asked anew after an edit, and no longer worked on when it is gone. */
export function useAnswer<A extends keyof Answers>(about: A, lineUp: LineUp, of: readonly string[]): Word<A> {
  const [question, setQuestion] = useState<Question<A>>({ about, lineUp, of });
  const [heard, setHeard] = useState<{ readonly to: Question<A>; readonly word: Word<A> } | null>(null);
  // Where parts stand moves no answer.
  if (!judgedAlike(question.lineUp, lineUp) || question.of.join() !== of.join()) setQuestion({ about, lineUp, of });
  useEffect(() => workOut(question, (word) => setHeard({ to: question, word })), [question]);
  return heard?.to === question ? heard.word : WAITING;
}
