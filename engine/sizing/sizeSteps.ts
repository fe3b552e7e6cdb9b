import type { Finding } from '../checks/finding.ts';
import { area_mm2, type Choice } from './choices.ts';
import type { Ladder } from './ladder.ts';
import type { Choices } from './site.ts';

/**
 * Other sizes of some cables together, the nearest first, whatever else they break: with as many sets as each has, then with other numbers.
 *
 * @param more whether only more conductor is looked at, or only less; null for both
 */
export function stepsOf(ladders: readonly Ladder[], from: Choices, more: boolean | null): readonly (readonly Choices[])[] {
  const now = (ladder: Ladder): Choice => from.get(ladder.cable.id) ?? ladder.least;
  const all = ladders.flatMap(({ choices }) => choices);
  const sizes = [...new Set(all.map(({ size }) => size))];
  const numbers = [...new Set(all.map(({ sets }) => sets))];
  const sidesOf = (sets: number | null): readonly Choices[] => {
    const sides = more === null ? [true, false] : [more];
    return sizes
      .flatMap((size) =>
        sides.map((up): Choices => {
          // Each cable takes at least, or at most, this size, as it is made in: another may be of other sizes, or of no more sets.
          const step = ladders.flatMap((ladder): [string, Choice][] => {
            const own = now(ladder);
            const made = ladder.choices.filter((choice) => choice.sets === (sets ?? own.sets));
            const beyond = (choice: Choice): number => area_mm2(choice) - area_mm2({ ...choice, size });
            const choice = up ? made.find((each) => beyond(each) >= 0) : made.findLast((each) => beyond(each) <= 0);
            if (!choice) return [];
            const further = up ? area_mm2(choice) > area_mm2(own) : area_mm2(choice) < area_mm2(own);
            return further ? [[ladder.cable.id, choice]] : [];
          });
          return new Map(step);
        }),
      )
      .filter((step) => step.size > 0)
      .sort((a, b) => far(a) - far(b));
  };
  const far = (step: Choices): number =>
    ladders.reduce((sum, ladder) => {
      const choice = step.get(ladder.cable.id);
      return choice ? sum + Math.abs(area_mm2(choice) - area_mm2(now(ladder))) : sum;
    }, 0);
  return [null, ...numbers.filter((sets) => ladders.some((ladder) => now(ladder).sets !== sets))].map(sidesOf);
}

/** A question that is asked step by step: it names choices, and is told what the checks find with them. */
export type Judging<T> = Generator<Choices, T, readonly Finding[]>;

/** @param once what holds of one step holds of all that follow */
export function* firstThat(steps: readonly Choices[], holds: (step: Choices) => Judging<boolean>, once: boolean): Judging<Choices | null> {
  if (!once) {
    for (const step of steps) if (yield* holds(step)) return step;
    return null;
  }
  const last = steps.at(-1);
  if (last === undefined || !(yield* holds(last))) return null;
  let [low, high] = [-1, steps.length - 1];
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    const step = steps[middle];
    if (step !== undefined && (yield* holds(step))) high = middle;
    else low = middle;
  }
  return steps[high] ?? null;
}
