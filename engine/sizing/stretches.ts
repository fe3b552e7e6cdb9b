import type { Verdict } from '../checks/finding.ts';

/** Lengths between which nothing objects. */

export interface Flip {
  /** The first tenth of a metre at which it is `to`. */
  readonly at_m: number;
  readonly from: Verdict;
  readonly to: Verdict;
}

export interface Stretch {
  readonly from_m: number;
  readonly to_m: number;
}

/** No cable from one box to another is shorter (common practice): a check that holds only below it objects wherever a cable is. */
const SHORTEST_M = 1;
/** Lengths are told to a tenth of a metre. */
export const PER_METRE = 10;

export const settled = (verdict: Verdict): boolean => verdict !== 'fail' && verdict !== 'caution' && verdict !== 'open';
export const buildable = ({ to_m }: Stretch): boolean => to_m >= SHORTEST_M;

/** Every stretch without objection, the shortest lengths first. */
export function stretchesOf(flips: readonly Flip[], bound_m: number): readonly Stretch[] {
  const stretches: Stretch[] = [];
  let from_m: number | null = settled(flips[0]?.from ?? 'fail') ? 0 : null;
  for (const { at_m, to } of flips) {
    if (from_m !== null && !settled(to)) {
      // The last tenth at which it still holds.
      stretches.push({ from_m, to_m: (Math.round(at_m * PER_METRE) - 1) / PER_METRE });
      from_m = null;
    } else if (from_m === null && settled(to)) from_m = at_m;
  }
  if (from_m !== null) stretches.push({ from_m, to_m: bound_m });
  return stretches;
}

/** The stretch in which the cable lies, else the first there is. */
export const around = (stretches: readonly Stretch[], length_m: number): Stretch | null =>
  stretches.find((each) => each.from_m <= length_m && length_m <= each.to_m) ?? stretches[0] ?? null;

export const common = (a: readonly Stretch[], b: readonly Stretch[]): readonly Stretch[] =>
  a.flatMap((one) =>
    b.flatMap((other): readonly Stretch[] => {
      const [from_m, to_m] = [Math.max(one.from_m, other.from_m), Math.min(one.to_m, other.to_m)];
      return from_m <= to_m ? [{ from_m, to_m }] : [];
    }),
  );

/** Those that hold at no length that could be built; else two that never hold together; else all. */
export function leavingNone<Of>(stretches: ReadonlyMap<Of, readonly Stretch[]>): readonly Of[] {
  const alone = [...stretches].filter(([, each]) => !each.some(buildable)).map(([of]) => of);
  if (alone.length > 0) return alone;
  for (const [a, ofA] of stretches) for (const [b, ofB] of stretches) if (a !== b && !common(ofA, ofB).some(buildable)) return [a, b];
  return [...stretches.keys()];
}
