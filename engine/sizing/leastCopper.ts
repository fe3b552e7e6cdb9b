import { type Finding, SIZE_UP } from '../checks/finding.ts';
import { protectiveEarth } from '../checks/groundChecks.ts';
import type { Review } from '../checks/solved.ts';
import type { Cable } from '../lineup/cable.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import type { Zone } from '../network/network.ts';
import { createReviewer } from '../review/createReviewer.ts';
import { area_mm2, type Choice, choiceOf, standardSizes, volume_m3 } from './choices.ts';
import { Ladder } from './ladder.ts';
import { type Broken, searchGroup } from './searchGroup.ts';
import { type Choices, Site } from './site.ts';
import { badness, CABLE_CHECKS, isOwn, SIZE_RULES, type SizeRule, unitOf, worstByUnit } from './sizeChecks.ts';
import { firstThat, type Judging, stepsOf } from './sizeSteps.ts';
import { type Watching, watched } from './watched.ts';

/**
 * The sizes that pass every check with the least conductor, for all cables of a line-up together. A combination passes when no check that a
 * size decides says anything worse of any part than the best that any size can make of it: faults that no size mends do not hide the answer,
 * they are told beside it. Nothing is taken for better than the checks themselves say: each combination is judged by them.
 */

export interface SizingOptions extends Watching {
  /** Ids of cables that are bought or laid: they keep their size. Without it those that the document calls existing. */
  readonly locked?: readonly string[];
  /** Sets in parallel that may be used; never fewer than are drawn. Without it no more than are drawn. */
  readonly mostSets?: number;
  /** Sizes to choose from; without it all standard sizes of the cable's metal and system. */
  readonly sizes?: readonly string[];
  /** How many combinations of cables that decide together may be judged before the proof that nothing less passes is given up. */
  readonly budget?: number;
}

/** Some seconds on a small computer. */
const BUDGET = 3000;

/** A check that stands against a size. */
export type Obstacle = Pick<Finding, 'id' | 'check' | 'subject' | 'verdict' | 'text' | 'remedies'>;

export interface CableSizing {
  readonly id: string;
  readonly tag: string;
  readonly locked: boolean;
  readonly now: Choice | null;
  /** Null where no size meets every check, or where what is missing leaves it unknown: `unmet` says which. */
  readonly least: Choice | null;
  readonly volumeNow_m3: number | null;
  readonly volume_m3: number | null;
  /** The check that the next size down breaks; null where there is none, or nothing less is made. */
  readonly governs: string | null;
  readonly below: Choice | null;
  readonly breaks: readonly Obstacle[];
}

export interface Unmet extends Obstacle {
  /** Tags of the cables that are left without a size for it. */
  readonly cables: readonly string[];
  /** False where the budget was spent before it was shown that no size meets it: none was found. */
  readonly proved: boolean;
  /** Tags of locked cables that are in its way. */
  readonly locked: readonly string[];
  /** The nearest sizes that would meet it, and what they break; null where no size meets it, whatever else it breaks, or none is known to. */
  readonly inTheWay: InTheWay | null;
}

export interface InTheWay {
  readonly sizes: readonly { readonly tag: string; readonly choice: Choice }[];
  readonly breaks: readonly Obstacle[];
}

/** A finding that some size would meet, were it not for what else that breaks, and how bad it may be to be met. */
interface Mendable {
  readonly finding: Finding;
  readonly about: readonly string[];
  readonly aim: number;
}

/** Cables that decide together and whose sizes were not shown to be the least when the budget was spent. */
export interface NotProved {
  readonly cables: readonly string[];
  /** The least that was found to pass. */
  readonly volume_m3: number;
  /** No combination is below this. */
  readonly bound_m3: number;
}

