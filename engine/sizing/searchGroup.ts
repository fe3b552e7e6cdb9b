import type { Finding } from '../checks/finding.ts';
import type { Choice } from './choices.ts';
import type { Ladder } from './ladder.ts';

/**
 * The least conductor of cables that decide together. Places on the ladders are searched in the order of their volume, so the first that
 * breaks nothing is the least: best first, with the volume of a place as the bound of all places above it. A place that breaks something
 * is split by which cable that decides it is raised first. What more conductor anywhere could not mend is not followed.
 */

/** Something that comes out worse than it may, with the cables that decide it. */
export interface Broken {
  readonly unit: string;
  readonly finding: Finding;
  readonly deciders: ReadonlySet<string>;
  /** Of them those it is about. */
  readonly about: readonly string[];
  readonly moreHelps: boolean | null;
}

/** What is broken with these choices; cables of the group that are not named keep the place asked last. */
type Ask = (choices: ReadonlyMap<string, Choice>) => Promise<readonly Broken[]>;

interface Place {
  readonly at: readonly number[];
  /** Ladders that may not be climbed from here on: places above them are another branch's. */
  readonly held: readonly boolean[];
  readonly volume_m3: number;
}

export type Searched = { readonly choices: ReadonlyMap<string, Choice> } | { readonly broken: readonly Broken[] };

export async function searchGroup(ladders: readonly Ladder[], ask: Ask): Promise<Searched> {
  const idOf = (i: number): string => ladders[i]?.cable.id ?? '';
  const named = (of: (ladder: Ladder, i: number) => Choice | undefined): ReadonlyMap<string, Choice> =>
    new Map(
      ladders.flatMap((ladder, i): [string, Choice][] => {
        const choice = of(ladder, i);
        return choice ? [[ladder.cable.id, choice]] : [];
      }),
    );
  const choicesAt = (at: readonly number[]) => named((ladder, i) => ladder.at(at[i] ?? 0));
  const volume_m3 = (at: readonly number[]): number => ladders.reduce((sum, ladder, i) => sum + ladder.volume_m3(at[i] ?? 0), 0);
  const breaks = async (unit: string, choices: ReadonlyMap<string, Choice>): Promise<boolean> =>
    (await ask(choices)).some((each) => each.unit === unit);

  // Places at the foot of a ladder that stay broken with the most conductor everywhere else are none: nothing above keeps them.
  const foot = ladders.map(() => 0);
  let broken: readonly Broken[] = [];
  for (let climbed = true; climbed; ) {
    climbed = false;
    broken = await ask(choicesAt(foot));
    for (const each of broken) {
      if (each.moreHelps !== true) continue;
      for (const i of ladders.keys()) {
        if (!each.about.includes(idOf(i))) continue;
        const alone = named((ladder, k) => (k === i ? ladder.at(foot[k] ?? 0) : ladder.most));
        if (!(await breaks(each.unit, alone))) continue;
        foot[i] = (foot[i] ?? 0) + 1;
        if (ladders[i]?.at(foot[i] ?? 0) === undefined) return { broken: [each] };
        climbed = true;
      }
    }
  }
  if (broken.length === 0) return { choices: choicesAt(foot) };

  const queue: Place[] = [{ at: foot, held: ladders.map(() => false), volume_m3: volume_m3(foot) }];
  let closest = broken;
  for (let place = queue.shift(); place; place = queue.shift()) {
    const { at, held } = place;
    const choices = choicesAt(at);
    const found = await ask(choices);
    if (found.length === 0) return { choices };
    if (found.length < closest.length) closest = found;
    if (!(await mendable(found, at, held))) continue;
    const first = found.reduce((a, b) => (climbable(b, held).length < climbable(a, held).length ? b : a));
    const nowHeld = [...held];
    for (const i of climbable(first, held)) {
      const next = at.map((index, k) => (k === i ? index + 1 : index));
      if (ladders[i]?.at(next[i] ?? 0) !== undefined) put(queue, { at: next, held: [...nowHeld], volume_m3: volume_m3(next) });
      nowHeld[i] = true;
    }
  }
  return { broken: closest };

  function climbable({ deciders }: Broken, held: readonly boolean[]): readonly number[] {
    return [...ladders.keys()].filter((i) => !held[i] && deciders.has(idOf(i)) && !ladders[i]?.locked);
  }

  /** Whether a place above this one may mend each: with what is not held at its kindest. */
  async function mendable(found: readonly Broken[], at: readonly number[], held: readonly boolean[]): Promise<boolean> {
    for (const each of found) {
      if (each.moreHelps === null) continue;
      const kindest = named((ladder, i) =>
        held[i] ? ladder.at(at[i] ?? 0) : each.moreHelps ? ladder.most : ladder.leastAbove(at[i] ?? 0),
      );
      if (await breaks(each.unit, kindest)) return false;
    }
    return true;
  }
}

/** Kept in order of volume; of two alike, the one put in first. */
function put(queue: Place[], place: Place): void {
  let [low, high] = [0, queue.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((queue[middle]?.volume_m3 ?? 0) <= place.volume_m3) low = middle + 1;
    else high = middle;
  }
  queue.splice(low, 0, place);
}
