import type { Finding } from '../checks/finding.ts';
import type { Cable } from '../lineup/cable.ts';
import type { Choice } from './choices.ts';
import type { Ladder } from './ladder.ts';

/**
 * The least conductor of cables that decide together. Places on the ladders are searched in the order of their volume, so the first that
 * breaks nothing is the least: best first, with the volume of a place as the bound of all places above it. A place that breaks something
 * is split by which cable that decides it is raised first, at once as far as it must be with the most of all others. What more conductor
 * anywhere could not mend is not followed. The proof has a budget: where it is spent, the best that was found is told with the bound.
 */

/** Something that comes out worse than it may, with the cables that decide it. */
export interface Broken {
  readonly unit: string;
  readonly finding: Finding;
  readonly deciders: ReadonlySet<string>;
  /** Of them those it is about. */
  readonly about: readonly string[];
  readonly moreHelps: boolean | null;
  readonly waves: boolean;
}

/** What is broken with these choices; cables of the group that are not named keep the place asked last. */
type Ask = (choices: ReadonlyMap<string, Choice>) => Promise<readonly Broken[]>;

export interface Asking {
  /** All that costs little. */
  readonly quick: Ask;
  /** What solves waves: asked only of places where nothing else is broken. */
  readonly waves: Ask;
  /** How much may be asked before the proof is given up, `WAVES_COST` for waves and one for all else: a count, the same on every machine. */
  readonly budget: number;
}

/** What the search asks of the ladder of a cable. */
export type Rungs = Pick<Ladder, 'locked' | 'most' | 'at' | 'leastAbove' | 'volume_m3'> & { readonly cable: Pick<Cable, 'id'> };

interface Place {
  readonly at: readonly number[];
  /** Ladders that may not be climbed from here on: places above them are another branch's. */
  readonly held: readonly boolean[];
  readonly volume_m3: number;
}

export type Searched =
  /** The least there is; with a bound the least that was found: none is below the bound. */
  | { readonly choices: ReadonlyMap<string, Choice>; readonly bound_m3: number | null }
  /** No place is free of faults, and the nearest has these; not proved where the budget was spent before one was found. */
  | { readonly broken: readonly Broken[]; readonly proved: boolean };

const WAVES_COST = 10;

