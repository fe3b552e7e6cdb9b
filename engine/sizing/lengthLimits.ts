import type { Finding, Verdict } from '../checks/finding.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import { createReviewer } from '../review/createReviewer.ts';
import { worstByCheck } from './concerning.ts';
import { around, buildable, common, type Flip, leavingNone, PER_METRE, type Stretch, settled, stretchesOf } from './stretches.ts';
import { type Watching, watched } from './watched.ts';

/** How long a cable may be: where the verdict of each check turns when its length alone is changed. */

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

/** Between two of these a verdict that turns twice is not seen: each is a quarter longer than the one before. */
const GROWTH = 1.25;

/** @param bound_m the longest that is looked at */
export async function lengthLimits(lineUp: LineUp, cableId: string, bound_m = 2000, watching: Watching = {}): Promise<LengthLimits> {
  const cable = lineUp.cables.find(({ id }) => id === cableId);
  const { length_m, lengthMost_m } = cable ?? {};
  const drawn_m = Math.max(length_m ?? 0, lengthMost_m ?? 0);
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
      holds: around(stretchesOf(flips, bound_m), drawn_m),
    });
  }
  const turning = new Set(limits.map(({ check }) => check));
  const always = [...(await at(bound))].flatMap(([check, { title, verdict }]) =>
    turning.has(check) || settled(verdict) ? [] : [{ check, title, verdict }],
  );
  const stretches = new Map(limits.map((limit) => [limit, stretchesOf(limit.flips, bound_m)] as const));
  const joint = [...stretches.values()].reduce(common, [{ from_m: 0, to_m: bound_m }]).filter(buildable);
  const passes = around(joint, drawn_m);
  const ends = (limit: LengthLimit): boolean => stretches.get(limit)?.some(({ to_m }) => to_m === passes?.to_m) ?? false;
  const governs = passes && passes.to_m < bound_m ? (limits.find(ends) ?? null) : null;
  return { limits, passes, governs, against: passes ? [] : leavingNone(stretches), always, bound_m };
}
