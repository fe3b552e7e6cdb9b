import type { Finding, Verdict } from '../checks/finding.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import { createReviewer } from '../review/createReviewer.ts';
import { worstByCheck } from './concerning.ts';
import { type Watching, watched } from './watched.ts';

/** How long a cable may be: where the verdict of each check turns when its length alone is changed. */

export interface Flip {
  /** The first tenth of a metre at which it is `to`. */
  readonly at_m: number;
  readonly from: Verdict;
  readonly to: Verdict;
}

export interface LengthLimit {
  readonly check: string;
  readonly title: string;
  /** At the length as drawn, and at both ends of a range; null where the length is not known or is no range. */
  readonly now: Verdict | null;
  readonly atEnds: readonly [Verdict, Verdict] | null;
  readonly flips: readonly Flip[];
  /** Between these it is settled: neither failing, cautioned nor open. Null: nowhere. */
  readonly holds: Stretch | null;
}

export interface LengthLimits {
  /** Only checks whose verdict turns anywhere below the bound. */
  readonly limits: readonly LengthLimit[];
  /** Between these none of them objects; null where there is no such length that could be built. */
  readonly passes: Stretch | null;
  /** The check that ends that stretch; null where none does below the bound, or there is no stretch. */
  readonly governs: LengthLimit | null;
  /** Where no length passes, those that leave none: alone, or one that holds only where another does not. */
  readonly against: readonly LengthLimit[];
  /** What objects at every length alike, and so is no matter of length. */
  readonly always: readonly Pick<Finding, 'check' | 'title' | 'verdict'>[];
  readonly bound_m: number;
}

export interface Stretch {
  readonly from_m: number;
  readonly to_m: number;
}

/** No cable from one box to another is shorter (common practice): a check that holds only below it objects wherever a cable is. */
const SHORTEST_M = 1;
const PER_METRE = 10;
/** Between two of these a verdict that turns twice is not seen: each is a quarter longer than the one before. */
const GROWTH = 1.25;

/** @param bound_m the longest that is looked at */
export async function lengthLimits(lineUp: LineUp, cableId: string, bound_m = 2000, watching: Watching = {}): Promise<LengthLimits> {
  const cable = lineUp.cables.find(({ id }) => id === cableId);
  const { length_m, lengthMost_m } = cable ?? {};
  const reviewer = createReviewer();
  const judge = watched((tenths: number) => {
    const cables = lineUp.cables.map((each) =>
      each.id === cableId ? { ...each, length_m: tenths / PER_METRE, lengthMost_m: undefined } : each,
    );
    return reviewer.review({ ...lineUp, cables });
  }, watching);
  const heard = new Map<number, ReadonlyMap<string, Finding>>();
  const at = async (tenths: number): Promise<ReadonlyMap<string, Finding>> => {
    const said = heard.get(tenths) ?? worstByCheck(await judge(tenths), cableId);
    heard.set(tenths, said);
    return said;
  };
  const verdictAt = async (tenths: number, check: string): Promise<Verdict> => (await at(tenths)).get(check)?.verdict ?? 'not-applicable';

  const bound = Math.round(bound_m * PER_METRE);
  const own = [length_m, lengthMost_m].flatMap((each) => (each === undefined ? [] : [Math.round(each * PER_METRE)]));
  const marks = new Set<number>([1, ...own.filter((each) => each > 0 && each < bound), bound]);
  for (let each = PER_METRE; each < bound; each = Math.ceil(each * GROWTH)) marks.add(each);
  const grid = [...marks].sort((a, b) => a - b);
  const titles = new Map<string, string>();
  for (const tenths of grid) for (const [check, { title }] of await at(tenths)) titles.set(check, title);

  const limits: LengthLimit[] = [];
  for (const [check, title] of titles) {
    const flips: Flip[] = [];
    for (const [i, right] of grid.entries()) {
      const left = grid[i - 1];
      if (left === undefined) continue;
      const [from, to] = [await verdictAt(left, check), await verdictAt(right, check)];
      if (from === to) continue;
      // The bisection ends at one turn even where there are several between two marks.
      let [low, high] = [left, right];
      while (high - low > 1) {
        const middle = (low + high) >> 1;
        if ((await verdictAt(middle, check)) === from) low = middle;
        else high = middle;
      }
      flips.push({ at_m: high / PER_METRE, from, to: await verdictAt(high, check) });
    }
    if (flips.length === 0) continue;
    const drawn = own[0];
    const last = own[1];
    limits.push({
      check,
      title,
      now: drawn === undefined ? null : await verdictAt(Math.max(drawn, last ?? 0), check),
      atEnds: drawn === undefined || last === undefined ? null : [await verdictAt(drawn, check), await verdictAt(last, check)],
      flips,
      holds: around(stretchesOf(flips, bound_m), Math.max(length_m ?? 0, lengthMost_m ?? 0)),
    });
  }
  const turning = new Set(limits.map(({ check }) => check));
  const always = [...(await at(bound))].flatMap(([check, { title, verdict }]) =>
    turning.has(check) || settled(verdict) ? [] : [{ check, title, verdict }],
  );
  const drawn_m = Math.max(length_m ?? 0, lengthMost_m ?? 0);
  const stretches = new Map(limits.map((limit) => [limit, stretchesOf(limit.flips, bound_m)] as const));
  const joint = [...stretches.values()].reduce(common, [{ from_m: 0, to_m: bound_m }]).filter(buildable);
  const passes = around(joint, drawn_m);
  const ends = (limit: LengthLimit): boolean => stretches.get(limit)?.some(({ to_m }) => to_m === passes?.to_m) ?? false;
  const governs = passes && passes.to_m < bound_m ? (limits.find(ends) ?? null) : null;
  return { limits, passes, governs, against: passes ? [] : leavingNone(stretches), always, bound_m };
}

const settled = (verdict: Verdict): boolean => verdict !== 'fail' && verdict !== 'caution' && verdict !== 'open';
const buildable = ({ to_m }: Stretch): boolean => to_m >= SHORTEST_M;

/** Every stretch without objection, the shortest lengths first. */
function stretchesOf(flips: readonly Flip[], bound_m: number): readonly Stretch[] {
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
const around = (stretches: readonly Stretch[], length_m: number): Stretch | null =>
  stretches.find((each) => each.from_m <= length_m && length_m <= each.to_m) ?? stretches[0] ?? null;

const common = (a: readonly Stretch[], b: readonly Stretch[]): readonly Stretch[] =>
  a.flatMap((one) =>
    b.flatMap((other): readonly Stretch[] => {
      const [from_m, to_m] = [Math.max(one.from_m, other.from_m), Math.min(one.to_m, other.to_m)];
      return from_m <= to_m ? [{ from_m, to_m }] : [];
    }),
  );

/** Those that hold at no length that could be built; else two that never hold together; else all. */
function leavingNone(stretches: ReadonlyMap<LengthLimit, readonly Stretch[]>): readonly LengthLimit[] {
  const alone = [...stretches].filter(([, each]) => !each.some(buildable)).map(([limit]) => limit);
  if (alone.length > 0) return alone;
  for (const [a, ofA] of stretches) for (const [b, ofB] of stretches) if (a !== b && !common(ofA, ofB).some(buildable)) return [a, b];
  return [...stretches.keys()];
}