export interface LeastCopper {
  readonly cables: readonly CableSizing[];
  /** Of all cables that have a size, sets counted, three phases. */
  readonly volume_m3: number;
  /** What no size meets. */
  readonly unmet: readonly Unmet[];
  /** Empty where everything that has a size is shown to be the least there is. */
  readonly notProved: readonly NotProved[];
  /** What the checks of size still say with this answer: no size mends it, or nothing can be said yet. */
  readonly beside: readonly Obstacle[];
  /** Tags of cables that cannot be sized: not fed, or of unknown length. */
  readonly left: readonly string[];
  /** The document with these sizes. */
  readonly lineUp: LineUp;
  /** How many times a combination was judged, by all checks or by some. */
  readonly judged: number;
}

export const leastCopper = (lineUp: LineUp, options: SizingOptions = {}): Promise<LeastCopper> => new Sizing(lineUp, options).solve();

type Judge = (choices: Choices) => Promise<readonly Finding[]>;

class Sizing {
  readonly #site: Site;
  readonly #options: SizingOptions;
  readonly #ladders = new Map<string, Ladder>();
  /** What may be said of a unit that several cables decide: the best of both ends of all ladders, or what had to be let pass. */
  readonly #allowed = new Map<string, number>();
  readonly #unmet = new Map<string, Omit<Unmet, 'inTheWay'>>();
  readonly #mendable = new Map<string, Mendable>();
  #notProved: (NotProved & { readonly ladders: readonly Ladder[] })[] = [];
  /** All checks; those that neither solve waves nor were settled by the ladder of their cable; those that solve waves. Each remembers what it judged last. */
  readonly #all: Judge;
  readonly #quick: Judge;
  readonly #waves: Judge;
  #judged = 0;

