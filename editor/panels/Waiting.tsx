import type { Word } from '../store/sizing.ts';

/** What stands in the place of an answer until it is there. */
export const Waiting = ({ word }: { readonly word: Exclude<Word, { readonly answer: unknown }> }) => (
  <p className="muted" role="status">
    {'fault' in word
      ? `No answer: ${word.fault}.`
      : word.judged === 0
        ? 'Working…'
        : `Working… ${word.judged} ${word.judged === 1 ? 'variant' : 'variants'} judged`}
  </p>
);
