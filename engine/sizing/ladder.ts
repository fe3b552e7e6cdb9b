import { conductorSize } from '../catalog/conductors.ts';
import type { Check } from '../checks/check.ts';
import type { Finding } from '../checks/finding.ts';
import type { Cable } from '../lineup/cable.ts';
import { area_mm2, type Choice, choiceOf, choicesOf, volume_m3 } from './choices.ts';
import type { Choices, Site } from './site.ts';
import { badness, CABLE_CHECKS, SIZE_RULES } from './sizeChecks.ts';

/** More than all other checks of a cable together: a size that carries too little, or of which no table says what it carries, is the farthest. */
const FLOOR_COST = 100;

/** What one cable may be made of, the least conductor first, with what its own checks leave of it. Looked at only as far as it is asked. */

export class Ladder {
  readonly cable: Cable;
  readonly locked: boolean;
  /** Least and most conductor that sizes and sets can make: bounds, whatever passes. */
  readonly bottom: Choice;
  readonly top: Choice;
  /** The same for this cable: of a locked one what it has. */
  readonly least: Choice;
  readonly most: Choice;
  readonly #site: Site;
  /** All that sizes and sets make, whatever passes. */
  readonly choices: readonly Choice[];
  readonly #around: () => Choices;
  readonly #best = new Map<string, number>();
  readonly #passed = new Map<string, number>();
  readonly #heard = new Map<string, Finding | null>();
  readonly #passing: Choice[] = [];
  #next = 0;

  /** @param around the choices of the cables beside it that are kindest to it */
  constructor(site: Site, cable: Cable, sizes: readonly string[], mostSets: number, locked: boolean, around: () => Choices) {
    this.#site = site;
    this.cable = cable;
    this.locked = locked;
    this.#around = around;
    const own = choiceOf(cable);
    const areas = [...sizes].sort((a, b) => (conductorSize(a)?.area_mm2 ?? 0) - (conductorSize(b)?.area_mm2 ?? 0));
    const sets = Math.max(mostSets, own?.sets ?? 1);
    this.bottom = { size: areas[0] ?? '', sets: 1 };
    this.top = { size: areas.at(-1) ?? '', sets };
    this.least = locked && own ? own : this.bottom;
    this.most = locked && own ? own : this.top;
    this.choices = choicesOf(areas, sets);
  }

  /** The nth choice that passes the checks of this cable alone, or undefined when there are no more. A locked cable has one. */
  at(index: number): Choice | undefined {
    if (this.locked) return index === 0 ? this.least : undefined;
    while (this.#passing.length <= index && this.#next < this.choices.length) {
      const choice = this.choices[this.#next++];
      if (choice && !CABLE_CHECKS.some((check) => this.#breaks(check, choice))) this.#passing.push(choice);
    }
    return this.#passing[index];
  }

  /** A bound for all choices from this one on: the thinnest wire that some number of sets makes as much conductor of, in one set. */
  leastAbove(index: number): Choice {
    const choice = this.at(index);
    if (this.locked || !choice) return this.least;
    const thin = this.choices.find(
      ({ size, sets }) => sets === 1 && area_mm2({ size, sets: this.most.sets }) >= area_mm2(choice) * (1 - 1e-9),
    );
    return thin ?? choice;
  }

  volume_m3(index: number): number {
    const choice = this.at(index);
    return choice ? volume_m3(this.cable, choice) : Number.POSITIVE_INFINITY;
  }

  /** What comes out worse with this choice than the best that any choice makes of it. */
  excess(choice: Choice): readonly Finding[] {
    return CABLE_CHECKS.flatMap((check) => this.#breaks(check, choice) ?? []);
  }

  /** How bad a check of this cable may be: the best of all choices, or what had to be let pass. */
  allowance({ check }: Pick<Finding, 'check'>): number {
    return Math.max(this.#passed.get(check) ?? 0, this.bestOf(check));
  }

  /** When no choice passes: the one that comes nearest stands in, and what it breaks is let pass and told. So it is with a locked one. */
  yield(): readonly Finding[] {
    if (this.locked) return this.letPass(this.excess(this.least));
    if (this.at(0)) return [];
    const broken = this.choices.map((choice) => this.excess(choice));
    const cost = (list: readonly Finding[]): number =>
      list.reduce((sum, each) => sum + badness(each) + (SIZE_RULES[each.check]?.floor ? FLOOR_COST : 0), 0);
    return this.letPass(broken.reduce((a, b) => (cost(b) < cost(a) ? b : a)));
  }

  /** What keeps a size from being named, whatever is chosen. */
  openFloors(): readonly Finding[] {
    const choice = this.at(0);
    if (!choice) return [];
    return CABLE_CHECKS.filter(({ slug }) => SIZE_RULES[slug]?.floor).flatMap((check) => {
      const said = this.#said(check, choice);
      return said && badness(said) > 0 ? [said] : [];
    });
  }

  letPass(findings: readonly Finding[]): readonly Finding[] {
    for (const each of findings) this.#passed.set(each.check, badness(each));
    this.#next = 0;
    this.#passing.length = 0;
    return findings;
  }

  /** The next size down with as many sets. */
  below(choice: Choice): Choice | null {
    const same = this.choices.filter(({ sets }) => sets === choice.sets);
    return same[same.findIndex(({ size }) => size === choice.size) - 1] ?? null;
  }

  #said(check: Check, choice: Choice): Finding | null {
    const key = `${check.slug}/${choice.size}/${choice.sets}`;
    let said = this.#heard.get(key);
    if (said === undefined) {
      said = this.#site.local(check, this.cable.id, new Map([...this.#around(), [this.cable.id, choice]]));
      this.#heard.set(key, said);
    }
    return said;
  }

  #breaks(check: Check, choice: Choice): Finding | null {
    const said = this.#said(check, choice);
    return said && badness(said) > 0 && badness(said) > this.allowance(said) ? said : null;
  }

  /** The best that any choice makes of a check of this cable alone. */
  bestOf(slug: string): number {
    const held = this.#best.get(slug);
    if (held !== undefined) return held;
    const check = CABLE_CHECKS.find((each) => each.slug === slug);
    const said = (choice: Choice): Finding | null => (check ? this.#said(check, choice) : null);
    let best = 3;
    // What the least and the most conductor both wait for, all between wait for: no check asks for other values in the middle.
    if (lackTheSame(said(this.bottom), said(this.top))) best = 2;
    else
      for (const choice of this.choices) {
        const finding = said(choice);
        best = Math.min(best, finding ? badness(finding) : 0);
        if (best === 0) break;
      }
    this.#best.set(slug, best);
    return best;
  }
}

const lackTheSame = (a: Finding | null, b: Finding | null): boolean =>
  a !== null &&
  b !== null &&
  badness(a) === 2 &&
  badness(b) === 2 &&
  a.missing.length > 0 &&
  a.missing.length === b.missing.length &&
  a.missing.every(({ id, field }, i) => b.missing[i]?.id === id && b.missing[i]?.field === field);
