import {
  decidingUnknowns,
  inWords,
  type LineUp,
  leastCopper,
  lengthLimits,
  proposeFixes,
  review,
  sayOf,
  sizeTable,
  type Watching,
} from '../../engine/index.ts';
import type { Answers, Question, Word } from './sizing.ts';

/** Answers one question about sizes on a thread of its own, and says meanwhile how far it is. */

type Answering = {
  readonly [A in keyof Answers]: (lineUp: LineUp, of: readonly string[], watching: Watching) => Answers[A] | Promise<Answers[A]>;
};

const ANSWERING: Answering = {
  changes: async (lineUp, [finding = ''], watching) =>
    (await proposeFixes(lineUp, finding, watching)).map(({ unchanged, ...change }) => ({ ...change, unchanged: unchanged.length })),
  sizes: (lineUp, [cable = '']) => sizeTable(lineUp, cable),
  lengths: (lineUp, [cable = ''], watching) => lengthLimits(lineUp, cable, undefined, watching),
  least: (lineUp, locked, watching) => leastCopper(lineUp, { locked, ...watching }),
  judged: (lineUp) => review(lineUp),
  unknowns: (lineUp, _, watching) => decidingUnknowns(lineUp, watching),
};

/** A count that changes faster cannot be read. */
const COUNT_MS = 200;

const tell = (word: Word): void => postMessage(word);

addEventListener('message', async ({ data: { about, lineUp, of } }: MessageEvent<Question>) => {
  let told = performance.now();
  const progress = (judged: number): void => {
    if (performance.now() - told < COUNT_MS) return;
    told = performance.now();
    tell({ judged });
  };
  try {
    tell({ answer: inWords(await ANSWERING[about](lineUp, of, { progress }), sayOf(lineUp)) });
  } catch (fault) {
    tell({ fault: fault instanceof Error ? fault.message : String(fault) });
  }
});
