import type { DecidingUnknown, LeastCopper, LengthLimits, LineUp, Proposal, Review, SizeTable } from '../../engine/index.ts';
import { startThread } from './threads.ts';

/** What is asked about other documents than the open one, each of which must be judged: always by a thread of its own. */

/** A change with what it moves; of what it leaves alone the number is enough. */
export type Change = Omit<Proposal, 'unchanged'> & { readonly unchanged: number };

export interface Answers {
  /** Of one finding. */
  readonly changes: readonly Change[];
  /** Of one cable. */
  readonly sizes: SizeTable | null;
  /** Of one cable. */
  readonly lengths: LengthLimits;
  /** Of the cables that keep their size. */
  readonly least: LeastCopper;
  /** Of nothing but the document. */
  readonly unknowns: readonly DecidingUnknown[];
  /** Of a variant. */
  readonly judged: Review;
}

export interface Question<A extends keyof Answers = keyof Answers> {
  readonly about: A;
  readonly lineUp: LineUp;
  /** Ids. */
  readonly of: readonly string[];
}

/** How far it is, counted in documents judged, or how it ended. */
export type Word<A extends keyof Answers = keyof Answers> =
  | { readonly judged: number }
  | { readonly answer: Answers[A] }
  | { readonly fault: string };

/** One question, one worker: to stop is to end it. */
export function workOut<A extends keyof Answers>(question: Question<A>, hear: (word: Word<A>) => void): () => void {
  try {
    const helper = startThread('sizer');
    helper.onmessage = ({ data }: MessageEvent<Word<A>>) => hear(data);
    helper.onerror = () => hear({ fault: 'the helper did not start' });
    helper.postMessage(question);
    return () => helper.terminate();
  } catch {
    hear({ fault: 'this browser starts no helper' });
    return () => {};
  }
}