  constructor(lineUp: LineUp, options: SizingOptions) {
    const site = new Site(lineUp);
    this.#site = site;
    this.#options = options;
    const reviewed = watched((review: () => Review) => {
      this.#judged++;
      return review().findings;
    }, options);
    const judge = (of?: (rule: SizeRule) => boolean): Judge => {
      const ask = site.judge(of);
      // Zone after zone starts from what the last one found, often unchanged.
      let last: { readonly key: string; readonly said: Promise<readonly Finding[]> } | null = null;
      return (choices) => {
        const key = [...this.#ladders.keys()].map((id) => `${choices.get(id)?.sets}×${choices.get(id)?.size}`).join();
        if (last?.key !== key) last = { key, said: reviewed(() => ask(choices)) };
        return last.said;
      };
    };
    [this.#all, this.#quick, this.#waves] = [
      judge(),
      judge(({ waves, reach }) => !waves && reach !== 'cable'),
      judge(({ waves }) => waves === true),
    ];
    for (const cable of site.cables) {
      const locked = options.locked?.includes(cable.id) ?? cable.installation.existing === true;
      if (locked && !choiceOf(cable)) continue;
      const sizes = options.sizes ?? standardSizes(cable, lineUp.project.basis);
      const kindest = (): Choices =>
        new Map(
          site.neighbours(cable.id).flatMap((id): [string, Choice][] => {
            const other = this.#ladders.get(id);
            return other ? [[id, other.least]] : [];
          }),
        );
      this.#ladders.set(cable.id, new Ladder(site, cable, sizes, options.mostSets ?? 1, locked, kindest));
    }
  }

  async solve(): Promise<LeastCopper> {
    const ends = async (...each: readonly Choices[]): Promise<readonly (readonly Finding[])[]> => {
      const said: (readonly Finding[])[] = [];
      for (const choices of each) said.push(await this.#all(choices));
      return said;
    };
    const free = await ends(
      this.#at(({ top }) => top),
      this.#at(({ bottom }) => bottom),
    );
    this.#allowBest(free, ({ check }) => (SIZE_RULES[check] as SizeRule).floor === true);
    // What is out of reach only because some cables are locked.
    if ([...this.#ladders.values()].some(({ locked }) => locked))
      this.#allowBest(
        await ends(
          this.#at(({ most }) => most),
          this.#at(({ least }) => least),
        ),
        () => true,
      );
    for (const ladder of this.#ladders.values()) {
      for (const each of ladder.yield()) this.#refuse(each, [ladder.cable.id], { sizeMends: true });
      for (const each of ladder.openFloors()) this.#refuse(each, [ladder.cable.id]);
    }

    // Zone by zone: those behind a drive with the best that its feeders could bring.
    const found = new Map(this.#at((ladder) => ladder.at(0)));
    const groups = this.#groups();
    const atBest = new Map([...found, ...this.#at((ladder) => (this.#isOutput(ladder) ? undefined : ladder.most))]);
    const [broken, brokenAtBest] = [await this.#broken(found), await this.#broken(atBest)];
    for (const group of groups) {
      const apart = group.every(this.#isOutput);
      const [others, first] = apart ? [atBest, brokenAtBest] : [found, broken];
      if (first.some((each) => this.#within(each, group, apart))) await this.#search(group, others, found, apart);
    }
    // Where the feeders that were found bring less than the best, a drive and the feeders of its own are searched as one, the others at
    // their best; and the feeders it shares, with its own at their best. What these bounds leave broken is searched all together.
    const short = await this.#broken(found);
    const branches = this.#branches(groups, short);
    const branched = new Set(branches.flat());
    if (branches.length > 0) {
      for (const branch of branches) await this.#search(branch, atBest, found, true);
      const shared = groups.filter((group) => !group.every(this.#isOutput)).map((group) => group.filter((ladder) => !branched.has(ladder)));
      const ownAtBest = this.#at((ladder) => (branched.has(ladder) && !this.#isOutput(ladder) ? ladder.most : undefined));
      for (const group of shared) if (group.length > 0) await this.#search(group, new Map([...found, ...ownAtBest]), found, true);
    }
    const joint = new Set<Ladder>();
    for (let left = await this.#broken(found); left.length > 0; left = await this.#broken(found)) {
      const ids = new Set(left.flatMap(({ deciders }) => [...deciders]));
      for (const group of groups) if (group.some(({ cable }) => ids.has(cable.id))) for (const ladder of group) joint.add(ladder);
      // What a drive and its own feeders were found to need is a bound for them together, not for its lead alone: they go together.
      for (const branch of branches) if (branch.some((ladder) => joint.has(ladder))) for (const ladder of branch) joint.add(ladder);
      await this.#search([...joint], found, found, false);
    }
    return this.#answer(found);
  }

  #isOutput = (ladder: Ladder): boolean => this.#site.zoneOf(ladder.cable.id)?.kind === 'output';

  #laddersOf(ids: Iterable<string>): readonly Ladder[] {
    return [...ids].flatMap((id) => this.#ladders.get(id) ?? []);
  }

  #at(of: (ladder: Ladder) => Choice | undefined): Choices {
    return new Map(
      [...this.#ladders].flatMap(([id, ladder]): [string, Choice][] => {
        const choice = of(ladder);
        return choice ? [[id, choice]] : [];
      }),
    );
  }

  /** Units that several cables decide may be as bad as they are at the better end of all ladders. */
  #allowBest(ends: readonly (readonly Finding[])[], told: (finding: Finding) => boolean): void {
    const [said, ...others] = ends.map(worstByUnit);
    for (const [unit, finding] of said ?? []) {
      if (isOwn(finding)) continue;
      const nearest = others
        .map((each) => each.get(unit))
        .reduce((a, b) => (badnessOf(b) < badnessOf(a) ? b : a), finding as Finding | undefined);
      if (!nearest || badness(nearest) <= (this.#allowed.get(unit) ?? 0)) continue;
      this.#allowed.set(unit, badness(nearest));
      if (told(nearest)) this.#refuse(nearest, this.#site.about(nearest));
    }
  }

  /** @param sizeMends some size would, were it not for what else it breaks: that may be changed too */
  #refuse(finding: Finding, ids: readonly string[], { proved = true, sizeMends = false } = {}): void {
    const ladders = this.#laddersOf(ids);
    if (ladders.length === 0) return;
    const locked = this.#laddersOf(this.#site.deciders(finding)).filter((ladder) => ladder.locked);
    if (sizeMends && proved) {
      const own = isOwn(finding) ? this.#ladders.get(finding.subject.id) : undefined;
      const aim = Math.max(this.#allowed.get(unitOf(finding)) ?? 0, own?.bestOf(finding.check) ?? 0);
      this.#mendable.set(unitOf(finding), { finding, about: ids, aim });
    }
    this.#unmet.set(unitOf(finding), {
      ...obstacle(finding),
      // No size mends it: advice to take another is none, unless that of a cable that keeps its own.
      remedies: sizeMends || locked.length > 0 ? finding.remedies : finding.remedies.filter((each) => !each.startsWith(SIZE_UP)),
      proved,
      cables: ladders.map(({ cable }) => cable.tag),
      locked: locked.map(({ cable }) => cable.tag),
    });
  }

  /** Cables that decide together: those of a zone, and zones that share terminals or a pipe. */
  #groups(): readonly (readonly Ladder[])[] {
    const zonesOf = (ids: readonly string[]): readonly Zone[] => ids.flatMap((id) => this.#site.zoneOf(id) ?? []);
    const groupOf = new Map<Zone, Ladder[]>();
    for (const [id, ladder] of this.#ladders) {
      const zones = zonesOf([id, ...this.#site.neighbours(id)]);
      const merged = [...new Set(zones.flatMap((zone) => groupOf.get(zone) ?? []))];
      merged.push(ladder);
      for (const zone of [...zones, ...zonesOf(merged.map(({ cable }) => cable.id))]) groupOf.set(zone, merged);
    }
    return [...new Set(groupOf.values())];
  }

  /** Each group of cables behind a drive that something is broken of, with the feeders that feed nothing else. */
  #branches(groups: readonly (readonly Ladder[])[], broken: readonly Broken[]): readonly (readonly Ladder[])[] {
    const ids = new Set(broken.flatMap(({ about }) => about));
    return groups
      .filter((group) => group.every(this.#isOutput) && group.some(({ cable }) => ids.has(cable.id)))
      .map((group) => {
        const own = new Set(group.flatMap(({ cable }) => this.#site.ownFeeders(cable.id)));
        return [...group, ...this.#laddersOf(own)];
      });
  }

  /** Whether a group answers for it: apart, with the others at their best, for what it is about; else only with all that decide it. */
  #within({ deciders, about }: Broken, group: readonly Ladder[], apart: boolean): boolean {
    const ids = new Set(group.map(({ cable }) => cable.id));
    const asked = apart ? about : [...deciders];
    return asked.some((id) => ids.has(id)) && asked.every((id) => ids.has(id) || !this.#ladders.has(id));
  }

  async #broken(choices: Choices, judge = this.#all): Promise<readonly Broken[]> {
    return this.#brokenOf(await judge(choices));
  }

  /** @param strictly what was let pass is broken too, where some size would meet it */
  #brokenOf(findings: readonly Finding[], strictly = false): readonly Broken[] {
    return [...worstByUnit(findings)].flatMap(([unit, finding]): Broken[] => {
      const rule = SIZE_RULES[finding.check] as SizeRule;
      const ladder = this.#ladders.get(finding.subject.id);
      const own = isOwn(finding);
      // What is said of a cable that keeps its size for want of a length is not of this search.
      if (own && !ladder) return [];
      const passed = Math.max(this.#allowed.get(unit) ?? 0, ladder?.allowance(finding) ?? 0);
      const allowed = strictly ? (this.#mendable.get(unit)?.aim ?? passed) : passed;
      if (badness(finding) <= allowed) return [];
      return [
        {
          unit,
          finding,
          deciders: this.#site.deciders(finding),
          about: this.#site.about(finding),
          moreHelps: rule.moreHelps,
          waves: rule.waves === true,
        },
      ];
    });
  }

  /** Searches one group while the others stay as they are; what cannot be met together is let pass, told, and searched without. */
  async #search(group: readonly Ladder[], others: Choices, found: Map<string, Choice>, apart: boolean): Promise<void> {
    // What an earlier search left unproved is proved or not by this one.
    this.#notProved = this.#notProved.filter(({ ladders }) => !ladders.some((each) => group.includes(each)));
    const ask = (judge: Judge) => async (choices: Choices) =>
      (await this.#broken(new Map([...others, ...choices]), judge)).filter((each) => this.#within(each, group, apart));
    for (;;) {
      const result = await searchGroup(group, { quick: ask(this.#quick), waves: ask(this.#waves), budget: this.#options.budget ?? BUDGET });
      if ('choices' in result) {
        for (const [id, choice] of result.choices) found.set(id, choice);
        if (result.bound_m3 !== null)
          this.#notProved.push({
            ladders: group,
            cables: group.map(({ cable }) => cable.tag),
            volume_m3: group.reduce((sum, { cable }) => sum + volumeOf(cable, result.choices), 0),
            bound_m3: result.bound_m3,
          });
        return;
      }
      for (const { unit, finding } of result.broken) {
        this.#refuse(finding, this.#site.about(finding), { proved: result.proved, sizeMends: true });
        this.#allowed.set(unit, badness(finding));
      }
    }
  }

  async #answer(found: Choices): Promise<LeastCopper> {
    // That a ground grows with larger phases is not asked while they are searched for, and told of what was found.
    const grown = createReviewer([protectiveEarth], false).review(this.#site.with(found)).findings;
    const findings = [...(await this.#all(found)).filter(({ check }) => check !== protectiveEarth.slug), ...grown];
    const without = new Set([...this.#unmet.values()].flatMap(({ cables }) => cables));
    const cables: CableSizing[] = [];
    for (const [id, ladder] of this.#ladders) {
      const { cable, locked } = ladder;
      const now = choiceOf(cable);
      const least = without.has(cable.tag) ? null : (found.get(id) ?? null);
      const below = least && !locked ? ladder.below(least) : null;
      const breaks = below ? await this.#breaks(ladder, below, found) : [];
      cables.push({
        id,
        tag: cable.tag,
        locked,
        now,
        least,
        volumeNow_m3: now && volume_m3(cable, now),
        volume_m3: least && volume_m3(cable, least),
        governs: breaks[0]?.check ?? null,
        below,
        breaks,
      });
    }
    const sized = new Set(this.#ladders.keys());
    const inTheWay = await this.#inTheWay(found);
    return {
      cables,
      volume_m3: cables.reduce((sum, each) => sum + (each.volume_m3 ?? 0), 0),
      unmet: [...this.#unmet].map(([unit, each]) => ({ ...each, inTheWay: inTheWay.get(unit) ?? null })),
      notProved: this.#notProved.map(({ ladders: _, ...told }) => told),
      beside: findings.filter((each) => each.check in SIZE_RULES && unsettled(each) && !this.#unmet.has(unitOf(each))).map(obstacle),
      left: this.#site.lineUp.cables
        .filter(({ id, kind, length_m }) => kind === 'cable' && !sized.has(id) && length_m !== 0)
        .map(({ tag }) => tag),
      lineUp: this.#site.with(new Map(cables.flatMap(({ id, least }): [string, Choice][] => (least ? [[id, least]] : [])))),
      judged: this.#judged,
    };
  }

  /** By what each is said of: groups behind drives together, which have no part in each other; then those that others hang on, one by one. */
  async #inTheWay(found: Choices): Promise<ReadonlyMap<string, InTheWay | null>> {
    const told = new Map<string, InTheWay | null>();
    const groups = this.#groups();
    const behind = groups.filter((group) => group.every(this.#isOutput));
    const ahead = groups.filter((group) => !behind.includes(group));
    for (const together of [behind, ...ahead.map((group) => [group])]) {
      let asking = together.map((group) => {
        const judging = this.#inTurn(group, found, told);
        return { judging, asked: judging.next() };
      });
      for (;;) {
        asking = asking.filter(({ asked }) => !asked.done);
        if (asking.length === 0) break;
        const findings = await this.#all(new Map([...found, ...asking.flatMap(({ asked }) => (asked.done ? [] : [...asked.value]))]));
        asking = asking.map(({ judging }) => ({ judging, asked: judging.next(findings) }));
      }
    }
    return told;
  }

  *#inTurn(group: readonly Ladder[], found: Choices, told: Map<string, InTheWay | null>): Judging<void> {
    for (const [unit, each] of this.#mendable)
      if (group.some(({ cable }) => cable.id === each.about[0])) told.set(unit, yield* this.#barring(each, found));
  }

  /** The nearest sizes of the cables that a finding is about which would meet it, and what stands against them. */
  *#barring({ finding, about, aim }: Mendable, found: Choices): Judging<InTheWay | null> {
    const rule = SIZE_RULES[finding.check] as SizeRule;
    if (rule.waves) return null;
    const own = CABLE_CHECKS.find(({ slug }) => slug === finding.check);
    const site = this.#site;
    const meets = function* (step: Choices): Judging<boolean> {
      const said = own
        ? (site.local(own, finding.subject.id, new Map([...found, ...step])) ?? undefined)
        : worstByUnit(yield step).get(unitOf(finding));
      return badnessOf(said) <= aim;
    };
    const ladders = this.#laddersOf(about).filter(({ locked }) => !locked);
    for (const steps of stepsOf(ladders, found, rule.moreHelps)) {
      const step = yield* firstThat(steps, meets, rule.moreHelps !== null);
      if (!step) continue;
      const choices = new Map([...found, ...step]);
      const more = sumOf(choices) > sumOf(found);
      // Its own checks first, which solve nothing.
      const touched = new Set([...step.keys()].flatMap((id) => [id, ...site.neighbours(id)]));
      const local = [...touched].flatMap((id) => CABLE_CHECKS.flatMap((check) => site.local(check, id, choices) ?? []));
      // What the step itself can only help is not in its way.
      const barred = (findings: readonly Finding[]) =>
        this.#brokenOf(findings, true).filter(({ deciders, moreHelps }) => moreHelps !== more && [...deciders].some((id) => step.has(id)));
      const ownBarred = barred(local);
      const against = ownBarred.length > 0 ? ownBarred : barred(yield step);
      if (against.length === 0) continue;
      const sizes = ladders.flatMap(({ cable: { id, tag } }) => {
        const choice = step.get(id);
        return choice ? [{ tag, choice }] : [];
      });
      return { sizes, breaks: against.map((each) => obstacle(each.finding)) };
    }
    return null;
  }

  /** What breaks when this cable alone is a size smaller: its own checks first, which solve nothing. */
  async #breaks(ladder: Ladder, below: Choice, found: Choices): Promise<readonly Obstacle[]> {
    const own = ladder.excess(below);
    if (own.length > 0) return own.map(obstacle);
    return (await this.#broken(new Map([...found, [ladder.cable.id, below]]))).map(({ finding }) => obstacle(finding));
  }
}

const volumeOf = (cable: Cable, choices: Choices): number => {
  const choice = choices.get(cable.id);
  return choice ? volume_m3(cable, choice) : 0;
};
const sumOf = (choices: Choices): number => [...choices.values()].reduce((sum, each) => sum + area_mm2(each), 0);
const badnessOf = (finding: Finding | undefined): number => (finding ? badness(finding) : 0);
const unsettled = ({ verdict }: Finding): boolean => verdict === 'fail' || verdict === 'open' || verdict === 'caution';
const obstacle = ({ id, check, subject, verdict, text, remedies }: Finding): Obstacle => ({ id, check, subject, verdict, text, remedies });