export async function searchGroup(ladders: readonly Rungs[], asking: Asking): Promise<Searched> {
  const idOf = (i: number): string => ladders[i]?.cable.id ?? '';
  const named = (of: (ladder: Rungs, i: number) => Choice | undefined): ReadonlyMap<string, Choice> =>
    new Map(
      ladders.flatMap((ladder, i): [string, Choice][] => {
        const choice = of(ladder, i);
        return choice ? [[ladder.cable.id, choice]] : [];
      }),
    );
  const choicesAt = (at: readonly number[]) => named((ladder, i) => ladder.at(at[i] ?? 0));
  const volume_m3 = (at: readonly number[]): number => ladders.reduce((sum, ladder, i) => sum + ladder.volume_m3(at[i] ?? 0), 0);
  const stepped = (at: readonly number[], i: number, to: number): readonly number[] => at.map((index, k) => (k === i ? to : index));
  let asked = 0;
  // Bounds of different places are often the same choices: what was said of them is kept.
  const remembered = (ask: Ask, cost: number): Ask => {
    const heard = new Map<string, readonly Broken[]>();
    return async (choices) => {
      const key = ladders.map(({ cable: { id } }) => `${choices.get(id)?.sets}×${choices.get(id)?.size}`).join();
      let said = heard.get(key);
      if (!said) {
        asked += cost;
        said = await ask(choices);
        heard.set(key, said);
      }
      return said;
    };
  };
  const [quick, waves] = [remembered(asking.quick, 1), remembered(asking.waves, WAVES_COST)];
  // One fault is enough to leave a place, and to split it: the others are asked of it only when there is none of the cheap ones.
  const ask: Ask = async (choices) => {
    const found = await quick(choices);
    return found.length > 0 ? found : waves(choices);
  };
  // Only for checks that more conductor can but help or but harm, and those solve no waves.
  const breaks = async (unit: string, choices: ReadonlyMap<string, Choice>): Promise<boolean> =>
    (await quick(choices)).some((each) => each.unit === unit);

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
        const from = foot[i] ?? 0;
        foot[i] = await leastStep(each, i, from, (ladder) => ladder.most);
        if (ladders[i]?.at(foot[i] ?? 0) === undefined) return { broken: [each], proved: true };
        if (foot[i] !== from) climbed = true;
      }
    }
  }
  if (broken.length === 0) return { choices: choicesAt(foot), bound_m3: null };

  const start: Place = { at: foot, held: ladders.map(() => false), volume_m3: volume_m3(foot) };
  const queue: Place[] = [start];
  let closest = broken;
  const nearer = (a: readonly Broken[], b: readonly Broken[]): boolean =>
    solvesWaves(a) === solvesWaves(b) ? a.length < b.length : solvesWaves(a);
  for (let place = queue.shift(); place; place = queue.shift()) {
    if (asked >= asking.budget) return dive(place);
    const choices = choicesAt(place.at);
    const found = await ask(choices);
    if (found.length === 0) return { choices, bound_m3: null };
    if (nearer(found, closest)) closest = found;
    for (const next of await above(place, found)) put(queue, next);
  }
  return { broken: closest, proved: true };

  /**
   * The proof is given up. No place that is left is below the one that comes next, which is therefore the bound. A place that breaks
   * nothing is looked for from the foot up, then at the most conductor, and from there down again, cable by cable.
   */
  async function dive(next: Place): Promise<Searched> {
    const bound_m3 = next.volume_m3;
    const best = (await greedy(foot)) ?? (await greedy(ladders.map((ladder, i) => lastOf(ladder, foot[i] ?? 0))));
    if (!best) return { broken: closest, proved: false };
    // Down again wherever nothing breaks: the most volume that a step saves first.
    let now = best;
    let held = ladders.map(() => false);
    for (;;) {
      const at = now;
      const saving = (i: number): number => (ladders[i]?.volume_m3(at[i] ?? 0) ?? 0) - (ladders[i]?.volume_m3((at[i] ?? 0) - 1) ?? 0);
      const steps = [...ladders.keys()].filter((i) => !held[i] && (at[i] ?? 0) > (foot[i] ?? 0)).sort((a, b) => saving(b) - saving(a));
      const [i] = steps;
      if (i === undefined) return { choices: choicesAt(at), bound_m3 };
      const lower = stepped(at, i, (at[i] ?? 0) - 1);
      if ((await ask(choicesAt(lower))).length === 0) now = lower;
      else held = held.map((each, k) => each || k === i);
    }
  }

  /** Climbs from a place, each time where the least volume mends most, until nothing is broken; null where that leads nowhere. */
  async function greedy(from: readonly number[]): Promise<readonly number[] | null> {
    let at = from;
    for (;;) {
      const found = await ask(choicesAt(at));
      if (found.length === 0) return at;
      const worst = found.filter(({ moreHelps }) => moreHelps !== false)[0];
      if (!worst) return null;
      const steps = ladders.flatMap((ladder, i) => {
        const to = (at[i] ?? 0) + 1;
        const open = worst.deciders.has(idOf(i)) && !ladder.locked && ladder.at(to) !== undefined;
        return open ? [{ i, to, costs_m3: ladder.volume_m3(to) - ladder.volume_m3(to - 1) }] : [];
      });
      const [step] = steps.sort((a, b) => a.costs_m3 - b.costs_m3);
      if (!step) return null;
      at = stepped(at, step.i, step.to);
    }
  }

  /** The places to look at above one that breaks something: none where what it breaks cannot be mended there. */
  async function above({ at, held }: Place, found: readonly Broken[]): Promise<readonly Place[]> {
    if (!(await mendable(found, at, held))) return [];
    const first = found.reduce((a, b) => (climbable(b, held).length < climbable(a, held).length ? b : a));
    const nowHeld = [...held];
    const places: Place[] = [];
    for (const i of climbable(first, held)) {
      // All places of this branch have this cable higher, those held where they are, the others anywhere: what still breaks with the most
      // of all others breaks in every one of them, so the first step that does not is where the branch begins.
      const holding = [...nowHeld];
      const to =
        first.moreHelps === true
          ? await leastStep(first, i, (at[i] ?? 0) + 1, (ladder, k) => (holding[k] ? ladder.at(at[k] ?? 0) : ladder.most))
          : (at[i] ?? 0) + 1;
      const next = stepped(at, i, to);
      if (ladders[i]?.at(to) !== undefined) places.push({ at: next, held: holding, volume_m3: volume_m3(next) });
      nowHeld[i] = true;
    }
    return places;
  }

  /** The first step of a ladder from one on with which a fault that more conductor mends is none, with the others as they are given. */
  async function leastStep(
    { unit }: Broken,
    i: number,
    from: number,
    others: (ladder: Rungs, k: number) => Choice | undefined,
  ): Promise<number> {
    const own = ladders[i];
    const stays = (step: number): Promise<boolean> =>
      breaks(
        unit,
        named((ladder, k) => (k === i ? own?.at(step) : others(ladder, k))),
      );
    if (own?.at(from) === undefined || !(await stays(from))) return from;
    // Strides that double, then halves: it seldom is far.
    let [low, high] = [from, from + 1];
    for (let stride = 1; own.at(high) !== undefined && (await stays(high)); stride *= 2) [low, high] = [high, high + stride];
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (own.at(middle) !== undefined && (await stays(middle))) low = middle;
      else high = middle;
    }
    return high;
  }

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

/** Faults that only waves tell of are told of places where nothing else is broken. */
const solvesWaves = (broken: readonly Broken[]): boolean => broken.every(({ waves }) => waves);

/** The highest step of a ladder from one on. */
function lastOf(ladder: Rungs, from: number): number {
  let last = from;
  while (ladder.at(last + 1) !== undefined) last++;
  return last;
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
